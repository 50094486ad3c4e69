// Parting errands into rounds: what a draw by lot cannot find is searched for, and whether there is more is proved.
#include "swap/cycles.hpp"

#include <map>
#include <set>

#include <gtest/gtest.h>

#include "base/rng.hpp"

namespace farflung::swap {
namespace {

/// Make-ups that are held and wanted `copies` times each, handed out by chance; who has what it wants has no errand.
std::vector<Errand> mixed_up(int make_ups, int copies, Seed seed) {
  Rng rng(seed);
  std::vector<int> holds;
  for (int i = 0; i < make_ups * copies; ++i) holds.push_back(i / copies);
  std::vector<int> wants = holds;
  rng.shuffle(std::span<int>(wants));
  std::vector<Errand> errands;
  for (int place = 0; place < static_cast<int>(holds.size()); ++place) {
    if (holds[place] != wants[place]) errands.push_back({place, holds[place], wants[place]});
  }
  return errands;
}

void expect_parted(const std::vector<Errand>& errands, const Rounds& parted) {
  std::map<int, Errand> by_place;
  for (const Errand& errand : errands) by_place[errand.place] = errand;
  std::set<int> settled;
  for (const Round& round : parted.rounds) {
    for (std::size_t i = 0; i < round.size(); ++i) {
      EXPECT_TRUE(settled.insert(round[i]).second) << "place " << round[i] << " stands in two rounds";
      const Errand& next = by_place.at(round[(i + 1) % round.size()]);
      EXPECT_EQ(by_place.at(round[i]).holds, next.wants) << "from place " << round[i];
    }
  }
  EXPECT_EQ(settled.size(), errands.size());
}

TEST(Rounds, HoldEveryErrandOnceAndEachBlockGoesWhereItIsWanted) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const std::vector<Errand> errands =
        mixed_up(4 + static_cast<int>(seed % 9), 1 + static_cast<int>(seed % 4), Seed{seed});
    const Rounds parted = most_rounds(errands);
    expect_parted(errands, parted);
    EXPECT_TRUE(parted.proven) << "seed " << seed;
  }
}

TEST(Rounds, ThatNoDrawByLotFindsAreSearchedForUntilThereAreProvenToBeNoMore) {
  // Rare: of some seventy such walls, luck does not do for one.
  const struct {
    std::uint64_t seed;
    std::size_t rounds;
  } hard[] = {{48, 21}, {203, 19}, {460, 19}};
  for (const auto& wall : hard) {
    const std::vector<Errand> errands = mixed_up(30, 3, Seed{wall.seed});
    const Rounds parted = most_rounds(errands);
    expect_parted(errands, parted);
    EXPECT_TRUE(parted.proven);
    EXPECT_GT(parted.branches, 0);
    EXPECT_EQ(parted.rounds.size(), wall.rounds);
    const Rounds unsearched = most_rounds(errands, 0);
    expect_parted(errands, unsearched);
    EXPECT_FALSE(unsearched.proven);
    EXPECT_LE(unsearched.rounds.size(), parted.rounds.size());
  }
}

TEST(Rounds, ThatAreNotProvenSaySoAndAreWholeAllTheSame) {
  const std::vector<Errand> errands = mixed_up(30, 3, Seed{133});
  const Rounds parted = most_rounds(errands);
  expect_parted(errands, parted);
  EXPECT_FALSE(parted.proven);
  EXPECT_GT(parted.branches, 1);
}

TEST(Rounds, OfNoErrandsAreNone) {
  const Rounds parted = most_rounds({});
  EXPECT_TRUE(parted.rounds.empty());
  EXPECT_TRUE(parted.proven);
}

}  // namespace
}  // namespace farflung::swap
