#include "project/new_quilt.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "base/limits.hpp"

namespace farflung::project {
namespace {

using setting::Setting;

Problems problems_of(const NewQuilt& wish) {
  Problems problems;
  const auto check = [&](bool right, const char* at, const char* cause, const char* remedy) {
    if (!right) problems.push_back(input_problem(at, cause, remedy));
  };
  const Length longest = Length::inches(limits::kLengthInches);
  check(!wish.patterns.empty(), "pattern", "a quilt has a pattern", "name one");
  check(wish.width > Length() && wish.height > Length(), "size", "a quilt has a size above 0", "write it as 60x72");
  check(wish.width <= longest && wish.height <= longest, "size", "too large", "make it a smaller quilt");
  check(!wish.block || *wish.block > Length(), "block", "a block has a size above 0", "write its finished width");
  check(!wish.sashing || *wish.sashing > Length(), "sashing", "sashing has a width above 0",
        "write its finished width");
  check(std::all_of(wish.borders.begin(), wish.borders.end(), [](Length border) { return border > Length(); }),
        "borders", "a border has a width above 0", "write its finished width");
  check(wish.borders.size() <= limits::kBorders, "borders", "too many borders", "use fewer");
  check(wish.spares >= 0, "spares", "a count is 0 or more", "write how many blocks more");
  return problems;
}

std::vector<block::Pattern> sized_patterns(const NewQuilt& wish) {
  std::vector<block::Pattern> patterns = wish.patterns;
  if (!wish.block) return patterns;
  for (block::Pattern& pattern : patterns) {
    const double factor = wish.block->inches() / pattern.width.inches();
    pattern = block::scaled(pattern, *wish.block, Length::inches(pattern.height.inches() * factor));
  }
  return patterns;
}

/// How many cells come nearest to `wished` inches; `sash` lies between them only.
std::int64_t nearest_count(double wished, double cell, double sash) {
  return std::max<std::int64_t>(1, std::llround((wished + sash) / (cell + sash)));
}

std::string block_id(std::size_t index, std::size_t count) {
  const std::size_t digits = std::max<std::size_t>(3, std::to_string(count).size());
  std::string number = std::to_string(index + 1);
  number.insert(0, digits - std::min(digits, number.size()), '0');
  return "B" + number;
}

/// Patterns 0, 1, 2 along the first row, 1, 2, 0 along the second and so on; on point, where a block lies against those
/// of the lists before and after its own, one pattern to a list.
std::vector<std::vector<int>> alternating(int patterns, Setting::Kind kind) {
  std::vector<std::vector<int>> rows(patterns, std::vector<int>(patterns));
  if (kind == Setting::Kind::on_point) {
    for (int r = 0; r < patterns; ++r) rows[r] = {r};
    return rows;
  }
  for (int r = 0; r < patterns; ++r) {
    for (int c = 0; c < patterns; ++c) rows[r][c] = (r + c) % patterns;
  }
  return rows;
}

Result<Setting> setting_for(const NewQuilt& wish, const std::vector<block::Pattern>& patterns) {
  Setting setting;
  setting.kind = wish.kind;
  double frame = 0;
  for (const Length border : wish.borders) {
    setting.borders.push_back({border});
    frame += 2 * border.inches();
  }
  if (wish.sashing) setting.sashing = setting::Sashing{*wish.sashing};
  const bool on_point = wish.kind == Setting::Kind::on_point;
  const double stretch = on_point ? std::numbers::sqrt2 : 1;
  const double sash = wish.sashing ? wish.sashing->inches() * stretch : 0;
  const auto columns = nearest_count(wish.width.inches() - frame, patterns[0].width.inches() * stretch, sash);
  const auto rows = nearest_count(wish.height.inches() - frame, patterns[0].height.inches() * stretch, sash);
  if ((on_point ? 2 : 1) * rows * columns > limits::kCells) {
    return input_problem("size", std::to_string(rows) + " rows of " + std::to_string(columns) + " blocks are too many",
                         "make it a smaller quilt, or use larger blocks");
  }
  setting.rows = static_cast<int>(rows);
  setting.columns = static_cast<int>(columns);
  if (patterns.size() > 1) setting.alternate = alternating(static_cast<int>(patterns.size()), wish.kind);
  return setting;
}

void make_blocks(quilt::Quilt& quilt, int spares) {
  const setting::Plan plan = quilt::plan_of(quilt);
  const std::size_t count = plan.cells.size() + static_cast<std::size_t>(spares);
  quilt.layout = setting::empty_arrangement(quilt.setting);
  for (std::size_t i = 0; i < count; ++i) {
    const int own = i < plan.cells.size() ? plan.cells[i].pattern : static_cast<int>(i % quilt.patterns.size());
    block::Block block;
    block.id = block_id(i, count);
    block.pattern = own == block::kNone ? 0 : own;
    block.prints.assign(quilt.patterns[block.pattern].slots.size(), block::kNone);
    block.cut_turn = quilt.patterns[block.pattern].turns.front();
    quilt.blocks.push_back(std::move(block));
    if (i >= plan.cells.size()) continue;
    quilt.layout.block[i] = static_cast<int>(i);
    quilt.layout.turn[i] = quilt.blocks[i].cut_turn;
  }
}

}  // namespace

Result<quilt::Quilt> new_quilt(const NewQuilt& wish) {
  if (Problems problems = problems_of(wish); !problems.empty()) return problems;
  quilt::Quilt quilt;
  quilt.title = wish.title;
  quilt.units = wish.units;
  quilt.patterns = sized_patterns(wish);
  Result<Setting> setting = setting_for(wish, quilt.patterns);
  if (!setting) return setting.problems();
  quilt.setting = std::move(*setting);
  if (static_cast<std::size_t>(wish.spares) > limits::kBlocks - static_cast<std::size_t>(limits::kCells)) {
    return input_problem("spares", "too many spare blocks", "ask for fewer");
  }
  for (const block::Pattern& pattern : quilt.patterns) {
    if (pattern.width == quilt.patterns[0].width && pattern.height == quilt.patterns[0].height) continue;
    return input_problem("pattern", "patterns " + quilt.patterns[0].id + " and " + pattern.id + " differ in size",
                         "give one block size for all");
  }
  make_blocks(quilt, wish.spares);
  if (Problems problems = quilt::problems_of(quilt); !problems.empty()) return problems;
  return quilt;
}

}  // namespace farflung::project
