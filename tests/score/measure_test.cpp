#include "score/measure.hpp"

#include <gtest/gtest.h>

#include "support/oracle.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"
#include "support/worlds.hpp"

namespace farflung::score {
namespace {

TEST(Measure, EveryTermIsWhatItsDefinitionSaysInEverySetting) {
  for (const support::World& world : support::worlds()) {
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
      SCOPED_TRACE(world.name + ", seed " + std::to_string(seed));
      quilt::Quilt quilt = support::random_quilt({seed}, world.wanted);
      quilt.goals.gradation = seed % 2 == 0 ? 0.5 : 0;
      ASSERT_TRUE(quilt::problems_of(quilt).empty()) << quilt::problems_of(quilt).front().text();
      const Measure measure(quilt);
      const Terms terms = measure.terms(quilt.layout);
      const support::OracleTerms truth = support::Oracle(quilt).terms(quilt);
      EXPECT_EQ(terms.touches, truth.touches);
      EXPECT_NEAR(terms.touch_length, truth.touch_length, 1e-6 * truth.touch_length);
      EXPECT_EQ(terms.corners, truth.corners);
      EXPECT_NEAR(terms.coverage, truth.coverage, 1e-9 * truth.coverage);
      EXPECT_NEAR(terms.evenness, truth.evenness, 1e-9 * truth.evenness);
      EXPECT_NEAR(terms.streak, truth.streak, 1e-9 * truth.streak);
      EXPECT_NEAR(terms.likeness, truth.likeness, 1e-6 * truth.likeness);
      EXPECT_NEAR(terms.contrast, truth.contrast, 1e-6 * truth.contrast);
      EXPECT_NEAR(terms.gradation, truth.gradation, 1e-9);
      double spread = 0;
      for (std::size_t p = 0; p < truth.spread_sums.size(); ++p) {
        if (measure.spread_means()[p] > 0) spread += truth.spread_sums[p] / measure.spread_means()[p];
      }
      EXPECT_NEAR(terms.spread, spread / measure.spread_prints(), 1e-9 * spread);
    }
  }
}

/// Of one family of colours, so that palettes, scales and busyness decide which read alike.
quilt::Quilt of_one_family(Seed seed, const support::Wanted& wanted) {
  quilt::Quilt quilt = support::random_quilt(seed, wanted);
  support::give_looks(quilt, derived(seed, 3));
  const auto nearer = [](colour::Lab& lab) { lab = {50 + (lab.L - 50) / 6, lab.a / 6, lab.b / 6}; };
  for (print::Print& print : quilt.prints) {
    nearer(print.features.lab);
    for (print::PaletteColour& colour : print.features.palette) nearer(colour.lab);
    print.features.busyness /= 3;
  }
  return quilt;
}

TEST(Measure, LikenessGoesByTheWholePrintWhereTheGoalsSaySo) {
  for (const support::World& world : support::worlds()) {
    SCOPED_TRACE(world.name);
    quilt::Quilt quilt = of_one_family({3}, world.wanted);
    const Terms by_colour = Measure(quilt).terms(quilt.layout);
    quilt.goals.likeness_by_print = true;
    const Measure measure(quilt);
    const Terms terms = measure.terms(quilt.layout);
    support::Oracle oracle(quilt);
    EXPECT_GT(terms.likeness, 0);
    EXPECT_NE(terms.likeness, by_colour.likeness);
    EXPECT_NEAR(terms.likeness, oracle.terms(quilt).likeness, 1e-6 * terms.likeness);
    const int prints = static_cast<int>(quilt.prints.size());
    for (int p = 0; p < prints; ++p) {
      for (int q = 0; q < prints; ++q) EXPECT_NEAR(measure.delta_e(p, q), support::oracle_apart(quilt, p, q), 1e-9);
    }
  }
}

TEST(Measure, DealtAnewIsTheMeasureOfTheQuiltSoDealt) {
  for (const support::World& world : support::worlds()) {
    SCOPED_TRACE(world.name);
    const quilt::Quilt first = support::random_quilt({1}, world.wanted);
    quilt::Quilt other = first;
    other.goals = {1, 1, 1, 0.5, 0.5, 0.5, 0.5, 0.5, 0.1, 0.5, 0.5, false};
    const Measure before(other);
    for (block::Block& block : other.blocks) {
      for (int& print : block.prints) print = print == kNone ? kNone : (3 * print + 1) % world.wanted.prints;
    }
    const Measure dealt = before.dealt_anew(other);
    const Measure anew(other);
    EXPECT_EQ(dealt.score(other.layout).F, anew.score(other.layout).F);
    EXPECT_EQ(dealt.means().touches, anew.means().touches);
    EXPECT_EQ(dealt.means().evenness, anew.means().evenness);
  }
}

TEST(Measure, TouchesAreNamedWhereTheyAre) {
  for (const support::World& world : support::worlds()) {
    const quilt::Quilt quilt = support::random_quilt({3}, world.wanted);
    const Measure measure(quilt);
    const Terms terms = measure.terms(quilt.layout);
    EXPECT_EQ(static_cast<int>(measure.touches(quilt.layout).size()), terms.touches) << world.name;
    EXPECT_EQ(static_cast<int>(measure.corners(quilt.layout).size()), terms.corners) << world.name;
    double length = 0;
    for (const Touch& touch : measure.touches(quilt.layout)) length += touch.seam.inches() / measure.plan().pitch;
    EXPECT_NEAR(length, terms.touch_length, 1e-9) << world.name;
  }
}

TEST(Measure, OneBlockAloneScoresNothing) {
  support::Wanted wanted;
  wanted.rows = wanted.columns = 1;
  wanted.prints = 1;
  const Score score = score_of(support::random_quilt({1}, wanted));
  EXPECT_EQ(score.terms.touches, 0);
  EXPECT_EQ(score.F, 0);
}

TEST(Measure, OneBlockAloneStillTouchesABorderOfItsPrint) {
  support::Wanted wanted;
  wanted.rows = wanted.columns = 1;
  wanted.prints = 1;
  quilt::Quilt quilt = support::random_quilt({1}, wanted);
  setting::Border border;
  border.width = Length::inches(2);
  border.print = 0;
  quilt.setting.borders = {border};
  EXPECT_GT(score_of(quilt).terms.touches, 0);
}

TEST(Measure, BlocksAllAlikeLeaveOutEveryTermButSpreadAndCorner) {
  support::Wanted wanted;
  wanted.prints = 1;
  const quilt::Quilt quilt = support::random_quilt({1}, wanted);
  const Measure measure(quilt);
  const Score score = measure.score(quilt.layout);
  EXPECT_NEAR(score.terms.spread, 1, 1e-12);
  EXPECT_NEAR(score.F, 1.5, 1e-12);
  EXPECT_EQ(measure.means().likeness, 0);
}

TEST(Measure, TwoBackgroundsMayMeetButABackgroundMayNotMeetAnotherSlotOfItsPrint) {
  support::Wanted wanted;
  wanted.rows = 1;
  wanted.columns = 2;
  wanted.prints = 3;
  wanted.patterns = {support::uneven_rails()};
  wanted.background = 2;
  quilt::Quilt quilt = support::random_quilt({1}, wanted);
  for (block::Block& block : quilt.blocks) block.prints = {0, quilt::kNone, 1};
  quilt.layout.turn = {Turn(), Turn()};
  EXPECT_EQ(score_of(quilt).terms.touches, 2);  // A on A and B on B; the backgrounds are free
  quilt.layout.turn[1] = Turn::quarters(2);     // the strips now lie B, background, A
  quilt.blocks[0].prints[0] = 2;                // and the first A is of the background's print
  const auto touches = Measure(quilt).touches(quilt.layout);
  ASSERT_EQ(touches.size(), 1u);  // of that A with the other background
  EXPECT_EQ(touches[0].print, 2);
  EXPECT_DOUBLE_EQ(touches[0].seam.inches(), 1);
}

TEST(Measure, BeatsIsAHalfForALayoutLikeAllOthersAndHighForTheBest) {
  support::Wanted wanted;
  wanted.prints = 1;
  const quilt::Quilt same = support::random_quilt({1}, wanted);
  EXPECT_DOUBLE_EQ(Measure(same).beats(same.layout), 0.5);

  wanted.prints = 2;
  wanted.rows = wanted.columns = 3;
  quilt::Quilt chequered = support::random_quilt({1}, wanted);
  for (int cell = 0; cell < 9; ++cell) {
    chequered.blocks[cell].prints[0] = cell % 2;
    chequered.layout.block[cell] = cell;
  }
  EXPECT_GT(Measure(chequered).beats(chequered.layout), 0.98);
}

}  // namespace
}  // namespace farflung::score
