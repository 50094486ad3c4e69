// The layout among all others: shuffles, and how many of them it beats.
#include <numeric>

#include "score/measure.hpp"

namespace farflung::score {
namespace {

constexpr int kShuffles = 10'000;
constexpr Seed kShuffleSeed{0x5eed'ed'0c'0a57ULL};

}  // namespace

setting::Arrangement Measure::shuffled(Rng& rng) const {
  setting::Arrangement arrangement = quilt_.layout;
  for (const Class& each : classes_) {
    std::vector<int> blocks = each.blocks;
    rng.shuffle(std::span<int>(blocks));
    for (std::size_t k = 0; k < each.places.size(); ++k) {
      const int cell = places_.cell[each.places[k]];
      const std::vector<Turn>& turns = quilt_.patterns[quilt_.blocks[blocks[k]].pattern].turns;
      arrangement.block[cell] = blocks[k];
      arrangement.turn[cell] = turns[rng.below(static_cast<std::uint32_t>(turns.size()))];
    }
  }
  return arrangement;
}

double Measure::beats(const setting::Arrangement& arrangement) const {
  if (places_.count() < 2) return 0.5;
  const Score mine = score(arrangement);
  Rng rng(kShuffleSeed);
  double worse = 0;
  for (int k = 0; k < kShuffles; ++k) {
    const setting::Arrangement other = shuffled(rng);
    Score theirs;
    count_contacts(other, theirs.terms);
    if (theirs.terms.touches == mine.terms.touches) theirs = score(other);  // else F does not matter
    worse += better(mine, theirs) ? 1 : (better(theirs, mine) ? 0 : 0.5);
  }
  return worse / kShuffles;
}

}  // namespace farflung::score
