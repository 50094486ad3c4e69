// Where the program cannot see, the user tells: colours, corners, gradation; and the sheet that helps it see.
#include <map>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "app/run.hpp"

namespace farflung::app {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::StartsWith;

class ByHand : public ::testing::Test {
 protected:
  void SetUp() override { ASSERT_EQ(bench.run("new harbour --size 24x24").status, 0); }

  json quilt() const { return json::parse(bytes_of(bench.folder() / "harbour/quilt.json")); }

  Bench bench;
};

TEST_F(ByHand, APrintCanBeTypedAsAColour) {
  const auto ran = bench.run("photo harbour --colour '#3a6ea5' --name Breaker --json");
  ASSERT_EQ(ran.status, 0) << ran.err;
  EXPECT_EQ(json::parse(ran.out)["prints"][0]["id"], "P01");
  const json print = quilt()["prints"][0];
  EXPECT_EQ(print["name"], "Breaker");
  EXPECT_NEAR(print["features"]["lab"][0].get<double>(), 45, 1);
  EXPECT_EQ(print["features"]["by_hand"], json({"lab"}));
  EXPECT_EQ(bench.run("photo harbour --colour seaweed").status, 2);
  EXPECT_EQ(bench.run("photo harbour").status, 2) << "neither photograph nor colour";
}

TEST_F(ByHand, CornersThatAreToldAreTaken) {
  const std::string photograph = " '" + kDemoPhotographs + "/03-samphire.jpg' ";
  const auto ran = bench.run("photo harbour" + photograph + "--corners 300,300,800,300,800,900,300,900 --json");
  ASSERT_EQ(ran.status, 0) << ran.err;
  const json corners = json::parse(ran.out)["prints"][0]["corners"];
  EXPECT_EQ(corners, json::parse("[[300.0,300.0],[800.0,300.0],[800.0,900.0],[300.0,900.0]]"));
  EXPECT_EQ(bench.run("photo harbour" + photograph + "--corners 300,300").status, 2);
}

TEST_F(ByHand, AGradationIsAskedForInTheFile) {
  for (const char* colour : {"#202020", "#606060", "#a0a0a0", "#e0e0e0"}) {
    ASSERT_EQ(bench.run(std::string("photo harbour --colour '") + colour + "'").status, 0);
  }
  ASSERT_EQ(bench.run("set harbour /goals/gradation 20").status, 0);
  ASSERT_EQ(bench.run("set harbour /gradation '{\"way\": \"down\", \"dark_first\": true}'").status, 0);
  const int status = bench.run("arrange harbour --effort 0.08").status;
  EXPECT_TRUE(status == 0 || status == 3);

  // Lightness by row: the top is dark, the foot light.
  const json laid = quilt();
  std::map<std::string, double> lightness;
  for (const json& print : laid["prints"]) lightness[print["id"]] = print["features"]["lab"][0];
  std::map<std::string, std::string> print_of;
  for (const json& block : laid["blocks"]) print_of[block["id"]] = block["prints"]["A"];
  const json& rows = laid["layout"]["cells"];
  const auto mean = [&](const json& row) {
    double sum = 0;
    for (const json& block : row) sum += lightness[print_of[block]];
    return sum / static_cast<double>(row.size());
  };
  EXPECT_LT(mean(rows.front()) + 20, mean(rows.back()));
}

TEST_F(ByHand, TheReferenceSheetIsPrintedOnBothPapers) {
  for (const char* paper : {"letter", "a4"}) {
    ASSERT_EQ(bench.run(std::string("reference -o sheet.pdf --force --paper ") + paper).status, 0);
    EXPECT_THAT(bytes_of(bench.folder() / "sheet.pdf"), StartsWith("%PDF-"));
  }
  EXPECT_EQ(bench.run("reference -o sheet.png").status, 2);
}

TEST_F(ByHand, ProgressIsALineOfJsonForEachStepWhereAsked) {
  for (const char* colour : {"#202020", "#606060", "#a0a0a0", "#e0e0e0"}) {
    ASSERT_EQ(bench.run(std::string("photo harbour --colour '") + colour + "'").status, 0);
  }
  const auto ran = bench.run("arrange harbour --effort 0.05 --progress json");
  std::istringstream lines(ran.err);
  int count = 0;
  for (std::string line; std::getline(lines, line); ++count) {
    const json step = json::parse(line, nullptr, false);
    ASSERT_TRUE(step.is_object()) << line;
    EXPECT_TRUE(step.contains("done"));
  }
  EXPECT_GT(count, 0);
}

}  // namespace
}  // namespace farflung::app
