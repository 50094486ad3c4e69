#include "job/reshape.hpp"

#include <algorithm>
#include <utility>

#include "base/counted.hpp"
#include "base/limits.hpp"
#include "base/typed_name.hpp"
#include "choice/words.hpp"
#include "project/new_quilt.hpp"
#include "project/patterns.hpp"

namespace farflung::job {
namespace {

/// A pattern as a quilt's file says it, or the id of one that comes with the program or is the quilt's own.
Result<block::Pattern> pattern_in(const Report& wish, const std::vector<block::Pattern>& own) {
  if (wish.is_object()) return project::pattern_from_text(text_of(wish), "pattern");
  const std::string id = wish.is_string() ? wish.get<std::string>() : "";
  Result<std::vector<block::Pattern>> library = project::library_patterns();
  if (!library) return library.problems();
  library->insert(library->end(), own.begin(), own.end());
  for (block::Pattern& pattern : *library) {
    if (pattern.id == plain_name(id) || pattern.id == id) return std::move(pattern);
  }
  return input_problem("pattern " + id, "no pattern of that name comes with the program");
}

/// One pattern, or a list of those that take turns; all so wide as the quilt's are now.
Result<std::vector<block::Pattern>> patterns_in(const Report& wish, const quilt::Quilt& quilt) {
  const Report list = wish.is_array() ? wish : Report::array({wish});
  const Length width = quilt.patterns.front().width;
  std::vector<block::Pattern> patterns;
  for (const Report& one : list) {
    Result<block::Pattern> pattern = pattern_in(one, quilt.patterns);
    if (!pattern) return pattern.problems();
    const double factor = width.inches() / pattern->width.inches();
    patterns.push_back(block::scaled(*pattern, width, Length::inches(pattern->height.inches() * factor)));
  }
  if (patterns.empty()) return input_problem("pattern", "no pattern is named", "name one");
  return patterns;
}

/// A count of the wish, or what it is now; none where it is no count.
std::optional<int> count_in(const Report& wish, const char* key, int now) {
  if (!wish.contains(key)) return now;
  const Report& count = wish[key];
  if (!count.is_number_integer() || count < 1 || count > limits::kCells) return std::nullopt;
  return count.get<int>();
}

/// The number behind "B012"; 0 where there is none.
int number_of(const std::string& id) {
  const std::size_t digits = id.find_last_not_of("0123456789") + 1;
  return digits == id.size() || id.size() - digits > 6 ? 0 : std::stoi(id.substr(digits));
}

/// A block of this pattern that nothing is cut for yet, with an id of its own.
block::Block new_block(const quilt::Quilt& quilt, int pattern) {
  int last = 0;
  for (const block::Block& block : quilt.blocks) last = std::max(last, number_of(block.id));
  std::string number = std::to_string(last + 1);
  number.insert(0, 3 - std::min<std::size_t>(3, number.size()), '0');
  block::Block block;
  block.id = "B" + number;
  block.pattern = pattern;
  block.prints.assign(quilt.patterns[pattern].slots.size(), quilt::kNone);
  block.cut_turn = quilt.patterns[pattern].turns.front();
  return block;
}

/// Which blocks lie in a cell.
std::vector<bool> in_a_cell(const quilt::Quilt& quilt) {
  std::vector<bool> lies(quilt.blocks.size(), false);
  for (const int block : quilt.layout.block) {
    if (block != quilt::kNone) lies[block] = true;
  }
  return lies;
}

/// Blocks in the cells that a larger quilt has more: first those that lost their own, then new ones.
void fill_new_cells(quilt::Quilt& quilt, const setting::Plan& old_plan, std::vector<int>& homeless) {
  const setting::Plan plan = quilt::plan_of(quilt);
  for (std::size_t c = 0; c < plan.cells.size(); ++c) {
    const setting::Cell& cell = plan.cells[c];
    if (quilt.layout.block[c] != quilt::kNone || old_plan.cell_at(cell.row, cell.column) != quilt::kNone) continue;
    const int pattern = cell.pattern == quilt::kNone ? 0 : cell.pattern;
    const auto own = std::find_if(homeless.begin(), homeless.end(),
                                  [&](int block) { return quilt.blocks[block].pattern == pattern; });
    if (own == homeless.end()) {
      quilt.blocks.push_back(new_block(quilt, pattern));
      quilt.layout.block[c] = static_cast<int>(quilt.blocks.size()) - 1;
    } else {
      quilt.layout.block[c] = *own;
      homeless.erase(own);
    }
    quilt.layout.turn[c] = quilt.blocks[quilt.layout.block[c]].cut_turn;
  }
}

/// Takes blocks out of the quilt; those that are sewn stay, as spares.
void take_out(quilt::Quilt& quilt, const std::vector<int>& unused) {
  std::vector<int> now(quilt.blocks.size(), quilt::kNone);
  std::vector<block::Block> stay;
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    const bool goes = std::find(unused.begin(), unused.end(), static_cast<int>(b)) != unused.end();
    if (goes && !quilt.blocks[b].sewn) continue;
    now[b] = static_cast<int>(stay.size());
    stay.push_back(quilt.blocks[b]);
  }
  quilt.blocks = std::move(stay);
  for (int& block : quilt.layout.block) {
    if (block != quilt::kNone) block = now[block];
  }
}

/// Another kind of setting, where the wish names one.
Result<project::Document> set_as_wished(const project::Document& document, const Report& wish) {
  if (!wish.contains("kind")) return document;
  return project::set(document, "/setting/kind", text_of(wish["kind"]));
}

/// Other rows and columns of the same pattern, or another setting of it: what lies where there still is a place stays
/// there as it lies.
Result<project::Document> resized(const project::Document& document, int rows, int columns, const Report& wish) {
  const setting::Plan old_plan = quilt::plan_of(document.quilt);
  Result<project::Document> changed = project::set(document, "/setting/rows", std::to_string(rows));
  if (changed) changed = project::set(*changed, "/setting/columns", std::to_string(columns));
  if (changed) changed = set_as_wished(*changed, wish);
  if (!changed) return changed;
  quilt::Quilt& quilt = changed->quilt;
  const std::vector<bool> before = in_a_cell(document.quilt), after = in_a_cell(quilt);
  std::vector<int> homeless;
  for (std::size_t b = 0; b < before.size(); ++b) {
    if (before[b] && !after[b]) homeless.push_back(static_cast<int>(b));
  }
  fill_new_cells(quilt, old_plan, homeless);
  take_out(quilt, homeless);
  if (Problems problems = quilt::problems_of(quilt); !problems.empty()) return problems;
  return changed;
}

/// Every pattern so much larger or smaller that the first is as wide as wished; a test block measured another.
Result<project::Document> with_blocks_as_wished(project::Document document, const Report& wish) {
  if (!wish.contains("block")) return document;
  quilt::Quilt& quilt = document.quilt;
  const std::string typed = wish["block"].is_string() ? wish["block"].get<std::string>() : text_of(wish["block"]);
  const Result<Length> width = length_option("block", typed, quilt.units);
  if (!width) return width.problems();
  if (std::any_of(quilt.blocks.begin(), quilt.blocks.end(), [](const block::Block& block) { return block.sewn; })) {
    return input_problem("block", "blocks are sewn already, and as large as they are",
                         "begin another quilt of that size");
  }
  const double factor = width->inches() / quilt.patterns.front().width.inches();
  for (block::Pattern& pattern : quilt.patterns) {
    pattern = block::scaled(pattern, Length::inches(pattern.width.inches() * factor),
                            Length::inches(pattern.height.inches() * factor));
  }
  quilt.test_block.reset();
  if (Problems wrong = quilt::problems_of(quilt); !wrong.empty()) return wrong;
  return document;
}

/// Other patterns on the same prints: blocks and layout begin anew.
Result<project::Document> pieced_anew(project::Document changed, int rows, int columns, const Report& wish) {
  quilt::Quilt& quilt = changed.quilt;
  Result<std::vector<block::Pattern>> wished = patterns_in(wish, quilt);
  if (!wished) return wished.problems();
  project::NewQuilt wanted;
  wanted.patterns = quilt.patterns = std::move(*wished);
  quilt.setting.alternate = {};
  // What is made beside has no prints that its slots could name.
  for (block::Pattern& pattern : wanted.patterns) {
    for (block::Slot& slot : pattern.slots) slot.print = quilt::kNone;
  }
  quilt.setting.rows = rows;
  quilt.setting.columns = columns;
  wanted.kind = quilt.setting.kind;
  if (quilt.setting.sashing) wanted.sashing = quilt.setting.sashing->width;
  for (const setting::Border& border : quilt.setting.borders) wanted.borders.push_back(border.width);
  quilt.blocks.clear();
  quilt.layout = setting::empty_arrangement(quilt.setting);
  // The finished size of just these rows and columns, so that just these come out. What is made beside has no sashing
  // around it.
  quilt::Quilt within = quilt;
  if (within.setting.sashing) within.setting.sashing->outer = false;
  const setting::Plan plan = quilt::plan_of(within);
  wanted.width = plan.width;
  wanted.height = plan.height;
  Result<quilt::Quilt> made = project::new_quilt(wanted);
  if (!made) return made.problems();
  if (made->setting.rows != rows || made->setting.columns != columns) {
    return input_problem("rows, columns", "no quilt of these rows and columns could be made");
  }
  quilt.setting.alternate = std::move(made->setting.alternate);
  quilt.blocks = std::move(made->blocks);
  quilt.layout = std::move(made->layout);
  quilt.sewn_units.clear();
  if (Problems problems = quilt::problems_of(quilt); !problems.empty()) return problems;
  return changed;
}

}  // namespace

