#include "arrange/far_starts.hpp"

#include <algorithm>
#include <map>

#include "arrange/lattice.hpp"
#include "arrange/run_all.hpp"

namespace farflung::arrange {
namespace {

constexpr int kByLot = 3;

}  // namespace

FarStarts::FarStarts(const Task& task, const score::Places& places, const std::vector<Held>& held, const Trying& trying,
                     Seed seed)
    : task_(task),
      places_(places),
      lattice_(places),
      search_(
          task, [this](int i, int j) { return lattice_.rank(i, j); }, lattice_.ranks()),
      prints_(prints_of_blocks(*task.model)) {
  std::vector<std::vector<Held>> starts{held};
  Rng rng(derived(seed, 0));
  for (int k = 0; k < kByLot; ++k) starts.push_back(random_start(task, held, rng));
  starts.push_back(lattice(held));
  std::vector<Apart> raised(starts.size());
  run_all(static_cast<int>(starts.size()), trying.threads, [&](int k) {
    if (starts[k].empty()) return;
    raised[k] = search_.raised(starts[k], trying.patience, derived(seed, k + 1), trying.go_on);
  });
  int rank = 0;
  for (const Apart& each : raised) rank = std::max(rank, each.rank);
  for (Apart& each : raised) {
    if (!each.held.empty() && each.rank == rank) found_.push_back(std::move(each.held));
  }
  const int n = places.count();
  clearance_ = std::make_shared<Clearance>(
      Clearance{nearer_than(n, rank, [&](int i, int j) { return lattice_.rank(i, j); }), prints_, rank});
}

/// Each print on a class of the parting that leaves copies the furthest apart; none where the places are no whole grid
/// of blocks that hold one print each and may lie anywhere.
std::vector<Held> FarStarts::lattice(const std::vector<Held>& held) const {
  const std::size_t n = held.size();
  const Freedom& freedom = task_.freedom;
  const bool all_free = freedom.pools.size() == 1 && freedom.pools[0].places.size() == n &&
                        freedom.pools[0].blocks.size() == n && prints_.size() == n;
  const bool single =
      std::all_of(prints_.begin(), prints_.end(), [](const auto& prints) { return prints.size() == 1; });
  if (!places_.full_grid || !all_free || !single) return {};
  std::vector<int> print;
  std::vector<bool> known(task_.model->prints, false);
  for (const std::vector<int>& of_block : prints_) {
    print.push_back(of_block.front());
    known[of_block.front()] = true;
  }
  const int classes = static_cast<int>(std::count(known.begin(), known.end(), true));
  std::vector<Held> best;
  int furthest = -1;
  for (const Parting& parting : lattice_partings(places_.rows, places_.columns, classes)) {
    std::vector<Held> start = lattice_start(parting, print);
    for (Held& each : start) each.form = freedom.forms[each.block].front();
    const int rank = search_.closest(start);
    if (rank <= furthest) continue;
    furthest = rank;
    best = std::move(start);
  }
  return best;
}

std::vector<Held> FarStarts::cleared(const std::vector<Held>& start, double patience, Seed seed,
                                     const std::function<bool()>& go_on) const {
  Apart near = search_.at_least(start, clearance_->rank, patience, seed, go_on);
  if (near.rank >= clearance_->rank) return std::move(near.held);
  Rng rng(seed);
  return reordered(found_[rng.below(static_cast<std::uint32_t>(found_.size()))], rng);
}

/// Where blocks hold one print each and may lie anywhere: whole prints change places.
std::vector<Held> FarStarts::reordered(std::vector<Held> held, Rng& rng) const {
  const Freedom& freedom = task_.freedom;
  std::map<int, std::vector<int>> places;  // by kind
  for (int i = 0; i < static_cast<int>(held.size()); ++i) {
    if (prints_[held[i].block].size() > 1 || freedom.pool_of_place[i] == kNone) return held;
    places[freedom.kind[held[i].block]].push_back(i);
  }
  if (freedom.pools.size() > 1) return held;
  std::map<std::size_t, std::vector<int>> kinds;  // by copies
  for (const auto& [kind, of_kind] : places) kinds[of_kind.size()].push_back(kind);
  const std::vector<Held> before = held;
  for (auto& [copies, of_copies] : kinds) {
    std::vector<int> order = of_copies;
    rng.shuffle(std::span<int>(order));
    for (std::size_t k = 0; k < order.size(); ++k) {
      const std::vector<int>& from = places[of_copies[k]];
      for (std::size_t c = 0; c < copies; ++c) held[places[order[k]][c]] = before[from[c]];
    }
  }
  return held;
}

}  // namespace farflung::arrange
