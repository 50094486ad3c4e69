#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "quilt/quilt.hpp"

namespace farflung::quilt {
namespace {

using setting::Plan;

std::string item(const std::string& list, std::size_t index) { return list + "/" + std::to_string(index); }

/// How many characters a UTF-8 text has.
std::size_t characters(const std::string& text) {
  std::size_t count = 0;
  for (char c : text) count += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  return count;
}

class Checks {
 public:
  explicit Checks(const Quilt& quilt) : quilt_(quilt) {}

  Problems run() {
    check_ids(quilt_.prints, "/prints");
    check_ids(quilt_.patterns, "/patterns");
    check_ids(quilt_.blocks, "/blocks");
    check_prints();
    check_patterns();
    check_goals();
    check_seam_allowance();
    const std::size_t before_blocks = problems_.size();
    check_blocks();
    const Problems found = setting::problems_of(quilt_.setting, quilt_.patterns, prints(), "/setting");
    problems_.insert(problems_.end(), found.begin(), found.end());
    check_pieces_of_cloth();
    if (problems_.size() == before_blocks && prints_are_there_ && !quilt_.patterns.empty()) check_layout();
    if (problems_.size() == before_blocks) {
      check_sewn_units();
      check_test_block();
    }
    return std::move(problems_);
  }

 private:
  int prints() const { return static_cast<int>(quilt_.prints.size()); }

  void add(std::string at, std::string cause, std::string remedy) {
    problems_.push_back(input_problem(std::move(at), std::move(cause), std::move(remedy)));
  }

  template <typename Item>
  void check_ids(const std::vector<Item>& items, const std::string& list) {
    std::set<std::string> seen;
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (items[i].id.empty()) add(item(list, i) + "/id", "the id is empty", "give it an id of its own");
      if (!seen.insert(items[i].id).second) {
        add(item(list, i) + "/id", "the id " + items[i].id + " is taken", "give each its own id");
      }
    }
  }

  void check_print_index(const std::string& at, int print) {
    if (print >= kNone && print < prints()) return;
    add(at, "there is no such print", "name one of the quilt's prints");
    prints_are_there_ = false;
  }

  void check_prints() {
    std::set<std::string> codes;
    for (std::size_t i = 0; i < quilt_.prints.size(); ++i) {
      check_palette(quilt_.prints[i].features.palette, item("/prints", i) + "/features/palette");
      const std::string& code = quilt_.prints[i].code;
      const std::string at = item("/prints", i) + "/code";
      if (code.empty()) continue;
      if (characters(code) > 2) add(at, "the code " + code + " is too long", "use one or two characters");
      if (code.find_first_of("OI") != std::string::npos) {
        add(at, "the code " + code + " can be misread", "use neither O nor I");
      }
      if (!codes.insert(code).second) add(at, "the code " + code + " is taken", "give each print its own code");
    }
  }

  void check_patterns() {
    for (std::size_t i = 0; i < quilt_.patterns.size(); ++i) {
      const block::Pattern& pattern = quilt_.patterns[i];
      const Problems found = block::problems_of(pattern, item("/patterns", i));
      problems_.insert(problems_.end(), found.begin(), found.end());
      for (const block::Slot& slot : pattern.slots) {
        check_print_index(item("/patterns", i) + "/slots/" + slot.name + "/print", slot.print);
      }
    }
  }

  void check_goals() {
    const Goals& g = quilt_.goals;
    const std::map<std::string, double> weights = {
        {"spread", g.spread},       {"coverage", g.coverage}, {"evenness", g.evenness},
        {"streak", g.streak},       {"likeness", g.likeness}, {"corner", g.corner},
        {"gradation", g.gradation}, {"contrast", g.contrast}, {"lines", g.lines},
        {"closest", g.closest},     {"nest", g.nest}};
    for (const auto& [name, weight] : weights) {
      if (!(weight >= 0) || !std::isfinite(weight)) {
        add("/goals/" + name, "a weight below zero", "give zero or more; zero leaves the goal out");
      }
    }
  }

  void check_seam_allowance() {
    if (quilt_.seam_allowance <= Length()) {
      add("/seam_allowance", "a seam allowance has a width", "give a width above zero, such as 0.25");
    }
    for (const block::Pattern& pattern : quilt_.patterns) {
      const Length shorter = std::min(pattern.width, pattern.height);
      if (shorter <= Length() || 2 * quilt_.seam_allowance <= shorter) continue;
      add("/seam_allowance", "the seam allowance is wider than half a block of pattern " + pattern.id,
          "give a narrower one, such as 0.25 in or 0.75 cm");
      return;
    }
  }

  void check_palette(const std::vector<print::PaletteColour>& palette, const std::string& at) {
    constexpr double kRounding = 0.02;  // of six shares, each to two places
    double all = 0;
    for (const print::PaletteColour& colour : palette) all += colour.share;
    if (all <= 1 + kRounding) return;
    add(at, "its shares add up to " + std::to_string(std::lround(100 * all)) + " % of the print",
        "give shares of 1 that add up to 1 or less");
  }

  void check_blocks() {
    for (std::size_t i = 0; i < quilt_.blocks.size(); ++i) {
      const block::Block& block = quilt_.blocks[i];
      const std::string at = item("/blocks", i);
      if (block.pattern < 0 || block.pattern >= static_cast<int>(quilt_.patterns.size())) {
        add(at + "/pattern", "there is no such pattern", "name one of the quilt's patterns");
        continue;
      }
      const block::Pattern& pattern = quilt_.patterns[block.pattern];
      if (block.prints.size() != pattern.slots.size()) {
        add(at + "/prints", "its slots are not those of pattern " + pattern.id, "fill the pattern's slots");
        continue;
      }
      for (std::size_t slot = 0; slot < block.prints.size(); ++slot) {
        check_print_index(at + "/prints/" + pattern.slots[slot].name, block.prints[slot]);
      }
      if (!pattern.allows(block.cut_turn)) {
        add(at + "/cut_turn", "pattern " + pattern.id + " does not allow this turn", "use one of the pattern's turns");
      }
      check_block_size(block, at);
    }
  }

