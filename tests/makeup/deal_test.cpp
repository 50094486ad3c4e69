#include "makeup/deal.hpp"

#include <cmath>
#include <map>
#include <set>

#include <gtest/gtest.h>

#include "makeup/cuts.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"

namespace farflung::makeup {
namespace {

TEST(Deal, FillsEverySlotAndOverallAsEquallyAsTheCountsAllow) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    support::Wanted wanted;
    wanted.rows = 5;
    wanted.columns = 7;
    wanted.prints = 9;
    wanted.patterns = {support::four_patch()};
    const auto blocks = deal(support::undealt_quilt({seed}, wanted), {.seed = {seed}});
    ASSERT_TRUE(blocks.ok());
    std::map<int, int> copies;
    std::map<std::pair<int, int>, int> in_slot;
    for (const block::Block& block : *blocks) {
      EXPECT_EQ(std::set<int>(block.prints.begin(), block.prints.end()).size(), 4u) << "all differ";
      for (int slot = 0; slot < 4; ++slot) {
        ++copies[block.prints[slot]];
        ++in_slot[{block.prints[slot], slot}];
      }
    }
    for (const auto& [print, count] : copies) EXPECT_LE(std::abs(count - 140.0 / 9), 1);
    for (const auto& [print, count] : in_slot) EXPECT_LE(std::abs(count - 35.0 / 9), 1);
  }
}

TEST(Deal, AsManyPrintsAsSlotsLieInEveryBlock) {
  for (const block::Pattern& pattern : {support::four_patch(), support::half_square(), support::nine_patch()}) {
    support::Wanted wanted;
    wanted.rows = wanted.columns = 5;
    wanted.prints = static_cast<int>(pattern.slots.size());
    wanted.patterns = {pattern};
    const auto blocks = deal(support::undealt_quilt({4}, wanted), {.seed = {4}});
    ASSERT_TRUE(blocks.ok()) << pattern.name << blocks.problems().front().text();
    std::map<std::pair<int, int>, int> in_slot;
    for (const block::Block& block : *blocks) {
      EXPECT_EQ(std::set<int>(block.prints.begin(), block.prints.end()).size(), pattern.slots.size());
      for (int slot = 0; slot < wanted.prints; ++slot) ++in_slot[{block.prints[slot], slot}];
    }
    for (const auto& [print, count] : in_slot) EXPECT_NEAR(count, 25.0 / wanted.prints, 4) << "each in every slot";
  }
}

TEST(Deal, LetsEveryTwoPrintsMeetEquallyOftenWhereThatCanBe) {
  support::Wanted wanted;  // 21 blocks of two prints of seven: each of the 21 pairs once
  wanted.rows = 3;
  wanted.columns = 7;
  wanted.prints = 7;
  wanted.patterns = {support::half_square()};
  const auto blocks = deal(support::undealt_quilt({2}, wanted), {.seed = {2}});
  ASSERT_TRUE(blocks.ok());
  std::set<std::set<int>> pairs;
  for (const block::Block& block : *blocks) pairs.insert({block.prints[0], block.prints[1]});
  EXPECT_EQ(pairs.size(), 21u);
}

TEST(Deal, TellsAdjoiningPatchesApart) {
  support::Wanted wanted;
  wanted.rows = wanted.columns = 4;
  wanted.prints = 4;
  wanted.patterns = {support::half_square()};
  quilt::Quilt quilt = support::undealt_quilt({3}, wanted);
  const colour::Lab labs[] = {{40, 30, 0}, {41, 31, 0}, {80, -30, 0}, {79, -31, 0}};  // two pairs alike
  for (int p = 0; p < 4; ++p) quilt.prints[p].features.lab = labs[p];
  const auto blocks = deal(quilt, {.seed = {1}});
  ASSERT_TRUE(blocks.ok());
  int alike = 0;
  for (const block::Block& block : *blocks) alike += block.prints[0] / 2 == block.prints[1] / 2 ? 1 : 0;
  EXPECT_LE(alike, 4);  // by chance a third of 16; equal meetings ask for as many, telling apart for none
}

TEST(Deal, LeavesSewnAndKeptBlocksAndNamedSlotsAsTheyAre) {
  support::Wanted wanted;
  wanted.patterns = {support::uneven_rails()};
  wanted.background = 0;
  quilt::Quilt quilt = support::random_quilt({8}, wanted);
  quilt.blocks[2].sewn = true;
  quilt.layout.kept[5] = true;
  const auto blocks = deal(quilt, {.seed = {9}});
  ASSERT_TRUE(blocks.ok());
  EXPECT_EQ((*blocks)[2].prints, quilt.blocks[2].prints);
  EXPECT_EQ((*blocks)[quilt.layout.block[5]].prints, quilt.blocks[quilt.layout.block[5]].prints);
  for (const block::Block& block : *blocks) EXPECT_EQ(block.prints[1], kNone);
}

