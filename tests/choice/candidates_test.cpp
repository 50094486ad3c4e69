#include "choice/candidates.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "choice/top.hpp"
#include "small_quilt.hpp"

namespace farflung::choice {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;

// A dark quilt: two by two squares of six inches, L* 20 and 30.
quilt::Quilt dark_quilt() {
  return squares_quilt({print_of("Keel", {20, 0, 0}), print_of("Slate", {30, 0, 0})}, 2, {0, 1, 1, 0});
}

std::vector<Candidate> from_outside(const std::vector<print::Print>& prints) {
  std::vector<Candidate> candidates;
  for (const print::Print& print : prints) candidates.push_back({print, kNone});
  return candidates;
}

std::vector<std::string> order(const RoleReport& report, const std::vector<Candidate>& candidates) {
  std::vector<std::string> names;
  for (const RankedCandidate& ranked : report.ranked) names.push_back(candidates[ranked.candidate].print.name);
  return names;
}

TEST(Border, OnADarkQuiltAMediumFramesALightShoutsAndADarkMerges) {
  const auto candidates =
      from_outside({print_of("Foam", {90, 0, 0}), print_of("Shingle", {50, 0, 0}), print_of("Hull", {25, 0, 0})});
  const auto report = rank_candidates(dark_quilt(), Role{}, candidates);
  ASSERT_TRUE(report.ok());
  EXPECT_THAT(order(*report, candidates), ElementsAre("Shingle", "Foam", "Hull"));

  // By hand: 24 in of seam with each print. Steps of 30 and 20 score 1 and 1; of 70 and 60 both 0.4; of 5 and 5 both
  // 5/12. Greys score 0.6 in hue, plain prints 1 in quiet; only Hull is within dE00 10 of what it meets.
  EXPECT_THAT(report->meets, ElementsAre(24, 24));
  EXPECT_NEAR(report->ranked[0].score, 0.40 + 0.30 * 0.6 + 0.15 + 0.15, 1e-12);
  EXPECT_NEAR(report->ranked[1].score, 0.40 * 0.4 + 0.30 * 0.6 + 0.15 + 0.15, 1e-12);
  EXPECT_NEAR(report->ranked[2].score, 0.40 * 5 / 12 + 0.30 * 0.6 + 0.15, 1e-12);
  EXPECT_NEAR(report->ranked[0].value_step, 25, 1e-12);
  EXPECT_NEAR(report->ranked[1].lighter, 65, 1e-12);
  EXPECT_THAT(report->ranked[0].why[0], HasSubstr("a clear step in value: 25 along the seams on average, lighter"));
  EXPECT_THAT(report->ranked[1].why[0], HasSubstr("shouts"));
  EXPECT_THAT(report->ranked[2].why[0], HasSubstr("merges"));
  EXPECT_THAT(report->ranked[2].why, Contains(HasSubstr("hardly told apart from")));
}

TEST(Border, AHueThatTheQuiltHasIsBetterThanOneItHasNot) {
  quilt::Quilt quilt = squares_quilt({print_of("Kelp", {30, -30, 10}), print_of("Slate", {30, 0, 0})}, 2, {0, 1, 1, 0});
  const auto candidates = from_outside({print_of("Buoy", {55, 40, 20}), print_of("Weed", {55, -25, 10})});
  const auto report = rank_candidates(quilt, Role{}, candidates);
  EXPECT_THAT(order(*report, candidates), ElementsAre("Weed", "Buoy"));
  EXPECT_NEAR(report->ranked[0].hue_share, 0.5, 1e-12);
  EXPECT_THAT(report->ranked[0].why[1], HasSubstr("green is in 50 % of the top already"));
  EXPECT_THAT(report->ranked[1].why[1], HasSubstr("nowhere else"));
}

TEST(Border, TheInnerOneMeetsBlocksAndTheOuterBorder) {
  quilt::Quilt quilt = dark_quilt();
  quilt.setting.borders = {{Length::inches(1), 0, setting::Border::Corners::butted, kNone},
                           {Length::inches(4), 1, setting::Border::Corners::butted, kNone}};
  Role inner;
  inner.border = 0;
  const auto report = rank_candidates(quilt, inner, own_candidates(quilt));
  ASSERT_TRUE(report.ok());
  // 12 x 12 of blocks within 14 x 14 of inner border: 48 in of blocks by halves, 56 in of outer border.
  EXPECT_NEAR(report->meets[0], 24, 1e-6);
  EXPECT_NEAR(report->meets[1], 24 + 56, 1e-6);
  inner.border = 2;
  EXPECT_EQ(rank_candidates(quilt, inner, own_candidates(quilt)).problems().front().at, "/setting/borders/2");
}

TEST(Binding, PullsOutAColourOfThePalette) {
  quilt::Quilt quilt = dark_quilt();
  quilt.prints[0].features.palette = {{{15, 0, 0}, 0.7}, {{50, 60, 35}, 0.3}};
  const auto candidates = from_outside({print_of("Harbour", {40, 5, -40}), print_of("Buoy", {45, 55, 30})});
  const auto report = rank_candidates(quilt, Role{Role::Kind::binding, kNone}, candidates);
  EXPECT_THAT(order(*report, candidates), ElementsAre("Buoy", "Harbour"));
  EXPECT_NEAR(report->ranked[0].hue_share, 0.15, 1e-12);
  EXPECT_THAT(report->meets, ElementsAre(testing::DoubleNear(24, 1e-6), testing::DoubleNear(24, 1e-6)));
}

TEST(Binding, MeetsTheOutermostBorderOnlyWhereThereIsOne) {
  quilt::Quilt quilt = dark_quilt();
  quilt.setting.borders = {{Length::inches(4), 1, setting::Border::Corners::mitred, kNone}};
  const auto report = rank_candidates(quilt, Role{Role::Kind::binding, kNone}, own_candidates(quilt));
  EXPECT_THAT(report->meets, ElementsAre(0, testing::DoubleNear(80, 1e-6)));
}

TEST(Backing, ThatIsDarkShadowsThroughLightPatches) {
  const quilt::Quilt quilt =
      squares_quilt({print_of("Foam", {90, 0, 0}), print_of("Keel", {20, 0, 0})}, 2, {0, 1, 1, 1});
  const auto candidates = from_outside({print_of("Hull", {25, 0, 0}), print_of("Sail", {85, 0, 0})});
  const auto report = rank_candidates(quilt, Role{Role::Kind::backing, kNone}, candidates);
  EXPECT_THAT(order(*report, candidates), ElementsAre("Sail", "Hull"));
  EXPECT_NEAR(report->ranked[1].fit.step, 0.75, 1e-12);
  EXPECT_THAT(report->ranked[1].why[0], HasSubstr("may shadow through 25 % of the top"));
}

TEST(Background, MeetsThePatchesOfItsBlocksAndIsRankedByItsStepAndQuiet) {
  quilt::Quilt quilt = dark_quilt();
  quilt.patterns = {support::uneven_rails()};
  quilt.prints.push_back(print_of("Foam", {92, 0, 3}));
  for (block::Block& block : quilt.blocks) block.prints = {0, 2, 1};
  const int slot = quilt.patterns[0].slot_named("background");
  ASSERT_NE(slot, kNone);
  quilt.patterns[0].slots[slot].print = 2;
  const auto candidates = from_outside(
      {print_of("Spray", {88, 0, 0}, 0.9), print_of("Sail", {88, 0, 0}, 0.1), print_of("Hull", {28, 0, 0}, 0)});
  const auto report = rank_candidates(quilt, Role{Role::Kind::background, kNone}, candidates);
  ASSERT_TRUE(report.ok());
  EXPECT_THAT(order(*report, candidates), ElementsAre("Sail", "Spray", "Hull"));
  EXPECT_GT(report->meets[0], 0);
  EXPECT_EQ(report->meets[2], 0);
}

TEST(Tried, ChangesThatPartOnlyAndGivesANewPrintACode) {
  const quilt::Quilt quilt = dark_quilt();
  const Candidate outside{print_of("Kittiwake", {80, 0, 0}), kNone};
  const auto bordered = tried(quilt, Role{}, outside);
  ASSERT_TRUE(bordered.ok());
  ASSERT_EQ(bordered->setting.borders.size(), 1U);
  EXPECT_EQ(bordered->setting.borders[0].print, 2);
  EXPECT_FALSE(bordered->prints[2].code.empty());
  EXPECT_EQ(bordered->layout, quilt.layout);
  EXPECT_TRUE(tried(quilt, Role{Role::Kind::sashing, kNone}, outside)->setting.sashing.has_value());
  EXPECT_EQ(tried(quilt, Role{Role::Kind::binding, kNone}, {quilt.prints[1], 1})->binding->print, 1);
  EXPECT_EQ(tried(quilt, Role{Role::Kind::setting, kNone}, outside).problems().front().at, "/setting/kind");
  EXPECT_EQ(tried(quilt, Role{Role::Kind::background, kNone}, outside).problems().front().at, "/patterns");
}

TEST(Tried, WhatIsAddedToAMetricQuiltIsRoundInCentimetres) {
  quilt::Quilt quilt = dark_quilt();
  quilt.units = quilt::Units::centimetres;
  const Candidate own{quilt.prints[1], 1};
  const auto with = [&](Role::Kind kind) { return *tried(quilt, Role{kind, kNone}, own); };
  EXPECT_EQ(with(Role::Kind::border).setting.borders[0].width, Length::millimetres(100));
  EXPECT_EQ(with(Role::Kind::sashing).setting.sashing->width, Length::millimetres(25));
  EXPECT_EQ(with(Role::Kind::binding).binding->width, Length::millimetres(60));
  EXPECT_EQ(with(Role::Kind::backing).backing->over, Length::millimetres(100));
}

TEST(Top, EverySquareInchIsSomePrintsAndEverySeamIsCountedOnce) {
  quilt::Quilt quilt = dark_quilt();
  quilt.setting.borders = {{Length::inches(3), 1, setting::Border::Corners::mitred, kNone}};
  const setting::Plan plan = quilt::plan_of(quilt);
  const auto patches = top_patches(quilt, plan);
  const auto shares = print_shares(patches, 2);
  EXPECT_NEAR(shares[0], 72.0 / 324, 1e-9);
  EXPECT_NEAR(shares[1], 252.0 / 324, 1e-9);
  std::vector<bool> first(patches.size(), false);
  first[0] = true;
  const auto seams = seams_by_print(patches, first, 2);
  EXPECT_NEAR(seams[0], 0, 1e-9);
  EXPECT_NEAR(seams[1], 24, 1e-9);
}

TEST(Roles, AreNamedByTheirWordsAndNoOthers) {
  for (const char* word : {"background", "accent", "sashing", "setting", "border", "binding", "backing"}) {
    const auto role = role_named(word);
    ASSERT_TRUE(role.has_value());
    EXPECT_STREQ(role_name(role->kind), word);
  }
  EXPECT_FALSE(role_named("thread").has_value());
}

}  // namespace
}  // namespace farflung::choice
