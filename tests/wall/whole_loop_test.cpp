// Arrange, hang the blocks with some misplaced and turned, photograph, read, list the swaps, make them, arrive.
#include <cstdlib>
#include <filesystem>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "job/arrange.hpp"
#include "job/edit.hpp"
#include "job/swaps.hpp"
#include "job/wall.hpp"
#include "photo/encode.hpp"
#include "photo/mat.hpp"
#include "project/document.hpp"
#include "wall_bench/trial.hpp"

namespace farflung::wall {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

/// A quilt in a folder that goes with the test, and its cloth.
class WallInAFolder : public ::testing::Test {
 protected:
  static void SetUpTestSuite() {
    wall_bench::Wanted wanted;
    wanted.rows = 4, wanted.columns = 5, wanted.prints = 12, wanted.pattern = 2;
    wanted.pixels = {1200, 900};
    // Only its quilt and its cloth: what hangs is laid in each test.
    made_ = wall_bench::quilt_of(wanted, Seed{12});
  }

  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "farflung-wall-XXXXXX").string();
    place_ = mkdtemp(name.data());
    project::Document document;
    document.quilt = made_.quilt;
    document.quilt.title = "Harbour raffle";
    for (block::Block& block : document.quilt.blocks) block.sewn = true;
    for (std::size_t p = 0; p < made_.swatches.size(); ++p) {
      document.quilt.prints[p].swatch = "swatches/" + document.quilt.prints[p].id + ".png";
    }
    print::give_codes(document.quilt.prints);
    ASSERT_TRUE(project::create(folder(), document).ok());
    for (std::size_t p = 0; p < made_.swatches.size(); ++p) {
      ASSERT_TRUE(photo::save(made_.swatches[p], (fs::path(folder()) / document.quilt.prints[p].swatch).string()).ok());
    }
  }
  void TearDown() override { fs::remove_all(place_); }

  std::string folder() const { return (place_ / "harbour").string(); }
  std::string file(const char* name) const { return (place_ / name).string(); }

  quilt::Quilt quilt() const { return project::read(folder())->quilt; }

  /// A telephone's photograph of the quilt so laid.
  std::string photographed(const quilt::Quilt& hung, Seed seed, const simulator::Hanging& hanging = {}) const {
    const simulator::Shot shot = simulator::wall_shot(seed, {1200, 900});
    const simulator::WallPhotograph taken = simulator::photographed(hung, made_.fabrics, hanging, shot, seed);
    const std::string name = file("wall.jpg");
    EXPECT_TRUE(photo::save(photo::picture_from(taken.srgb), name).ok());
    return name;
  }

  /// A sheet of paper on a floor, 800 by 600 pixels.
  static constexpr const char* kPaper = "150,90,640,90,640,500,150,500";
  std::string paper_on_a_floor() const {
    photo::Picture floor;
    floor.columns = 800, floor.rows = 600;
    for (int y = 0; y < floor.rows; ++y) {
      for (int x = 0; x < floor.columns; ++x) {
        const bool paper = x > 150 && x < 640 && y > 90 && y < 500;
        for (const int channel : {0, 1, 2}) {
          floor.rgb.push_back(
              static_cast<std::uint8_t>(paper ? 235 - x / 40 : 90 + (x * 7 + y * 13 + channel * 5) % 23));
        }
      }
    }
    EXPECT_TRUE(photo::save(floor, file("floor.png")).ok());
    return file("floor.png");
  }

  /// The quilt as if nobody had written its blocks down, or not even its prints.
  void forget_blocks() const {
    project::Document bare = *project::read(folder());
    bare.quilt.blocks.clear();
    bare.quilt.layout = setting::empty_arrangement(bare.quilt.setting);
    ASSERT_TRUE(project::write(folder(), bare).ok());
  }
  void forget_prints() const {
    project::Document bare = *project::read(folder());
    bare.quilt.prints.clear();
    ASSERT_TRUE(project::write(folder(), bare).ok());
  }

  void add_border(double inches) const {
    project::Document bordered = *project::read(folder());
    bordered.quilt.setting.borders = {{Length::inches(inches), 0}};
    ASSERT_TRUE(project::write(folder(), bordered).ok());
  }

  job::Wall learning_from(const std::string& photograph) const {
    job::Wall learn;
    learn.folder = folder();
    learn.photographs = {photograph};
    learn.learn = true;
    return learn;
  }

  static job::Watch on() {
    return [](const job::Progress&) { return true; };
  }

  fs::path place_;
  static wall_bench::Made made_;
};
wall_bench::Made WallInAFolder::made_;

