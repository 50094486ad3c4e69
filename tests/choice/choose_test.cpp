#include "choice/choose.hpp"

#include <algorithm>
#include <functional>
#include <numeric>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "bundle.hpp"
#include "choice/subset.hpp"

namespace farflung::choice {
namespace {

using testing::HasSubstr;

// Every set of `take` of `count`, in order.
void for_each_set(int count, int take, const std::function<void(const std::vector<int>&)>& visit) {
  std::vector<bool> in(count, false);
  std::fill(in.begin(), in.begin() + take, true);
  do {
    std::vector<int> set;
    for (int i = 0; i < count; ++i) {
      if (in[i]) set.push_back(i);
    }
    visit(set);
  } while (std::prev_permutation(in.begin(), in.end()));
}

std::vector<int> all_of(const std::vector<print::Print>& prints) {
  std::vector<int> all(prints.size());
  std::iota(all.begin(), all.end(), 0);
  return all;
}

std::vector<std::string> names(const std::vector<print::Print>& prints, const std::vector<int>& which) {
  std::vector<std::string> result;
  for (int i : which) result.push_back(prints[i].name);
  return result;
}

TEST(Measure, SumsToTheSameBySinglesAndPairsAsByItsTerms) {
  const auto prints = random_bundle(12, Seed{3});
  for (double lively : {0.0, 0.3, 1.0}) {
    Taste taste;
    taste.lively = lively;
    const Measure measure(prints, all_of(prints), 5, taste);
    for_each_set(12, 5, [&](const std::vector<int>& set) {
      double sum = measure.constant();
      for (int i : set) sum += measure.single(i);
      for (int i : set) {
        for (int j : set) sum += i < j ? measure.pair(i, j) : 0;
      }
      ASSERT_NEAR(sum, measure.terms(set).cost, 1e-12);
    });
  }
}

TEST(Measure, UnevenIsSixTimesTheSquaredAreaBetweenTheTwoRuns) {
  // Two prints at the ends of a run of 60: the curves differ by |1/2 - t| over t in 0..1, whose square sums to 1/12.
  const std::vector<print::Print> prints = {print_of("Foam", {90, 0, 0}), print_of("Keel", {30, 0, 0}),
                                            print_of("Slate", {60, 0, 0})};
  const Measure measure(prints, all_of(prints), 2, Taste{});
  EXPECT_NEAR(measure.terms(std::vector<int>{0, 1}).uneven, 0.5, 1e-12);
  EXPECT_NEAR(measure.terms(std::vector<int>{2}).uneven, 0.5, 1e-12);
  EXPECT_NEAR(measure.terms(std::vector<int>{0}).uneven, 2.0, 1e-12);
}

TEST(Measure, HuesOppositeAreFurthestApartAndGreysHaveNone) {
  const std::vector<print::Print> prints = {print_of("Kelp", {50, -30, 0}), print_of("Buoy", {50, 30, 0}),
                                            print_of("Gannet", {50, 0, 0}), print_of("Weed", {50, -60, 0})};
  const Measure measure(prints, all_of(prints), 2, Taste{});
  EXPECT_NEAR(measure.terms(std::vector<int>{0, 1}).hue_spread, 0.5, 1e-12);
  EXPECT_NEAR(measure.terms(std::vector<int>{0, 2}).hue_spread, 0.0, 1e-12);
  EXPECT_NEAR(measure.terms(std::vector<int>{0, 3}).hue_spread, 0.0, 1e-12);
}

TEST(Choose, IsTheBestOfAllSetsOfASmallBundleAndListsTheNextFive) {
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const int count = 9 + static_cast<int>(seed % 4);
    const int take = 2 + static_cast<int>(seed % 5);
    const auto prints = random_bundle(count, Seed{seed});
    ChooseOptions options;
    options.take = take;
    options.taste.lively = static_cast<double>(seed % 3) / 2;
    const auto report = choose(prints, options);
    ASSERT_TRUE(report.ok());
    EXPECT_TRUE(report->optimal);

    const Measure measure(prints, all_of(prints), take, options.taste);
    std::vector<double> costs;
    for_each_set(count, take, [&](const std::vector<int>& set) { costs.push_back(measure.terms(set).cost); });
    std::sort(costs.begin(), costs.end());
    EXPECT_EQ(report->sets, static_cast<double>(costs.size()));
    EXPECT_NEAR(report->best.terms.cost, costs[0], 1e-9);
    EXPECT_NEAR(report->bound, costs[0], 1e-9);
    ASSERT_EQ(report->others.size(), 5U);
    std::set<std::set<int>> seen = {{report->best.take.begin(), report->best.take.end()}};
    for (std::size_t i = 0; i < 5; ++i) {
      EXPECT_NEAR(report->others[i].terms.cost, costs[i + 1], 1e-9);
      EXPECT_TRUE(seen.insert({report->others[i].take.begin(), report->others[i].take.end()}).second);
    }
  }
}

TEST(Choose, KeepsAndDropsWhatItIsToldAndIsStillTheBestOfTheRest) {
  const auto prints = random_bundle(11, Seed{77});
  ChooseOptions options;
  options.take = 5;
  options.keep = {2, 9};
  options.drop = {0, 5};
  const auto report = choose(prints, options);
  ASSERT_TRUE(report.ok());
  std::vector<int> bundle = {1, 2, 3, 4, 6, 7, 8, 9, 10};
  const Measure measure(prints, bundle, 5, options.taste);
  double least = 1e9;
  for_each_set(11, 5, [&](const std::vector<int>& set) {
    const std::set<int> in(set.begin(), set.end());
    if (in.contains(2) && in.contains(9) && !in.contains(0) && !in.contains(5)) {
      least = std::min(least, measure.terms(set).cost);
    }
  });
  EXPECT_NEAR(report->best.terms.cost, least, 1e-9);
  EXPECT_THAT(report->best.take, testing::AllOf(testing::Contains(2), testing::Contains(9)));
}

TEST(Choose, ProvesEveryPairPricedAtRandomWhereNothingHelpsTheBound) {
  Rng rng(Seed{5});
  for (int round = 0; round < 20; ++round) {
    SubsetProblem problem;
    problem.count = 12;
    problem.take = 1 + round % 11;
    problem.single.resize(12);
    problem.pair.assign(144, 0);
    for (int i = 0; i < 12; ++i) {
      problem.single[i] = rng.between(-1, 1);
      for (int j = 0; j < i; ++j) problem.pair[i * 12 + j] = problem.pair[j * 12 + i] = rng.between(-1, 1);
    }
    std::vector<double> costs;
    for_each_set(12, problem.take, [&](const std::vector<int>& set) { costs.push_back(problem.cost(set)); });
    std::sort(costs.begin(), costs.end());
    // Nothing held at first: the search has to find the best three by itself.
    BestSubsets best(3);
    const Proof proof = prove_best(problem, 0, best);
    EXPECT_TRUE(proof.complete);
    EXPECT_NEAR(proof.bound, costs[0], 1e-9);
    for (std::size_t i = 0; i < best.held().size(); ++i) EXPECT_NEAR(best.held()[i].cost, costs[i], 1e-9);
  }
}

TEST(Choose, ProvesTenOfTwentyAgainstAllTheirSetsAndFifteenOfThirty) {
  const auto prints = random_bundle(20, Seed{13});
  const Measure measure(prints, all_of(prints), 10, Taste{});
  double least = 1e9;
  for_each_set(20, 10, [&](const std::vector<int>& set) {
    double cost = measure.constant();
    for (std::size_t a = 0; a < set.size(); ++a) {
      cost += measure.single(set[a]);
      for (std::size_t b = 0; b < a; ++b) cost += measure.pair(set[a], set[b]);
    }
    least = std::min(least, cost);
  });
  ChooseOptions options;
  options.take = 10;
  const auto ten = choose(prints, options);
  EXPECT_TRUE(ten->optimal);
  EXPECT_NEAR(ten->best.terms.cost, least, 1e-9);

  options.take = 15;
  const auto fifteen = choose(random_bundle(30, Seed{13}), options);
  EXPECT_TRUE(fifteen->optimal);
  EXPECT_EQ(fifteen->sets, 155'117'520);
  EXPECT_GT(fifteen->branches, 0);
}

TEST(Choose, AboveThatIsAnnealedAndSaysSo) {
  ChooseOptions options;
  options.take = 25;
  const auto report = choose(random_bundle(60, Seed{2}), options);
  ASSERT_TRUE(report.ok());
  EXPECT_FALSE(report->optimal);
  EXPECT_LT(report->bound, report->best.terms.cost);
  EXPECT_THAT(report->proof, HasSubstr("not proven"));
  const auto again = choose(random_bundle(60, Seed{2}), options);
  EXPECT_EQ(again->best.take, report->best.take);
}

TEST(Choose, AProofCutShortStillBoundsTheCostFromBelow) {
  const auto prints = random_bundle(18, Seed{8});
  const Measure measure(prints, all_of(prints), 9, Taste{});
  SubsetProblem problem{18, 9, {}, {}};
  for (int i = 0; i < 18; ++i) {
    problem.single.push_back(measure.single(i));
    for (int j = 0; j < 18; ++j) problem.pair.push_back(i == j ? 0 : measure.pair(i, j));
  }
  BestSubsets best(1);
  anneal_subsets(problem, Seed{1}, 0.01, best);
  BestSubsets exact = best;
  const Proof cut = prove_best(problem, 5, best);
  const Proof whole = prove_best(problem, 0, exact);
  EXPECT_FALSE(cut.complete);
  EXPECT_TRUE(whole.complete);
  EXPECT_LE(cut.bound, exact.held().front().cost + 1e-9);
}

TEST(Choose, TellsTwinsApartByTakingOnlyOneOfThem) {
  const std::vector<print::Print> prints = {print_of("Foam", {90, 0, 4}),     print_of("Kelp", {50, -30, 15}),
                                            print_of("Weed", {51, -30, 15}),  print_of("Buoy", {55, 50, 40}),
                                            print_of("Keel", {20, 0, -5}),    print_of("Hull", {21, 1, -5}),
                                            print_of("Harbour", {45, 0, -40})};
  ChooseOptions options;
  options.take = 5;
  const auto report = choose(prints, options);
  ASSERT_TRUE(report.ok());
  const auto taken = names(prints, report->best.take);
  EXPECT_EQ(std::count(taken.begin(), taken.end(), "Kelp") + std::count(taken.begin(), taken.end(), "Weed"), 1);
  EXPECT_EQ(std::count(taken.begin(), taken.end(), "Keel") + std::count(taken.begin(), taken.end(), "Hull"), 1);
  const bool kelp = std::count(taken.begin(), taken.end(), "Kelp") == 1;
  const auto substitute = std::find_if(report->substitutes.begin(), report->substitutes.end(), [&](const auto& s) {
    return prints[s.dropped].name == (kelp ? "Kelp" : "Weed");
  });
  ASSERT_NE(substitute, report->substitutes.end());
  EXPECT_EQ(substitute->says, kelp ? "if you drop Kelp, take Weed instead" : "if you drop Weed, take Kelp instead");
}

TEST(Choose, TheSliderHoldsHuesTogetherOrSpreadsThem) {
  const auto prints = random_bundle(24, Seed{21});
  ChooseOptions options;
  options.take = 10;
  options.taste.lively = 0;
  const auto calm = choose(prints, options);
  options.taste.lively = 0.5;
  const auto middle = choose(prints, options);
  options.taste.lively = 1;
  const auto lively = choose(prints, options);
  EXPECT_LT(calm->best.terms.hue_spread, middle->best.terms.hue_spread);
  EXPECT_LT(middle->best.terms.hue_spread, lively->best.terms.hue_spread);
}

/// Twenty prints as they came out of photographs: muted, most of them well told apart.
std::vector<print::Print> harbour_bundle() {
  const std::vector<std::pair<const char*, colour::Lab>> seen = {
      {"Kelp", {38, -13, 5}},     {"Buoy", {64, 25, 18}},    {"Gannet", {89, -3, -7}},     {"Slipway", {73, 2, 3}},
      {"Oilskin", {68, 10, 56}},  {"Trawl", {53, -12, -8}},  {"Foghorn", {65, 0, -9}},     {"Lantern", {55, 16, 42}},
      {"Breaker", {48, 0, -17}},  {"Thrift", {80, -2, 0}},   {"Logbook", {85, 0, 12}},     {"Tiller", {49, 7, 15}},
      {"Samphire", {60, -12, 4}}, {"Shingle", {54, 0, -1}},  {"Nightwatch", {21, 5, -21}}, {"Cockle", {81, 8, 13}},
      {"Galley", {75, -5, -2}},   {"Compass", {42, -4, -5}}, {"Sailcloth", {91, 0, 4}},    {"Quayside", {44, 12, 10}}};
  std::vector<print::Print> prints;
  for (const auto& [name, lab] : seen) prints.push_back(print_of(name, lab, 0.5));
  return prints;
}

TEST(Choose, EveryQuarterOfTheSliderSpreadsTheHuesOfAMutedBundleFurther) {
  const auto prints = harbour_bundle();
  ChooseOptions options;
  options.take = 8;
  std::vector<std::set<int>> sets;
  double before = -1;
  for (double lively : {0.0, 0.25, 0.5, 0.75, 1.0}) {
    options.taste.lively = lively;
    const auto report = choose(prints, options);
    ASSERT_TRUE(report.ok());
    EXPECT_GT(report->best.terms.hue_spread, before + 0.003) << "at " << lively;
    before = report->best.terms.hue_spread;
    sets.emplace_back(report->best.take.begin(), report->best.take.end());
  }
  std::vector<int> both;
  std::set_intersection(sets.front().begin(), sets.front().end(), sets.back().begin(), sets.back().end(),
                        std::back_inserter(both));
  EXPECT_LE(both.size(), 4U) << "calm and lively share at most half";
}

TEST(Choose, EachSubstituteIsTheBestSingleExchange) {
  const auto prints = random_bundle(14, Seed{4});
  ChooseOptions options;
  options.take = 6;
  options.keep = {3};
  const auto report = choose(prints, options);
  ASSERT_TRUE(report.ok());
  EXPECT_EQ(report->substitutes.size(), 5U);
  const Measure measure(prints, all_of(prints), 6, options.taste);
  for (const Substitute& substitute : report->substitutes) {
    double least = 1e9;
    std::set<int> in(report->best.take.begin(), report->best.take.end());
    EXPECT_TRUE(in.contains(substitute.dropped));
    EXPECT_NE(substitute.dropped, 3);
    for (int i = 0; i < 14; ++i) {
      if (in.contains(i)) continue;
      std::vector<int> set;
      for (int j : in) set.push_back(j == substitute.dropped ? i : j);
      least = std::min(least, measure.terms(set).cost);
    }
    EXPECT_NEAR(substitute.rise, least - report->best.terms.cost, 1e-9);
    EXPECT_GE(substitute.rise, -1e-9);
  }
}

TEST(Choose, IsTheSameForTheSameSeedAndFindsTheProvenBestByAnnealing) {
  const auto prints = random_bundle(24, Seed{31});
  const Measure measure(prints, all_of(prints), 12, Taste{});
  SubsetProblem problem{24, 12, {}, {}};
  for (int i = 0; i < 24; ++i) {
    problem.single.push_back(measure.single(i));
    for (int j = 0; j < 24; ++j) problem.pair.push_back(i == j ? 0 : measure.pair(i, j));
  }
  BestSubsets first(6), second(6);
  anneal_subsets(problem, Seed{9}, 0.2, first);
  anneal_subsets(problem, Seed{9}, 0.2, second);
  ASSERT_EQ(first.held().size(), second.held().size());
  for (std::size_t i = 0; i < first.held().size(); ++i) EXPECT_EQ(first.held()[i].items, second.held()[i].items);
  BestSubsets exact(6);
  EXPECT_TRUE(prove_best(problem, 0, exact).complete);
  EXPECT_NEAR(first.held().front().cost, exact.held().front().cost, 1e-9);
}

TEST(Choose, SaysWhyInTheTradesWords) {
  const std::vector<print::Print> prints = {print_of("Foam", {90, 0, 4}), print_of("Kelp", {50, -30, 15}, 0.8),
                                            print_of("Keel", {20, 0, -5})};
  ChooseOptions options;
  options.take = 3;
  const auto report = choose(prints, options);
  ASSERT_TRUE(report.ok());
  ASSERT_EQ(report->best.why.size(), 4U);
  EXPECT_THAT(report->best.why[0], HasSubstr("all are told apart easily"));
  EXPECT_THAT(report->best.why[1], HasSubstr("from Foam (value 90) to Keel (value 20), the widest step 40"));
  EXPECT_THAT(report->best.why[2], HasSubstr("2 grey and 1 green"));
  EXPECT_THAT(report->best.why[3], HasSubstr("1 of 3 is busy"));
  EXPECT_THAT(report->proof, HasSubstr("proven the best of 1 set"));
  EXPECT_TRUE(report->others.empty());
  EXPECT_TRUE(report->substitutes.empty());
}

TEST(Choose, NamesTheOptionAtFault) {
  const auto prints = random_bundle(4, Seed{1});
  ChooseOptions options;
  options.take = 5;
  EXPECT_EQ(choose(prints, options).problems().front().at, "--take");
  options.take = 1;
  options.keep = {0, 1};
  EXPECT_EQ(choose(prints, options).problems().front().at, "--keep");
  options.keep = {0};
  options.drop = {0, 9};
  EXPECT_EQ(choose(prints, options).problems().size(), 2U);
  options.drop = {};
  options.taste.lively = 1.5;
  EXPECT_EQ(choose(prints, options).problems().front().at, "--lively");
  EXPECT_EQ(choose({}, ChooseOptions{}).problems().front().at, "--take");
}

}  // namespace
}  // namespace farflung::choice
