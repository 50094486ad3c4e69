// Make-up and layout from the command line: progress for other programs, stopping, time in place of effort, cloth.
#include <map>
#include <sstream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "app/run.hpp"

namespace farflung::app {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

json print_of(int number, const json& cloth) {
  const std::string id = "P0" + std::to_string(number);
  return {{"id", id},
          {"code", std::string(1, static_cast<char>('A' + number - 1))},
          {"name", "Cloth " + std::to_string(number)},
          {"cloth", cloth},
          {"features", {{"lab", {10.0 + 10 * number, 7.0 * number - 30, 20.0 - 5 * number}}}}};
}

json fat_quarters(int count) {
  return json::array({{{"kind", "fat quarter"}, {"width", 20}, {"length", 17.5}, {"count", count}}});
}

/// Thirty-six blocks of two half-square triangles whose prints are not dealt yet, sewn by two steps.
json half_squares() {
  json quilt = {{"format", "farflung-quilt"}, {"version", 1}, {"title", "Harbour"}, {"units", "in"}};
  quilt["prints"] = json::array();
  for (int p = 1; p <= 8; ++p) quilt["prints"].push_back(print_of(p, json::array()));
  quilt["patterns"] = json::array({{{"id", "half"},
                                    {"name", "Half squares"},
                                    {"width", 6},
                                    {"height", 6},
                                    {"turns", {0, 1, 2, 3}},
                                    {"slots", {{"A", json::object()}, {"B", json::object()}}},
                                    {"patches", json::array({{{"slot", "A"}, {"polygon", {{0, 0}, {6, 0}, {0, 6}}}},
                                                             {{"slot", "B"}, {"polygon", {{6, 0}, {6, 6}, {0, 6}}}}})},
                                    {"piecing", json::array({{{"join", {0, 1}}, {"press", 0}}})}}});
  quilt["setting"] = {{"kind", "straight"}, {"rows", 6}, {"columns", 6}};
  quilt["blocks"] = json::array();
  for (int b = 1; b <= 36; ++b) {
    quilt["blocks"].push_back({{"id", "B" + std::to_string(b)}, {"pattern", "half"}, {"prints", json::object()}});
  }
  return quilt;
}

void write_quilt(const Bench& bench, const json& quilt) { bench.write("harbour/quilt.json", quilt.dump()); }

TEST(Arranging, ProgressIsALineOfJsonForEachStepWithTheScoreOfTheBest) {
  const Bench bench;
  write_quilt(bench, half_squares());
  const auto ran = bench.run("arrange harbour --effort 0.03 --progress json");
  ASSERT_EQ(ran.status, 0) << ran.err;
  std::istringstream lines(ran.err);
  double done = 0;
  int told = 0;
  json last;
  for (std::string line; std::getline(lines, line); ++told) {
    const json now = json::parse(line, nullptr, false);
    ASSERT_FALSE(now.is_discarded()) << line;
    EXPECT_GE(now["done"], done);
    done = now["done"];
    if (now.contains("F")) last = now;
  }
  EXPECT_GT(told, 20);
  EXPECT_EQ(done, 1);
  EXPECT_EQ(last["touch"], 0);
  EXPECT_GT(last["F"], 0);
}

TEST(Arranging, StoppedByControlCLeavesEveryFileAsItWas) {
  const Bench bench;
  write_quilt(bench, half_squares());
  for (const char* blocks : {"open", "sewn"}) {
    if (blocks == std::string("sewn")) {
      ASSERT_EQ(bench.run("arrange harbour --effort 0.01").status, 0);
    }
    const auto before = bench.everything();
    const auto ran = bench.shell(kProgram + " arrange harbour --effort 1000 --progress json --blocks " + blocks +
                                 " 2>told & it=$!; until [ -s told ]; do sleep 0.05; done; kill -INT $it; wait $it; "
                                 "status=$?; rm told; exit $status");
    EXPECT_EQ(ran.status, 130) << blocks;
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(bench.everything(), before) << blocks;
  }
}

TEST(Arranging, SecondsStandInPlaceOfEffort) {
  const Bench bench;
  write_quilt(bench, half_squares());
  const auto ran = bench.run("arrange harbour --seconds 0.5 --json");
  ASSERT_EQ(ran.status, 0) << ran.err;
  EXPECT_EQ(json::parse(ran.out)["after"]["touch"], 0);
  EXPECT_EQ(json::parse(bench.run("check harbour --json").out)["problems"], json::array());
  EXPECT_EQ(bench.run("arrange harbour --seconds 0").status, 2);
}

TEST(Arranging, APrintOfLittleClothIsDealtAsFarAsItGoesAndThatIsSaid) {
  const Bench bench;
  json quilt = half_squares();
  for (json& print : quilt["prints"]) print["cloth"] = fat_quarters(2);
  quilt["prints"][3]["cloth"] = json::array({{{"kind", "scrap"}, {"width", 14}, {"length", 7}, {"count", 1}}});
  write_quilt(bench, quilt);
  const auto ran = bench.run("arrange harbour --effort 0.02 --json");
  ASSERT_EQ(ran.status, 0) << ran.err;
  const json cloth = json::parse(ran.out)["cloth"];
  EXPECT_EQ(cloth["enough"], true);
  EXPECT_EQ(cloth["limited"], json::array({{{"print", "P04"}, {"slots", 4}}})) << "two squares of 6 7/8 in, cut once";
  int dealt = 0;
  const json dealt_quilt = json::parse(bytes_of(bench.folder() / "harbour/quilt.json"));
  for (const json& block : dealt_quilt["blocks"]) {
    for (const json& print : block["prints"]) dealt += print == "P04" ? 1 : 0;
  }
  EXPECT_EQ(dealt, 4);
  EXPECT_THAT(bench.run("arrange harbour --blocks open --effort 0.02").out,
              HasSubstr("Cloth 4 is in fewer blocks than others: its cloth in hand is enough for 4."));
  EXPECT_EQ(bench.run("cloth harbour --json").status, 0);
}

TEST(Arranging, TrianglesThatAreCutEightFromASquareAreDealtSo) {
  const Bench bench;
  write_quilt(bench, half_squares());
  ASSERT_EQ(bench.run("arrange harbour --triangles 8 --effort 0.02").status, 0);
  std::map<std::string, int> dealt;
  const json quilt = json::parse(bytes_of(bench.folder() / "harbour/quilt.json"));
  for (const json& block : quilt["blocks"]) {
    for (const json& print : block["prints"]) ++dealt[print];
  }
  for (const auto& [print, triangles] : dealt) EXPECT_EQ(triangles % 8, 0) << print << ": 72 are nine squares";
  const auto four = bench.run("arrange harbour --triangles 4 --blocks sewn --effort 0.02 --json");
  EXPECT_EQ(json::parse(four.out)["left_over"], json::array());
  const auto three = bench.run("arrange harbour --triangles 3");
  EXPECT_EQ(three.status, 2);
  EXPECT_THAT(three.err, HasSubstr("--triangles"));
}

TEST(Arranging, ClothThatIsNotEnoughForAllIsToldAndTheQuiltPlannedAllTheSame) {
  const Bench bench;
  json quilt = half_squares();
  for (json& print : quilt["prints"]) print["cloth"] = fat_quarters(1);  // two by two squares of 6 7/8 in: 8 triangles
  write_quilt(bench, quilt);
  const auto ran = bench.run("arrange harbour --effort 0.02");
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("The cloth in hand fills 64 of 72 places in the blocks"));
  const auto without = bench.run("arrange harbour --effort 0.02 --blocks sewn");
  EXPECT_THAT(without.out, Not(HasSubstr("cloth in hand")));
}

