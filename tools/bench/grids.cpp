#include "grids.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <string>
#include <vector>

#include "arrange/apart.hpp"
#include "arrange/lattice.hpp"
#include "arrange/restarts.hpp"
#include "instances.hpp"
#include "published_tables.hpp"
#include "robust_tabu.hpp"
#include "table.hpp"

namespace farflung::bench {
namespace {

/// Many prints: each on a lattice. One print among blanks: it alone on one, where its copies fill the torus evenly.
std::vector<std::vector<arrange::Held>> lattice_starts(const Torus& torus) {
  const int n = torus.rows * torus.columns;
  const int copies = static_cast<int>(std::count(torus.print.begin(), torus.print.end(), 0));
  std::vector<std::vector<arrange::Held>> starts;
  if (torus.prints == 1 && n % copies != 0) return starts;
  const int classes = torus.prints > 1 ? torus.prints : n / copies;
  for (const arrange::Parting& parting : arrange::lattice_partings(torus.rows, torus.columns, classes)) {
    starts.push_back(arrange::lattice_start(parting, torus.print));
  }
  return starts;
}

struct Ours {
  Reached reached;
  std::vector<int> print;  ///< by place
};

/// Stops at the best known value, where it is proven to be the least, and else at anything below it.
Ours searched(const Torus& torus, const std::vector<long>& weights, double seconds, Seed seed) {
  const double start = thread_seconds();
  const int n = torus.rows * torus.columns;
  const score::Kernel kernel = score::Kernel::table(n, {weights.begin(), weights.end()});
  const score::Model model = score::spread_model(kernel, torus.print, torus.prints);
  arrange::Task task;
  task.model = &model;
  task.freedom = arrange::free_to_move(model);
  Ours ours;
  arrange::restarts(
      task, {lattice_starts(torus), arrange::symmetries_of(kernel, torus.rows, torus.columns)}, seed,
      [&](const arrange::Found& found) {
        std::vector<int> print;
        for (const arrange::Held& held : found.held) print.push_back(torus.print[held.block]);
        const long value = value_of(weights, print);
        if (ours.print.empty() || value < ours.reached.value) ours = {{value, thread_seconds() - start}, print};
        return ours.reached.value > torus.value && thread_seconds() - start < seconds;
      },
      [&] { return thread_seconds() - start < seconds; });
  return ours;
}

double gap(long value, long target) {
  return 100.0 * static_cast<double>(value - target) / static_cast<double>(target);
}

struct Tally {
  int rows = 0, reached = 0, below = 0, ahead = 0, level = 0;
  double widest = 0, slowest = 0;
};

void print_cells(const Ours& ours, const Torus& torus) {
  for (int row = 0; row < torus.rows; ++row) {
    std::string line = "    ";
    for (int column = 0; column < torus.columns; ++column) {
      line += ours.print[row * torus.columns + column] == 0 ? " #" : " .";
    }
    print_heading(line);
  }
}

void compare(const Torus& torus, double seconds, const Trial& trial, Tally& tally) {
  const std::vector<long> weights = torus_weights(torus.rows, torus.columns);
  std::vector<double> gaps, times, rivals;
  Ours best;
  for (int seed = 1; seed <= trial.seeds; ++seed) {
    const Seed chance{static_cast<std::uint64_t>(seed)};
    const Ours ours = searched(torus, weights, seconds, chance);
    gaps.push_back(gap(ours.reached.value, torus.value));
    times.push_back(ours.reached.seconds);
    if (best.print.empty() || ours.reached.value < best.reached.value) best = ours;
    if (!trial.rival) continue;
    const double as_long = ours.reached.value > torus.value ? seconds : ours.reached.seconds;
    const double theirs = std::max(trial.rival_least, as_long);
    rivals.push_back(gap(robust_tabu(torus, weights, theirs, torus.value, chance).value, torus.value));
  }
  const double middle = median(gaps);
  std::string found = text("%+.4f %% after %.2f s", middle, median(times));
  if (trial.rival) found += text("; tabu %+.4f %%", median(rivals));
  if (best.reached.value < torus.value) found += text("; found %ld", best.reached.value);
  print_row(torus.name, text("%ld%s", torus.value, torus.proven ? " proven" : ""), found);
  if (trial.cells && best.reached.value < torus.value) print_cells(best, torus);
  ++tally.rows;
  tally.reached += middle < 1e-9 ? 1 : 0;
  tally.below += middle < -1e-9 ? 1 : 0;
  tally.widest = std::max(tally.widest, middle);
  tally.slowest = std::max(tally.slowest, median(times));
  if (!trial.rival) return;
  tally.ahead += middle < median(rivals) - 1e-12 ? 1 : 0;
  tally.level += std::abs(middle - median(rivals)) <= 1e-12 ? 1 : 0;
}

void print_tally(const std::string& reach, const Tally& tally, const Trial& trial, bool reached) {
  print_row("values reached", reach,
            text("%d of %d (%d below the best known), widest gap %.4f %%, slowest %.2f s", tally.reached, tally.rows,
                 tally.below, tally.widest, tally.slowest),
            verdict(reached));
  if (!trial.rival) return;
  print_row(
      "beside robust tabu search", "ahead",
      text("ahead in %d, level in %d, behind in %d", tally.ahead, tally.level, tally.rows - tally.ahead - tally.level));
}

/// The closest two copies, in steps, that starts drawn by lot are brought to, one after another.
int raised_by_lot(const Lee& grid, double seconds, Seed seed) {
  const double start = thread_seconds();
  const int n = grid.rows * grid.columns;
  std::vector<int> print;
  for (int k = 0; k < n; ++k) print.push_back(k % grid.prints);
  const score::Model model =
      score::spread_model(score::Kernel::table(n, std::vector<double>(n * n)), print, grid.prints);
  arrange::Task task;
  task.model = &model;
  task.freedom = arrange::free_to_move(model);
  const auto steps = [&](int i, int j) {
    return std::abs(i / grid.columns - j / grid.columns) + std::abs(i % grid.columns - j % grid.columns) - 1;
  };
  const arrange::ApartSearch search(task, steps, grid.rows + grid.columns - 1);
  const auto go_on = [&] { return thread_seconds() - start < seconds; };
  Rng rng(seed);
  int best = 0;
  for (std::uint64_t run = 1; go_on() && best < grid.steps; ++run) {
    const std::vector<arrange::Held> by_lot =
        arrange::random_start(task, std::vector<arrange::Held>(n, arrange::Held{0, 0}), rng);
    best = std::max(best, search.at_least(by_lot, grid.steps - 1, 400'000, derived(seed, run), go_on).rank + 1);
  }
  return best;
}

}  // namespace

void print_grey_rows(int side, const Trial& trial) {
  print_heading(text("One print on a torus of %d x %d, %d seeds", side, side, trial.seeds));
  Tally tally;
  int row = 0;
  for (const Torus& torus : grey_patterns()) {
    if (torus.rows != side || row++ % trial.every != 0) continue;
    compare(torus, trial.seconds > 0 ? trial.seconds : (side == 8 ? 1 : 20), trial, tally);
  }
  if (side == 8) {
    print_tally("all, in 1 s", tally, trial, tally.reached == tally.rows && tally.slowest <= 1);
  } else {
    print_tally("90 %, 0.05 %", tally, trial, 10 * tally.reached >= 9 * tally.rows && tally.widest <= 0.05);
  }
}

void print_many_print_rows(const Trial& trial) {
  print_heading(text("Many prints on a torus, %d seeds", trial.seeds));
  Tally tally;
  bool short_of = false;
  int row = 0;
  for (const Torus& torus : many_prints()) {
    if (row++ % trial.every != 0) continue;
    const bool small = torus.rows * torus.columns <= 100;
    Tally one;
    compare(torus, trial.seconds > 0 ? trial.seconds : (small ? 2 : 10), trial, one);
    short_of |= one.widest > (small ? 1e-9 : 0.1);
    tally = {tally.rows + 1,
             tally.reached + one.reached,
             tally.below + one.below,
             tally.ahead + one.ahead,
             tally.level + one.level,
             std::max(tally.widest, one.widest),
             std::max(tally.slowest, one.slowest)};
  }
  print_tally("all", tally, trial, !short_of);
}

/// The least distance between two places of one class, in steps (rows and columns).
int closest_steps(const arrange::Parting& parting, const Lee& grid) {
  int closest = std::numeric_limits<int>::max();
  for (int i = 0; i < grid.rows * grid.columns; ++i) {
    for (int j = i + 1; j < grid.rows * grid.columns; ++j) {
      if (parting[i] != parting[j]) continue;
      const int down = std::abs(i / grid.columns - j / grid.columns);
      closest = std::min(closest, down + std::abs(i % grid.columns - j % grid.columns));
    }
  }
  return closest;
}

/// With each print on a lattice of its own: what the best of all lattices gives.
int most_steps_on_lattices(const Lee& grid) {
  int most = 0;
  for (const arrange::Parting& parting : arrange::lattice_partings(grid.rows, grid.columns, grid.prints)) {
    most = std::max(most, closest_steps(parting, grid));
  }
  return most;
}

void print_lee_rows(const Trial& trial) {
  print_heading(text("Closest two copies of any print on a bounded grid, in steps, %d seeds", trial.seeds));
  for (const Lee& grid : lee_grids()) {
    const int steps = most_steps_on_lattices(grid);
    std::vector<double> by_lot, times;
    for (int seed = 1; seed <= trial.seeds; ++seed) {
      const double start = thread_seconds();
      by_lot.push_back(raised_by_lot(grid, trial.seconds > 0 ? trial.seconds : 20, {static_cast<std::uint64_t>(seed)}));
      times.push_back(thread_seconds() - start);
    }
    print_row(text("%d prints on %d x %d", grid.prints, grid.rows, grid.columns), text("%d", grid.steps),
              text("%d; from starts by lot %g after %.2f s", steps, median(by_lot), median(times)),
              verdict(steps >= grid.steps));
  }
}

}  // namespace farflung::bench
