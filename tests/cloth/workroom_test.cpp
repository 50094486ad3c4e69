#include "cloth/workroom.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <sstream>
#include <tuple>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cloth/world.hpp"

namespace farflung::cloth {
namespace {

using setting::Setting;

/// Every cell and filler stands in one row.
void expect_every_place_once(const quilt::Quilt& quilt) {
  const setting::Plan plan = quilt::plan_of(quilt);
  std::multiset<int> cells, fillers;
  for (const SewingRow& row : sewing_order(quilt).rows) {
    for (const RowPlace& place : row.places)
      (place.cell >= 0 ? cells : fillers).insert(std::max(place.cell, place.frame_patch));
  }
  EXPECT_EQ(cells.size(), plan.cells.size());
  for (std::size_t cell = 0; cell < plan.cells.size(); ++cell) EXPECT_EQ(cells.count(static_cast<int>(cell)), 1U);
  for (std::size_t i = 0; i < plan.frame.size(); ++i) {
    const bool filler = plan.frame[i].role == setting::FramePatch::Role::filler;
    EXPECT_EQ(fillers.count(static_cast<int>(i)), filler ? 1U : 0U);
  }
}

TEST(Sewing, EveryPlaceStandsInOneRowInEverySetting) {
  for (auto kind : {Setting::Kind::straight, Setting::Kind::brick, Setting::Kind::on_point}) {
    for (int rows = 1; rows <= 4; ++rows) {
      for (bool sash : {false, true}) {
        quilt::Quilt quilt = quilt_of(plain_square(8), rows, 3, 3, kind);
        if (sash) quilt.setting.sashing = setting::Sashing{in(1), 0, 1, rows % 2 == 0};
        expect_every_place_once(quilt);
      }
    }
  }
}

std::vector<std::string> names(const SewingRow& row) {
  std::vector<std::string> result;
  for (const RowPlace& place : row.places) result.push_back(place.name);
  return result;
}

TEST(Sewing, OnPointRowsRunDiagonallyWithTheirTriangles) {
  // 2 x 2 on point: centres R1 C1, R1 C2, R2 C1 (between), R3 C1, R3 C2. From the top right corner down:
  // row of R1 C2 alone with its two triangles, then R1 C1, R2 C1, R3 C2 with both corners, then R3 C1.
  const quilt::Quilt quilt = quilt_of(plain_square(8), 2, 2, 3, Setting::Kind::on_point);
  const SewingOrder order = sewing_order(quilt);
  EXPECT_TRUE(order.diagonal);
  using ::testing::ElementsAre;
  ASSERT_EQ(order.rows.size(), 5U);
  EXPECT_THAT(names(order.rows[0]), ElementsAre("setting triangle", "R1 C2", "setting triangle"));
  EXPECT_THAT(names(order.rows[1]), ElementsAre("setting corner", "R1 C1", "R2 C1", "R3 C2", "setting corner"));
  EXPECT_THAT(names(order.rows[2]), ElementsAre("setting triangle", "R3 C1", "setting triangle"));
  EXPECT_EQ(order.rows[3].name, "corner");
  EXPECT_EQ(order.rows[4].name, "corner");
}

/// 4 rows of 2 on point: 1, 3, 3, 3 and 1 blocks from the top right corner down, sashed.
quilt::Quilt sashed_on_point(bool outer) {
  quilt::Quilt quilt = quilt_of(plain_square(8), 4, 2, 3, Setting::Kind::on_point);
  quilt.setting.sashing = setting::Sashing{in(1), 0, 1, outer};
  return quilt;
}

TEST(Sewing, OnPointASettingTriangleFollowsTheRowOfSashesThatItIsAsLongAs) {
  using ::testing::HasSubstr;
  const SewingOrder around = sewing_order(sashed_on_point(true));
  EXPECT_THAT(around.rows[0].seams[0], HasSubstr(", a sash between, once the row of sashes above is sewn to this row"));
  EXPECT_THAT(around.rows[4].seams[0], HasSubstr(", a sash between, once the row of sashes below is sewn to this row"));
  EXPECT_THAT(around.rows[1].seams[0], HasSubstr(", a sash between, last of all, when the rows are joined"));
  EXPECT_EQ(around.rows[1].seams[1], "lower right edge of R1 C1 to the upper left edge of R2 C1, a sash between");
  const SewingOrder between = sewing_order(sashed_on_point(false));
  EXPECT_EQ(
      between.rows[0].seams[0],
      "lower right edge of the setting triangle to the upper left edge of R1 C2, once the row of sashes below is sewn "
      "to this row");
}

TEST(Sewing, OnPointTheStepsSayToWhichRowSashesGoAndWhereASeamIsLeftOpen) {
  using ::testing::Contains;
  using ::testing::HasSubstr;
  const std::vector<std::string> around = sewing_order(sashed_on_point(true)).steps;
  EXPECT_THAT(around, Contains(HasSubstr("a sash between and at both ends.")));
  EXPECT_THAT(around, Contains(HasSubstr("sew each to the longer of the rows beside it")));
  EXPECT_THAT(around, Contains(HasSubstr("leave the last hand's breadth")));
  EXPECT_THAT(sewing_order(sashed_on_point(false)).steps,
              Contains(HasSubstr("sew each to the shorter of the rows beside it")));
  quilt::Quilt even = quilt_of(plain_square(8), 3, 3, 3, Setting::Kind::on_point);
  even.setting.sashing = setting::Sashing{in(1), 0, 1, true};
  EXPECT_THAT(sewing_order(even).steps, ::testing::Not(Contains(HasSubstr("leave the last"))));
}

TEST(Sewing, SashesAroundTheBlocksAreSewnToEndsOfRowsAndOutside) {
  quilt::Quilt quilt = quilt_of(plain_square(8), 3, 3, 3);
  quilt.setting.sashing = setting::Sashing{in(1), 0, block::kNone, true};
  const SewingOrder order = sewing_order(quilt);
  EXPECT_EQ(order.rows[0].seams[0],
            "right edge of R1 C1 to the left edge of R1 C2, a sash between, and one at the left end");
  EXPECT_EQ(order.rows[0].seams[1],
            "right edge of R1 C2 to the left edge of R1 C3, a sash between, and one at the right end");
  EXPECT_THAT(order.steps, ::testing::Contains(::testing::HasSubstr("above the first row and one below every row")));
}

TEST(Sewing, TheSashesOfARowAreThoseBetweenItsPlacesAndAtItsEnds) {
  for (auto kind : {Setting::Kind::straight, Setting::Kind::brick}) {
    for (bool outer : {false, true}) {
      quilt::Quilt quilt = quilt_of(plain_square(8), 3, 3, 3, kind);
      quilt.setting.sashing = setting::Sashing{in(1), 0, 1, outer};
      for (const SewingRow& row : sewing_order(quilt).rows) {
        EXPECT_EQ(row.sashes.size(), row.places.size() - 1 + (outer ? 2 : 0));
      }
    }
  }
  EXPECT_EQ(sewing_order(sashed_on_point(true)).rows[1].sashes.size(), 4U);
  EXPECT_EQ(sewing_order(sashed_on_point(false)).rows[1].sashes.size(), 2U);
}

TEST(Sewing, BrickRowsBeginAndEndInHalfBlocks) {
  const SewingOrder order = sewing_order(quilt_of(plain_square(8), 2, 3, 3, Setting::Kind::brick));
  EXPECT_THAT(names(order.rows[1]), ::testing::ElementsAre("half block", "R2 C1", "R2 C2", "half block"));
}

TEST(Sewing, SectionsCoverTheTopOnce) {
  const quilt::Quilt quilt = quilt_of(plain_square(8), 7, 6, 3);
  const SewingOrder order = sewing_order(quilt, 4);
  ASSERT_EQ(order.sections.size(), 4U);
  std::multiset<int> cells;
  for (const Section& section : order.sections) {
    EXPECT_LE(section.last_row - section.first_row, 3);
    cells.insert(section.cells.begin(), section.cells.end());
  }
  EXPECT_EQ(cells.size(), 42U);
  EXPECT_EQ(order.sections[0].name, "section 1 (R1 C1 to R3 C3)");
  EXPECT_NE(order.rows[0].stack.find("R1 C1 lies on top"), std::string::npos);
  EXPECT_EQ(order.rows[0].seams[0], "right edge of R1 C1 to the left edge of R1 C2");
}

TEST(Spares, AreMadeOnlyFromWhatIsLeftOver) {
  // Each print: 4 squares of 8 1/2 fill a fat quarter; with 3 used, one spare of each is left.
  quilt::Quilt quilt = quilt_of(plain_square(8), 3, 3, 3);
  for (auto& print : quilt.prints) print.cloth = {fat_quarter()};
  const Spares spares = spare_blocks(quilt);
  EXPECT_EQ(spares.copies.size(), 3U);
  quilt = quilt_of(plain_square(8), 3, 4, 3);
  for (auto& print : quilt.prints) print.cloth = {fat_quarter()};
  EXPECT_TRUE(spare_blocks(quilt).copies.empty()) << "four of each are used already";
}

TEST(Spares, TakenAreBlocksOfTheirOwnAndTheClothIsStillEnough) {
  quilt::Quilt quilt = quilt_of(plain_square(8), 3, 3, 3);
  for (auto& print : quilt.prints) print.cloth = {fat_quarter()};
  const Spares spares = spare_blocks(quilt);
  const quilt::Quilt more = with_spares(quilt, spares);
  ASSERT_EQ(more.blocks.size(), quilt.blocks.size() + 3);
  EXPECT_EQ(quilt::spares(more).size(), 3U);
  EXPECT_TRUE(problems_of(more).empty());
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(more.blocks[quilt.blocks.size() + i].prints, quilt.blocks[spares.copies[i]].prints);
  }
  EXPECT_TRUE(spare_blocks(more).copies.empty()) << "nothing is left over twice";
  EXPECT_TRUE(cutting_plans(more, cut_list(more)).enough);
}

TEST(Spares, AreSaidWithoutBeingAskedForWhereClothIsInHand) {
  quilt::Quilt quilt = quilt_of(plain_square(8), 3, 3, 3);
  EXPECT_FALSE(workroom_of(quilt).spares);
  for (auto& print : quilt.prints) print.cloth = {fat_quarter()};
  ASSERT_TRUE(workroom_of(quilt).spares);
  EXPECT_EQ(workroom_of(quilt).spares->copies.size(), 3U);
}

TEST(Spares, AreNeverMoreThanAskedFor) {
  quilt::Quilt quilt = quilt_of(plain_square(2), 3, 3, 6);
  for (auto& print : quilt.prints) print.cloth = {fat_quarter(3)};
  quilt.patterns.push_back(half_squares(2));
  EXPECT_EQ(spare_blocks(quilt, {}, {}, 4).copies.size(), 4U);
}

TEST(Kits, EachCanBeCutByItself) {
  // 24 + 1 spare squares of 9 1/2: 4 a strip: 7 strips = 66 1/2, + 1/2 = 67: 14.9 eighths: 15 = 1 7/8 yd; ten kits
  // 18 3/4 yd, six lengths of 67 1/2 to a bolt of 432: 2 bolts.
  quilt::Quilt quilt = quilt_of(plain_square(9), 4, 6, 1);
  quilt.prints[0].cloth = {{"yardage", in(40), in(36), 1, "lot 7", 12.0}};
  KitOptions options;
  options.kits = 10;
  const Kits kits = kits_for(quilt, {}, options);
  ASSERT_EQ(kits.lines.size(), 1U);
  EXPECT_DOUBLE_EQ(kits.lines[0].each.amount, 1.875);
  EXPECT_DOUBLE_EQ(kits.lines[0].pull, 18.75);
  EXPECT_EQ(kits.lines[0].bolts, 2);
  EXPECT_EQ(kits.lines[0].lots, "lot 7");
  EXPECT_DOUBLE_EQ(kits.price, 12.0 * 1.875);
  EXPECT_TRUE(kits.all_priced);
}

TEST(TestBlock, SaysWhatEachSeamTookAndWhatTheTopBecomes) {
  // Nine patch of 9 comes out 9 1/4 with allowances: 8 3/4: 1/4 short over 2 seams: 1/16 more on each of 4 allowances.
  const quilt::Quilt quilt = quilt_of(nine_patch(9), 4, 4, 2);
  const TestBlockReport report = test_block_report(quilt, 0, {in(9.25), in(9.25)});
  EXPECT_EQ(report.finished_width, in(8.75));
  EXPECT_EQ(report.across, in(-1));
  ASSERT_EQ(report.says.size(), 3U);
  EXPECT_NE(report.says[1].find("0.062 in more"), std::string::npos) << report.says[1];
  EXPECT_NE(report.says[2].find("35 x 35 in instead of 36 x 36 in"), std::string::npos) << report.says[2];
}

TEST(TestBlock, ThatMeasuresAsMeantIsRight) {
  const TestBlockReport report = test_block_report(quilt_of(nine_patch(9), 4, 4, 2), 0, {in(9.5), in(9.5)});
  EXPECT_EQ(report.off_width, Length());
  ASSERT_EQ(report.says.size(), 2U);
  EXPECT_EQ(report.says[1], "It is right: cut everything as listed.");
}

TEST(TestBlock, OfAMetricQuiltThatIsSewnByTheQuarterInchIsRightAtTheMarkThatItIsTrimmedTo) {
  quilt::Quilt quilt = quilt_of(nine_patch(9), 4, 4, 2);
  quilt.units = quilt::Units::millimetres;
  const Length meant = quilt.patterns[0].width + 2 * quilt.seam_allowance;  // 241.3 mm
  const Length trimmed_to = Length::millimetres(241.5);
  EXPECT_EQ(trimmed(meant, Ruler::millimetres), trimmed_to);
  EXPECT_EQ(test_block_report(quilt, 0, {trimmed_to, trimmed_to}).says.back(),
            "It is right: cut everything as listed.");
}

quilt::Quilt harbour() {
  quilt::Quilt quilt = quilt_of(uneven_rails(), 7, 6, 6);
  quilt.setting.sashing = setting::Sashing{in(1), 5, 2, false};
  quilt.setting.borders = {{in(4), 4, setting::Border::Corners::butted, kNone}};
  quilt.binding = quilt::Binding{4, in(2.5), false};
  quilt.backing = quilt::Backing{3, in(4)};
  for (int p = 0; p < 3; ++p) quilt.prints[p].cloth = {fat_quarter(2)};
  return quilt;
}

TEST(Workroom, GathersEverythingAndAgreesWithItself) {
  const quilt::Quilt quilt = harbour();
  WorkroomOptions options;
  options.kits = 3;
  options.spares = true;
  const Workroom room = workroom_of(quilt, options);
  EXPECT_FALSE(room.enough) << "prints without cloth in hand";
  std::set<std::string> parts;
  for (const Purchase& one : room.buy) {
    parts.insert(one.what);
    EXPECT_GT(one.amount, 0) << one.what;
    EXPECT_FALSE(one.says.empty());
  }
  for (const char* part : {"binding", "backing", "batting", "sleeve", "border 1", "sashing"}) {
    EXPECT_TRUE(parts.count(part)) << part;
  }
  int patches = 0;
  for (const CutRow& row : room.cut)
    patches += row.slot == "A" || row.slot == "B" || row.slot == "background" ? row.makes : 0;
  EXPECT_EQ(patches, 42 * 3);
  EXPECT_EQ(room.piecing.size(), 1U);
  EXPECT_FALSE(room.cautions.empty());
  ASSERT_TRUE(room.kits);
  EXPECT_EQ(room.kits->kits, 3);
}

/// Rectangles to cut by print and size, long side first.
using Rectangles = std::map<std::tuple<int, Length, Length>, int>;

TEST(Workroom, ListAndPlansCutTheSameRectangles) {
  quilt::Quilt quilt = quilt_of(two_geese(), 4, 3, 3);
  quilt.setting.borders = {{in(3), 0}};
  quilt.binding = quilt::Binding{1, in(2.25)};
  for (const bool has_cloth : {false, true}) {
    if (has_cloth) {
      for (print::Print& print : quilt.prints) print.cloth = {{"fat quarter", in(20), in(17.5), 2, "", std::nullopt}};
    }
    const Workroom room = workroom_of(quilt);
    Rectangles listed, planned;
    const auto note = [](Rectangles& rectangles, int print, Length a, Length b, int count) {
      rectangles[{print, std::max(a, b), std::min(a, b)}] += count;
    };
    for (const CutRow& row : room.cut) note(listed, row.print, in(row.width), in(row.height), row.count);
    for (const PrintPlan& plan : room.plans.plans) {
      for (const WantedPiece& piece : plan.wanted) note(planned, plan.print, piece.width, piece.height, piece.count);
    }
    EXPECT_EQ(listed, planned) << (has_cloth ? "from fat quarters" : "from the bolt");
    const std::string strips = has_cloth ? "across 20 in" : "across 40 in";
    EXPECT_NE(room.binding->says.find(strips), std::string::npos) << room.binding->says;
  }
}

TEST(Workroom, SaysOfABindingThatIsBoughtHowItIsCutFromTheCloth) {
  quilt::Quilt quilt = quilt_of(plain_square(8), 6, 6, 1);
  for (print::Print& print : quilt.prints) print.cloth = {{"fat quarter", in(20), in(17.5), 9, "", std::nullopt}};
  quilt.binding = quilt::Binding{0, in(2.5)};
  const Workroom room = workroom_of(quilt);
  EXPECT_NE(room.binding->says.find("across 40 in"), std::string::npos) << room.binding->says;
  int rows = 0;
  for (const CutRow& row : room.cut) rows += row.slot == "binding" && row.width == 40;
  EXPECT_EQ(rows, 1) << room.binding->says << room.plans.plans[0].says;
}

TEST(Workroom, SquaresOfAnUprightPrintAreCutOnTheDiagonalThatTheirTrianglesNeed) {
  // Each goose has one background triangle with its right angle at the top left, one with it at the top right.
  quilt::Quilt quilt = quilt_of(two_geese(), 2, 2, 3);
  std::fill(quilt.layout.turn.begin(), quilt.layout.turn.end(), Turn());
  for (print::Print& print : quilt.prints) print.upright = true;
  int squares = 0;
  const Workroom room = workroom_of(quilt);
  for (const PrintPlan& plan : room.plans.plans) {
    std::map<Diagonal, int> needed, wanted;
    for (const CutLine& line : room.list.lines) {
      if (line.print != plan.print || line.shape.shape != Shape::half_square) continue;
      needed[line.shape.facing % 2 == 0 ? Diagonal::rising : Diagonal::falling] += line.rectangles;
    }
    for (const WantedPiece& piece : plan.wanted) {
      if (piece.shape != Shape::half_square) continue;
      wanted[piece.diagonal] += piece.count;
      squares += piece.count;
      EXPECT_NE(piece.says.find("with the print upright"), std::string::npos) << piece.says;
    }
    EXPECT_EQ(wanted, needed);
    EXPECT_TRUE(wanted.empty() || wanted.size() == 2U) << "both diagonals";
  }
  EXPECT_GT(squares, 0);
}

TEST(Workroom, NamesAPartOnceHoweverManySizesItIsCutFrom) {
  quilt::Quilt quilt = quilt_of(two_geese(), 4, 3, 3);
  for (print::Print& print : quilt.prints) print.upright = true;
  for (const PrintPlan& plan : workroom_of(quilt).plans.plans) {
    for (const WantedPiece& piece : plan.wanted) {
      std::multiset<std::string> parts;
      std::istringstream names(piece.says.substr(piece.says.find(": ") + 2));
      for (std::string part; std::getline(names >> std::ws, part, ',');) {
        EXPECT_EQ(parts.count(part), 0U) << piece.says;
        parts.insert(part);
      }
    }
  }
}

TEST(CutTogether, TellsTheTwoDiagonalsOfASizeApart) {
  quilt::Quilt quilt = quilt_of(two_geese(), 2, 2, 3);
  std::fill(quilt.layout.turn.begin(), quilt.layout.turn.end(), Turn());
  for (print::Print& print : quilt.prints) print.upright = true;
  const Workroom room = workroom_of(quilt);
  std::map<std::pair<int, Diagonal>, int> listed, planned;
  for (const CutTogether& together : cut_together(room.cut)) {
    if (together.row.diagonal == Diagonal::either) continue;
    EXPECT_TRUE(listed.emplace(std::pair(together.row.print, together.row.diagonal), together.row.count).second);
    const bool rising = together.row.diagonal == Diagonal::rising;
    EXPECT_EQ(together.gives.find(", bottom left to top right") != std::string::npos, rising) << together.gives;
    EXPECT_EQ(together.gives.find(", top left to bottom right") != std::string::npos, !rising) << together.gives;
  }
  for (const PrintPlan& plan : room.plans.plans) {
    for (const WantedPiece& piece : plan.wanted) {
      if (piece.diagonal != Diagonal::either) planned[{plan.print, piece.diagonal}] += piece.count;
    }
  }
  EXPECT_FALSE(listed.empty());
  EXPECT_EQ(listed, planned);
}

TEST(CutTogether, AddsUpWhatIsOfOnePrintShapeAndSize) {
  const std::vector<CutRow> rows = {{1, "A", "square", 4.5, 4.5, 3, 3, ""},
                                    {0, "A", "square", 4.5, 4.5, 2, 2, ""},
                                    {1, "B", "square", 4.5, 4.5, 5, 5, ""},
                                    {1, "B", "rectangle", 4.5, 4.5, 1, 1, ""},
                                    {1, "binding", "strip", 40, 2.5, 6, 4, ""}};
  const std::vector<CutTogether> together = cut_together(rows);
  ASSERT_EQ(together.size(), 4U);
  EXPECT_EQ(together[0].row.print, 0);
  EXPECT_EQ(together[1].row.count, 8);
  EXPECT_EQ(together[1].row.makes, 8);
  EXPECT_EQ(together[1].gives, "3 for A, 5 for B");
  EXPECT_EQ(together[2].gives, "1 for B");
  EXPECT_EQ(together[3].gives, "binding");
}

TEST(CutTogether, ListsTheLongestOfAPrintFirstAndStripsLast) {
  const std::vector<CutRow> rows = {{0, "A", "square", 2.5, 2.5, 1, 1, ""},
                                    {0, "B", "rectangle", 2.5, 8.5, 1, 1, ""},
                                    {0, "binding", "strip", 40, 2.5, 6, 4, ""},
                                    {0, "C", "rectangle", 8.5, 4.5, 1, 1, ""}};
  std::string order;
  for (const CutTogether& one : cut_together(rows)) order += one.row.slot[0];
  EXPECT_EQ(order, "CBAb");
}

TEST(Workroom, SaysWhatABindingWouldTakeWhereNoneIsChosen) {
  // 24 in square: 4 x 24 + 10 = 106 in, 3 strips of 2 1/2 in across 40 in: 7 1/2 in; with 1/2 in for squaring 1/4 yd.
  quilt::Quilt quilt = quilt_of(plain_square(8), 3, 3, 3, Setting::Kind::straight);
  const Workroom without = workroom_of(quilt);
  ASSERT_TRUE(without.unchosen_binding);
  EXPECT_DOUBLE_EQ(without.unchosen_binding->amount, 0.25);
  quilt.binding = quilt::Binding{0};
  EXPECT_FALSE(workroom_of(quilt).unchosen_binding);
}

TEST(Workroom, CountsWhatIsInHand) {
  quilt::Quilt quilt = quilt_of(plain_square(8), 2, 2, 1);
  quilt.binding = quilt::Binding{0, in(2.5), false};
  quilt.prints[0].cloth = {yardage(36)};
  const Workroom room = workroom_of(quilt);
  EXPECT_TRUE(room.enough);
  for (const Purchase& part : room.by_part) {
    EXPECT_EQ(part.in_hand, part.print == 0) << part.what;
  }
  for (const Purchase& one : room.buy) EXPECT_EQ(one.print, kNone);
}

TEST(Workroom, SaysInTheQuiltsMeasureHowMuchLargerSettingTrianglesAreOftenCut) {
  using ::testing::Contains;
  using ::testing::HasSubstr;
  quilt::Quilt quilt = quilt_of(plain_square(8), 2, 2, 3, Setting::Kind::on_point);
  EXPECT_THAT(workroom_of(quilt).says, Contains(HasSubstr("cut them half an inch larger")));
  quilt.units = quilt::Units::centimetres;
  EXPECT_THAT(workroom_of(quilt).says, Contains(HasSubstr("cut them a centimetre larger")));
}

TEST(Workroom, AnEmptyQuiltAsksForNothing) {
  quilt::Quilt quilt;
  quilt.binding = quilt::Binding{};
  quilt.backing = quilt::Backing{};
  const Workroom room = workroom_of(quilt);
  EXPECT_TRUE(room.cut.empty());
  EXPECT_TRUE(room.plans.plans.empty());
}

TEST(Workroom, TheSameTwiceIsTheSame) {
  const Workroom a = workroom_of(harbour());
  const Workroom b = workroom_of(harbour());
  ASSERT_EQ(a.plans.plans.size(), b.plans.plans.size());
  for (std::size_t i = 0; i < a.plans.plans.size(); ++i) EXPECT_EQ(a.plans.plans[i].says, b.plans.plans[i].says);
  ASSERT_EQ(a.cut.size(), b.cut.size());
}

TEST(Workroom, LargerQuiltsNeverNeedLessOfAnything) {
  std::map<std::string, double> before;
  for (int rows = 1; rows < 9; ++rows) {
    quilt::Quilt quilt = harbour();
    const quilt::Quilt sized = quilt_of(uneven_rails(), rows, 4, 6);
    quilt.setting.rows = rows;
    quilt.setting.columns = 4;
    quilt.blocks = sized.blocks;
    quilt.layout = sized.layout;
    for (auto& print : quilt.prints) print.cloth.clear();
    std::map<std::string, double> now;
    for (const Purchase& part : workroom_of(quilt).by_part) now[part.what + std::to_string(part.print)] += part.amount;
    for (const auto& [what, amount] : before) {
      // The batting's amount is one side's length; the rest are lengths of cloth.
      EXPECT_GE(now[what] + 1e-9, amount) << what << " at " << rows << " rows";
    }
    before = now;
  }
}

TEST(Workroom, SaysOfWhatNoClothWasPlannedFor) {
  quilt::Quilt quilt = quilt_of(plain_square(8), 2, 2, 3);
  EXPECT_THAT(workroom_of(quilt).unbought, ::testing::IsEmpty());
  quilt.blocks[0].sewn = true;
  quilt.blocks[1].prints[0] = block::kNone;
  const Workroom room = workroom_of(quilt);
  EXPECT_THAT(room.unbought,
              ::testing::ElementsAre(::testing::HasSubstr("sewn already"), ::testing::HasSubstr("no print yet")));
  for (const std::string& says : room.unbought) EXPECT_THAT(room.says, ::testing::Contains(says));
}

}  // namespace
}  // namespace farflung::cloth
