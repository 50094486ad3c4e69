// The search under `better_layouts`: annealing over lists of swaps.
#pragma once

#include <vector>

#include "base/rng.hpp"
#include "swap/rearrangement.hpp"

namespace farflung::swap {

/// A layout met on the way; empty where none was.
struct Best {
  Worth worth;
  std::vector<Held> held;
};

/// The best layouts met, by half swaps from the wall.
class Bests {
 public:
  Bests(int most_half_swaps, const std::vector<Held>& wall) : by_work_(most_half_swaps + 1) { by_work_[0].held = wall; }

  int most() const { return static_cast<int>(by_work_.size()) - 1; }
  /// Keeps it unless one that takes no more work is as good, or it takes more than most().
  void offer(const Rearrangement& layout);
  /// Of each two of equal work the better.
  void merge(const Bests& other);

  /// The best of at most so many half swaps.
  const Best& within(int half_swaps) const;

 private:
  std::vector<Best> by_work_;
};

/// A touch at a price that no gain in F reaches, as the score has it.
inline constexpr score::TouchPrice kTouchFirst{1 << 20, 1 << 10, 1 << 5};

/// Every single move that may be made from here, with its price; swaps in their best turns.
template <typename Use>
void for_each_move(const Rearrangement& layout, Use use) {
  const Freedom& freedom = layout.freedom();
  for (std::size_t i = 0; i < freedom.sites.size(); ++i) {
    const int a = freedom.sites[i];
    for (std::size_t j = i + 1; j < freedom.sites.size(); ++j) {
      const int b = freedom.sites[j];
      if (freedom.klass[a] == freedom.klass[b]) use(layout.best_swap(a, b));
    }
    if (freedom.forms[layout.held()[a].block].size() > 1) use(layout.best_turn(a));
  }
}

/// The best single swap, made again and again until so much work is done or nothing is gained: the rival, and the
/// start.
void best_swap_again_and_again(Rearrangement& layout, int most_half_swaps, Bests& bests);

/// Anneals lists of k swaps for k = 1, 2, ...: a swap of the list is taken back and the best of a sample of others made
/// instead. What it meets goes into `bests`, from which it starts. Deterministic by seed.
void anneal_lists(Rearrangement& layout, Seed seed, int rounds, Bests& bests);

}  // namespace farflung::swap
