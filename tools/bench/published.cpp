// The annealer on published and proven grids, beside robust tabu search at equal processor time.
//   bench_published [grey8|grey16|torus|lee|all] [SEEDS] [SECONDS] [--alone] [--every K]
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>
#include <vector>

#include "arrange/chain.hpp"
#include "arrange/lattice.hpp"
#include "arrange/restarts.hpp"
#include "instances.hpp"
#include "published_tables.hpp"
#include "robust_tabu.hpp"

namespace {

using namespace farflung;

struct Wish {
  std::string which = "all";
  int seeds = 3;
  double seconds = 0;  ///< 0: as the table says
  bool rival = true;
  int every = 1;
};

/// Many prints: each on a lattice. One print among blanks: it alone on one, where its copies fill the torus evenly.
std::vector<std::vector<arrange::Held>> lattice_starts(const bench::Torus& torus) {
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

bench::Reached annealed(const bench::Torus& torus, const std::vector<long>& weights, double seconds, Seed seed) {
  const int n = torus.rows * torus.columns;
  const score::Kernel kernel = score::Kernel::table(n, {weights.begin(), weights.end()});
  const score::Model model = score::spread_model(kernel, torus.print, torus.prints);
  arrange::Task task;
  task.model = &model;
  task.freedom = arrange::free_to_move(model);
  const double start = bench::thread_seconds();
  bench::Reached reached{0, 0};
  arrange::restarts(
      task, {lattice_starts(torus), arrange::symmetries_of(kernel, torus.rows, torus.columns)}, seed,
      [&](const arrange::Found& found) {
        std::vector<int> print;
        for (const arrange::Held& held : found.held) print.push_back(torus.print[held.block]);
        const long value = bench::value_of(weights, print);
        const double passed = bench::thread_seconds() - start;
        if (reached.value == 0 || value < reached.value) reached = {value, passed};
        return reached.value > torus.value && passed < seconds;
      },
      [&] { return bench::thread_seconds() - start < seconds; });
  return reached;
}

double gap(long value, long target) {
  return 100.0 * static_cast<double>(value - target) / static_cast<double>(target);
}

struct Tally {
  int rows = 0, reached = 0, ahead = 0, level = 0;
  double worst = 0;
};

void compare(const bench::Torus& torus, double seconds, const Wish& wish, Tally& tally) {
  const std::vector<long> weights = bench::torus_weights(torus.rows, torus.columns);
  std::vector<double> ours, times, theirs;
  for (int seed = 1; seed <= wish.seeds; ++seed) {
    const bench::Reached us = annealed(torus, weights, seconds, {static_cast<std::uint64_t>(seed)});
    ours.push_back(gap(us.value, torus.value));
    times.push_back(us.seconds);
    if (!wish.rival) continue;
    theirs.push_back(
        gap(bench::robust_tabu(torus, weights, seconds, torus.value, {static_cast<std::uint64_t>(seed)}).value,
            torus.value));
  }
  const double our_gap = bench::median(ours);
  std::printf("%-24s %10ld%s  ours %+8.4f %% after %5.2f s", torus.name.c_str(), torus.value, torus.proven ? "*" : " ",
              our_gap, bench::median(times));
  if (wish.rival) std::printf("   tabu %+8.4f %%", bench::median(theirs));
  std::printf(our_gap < -1e-9 ? "   BELOW THE BEST KNOWN\n" : "\n");
  std::fflush(stdout);
  ++tally.rows;
  tally.reached += our_gap < 1e-9 ? 1 : 0;
  tally.worst = std::max(tally.worst, our_gap);
  if (!wish.rival) return;
  tally.ahead += our_gap < bench::median(theirs) - 1e-12 ? 1 : 0;
  tally.level += std::abs(our_gap - bench::median(theirs)) <= 1e-12 ? 1 : 0;
}

void print_tally(const char* name, const Tally& tally, bool rival) {
  std::printf("%s: %d of %d reached, the widest gap %.4f %%", name, tally.reached, tally.rows, tally.worst);
  if (rival) std::printf("; ahead of tabu in %d, level in %d", tally.ahead, tally.level);
  std::printf("\n\n");
}

void lee() {
  for (const bench::Lee& grid : bench::lee_grids()) {
    const int steps =
        arrange::closest_steps(arrange::far_apart(grid.rows, grid.columns, grid.prints), grid.rows, grid.columns);
    std::printf("%2d prints on %2d x %2d: closest copies %d steps apart, known %d\n", grid.prints, grid.rows,
                grid.columns, steps, grid.steps);
  }
}

}  // namespace

int main(int argc, char** argv) {
  Wish wish;
  int given = 0;
  for (int k = 1; k < argc; ++k) {
    if (std::strcmp(argv[k], "--alone") == 0) {
      wish.rival = false;
    } else if (std::strcmp(argv[k], "--every") == 0 && k + 1 < argc) {
      wish.every = std::max(1, std::atoi(argv[++k]));
    } else if (given == 0) {
      wish.which = argv[k], ++given;
    } else if (given == 1) {
      wish.seeds = std::max(1, std::atoi(argv[k])), ++given;
    } else {
      wish.seconds = std::atof(argv[k]);
    }
  }
  const auto wanted = [&](const char* which) { return wish.which == "all" || wish.which == which; };
  const auto seconds = [&](double usual) { return wish.seconds > 0 ? wish.seconds : usual; };
  Tally small, large, many;
  int row = 0;
  for (const bench::Torus& torus : bench::grey_patterns()) {
    if (row++ % wish.every != 0) continue;
    if (torus.rows == 8 && wanted("grey8")) compare(torus, seconds(1), wish, small);
    if (torus.rows == 16 && wanted("grey16")) compare(torus, seconds(20), wish, large);
  }
  for (const bench::Torus& torus : bench::many_prints()) {
    if (wanted("torus")) compare(torus, seconds(torus.rows * torus.columns <= 100 ? 2 : 10), wish, many);
  }
  if (small.rows > 0) print_tally("8 x 8 grey patterns", small, wish.rival);
  if (large.rows > 0) print_tally("16 x 16 grey patterns", large, wish.rival);
  if (many.rows > 0) print_tally("many prints on a torus", many, wish.rival);
  if (wanted("lee")) lee();
  return 0;
}
