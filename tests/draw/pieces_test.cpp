#include "draw/pieces.hpp"

#include <gtest/gtest.h>

#include "support/patterns.hpp"
#include "support/worlds.hpp"

namespace farflung::draw {
namespace {

using quilt::kNone;
using support::random_quilt;
using support::Wanted;

Wanted rails() {
  Wanted wanted;
  wanted.patterns = {support::uneven_rails()};
  return wanted;
}

const Cloth& cloth(const Piece& piece) { return std::get<Cloth>(piece.paint); }

TEST(Pieces, EveryPatchCarriesItsOwnPrintAndLiesWithinItsCell) {
  for (const support::World& world : support::worlds()) {
    const quilt::Quilt quilt = random_quilt(Seed{4}, world.wanted);
    const setting::Plan plan = quilt::plan_of(quilt);
    for (std::size_t cell = 0; cell < plan.cells.size(); ++cell) {
      const int block = quilt.layout.block[cell];
      const auto pieces = pieces_in_cell(quilt, plan, static_cast<int>(cell));
      if (block == kNone) {
        EXPECT_TRUE(pieces.empty());
        continue;
      }
      const block::Pattern& pattern = quilt.patterns[quilt.blocks[block].pattern];
      ASSERT_EQ(pieces.size(), pattern.patches.size()) << world.name;
      double covered = 0;
      for (const Piece& piece : pieces) {
        EXPECT_EQ(piece.print, quilt::print_of_slot(quilt, quilt.blocks[block], pattern.patches[piece.patch].slot));
        EXPECT_EQ(cloth(piece).print, piece.print);
        covered += area(piece.outline);
      }
      EXPECT_NEAR(covered, area(outline_of_cell(plan, static_cast<int>(cell))), 1e-3) << world.name;
    }
  }
}

TEST(Pieces, ABlockTakesItsCropsAlongWhenItIsSwapped) {
  quilt::Quilt quilt = random_quilt(Seed{7}, rails());
  const setting::Plan plan = quilt::plan_of(quilt);
  const auto before = pieces_in_cell(quilt, plan, 2);
  std::swap(quilt.layout.block[2], quilt.layout.block[9]);
  quilt.layout.turn[9] = quilt.layout.turn[2];
  const auto after = pieces_in_cell(quilt, plan, 9);
  for (std::size_t i = 0; i < before.size(); ++i) EXPECT_EQ(cloth(before[i]), cloth(after[i]));
  EXPECT_NE(cloth(before[0]).across, cloth(before[1]).across);
}

TEST(Pieces, GrainTurnsWithTheBlock) {
  quilt::Quilt quilt = random_quilt(Seed{7}, rails());
  const setting::Plan plan = quilt::plan_of(quilt);
  for (int quarters = 0; quarters < Turn::kCount; ++quarters) {
    quilt.layout.turn[0] = Turn::quarters(quarters);
    EXPECT_EQ(cloth(pieces_in_cell(quilt, plan, 0).front()).degrees, 90.0 * quarters);
  }
}

TEST(Pieces, OnPointTheGrainLiesAlongTheBlockToo) {
  Wanted wanted = rails();
  wanted.kind = setting::Setting::Kind::on_point;
  quilt::Quilt quilt = random_quilt(Seed{7}, wanted);
  quilt.layout.turn[0] = Turn::quarters(1);
  EXPECT_EQ(cloth(pieces_in_cell(quilt, quilt::plan_of(quilt), 0).front()).degrees, 135);
}

TEST(Pieces, AnUprightPrintStandsUprightUntilASewnBlockIsTurnedFromItsCut) {
  quilt::Quilt quilt = random_quilt(Seed{7}, rails());
  for (print::Print& print : quilt.prints) print.upright = true;
  const setting::Plan plan = quilt::plan_of(quilt);
  quilt.layout.turn[0] = Turn::quarters(3);
  EXPECT_EQ(cloth(pieces_in_cell(quilt, plan, 0).front()).degrees, 0);
  block::Block& block = quilt.blocks[quilt.layout.block[0]];
  block.sewn = true;
  block.cut_turn = Turn::quarters(3);
  EXPECT_EQ(cloth(pieces_in_cell(quilt, plan, 0).front()).degrees, 0);
  block.cut_turn = Turn::quarters(1);
  EXPECT_EQ(cloth(pieces_in_cell(quilt, plan, 0).front()).degrees, 180);
}

TEST(Pieces, CutSizesComeFromTheSwatchWidthOrTheStatedAssumption) {
  quilt::Quilt quilt = random_quilt(Seed{7}, rails());
  quilt.prints[0].swatch_width = Length::inches(5);
  EXPECT_EQ(std::get<Cloth>(cloth_of(quilt, 0, 0, 1)).width, 5);
  EXPECT_EQ(std::get<Cloth>(cloth_of(quilt, 1, 0, 1)).width, kAssumedSwatchWidth.inches());
  EXPECT_TRUE(std::holds_alternative<Colour>(cloth_of(quilt, kNone, 0, 1)));
}

TEST(Pieces, StripsOfTheFrameCarryTheirClothAlongTheirLength) {
  Wanted wanted = rails();
  wanted.borders = true;
  const quilt::Quilt quilt = random_quilt(Seed{7}, wanted);
  const setting::Plan plan = quilt::plan_of(quilt);
  for (std::size_t i = 0; i < plan.frame.size(); ++i) {
    if (plan.frame[i].role != setting::FramePatch::Role::border) continue;
    const Box box = box_of(inches(plan.frame[i].polygon));
    EXPECT_EQ(std::get<Cloth>(paint_of_frame(quilt, plan, static_cast<int>(i))).degrees,
              box.width > box.height ? 0 : 90);
  }
}

}  // namespace
}  // namespace farflung::draw
