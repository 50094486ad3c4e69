#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "quilt/quilt.hpp"

namespace farflung::quilt {
namespace {

Length in(double inches) { return Length::inches(inches); }

/// Two rows of two plain blocks, four prints.
Quilt small_quilt() {
  Quilt quilt;
  for (const char* id : {"P01", "P02", "P03", "P04"}) {
    quilt.prints.emplace_back();
    quilt.prints.back().id = id;
    quilt.prints.back().name = id;
  }
  print::give_codes(quilt.prints);
  block::Pattern pattern;
  pattern.id = "square";
  pattern.width = pattern.height = in(6);
  pattern.slots = {{"A"}};
  pattern.patches = {{0, rectangle(in(0), in(0), in(6), in(6))}};
  quilt.patterns = {pattern};
  quilt.setting.rows = quilt.setting.columns = 2;
  quilt.layout = setting::empty_arrangement(quilt.setting);
  for (int i = 0; i < 4; ++i) {
    quilt.blocks.push_back({"B00" + std::to_string(i + 1), 0, {i}, std::nullopt, false, Turn()});
    quilt.layout.block[i] = i;
  }
  return quilt;
}

std::vector<std::string> places(const Quilt& quilt) {
  std::vector<std::string> result;
  for (const Problem& problem : problems_of(quilt)) result.push_back(problem.at);
  return result;
}

using ::testing::ElementsAre;
using ::testing::IsEmpty;

TEST(Quilt, ASoundOneHasNoProblems) { EXPECT_THAT(places(small_quilt()), IsEmpty()); }

TEST(Quilt, ASeamAllowanceOfMoreThanHalfABlockIsRefused) {
  Quilt quilt = small_quilt();
  quilt.seam_allowance = in(3);
  EXPECT_THAT(places(quilt), IsEmpty());
  quilt.seam_allowance = in(3.125);
  EXPECT_THAT(places(quilt), ElementsAre("/seam_allowance"));
}

TEST(Quilt, SharesOfAPaletteAddUpToTheWholePrintAtMost) {
  Quilt quilt = small_quilt();
  quilt.prints[1].features.palette = {{{50, 0, 0}, 0.67}, {{30, 0, 0}, 0.34}};
  EXPECT_THAT(places(quilt), IsEmpty()) << "rounded to two places";
  quilt.prints[1].features.palette[1].share = 0.6;
  EXPECT_THAT(places(quilt), ElementsAre("/prints/1/features/palette"));
  EXPECT_EQ(problems_of(quilt).front().cause, "its shares add up to 127 % of the print");
}

TEST(Quilt, ABlockInTwoCellsIsNamedAtTheSecond) {
  Quilt quilt = small_quilt();
  quilt.layout.block[3] = 0;
  EXPECT_THAT(places(quilt), ElementsAre("/layout/cells/1/1"));
}

TEST(Quilt, ATurnThatThePatternDoesNotAllowIsNamed) {
  Quilt quilt = small_quilt();
  quilt.layout.turn[1] = Turn::quarters(1);
  EXPECT_THAT(places(quilt), ElementsAre("/layout/turns/0/1"));
}

TEST(Quilt, ASewnBlockMustLeaveItsUprightPrintsUpright) {
  Quilt quilt = small_quilt();
  quilt.patterns[0].turns = {Turn::quarters(0), Turn::quarters(2)};
  quilt.layout.turn[0] = Turn::quarters(2);
  EXPECT_THAT(places(quilt), IsEmpty());
  quilt.prints[0].upright = true;
  EXPECT_THAT(places(quilt), IsEmpty()) << "not sewn yet: it is cut to stand upright where it lies";
  quilt.blocks[0].sewn = true;
  EXPECT_THAT(places(quilt), ElementsAre("/layout/turns/0/0"));
  quilt.prints[0].features.direction = {print::Direction::Kind::one_way, 90};
  EXPECT_THAT(places(quilt), ElementsAre("/layout/turns/0/0"));
  quilt.prints[0].features.direction.kind = print::Direction::Kind::stripe;
  EXPECT_THAT(places(quilt), IsEmpty()) << "a stripe stands upright on its head too";
}

TEST(Quilt, CodesAreOneOrTwoCharactersThatCannotBeMisread) {
  Quilt quilt = small_quilt();
  quilt.prints[0].code = "KLP";
  quilt.prints[1].code = "K1";
  quilt.prints[2].code = "OK";
  quilt.prints[3].code = "K1";
  EXPECT_THAT(places(quilt), ElementsAre("/prints/0/code", "/prints/2/code", "/prints/3/code"));
}

TEST(Quilt, EveryProblemIsListedNotOnlyTheFirst) {
  Quilt quilt = small_quilt();
  quilt.prints[1].id = "P01";
  quilt.setting.rows = 0;
  quilt.goals.spread = -1;
  quilt.blocks[2].prints[0] = 9;
  EXPECT_THAT(places(quilt), ElementsAre("/prints/1/id", "/goals/spread", "/blocks/2/prints/A", "/setting/rows"));
}

TEST(Quilt, ASlotThatNamesNoPrintIsNamedAndNothingIsReadOfIt) {
  Quilt quilt = small_quilt();
  quilt.patterns[0].slots[0].print = static_cast<int>(quilt.prints.size());
  EXPECT_THAT(places(quilt), ElementsAre("/patterns/0/slots/A/print"));
}

TEST(Quilt, BlocksThatNoCellNamesAreSpares) {
  Quilt quilt = small_quilt();
  quilt.layout.block[2] = kNone;
  EXPECT_THAT(spares(quilt), ElementsAre(2));
}

TEST(Quilt, ASlotsOwnPrintFillsItInEveryBlock) {
  Quilt quilt = small_quilt();
  EXPECT_EQ(print_of_slot(quilt, quilt.blocks[1], 0), 1);
  quilt.patterns[0].slots[0].print = 3;
  EXPECT_EQ(print_of_slot(quilt, quilt.blocks[1], 0), 3);
}

}  // namespace
}  // namespace farflung::quilt
