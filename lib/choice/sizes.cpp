#include "choice/sizes.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

#include "base/counted.hpp"
#include "choice/role.hpp"
#include "choice/words.hpp"
#include "setting/frame.hpp"

namespace farflung::choice {
namespace {

constexpr int kMostRows = 200;

Length absolute(Length length) { return length < Length() ? Length() - length : length; }

int pattern_that_sizes(const quilt::Quilt& quilt) {
  if (!quilt.setting.alternate.empty() && !quilt.setting.alternate.front().empty()) {
    return quilt.setting.alternate.front().front();
  }
  return quilt.blocks.empty() ? 0 : quilt.blocks.front().pattern;
}

/// The finished size, borders included, of the quilt's setting with so many rows and columns.
Point finished(const quilt::Quilt& quilt, int rows, int columns) {
  setting::Setting setting = quilt.setting;
  setting.rows = rows;
  setting.columns = columns;
  const block::Pattern& pattern = quilt.patterns[pattern_that_sizes(quilt)];
  const setting::Lattice lattice(setting, pattern.width, pattern.height);
  Point size{lattice.width(), lattice.height()};
  for (const setting::Border& border : setting.borders) size = size + Point{2 * border.width, 2 * border.width};
  return size;
}

/// `side(n)` grows evenly with n: the n from `least` up whose side is nearest to `wanted`, of equals the larger.
template <typename Side>
int nearest_count(Length wanted, int least, Side side) {
  const double step = (side(2) - side(1)).inches();
  const double guess = std::clamp(1 + (wanted - side(1)).inches() / step, 1.0, static_cast<double>(kMostRows));
  int best = least;
  for (int n = std::max(least, static_cast<int>(guess) - 1); n <= std::min(kMostRows, static_cast<int>(guess) + 2);
       ++n) {
    if (absolute(side(n) - wanted) <= absolute(side(best) - wanted)) best = n;
  }
  return best;
}

/// How many cells each pattern has: as they alternate, else as the blocks there are, else evenly.
std::vector<int> blocks_by_pattern(const quilt::Quilt& quilt, const setting::Setting& setting) {
  const std::vector<int> rows = setting::cells_in_rows(setting);
  std::vector<int> counts(quilt.patterns.size(), 0);
  if (!setting.alternate.empty()) {
    for (std::size_t r = 0; r < rows.size(); ++r) {
      const auto& tile = setting.alternate[r % setting.alternate.size()];
      for (int c = 0; c < rows[r]; ++c) ++counts[tile[c % tile.size()]];
    }
    return counts;
  }
  std::vector<int> weights(quilt.patterns.size(), quilt.blocks.empty() ? 1 : 0);
  for (const block::Block& block : quilt.blocks) ++weights[block.pattern];
  const int whole = std::accumulate(weights.begin(), weights.end(), 0);
  int left = std::accumulate(rows.begin(), rows.end(), 0), weight_left = whole;
  for (std::size_t p = 0; p < counts.size(); ++p) {
    counts[p] =
        weight_left > 0 ? static_cast<int>(std::lround(static_cast<double>(left) * weights[p] / weight_left)) : 0;
    left -= counts[p];
    weight_left -= weights[p];
  }
  return counts;
}

/// Width and height of the box round it, seam allowances added, multiplied.
double cut_area(const Polygon& polygon, Length allowance) {
  const auto [left, right] =
      std::minmax_element(polygon.begin(), polygon.end(), [](const Point& a, const Point& b) { return a.x < b.x; });
  const auto [top, bottom] =
      std::minmax_element(polygon.begin(), polygon.end(), [](const Point& a, const Point& b) { return a.y < b.y; });
  return (right->x - left->x + 2 * allowance).inches() * (bottom->y - top->y + 2 * allowance).inches();
}

std::vector<SlotPieces> pieces_of(const quilt::Quilt& quilt, const std::vector<int>& blocks) {
  std::vector<SlotPieces> pieces;
  for (std::size_t p = 0; p < blocks.size(); ++p) {
    if (blocks[p] == 0) continue;
    const block::Pattern& pattern = quilt.patterns[p];
    for (std::size_t slot = 0; slot < pattern.slots.size(); ++slot) {
      SlotPieces of_slot{static_cast<int>(p), static_cast<int>(slot), 0, blocks[p], 0, 0};
      for (const block::Patch& patch : pattern.patches) {
        if (patch.slot != static_cast<int>(slot)) continue;
        ++of_slot.per_block;
        of_slot.cut_area += blocks[p] * cut_area(patch.polygon, quilt.seam_allowance);
      }
      of_slot.pieces = of_slot.per_block * blocks[p];
      pieces.push_back(of_slot);
    }
  }
  return pieces;
}

bool is_dealt(const block::Slot& slot) { return slot.print == kNone; }

/// The prints that blocks are dealt from: those that no frame piece and no slot of its own holds.
std::vector<int> dealt_prints(const quilt::Quilt& quilt) {
  std::set<int> held;
  if (quilt.setting.sashing) held.insert({quilt.setting.sashing->print, quilt.setting.sashing->cornerstone});
  held.insert(quilt.setting.filler);
  for (const setting::Border& border : quilt.setting.borders) held.insert({border.print, border.cornerstone});
  if (quilt.binding) held.insert(quilt.binding->print);
  if (quilt.backing) held.insert(quilt.backing->print);
  for (const block::Pattern& pattern : quilt.patterns) {
    for (const block::Slot& slot : pattern.slots) held.insert(slot.print);
  }
  for (const block::Block& block : quilt.blocks) {
    for (std::size_t slot = 0; slot < block.prints.size(); ++slot) {
      if (is_dealt(quilt.patterns[block.pattern].slots[slot])) held.erase(block.prints[slot]);
    }
  }
  std::vector<int> prints;
  for (int i = 0; i < static_cast<int>(quilt.prints.size()); ++i) {
    if (!held.contains(i)) prints.push_back(i);
  }
  return prints;
}

std::string off_words(Length by, const char* more, const char* less, quilt::Units units) {
  return length_words(absolute(by), units) + " " + (by < Length() ? less : more);
}

std::string in_words(const SizeReport& report, quilt::Units units) {
  std::string text = counted(report.rows, "row") + " of " + std::to_string(report.columns) + " make " +
                     length_words(report.width, units) + " x " + length_words(report.height, units) + ": ";
  const std::string name = report.wanted.name.empty() ? "" : report.wanted.name + ", ";
  const std::string wanted =
      name + length_words(report.wanted.width, units) + " x " + length_words(report.wanted.height, units);
  std::vector<std::string> off;
  if (report.wider != Length()) off.push_back(off_words(report.wider, "wider", "narrower", units));
  if (report.taller != Length()) off.push_back(off_words(report.taller, "longer", "shorter", units));
  return text + (off.empty() ? "exactly " + wanted : listed(off) + " than " + wanted);
}

block::Block new_block(const quilt::Quilt& quilt, int pattern, const std::vector<int>& prints, int& next_print) {
  block::Block block;
  block.pattern = pattern;
  for (const block::Slot& slot : quilt.patterns[pattern].slots) {
    const bool deal = is_dealt(slot) && !prints.empty();
    block.prints.push_back(deal ? prints[next_print++ % prints.size()] : slot.print);
  }
  return block;
}

}  // namespace

Result<SizeReport> nearest_size(const quilt::Quilt& quilt, const WantedSize& wanted) {
  if (quilt.patterns.empty()) return input_problem("/patterns", "the quilt has no pattern", "add one first");
  const block::Pattern& pattern = quilt.patterns[pattern_that_sizes(quilt)];
  if (pattern.width <= Length() || pattern.height <= Length()) {
    return input_problem("/patterns", "the block has no size", "give it a width and a height above zero");
  }
  if (wanted.width <= Length() || wanted.height <= Length()) {
    return input_problem("--size", "a quilt's width and height are above zero", "give a size such as 60x72");
  }
  SizeReport report;
  report.wanted = wanted;
  const bool brick = quilt.setting.kind == setting::Setting::Kind::brick;
  report.columns = nearest_count(wanted.width, brick ? 2 : 1, [&](int n) { return finished(quilt, 1, n).x; });
  report.rows = nearest_count(wanted.height, 1, [&](int n) { return finished(quilt, n, report.columns).y; });
  const Point size = finished(quilt, report.rows, report.columns);
  report.width = size.x;
  report.height = size.y;
  report.wider = size.x - wanted.width;
  report.taller = size.y - wanted.height;

  setting::Setting setting = quilt.setting;
  setting.rows = report.rows;
  setting.columns = report.columns;
  const std::vector<int> blocks = blocks_by_pattern(quilt, setting);
  report.blocks = std::accumulate(blocks.begin(), blocks.end(), 0);
  report.pieces = pieces_of(quilt, blocks);
  for (const SlotPieces& pieces : report.pieces) {
    if (is_dealt(quilt.patterns[pieces.pattern].slots[pieces.slot])) report.dealt_slots += pieces.blocks;
  }
  const auto in_hand = static_cast<double>(dealt_prints(quilt).size());
  report.uses_per_print = in_hand > 0 ? report.dealt_slots / in_hand : 0;
  report.says = in_words(report, quilt.units);
  return report;
}

Result<std::vector<SizeReport>> size_table(const quilt::Quilt& quilt, const std::vector<WantedSize>& wanted) {
  std::vector<SizeReport> table;
  table.reserve(wanted.size());
  for (const WantedSize& size : wanted) {
    const Result<SizeReport> report = nearest_size(quilt, size);
    if (!report) return report.problems();
    table.push_back(*report);
  }
  return table;
}

quilt::Quilt resized(const quilt::Quilt& quilt, int rows, int columns) {
  quilt::Quilt changed = quilt;
  changed.setting.rows = rows;
  changed.setting.columns = columns;
  changed.layout = setting::empty_arrangement(changed.setting);
  changed.blocks.clear();
  const std::vector<int> wanted = blocks_by_pattern(quilt, changed.setting);
  const std::vector<int> prints = dealt_prints(quilt);
  std::vector<std::vector<int>> made(quilt.patterns.size());
  int next_print = 0;
  for (std::size_t p = 0; p < wanted.size(); ++p) {
    std::vector<block::Block> models;
    for (const block::Block& block : quilt.blocks) {
      if (block.pattern == static_cast<int>(p)) models.push_back(block);
    }
    for (int i = 0; i < wanted[p]; ++i) {
      block::Block block =
          models.empty() ? new_block(quilt, static_cast<int>(p), prints, next_print) : models[i % models.size()];
      made[p].push_back(static_cast<int>(changed.blocks.size()));
      block.id = "B" + std::to_string(changed.blocks.size() + 1);
      block.sewn = false;
      changed.blocks.push_back(std::move(block));
    }
  }
  // Cells take the next block of the pattern that belongs there; where any may, of the one with most left.
  const setting::Plan plan = quilt::plan_of(changed);
  std::vector<std::size_t> used(made.size(), 0);
  for (std::size_t cell = 0; cell < plan.cells.size(); ++cell) {
    int pattern = plan.cells[cell].pattern;
    for (std::size_t p = 0; plan.cells[cell].pattern == kNone && p < made.size(); ++p) {
      if (pattern == kNone || made[p].size() - used[p] > made[pattern].size() - used[pattern]) {
        pattern = static_cast<int>(p);
      }
    }
    changed.layout.block[cell] = made[pattern][used[pattern]++];
    const auto& turns = changed.patterns[pattern].turns;
    changed.layout.turn[cell] = turns.empty() ? Turn() : turns.front();
  }
  return changed;
}

}  // namespace farflung::choice