TEST(Arranging, TrianglesThatAreCutAndNotUsedAreNamed) {
  const Bench bench;
  json quilt = half_squares();
  quilt["setting"]["rows"] = quilt["setting"]["columns"] = 1;
  quilt["blocks"] = json::array({quilt["blocks"][0]});
  write_quilt(bench, quilt);
  const auto ran = bench.run("arrange harbour --json");
  ASSERT_EQ(ran.status, 0) << ran.err;
  EXPECT_EQ(json::parse(ran.out)["left_over"].size(), 2u) << "one block takes a triangle of each of two prints";
}

TEST(Arranging, CheckCountsSeamEndsThatNestWhereTheQuiltAsksForThem) {
  const Bench bench;
  json quilt = half_squares();
  quilt["goals"] = {{"nest", 0.5}};
  write_quilt(bench, quilt);
  ASSERT_EQ(bench.run("arrange harbour --effort 0.03").status, 0);
  const json report = json::parse(bench.run("check harbour --json").out);
  const json& nesting = report["nesting"];
  EXPECT_EQ(report["nest"], nesting["do_not"]);
  EXPECT_GT(report["shuffle"]["nest"], 0);
  EXPECT_EQ(nesting["meet"], nesting["nest"].get<int>() + nesting["do_not"].get<int>() + nesting["open"].get<int>());
  const std::string words = bench.run("check harbour").out;
  EXPECT_THAT(words, HasSubstr("another across a join"));
  EXPECT_THAT(words, HasSubstr(", nest "));
}

TEST(Arranging, CheckNamesWhatEachKeptCellCosts) {
  const Bench bench;
  write_quilt(bench, half_squares());
  ASSERT_EQ(bench.run("arrange harbour --effort 0.03").status, 0);
  ASSERT_EQ(bench.run("swap harbour R1C1 R3C4").status, 0);
  ASSERT_EQ(bench.run("keep harbour R1C1 R6C6").status, 0);
  const json report = json::parse(bench.run("check harbour --json").out);
  EXPECT_EQ(report["kept"].size(), 2u);
  EXPECT_THAT(bench.run("check harbour").out, HasSubstr("Keeping R"));
}

}  // namespace
}  // namespace farflung::app
