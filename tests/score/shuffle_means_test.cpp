// The closed forms against all shuffles where they can be counted, and against many where they cannot.
#include <algorithm>
#include <cmath>
#include <functional>

#include <gtest/gtest.h>

#include "score/measure.hpp"
#include "support/oracle.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"
#include "support/worlds.hpp"

namespace farflung::score {
namespace {

/// Sums of what is measured, to be divided by how often.
struct Sums {
  double times = 0, touches = 0, touch_length = 0, corners = 0, coverage = 0, evenness = 0, streak = 0, alike = 0,
         contrast = 0, gradation = 0;
  std::vector<double> spread;

  void add(const support::OracleTerms& terms, double weight = 1) {
    times += weight;
    touches += weight * terms.touches;
    touch_length += weight * terms.touch_length;
    corners += weight * terms.corners;
    coverage += weight * terms.coverage;
    evenness += weight * terms.evenness;
    streak += weight * terms.streak;
    alike += weight * terms.alike_length;
    contrast += weight * terms.contrast;
    gradation += weight * terms.gradation;
    spread.resize(terms.spread_sums.size(), 0.0);
    for (std::size_t p = 0; p < spread.size(); ++p) spread[p] += weight * terms.spread_sums[p];
  }
};

void expect_means(const Measure& measure, const Sums& sums, double tolerance) {
  const ShuffleMeans& means = measure.means();
  const auto expect = [&](double mean, double sum, const char* what) {
    EXPECT_NEAR(mean, sum / sums.times, tolerance * std::max(1e-9, sum / sums.times)) << what;
  };
  expect(means.touches, sums.touches, "touches");
  expect(means.touch_length, sums.touch_length, "touch length");
  expect(means.corners, sums.corners, "corners");
  expect(means.coverage, sums.coverage, "coverage");
  expect(means.evenness, sums.evenness, "evenness");
  expect(means.streak, sums.streak, "streak");
  expect(means.likeness, sums.alike, "alike");
  expect(means.contrast, sums.contrast, "contrast");
  expect(means.gradation, sums.gradation, "gradation");
  for (std::size_t p = 0; p < sums.spread.size(); ++p) {
    if (measure.spread_means()[p] > 0) expect(measure.spread_means()[p], sums.spread[p], "spread");
  }
}

/// Calls `use` for every way to turn the blocks where they lie.
void for_all_turns(quilt::Quilt& quilt, std::size_t cell, const std::function<void()>& use) {
  if (cell == quilt.layout.block.size()) return use();
  if (quilt.layout.block[cell] < 0) return for_all_turns(quilt, cell + 1, use);
  for (const Turn turn : quilt.patterns[quilt.blocks[quilt.layout.block[cell]].pattern].turns) {
    quilt.layout.turn[cell] = turn;
    for_all_turns(quilt, cell + 1, use);
  }
}

/// Calls `use` for every shuffle.
void for_all_shuffles(quilt::Quilt& quilt, std::size_t cell, std::vector<bool>& used,
                      const std::function<void()>& use) {
  const setting::Plan plan = quilt::plan_of(quilt);
  if (cell == quilt.layout.block.size()) return for_all_turns(quilt, 0, use);
  if (quilt.layout.block[cell] < 0) return for_all_shuffles(quilt, cell + 1, used, use);
  const int before = quilt.layout.block[cell];
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    const int own = plan.cells[cell].pattern;
    if (used[b] || (own >= 0 && own != quilt.blocks[b].pattern)) continue;
    used[b] = true;
    quilt.layout.block[cell] = static_cast<int>(b);
    for_all_shuffles(quilt, cell + 1, used, use);
    used[b] = false;
  }
  quilt.layout.block[cell] = before;
}

/// Each block draws its turn from its own pattern's.
double chance_of_turns(const quilt::Quilt& quilt) {
  double chance = 1;
  for (const int block : quilt.layout.block) {
    if (block >= 0) chance /= static_cast<double>(quilt.patterns[quilt.blocks[block].pattern].turns.size());
  }
  return chance;
}

TEST(ShuffleMeans, AreTheMeansOverEveryShuffleOfSmallQuilts) {
  std::vector<support::Wanted> small(4);
  small[0].rows = 2;
  small[0].columns = 3;
  small[0].prints = 3;
  small[0].borders = true;
  small[1].rows = 1;
  small[1].columns = 4;
  small[1].patterns = {support::uneven_rails()};
  small[1].patterns[0].turns = {Turn(), Turn::quarters(1)};
  small[1].background = 0;
  small[1].spares = 1;
  small[1].prints = 4;
  small[2].rows = 2;
  small[2].columns = 2;
  small[2].patterns = {support::half_square(), support::nine_patch()};
  small[2].alternate = true;
  small[2].spares = 2;
  small[2].prints = 3;
  small[2].sashing = true;
  small[3].rows = 1;
  small[3].columns = 4;
  small[3].patterns = {support::plain_rails(), support::square()};
  small[3].holes = 1;
  small[3].spares = 1;
  small[3].prints = 3;
  for (std::size_t k = 0; k < small.size(); ++k) {
    for (std::uint64_t seed = 1; seed <= 3; ++seed) {
      SCOPED_TRACE("quilt " + std::to_string(k) + ", seed " + std::to_string(seed));
      quilt::Quilt quilt = support::random_quilt({seed}, small[k]);
      quilt.goals.gradation = seed == 2 ? 1 : 0;
      for (std::size_t p = 1; p < quilt.prints.size(); ++p) {  // some pairs under dE00 10
        quilt.prints[p].features.lab = quilt.prints[0].features.lab;
        quilt.prints[p].features.lab.L += 4.0 * static_cast<double>(p);
      }
      const Measure measure(quilt);
      support::Oracle oracle(quilt);
      Sums sums;
      std::vector<bool> used(quilt.blocks.size(), false);
      for_all_shuffles(quilt, 0, used, [&] { sums.add(oracle.terms(quilt), chance_of_turns(quilt)); });
      expect_means(measure, sums, 1e-7);
    }
  }
}

TEST(ShuffleMeans, AgreeWithManyShufflesInEverySetting) {
  for (const support::World& world : support::worlds()) {
    SCOPED_TRACE(world.name);
    quilt::Quilt quilt = support::random_quilt({7}, world.wanted);
    const Measure measure(quilt);
    support::Oracle oracle(quilt);
    Rng rng({11});
    Sums sums;
    for (int k = 0; k < 1500; ++k) {
      quilt.layout = measure.shuffled(rng);
      sums.add(oracle.terms(quilt));
    }
    sums.alike = sums.times * measure.means().likeness;  // rare pairs: held exactly above
    sums.contrast = sums.times * measure.means().contrast;
    expect_means(measure, sums, 0.08);
  }
}

/// A number told again and again: its mean, and how far that may be from the truth by chance.
class Sample {
 public:
  void add(double value) {
    ++times_;
    sum_ += value;
    squares_ += value * value;
  }
  double mean() const { return sum_ / times_; }
  /// Five standard errors: one chance in a million and more.
  double leeway() const { return 5 * std::sqrt(std::max(0.0, squares_ / times_ - mean() * mean()) / times_) + 1e-9; }

