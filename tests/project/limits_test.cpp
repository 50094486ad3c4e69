// Every limit of base/limits.hpp, from just within to just beyond.
#include "base/limits.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "project/disk.hpp"
#include "project/json.hpp"
#include "project/patterns.hpp"
#include "project/world.hpp"

namespace farflung::project {
namespace {

using ::testing::HasSubstr;

Json tree() { return must(parse_json(harbour_text(), "quilt.json")); }

std::string nested(int depth) { return std::string(depth, '[') + std::string(depth, ']'); }

/// The first problem of reading a tree; empty where there is none.
std::string told(const Json& tree) {
  const Result<Document> read = document_from_text(tree.dump());
  return read ? "" : read.problems().front().text();
}

TEST(Limits, Bytes) {
  EXPECT_THAT(parse_json(std::string(limits::kFileBytes + 1, ' '), "f").problems().front().cause,
              HasSubstr("larger than"));
  TemporaryFolder folder;
  std::ofstream(folder / "quilt.json") << "{}";
  std::filesystem::resize_file(folder / "quilt.json", 1024ULL * 1024 * 1024 * 8);  // takes no room: it is all hole
  EXPECT_THAT(read(folder.path()).problems().front().cause, HasSubstr("larger than"));
}

TEST(Limits, Depth) {
  EXPECT_TRUE(parse_json(nested(limits::kDepth), "f").ok());
  EXPECT_THAT(parse_json(nested(limits::kDepth + 1), "f").problems().front().cause, HasSubstr("nested deeper"));
  EXPECT_THAT(parse_json(std::string(limits::kFileBytes, '['), "f").problems().front().cause,
              HasSubstr("nested deeper"));
  std::string objects;
  while (objects.size() + 5 < limits::kFileBytes) objects += "{\"a\":";
  EXPECT_THAT(parse_json(objects, "f").problems().front().cause, HasSubstr("nested deeper"));
}

TEST(Limits, Keys) {
  Json object = Json::object();
  for (std::size_t i = 0; i < limits::kKeys; ++i) object[std::to_string(i)] = 0;
  EXPECT_TRUE(parse_json(object.dump(), "f").ok());
  object["one more"] = 0;
  EXPECT_THAT(parse_json(object.dump(), "f").problems().front().cause, HasSubstr("more than 1000 keys"));
}

TEST(Limits, Values) {
  std::string list = "[0";
  for (std::size_t i = 2; i < limits::kValues; ++i) list += ",0";
  EXPECT_TRUE(parse_json(list + "]", "f").ok());
  EXPECT_THAT(parse_json(list + ",0]", "f").problems().front().cause, HasSubstr("more than 1000000 values"));
}

TEST(Limits, Problems) {
  Json wrong = tree();
  for (int i = 0; i < 2'000; ++i) wrong["prints"].push_back(i);
  EXPECT_LE(document_from_text(wrong.dump()).problems().size(), limits::kProblems + 2);
  wrong = tree();
  wrong["setting"]["rows"] = 40;
  wrong["setting"]["columns"] = 40;
  wrong["layout"] = {{"cells", Json::array()}};
  for (int r = 0; r < 40; ++r) wrong["layout"]["cells"].push_back(Json(40, "nobody"));
  const Problems problems = document_from_text(wrong.dump()).problems();
  ASSERT_EQ(problems.size(), limits::kProblems + 1);
  EXPECT_EQ(problems.back().cause, "and 1100 more problems");
}

TEST(Limits, Prints) {
  Json many = tree();
  while (many["prints"].size() < limits::kPrints) {
    many["prints"].push_back(
        {{"id", "X" + std::to_string(many["prints"].size())}, {"features", {{"lab", {50, 0, 0}}}}});
  }
  EXPECT_EQ(told(many), "");
  many["prints"].push_back({{"id", "X"}, {"features", {{"lab", {50, 0, 0}}}}});
  EXPECT_THAT(told(many), HasSubstr("#/prints: has 1001 entries, the most is 1000"));
}

TEST(Limits, Patterns) {
  Json many = tree();
  while (many["patterns"].size() < limits::kPatterns) {
    many["patterns"].push_back(many["patterns"][0]);
    many["patterns"].back()["id"] = "X" + std::to_string(many["patterns"].size());
  }
  EXPECT_EQ(told(many), "");
  many["patterns"].push_back(many["patterns"][0]);
  EXPECT_THAT(told(many), HasSubstr("#/patterns: has 101 entries"));
}

/// A pattern of `count` strips.
Json strips(std::size_t count, const std::string& id) {
  Json pattern = {
      {"id", id}, {"width", 9}, {"height", 9}, {"slots", {{"A", Json::object()}}}, {"patches", Json::array()}};
  const double high = 9.0 / static_cast<double>(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double top = high * static_cast<double>(i), bottom = i + 1 == count ? 9 : top + high;
    pattern["patches"].push_back({{"slot", "A"}, {"polygon", {{0, top}, {9, top}, {9, bottom}, {0, bottom}}}});
  }
  return pattern;
}

TEST(Limits, Patches) {
  EXPECT_TRUE(pattern_from_text(strips(limits::kPatches, "s").dump(), "f").ok());
  EXPECT_THAT(pattern_from_text(strips(limits::kPatches + 1, "s").dump(), "f").problems().front().cause,
              HasSubstr("has 501 entries"));
  Json many = tree();
  for (int i = 0; i < 4; ++i) many["patterns"].push_back(strips(limits::kPatches, "s" + std::to_string(i)));
  EXPECT_THAT(told(many), HasSubstr("#/patterns: have 2003 patches, the most is 2000"));
}

TEST(Limits, CornersSlotsAndSteps) {
  Json pattern = strips(2, "s");
  for (std::size_t i = 0; i <= limits::kCorners; ++i) pattern["patches"][0]["polygon"].push_back({0, 0});
  EXPECT_THAT(pattern_from_text(pattern.dump(), "f").problems().front().at, HasSubstr("/patches/0/polygon"));
  pattern = strips(2, "s");
  for (std::size_t i = 0; i <= limits::kSlots; ++i) pattern["slots"]["x" + std::to_string(i)] = Json::object();
  EXPECT_THAT(pattern_from_text(pattern.dump(), "f").problems().front().at, HasSubstr("/slots"));
  pattern = strips(2, "s");
  pattern["piecing"] = Json(2 * limits::kPatches + 1, {{"join", {0, 1}}});
  EXPECT_THAT(pattern_from_text(pattern.dump(), "f").problems().front().at, HasSubstr("/piecing"));
  pattern["piecing"] = Json::array({{{"join", Json(limits::kPatches + 1, 0)}}});
  EXPECT_THAT(pattern_from_text(pattern.dump(), "f").problems().front().at, HasSubstr("/piecing/0/join"));
}

TEST(Limits, Cells) {
  Json many = tree();
  many.erase("layout");
  many["setting"]["rows"] = 200;
  many["setting"]["columns"] = 200;
  EXPECT_EQ(told(many), "");
  many["setting"]["columns"] = 201;
  EXPECT_THAT(told(many), HasSubstr("#/setting: 200 rows of 201 are more than 40000 cells"));
  many["setting"]["columns"] = 200;
  many["setting"]["kind"] = "on point";
  EXPECT_THAT(told(many), HasSubstr("more than 40000 cells"));
  many["setting"]["rows"] = 1'000'000'000;
  EXPECT_THAT(told(many), HasSubstr("more than 40000 cells"));
}

TEST(Limits, Blocks) {
  Json many = tree();
  while (many["blocks"].size() <= limits::kBlocks) {
    many["blocks"].push_back({{"id", std::to_string(many["blocks"].size())}, {"pattern", "rails"}});
  }
  EXPECT_THAT(told(many), HasSubstr("#/blocks: has 60001 entries"));
}

TEST(Limits, Borders) {
  Json many = tree();
  many["setting"]["borders"] = Json(limits::kBorders, {{"width", 1}});
  EXPECT_EQ(told(many), "");
  many["setting"]["borders"] = Json(limits::kBorders + 1, {{"width", 1}});
  EXPECT_THAT(told(many), HasSubstr("more than 20 borders"));
}

TEST(Limits, Lengths) {
  Json far = tree();
  for (const Json& length : {Json(10'001), Json(1e308), Json("10001"), Json("999999999 m"), Json(-10'001)}) {
    far["setting"]["sashing"]["width"] = length;
    EXPECT_THAT(told(far), HasSubstr("/setting/sashing/width")) << length;
  }
  far["setting"]["sashing"]["width"] = 10'000;
  EXPECT_EQ(told(far), "");
}

}  // namespace
}  // namespace farflung::project
