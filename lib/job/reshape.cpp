#include "job/reshape.hpp"

#include <utility>

#include "base/counted.hpp"
#include "base/limits.hpp"
#include "project/new_quilt.hpp"
#include "project/patterns.hpp"

namespace farflung::job {
namespace {

Result<block::Pattern> pattern_in(const Report& wish) {
  if (wish.is_object()) return project::pattern_from_text(text_of(wish), "pattern");
  const std::string id = wish.is_string() ? wish.get<std::string>() : "";
  Result<std::vector<block::Pattern>> library = project::library_patterns();
  if (!library) return library.problems();
  for (block::Pattern& pattern : *library) {
    if (pattern.id == id) return std::move(pattern);
  }
  return input_problem("pattern " + id, "no pattern of that name comes with the program");
}

/// A count of the wish, or what it is now; none where it is no count.
std::optional<int> count_in(const Report& wish, const char* key, int now) {
  if (!wish.contains(key)) return now;
  const Report& count = wish[key];
  if (!count.is_number_integer() || count < 1 || count > limits::kCells) return std::nullopt;
  return count.get<int>();
}

}  // namespace

Result<project::Document> reshaped(const project::Document& document, const std::string& text) {
  const Report wish = Report::parse(text, nullptr, false);
  if (!wish.is_object()) return input_problem("reshape", "this is no wish", "name a pattern, rows or columns");
  project::Document changed = document;
  quilt::Quilt& quilt = changed.quilt;
  const auto rows = count_in(wish, "rows", quilt.setting.rows);
  const auto columns = count_in(wish, "columns", quilt.setting.columns);
  if (!rows || !columns || std::int64_t{*rows} * *columns > limits::kCells) {
    return input_problem("rows, columns", "these are no counts of blocks", "give whole numbers of 1 and more");
  }
  project::NewQuilt wanted;
  wanted.patterns = quilt.patterns;
  if (wish.contains("pattern")) {
    Result<block::Pattern> pattern = pattern_in(wish["pattern"]);
    if (!pattern) return pattern.problems();
    wanted.block = quilt.patterns.front().width;
    const double factor = wanted.block->inches() / pattern->width.inches();
    quilt.patterns = {block::scaled(*pattern, *wanted.block, Length::inches(pattern->height.inches() * factor))};
    wanted.patterns = quilt.patterns;
    quilt.setting.alternate = {};
  }
  // What is made beside has no prints that its slots could name.
  for (block::Pattern& pattern : wanted.patterns) {
    for (block::Slot& slot : pattern.slots) slot.print = quilt::kNone;
  }
  quilt.setting.rows = *rows;
  quilt.setting.columns = *columns;
  wanted.kind = quilt.setting.kind;
  if (quilt.setting.sashing) wanted.sashing = quilt.setting.sashing->width;
  for (const setting::Border& border : quilt.setting.borders) wanted.borders.push_back(border.width);
  // The finished size of just these rows and columns, so that just these come out.
  quilt.blocks.clear();
  quilt.layout = setting::empty_arrangement(quilt.setting);
  const setting::Plan plan = quilt::plan_of(quilt);
  wanted.width = plan.width;
  wanted.height = plan.height;
  Result<quilt::Quilt> made = project::new_quilt(wanted);
  if (!made) return made.problems();
  if (made->setting.rows != *rows || made->setting.columns != *columns) {
    return input_problem("rows, columns", "no quilt of these rows and columns could be made");
  }
  quilt.blocks = std::move(made->blocks);
  quilt.layout = std::move(made->layout);
  quilt.sewn_units.clear();
  if (Problems problems = quilt::problems_of(quilt); !problems.empty()) return problems;
  return changed;
}

std::string shape_words(const quilt::Quilt& quilt) {
  return quilt.patterns.front().name + ", " + counted(quilt.setting.rows, "row", "rows") + " of " +
         std::to_string(quilt.setting.columns) + ".";
}

}  // namespace farflung::job
