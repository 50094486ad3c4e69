#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "project/world.hpp"

namespace farflung::project {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

TEST(Set, ChangesOneValueAndNothingElse) {
  const Document before = harbour();
  std::string expected = text_of(before);
  replace(expected, "\"name\": \"Foghorn\"", "\"name\": \"Siren\"");
  EXPECT_EQ(text_of(must(set(before, "/prints/1/name", "Siren"))), expected);
}

TEST(Set, TakesTextsLengthsNumbersAndListsAsTyped) {
  const Document before = harbour();
  EXPECT_EQ(must(set(before, "/title", "Lifeboat 7")).quilt.title, "Lifeboat 7");
  EXPECT_EQ(must(set(before, "/title", "\"quoted\"")).quilt.title, "quoted");
  EXPECT_EQ(must(set(before, "/title", "2024")).quilt.title, "2024");
  EXPECT_EQ(must(set(before, "/title", "true")).quilt.title, "true");
  EXPECT_EQ(must(set(before, "/seam_allowance", "3/8")).quilt.seam_allowance, Length::inches(0.375));
  EXPECT_EQ(must(set(before, "/seam_allowance", "0.3")).quilt.seam_allowance, Length::inches(0.3));
  EXPECT_TRUE(must(set(before, "/prints/1/upright", "true")).quilt.prints[1].upright);
  EXPECT_EQ(must(set(before, "/goals/streak", "0")).quilt.goals.streak, 0);
  EXPECT_EQ(must(set(before, "/prints/1/features/lab", "[40, 1, 2]")).quilt.prints[1].features.lab.L, 40);
  EXPECT_EQ(must(set(before, "/blocks/1/prints/A", "P14")).quilt.blocks[1].prints[0], 3);
}

TEST(Set, TakesWordsOfOursWithCapitalsAndHyphens) {
  const Document document = harbour();
  EXPECT_EQ(must(set(document, "/setting/kind", "Straight")).quilt.setting.kind, setting::Setting::Kind::straight);
  EXPECT_EQ(must(set(document, "/setting/kind", "BRICK")).quilt.setting.kind, setting::Setting::Kind::brick);
  EXPECT_EQ(must(set(document, "/setting/borders/0/corners", "Mitred")).quilt.setting.borders[0].corners,
            setting::Border::Corners::mitred);
  const Document cloth = must(set(document, "/prints/0/cloth", R"([{"kind": "Fat Quarters", "count": 2}])"));
  EXPECT_EQ(cloth.quilt.prints[0].cloth[0].kind, "fat quarter");
  EXPECT_EQ(cloth.quilt.prints[0].cloth[0].width, Length::inches(20));
}

TEST(Set, AddsWhatIsNotThereYet) {
  const Document before = harbour();
  EXPECT_EQ(must(set(before, "/setting/borders/-", R"({"width": 4, "print": "P14"})")).quilt.setting.borders.size(),
            2U);
  const Document without = must(set(before, "/setting/sashing", "null"));
  EXPECT_FALSE(without.quilt.setting.sashing);
  EXPECT_EQ(must(set(without, "/setting/sashing/width", "1 1/2")).quilt.setting.sashing->width, Length::inches(1.5));
  EXPECT_THAT(text_of(must(set(before, "/washing", "cold"))), HasSubstr("\"washing\": \"cold\""));
  EXPECT_THAT(text_of(must(set(before, "/helpers/-", "Ada"))), HasSubstr("\"helpers\": [\"Ada\"]"));
}

TEST(Set, NullTakesOutWhatMayBeLeftOut) {
  const Document before = harbour();
  EXPECT_TRUE(must(set(before, "/setting/borders/0", "null")).quilt.setting.borders.empty());
  EXPECT_EQ(must(set(before, "/goals/streak", "null")).quilt.goals.streak, 0.5);
  EXPECT_FALSE(must(set(before, "/binding", "null")).quilt.binding);
  EXPECT_EQ(must(set(before, "/blocks/1/press", "null")).quilt.blocks[1].press, std::nullopt);
  EXPECT_FALSE(set(before, "/format", "null").ok());
  EXPECT_FALSE(set(before, "/setting/rows", "null").ok());
  EXPECT_FALSE(set(before, "/blocks/-", "null").ok() &&
               text_of(must(set(before, "/blocks/-", "null"))) != text_of(before));
}

TEST(Set, IsCheckedLikeTheWholeFile) {
  const Document before = harbour();
  EXPECT_THAT(places(set(before, "/blocks/0/prints/A", "P99")), ElementsAre("quilt.json#/blocks/0/prints/A"));
  EXPECT_THAT(places(set(before, "/seam_allowance", "a bit")), ElementsAre("quilt.json#/seam_allowance"));
  EXPECT_THAT(places(set(before, "/prints/1/code", "K")), ElementsAre("quilt.json#/prints/1/code"));
  EXPECT_THAT(places(set(before, "/setting/rows", "0")), ElementsAre("quilt.json#/setting/rows"));
  EXPECT_THAT(places(set(before, "/setting/rows", "1000000000")), ElementsAre("quilt.json#/setting"));
  EXPECT_THAT(places(set(before, "/layout/turns/0/0", "9")), ElementsAre("quilt.json#/layout/turns/0/0"));
}

TEST(Set, SaysWhereWhatWasTypedIsNoJson) {
  const Document before = harbour();
  const auto refused = set(before, "/setting/borders", "[{width: 4}]");
  ASSERT_FALSE(refused.ok());
  EXPECT_THAT(refused.problems().front().cause, HasSubstr("none"));
  EXPECT_THAT(refused.problems().front().remedy, HasSubstr("double quotes"));
  EXPECT_EQ(must(set(before, "/title", "[draft] Lifeboat")).quilt.title, "[draft] Lifeboat");
}

TEST(Set, RefusesPointersToNowhere) {
  const Document before = harbour();
  for (const char* pointer : {"", "title", "/prints/9/name", "/prints/x", "/prints/01/name", "/title/0",
                              "/prints/-/name", "/a~2", "/prints/-1/name", "/prints/99999999999999999999/name"}) {
    EXPECT_FALSE(set(before, pointer, "1").ok()) << pointer;
  }
}

TEST(Set, TheLayoutFollowsRowsAndColumns) {
  const Document taller = must(set(harbour(), "/setting/rows", "3"));
  EXPECT_THAT(taller.quilt.layout.block, ElementsAre(0, 1, 2, setting::kNone, setting::kNone, setting::kNone));
  EXPECT_EQ(taller.quilt.layout.turn[1], Turn::quarters(1));
  const Document narrower = must(set(harbour(), "/setting/columns", "1"));
  EXPECT_THAT(narrower.quilt.layout.block, ElementsAre(0, 2));
  EXPECT_THAT(narrower.quilt.layout.kept, ElementsAre(false, false));
  EXPECT_THAT(quilt::spares(narrower.quilt), ElementsAre(1));
  const Document brick = must(set(harbour(), "/setting/kind", "brick"));
  EXPECT_THAT(brick.quilt.layout.block, ElementsAre(0, 1, 2));
}

TEST(Set, ReadsNumbersAnewWhereTheUnitsChange) {
  const Document metric = must(set(harbour(), "/units", "cm"));
  EXPECT_EQ(metric.quilt.patterns[0].width, Length::millimetres(90));
  EXPECT_THAT(text_of(metric), HasSubstr("\"2 1/2\""));
}

TEST(Set, ASlipOfTheHandIsRefusedWithTheKeyThatWasMeant) {
  const Document before = harbour();
  const auto refused = [&](const std::string& pointer) {
    const Result<Document> slip = set(before, pointer, "1", NewKeys::refused);
    return slip.ok() ? std::string("taken") : slip.problems().front().remedy;
  };
  EXPECT_EQ(refused("/titel"), "did you mean title?");
  EXPECT_EQ(refused("/prints/0/nmae"), "did you mean name?");
  EXPECT_EQ(refused("/setting/sashing/widht"), "did you mean width?");
  EXPECT_EQ(refused("/goals/spreed"), "did you mean spread?");
  EXPECT_THAT(refused("/washing"), HasSubstr("only the file itself"));
  // What the format knows but this file lacks can be made; what stands in the file already can be changed.
  EXPECT_TRUE(set(before, "/prints/1/upright", "true", NewKeys::refused).ok());
  const Document washed = must(set(before, "/washing", "cold"));
  EXPECT_THAT(text_of(must(set(washed, "/washing", "warm", NewKeys::refused))), HasSubstr("\"washing\": \"warm\""));
}

}  // namespace
}  // namespace farflung::project