TEST(Deal, StaysWithinTheClothOfAPrint) {
  support::Wanted wanted;
  wanted.rows = wanted.columns = 4;
  wanted.prints = 5;
  const quilt::Quilt quilt = support::undealt_quilt({1}, wanted);
  const auto blocks = deal(quilt, {.seed = {1}, .prints = {}, .most = {1, 9, 9, 2, 9}});
  ASSERT_TRUE(blocks.ok());
  std::map<int, int> copies;
  for (const block::Block& block : *blocks) ++copies[block.prints[0]];
  EXPECT_EQ(copies[0], 1);
  EXPECT_EQ(copies[3], 2);
  for (const int p : {1, 2, 4}) EXPECT_NEAR(copies[p], 13.0 / 3, 1);
  EXPECT_FALSE(deal(quilt, {.seed = {1}, .prints = {}, .most = {1, 1, 1, 1, 1}}).ok());
}

TEST(Deal, SpreadsAScarcePrintOverAllSlotsAndTheOthersShareTheRest) {
  for (std::uint64_t seed = 1; seed <= 3; ++seed) {
    support::Wanted wanted;
    wanted.rows = 6;
    wanted.columns = 5;
    wanted.prints = 10;
    wanted.patterns = {support::four_patch()};
    std::vector<int> most(10, 30);
    most[2] = 6;
    most[7] = 1;
    const auto blocks = deal(support::undealt_quilt({seed}, wanted), {.seed = {seed}, .prints = {}, .most = most});
    ASSERT_TRUE(blocks.ok());
    std::map<int, int> copies;
    std::map<std::pair<int, int>, int> in_slot;
    for (const block::Block& block : *blocks) {
      EXPECT_EQ(std::set<int>(block.prints.begin(), block.prints.end()).size(), 4u);
      for (int slot = 0; slot < 4; ++slot) ++copies[block.prints[slot]], ++in_slot[{block.prints[slot], slot}];
    }
    EXPECT_EQ(copies[2], 6);
    EXPECT_EQ(copies[7], 1);
    for (const auto& [print, count] : copies) {
      if (print != 2 && print != 7) {
        EXPECT_NEAR(count, 113.0 / 8, 1);
      }
      for (int slot = 0; slot < 4; ++slot) EXPECT_NEAR((in_slot[{print, slot}]), count / 4.0, 1) << print;
    }
  }
}

TEST(Deal, FailsWhereABlockHasMoreSlotsThanThereArePrints) {
  support::Wanted wanted;
  wanted.prints = 3;
  wanted.patterns = {support::four_patch()};
  const auto blocks = deal(support::undealt_quilt({1}, wanted), {});
  ASSERT_FALSE(blocks.ok());
  EXPECT_EQ(blocks.problems().front().at, "/patterns/0");
}

TEST(Balance, KnowsWhatAnExchangeChanges) {
  support::Wanted wanted;
  wanted.patterns = {support::four_patch(), support::half_square()};
  wanted.prints = 5;
  const quilt::Quilt quilt = support::random_quilt({1}, wanted);
  Prints prints;
  for (const block::Block& block : quilt.blocks) prints.push_back(block.prints);
  Balance balance(quilt, prints);
  Rng rng({1});
  for (int k = 0; k < 2000; ++k) {
    const int a = static_cast<int>(rng.below(static_cast<std::uint32_t>(prints.size())));
    const int b = static_cast<int>(rng.below(static_cast<std::uint32_t>(prints.size())));
    if (quilt.blocks[a].pattern != quilt.blocks[b].pattern || a == b) continue;
    const int slot = static_cast<int>(rng.below(static_cast<std::uint32_t>(prints[a].size())));
    const Mix before = balance.mix();
    const Mix change = balance.delta(a, b, slot);
    EXPECT_EQ(balance.mix().meetings, before.meetings);
    balance.apply(a, b, slot);
    std::swap(prints[a][slot], prints[b][slot]);
    const Mix anew = Balance(quilt, prints).mix();
    EXPECT_EQ(change.clashes, anew.clashes - before.clashes);
    EXPECT_EQ(change.meetings, anew.meetings - before.meetings);
    EXPECT_NEAR(change.alike, anew.alike - before.alike, 1e-9);
  }
}

