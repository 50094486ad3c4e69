#include "project/schema.hpp"

#include <fstream>
#include <future>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "project/data_folder.hpp"
#include "project/upgrade.hpp"
#include "project/world.hpp"

namespace farflung::project {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::UnorderedElementsAre;

Json parsed(const std::string& text) { return must(parse_json(text, "test")); }

TEST(Schema, TheExampleOfTheFormatIsValid) {
  EXPECT_EQ(schema_problems(parsed(harbour_text()), must(read_schema())), Problems{});
}

TEST(Schema, EveryPatternOfTheLibraryIsValid) {
  for (const auto& entry : std::filesystem::directory_iterator(must(data_folder()) / "patterns")) {
    EXPECT_EQ(schema_problems(parsed(bytes_of(entry.path())), must(read_schema()), "pattern"), Problems{})
        << entry.path();
  }
}

TEST(Schema, IsParsedOnceUntilItsFileIsAnother) {
  const auto first = must(read_schema());
  EXPECT_EQ(must(read_schema()), first);
  TemporaryFolder folder;
  std::filesystem::copy_file(must(data_folder()) / "quilt.schema.json", folder / "quilt.schema.json");
  const std::string before = ::getenv("FARFLUNG_DATA") == nullptr ? "" : ::getenv("FARFLUNG_DATA");
  ::setenv("FARFLUNG_DATA", folder.path().c_str(), 1);
  Json other = *first;
  other["required"].push_back("tides");
  std::ofstream(folder / "quilt.schema.json") << other.dump();
  const Problems told = schema_problems(parsed(harbour_text()), must(read_schema()));
  std::filesystem::remove(folder / "quilt.schema.json");
  EXPECT_FALSE(read_schema().ok()) << "what is not there is not remembered";
  if (before.empty()) {
    ::unsetenv("FARFLUNG_DATA");
  } else {
    ::setenv("FARFLUNG_DATA", before.c_str(), 1);
  }
  ASSERT_EQ(told.size(), 1U);
  EXPECT_EQ(told.front().at, "/tides");
  EXPECT_EQ(schema_problems(parsed(harbour_text()), must(read_schema())), Problems{});
}

TEST(Schema, ThreadsThatReadItAtOnceGetTheSame) {
  std::vector<std::future<std::shared_ptr<const Json>>> readers;
  for (int k = 0; k < 8; ++k) readers.push_back(std::async(std::launch::async, [] { return must(read_schema()); }));
  for (auto& reader : readers) EXPECT_EQ(*reader.get(), *must(read_schema()));
}

/// The schema's keys that lead to a value, each with where it stands.
void collect(const Json& place, const std::string& at, std::vector<std::pair<std::string, Json>>& keys) {
  if (!place.is_object()) return;
  for (const auto& [key, value] : place.items()) {
    if (key == "properties") {
      for (const auto& [name, rules] : value.items()) keys.emplace_back(at + "/" + name, rules);
    }
    collect(value, at + "/" + key, keys);
  }
}

TEST(Schema, DescribesEveryKeyOrRefersToWhatDoes) {
  const Json schema = *must(read_schema());
  std::vector<std::pair<std::string, Json>> keys;
  collect(schema, "", keys);
  EXPECT_GT(keys.size(), 80U);
  for (const auto& [at, rules] : keys) {
    EXPECT_TRUE(rules.contains("$ref") || rules.contains("type") || rules.contains("enum") || rules.contains("const"))
        << at;
  }
}

TEST(Schema, EveryReferenceLeadsSomewhere) {
  const Json schema = *must(read_schema());
  const std::string text = schema.dump();
  const std::string lead = "\"$ref\":\"#";
  for (std::size_t at = text.find(lead); at != std::string::npos; at = text.find(lead, at + 1)) {
    const std::size_t start = at + lead.size();
    const std::string pointer = text.substr(start, text.find('"', start) - start);
    EXPECT_NE(value_at(schema, *pointer_tokens(pointer)), nullptr) << pointer;
  }
}

TEST(Schema, KeysThatItDoesNotNameAreAllowedEverywhere) {
  EXPECT_THAT(bytes_of(must(data_folder()) / "quilt.schema.json"),
              ::testing::Not(HasSubstr("\"additionalProperties\": false")));
}

TEST(Schema, SaysInPlainWordsWhatIsWrongAndWhatBelongsThere) {
  Json tree = parsed(harbour_text());
  tree["title"] = 7;
  tree["prints"][0]["features"]["lab"] = {1, 2};
  tree["prints"][1].erase("id");
  tree["setting"]["rows"] = 2.5;
  std::vector<std::string> told;
  for (const Problem& problem : schema_problems(tree, must(read_schema()))) told.push_back(problem.text());
  EXPECT_THAT(told,
              UnorderedElementsAre("/title: is the number 7, must be a text: what the quilt is called",
                                   "/prints/0/features/lab: has 2 entries, must have at least 3 entries: colour of the "
                                   "swatch's mean linear light, CIELAB: L, a, b",
                                   "/prints/1/id: is missing, must be a text: a name that nothing else of its kind has",
                                   "/setting/rows: is the number 2.5, must be a whole number: rows of cells; on "
                                   "point, the rows of full width"));
}

TEST(Schema, ALongTextIsToldByItsFirstLettersAndTheFilesOwnWordsByTheirFirstSentence) {
  Json tree = parsed(harbour_text());
  std::string text;
  for (int i = 0; i < 40; ++i) text += "\xc3\xb6";
  tree["setting"]["rows"] = text;
  const Problems rows = schema_problems(tree, must(read_schema()));
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_EQ(rows.front().cause, "is the text \"" + text.substr(0, 58) + "..., must be a whole number");
  const Problems whole = schema_problems(Json::array(), must(read_schema()));
  ASSERT_EQ(whole.size(), 1U);
  EXPECT_EQ(whole.front().text(), "is a list, must be an object: The file quilt.json in a quilt's folder");
}

TEST(Upgrade, WalksStepByStepFromAnOldVersionToTheNewest) {
  const UpgradeSteps steps = {[](Json& tree) { tree["walked"].push_back(1); },
                              [](Json& tree) { tree["walked"].push_back(2); }};
  Json tree = {{"version", 1}};
  must(upgrade(tree, steps));
  EXPECT_EQ(tree, (Json{{"version", 3}, {"walked", {1, 2}}}));
  Json later = {{"version", 2}};
  must(upgrade(later, steps));
  EXPECT_EQ(later, (Json{{"version", 3}, {"walked", Json::array({2})}}));
  Json newest = {{"version", 3}};
  must(upgrade(newest, steps));
  EXPECT_EQ(newest, (Json{{"version", 3}}));
}

TEST(Upgrade, RefusesWhatIsNewer) {
  const UpgradeSteps steps = {[](Json&) {}};
  Json tree = {{"version", 3}};
  const Result<Done> upgraded = upgrade(tree, steps);
  ASSERT_FALSE(upgraded.ok());
  EXPECT_EQ(upgraded.problems().front().text(),
            "/version: is version 3, this program knows versions up to 2: open it with a newer Farflung");
}

TEST(Upgrade, TheFormatsStepsLeadToTheVersionThatIsWritten) {
  EXPECT_EQ(upgrade_steps().size() + 1, static_cast<std::size_t>(kFormatVersion));
}

TEST(Pointer, IsReadAsRfc6901Says) {
  EXPECT_THAT(*pointer_tokens("/a~1b/m~0n/0"), ElementsAre("a/b", "m~n", "0"));
  EXPECT_TRUE(pointer_tokens("")->empty());
  EXPECT_THAT(*pointer_tokens("/"), ElementsAre(""));
  for (const char* text : {"a", "/~", "/~2", "#/a"}) EXPECT_FALSE(pointer_tokens(text)) << text;
  for (const char* key : {"a/b", "m~n", "", "~1", " "}) {
    EXPECT_THAT(*pointer_tokens("/" + escaped_token(key)), ElementsAre(key));
  }
}

TEST(JsonText, LaysOutWhatFitsOnALineAndRunsNumbersOn) {
  EXPECT_EQ(json_text(parsed("{}")), "{}\n");
  EXPECT_EQ(json_text(parsed(R"({"a":[1,2.5,"x",null],"b":{}})")),
            "{\n  \"a\": [1, 2.5, \"x\", null],\n  \"b\": {}\n}\n");
  Json numbers = {{"n", Json(60, 1234)}};
  const std::string text = json_text(numbers);
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 8);
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 120U);
  EXPECT_EQ(parsed(text), numbers);
}

}  // namespace
}  // namespace farflung::project
