// What is sewn in chains, and which way blocks are pressed.
#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "base/counted.hpp"
#include "cloth/piecing.hpp"
#include "cloth/shape.hpp"
#include "quilt/print_name.hpp"

namespace farflung::cloth {
namespace {

std::string together(const std::vector<std::string>& names, const char* last) {
  std::string result;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) result += i + 1 == names.size() ? last : ", ";
    result += names[i];
  }
  return result;
}

/// A pattern's piecing, and of each step what kind it is and the patches of each of its sides.
struct PatternSteps {
  Piecing piecing;
  std::vector<int> kinds;
  std::vector<std::vector<std::vector<int>>> sides;
};

PatternSteps steps_of(const block::Pattern& pattern, Length seam_allowance, const Ruler& ruler) {
  PatternSteps steps{piecing_of(pattern, seam_allowance, ruler), {}, {}};
  const std::vector<Step>& made = steps.piecing.steps;
  steps.kinds.assign(made.size(), 0);
  const std::vector<UnitKind> alike = unit_kinds(pattern, steps.piecing);
  for (std::size_t k = 0; k < alike.size(); ++k) {
    for (const int step : alike[k].steps) steps.kinds[step] = static_cast<int>(k);
  }
  for (const Step& step : made) {
    steps.sides.emplace_back();
    for (const block::Unit unit : step.join) {
      const bool one_patch = unit.kind == block::Unit::Kind::patch;
      steps.sides.back().push_back(one_patch ? std::vector<int>{unit.index} : made[unit.index].patches);
    }
  }
  return steps;
}

/// Equal where two steps are sewn alike: those of single patches that are cut alike go by their shapes, whatever the
/// pattern and step.
std::string kind_of(const quilt::Quilt& quilt, const PatternSteps& steps, int pattern, int step, const Ruler& ruler) {
  std::string shapes;
  for (const auto& side : steps.sides[step]) {
    if (side.size() > 1) return "unit " + std::to_string(pattern) + "." + std::to_string(steps.kinds[step]);
    const CutShape shape = cut_shape(quilt.patterns[pattern].patches[side[0]].polygon, quilt.seam_allowance, ruler);
    const Length longer = std::max(shape.width.cut, shape.height.cut);
    const Length shorter = std::min(shape.width.cut, shape.height.cut);
    shapes += std::string(name_of(shape.shape)) + " " + said(longer, shorter, ruler) + "; ";
    if (shape.shape == Shape::odd) shapes += std::to_string(pattern) + "." + std::to_string(step);
  }
  const auto& seams = steps.piecing.steps[step].seams;
  return shapes + said(seams.empty() ? Length() : seams[0].length, ruler);
}

/// The prints of some patches of a block, each once.
std::vector<int> prints_of(const quilt::Quilt& quilt, const block::Block& block, const std::vector<int>& patches) {
  std::set<int> prints;
  for (const int patch : patches) {
    prints.insert(quilt::print_of_slot(quilt, block, quilt.patterns[block.pattern].patches[patch].slot));
  }
  return {prints.begin(), prints.end()};
}

std::string words_for(const quilt::Quilt& quilt, const ChainLine& line) {
  std::vector<std::string> sides;
  for (const auto& prints : line.sides) {
    std::vector<std::string> names;
    names.reserve(prints.size());
    for (const int print : prints) names.push_back(print_name(quilt, print));
    sides.push_back(together(names, " and "));
  }
  return together(sides, " with ") + ": " + std::to_string(line.count);
}

}  // namespace

std::vector<ChainLine> chain_list(const quilt::Quilt& quilt) {
  const Ruler ruler = ruler_for(quilt.units);
  std::vector<PatternSteps> patterns;
  std::size_t longest = 0;
  for (const block::Pattern& pattern : quilt.patterns) {
    patterns.push_back(steps_of(pattern, quilt.seam_allowance, ruler));
    longest = std::max(longest, patterns.back().sides.size());
  }
  std::vector<ChainLine> lines;
  std::map<std::pair<std::string, std::vector<std::vector<int>>>, std::size_t> known;  // by kind and sides
  for (std::size_t s = 0; s < longest; ++s) {
    for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
      const block::Block& block = quilt.blocks[b];
      const PatternSteps& steps = patterns[block.pattern];
      if (block.sewn || s >= steps.sides.size()) continue;
      std::vector<std::vector<int>> sides;
      for (const auto& patches : steps.sides[s]) sides.push_back(prints_of(quilt, block, patches));
      const std::string kind = kind_of(quilt, steps, block.pattern, static_cast<int>(s), ruler);
      const auto [place, is_new] = known.try_emplace({kind, sides}, lines.size());
      if (is_new) lines.push_back({block.pattern, static_cast<int>(s), sides, 0, {}, ""});
      ChainLine& line = lines[place->second];
      ++line.count;
      line.blocks.push_back(static_cast<int>(b));
    }
  }
  for (ChainLine& line : lines) {
    std::sort(line.blocks.begin(), line.blocks.end());
    line.blocks.erase(std::unique(line.blocks.begin(), line.blocks.end()), line.blocks.end());
    line.says = words_for(quilt, line);
  }
  return lines;
}

Piles pressing_piles(const quilt::Quilt& quilt) {
  Piles piles;
  std::vector<bool> told(quilt.blocks.size(), false);
  const auto tell = [&](int block) {
    if (block == kNone || told[block]) return;
    told[block] = true;
    const auto& press = quilt.blocks[block].press;
    auto& pile = !press ? piles.undecided : *press == block::Block::Press::drawn ? piles.drawn : piles.other;
    pile.push_back(block);
  };
  for (const int block : quilt.layout.block) tell(block);
  for (std::size_t spare = 0; spare < quilt.blocks.size(); ++spare) tell(static_cast<int>(spare));
  piles.says =
      counted(piles.drawn.size(), "block is", "blocks are") + " pressed as drawn, " +
      std::to_string(piles.other.size()) + " the other way" +
      (piles.undecided.empty() ? "." : ", " + counted(piles.undecided.size(), "is", "are") + " not decided yet.");
  return piles;
}

}  // namespace farflung::cloth