std::string cell_word(const json& place) {
  return "R" + std::to_string(place[0].get<int>() + 1) + "C" + std::to_string(place[1].get<int>() + 1);
}

/// What hangs in each cell, as the eye sees it: prints by slot, and the turn.
bool look_the_same(const quilt::Quilt& quilt, const setting::Arrangement& a, const setting::Arrangement& b) {
  for (std::size_t c = 0; c < a.block.size(); ++c) {
    if (quilt.blocks[a.block[c]].prints != quilt.blocks[b.block[c]].prints || !(a.turn[c] == b.turn[c])) return false;
  }
  return true;
}

TEST_F(WallInAFolder, TheWholeLoopArrives) {
  job::Arrange arrange;
  arrange.folder = folder();
  arrange.effort = 0.1;
  arrange.blocks = "sewn";
  ASSERT_TRUE(job::arrange(arrange, on()).ok());
  const quilt::Quilt planned = quilt();

  // Five blocks misplaced, in a ring; two turned where they hang.
  quilt::Quilt hung = planned;
  const std::vector<int> ring = {1, 7, 13, 4, 18};
  for (std::size_t k = 1; k < ring.size(); ++k) {
    std::swap(hung.layout.block[ring[0]], hung.layout.block[ring[k]]);
    std::swap(hung.layout.turn[ring[0]], hung.layout.turn[ring[k]]);
  }
  for (const int cell : {5, 10}) hung.layout.turn[cell] = hung.layout.turn[cell] + Turn::quarters(1);
  ASSERT_FALSE(look_the_same(planned, planned.layout, hung.layout));

  job::Wall read;
  read.folder = folder();
  read.photographs = {photographed(hung, Seed{5})};
  read.output = file("read.png");
  read.plan_output = file("plan.pdf");
  job::Outcome outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok()) << outcome.problems().front().text();
  const json report = json::parse(outcome->json);
  std::set<int> differs;
  for (const json& one : report["differs"]) differs.insert(one["row"].get<int>() * 5 + one["column"].get<int>());
  EXPECT_EQ(differs, std::set<int>({1, 4, 5, 7, 10, 13, 18})) << outcome->words;
  EXPECT_EQ(report["cells"].size(), 20U);
  EXPECT_GT(fs::file_size(read.output), 10000U);
  EXPECT_GT(fs::file_size(read.plan_output), 10000U);
  EXPECT_EQ(quilt().layout, planned.layout) << "nothing is taken unasked";

  read.accept = true;
  read.output.clear(), read.plan_output.clear();
  ASSERT_TRUE(job::wall(read, on()).ok());
  EXPECT_TRUE(look_the_same(planned, quilt().layout, hung.layout));

  // The plan is another quilt's layout now: a ring of five is four swaps, and each turn a turn.
  project::Document plan;
  plan.quilt = planned;
  ASSERT_TRUE(project::create(file("plan"), plan).ok());
  job::Swaps swaps;
  swaps.folder = folder();
  swaps.to = file("plan");
  outcome = job::swaps(swaps);
  ASSERT_TRUE(outcome.ok());
  const json list = json::parse(outcome->json)["swaps"];
  EXPECT_EQ(list, report["swaps"]) << "the reading lists the same way back";
  EXPECT_LE(list.size(), 6U);
  for (const json& step : list) {
    const std::string a = cell_word(step["a"]), b = cell_word(step["b"]);
    if (a != b) {
      ASSERT_TRUE(job::swap_cells(folder(), a, b).ok());
    }
    for (const auto& [cell, place, turn] : {std::tuple{a, step["a"], step["turn_a"]}, {b, step["b"], step["turn_b"]}}) {
      const int index = place[0].get<int>() * 5 + place[1].get<int>();
      const int quarters = (turn.get<int>() - quilt().layout.turn[index].quarters() + 4) % 4;
      if (quarters == 0) continue;
      ASSERT_TRUE(job::turn_cell(folder(), cell, quarters).ok());
    }
  }
  EXPECT_TRUE(look_the_same(planned, quilt().layout, planned.layout));
}