 private:
  double times_ = 0, sum_ = 0, squares_ = 0;
};

TEST(ShuffleMeans, EveryTermOverItsMeanIsOneOnAverageOverTenThousandShuffles) {
  for (const support::World& world : support::worlds()) {
    SCOPED_TRACE(world.name);
    support::Wanted wanted = world.wanted;
    if (wanted.patterns.empty()) wanted.patterns = {support::square()};
    for (block::Pattern& pattern : wanted.patterns) pattern = support::pieced(pattern);
    quilt::Quilt quilt = support::random_quilt({7}, wanted);
    // Two and two of one colour, all others far apart: what is alike at all counts whole.
    for (std::size_t p = 0; p < quilt.prints.size(); ++p) {
      const double hue = 2.2 * static_cast<double>(p / 2);
      quilt.prints[p].features.lab = {20.0 + 30 * static_cast<double>(p / 2), 45 * std::cos(hue), 45 * std::sin(hue)};
    }
    quilt.goals.gradation = quilt.goals.contrast = quilt.goals.nest = 1;
    const Measure measure(quilt);
    const ShuffleMeans& means = measure.means();
    Sample touches, length, corners, spread, coverage, evenness, streak, likeness, gradation, contrast;
    Rng rng({11});
    for (int k = 0; k < 10'000; ++k) {
      const Terms terms = measure.terms(measure.shuffled(rng));
      touches.add(terms.touches);
      length.add(terms.touch_length);
      corners.add(terms.corners);
      spread.add(terms.spread);
      coverage.add(terms.coverage);
      evenness.add(terms.evenness);
      streak.add(terms.streak);
      likeness.add(terms.likeness);
      gradation.add(terms.gradation);
      contrast.add(terms.contrast);
    }
    const auto expect = [](const Sample& sample, double mean, const char* what) {
      EXPECT_NEAR(sample.mean(), mean, sample.leeway()) << what;
    };
    expect(touches, means.touches, "touches");
    expect(length, means.touch_length, "touch length");
    expect(corners, means.corners, "corners");
    expect(spread, 1, "spread");
    expect(coverage, means.coverage, "coverage");
    expect(evenness, means.evenness, "evenness");
    expect(streak, means.streak, "streak");
    expect(likeness, means.likeness, "likeness");
    expect(gradation, means.gradation, "gradation");
    expect(contrast, means.contrast, "contrast");
  }
}

/// Every block drawn or the other way: then the oracle knows which ends nest.
TEST(ShuffleMeans, KnowHowManySeamEndsMeetInAShuffle) {
  for (const support::World& world : support::worlds()) {
    SCOPED_TRACE(world.name);
    support::Wanted wanted = world.wanted;
    if (wanted.patterns.empty()) wanted.patterns = {support::square()};
    for (block::Pattern& pattern : wanted.patterns) pattern = support::pieced(pattern);
    quilt::Quilt quilt = support::random_quilt({7}, wanted);
    for (block::Block& block : quilt.blocks) block.press = block::Block::Press::drawn;
    quilt.goals.nest = 1;
    const Measure measure(quilt);
    support::Oracle oracle(quilt);
    Rng rng({11});
    Sample ends;
    for (int k = 0; k < 40; ++k) {  // the oracle walks every seam
      quilt.layout = measure.shuffled(rng);
      ends.add(oracle.terms(quilt).ends);
    }
    EXPECT_NEAR(ends.mean(), measure.means().ends, ends.leeway());
  }
}

}  // namespace
}  // namespace farflung::score
