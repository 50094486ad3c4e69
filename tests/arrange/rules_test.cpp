// Constraints are kept always, never bought off: a thousand quilts drawn by lot, all kinds of rule at once.
#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <vector>

#include <gtest/gtest.h>

#include "arrange/arrange.hpp"
#include "makeup/cuts.hpp"
#include "score/measure.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"

namespace farflung::arrange {
namespace {

using quilt::kNone;
using Press = block::Block::Press;
using Kind = setting::Setting::Kind;

std::vector<block::Pattern> some_patterns(Rng& rng) {
  std::vector<block::Pattern> all = {support::square(),     support::half_square(), support::uneven_rails(),
                                     support::four_patch(), support::nine_patch(),  support::pinwheel(),
                                     support::plain_rails()};
  std::vector<block::Pattern> some;
  for (std::uint32_t count = 1 + rng.below(3); count > 0; --count) {
    const std::uint32_t k = rng.below(static_cast<std::uint32_t>(all.size()));
    some.push_back(support::pieced(all[k]));
    all.erase(all.begin() + k);
  }
  return some;
}

support::Wanted some_wish(Rng& rng) {
  support::Wanted wanted;
  wanted.kind = std::vector{Kind::straight, Kind::straight, Kind::brick, Kind::on_point}[rng.below(4)];
  const bool diamond = wanted.kind == Kind::on_point;
  wanted.rows = static_cast<int>(2 + rng.below(diamond ? 2 : 3));
  wanted.columns = static_cast<int>(2 + rng.below(diamond ? 2 : 3));
  wanted.prints = static_cast<int>(6 + rng.below(6));
  wanted.patterns = some_patterns(rng);
  wanted.alternate = wanted.patterns.size() > 1 && rng.below(2) == 0;
  wanted.spares = static_cast<int>(rng.below(4));
  wanted.holes = static_cast<int>(rng.below(3));
  wanted.kept = static_cast<int>(rng.below(4) == 0 ? 0 : rng.below(4));
  wanted.kept = std::min(wanted.kept, 4 - wanted.holes);
  wanted.sashing = rng.below(4) == 0 && wanted.kind != Kind::brick;
  wanted.borders = rng.below(3) == 0;
  wanted.background = 0;
  return wanted;
}

quilt::Goals some_goals(Rng& rng) {
  quilt::Goals goals;
  if (rng.below(4) == 0) goals.gradation = 1;
  if (rng.below(4) == 0) goals.contrast = 0.5;
  if (rng.below(4) == 0) goals.lines = 0.1;
  if (rng.below(4) == 0) goals.closest = 1;
  if (rng.below(4) == 0) goals.nest = 0.5;
  goals.nest_rule = goals.nest == 0 && rng.below(4) == 0;
  return goals;
}

/// Some prints stand upright, some are stripes; some blocks are sewn, cut for some turn, pressed one way or the other.
void add_rules(Rng& rng, quilt::Quilt& quilt) {
  for (print::Print& print : quilt.prints) {
    print.upright = rng.below(4) == 0;
    const auto kind = static_cast<print::Direction::Kind>(rng.below(3));
    if (print.upright) print.features.direction = {kind, 90};
  }
  for (block::Block& block : quilt.blocks) {
    const std::vector<Turn>& turns = quilt.patterns[block.pattern].turns;
    block.sewn = rng.below(2) == 0;
    block.cut_turn = turns[rng.below(static_cast<std::uint32_t>(turns.size()))];
    if (rng.below(3) > 0) block.press = rng.below(2) == 0 ? Press::drawn : Press::other;
  }
  for (std::size_t cell = 0; cell < quilt.layout.block.size(); ++cell) {
    if (quilt.layout.block[cell] == kNone) continue;
    const std::vector<Turn> turns = quilt::turns_of(quilt, quilt.blocks[quilt.layout.block[cell]]);
    quilt.layout.turn[cell] = turns[rng.below(static_cast<std::uint32_t>(turns.size()))];
  }
}

quilt::Quilt some_quilt(Seed seed) {
  Rng rng(seed);
  const support::Wanted wanted = some_wish(rng);
  quilt::Quilt quilt = support::random_quilt(derived(seed, 1), wanted);
  quilt.goals = some_goals(rng);
  add_rules(rng, quilt);
  return quilt;
}

/// What an arranged quilt may never differ in.
void expect_kept(const quilt::Quilt& before, const quilt::Quilt& after) {
  EXPECT_EQ(quilt::problems_of(after), Problems{}) << "turns, own cells, upright prints, each block once";
  EXPECT_EQ(before.layout.kept, after.layout.kept);
  for (std::size_t cell = 0; cell < before.layout.block.size(); ++cell) {
    EXPECT_EQ(after.layout.block[cell] == kNone, before.layout.block[cell] == kNone) << "a hole stays a hole";
    if (!before.layout.kept[cell]) continue;
    EXPECT_EQ(after.layout.block[cell], before.layout.block[cell]);
    EXPECT_EQ(after.layout.turn[cell], before.layout.turn[cell]);
  }
}

/// The blocks that may be dealt anew: neither sewn nor kept.
std::vector<bool> open_blocks(const quilt::Quilt& quilt) {
  std::vector<bool> open;
  for (const block::Block& block : quilt.blocks) open.push_back(!block.sewn);
  for (std::size_t cell = 0; cell < quilt.layout.block.size(); ++cell) {
    if (quilt.layout.kept[cell] && quilt.layout.block[cell] != kNone) open[quilt.layout.block[cell]] = false;
  }
  return open;
}

void expect_blocks_as_they_were(const quilt::Quilt& before, const quilt::Quilt& after, const std::vector<bool>& open) {
  for (std::size_t b = 0; b < before.blocks.size(); ++b) {
    EXPECT_EQ(before.blocks[b].pattern, after.blocks[b].pattern);
    EXPECT_EQ(before.blocks[b].press, after.blocks[b].press);
    if (open[b]) continue;
    EXPECT_EQ(before.blocks[b].prints, after.blocks[b].prints);
  }
}

/// Dealt blocks: all prints differ within, and every print comes in whole cuts but for one that ends the pack.
void expect_dealt_well(const quilt::Quilt& quilt, const std::vector<bool>& open) {
  using Key = std::vector<std::tuple<int, int, double>>;
  std::map<Key, std::map<int, int>> pieces;  // by how the slots' triangles are cut: by print
  std::map<Key, int> whole;
  std::map<Key, std::set<std::size_t>> blocks;
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    if (!open[b]) continue;
    const block::Block& block = quilt.blocks[b];
    const block::Pattern& pattern = quilt.patterns[block.pattern];
    std::map<int, int> within;
    for (int slot = 0; slot < static_cast<int>(pattern.slots.size()); ++slot) {
      if (pattern.slots[slot].print != kNone) continue;
      ASSERT_NE(block.prints[slot], kNone);
      EXPECT_EQ(++within[block.prints[slot]], 1) << "a print twice in block " << block.id;
      const std::vector<makeup::Cut> cuts = makeup::cuts_of(pattern, slot);
      if (makeup::blocks_of_whole_squares(cuts) == 1) continue;
      Key key;
      for (const makeup::Cut& cut : cuts) key.emplace_back(cut.pieces, cut.per_block, cut.side);
      ++pieces[key][block.prints[slot]];
      whole[key] = makeup::blocks_of_whole_squares(cuts);
      blocks[key].insert(b);
    }
  }
  for (const auto& [key, by_print] : pieces) {
    // A cut that fills more slots than there are blocks cannot stay whole: no block holds a print twice.
    if (static_cast<int>(blocks[key].size()) < whole[key]) continue;
    int parts = 0;
    for (const auto& [print, count] : by_print) parts += count % whole[key] != 0 ? 1 : 0;
    EXPECT_LE(parts, 1) << "prints that end on a part of a cut";
  }
}

class AThousandQuilts : public testing::TestWithParam<int> {};

TEST_P(AThousandQuilts, NeverBreakARule) {
  constexpr int kEach = 100;
  for (int k = 0; k < kEach; ++k) {
    const Seed seed{static_cast<std::uint64_t>(GetParam() * kEach + k + 1)};
    SCOPED_TRACE("seed " + std::to_string(seed.value));
    const quilt::Quilt quilt = some_quilt(seed);
    ASSERT_EQ(quilt::problems_of(quilt), Problems{});
    const bool dealt = k % 2 == 0;
    Options options{.seed = seed, .effort = 0.0005, .threads = 1};
    options.blocks = dealt ? Options::Blocks::open : Options::Blocks::sewn;
    const Result<Report> report = arrange(quilt, options);
    ASSERT_TRUE(report.ok()) << report.problems().front().text();
    expect_kept(quilt, report->quilt);
    const std::vector<bool> open = dealt ? open_blocks(quilt) : std::vector<bool>(quilt.blocks.size(), false);
    expect_blocks_as_they_were(quilt, report->quilt, open);
    if (dealt) expect_dealt_well(report->quilt, open);
    EXPECT_FALSE(!dealt && score::better(report->before, report->after)) << "never worse than it was";
    const score::Score anew = score::score_of(report->quilt);
    EXPECT_EQ(report->after.terms.touches, anew.terms.touches);
    EXPECT_EQ(report->after.F, anew.F) << "what is reported is what is there";
    EXPECT_LE(report->bound.touches, anew.terms.touches);
    if (HasFailure()) return;
  }
}

INSTANTIATE_TEST_SUITE_P(Arrange, AThousandQuilts, testing::Range(0, 10));

}  // namespace
}  // namespace farflung::arrange