Result<project::Document> reshaped(const project::Document& document, const std::string& text) {
  const Report wish = Report::parse(text, nullptr, false);
  if (!wish.is_object())
    return input_problem("reshape", "this is no wish", "name a pattern, a setting, rows or columns");
  Result<project::Document> sized = with_blocks_as_wished(document, wish);
  if (!sized) return sized;
  project::Document changed = std::move(*sized);
  quilt::Quilt& quilt = changed.quilt;
  const auto rows = count_in(wish, "rows", quilt.setting.rows);
  const auto columns = count_in(wish, "columns", quilt.setting.columns);
  if (!rows || !columns || std::int64_t{*rows} * *columns > limits::kCells) {
    return input_problem("rows, columns", "these are no counts of blocks", "give whole numbers of 1 and more");
  }
  if (!wish.contains("pattern")) return resized(changed, *rows, *columns, wish);
  if (wish.contains("kind")) {
    Result<project::Document> set = set_as_wished(changed, wish);
    if (!set) return set;
    changed = std::move(*set);
  }
  return pieced_anew(std::move(changed), *rows, *columns, wish["pattern"]);
}

std::string shape_words(const quilt::Quilt& quilt) {
  std::vector<std::string> names;
  names.reserve(quilt.patterns.size());
  for (const block::Pattern& pattern : quilt.patterns) names.push_back(block::name_of(pattern));
  return choice::listed(names) + ", " + counted(quilt.setting.rows, "row", "rows") + " of " +
         std::to_string(quilt.setting.columns) + ".";
}

}  // namespace farflung::job