TEST_F(WallInAFolder, UndoBringsBackWhatWasBeforeItWasAccepted) {
  const quilt::Quilt planned = quilt();
  quilt::Quilt hung = planned;
  std::swap(hung.layout.block[0], hung.layout.block[11]);
  std::swap(hung.layout.turn[0], hung.layout.turn[11]);
  job::Wall read;
  read.folder = folder();
  read.photographs = {photographed(hung, Seed{7})};
  read.accept = true;
  ASSERT_TRUE(job::wall(read, on()).ok());
  EXPECT_TRUE(look_the_same(planned, quilt().layout, hung.layout));
  ASSERT_TRUE(job::undo(folder()).ok());
  EXPECT_EQ(quilt().layout, planned.layout);
}

TEST_F(WallInAFolder, TakingWhatIsMostlyNotSureIsNoPromiseKept) {
  const quilt::Quilt planned = quilt();
  job::Wall read;
  read.folder = folder();
  read.photographs = {photographed(planned, Seed{7})};
  read.corners = {"3,3,160,5,158,90,4,92"};  // a piece of the floor and of a block or two
  job::Outcome outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok()) << outcome.problems().front().text();
  EXPECT_TRUE(outcome->promise_kept) << "nothing was taken";
  read.accept = true;
  outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok());
  EXPECT_FALSE(outcome->promise_kept);
  EXPECT_THAT(outcome->words, testing::StartsWith("The wall could hardly be read. "));
  ASSERT_TRUE(job::undo(folder()).ok());
  EXPECT_EQ(quilt().layout, planned.layout);
}

TEST_F(WallInAFolder, OfWhatIsNoWallItIsSaidThatItCouldHardlyBeReadAndNoSwapsAreListed) {
  const quilt::Quilt planned = quilt();
  job::Wall read;
  read.folder = folder();
  read.photographs = {paper_on_a_floor()};
  read.corners = {kPaper};
  job::Outcome outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok()) << outcome.problems().front().text();
  json report = json::parse(outcome->json);
  const auto sure =
      std::count_if(report["cells"].begin(), report["cells"].end(), [](const json& c) { return c["sure"]; });
  ASSERT_LT(sure, 10) << "twenty places";
  EXPECT_EQ(report["hardly_read"], true);
  EXPECT_FALSE(report.contains("swaps"));
  EXPECT_THAT(outcome->words, testing::StartsWith("The wall could hardly be read. Of 20 places "));
  EXPECT_THAT(outcome->words, testing::HasSubstr(report["says"].get<std::string>())) << "the page says the same";
  EXPECT_THAT(outcome->words, testing::Not(testing::HasSubstr("To bring it to the plan")));
  const auto lines = std::count(outcome->words.begin(), outcome->words.end(), '\n');
  EXPECT_LE(lines, 2 + sure) << outcome->words;

  read.photographs = {photographed(planned, Seed{7})};
  read.corners.clear();
  outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok());
  report = json::parse(outcome->json);
  EXPECT_EQ(report["hardly_read"], false);
  EXPECT_EQ(report["taken_as"], "blocks");
  EXPECT_FALSE(report.contains("says"));
}

