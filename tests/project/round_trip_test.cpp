#include <gtest/gtest.h>

#include "base/rng.hpp"
#include "project/same_quilt.hpp"
#include "project/world.hpp"
#include "support/patterns.hpp"
#include "support/random_quilt.hpp"

namespace farflung::project {
namespace {

bool chance(Rng& rng) { return rng.below(2) == 0; }

/// A length that a ruler, a metric ruler or a drawing would give.
Length some_length(Rng& rng) {
  switch (rng.below(3)) {
    case 0:
      return Length::inches((1 + rng.below(640)) / 64.0);
    case 1:
      return Length::millimetres((1 + rng.below(4000)) / 10.0);
    default:
      return Length::inches(rng.between(0.1, 20));
  }
}

void dress(print::Print& print, Rng& rng) {
  const std::vector<std::string> names = {"Kelp", "Foghorn \"loud\"", "Боя", "かもめ", "a/b~c", "", "tab\tline\n"};
  print.name = names[rng.below(static_cast<std::uint32_t>(names.size()))];
  print.upright = chance(rng);
  if (chance(rng)) print.swatch = "swatches/" + print.id + ".png";
  if (chance(rng)) print.swatch_width = some_length(rng);
  for (std::uint32_t n = rng.below(3); n > 0; --n) {
    print.cloth.push_back({"fat quarter", some_length(rng), some_length(rng), static_cast<int>(rng.below(4)), "lot 7",
                           chance(rng) ? std::optional(rng.between(0, 20)) : std::nullopt});
  }
  if (chance(rng)) {
    print.photo = print::Sighting{"photos/a.jpg", {}, "chart"};
    for (auto& corner : print.photo->corners) corner = {rng.between(0, 4000), rng.between(-5, 4000)};
  }
  print::Features& features = print.features;
  features.lab = {rng.between(0, 100), rng.between(-80, 80), rng.between(-80, 80)};
  for (std::uint32_t n = rng.below(7); n > 0; --n) features.palette.push_back({features.lab, rng.uniform() / 6});
  features.value_range = rng.between(0, 100);
  if (chance(rng)) features.scale = rng.between(0, 6);
  if (chance(rng)) features.scale_share = rng.uniform();
  features.busyness = rng.uniform();
  features.direction.kind = static_cast<print::Direction::Kind>(rng.below(3));
  features.direction.degrees = chance(rng) ? rng.between(0, 180) : 0;
  if (chance(rng)) features.by_hand = {"lab", "scale"};
}

/// The first two blocks that lie on the wall are sewn to one another, as they lie.
void sew_two(quilt::Quilt& quilt) {
  quilt::SewnUnit unit{quilt::SewnUnit::Stage::pair, {}};
  for (int cell = 0; cell < static_cast<int>(quilt.layout.block.size()) && unit.cells.size() < 2; ++cell) {
    const int block = quilt.layout.block[cell];
    if (block == quilt::kNone) continue;
    unit.cells.push_back(cell);
    quilt.layout.kept[cell] = true;
    if (!quilt.blocks[block].sewn) quilt.blocks[block].cut_turn = quilt.layout.turn[cell];
    quilt.blocks[block].sewn = true;
  }
  if (unit.cells.size() == 2) quilt.sewn_units.push_back(std::move(unit));
}

/// A valid quilt that has everything a quilt can have, or lacks it.
quilt::Quilt some_quilt(Seed seed) {
  Rng rng(seed);
  support::Wanted wanted;
  wanted.kind = static_cast<setting::Setting::Kind>(rng.below(3));
  wanted.rows = 2 + static_cast<int>(rng.below(4));
  wanted.columns = 2 + static_cast<int>(rng.below(4));
  wanted.prints = 3 + static_cast<int>(rng.below(8));
  if (chance(rng)) wanted.patterns = {support::uneven_rails(), support::nine_patch()};
  wanted.alternate = !wanted.patterns.empty() && chance(rng);
  wanted.spares = static_cast<int>(rng.below(3));
  wanted.holes = static_cast<int>(rng.below(2));
  wanted.kept = static_cast<int>(rng.below(3));
  wanted.sashing = chance(rng);
  wanted.borders = chance(rng);
  quilt::Quilt quilt = support::random_quilt(seed, wanted);
  quilt.title = chance(rng) ? "Harbour raffle" : "";
  quilt.units = static_cast<quilt::Units>(rng.below(3));
  quilt.seam_allowance = Length::inches(some_length(rng).inches() / 40);  // no wider than half of any block
  for (print::Print& print : quilt.prints) dress(print, rng);
  if (chance(rng)) quilt.binding = quilt::Binding{0, some_length(rng), chance(rng)};
  if (chance(rng)) quilt.backing = quilt::Backing{quilt::kNone, some_length(rng)};
  for (setting::Border& border : quilt.setting.borders) {
    border.width = some_length(rng);
    border.corners = static_cast<setting::Border::Corners>(rng.below(3));
  }
  for (block::Block& block : quilt.blocks) {
    if (chance(rng)) block.press = chance(rng) ? block::Block::Press::drawn : block::Block::Press::other;
    if (rng.below(9) == 0) block.prints.assign(block.prints.size(), quilt::kNone);
  }
  for (block::Pattern& pattern : quilt.patterns) {
    for (block::Slot& slot : pattern.slots) {
      if (rng.below(5) == 0) slot.print = 0;
      slot.may_touch = slot.may_touch || chance(rng);
      slot.value = static_cast<block::Slot::Value>(rng.below(3));
    }
  }
  if (chance(rng)) {
    const block::Pattern& tried = quilt.patterns.back();
    const Length seams = 2 * quilt.seam_allowance;
    quilt.test_block = quilt::TestBlock{static_cast<int>(quilt.patterns.size()) - 1,
                                        Length::inches(0.98 * tried.width.inches()) + seams, tried.height + seams};
  }
  if (chance(rng)) sew_two(quilt);
  quilt.goals = {rng.uniform(), 2 * rng.uniform(), 0, 1, 0.5, rng.between(0, 1000)};
  quilt.goals.gradation = chance(rng) ? rng.uniform() : 0;
  quilt.goals.contrast = chance(rng) ? 2 : 0;
  quilt.goals.lines = chance(rng) ? 0.1 : 0;
  quilt.goals.closest = chance(rng) ? 1 : 0;
  quilt.goals.likeness_by_print = chance(rng);
  quilt.goals.nest_rule = chance(rng);
  if (!quilt.goals.nest_rule) quilt.goals.nest = chance(rng) ? rng.uniform() : 0;
  if (chance(rng)) quilt.gradation.way = static_cast<quilt::Gradation::Way>(rng.below(5));
  quilt.gradation.dark_first = chance(rng);
  const bool by_picture = quilt.gradation.way == quilt::Gradation::Way::picture;
  if (by_picture || chance(rng)) quilt.gradation.file = "photos/grey.png";
  print::give_codes(quilt.prints);
  return quilt;
}

TEST(RoundTrip, AQuiltComesBackFromItsFileAsItWas) {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const quilt::Quilt quilt = some_quilt(Seed{seed});
    ASSERT_EQ(quilt::problems_of(quilt), Problems{}) << seed;
    const std::string text = text_of({quilt, nullptr});
    const Document read = must(document_from_text(text));
    expect_same(quilt, read.quilt);
    ASSERT_EQ(text_of(read), text) << "seed " << seed;
    if (::testing::Test::HasFailure()) FAIL() << "seed " << seed;
  }
}

TEST(RoundTrip, WrittenOverAnotherQuiltItIsItselfAllTheSame) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    const Document other = must(document_from_text(text_of({some_quilt(Seed{seed + 1000}), nullptr})));
    const quilt::Quilt quilt = some_quilt(Seed{seed});
    const Document read = must(document_from_text(text_of({quilt, other.original})));
    expect_same(quilt, read.quilt);
    if (::testing::Test::HasFailure()) FAIL() << "seed " << seed;
  }
}

TEST(RoundTrip, TheSameQuiltGivesTheSameBytes) {
  EXPECT_EQ(text_of({some_quilt(Seed{5}), nullptr}), text_of({some_quilt(Seed{5}), nullptr}));
}

}  // namespace
}  // namespace farflung::project
