#include "job/edit.hpp"

#include <algorithm>

#include "job/open_quilt.hpp"

namespace farflung::job {
namespace {

using project::Document;

/// The quilt is saved and the words said; `where` are the cells that changed.
Outcome saved(const std::string& folder, Document& document, const std::string& words, Report report) {
  Result<Done> written = project::write(folder, document);
  if (!written) return written.problems();
  report["says"] = words;
  return Answer{words + "\n", text_of(report), {}, true};
}

Report place_of(const setting::Plan& plan, int cell) { return {plan.cells[cell].row, plan.cells[cell].column}; }

/// Everything that could be wrong with a block's new place, as problems that name the cell.
Problems after_move(const Document& document) { return quilt::problems_of(document.quilt); }

Problem kept_cell(const setting::Plan& plan, int cell) {
  return input_problem(cell_name(plan.cells[cell]), "its block is kept in place", "free it first: farflung free");
}

/// The cells that are named, each once; a problem for each that is none.
Result<std::vector<int>> cells_named(const std::vector<std::string>& names, const setting::Plan& plan) {
  std::vector<int> cells;
  Problems problems;
  for (const std::string& name : names) {
    Result<int> cell = cell_named(name, plan);
    if (!cell) {
      add_problems(problems, cell);
    } else if (std::find(cells.begin(), cells.end(), *cell) == cells.end()) {
      cells.push_back(*cell);
    }
  }
  if (!problems.empty()) return problems;
  return cells;
}

Outcome mark_cells(const std::string& folder, const std::vector<std::string>& names, bool kept) {
  Result<Document> document = project::read(folder);
  if (!document) return document.problems();
  const setting::Plan plan = quilt::plan_of(document->quilt);
  Result<std::vector<int>> cells = cells_named(names, plan);
  if (!cells) return cells.problems();

  Report report = new_report();
  report["kept"] = kept;
  report["cells"] = Report::array();
  std::string words = kept ? "Kept in place:" : "Free to move:";
  for (int cell : *cells) {
    if (kept && document->quilt.layout.block[cell] == quilt::kNone) {
      return input_problem(cell_name(plan.cells[cell]), "the cell is empty, there is no block to keep",
                           "lay a block there first");
    }
    document->quilt.layout.kept[cell] = kept;
    report["cells"].push_back(place_of(plan, cell));
    words += " " + cell_name(plan.cells[cell]) + (cell == cells->back() ? "." : ",");
  }
  return saved(folder, *document, words, report);
}

/// The next turn after `now`, clockwise, that the pattern allows.
Turn next_turn(const block::Pattern& pattern, Turn now) {
  for (int quarters = 1; quarters < Turn::kCount; ++quarters) {
    const Turn next = now + Turn::quarters(quarters);
    if (pattern.allows(next)) return next;
  }
  return now;
}

Outcome walked(const Result<Document>& step, const std::string& words) {
  if (!step) return step.problems();
  Report report = new_report();
  report["says"] = words;
  return Answer{words + "\n", text_of(report), {}, true};
}

}  // namespace

Outcome set_value(const std::string& folder, const std::string& pointer, const std::string& value) {
  Result<Document> document = project::read(folder);
  if (!document) return document.problems();
  Result<Document> changed = project::set(*document, pointer, value);
  if (!changed) return changed.problems();
  Report report = new_report();
  report["pointer"] = pointer;
  return saved(folder, *changed, "Set " + pointer + " to " + value + ".", report);
}

Outcome swap_cells(const std::string& folder, const std::string& a, const std::string& b) {
  Result<Document> document = project::read(folder);
  if (!document) return document.problems();
  const setting::Plan plan = quilt::plan_of(document->quilt);
  Result<std::vector<int>> cells = cells_named({a, b}, plan);
  if (!cells) return cells.problems();
  if (cells->size() < 2) return input_problem(a, "a swap takes two cells", "name another cell to swap with");

  setting::Arrangement& layout = document->quilt.layout;
  const int first = cells->front();
  const int second = cells->back();
  for (int cell : *cells) {
    if (layout.kept[cell]) return kept_cell(plan, cell);
  }
  std::swap(layout.block[first], layout.block[second]);
  std::swap(layout.turn[first], layout.turn[second]);
  const Problems wrong = after_move(*document);
  if (!wrong.empty()) return wrong;

  Report report = new_report();
  report["a"] = place_of(plan, first);
  report["b"] = place_of(plan, second);
  return saved(folder, *document,
               "Swapped " + cell_name(plan.cells[first]) + " with " + cell_name(plan.cells[second]) + ".", report);
}

Outcome turn_cell(const std::string& folder, const std::string& name, int quarters) {
  Result<Document> document = project::read(folder);
  if (!document) return document.problems();
  const setting::Plan plan = quilt::plan_of(document->quilt);
  Result<int> cell = cell_named(name, plan);
  if (!cell) return cell.problems();

  quilt::Quilt& quilt = document->quilt;
  const int block = quilt.layout.block[*cell];
  const std::string place = cell_name(plan.cells[*cell]);
  if (block == quilt::kNone) return input_problem(place, "the cell is empty", "name a cell that holds a block");
  if (quilt.layout.kept[*cell]) return kept_cell(plan, *cell);
  const block::Pattern& pattern = quilt.patterns[quilt.blocks[block].pattern];
  const Turn now = quilt.layout.turn[*cell];
  const Turn next = quarters == 0 ? next_turn(pattern, now) : now + Turn::quarters(quarters);
  if (next == now) {
    return input_problem(place, "pattern " + pattern.name + " lies one way only", "there is nothing to turn");
  }
  quilt.layout.turn[*cell] = next;
  const Problems wrong = after_move(*document);
  if (!wrong.empty()) return wrong;

  Report report = new_report();
  report["cell"] = place_of(plan, *cell);
  report["turn"] = next.quarters();
  return saved(folder, *document,
               "Turned " + place + ": it lies " + counted(next.quarters(), "quarter", "quarters") + " clockwise now.",
               report);
}

Outcome keep_cells(const std::string& folder, const std::vector<std::string>& cells) {
  return mark_cells(folder, cells, true);
}

Outcome free_cells(const std::string& folder, const std::vector<std::string>& cells) {
  return mark_cells(folder, cells, false);
}

Outcome undo(const std::string& folder) { return walked(project::undo(folder), "Back at the version before."); }
Outcome redo(const std::string& folder) { return walked(project::redo(folder), "On at the version after."); }

}  // namespace farflung::job