TEST_F(WallInAFolder, ASewnTopWithBordersIsTakenForOneUnasked) {
  add_border(5);
  quilt::Quilt hung = quilt();
  std::swap(hung.layout.block[0], hung.layout.block[11]);
  std::swap(hung.layout.turn[0], hung.layout.turn[11]);
  simulator::Hanging sewn;
  sewn.state = simulator::Hanging::State::sewn_top;
  job::Wall read;
  read.folder = folder();
  read.photographs = {photographed(hung, Seed{7}, sewn)};
  job::Outcome outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok()) << outcome.problems().front().text();
  const json unasked = json::parse(outcome->json);
  EXPECT_EQ(unasked["hardly_read"], false) << outcome->words;
  EXPECT_EQ(unasked["taken_as"], "top");
  EXPECT_EQ(unasked["differs"].size(), 2U) << outcome->words;
  const std::string says = unasked["says"];
  EXPECT_THAT(outcome->words, testing::StartsWith(says)) << "the page says the same";
  EXPECT_THAT(says, testing::HasSubstr("reads better as one sewn top"));

  read.top = true;
  outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok());
  const json asked = json::parse(outcome->json);
  EXPECT_EQ(asked["cells"], unasked["cells"]) << "the same reading as where it is said";
  EXPECT_FALSE(asked.contains("says"));

  read.top = false;
  read.photographs = {paper_on_a_floor()};
  outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok());
  const json paper = json::parse(outcome->json);
  EXPECT_EQ(paper["hardly_read"], true);
  EXPECT_EQ(paper["taken_as"], "blocks");
  EXPECT_EQ(paper["tried_as_top"], true);
  EXPECT_THAT(paper["says"].get<std::string>(),
              testing::HasSubstr("As one sewn top, sashing and borders included, it is"));
  EXPECT_THAT(outcome->words, testing::Not(testing::HasSubstr("--top"))) << "it was tried";

  // Where she has said where the blocks' corners are, they are blocks.
  read.corners = {kPaper};
  outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok());
  EXPECT_THAT(outcome->words, testing::HasSubstr("--top"));
}

TEST_F(WallInAFolder, ANarrowBorderMisleadsNobody) {
  add_border(1);
  simulator::Hanging sewn;
  sewn.state = simulator::Hanging::State::sewn_top;
  job::Wall read;
  read.folder = folder();
  read.photographs = {photographed(quilt(), Seed{1}, sewn)};
  const job::Outcome outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok());
  // Its blocks are found by their seams, whichever way it is taken.
  const json report = json::parse(outcome->json);
  EXPECT_TRUE(report["differs"].empty()) << outcome->words;
  for (const json& cell : report["cells"]) EXPECT_TRUE(cell["sure"]) << cell;
}

TEST_F(WallInAFolder, BlocksThatHangLooseStayBlocksThoughBordersArePlanned) {
  add_border(5);
  job::Wall read;
  read.folder = folder();
  read.photographs = {photographed(quilt(), Seed{7})};
  const job::Outcome outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok());
  EXPECT_EQ(json::parse(outcome->json)["taken_as"], "blocks");
  EXPECT_TRUE(json::parse(outcome->json)["differs"].empty()) << outcome->words;
}

TEST_F(WallInAFolder, BlocksWithoutPrintsCannotBeTold) {
  project::Document bare = *project::read(folder());
  for (block::Block& block : bare.quilt.blocks) std::fill(block.prints.begin(), block.prints.end(), quilt::kNone);
  const std::string wall = photographed(quilt(), Seed{7});
  ASSERT_TRUE(project::write(folder(), bare).ok());
  job::Wall read;
  read.folder = folder();
  read.photographs = {wall};
  const job::Outcome outcome = job::wall(read, on());
  ASSERT_FALSE(outcome.ok()) << outcome->words;
  EXPECT_THAT(outcome.problems().front().cause, testing::StartsWith("no block has its prints yet"));
}

TEST_F(WallInAFolder, EachPlaceIsShownWhereItLiesBetweenTheCorners) {
  job::Wall read;
  read.folder = folder();
  read.photographs = {photographed(quilt(), Seed{7})};
  const job::Outcome outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok());
  const json cells = json::parse(outcome->json)["cells"];
  ASSERT_EQ(cells.size(), 20U) << "four rows of five";
  for (const json& cell : cells) {
    const json& outline = cell["outline"];
    const double middle_across = (outline[0][0].get<double>() + outline[2][0].get<double>()) / 2;
    const double middle_down = (outline[0][1].get<double>() + outline[2][1].get<double>()) / 2;
    EXPECT_NEAR(middle_across, (cell["column"].get<int>() + 0.5) / 5, 0.01);
    EXPECT_NEAR(middle_down, (cell["row"].get<int>() + 0.5) / 4, 0.01);
    // Six inches finished of a fifth of the wall: half an inch is seam allowance, and blocks hang up to half an inch
    // apart.
    const double width = outline[1][0].get<double>() - outline[0][0].get<double>();
    EXPECT_GT(width, 0.2 * 6 / 7);
    EXPECT_LT(width, 0.2 * 6 / 6.5);
  }
}

