#include "support/random_quilt.hpp"

#include <algorithm>
#include <cstdio>
#include <numeric>

#include "support/patterns.hpp"

namespace farflung::support {
namespace {

using quilt::kNone;

std::string numbered(const char* format, int number) {
  char text[32];
  std::snprintf(text, sizeof text, format, number);
  return text;
}

print::Print random_print(Rng& rng, int number) {
  print::Print print;
  print.id = print.name = numbered("P%02d", number + 1);
  print.features.lab = {rng.between(15, 95), rng.between(-45, 45), rng.between(-45, 45)};
  print.features.busyness = rng.uniform();
  return print;
}

setting::Setting random_setting(Rng& rng, const Wanted& wanted, int patterns) {
  setting::Setting setting;
  setting.kind = wanted.kind;
  setting.rows = wanted.rows;
  setting.columns = wanted.columns;
  const auto any_print = [&] { return static_cast<int>(rng.below(wanted.prints)); };
  if (wanted.kind != setting::Setting::Kind::straight) setting.filler = any_print();
  if (wanted.sashing) {
    setting::Sashing sashing;
    sashing.width = Length::inches(1);
    sashing.print = any_print();
    if (rng.below(2) == 0) sashing.cornerstone = any_print();
    sashing.outer = rng.below(2) == 0;
    setting.sashing = sashing;
  }
  if (wanted.borders) {
    setting.borders.push_back({Length::inches(2), any_print(), setting::Border::Corners::butted, kNone});
    setting.borders.push_back({Length::inches(4), any_print(), setting::Border::Corners::cornerstone, any_print()});
  }
  if (!wanted.alternate) return setting;
  for (int row = 0; row < patterns; ++row) {
    setting.alternate.emplace_back();
    for (int column = 0; column < patterns; ++column) setting.alternate.back().push_back((row + column) % patterns);
  }
  return setting;
}

/// Hands out prints: by lot, or from a pack that holds each once and is shuffled anew when it runs out.
class Dealer {
 public:
  Dealer(Rng& rng, int prints, bool evenly) : rng_(rng), prints_(prints), evenly_(evenly) {}

  int next() {
    if (!evenly_) return static_cast<int>(rng_.below(prints_));
    if (pack_.empty()) {
      pack_.resize(prints_);
      std::iota(pack_.begin(), pack_.end(), 0);
      rng_.shuffle(std::span<int>(pack_));
    }
    const int print = pack_.back();
    pack_.pop_back();
    return print;
  }

 private:
  Rng& rng_;
  int prints_;
  bool evenly_;
  std::vector<int> pack_;
};

void add_block(quilt::Quilt& quilt, int pattern, Dealer& dealer) {
  block::Block block;
  block.id = numbered("B%03d", static_cast<int>(quilt.blocks.size()) + 1);
  block.pattern = pattern;
  for (const block::Slot& slot : quilt.patterns[pattern].slots) {
    block.prints.push_back(slot.print != kNone ? kNone : dealer.next());
  }
  quilt.blocks.push_back(block);
}

}  // namespace

quilt::Quilt random_quilt(Seed seed, const Wanted& wanted) {
  Rng rng(seed);
  quilt::Quilt quilt;
  quilt.patterns = wanted.patterns.empty() ? std::vector<block::Pattern>{square()} : wanted.patterns;
  for (int p = 0; p < wanted.prints; ++p) quilt.prints.push_back(random_print(rng, p));
  for (block::Pattern& pattern : quilt.patterns) {
    for (block::Slot& slot : pattern.slots) {
      if (slot.name == "background") slot.print = wanted.background;
    }
  }
  const int patterns = static_cast<int>(quilt.patterns.size());
  quilt.setting = random_setting(rng, wanted, patterns);
  quilt.layout = setting::empty_arrangement(quilt.setting);
  const setting::Plan plan = setting::plan_of(quilt.setting, Length::inches(6), Length::inches(6));
  Dealer dealer(rng, wanted.prints, wanted.dealt_evenly);

  std::vector<int> cells(plan.cells.size());
  std::iota(cells.begin(), cells.end(), 0);
  rng.shuffle(std::span<int>(cells));
  cells.resize(cells.size() - static_cast<std::size_t>(wanted.holes));
  for (const int cell : cells) {
    const int own = plan.cells[cell].pattern;
    add_block(quilt, own != kNone ? own : static_cast<int>(rng.below(patterns)), dealer);
    const int block = static_cast<int>(quilt.blocks.size()) - 1;
    const std::vector<Turn>& turns = quilt.patterns[quilt.blocks[block].pattern].turns;
    quilt.layout.block[cell] = block;
    quilt.layout.turn[cell] = turns[rng.below(static_cast<std::uint32_t>(turns.size()))];
  }
  for (int spare = 0; spare < wanted.spares; ++spare) add_block(quilt, static_cast<int>(rng.below(patterns)), dealer);
  for (int k = 0; k < wanted.kept; ++k) quilt.layout.kept[cells[k]] = true;
  return quilt;
}

quilt::Quilt quilt_of_one_pattern(Seed seed, const block::Pattern& pattern, int rows, int columns, int prints) {
  Wanted wanted;
  wanted.rows = rows;
  wanted.columns = columns;
  wanted.prints = prints;
  wanted.patterns = {pattern};
  return random_quilt(seed, wanted);
}

quilt::Quilt undealt_quilt(Seed seed, const Wanted& wanted) {
  quilt::Quilt quilt = random_quilt(seed, wanted);
  for (block::Block& block : quilt.blocks) std::fill(block.prints.begin(), block.prints.end(), quilt::kNone);
  return quilt;
}

void give_looks(quilt::Quilt& quilt, Seed seed) {
  Rng rng(seed);
  for (print::Print& print : quilt.prints) {
    const colour::Lab lab = print.features.lab;
    print.features.palette.clear();
    for (const double share : {0.5, 0.375, 0.125}) {
      print.features.palette.push_back(
          {{lab.L + rng.between(-5, 5), lab.a + rng.between(-9, 9), lab.b + rng.between(-9, 9)}, share});
    }
    if (rng.below(3) > 0) print.features.scale = rng.between(0.2, 3);
  }
}

}  // namespace farflung::support
