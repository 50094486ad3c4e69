#include "arrange/restarts.hpp"

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <numeric>

namespace farflung::arrange {
namespace {

/// The least number of steps between two cells of one print on a grid whose prints are (a row + b column) modulo
/// prints.
int closest_on_lattice(int rows, int columns, int prints, int a, int b) {
  int closest = std::numeric_limits<int>::max();
  for (int down = 0; down < rows; ++down) {
    for (int across = down == 0 ? 1 : 1 - columns; across < columns; ++across) {
      if (((a * down + b * across) % prints + prints) % prints == 0)
        closest = std::min(closest, down + std::abs(across));
    }
  }
  return closest;
}

struct Lattice {
  int a = 0, b = 0, closest = 0;
};

Lattice best_lattice(int rows, int columns, int prints) {
  Lattice best;
  for (int a = 0; a < prints; ++a) {
    for (int b = 0; b < prints; ++b) {
      const int closest = closest_on_lattice(rows, columns, prints, a, b);
      if (closest > best.closest) best = {a, b, closest};
    }
  }
  return best;
}

}  // namespace

Freedom free_to_move(const score::Model& model) {
  Freedom freedom;
  freedom.pools.resize(1);
  freedom.pools[0].places.resize(model.places);
  std::iota(freedom.pools[0].places.begin(), freedom.pools[0].places.end(), 0);
  freedom.pool_of_place.assign(model.places, 0);
  for (int b = 0; b < static_cast<int>(model.pieces.size()); ++b) {
    freedom.pools[0].blocks.push_back(b);
    freedom.forms.push_back({0});
    freedom.kind.push_back(model.pieces[b].prints.front() + 1);
  }
  return freedom;
}

void restarts(const Task& task, Seed seed, const std::function<bool(const Found&)>& found,
              const std::function<bool()>& go_on) {
  Rng rng(seed);
  std::vector<Held> held(task.model->places);
  for (int i = 0; i < task.model->places; ++i) held[i] = {i, 0};
  std::vector<Held> start = random_start(task, held, rng);
  const Heat heat = sample_heat(task, start, derived(seed, 1));
  Heat reheat = heat;
  reheat.first = heat.first / 2;
  Found best;
  double best_F = 0;
  double proposals = 600.0 * task.model->places;
  for (std::uint64_t run = 0;; ++run) {
    const bool again = run % 2 == 1;
    const Found now = anneal(task, again ? best.held : random_start(task, held, rng), again ? reheat : heat,
                             {static_cast<std::int64_t>(proposals), {}}, derived(seed, 10 + run),
                             [&](const Standing&) { return go_on(); });
    const double F = score::Pricer(*task.model, now.held, {}).F();
    if (best.held.empty() || F < best_F) {
      best = now;
      best_F = F;
    }
    if (!found(now) || !go_on()) return;
    if (again) proposals *= 1.25;
  }
}

std::vector<int> far_apart(int rows, int columns, int prints) {
  const Lattice best = best_lattice(rows, columns, prints);
  std::vector<int> print;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) print.push_back((best.a * row + best.b * column) % prints);
  }
  return print;
}

int closest_in_steps(int rows, int columns, int prints) { return best_lattice(rows, columns, prints).closest; }

}  // namespace farflung::arrange