TEST_F(WallInAFolder, WhatIsNoRangeAndNoCornersIsRefused) {
  job::Wall read;
  read.folder = folder();
  read.photographs = {"nowhere.jpg"};
  read.rows = {"4-1"};
  EXPECT_FALSE(job::wall(read, on()).ok());
  read.rows.clear();
  read.corners = {"1,2,3"};
  EXPECT_FALSE(job::wall(read, on()).ok());
  read.corners.clear();
  EXPECT_FALSE(job::wall(read, on()).ok()) << "no such photograph";
}

/// How many cells show the prints that hang there, in any turn that shows the same.
int cells_right(const quilt::Quilt& learnt, const quilt::Quilt& hung) {
  int right = 0;
  for (std::size_t c = 0; c < hung.layout.block.size(); ++c) {
    if (learnt.layout.block[c] == kNone) continue;
    std::vector<int> prints = learnt.blocks[learnt.layout.block[c]].prints;
    int turn = learnt.layout.turn[c].quarters();
    const int hangs = hung.layout.turn[c].quarters();
    // Half a turn of these rails only renames the outer slots.
    if ((turn + 2) % 4 == hangs) std::swap(prints.front(), prints.back()), turn = hangs;
    right += prints == hung.blocks[hung.layout.block[c]].prints && turn == hangs;
  }
  return right;
}

TEST_F(WallInAFolder, LearningMakesTheBlocksThatNobodyWroteDown) {
  const quilt::Quilt hung = quilt();
  forget_blocks();
  const job::Wall learn = learning_from(photographed(hung, Seed{5}));
  const job::Outcome outcome = job::wall(learn, on());
  ASSERT_TRUE(outcome.ok()) << outcome.problems().front().text();
  ASSERT_EQ(quilt().blocks.size(), 20U);
  EXPECT_TRUE(quilt().blocks.front().sewn);
  EXPECT_GE(cells_right(quilt(), hung), 19) << outcome->words;
}

TEST_F(WallInAFolder, LearningFillsAQuiltThatWasJustBegunAndAsksBeforeBlocksGo) {
  const quilt::Quilt hung = quilt();
  const std::string photograph = photographed(hung, Seed{5});
  EXPECT_EQ(json::parse(job::wall(learning_from(photograph), on())->json)["accepted"], false) << "it has blocks";
  project::Document begun = *project::read(folder());
  for (block::Block& block : begun.quilt.blocks) {
    std::fill(block.prints.begin(), block.prints.end(), kNone);
    block.sewn = false;
  }
  ASSERT_TRUE(project::write(folder(), begun).ok());
  const job::Outcome outcome = job::wall(learning_from(photograph), on());
  ASSERT_TRUE(outcome.ok()) << outcome.problems().front().text();
  EXPECT_EQ(json::parse(outcome->json)["accepted"], true) << outcome->words;
  EXPECT_GE(cells_right(quilt(), hung), 19);
}

TEST_F(WallInAFolder, LearningTakesASewnTopWithBordersForOneUnasked) {
  add_border(5);
  const quilt::Quilt hung = quilt();
  forget_blocks();
  simulator::Hanging sewn;
  sewn.state = simulator::Hanging::State::sewn_top;
  const job::Wall learn = learning_from(photographed(hung, Seed{7}, sewn));
  const job::Outcome outcome = job::wall(learn, on());
  ASSERT_TRUE(outcome.ok()) << outcome.problems().front().text();
  const json report = json::parse(outcome->json);
  EXPECT_EQ(report["taken_as"], "top") << outcome->words;
  EXPECT_EQ(report["tried_as_top"], true);
  EXPECT_THAT(outcome->words, testing::HasSubstr("reads better as one sewn top"));
  ASSERT_EQ(quilt().blocks.size(), 20U);
  EXPECT_GE(cells_right(quilt(), hung), 19) << outcome->words;
}

