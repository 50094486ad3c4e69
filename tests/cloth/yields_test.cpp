#include "cloth/yields.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "cloth/plan.hpp"
#include "cloth/world.hpp"
#include "makeup/deal.hpp"

namespace farflung::cloth {
namespace {

/// Nine by eight blocks that nothing is dealt to yet.
quilt::Quilt undealt(const block::Pattern& pattern, int prints) {
  quilt::Quilt quilt = quilt_of(pattern, 9, 8, prints);
  for (block::Block& block : quilt.blocks) block.prints.assign(pattern.slots.size(), kNone);
  return quilt;
}

print::Cloth cloth_of(double width, double length, int count) {
  print::Cloth cloth;
  cloth.width = in(width);
  cloth.length = in(length);
  cloth.count = count;
  return cloth;
}

TEST(Yields, AreWhatTheClothGivesOfSquares) {
  quilt::Quilt quilt = undealt(plain_square(4), 5);  // cut 4 1/2 in: four across 20 in, three along 17 1/2 in
  quilt.prints[0].cloth = {cloth_of(20, 17.5, 1)};
  quilt.prints[1].cloth = {cloth_of(20, 17.5, 2)};
  quilt.prints[2].cloth = {cloth_of(4, 40, 3)};
  quilt.prints[3].cloth = {cloth_of(40, 400, 1)};
  const std::vector<int> most = slots_in_hand(quilt);
  EXPECT_EQ(most, (std::vector<int>{12, 24, 0, 72, 72})) << "the last is not recorded, the one before enough for all";
}

TEST(Yields, LeaveWhatElseIsCutFromAPrint) {
  quilt::Quilt quilt = undealt(plain_square(4), 3);
  for (print::Print& print : quilt.prints) print.cloth = {cloth_of(20, 17.5, 1)};
  for (int p : {0, 1}) quilt.blocks[p].prints = {p};  // what is dealt already says which prints are to be dealt
  quilt.blocks[2].prints = {2};
  quilt.layout.kept[0] = true;  // one square of the first is cut for a block that is kept
  quilt.setting.sashing = setting::Sashing{};
  quilt.setting.sashing->width = in(1);
  quilt.setting.sashing->print = 2;
  const std::vector<int> most = slots_in_hand(quilt);
  EXPECT_EQ(most[0], 11);
  EXPECT_EQ(most[1], 12);
  EXPECT_EQ(most[2], 0) << "not enough for the sashing as it is";
}

TEST(Yields, AreKeptToWhenPrintsAreDealtSoThatEveryPrintsClothIsEnough) {
  for (const block::Pattern& pattern : {uneven_rails(), half_squares(6), hourglass(6)}) {
    SCOPED_TRACE(pattern.id);
    quilt::Quilt quilt = undealt(pattern, 18);
    for (int p = 0; p < 18; ++p) quilt.prints[p].cloth = {cloth_of(20, p % 3 == 0 ? 8.5 : 17.5, p % 3 == 2 ? 4 : 1)};
    const std::vector<int> most = slots_in_hand(quilt);
    EXPECT_LT(most[0], most[1]);
    EXPECT_LT(most[1], most[2]);
    int slots = 0;
    for (const makeup::Deck& deck : makeup::decks_of(quilt)) slots += static_cast<int>(deck.blocks.size());
    int fills = 0;
    for (const int each : most) fills += each;
    ASSERT_GE(fills, slots);
    const auto blocks = makeup::deal(quilt, {.seed = {1}, .prints = {}, .most = most});
    ASSERT_TRUE(blocks.ok()) << blocks.problems().front().text();
    quilt.blocks = *blocks;
    EXPECT_EQ(prints_short(quilt), std::vector<int>{});
    EXPECT_TRUE(cutting_plans(quilt, cut_list(quilt)).enough);
  }
}

TEST(Yields, APrintIsShortWhereItIsInMoreBlocksThanItsClothFills) {
  quilt::Quilt quilt = undealt(plain_square(4), 2);
  quilt.prints[0].cloth = {cloth_of(20, 17.5, 1)};
  for (int b = 0; b < 72; ++b) quilt.blocks[b].prints = {b < 12 ? 0 : 1};
  EXPECT_EQ(prints_short(quilt), std::vector<int>{});
  quilt.blocks[12].prints = {0};
  EXPECT_EQ(prints_short(quilt), std::vector<int>{0});
}

}  // namespace
}  // namespace farflung::cloth
