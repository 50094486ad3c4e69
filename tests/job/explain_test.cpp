#include "job/explain.hpp"

#include <gtest/gtest.h>

#include "support/patterns.hpp"
#include "support/random_quilt.hpp"

namespace farflung::job {
namespace {

std::size_t times(const std::string& text, const std::string& words) {
  std::size_t count = 0;
  for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++count;
  return count;
}

TEST(Explain, ACastThatNoNumberShowsIsHardlyOne) {
  const quilt::Quilt quilt = support::random_quilt(Seed{3}, {});
  const score::Measure measure(quilt);
  score::Explanation explanation;
  explanation.strongest.cell = 0;
  explanation.strongest.cast = {4, 0, 0, 0};
  explanation.strongest.strength = 0.5;
  explanation.strongest.lab = explanation.strongest.mean = {60, 2, 6};
  std::string words = words_of(explanation, measure);
  EXPECT_EQ(times(words, "hardly lighter than the whole; 0.5"), 1U) << words;
  explanation.strongest.lab = {64, 2, 6};
  words = words_of(explanation, measure);
  EXPECT_EQ(times(words, "a little lighter than the whole, #"), 1U) << words;
  EXPECT_EQ(times(words, "(L* 64, a* 2, b* 6) where the whole is #"), 1U) << words;
}

TEST(Explain, ARingThatCannotNestIsNamedOnceHoweverManyOfItsSeamEndsCloseIt) {
  support::Wanted wanted;
  wanted.patterns = {support::pieced(support::four_patch())};
  const quilt::Quilt quilt = support::random_quilt(Seed{3}, wanted);
  const setting::Plan plan = quilt::plan_of(quilt);
  score::Nesting nesting;
  nesting.meetings.resize(1);
  nesting.press.resize(quilt.blocks.size());
  nesting.odd_rings = {{0, 1}, {1, 0}, {0, 1}, {4, 5}};
  std::string words = words_of(nesting, quilt, plan);
  EXPECT_EQ(times(words, "not all can nest"), 2U) << words;
  EXPECT_EQ(times(words, "Around R1 C1 and R1 C2 not all can nest.\n"), 1U);
  EXPECT_EQ(times(words, "Nor around"), 0U);
  for (int cell = 6; cell < 11; ++cell) nesting.odd_rings.push_back({cell, cell + 1});
  words = words_of(nesting, quilt, plan);
  EXPECT_EQ(times(words, "not all can nest"), 3U);
  EXPECT_EQ(times(words, "Nor around 4 other places (--json names them).\n"), 1U) << words;
}

}  // namespace
}  // namespace farflung::job