TEST_F(WallInAFolder, WhatCouldHardlyBeReadIsNotLearntWithoutBeingTold) {
  forget_blocks();
  job::Wall learn = learning_from(paper_on_a_floor());
  learn.corners = {kPaper};
  const job::Outcome outcome = job::wall(learn, on());
  ASSERT_TRUE(outcome.ok()) << outcome.problems().front().text();
  EXPECT_FALSE(outcome->promise_kept);
  EXPECT_THAT(outcome->words, testing::StartsWith("The wall could hardly be read. Of 20 blocks "));
  EXPECT_THAT(outcome->words, testing::HasSubstr("The quilt was left as it is"));
  EXPECT_EQ(json::parse(outcome->json)["accepted"], false);
  EXPECT_TRUE(quilt().blocks.empty());

  learn.accept = true;
  EXPECT_TRUE(job::wall(learn, on()).ok());
  EXPECT_FALSE(quilt().blocks.empty()) << "taken where she says so";
  ASSERT_TRUE(job::undo(folder()).ok());

  forget_prints();
  learn.accept = false;
  EXPECT_FALSE(job::wall(learn, on()).ok()) << "no block is to be seen";
}

TEST_F(WallInAFolder, WithoutAnyPrintLikeIsGroupedWithLikeAndNamed) {
  const quilt::Quilt hung = quilt();
  forget_blocks();
  forget_prints();
  job::Wall learn = learning_from(photographed(hung, Seed{5}));
  learn.output = file("learnt.png");
  const job::Outcome outcome = job::wall(learn, on());
  ASSERT_TRUE(outcome.ok()) << outcome.problems().front().text();
  const quilt::Quilt learnt = quilt();
  EXPECT_EQ(learnt.blocks.size(), 20U);
  EXPECT_GE(learnt.prints.size(), 5U);
  EXPECT_EQ(learnt.prints.front().name, "Print 1");
  double widest = 0;  // of the patches, across
  for (const block::Patch& patch : learnt.patterns.front().patches) {
    double across[2] = {0, 0};
    for (const Point& p : patch.polygon) {
      const Point off = p - patch.polygon.front();
      across[0] = std::max(across[0], std::abs(off.x.inches()));
      across[1] = std::max(across[1], std::abs(off.y.inches()));
    }
    widest = std::max(widest, std::min(across[0], across[1]));
  }
  for (const print::Print& print : learnt.prints) {
    EXPECT_TRUE(fs::exists(fs::path(folder()) / print.swatch));
    EXPECT_LT(print.swatch_width->inches(), widest) << "a swatch is cut from one piece, clear of its seams";
  }
}

TEST_F(WallInAFolder, SectionsOfALargeQuiltJoinByTheirRows) {
  const quilt::Quilt planned = quilt();
  quilt::Quilt hung = planned;
  std::swap(hung.layout.block[2], hung.layout.block[17]);
  std::swap(hung.layout.turn[2], hung.layout.turn[17]);
  simulator::Hanging above, below;
  above.to_row = 2;
  below.from_row = 2;
  job::Wall read;
  read.folder = folder();
  read.photographs = {photographed(hung, Seed{5}, above)};
  fs::rename(read.photographs.front(), file("above.jpg"));
  read.photographs = {file("above.jpg"), photographed(hung, Seed{7}, below)};
  read.rows = {"1-2", "3-4"};
  read.accept = true;
  const job::Outcome outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok()) << outcome.problems().front().text();
  EXPECT_TRUE(look_the_same(planned, quilt().layout, hung.layout)) << outcome->words;
  EXPECT_EQ(json::parse(outcome->json)["differs"].size(), 2U);

  read.rows = {"1-2", "2-4"};
  EXPECT_FALSE(job::wall(read, on()).ok()) << "sections do not overlap";
}

TEST_F(WallInAFolder, OneRowIsCheckedAloneBeforeItIsSewn) {
  const quilt::Quilt planned = quilt();
  quilt::Quilt hung = planned;
  std::swap(hung.layout.block[10], hung.layout.block[12]);
  std::swap(hung.layout.turn[10], hung.layout.turn[12]);
  simulator::Hanging row;
  row.from_row = 2, row.to_row = 3;
  job::Wall read;
  read.folder = folder();
  read.photographs = {photographed(hung, Seed{5}, row)};
  read.rows = {"3"};
  const job::Outcome outcome = job::wall(read, on());
  ASSERT_TRUE(outcome.ok()) << outcome.problems().front().text();
  const json report = json::parse(outcome->json);
  EXPECT_EQ(report["cells"].size(), 5U);
  EXPECT_EQ(report["differs"].size(), 2U) << outcome->words;
}

}  // namespace
}  // namespace farflung::wall
