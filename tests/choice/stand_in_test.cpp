#include "choice/stand_in.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "small_quilt.hpp"

namespace farflung::choice {
namespace {

using ::testing::HasSubstr;

// K B K
// G K G  : Kelp lies beside Buoy and Gannet, never beside Foghorn, which lies nowhere.
quilt::Quilt harbour() {
  return squares_quilt({print_of("Kelp", {40, -20, 10}, 0.5), print_of("Buoy", {42, 40, 30}, 0.5),
                        print_of("Gannet", {80, 0, 5}, 0.5), print_of("Foghorn", {45, 0, -20}, 0.5)},
                       3, {0, 1, 0, 2, 0, 2});
}

TEST(StandIn, ThatWouldTouchItselfComesAfterAllThatWouldNot) {
  const quilt::Quilt quilt = harbour();
  const std::vector<StandIn> ranked = rank_stand_ins(quilt, 0, own_candidates(quilt));
  ASSERT_EQ(ranked.size(), 3U) << "Kelp itself is no candidate";
  EXPECT_EQ(ranked[0].candidate, 3);
  EXPECT_EQ(ranked[0].touching, 0);
  EXPECT_EQ(ranked[1].candidate, 1) << "Buoy is nearer in value than Gannet";
  // Buoy meets Kelp on both sides and below, Gannet from three sides of the lower Kelp and below two of the upper.
  EXPECT_NEAR(ranked[1].touching, 18, 1e-9);
  EXPECT_NEAR(ranked[2].touching, 24, 1e-9);
  EXPECT_THAT(ranked[1].why.back(), HasSubstr("would touch itself along 18 in"));
}

TEST(StandIn, OfTheSameValueToldApartFromTheRestScoresBest) {
  const quilt::Quilt quilt = harbour();
  const std::vector<Candidate> candidates = {{print_of("Weed", {40, -20, -10}, 0.5), kNone},
                                             {print_of("Foam", {70, -20, 10}, 0.5), kNone},
                                             {print_of("Rust", {41, 40, 30}, 0.5), kNone},
                                             {print_of("Net", {50, -20, 10}, 0.0), kNone}};
  const std::vector<StandIn> ranked = rank_stand_ins(quilt, 0, candidates);
  ASSERT_EQ(ranked.size(), 4U);
  EXPECT_EQ(candidates[ranked[0].candidate].print.name, "Weed");
  EXPECT_EQ(ranked[0].why.front(), "the same value");
  EXPECT_NEAR(ranked[0].score, 0.5 + 0.35 + 0.15, 1e-9);
  const auto named = [&](const std::string& name) {
    return *std::find_if(ranked.begin(), ranked.end(),
                         [&](const StandIn& one) { return candidates[one.candidate].print.name == name; });
  };
  EXPECT_NEAR(named("Net").score, 0.25 + 0.35 + 0.075, 1e-9) << "10 L* off, half as busy again";
  EXPECT_NEAR(named("Foam").score, 0.35 * std::min(1.0, named("Foam").nearest_delta_e / 20) + 0.15, 1e-9);
  EXPECT_THAT(named("Rust").why[2], HasSubstr("hardly told apart from Buoy"));
}

}  // namespace
}  // namespace farflung::choice
