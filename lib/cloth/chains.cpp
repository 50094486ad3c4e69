// What is sewn in chains, and which way blocks are pressed.
#include <algorithm>
#include <map>

#include "cloth/piecing.hpp"
#include "cloth/shape.hpp"

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

std::string name_of_print(const quilt::Quilt& quilt, int print) {
  if (print == kNone) return "undealt";
  return quilt.prints[print].name.empty() ? quilt.prints[print].id : quilt.prints[print].name;
}

}  // namespace

std::vector<ChainLine> chain_list(const quilt::Quilt& quilt) {
  const Ruler ruler = ruler_for(quilt.units);
  struct Key {
    std::string kind;
    std::vector<std::vector<int>> sides;
    bool operator<(const Key& other) const { return kind != other.kind ? kind < other.kind : sides < other.sides; }
  };
  std::vector<ChainLine> lines;
  std::map<Key, std::size_t> known;
  std::vector<Piecing> piecings;
  std::vector<std::vector<int>> kinds;  // by pattern and step
  for (const block::Pattern& pattern : quilt.patterns) {
    piecings.push_back(piecing_of(pattern, quilt.seam_allowance, ruler));
    kinds.emplace_back(piecings.back().steps.size(), 0);
    const std::vector<UnitKind> alike = unit_kinds(pattern, piecings.back());
    for (std::size_t k = 0; k < alike.size(); ++k) {
      for (const int step : alike[k].steps) kinds.back()[step] = static_cast<int>(k);
    }
  }

  std::vector<std::vector<std::vector<std::vector<int>>>> units;  // by pattern, step, side: patches
  for (std::size_t p = 0; p < piecings.size(); ++p) {
    units.emplace_back();
    for (const Step& step : piecings[p].steps) {
      units.back().emplace_back();
      for (block::Unit unit : step.join) {
        units.back().back().push_back(unit.kind == block::Unit::Kind::patch ? std::vector<int>{unit.index}
                                                                            : piecings[p].steps[unit.index].patches);
      }
    }
  }
  // Steps of single patches that are cut alike go by their shapes, whatever the pattern and step.
  const auto kind_of = [&](int pattern, int step) {
    std::string shapes;
    for (const auto& side : units[pattern][step]) {
      if (side.size() > 1) return "unit " + std::to_string(pattern) + "." + std::to_string(kinds[pattern][step]);
      const CutShape shape = cut_shape(quilt.patterns[pattern].patches[side[0]].polygon, quilt.seam_allowance, ruler);
      const Length longer = std::max(shape.width.cut, shape.height.cut);
      const Length shorter = std::min(shape.width.cut, shape.height.cut);
      shapes += std::string(name_of(shape.shape)) + " " + said(longer, shorter, ruler) + "; ";
      if (shape.shape == Shape::odd) shapes += std::to_string(pattern) + "." + std::to_string(step);
    }
    return shapes +
           said(piecings[pattern].steps[step].seams.empty() ? Length() : piecings[pattern].steps[step].seams[0].length,
                ruler);
  };
  std::size_t longest = 0;
  for (const auto& piecing : piecings) longest = std::max(longest, piecing.steps.size());
  for (std::size_t s = 0; s < longest; ++s) {
    for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
      const block::Block& block = quilt.blocks[b];
      if (block.sewn || s >= piecings[block.pattern].steps.size()) continue;
      Key key{kind_of(block.pattern, static_cast<int>(s)), {}};
      for (const auto& side : units[block.pattern][s]) {
        key.sides.emplace_back();
        for (int patch : side) {
          const int print = quilt::print_of_slot(quilt, block, quilt.patterns[block.pattern].patches[patch].slot);
          auto& prints = key.sides.back();
          if (std::find(prints.begin(), prints.end(), print) == prints.end()) prints.push_back(print);
        }
        std::sort(key.sides.back().begin(), key.sides.back().end());
      }
      const auto [place, is_new] = known.try_emplace(key, lines.size());
      if (is_new) lines.push_back({block.pattern, static_cast<int>(s), key.sides, 0, {}, ""});
      ChainLine& line = lines[place->second];
      ++line.count;
      if (line.blocks.empty() || line.blocks.back() != static_cast<int>(b)) line.blocks.push_back(static_cast<int>(b));
    }
  }
  for (ChainLine& line : lines) {
    std::vector<std::string> sides;
    for (const auto& prints : line.sides) {
      std::vector<std::string> names;
      names.reserve(prints.size());
      for (int print : prints) names.push_back(name_of_print(quilt, print));
      sides.push_back(together(names, " and "));
    }
    std::sort(line.blocks.begin(), line.blocks.end());
    line.blocks.erase(std::unique(line.blocks.begin(), line.blocks.end()), line.blocks.end());
    line.says = together(sides, " with ") + ": " + std::to_string(line.count);
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
      std::to_string(piles.drawn.size()) + " blocks are pressed as drawn, " + std::to_string(piles.other.size()) +
      " the other way" +
      (piles.undecided.empty() ? "." : ", " + std::to_string(piles.undecided.size()) + " are not decided yet.");
  return piles;
}

}  // namespace farflung::cloth
