// Deciding before the first cut: which prints, how big, which border, which thread, how much cloth.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "app/run.hpp"

namespace farflung::app {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::StartsWith;

/// Six prints in thirty blocks, arranged, with a border.
class Choosing : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(bench.run("new harbour --pattern nine-patch --size 45x54").status, 0);
    ASSERT_EQ(bench.run("photo harbour '" + kDemoPhotographs + "/01-table.jpg'").status, 0);
    ASSERT_EQ(bench.run("set harbour /setting/borders '[{\"width\": 4, \"print\": \"P01\"}]'").status, 0);
    ASSERT_EQ(bench.run("arrange harbour --effort 0.1").status, 0);
  }

  json report(const std::string& words) {
    const auto ran = bench.run(words + " --json");
    EXPECT_EQ(ran.status, 0) << words << ": " << ran.err;
    const json parsed = json::parse(ran.out, nullptr, false);
    EXPECT_EQ(parsed.value("schema_version", 0), 1) << words;
    return parsed;
  }

  Bench bench;
};

TEST_F(Choosing, ChooseTakesAsManyPrintsAsAskedAndKeepsThoseItMust) {
  const json chosen = report("choose harbour --take 3 --keep P02 --drop P05");
  ASSERT_EQ(chosen["take"].size(), 3U);
  EXPECT_THAT(chosen["take"], ::testing::Contains(json("P02")));
  EXPECT_THAT(chosen["take"], ::testing::Not(::testing::Contains(json("P05"))));
  EXPECT_EQ(chosen["proven"], true);
  EXPECT_EQ(bench.run("choose harbour --take 9").status, 2);
  EXPECT_EQ(bench.run("choose harbour --take 2 --keep Seagull").status, 2);
}

TEST_F(Choosing, SizesTableTheCommonOnes) {
  const json sizes = report("sizes harbour");
  EXPECT_GE(sizes["sizes"].size(), 6U);
  for (const json& size : sizes["sizes"])
    EXPECT_EQ(size["blocks"], size["rows"].get<int>() * size["columns"].get<int>());
}

TEST_F(Choosing, ClothSaysWhatToCutAndBuyWithTheWorking) {
  const json cloth = report("cloth harbour");
  ASSERT_FALSE(cloth["cut"].empty());
  ASSERT_FALSE(cloth["buy"].empty());
  for (const json& row : cloth["cut"]) EXPECT_GT(row["count"], 0);
  for (const json& row : cloth["buy"]) EXPECT_FALSE(row["says"].get<std::string>().empty());
  EXPECT_THAT(bench.run("cloth harbour").out, HasSubstr("Cautions:"));
}

TEST_F(Choosing, CandidatesAreRankedAndDrawn) {
  const json border = report("try harbour --as border -o border.png");
  EXPECT_EQ(border["ranked"].size(), 6U);
  EXPECT_THAT(bytes_of(bench.folder() / "border.png"), StartsWith("\x89PNG"));
  const json thread = report("try harbour --as thread --style waves --spacing 3 -o thread.svg");
  EXPECT_EQ(thread["top"].size(), 40U);
  EXPECT_NEAR(thread["quilting"]["top_inches"].get<double>(), 1.4 * thread["quilting"]["path_inches"].get<double>(),
              1e-6);
  EXPECT_EQ(bench.run("try harbour --as sofa").status, 2);
}

TEST_F(Choosing, SeveralAreComparedSideBySide) {
  const json compared = report("compare harbour 60x60 border=P03 -o side.png");
  EXPECT_EQ(compared["compared"].size(), 3U);
  EXPECT_EQ(bench.run("compare harbour border=Nothing -o other.png").status, 2);
}

TEST_F(Choosing, APackedQuiltComesBackWhole) {
  ASSERT_EQ(bench.run("pack harbour harbour.quilt").status, 0);
  EXPECT_EQ(bench.run("pack harbour harbour.quilt").status, 2) << "it is there already";
  ASSERT_EQ(bench.run("unpack again harbour.quilt").status, 0);
  EXPECT_EQ(bytes_of(bench.folder() / "again/quilt.json"), bytes_of(bench.folder() / "harbour/quilt.json"));
  EXPECT_EQ(report("check again")["touch"], report("check harbour")["touch"]);
}

}  // namespace
}  // namespace farflung::app