TEST(Deal, OneBlockOfTwoTrianglesTakesTwoPrintsThoughTheyComeInTwos) {
  quilt::Quilt quilt = support::quilt_of_one_pattern({1}, support::half_square(), 1, 1, 6);
  quilt.blocks[0].prints = {kNone, kNone};
  const auto dealt = deal(quilt, {.seed = {1}});
  ASSERT_TRUE(dealt.ok());
  EXPECT_NE((*dealt)[0].prints[0], (*dealt)[0].prints[1]);
  quilt.blocks = *dealt;
  EXPECT_EQ(left_over(quilt).size(), 2u) << "a triangle of each";
}

TEST(Deal, ASewnBlockThatHoldsAPrintTwiceStaysAsItIs) {
  quilt::Quilt quilt = support::quilt_of_one_pattern({1}, support::half_square(), 4, 4, 6);
  quilt.blocks[0].sewn = true;
  quilt.blocks[0].prints = {2, 2};
  const auto dealt = deal(quilt, {.seed = {1}});
  ASSERT_TRUE(dealt.ok());
  EXPECT_EQ((*dealt)[0].prints, quilt.blocks[0].prints);
  for (std::size_t b = 1; b < dealt->size(); ++b) EXPECT_NE((*dealt)[b].prints[0], (*dealt)[b].prints[1]);
}

/// The log cabin in so many prints, P01 the darkest, its logs of the values that their slots are named for.
quilt::Quilt cabins(int prints) {
  support::Wanted wanted;
  wanted.rows = wanted.columns = 5;
  wanted.prints = prints;
  wanted.patterns = {support::log_cabin()};
  for (block::Slot& slot : wanted.patterns[0].slots) {
    if (slot.name.rfind("light", 0) == 0) slot.value = block::Slot::Value::light;
    if (slot.name.rfind("dark", 0) == 0) slot.value = block::Slot::Value::dark;
  }
  quilt::Quilt quilt = support::undealt_quilt({5}, wanted);
  for (int p = 0; p < prints; ++p) quilt.prints[p].features.lab = {20 + 60.0 * p / (prints - 1), 0, 0};
  return quilt;
}

TEST(Deal, LightSlotsTakeTheLighterHalfOfThePrintsAndDarkOnesTheDarker) {
  using Value = block::Slot::Value;
  for (const int prints : {7, 10, 15}) {
    const quilt::Quilt quilt = cabins(prints);
    const auto blocks = deal(quilt, {.seed = {1}});
    ASSERT_TRUE(blocks.ok()) << blocks.problems().front().text();
    std::map<int, int> centres;
    for (const block::Block& block : *blocks) {
      EXPECT_EQ(std::set<int>(block.prints.begin(), block.prints.end()).size(), 7u) << "all differ";
      ++centres[block.prints[0]];
      for (int slot = 1; slot < 7; ++slot) {
        const bool light = quilt.patterns[0].slots[slot].value == Value::light;
        EXPECT_EQ(block.prints[slot] >= prints / 2, light) << prints << " prints, slot " << slot;
      }
    }
    EXPECT_EQ(centres.size(), prints == 7 ? 4u : static_cast<std::size_t>(prints)) << "what the logs leave";
  }
}

TEST(Deal, WhereEveryBlockHoldsAllPrintsLightStaysLightThoughClothIsShort) {
  const quilt::Quilt quilt = cabins(7);
  Options how;
  how.most = {30, 30, 10, 30, 30, 30, 30};
  const auto blocks = deal(quilt, how);
  ASSERT_TRUE(blocks.ok()) << blocks.problems().front().text();
  for (const block::Block& block : *blocks) {
    for (int slot = 1; slot < 7; ++slot) EXPECT_EQ(block.prints[slot] >= 3, slot % 2 == 1) << slot;
  }
}

TEST(Deal, WhereTheClothOfTheLightPrintsEndsLightSlotsTakeWhatThereIs) {
  const quilt::Quilt quilt = cabins(12);
  Options how;
  how.most = std::vector<int>(12, 25);
  for (int light = 6; light < 12; ++light) how.most[light] = 10;  // 60 for 75 light slots
  const auto blocks = deal(quilt, how);
  ASSERT_TRUE(blocks.ok()) << blocks.problems().front().text();
  std::vector<int> used(12, 0);
  int light_in_light = 0;
  for (const block::Block& block : *blocks) {
    for (int slot = 0; slot < 7; ++slot) {
      ++used[block.prints[slot]];
      if (slot % 2 == 1 && block.prints[slot] >= 6) ++light_in_light;
    }
  }
  for (int p = 0; p < 12; ++p) EXPECT_LE(used[p], how.most[p]);
  EXPECT_EQ(light_in_light, 60);
}

}  // namespace
}  // namespace farflung::makeup