  void check_block_size(const block::Block& block, const std::string& at) {
    const int first_pattern = quilt_.blocks.front().pattern;
    if (first_pattern < 0 || first_pattern >= static_cast<int>(quilt_.patterns.size())) return;  // told of already
    const block::Pattern& mine = quilt_.patterns[block.pattern];
    const block::Pattern& first = quilt_.patterns[first_pattern];
    if (mine.width == first.width && mine.height == first.height) return;
    add(at + "/pattern", "patterns " + first.id + " and " + mine.id + " differ in size",
        "patterns that lie in one top share one size");
  }

  void check_pieces_of_cloth() {
    if (quilt_.binding) check_print_index("/binding/print", quilt_.binding->print);
    if (quilt_.backing) check_print_index("/backing/print", quilt_.backing->print);
  }

  void check_test_block() {
    if (!quilt_.test_block) return;
    const TestBlock& measured = *quilt_.test_block;
    if (measured.pattern < 0 || measured.pattern >= static_cast<int>(quilt_.patterns.size())) {
      add("/test_block/pattern", "there is no such pattern", "name the pattern that the test block was sewn from");
      return;
    }
    const block::Pattern& pattern = quilt_.patterns[measured.pattern];
    const Length seams = 2 * quilt_.seam_allowance;
    const auto plausible = [&](Length got, Length meant) {
      const double share = (got - seams).inches() / meant.inches();
      return share > 0.8 && share < 1.2;
    };
    if (!plausible(measured.width, pattern.width) || !plausible(measured.height, pattern.height)) {
      add("/test_block", "a block of pattern " + pattern.id + " cannot come out like that",
          "measure it with its seam allowances on, width and height");
    }
  }

  void check_sewn_units() {
    for (std::size_t i = 0; i < quilt_.sewn_units.size(); ++i) {
      const std::string at = item("/layout/sewn", i) + "/cells";
      const std::vector<int>& cells = quilt_.sewn_units[i].cells;
      std::set<int> seen;
      for (const int cell : cells) {
        if (cell < 0 || cell >= static_cast<int>(quilt_.layout.block.size()) || quilt_.layout.block[cell] == kNone) {
          add(at, "an empty cell cannot be sewn to others", "name cells that hold a block");
        } else if (!seen.insert(cell).second) {
          add(at, "a cell is named twice", "name each cell once");
        }
      }
      if (cells.size() < 2) add(at, "a block alone is no sewn unit", "name two cells or more");
    }
  }

  void check_layout() {
    const Plan plan = plan_of(quilt_);
    const setting::Arrangement& layout = quilt_.layout;
    if (layout.block.size() != plan.cells.size() || layout.turn.size() != plan.cells.size() ||
        layout.kept.size() != plan.cells.size()) {
      add("/layout/cells", "the lists do not fit the setting",
          "give one list for each row, as long as the row has cells; null is an empty cell");
      return;
    }
    std::vector<std::string> seen(quilt_.blocks.size());
    for (std::size_t i = 0; i < plan.cells.size(); ++i) {
      if (layout.block[i] == kNone) continue;
      const std::string place = "/" + std::to_string(plan.cells[i].row) + "/" + std::to_string(plan.cells[i].column);
      if (layout.block[i] < 0 || layout.block[i] >= static_cast<int>(quilt_.blocks.size())) {
        add("/layout/cells" + place, "there is no such block", "name one of the quilt's blocks, or null");
        continue;
      }
      check_cell(plan.cells[i], layout.block[i], layout.turn[i], place, seen);
    }
  }

  void check_cell(const setting::Cell& cell, int index, Turn turn, const std::string& place,
                  std::vector<std::string>& seen) {
    const block::Block& block = quilt_.blocks[index];
    const block::Pattern& pattern = quilt_.patterns[block.pattern];
    if (!seen[index].empty()) {
      add("/layout/cells" + place, "block " + block.id + " lies in " + seen[index] + " already",
          "each block lies in one cell");
    }
    seen[index] = cell_name(cell);
    if (cell.pattern != kNone && cell.pattern != block.pattern) {
      add("/layout/cells" + place,
          "this cell belongs to pattern " + quilt_.patterns[cell.pattern].id + ", block " + block.id + " is " +
              pattern.id,
          "lay a block of the cell's own pattern here");
    }
    if (!pattern.allows(turn)) {
      add("/layout/turns" + place, "pattern " + pattern.id + " does not allow this turn",
          "use one of the pattern's turns");
    } else if (!may_take(block, turn)) {
      add("/layout/turns" + place, "block " + block.id + " is sewn and a print in it would not stand upright",
          "turn it by " + std::to_string(block.cut_turn.quarters()) + " quarters, as it was cut");
    }
  }

  bool may_take(const block::Block& block, Turn turn) const {
    const std::vector<Turn> turns = turns_of(quilt_, block);
    return std::find(turns.begin(), turns.end(), turn) != turns.end();
  }

  const Quilt& quilt_;
  Problems problems_;
  bool prints_are_there_ = true;  ///< no part of the quilt names one that is not
};

}  // namespace

Problems problems_of(const Quilt& quilt) { return Checks(quilt).run(); }

}  // namespace farflung::quilt
