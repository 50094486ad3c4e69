#include "block/pattern.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace farflung::block {
namespace {

using ::testing::HasSubstr;

Length in(double inches) { return Length::inches(inches); }

/// Three rails across a 9 in block: 4 in, 1 in, 4 in.
Pattern rails() {
  Pattern pattern;
  pattern.id = "rails";
  pattern.width = pattern.height = in(9);
  pattern.slots = {{"A"}, {"background"}, {"B"}};
  pattern.patches = {{0, rectangle(in(0), in(0), in(9), in(4))},
                     {1, rectangle(in(0), in(4), in(9), in(1))},
                     {2, rectangle(in(0), in(5), in(9), in(4))}};
  return pattern;
}

Pattern triangles() {
  Pattern pattern;
  pattern.id = "half-square";
  pattern.width = pattern.height = in(6);
  pattern.slots = {{"A"}, {"B"}};
  pattern.patches = {{0, {{in(0), in(0)}, {in(6), in(0)}, {in(0), in(6)}}},
                     {1, {{in(6), in(0)}, {in(6), in(6)}, {in(0), in(6)}}}};
  return pattern;
}

std::string only_cause(const Pattern& pattern) {
  const Problems problems = problems_of(pattern, "/patterns/0");
  EXPECT_EQ(problems.size(), 1U);
  return problems.empty() ? "" : problems[0].cause;
}

TEST(Pattern, PatchesThatCoverTheBlockAreSound) {
  EXPECT_TRUE(problems_of(rails(), "").empty());
  EXPECT_TRUE(problems_of(triangles(), "").empty());
}

TEST(Pattern, AGapIsNamedWithItsSizeAndPlace) {
  Pattern pattern = rails();
  pattern.patches[1].polygon = rectangle(in(0), in(4), in(9), in(0.75));
  EXPECT_EQ(only_cause(pattern), "a gap of 9 x 0.25 in at 0, 4.75");
}

TEST(Pattern, AGapBesideASlantIsFound) {
  Pattern pattern = triangles();
  pattern.patches[1].polygon[0] = {in(6), in(1)};
  EXPECT_THAT(only_cause(pattern), HasSubstr("a gap of 6 x "));
}

TEST(Pattern, AnOverlapIsNamedWithItsSizeAndPlace) {
  Pattern pattern = rails();
  pattern.patches[2].polygon = rectangle(in(0), in(4.5), in(9), in(4.5));
  EXPECT_EQ(only_cause(pattern), "an overlap of 9 x 0.5 in at 0, 4.5");
}

TEST(Pattern, AHairAsWideAsTheSnapIsNoGap) {
  Pattern pattern = rails();
  pattern.patches[1].polygon = rectangle(in(0), in(4), in(9), in(0.9995));
  EXPECT_TRUE(problems_of(pattern, "").empty());
}

TEST(Pattern, ACornerOutsideTheBlockIsNamed) {
  Pattern pattern = rails();
  pattern.patches[2].polygon[2] = {in(9.5), in(9)};
  EXPECT_EQ(only_cause(pattern), "the corner at 9.5, 9 lies outside the block");
}

TEST(Pattern, ABlockThatIsNotSquareCannotLieOnItsSide) {
  Pattern pattern = rails();
  pattern.height = in(5);
  pattern.slots.pop_back();
  pattern.patches.pop_back();
  pattern.turns = {Turn(), Turn::quarters(1)};
  EXPECT_THAT(only_cause(pattern), HasSubstr("cannot lie on its side"));
}

TEST(Pattern, StepsJoinEveryPatchOnce) {
  Pattern pattern = rails();
  const Unit first{Unit::Kind::patch, 0};
  const Unit second{Unit::Kind::patch, 1};
  const Unit third{Unit::Kind::patch, 2};
  const Unit sewn{Unit::Kind::step, 0};
  pattern.piecing = {{{first, second}, {Pressing::Kind::toward, first}},
                     {{sewn, third}, {Pressing::Kind::toward, third}}};
  EXPECT_TRUE(problems_of(pattern, "").empty());

  pattern.piecing[1].join = {first, third};
  EXPECT_THAT(problems_of(pattern, "/patterns/0")[0].at, "/patterns/0/piecing/1/join");
  pattern.piecing.pop_back();
  EXPECT_THAT(only_cause(pattern), HasSubstr("do not join every patch"));
}

TEST(Pattern, SlotSharesFollowTheArea) {
  const std::vector<double> shares = slot_shares(rails());
  EXPECT_NEAR(shares[0], 4.0 / 9, 1e-12);
  EXPECT_NEAR(shares[1], 1.0 / 9, 1e-12);
  EXPECT_NEAR(shares[2], 4.0 / 9, 1e-12);
}

TEST(Pattern, InnerSeamsAreThoseWithinTheBlock) {
  const std::vector<InnerSeam> seams = inner_seams(rails());
  ASSERT_EQ(seams.size(), 2U);
  EXPECT_EQ(seams[0].length, in(9));
  EXPECT_NEAR(inner_seams(triangles())[0].length.inches(), 6 * std::sqrt(2.0), 1e-6);
}

TEST(Pattern, ScalingKeepsTheCover) {
  const Pattern small = scaled(rails(), in(7), in(7));
  EXPECT_TRUE(problems_of(small, "").empty());
  EXPECT_NEAR(slot_shares(small)[1], 1.0 / 9, 1e-8);
}

}  // namespace
}  // namespace farflung::block
