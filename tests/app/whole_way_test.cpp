// The whole way through, as a user goes it: photographs in, preview and sheets out.
#include <memory>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "app/run.hpp"

namespace farflung::app {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::StartsWith;

const char* kTable = "/01-table.jpg";

/// A small quilt with six prints from one photograph, not arranged yet; made once, each test has a copy.
class WholeWay : public ::testing::Test {
 protected:
  static void SetUpTestSuite() {
    model = std::make_unique<Bench>();
    ASSERT_EQ(model->run("new harbour --pattern square --size 36x42").status, 0);
    const auto taken = model->run("photo harbour '" + kDemoPhotographs + kTable + "'");
    ASSERT_EQ(taken.status, 0) << taken.err;
  }
  static void TearDownTestSuite() { model.reset(); }

  static void begin(const Bench& bench) {
    fs::copy(model->folder() / "harbour", bench.folder() / "harbour", fs::copy_options::recursive);
  }

  static std::unique_ptr<Bench> model;
};
std::unique_ptr<Bench> WholeWay::model;

TEST_F(WholeWay, PhotographsGiveALayoutAPreviewAndSheets) {
  const Bench bench;
  begin(bench);
  const auto arranged = bench.run("arrange harbour --effort 0.05");
  EXPECT_EQ(arranged.status, 0) << arranged.err;
  EXPECT_THAT(arranged.out, HasSubstr("0 touches"));

  const json check = json::parse(bench.run("check harbour --json").out);
  EXPECT_EQ(check["schema_version"], 1);
  EXPECT_EQ(check["cells"], 42);
  EXPECT_EQ(check["touch"]["count"], 0);
  EXPECT_GT(check["beats"], 0.99);
  EXPECT_EQ(check["prints"].size(), 6U);
  EXPECT_TRUE(check["problems"].empty());

  EXPECT_EQ(bench.run("preview harbour -o top.png --width 400").status, 0);
  EXPECT_THAT(bytes_of(bench.folder() / "top.png"), StartsWith("\x89PNG"));
  EXPECT_EQ(bench.run("preview harbour -o top.svg --width 400").status, 0);
  EXPECT_THAT(bytes_of(bench.folder() / "top.svg"), HasSubstr("<svg"));
  for (const char* paper : {"letter", "a4"}) {
    EXPECT_EQ(bench.run(std::string("sheets harbour -o ") + paper + ".pdf --paper " + paper).status, 0);
    EXPECT_THAT(bytes_of(bench.folder() / (std::string(paper) + ".pdf")), StartsWith("%PDF-"));
  }
}

TEST_F(WholeWay, AMetricQuiltIsPrintedOnA4WhereNothingIsSaid) {
  const Bench bench;
  ASSERT_EQ(bench.run("new pier --units cm --size 60x60").status, 0);
  const auto printed = bench.run("sheets pier --only log -o log.pdf");
  EXPECT_EQ(printed.status, 0) << printed.err;
  EXPECT_THAT(printed.out, HasSubstr("on a4"));
  EXPECT_THAT(bench.run("sheets pier --only log --paper letter --force -o log.pdf").out, HasSubstr("on letter"));
}

TEST_F(WholeWay, SwapsOfBlocksWithoutPrintsAreNotSoughtAndWhatComesFirstIsSaid) {
  const Bench bench;
  ASSERT_EQ(bench.run("new pier --size 36x36").status, 0);
  const auto refused = bench.run("swaps pier");
  EXPECT_EQ(refused.status, 2);
  EXPECT_THAT(refused.err, HasSubstr("no block has its prints yet: deal them: farflung arrange pier"));
}

TEST_F(WholeWay, TheSameSeedGivesTheSameBytes) {
  const Bench bench;
  begin(bench);
  std::filesystem::copy(bench.folder() / "harbour", bench.folder() / "again", std::filesystem::copy_options::recursive);
  ASSERT_EQ(bench.run("arrange harbour --seed 7 --effort 0.05").status, 0);
  ASSERT_EQ(bench.run("arrange again --seed 7 --effort 0.05").status, 0);
  EXPECT_EQ(bytes_of(bench.folder() / "harbour/quilt.json"), bytes_of(bench.folder() / "again/quilt.json"));
}

TEST_F(WholeWay, ABadPhotographIsNamedAndTheOthersComeIn) {
  const Bench bench;
  ASSERT_EQ(bench.run("new harbour --size 36x36").status, 0);
  bench.write("letter.jpg", "Dear all,\n");
  const auto ran = bench.run("photo harbour letter.jpg '" + kDemoPhotographs + kTable + "' --json");
  EXPECT_EQ(ran.status, 2);
  const json report = json::parse(ran.out);
  EXPECT_EQ(report["prints"].size(), 6U);
  ASSERT_EQ(report["problems"].size(), 1U);
  EXPECT_THAT(report["problems"][0]["at"], HasSubstr("letter.jpg"));
  EXPECT_TRUE(std::filesystem::exists(bench.folder() / "harbour/photos/01-table-found.jpg"));
}

TEST_F(WholeWay, TheSamePhotographDoesNotComeInTwice) {
  const Bench bench;
  begin(bench);
  const auto before = bench.everything();
  const auto ran = bench.run("photo harbour '" + kDemoPhotographs + kTable + "'");
  EXPECT_EQ(ran.status, 2);
  EXPECT_THAT(ran.err, HasSubstr("in the quilt already"));
  EXPECT_EQ(bench.everything(), before);
}

TEST_F(WholeWay, ChangesByHandAreUndoneAndRedone) {
  const Bench bench;
  begin(bench);
  ASSERT_EQ(bench.run("arrange harbour --effort 0.03").status, 0);
  const auto quilt = [&] { return json::parse(bytes_of(bench.folder() / "harbour/quilt.json")); };
  const json before = quilt();
  ASSERT_EQ(bench.run("swap harbour R1C1 'r2 c3'").status, 0);
  const json after = quilt();
  EXPECT_EQ(after["layout"]["cells"][0][0], before["layout"]["cells"][1][2]);
  EXPECT_EQ(after["layout"]["cells"][1][2], before["layout"]["cells"][0][0]);
  const auto undone = bench.run("undo harbour");
  ASSERT_EQ(undone.status, 0);
  EXPECT_THAT(undone.out, HasSubstr("be undone from here, 1 redone."));
  EXPECT_EQ(quilt(), before);
  ASSERT_EQ(bench.run("redo harbour").status, 0);
  EXPECT_EQ(quilt(), after);
  EXPECT_EQ(bench.run("redo harbour").status, 2);
}

TEST_F(WholeWay, AKeptBlockStaysWhereItIs) {
  const Bench bench;
  begin(bench);
  ASSERT_EQ(bench.run("arrange harbour --effort 0.03").status, 0);
  ASSERT_EQ(bench.run("keep harbour R1C1 R3C2").status, 0);
  const json before = json::parse(bytes_of(bench.folder() / "harbour/quilt.json"));
  EXPECT_EQ(bench.run("swap harbour R1C1 R2C2").status, 2);
  ASSERT_EQ(bench.run("arrange harbour --seed 9 --effort 0.03").status, 0);
  const json after = json::parse(bytes_of(bench.folder() / "harbour/quilt.json"));
  EXPECT_EQ(after["layout"]["cells"][0][0], before["layout"]["cells"][0][0]);
  EXPECT_EQ(after["layout"]["cells"][2][1], before["layout"]["cells"][2][1]);
  ASSERT_EQ(bench.run("free harbour R1C1").status, 0);
}

TEST_F(WholeWay, SwapsAreListedAndLeadWhereTheySay) {
  const Bench bench;
  begin(bench);
  ASSERT_EQ(bench.run("arrange harbour --effort 0.05").status, 0);
  std::filesystem::copy(bench.folder() / "harbour", bench.folder() / "planned",
                        std::filesystem::copy_options::recursive);
  ASSERT_EQ(bench.run("swap harbour R1C1 R4C4").status, 0);
  ASSERT_EQ(bench.run("swap harbour R2C2 R5C3").status, 0);

  const json back = json::parse(bench.run("swaps harbour --to planned --json").out);
  EXPECT_LE(back["swaps"].size(), 2U);
  const json before = json::parse(bench.run("check harbour --json").out);
  const json better = json::parse(bench.run("swaps harbour --max 2 --json").out);
  ASSERT_FALSE(better["swaps"].empty());
  const json& last = better["swaps"].back();
  EXPECT_LE(last["touch"], before["touch"]["count"]);

  const auto cell = [](const json& place) {
    return "R" + std::to_string(place[0].get<int>() + 1) + "C" + std::to_string(place[1].get<int>() + 1);
  };
  for (const json& swap : better["swaps"]) {
    ASSERT_EQ(bench.run("swap harbour " + cell(swap["a"]) + " " + cell(swap["b"])).status, 0);
  }
  const json after = json::parse(bench.run("check harbour --json").out);
  EXPECT_EQ(after["touch"]["count"], last["touch"]);
  EXPECT_NEAR(after["F"].get<double>(), last["F"].get<double>(), 1e-6);
}

TEST_F(WholeWay, AnOutputThatIsThereIsNotReplacedUnlessForced) {
  const Bench bench;
  begin(bench);
  bench.write("top.png", "mine");
  EXPECT_EQ(bench.run("preview harbour -o top.png").status, 2);
  EXPECT_EQ(bytes_of(bench.folder() / "top.png"), "mine");
  EXPECT_EQ(bench.run("preview harbour -o top.png --force --width 200").status, 0);
}

TEST_F(WholeWay, TouchesThatNoLayoutAvoidsGiveStatusThree) {
  const Bench bench;
  begin(bench);
  // One print in every block.
  json quilt = json::parse(bytes_of(bench.folder() / "harbour/quilt.json"));
  for (json& block : quilt["blocks"]) block["prints"] = {{"A", "P01"}};
  bench.write("harbour/quilt.json", quilt.dump());
  const auto ran = bench.run("arrange harbour --effort 0.03");
  EXPECT_EQ(ran.status, 3) << ran.err;
}

}  // namespace
}  // namespace farflung::app
