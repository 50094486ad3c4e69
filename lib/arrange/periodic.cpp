#include "arrange/periodic.hpp"

#include <algorithm>
#include <numeric>

#include "arrange/one_print.hpp"
#include "arrange/restarts.hpp"

namespace farflung::arrange {
namespace {

constexpr int kDraws = 100;                  // of a symmetry whose orbits are alike
constexpr std::int64_t kOrbitPatience = 20;  // steps an orbit

using Orbits = std::vector<std::vector<int>>;

Orbits orbits_of(const Symmetry& map) {
  Orbits orbits;
  std::vector<bool> seen(map.size(), false);
  for (int i = 0; i < static_cast<int>(map.size()); ++i) {
    if (seen[i]) continue;
    orbits.emplace_back();
    for (int j = i; !seen[j]; j = map[j]) {
      seen[j] = true;
      orbits.back().push_back(j);
    }
  }
  return orbits;
}

/// What filling two orbits weighs, by orbit, by orbit; on the diagonal what one weighs by itself.
std::vector<double> weights_between(const Orbits& orbits, const score::Kernel& kernel) {
  std::vector<double> weights;
  for (const std::vector<int>& a : orbits) {
    for (const std::vector<int>& b : orbits) {
      double sum = 0;
      for (const int i : a) {
        for (const int j : b) sum += kernel.at(i, j);
      }
      weights.push_back(sum);
    }
  }
  return weights;
}

/// Orbits of one size of which none is better than another by itself, so that only pairs of them count.
bool alike(const Orbits& orbits, const std::vector<double>& weights) {
  for (std::size_t k = 0; k < orbits.size(); ++k) {
    if (orbits[k].size() != orbits[0].size() || weights[k * (orbits.size() + 1)] != weights[0]) return false;
  }
  return true;
}

/// The best orbits found for a print to fill, so many of them.
std::vector<bool> filled_orbits(std::vector<double> weights, std::size_t orbits, std::size_t fill, Rng& rng,
                                const std::function<bool()>& go_on) {
  const int n = static_cast<int>(orbits);
  for (std::size_t k = 0; k < orbits; ++k) weights[k * (orbits + 1)] = 0;
  std::vector<int> print(orbits, kNone);
  std::fill(print.begin(), print.begin() + static_cast<std::ptrdiff_t>(fill), 0);
  const score::Kernel kernel = score::Kernel::table(n, std::move(weights));
  const score::Model model = score::spread_model(kernel, print, 1);
  Task task;
  task.model = &model;
  task.freedom = free_to_move(model);
  const std::vector<Held> start = random_start(task, std::vector<Held>(orbits), rng);
  std::vector<bool> filled;
  for (const Held& held : OnePrint(task).improved(start, kOrbitPatience * n, {rng.next()}, go_on)) {
    filled.push_back(print[held.block] != kNone);
  }
  return filled;
}

/// The places that copies take: whole orbits, and by lot what makes their number right.
std::vector<bool> full_places(const Orbits& orbits, const std::vector<bool>& filled, std::size_t places,
                              std::size_t copies, Rng& rng) {
  std::vector<bool> full(places, false);
  std::size_t count = 0;
  for (std::size_t k = 0; k < orbits.size(); ++k) {
    if (!filled[k]) continue;
    for (const int place : orbits[k]) full[place] = true;
    count += orbits[k].size();
  }
  while (count != copies) {
    const std::uint32_t place = rng.below(static_cast<std::uint32_t>(places));
    const bool wanted = count < copies;
    if (full[place] == wanted) continue;
    full[place] = wanted;
    wanted ? ++count : --count;
  }
  return full;
}

}  // namespace

std::vector<Held> periodic_start(const Task& task, const std::vector<Symmetry>& symmetries,
                                 const std::vector<Held>& by_lot, Rng& rng, const std::function<bool()>& go_on) {
  std::vector<Held> copies, blanks;
  for (const Held& held : by_lot) {
    (task.model->pieces[held.block].prints.front() != kNone ? copies : blanks).push_back(held);
  }
  for (int draw = 0; draw < kDraws; ++draw) {
    const Orbits orbits = orbits_of(symmetries[rng.below(static_cast<std::uint32_t>(symmetries.size()))]);
    const std::size_t size = orbits.front().size();
    if (size < 2) continue;
    const std::size_t fill = (copies.size() + rng.below(2) * (size / 2)) / size;  // rounded down or to the nearest
    if (fill == 0 || fill >= orbits.size()) continue;
    const std::vector<double> weights = weights_between(orbits, task.model->spread);
    if (!alike(orbits, weights)) continue;
    const std::vector<bool> filled = filled_orbits(weights, orbits.size(), fill, rng, go_on);
    const std::vector<bool> full = full_places(orbits, filled, by_lot.size(), copies.size(), rng);
    std::vector<Held> held;
    held.reserve(full.size());
    std::size_t copy = 0, blank = 0;
    for (const bool is_full : full) held.push_back(is_full ? copies[copy++] : blanks[blank++]);
    return held;
  }
  return by_lot;
}

}  // namespace farflung::arrange
