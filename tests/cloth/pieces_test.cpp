#include "cloth/pieces.hpp"

#include <numeric>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cloth/world.hpp"

namespace farflung::cloth {
namespace {

const CutLine* line_of(const CutList& list, int print, const std::string& part) {
  for (const CutLine& line : list.lines) {
    if (line.print == print && line.part == part) return &line;
  }
  return nullptr;
}

const Run* run_of(const CutList& list, const std::string& part) {
  for (const Run& run : list.runs) {
    if (run.part == part) return &run;
  }
  return nullptr;
}

int pieces_in(const CutList& list) {
  return std::accumulate(list.lines.begin(), list.lines.end(), 0,
                         [](int sum, const CutLine& line) { return sum + line.pieces; });
}

TEST(Pieces, EveryPatchOfEveryBlockIsCountedOnce) {
  const quilt::Quilt quilt = quilt_of(uneven_rails(), 7, 6, 5);
  const CutList list = cut_list(quilt);
  EXPECT_EQ(pieces_in(list), 7 * 6 * 3);
  // 42 blocks over 5 prints: prints 0 and 1 begin 9 blocks, 2, 3 and 4 begin 8; A of print 0: 9
  const CutLine* a = line_of(list, 0, "A");
  ASSERT_NE(a, nullptr);
  EXPECT_EQ(a->rectangles, 9);
  EXPECT_EQ(a->shape.width.cut, in(9.5));
  EXPECT_EQ(a->shape.height.cut, in(4.5));
  const CutLine* background = line_of(list, 2, "background");
  ASSERT_NE(background, nullptr);
  EXPECT_EQ(background->shape.height.cut, in(1.5));
}

TEST(Pieces, TrianglesOfOnePrintShareTheirSquaresAcrossSlots) {
  // One print in both slots of 5 blocks: 10 triangles of 4, from 5 squares of 4 7/8, not 3 + 3.
  quilt::Quilt quilt = quilt_of(half_squares(4), 1, 5, 1);
  const CutList list = cut_list(quilt);
  ASSERT_EQ(list.lines.size(), 2U);
  EXPECT_EQ(list.lines[0].pieces + list.lines[1].pieces, 10);
  EXPECT_EQ(list.lines[0].rectangles, 3);
  EXPECT_EQ(list.lines[1].rectangles, 2);
  EXPECT_EQ(list.lines[0].shape.width.cut, in(4.875));
}

TEST(Pieces, AnHourglassTakesQuarterSquareTriangles) {
  // 3 blocks of 6: print A has 6 triangles: 2 squares of 7 1/4 (8 triangles, 2 over).
  quilt::Quilt quilt = quilt_of(hourglass(6), 1, 3, 1);
  quilt.prints.emplace_back();
  quilt.prints[1].id = "P2";
  for (auto& block : quilt.blocks) block.prints = {0, 1};
  const CutList list = cut_list(quilt);
  EXPECT_EQ(line_of(list, 0, "A")->shape.shape, Shape::quarter_square);
  EXPECT_EQ(line_of(list, 0, "A")->shape.width.cut, in(7.25));
  EXPECT_EQ(line_of(list, 0, "A")->pieces, 6);
  EXPECT_EQ(line_of(list, 0, "A")->rectangles, 2);
}

TEST(Pieces, GeeseFourAtATime) {
  // 4 x 2 geese: 1 large square of 4 + 1 1/4 = 5 1/4 and 4 small of 2 + 7/8 = 2 7/8 give four. 2 blocks hold 4 geese.
  quilt::Quilt quilt = quilt_of(two_geese(), 1, 2, 1);
  quilt.prints.emplace_back();
  quilt.prints[1].id = "P2";
  for (auto& block : quilt.blocks) block.prints = {0, 1};
  CutOptions options;
  options.geese = GeeseMethod::four_at_once;
  const CutList list = cut_list(quilt, options);
  ASSERT_EQ(list.lines.size(), 2U);
  EXPECT_EQ(line_of(list, 0, "goose")->rectangles, 1);
  EXPECT_EQ(line_of(list, 0, "goose")->shape.width.cut, in(5.25));
  EXPECT_EQ(line_of(list, 1, "sky")->rectangles, 4);
  EXPECT_EQ(line_of(list, 1, "sky")->shape.width.cut, in(2.875));
  ASSERT_EQ(list.remarks.size(), 1U);
  EXPECT_THAT(list.remarks[0].says, testing::HasSubstr("lay two small squares face down on opposite corners"));
}

TEST(Pieces, GeeseOfOnePairOfPrintsAreMadeFourAtATimeWhicheverSlotsTheyFill) {
  // A second goose slot: two blocks of one goose each hold one pair, four geese in all, one large square.
  block::Pattern pattern = two_geese();
  pattern.slots.push_back({"drake", block::kNone, false});
  pattern.patches[3].slot = 2;
  quilt::Quilt quilt = quilt_of(pattern, 1, 2, 2);
  for (auto& block : quilt.blocks) block.prints = {0, 1, 0};
  CutOptions options;
  options.geese = GeeseMethod::four_at_once;
  const CutList list = cut_list(quilt, options);
  ASSERT_EQ(list.lines.size(), 2U);
  EXPECT_EQ(line_of(list, 0, "drake, goose")->rectangles, 1);
  EXPECT_EQ(line_of(list, 0, "drake, goose")->note, "four geese at a time");
  EXPECT_EQ(line_of(list, 1, "sky")->rectangles, 4);
}

TEST(Pieces, GeesePlainAndFlipped) {
  quilt::Quilt quilt = quilt_of(two_geese(), 1, 2, 1);
  quilt.prints.emplace_back();
  quilt.prints[1].id = "P2";
  for (auto& block : quilt.blocks) block.prints = {0, 1};
  // plain: 4 long triangles from 1 square of 5 1/4; 8 short ones from 4 squares of 2 7/8
  const CutList plain = cut_list(quilt);
  EXPECT_EQ(line_of(plain, 0, "goose")->rectangles, 1);
  EXPECT_EQ(line_of(plain, 0, "goose")->shape.width.cut, in(5.25));
  EXPECT_EQ(line_of(plain, 1, "sky")->rectangles, 4);
  EXPECT_EQ(line_of(plain, 1, "sky")->shape.width.cut, in(2.875));
  // flipped: 4 rectangles 4 1/2 x 2 1/2, 8 squares of 2 1/2
  CutOptions options;
  options.geese = GeeseMethod::flip;
  const CutList flipped = cut_list(quilt, options);
  EXPECT_EQ(line_of(flipped, 0, "goose")->rectangles, 4);
  EXPECT_EQ(line_of(flipped, 0, "goose")->shape.width.cut, in(4.5));
  EXPECT_EQ(line_of(flipped, 0, "goose")->shape.height.cut, in(2.5));
  EXPECT_EQ(line_of(flipped, 1, "sky")->rectangles, 8);
  EXPECT_EQ(line_of(flipped, 1, "sky")->shape.width.cut, in(2.5));
  ASSERT_EQ(flipped.remarks.size(), 1U) << "once for all corners";
  EXPECT_THAT(flipped.remarks[0].says, testing::HasSubstr("cut both layers a seam allowance outside the seam"));
}

TEST(Pieces, CornersThatMustStandUprightAreCutToShapeAndSheIsTold) {
  quilt::Quilt quilt = quilt_of(corner_cut(6, 2), 1, 2, 2);
  for (auto& block : quilt.blocks) block.prints = {0, 1};
  quilt.prints[1].upright = true;
  CutOptions options;
  options.corners = CornerMethod::flip;
  const CutList list = cut_list(quilt, options);
  ASSERT_EQ(list.remarks.size(), 1U);
  EXPECT_THAT(list.remarks[0].says, testing::HasSubstr("corner's print must stand upright"));
  EXPECT_EQ(pieces_in(list), 10) << "2 bodies, 8 triangles";
}

TEST(Pieces, GeeseThatMustStandUprightAreCutOneByOneAndSheIsTold) {
  quilt::Quilt quilt = quilt_of(two_geese(), 1, 2, 2);
  for (auto& block : quilt.blocks) block.prints = {0, 1};
  quilt.prints[0].upright = true;
  CutOptions options;
  options.geese = GeeseMethod::four_at_once;
  const CutList list = cut_list(quilt, options);
  EXPECT_EQ(pieces_in(list), 12) << "4 geese, 8 triangles of sky";
  ASSERT_EQ(list.remarks.size(), 1U) << "once, however many there are";
  EXPECT_THAT(list.remarks[0].says, testing::HasSubstr("must stand upright is among the geese"));
}

TEST(Pieces, GeeseUnderTwoSkiesCannotBeMadeFourAtATimeAndSheIsTold) {
  block::Pattern pattern = two_geese();
  pattern.slots.push_back({"dusk", block::kNone, false});
  pattern.patches[2].slot = pattern.patches[5].slot = 2;
  quilt::Quilt quilt = quilt_of(pattern, 1, 2, 3);
  for (auto& block : quilt.blocks) block.prints = {0, 1, 2};
  CutOptions options;
  options.geese = GeeseMethod::four_at_once;
  const CutList list = cut_list(quilt, options);
  EXPECT_EQ(pieces_in(list), 12);
  ASSERT_EQ(list.remarks.size(), 1U);
  EXPECT_THAT(list.remarks[0].says, testing::HasSubstr("two different prints beside them"));
}

TEST(Pieces, CornersEitherWay) {
  quilt::Quilt quilt = quilt_of(corner_cut(6, 2), 1, 1, 1);
  quilt.prints.emplace_back();
  quilt.prints[1].id = "P2";
  quilt.blocks[0].prints = {0, 1};
  // to shape: a template in 6 1/2, 4 triangles from 2 squares of 2 7/8
  const CutList shaped = cut_list(quilt);
  EXPECT_EQ(line_of(shaped, 0, "A")->shape.shape, Shape::odd);
  EXPECT_EQ(line_of(shaped, 1, "B")->rectangles, 2);
  EXPECT_EQ(line_of(shaped, 1, "B")->shape.width.cut, in(2.875));
  // flipped: a square of 6 1/2, 4 squares of 2 1/2
  CutOptions options;
  options.corners = CornerMethod::flip;
  const CutList flipped = cut_list(quilt, options);
  EXPECT_EQ(line_of(flipped, 0, "A")->shape.shape, Shape::square);
  EXPECT_EQ(line_of(flipped, 0, "A")->shape.width.cut, in(6.5));
  EXPECT_EQ(line_of(flipped, 1, "B")->rectangles, 4);
  EXPECT_EQ(line_of(flipped, 1, "B")->shape.width.cut, in(2.5));
}

TEST(Pieces, SashesAndCornerstonesAreCountedByHand) {
  // 3 x 4 blocks of 8, sash 1: upright strips 3 x 3, crosswise 2 x 4 = 17 of 8 1/2 x 1 1/2; cornerstones 2 x 3 = 6.
  quilt::Quilt quilt = quilt_of(plain_square(8), 3, 4, 3);
  quilt.setting.sashing = setting::Sashing{in(1), 0, 1, false};
  const CutList list = cut_list(quilt);
  EXPECT_EQ(line_of(list, 0, "sashing")->rectangles, 17);
  EXPECT_EQ(line_of(list, 0, "sashing")->shape.width.cut, in(8.5));
  EXPECT_EQ(line_of(list, 0, "sashing")->shape.height.cut, in(1.5));
  EXPECT_EQ(line_of(list, 1, "cornerstone")->rectangles, 6);
  EXPECT_EQ(line_of(list, 1, "cornerstone")->shape.width.cut, in(1.5));
}

TEST(Pieces, OnPointTrianglesAreCountedByHand) {
  // 3 x 2 on point, blocks of 12: sides 2 x (2 - 1) + 2 x (3 - 1) = 6 from 2 squares of 18 1/4; 4 corners from 2
  // squares of 9 3/8.
  quilt::Quilt quilt = quilt_of(plain_square(12), 3, 2, 3, setting::Setting::Kind::on_point);
  quilt.setting.filler = 2;
  const CutList list = cut_list(quilt);
  const CutLine* side = line_of(list, 2, "setting triangle");
  const CutLine* corner = line_of(list, 2, "setting corner");
  ASSERT_NE(side, nullptr);
  ASSERT_NE(corner, nullptr);
  EXPECT_EQ(side->pieces, 6);
  EXPECT_EQ(side->rectangles, 2);
  EXPECT_EQ(side->shape.width.cut, in(18.25));
  EXPECT_EQ(corner->pieces, 4);
  EXPECT_EQ(corner->rectangles, 2);
  EXPECT_EQ(corner->shape.width.cut, in(9.375));
}

TEST(Pieces, SashingOnPointEnlargesTheSettingTriangles) {
  // Sash of 1 all around: the diagonal of 13 = 18.3848, + 1.2071 = 19.5919, up to 19 5/8.
  quilt::Quilt quilt = quilt_of(plain_square(12), 3, 2, 3, setting::Setting::Kind::on_point);
  quilt.setting.filler = 2;
  quilt.setting.sashing = setting::Sashing{in(1), 1, 1, true};
  const CutList outer = cut_list(quilt);
  EXPECT_EQ(line_of(outer, 2, "setting triangle")->shape.width.cut, in(19.625));
  // Sash only between: the triangle reaches 2 x 0.7071 beyond the ends of the diagonal: 18.3848 + 1.4142 + 1.2071 =
  // 21.0061, up to 21 1/8, trimmed between the sashes.
  quilt.setting.sashing->outer = false;
  const CutList between = cut_list(quilt);
  EXPECT_EQ(line_of(between, 2, "setting triangle")->shape.width.cut, in(21.125));
}

TEST(Pieces, SashesOnPointAreOneLineHoweverTheyLie) {
  // 5 x 4 on point: 20 + 12 blocks; strips between neighbours: all alike, all on one line of the list.
  quilt::Quilt quilt = quilt_of(plain_square(9), 5, 4, 3, setting::Setting::Kind::on_point);
  quilt.setting.filler = 2;
  quilt.setting.sashing = setting::Sashing{in(1), 1, 0, false};
  int sashes = 0;
  int lines = 0;
  const setting::Plan plan = quilt::plan_of(quilt);
  for (const auto& patch : plan.frame) sashes += patch.role == setting::FramePatch::Role::sashing;
  for (const CutLine& line : cut_list(quilt).lines) {
    if (line.part != "sashing") continue;
    ++lines;
    EXPECT_EQ(line.rectangles, sashes);
    EXPECT_EQ(line.shape.working, "finished 9 x 1 in + 2 x 1/4 in = 9 1/2 in x 1 1/2 in");
  }
  EXPECT_EQ(lines, 1);
}

/// "2 of 40, 1 of 17": the strips of a run in inches.
std::string strips_said(const Run& run, Length strip) {
  std::string says;
  for (const Strips& strips : run.cut_from(strip, kEighths)) {
    says += (says.empty() ? "" : ", ") + std::to_string(strips.count) + " of " + said(strips.length, kEighths);
  }
  return says;
}

TEST(Pieces, NoRunOfStripsEndsInASnippet) {
  cloth::Run run;
  run.join_loss = in(0.5);
  // 3 x 40 - 2 x 1/2 = 119; 9 more in the last of four, beyond its join 8 1/2.
  run.total = in(128);
  EXPECT_EQ(strips_said(run, in(40)), "3 of 40 in, 1 of 9 1/2 in");
  // 1 in more: the last two share 40 + 1 1/2 = 41 1/2, each 20 3/4.
  run.total = in(120);
  EXPECT_EQ(strips_said(run, in(40)), "2 of 40 in, 2 of 20 3/4 in");
  run.total = in(40.5);
  EXPECT_EQ(strips_said(run, in(40)), "2 of 20 1/2 in");
  EXPECT_EQ(strips_said(run, in(20.5)), "2 of 20 1/2 in") << "the same again from the length that they were given";
  run.total = in(36);
  EXPECT_EQ(strips_said(run, in(40)), "1 of 36 in");
  for (double total = 41; total < 300; total += 0.375) {
    run.total = in(total);
    Length joined;
    int count = 0;
    for (const Strips& strips : run.cut_from(in(40), kEighths)) {
      EXPECT_GE(strips.length, in(8.5)) << total;
      EXPECT_LE(strips.length, in(40)) << total;
      joined = joined + strips.count * strips.length;
      count += strips.count;
    }
    EXPECT_EQ(count, run.strips_of(in(40))) << total;
    EXPECT_GE(joined - (count - 1) * run.join_loss, run.total - kHair) << total;
  }
}

TEST(Pieces, BordersCrosswiseAreJoinedAndLengthwiseAreNot) {
  // 6 x 7 blocks of 9: 54 x 63. Border 4, sides first: 2 of 63 1/2, then 2 of 54 + 8 + 1/2 = 62 1/2; all 4 1/2 wide.
  // Total 252 in. Each strip gives 40, each join takes 1/2: n x 40 - (n - 1)/2 >= 252: n = 7 (280 - 3 = 277).
  quilt::Quilt quilt = quilt_of(plain_square(9), 7, 6, 3);
  quilt.setting.borders = {{in(4), 1, setting::Border::Corners::butted, kNone}};
  const CutList crosswise = cut_list(quilt);
  const auto* run = run_of(crosswise, "border 1");
  ASSERT_NE(run, nullptr);
  EXPECT_EQ(run->width, in(4.5));
  EXPECT_EQ(run->total, in(252));
  EXPECT_EQ(run->strips_of(in(40)), 7);
  CutOptions options;
  options.borders = BorderCut::lengthwise;
  const CutList lengthwise = cut_list(quilt, options);
  EXPECT_TRUE(lengthwise.runs.empty());
  std::vector<Length> lengths;
  for (const CutLine& line : lengthwise.lines) {
    if (line.part != "border 1") continue;
    EXPECT_EQ(line.rectangles, 2);
    EXPECT_EQ(line.shape.width.cut, in(4.5));
    EXPECT_FALSE(line.turnable) << "the strip's length lies along the selvage";
    lengths.push_back(line.shape.height.cut);
  }
  EXPECT_THAT(lengths, ::testing::UnorderedElementsAre(in(63.5), in(62.5)));
}

TEST(Pieces, MitredBordersAreCutAsLongAsTheirOuterEdge) {
  // 2 x 2 blocks of 9: 18. Border 3 mitred: outer edge 24, + 1/2 + 2 = 26 1/2 by 3 1/2, four of them.
  quilt::Quilt quilt = quilt_of(plain_square(9), 2, 2, 3);
  quilt.setting.borders = {{in(3), 1, setting::Border::Corners::mitred, kNone}};
  const CutLine* border = line_of(cut_list(quilt), 1, "border 1");
  const CutList list = cut_list(quilt);
  border = line_of(list, 1, "border 1");
  EXPECT_EQ(border->rectangles, 4);
  EXPECT_EQ(border->shape.width.cut, in(26.5));
  EXPECT_EQ(border->shape.height.cut, in(3.5));
}

TEST(Pieces, BrickEndsInHalfBlocks) {
  // 3 rows of 4 blocks of 8 in brick: row 2 is one shorter, half blocks 4 x 8 at its ends: 2 of 4 1/2 x 8 1/2.
  quilt::Quilt quilt = quilt_of(plain_square(8), 3, 4, 3, setting::Setting::Kind::brick);
  quilt.setting.filler = 2;
  const CutList list = cut_list(quilt);
  EXPECT_EQ(line_of(list, 2, "half block")->rectangles, 2);
  EXPECT_EQ(line_of(list, 2, "half block")->shape.width.cut, in(8.5));
  EXPECT_EQ(line_of(list, 2, "half block")->shape.height.cut, in(4.5));
}

TEST(Pieces, AnUprightPrintIsCutAsItsBlockLies) {
  quilt::Quilt quilt = quilt_of(uneven_rails(), 1, 2, 3);
  quilt.prints[0].upright = true;
  quilt.blocks[0].prints = {0, 1, 2};
  quilt.blocks[1].prints = {0, 1, 2};
  quilt.layout.turn[1] = Turn::quarters(1);
  const CutList list = cut_list(quilt);
  std::vector<std::pair<Length, Length>> sizes;
  for (const CutLine& line : list.lines) {
    if (line.print != 0) continue;
    EXPECT_FALSE(line.turnable);
    sizes.emplace_back(line.shape.width.cut, line.shape.height.cut);
  }
  EXPECT_THAT(sizes, ::testing::UnorderedElementsAre(std::pair(in(9.5), in(4.5)), std::pair(in(4.5), in(9.5))));
}

TEST(Pieces, TrianglesOfAnUprightPrintNeedSquaresForEachFacing) {
  // Four blocks, all unturned: every A triangle faces the same corner: a square gives only one that stands: 4 squares.
  quilt::Quilt quilt = quilt_of(half_squares(4), 1, 4, 2);
  quilt.prints[0].upright = true;
  for (auto& block : quilt.blocks) block.prints = {0, 1};
  const CutList straight = cut_list(quilt);
  EXPECT_EQ(line_of(straight, 0, "A")->rectangles, 4);
  EXPECT_EQ(line_of(straight, 1, "B")->rectangles, 2);
  // Two turned upside down: each square serves one of each: 2 squares.
  quilt.layout.turn[0] = quilt.layout.turn[1] = Turn::quarters(2);
  const CutList mixed = cut_list(quilt);
  int squares = 0;
  for (const CutLine& line : mixed.lines) squares += line.print == 0 ? line.rectangles : 0;
  EXPECT_EQ(squares, 2);
}

TEST(Pieces, SewnBlocksNeedNoCloth) {
  quilt::Quilt quilt = quilt_of(plain_square(6), 2, 2, 2);
  quilt.blocks[0].sewn = true;
  const CutList list = cut_list(quilt);
  EXPECT_EQ(pieces_in(list), 3);
  EXPECT_EQ(list.sewn_blocks, 1);
  CutOptions all;
  all.sewn_too = true;
  EXPECT_EQ(pieces_in(cut_list(quilt, all)), 4);
}

TEST(Pieces, AMeasuredTestBlockMovesTheFrameAndNotThePatches) {
  // Blocks meant for 9 come out 9 3/8 with their allowances: 8 7/8 finished. Sashes are then cut 9 3/8 long.
  quilt::Quilt quilt = quilt_of(plain_square(9), 2, 2, 3);
  quilt.setting.sashing = setting::Sashing{in(1), 1, 2, false};
  quilt.setting.borders = {{in(3), 1, setting::Border::Corners::butted, kNone}};
  CutOptions options;
  options.test_block = TestBlock{in(9.375), in(9.375)};
  const CutList list = cut_list(quilt, options);
  EXPECT_EQ(line_of(list, 1, "sashing")->shape.width.cut, in(9.375));
  EXPECT_EQ(line_of(list, 0, "A")->shape.width.cut, in(9.5));
  // sides: 2 x 8 7/8 + 1 = 18 3/4, + 1/2 = 19 1/4
  bool side = false;
  for (const CutLine& line : list.lines) side = side || (line.part == "border 1" && line.shape.width.cut == in(19.25));
  EXPECT_TRUE(side);
}

TEST(Pieces, OffTheRulerIsSaidWithSizesThatAreNot) {
  quilt::Quilt quilt = quilt_of(nine_patch(10), 1, 1, 2);
  const CutList list = cut_list(quilt);
  ASSERT_EQ(list.remarks.size(), 1U);
  EXPECT_EQ(list.remarks[0].at, "/patterns/0");
  EXPECT_NE(list.remarks[0].says.find("9 3/4 in or 10 1/8 in"), std::string::npos) << list.remarks[0].says;
  // 3.3333 + 0.5 = 3.8333, cut 3 7/8, 0.042 to trim
  EXPECT_EQ(list.lines[0].shape.width.cut, in(3.875));
  EXPECT_FALSE(list.lines[0].shape.on_ruler());
}

TEST(Pieces, MetricAndInchQuiltsAskForTheSameLengths) {
  quilt::Quilt inch = quilt_of(uneven_rails(), 3, 3, 4);
  inch.setting.borders = {{in(3), 1, setting::Border::Corners::butted, kNone}};
  inch.binding = quilt::Binding{0, in(2.5), false};
  quilt::Quilt metric = inch;
  metric.units = quilt::Units::millimetres;
  const CutList a = cut_list(inch);
  const CutList b = cut_list(metric);
  ASSERT_EQ(a.lines.size(), b.lines.size());
  for (std::size_t i = 0; i < a.lines.size(); ++i) {
    EXPECT_EQ(a.lines[i].shape.width.exact, b.lines[i].shape.width.exact);
    EXPECT_EQ(a.lines[i].rectangles, b.lines[i].rectangles);
    EXPECT_GE(b.lines[i].shape.width.cut + kHair, a.lines[i].shape.width.exact);
    EXPECT_LT(b.lines[i].shape.width.cut, a.lines[i].shape.width.exact + mm(1));
  }
}

TEST(Pieces, BindingAndBackingAreAmongThePieces) {
  quilt::Quilt quilt = quilt_of(plain_square(9), 7, 6, 3);
  quilt.binding = quilt::Binding{1, in(2.5), false};
  quilt.backing = quilt::Backing{2, in(4)};
  const CutList list = cut_list(quilt);
  ASSERT_NE(run_of(list, "binding"), nullptr);
  EXPECT_EQ(run_of(list, "binding")->total, in(2 * (54 + 63) + 10));
  ASSERT_NE(line_of(list, 2, "backing"), nullptr);
}

TEST(Pieces, BiasBindingIsCutFromSquares) {
  // 54 x 63: 244 x 2.5 = 610; root 24.698, up to 25, + 1 = 26.
  quilt::Quilt quilt = quilt_of(plain_square(9), 7, 6, 3);
  quilt.binding = quilt::Binding{1, in(2.5), true};
  const CutList list = cut_list(quilt);
  EXPECT_EQ(run_of(list, "binding"), nullptr);
  ASSERT_NE(line_of(list, 1, "binding"), nullptr);
  EXPECT_EQ(line_of(list, 1, "binding")->pieces, 1);
  EXPECT_EQ(line_of(list, 1, "binding")->shape.width.cut, in(26));
}

}  // namespace
}  // namespace farflung::cloth
