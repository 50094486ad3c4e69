#include "project/patterns.hpp"

#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "project/data_folder.hpp"
#include "project/world.hpp"

namespace farflung::project {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsSupersetOf;

/// The pattern turned, as a set of patches that does not care in which order they or their corners stand.
std::multiset<std::string> pieces(const block::Pattern& pattern, Turn turn) {
  std::multiset<std::string> pieces;
  for (const block::Patch& patch : pattern.patches) {
    std::set<std::string> corners;
    for (const Point& corner : turned(patch.polygon, pattern.width, pattern.height, turn)) {
      corners.insert(std::to_string(corner.x.inches()) + "," + std::to_string(corner.y.inches()) + " ");
    }
    std::string piece = pattern.slots[patch.slot].name + ": ";
    for (const std::string& corner : corners) piece += corner;
    pieces.insert(piece);
  }
  return pieces;
}

TEST(Patterns, TheLibraryHoldsTheTraditionalBlocks) {
  std::vector<std::string> ids;
  for (const block::Pattern& pattern : must(library_patterns())) ids.push_back(pattern.id);
  EXPECT_THAT(ids,
              IsSupersetOf({"square",           "rails",     "rails-strip",     "four-patch",       "nine-patch",
                            "half-square",      "hourglass", "pinwheel",        "churn-dash",       "flying-geese",
                            "square-in-square", "snowball",  "log-cabin",       "courthouse-steps", "broken-dishes",
                            "sawtooth-star",    "ohio-star", "friendship-star", "shoo-fly",         "economy"}));
}

TEST(Patterns, LogsOfALightHalfAskForLightPrintsAndThoseOfADarkHalfForDark) {
  using Value = block::Slot::Value;
  for (const char* id : {"log-cabin", "courthouse-steps"}) {
    for (const block::Slot& slot : must(pattern_named(id)).slots) {
      const Value meant = slot.name == "centre" ? Value::any : slot.name[0] == 'l' ? Value::light : Value::dark;
      EXPECT_EQ(slot.value, meant) << id << " " << slot.name;
    }
  }
}

TEST(Patterns, EachIsNamedAsItsFileAndCoversItsBlock) {
  for (const block::Pattern& pattern : must(library_patterns())) {
    EXPECT_EQ(block::problems_of(pattern, ""), Problems{}) << pattern.id;
    EXPECT_EQ(must(pattern_named(pattern.id)).id, pattern.id);
    EXPECT_FALSE(pattern.name.empty()) << pattern.id;
  }
}

TEST(Patterns, EachAllowsJustTheTurnsThatLookDifferent) {
  for (const block::Pattern& pattern : must(library_patterns())) {
    std::set<std::multiset<std::string>> looks;
    for (const Turn turn : pattern.turns) {
      EXPECT_TRUE(looks.insert(pieces(pattern, turn)).second) << pattern.id << " looks alike in two turns";
    }
    for (int quarters = 0; quarters < Turn::kCount; ++quarters) {
      EXPECT_TRUE(looks.count(pieces(pattern, Turn::quarters(quarters))) == 1) << pattern.id << " " << quarters;
    }
  }
}

TEST(Patterns, EachIsPiecedToTheEnd) {
  for (const block::Pattern& pattern : must(library_patterns())) {
    std::size_t joined = 0;
    for (const block::PiecingStep& step : pattern.piecing) joined += step.join.size() - 1;
    EXPECT_EQ(joined, pattern.patches.size() - 1) << pattern.id;
  }
}

TEST(Patterns, AGapIsToldWithItsPlaceAndSize) {
  const char* text = R"({"id": "gap", "width": 9, "height": 9, "slots": {"A": {}, "B": {}},
    "patches": [{"slot": "A", "polygon": [[0, 0], [9, 0], [9, 4], [0, 4]]},
                {"slot": "B", "polygon": [[0, 5], [9, 5], [9, 9], [0, 9]]}]})";
  const Result<block::Pattern> read = pattern_from_text(text, "gap.json");
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.problems().front().at, "gap.json#/patches");
  EXPECT_THAT(read.problems().front().cause, HasSubstr("a gap of 9 x 1 in at 0, 4"));
}

TEST(Patterns, AllThatIsWrongIsReported) {
  const char* text = R"({"id": "odd", "width": "nine", "slots": {"A": {"print": "P01"}},
    "patches": [{"slot": "Z", "polygon": [[0, 0], [9, 0], [9, "x"]]}]})";
  EXPECT_THAT(places(pattern_from_text(text, "odd.json")),
              ::testing::UnorderedElementsAre("odd.json#/height", "odd.json#/width", "odd.json#/slots/A/print",
                                              "odd.json#/patches/0/slot", "odd.json#/patches/0/polygon/2/1"));
}

TEST(Patterns, AUsersOwnFileMayBeMetric) {
  const block::Pattern pattern = must(pattern_from_text(
      R"({"id": "own", "units": "cm", "width": 20, "height": "20", "slots": {"A": {}},
          "patches": [{"slot": "A", "polygon": [[0, 0], [20, 0], [20, 20], [0, 20]]}]})",
      "own.json"));
  EXPECT_EQ(pattern.width, Length::millimetres(200));
}

TEST(Patterns, AreFoundWithSpacesAndCapitals) {
  for (const char* name : {"nine-patch", "Nine Patch", "NINE_PATCH"}) {
    EXPECT_EQ(must(pattern_named(name)).id, "nine-patch");
  }
  EXPECT_EQ(must(pattern_named("Corner-cut square (Snowball)")).id, "snowball") << "as it is called on sheets";
}

TEST(Patterns, ANameThatIsNotThereGetsTheListOfThoseThatAre) {
  const Result<block::Pattern> read = pattern_named("rail");
  ASSERT_FALSE(read.ok());
  EXPECT_THAT(read.problems().front().remedy, HasSubstr("rails, rails-strip"));
  EXPECT_EQ(places(pattern_named("/nowhere/own.json")), std::vector<std::string>{"/nowhere/own.json"});
}

}  // namespace
}  // namespace farflung::project
