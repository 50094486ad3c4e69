#include "draw/top.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "draw/grey.hpp"
#include "draw/text.hpp"
#include "support/patterns.hpp"
#include "support/worlds.hpp"

namespace farflung::draw {
namespace {

using support::random_quilt;

std::vector<Area> clothes(const Display& display) {
  std::vector<Area> result;
  for (const Item& item : display.items) {
    const auto* area_item = std::get_if<Area>(&item);
    if (area_item != nullptr && std::holds_alternative<Cloth>(area_item->paint)) result.push_back(*area_item);
  }
  return result;
}

TEST(Top, IsCoveredByItsPatchesExactlyWhereNoCellIsEmpty) {
  for (const support::World& world : support::worlds()) {
    quilt::Quilt quilt = random_quilt(Seed{11}, world.wanted);
    const setting::Plan plan = quilt::plan_of(quilt);
    const Top top = top_of(quilt, plan);
    double covered = 0;
    for (const Area& piece : clothes(top.display)) covered += area(piece.outline);
    double holes = 0;
    for (int block : quilt.layout.block) {
      if (block == quilt::kNone) holes += (plan.block_width.inches() * plan.block_height.inches());
    }
    EXPECT_NEAR(covered + holes, plan.width.inches() * plan.height.inches(), 0.05) << world.name;
  }
}

TEST(Top, TheBindingAddsANarrowEdgeOutsideTheFinishedTop) {
  quilt::Quilt quilt = random_quilt(Seed{2}, {});
  quilt.binding = quilt::Binding{0};
  const setting::Plan plan = quilt::plan_of(quilt);
  const Top top = top_of(quilt, plan);
  EXPECT_NEAR(top.display.width, plan.width.inches() + 0.625, 1e-9);
  EXPECT_NEAR(top.corner.x, 0.3125, 1e-9);
  EXPECT_NEAR(top_of(quilt, plan, {.binding = false}).display.width, plan.width.inches(), 1e-9);
}

TEST(Top, PinnedUpItCarriesItsTitleAndSizeWithinThePicture) {
  quilt::Quilt quilt = random_quilt(Seed{2}, {});
  const setting::Plan plan = quilt::plan_of(quilt);
  quilt.title = "海辺の救命艇のための、たいへん長い名前をもつキルト Harbour raffle for the lifeboat of the whole coast";
  const Display display = top_of(quilt, plan, pinned_up(plan)).display;
  const std::vector<Text> words = words_of(display);
  ASSERT_EQ(words.size(), 2U);
  for (const Text& text : words) EXPECT_TRUE(Box({0, 0, display.width, display.height}).holds(box_of(text)));
  EXPECT_FALSE(box_of(words[0]).overlaps(box_of(words[1])));
}

TEST(Top, SizesAreSaidInTheQuiltsOwnUnits) {
  quilt::Quilt quilt = random_quilt(Seed{2}, {});
  const setting::Plan plan = quilt::plan_of(quilt);  // 4 x 4 blocks of 6 in
  EXPECT_EQ(finished_size(quilt, plan), "24 × 24 in");
  quilt.units = quilt::Units::centimetres;
  EXPECT_EQ(finished_size(quilt, plan), "61 × 61 cm");
  EXPECT_EQ(spoken(Length::inches(2.5), quilt::Units::centimetres), "6.4 cm");
  EXPECT_EQ(spoken(Length::inches(12.375), quilt::Units::inches), "12 3/8 in");
}

TEST(Top, EmptyCellsAreHatchedAndNotCloth) {
  support::Wanted wanted;
  wanted.holes = 2;
  const quilt::Quilt quilt = random_quilt(Seed{3}, wanted);
  const Display display = top_of(quilt, quilt::plan_of(quilt)).display;
  const auto dashed = std::count_if(display.items.begin(), display.items.end(), [](const Item& item) {
    const auto* line = std::get_if<Line>(&item);
    return line != nullptr && !line->dashes.empty();
  });
  EXPECT_EQ(dashed, 2);
}

TEST(Top, GreyLeavesNoColourBehind) {
  const quilt::Quilt quilt = random_quilt(Seed{3}, {});
  for (const Area& piece : clothes(in_grey(top_of(quilt, quilt::plan_of(quilt)).display))) {
    const Colour plain = std::get<Cloth>(piece.paint).plain;
    EXPECT_TRUE(plain.red == plain.green && plain.green == plain.blue);
  }
}

TEST(Top, PlacingScalesEveryLengthAlike) {
  const quilt::Quilt quilt = random_quilt(Seed{3}, {});
  const Display top = top_of(quilt, quilt::plan_of(quilt)).display;
  Display page;
  place(page, top, {100, 50}, 3);
  const auto before = clothes(top);
  const auto after = clothes(page);
  ASSERT_EQ(before.size(), after.size());
  EXPECT_NEAR(area(after[0].outline), 9 * area(before[0].outline), 1e-6);
  EXPECT_NEAR(std::get<Cloth>(after[0].paint).width, 3 * std::get<Cloth>(before[0].paint).width, 1e-9);
  EXPECT_EQ(after[0].outline[0], (Vec{100, 50} + 3 * before[0].outline[0]));
}

}  // namespace
}  // namespace farflung::draw
