#include "job/edit.hpp"

#include <algorithm>
#include <optional>
#include <set>

#include "base/counted.hpp"
#include "choice/role.hpp"
#include "cloth/narrow.hpp"
#include "cloth/yields.hpp"
#include "draw/top.hpp"
#include "job/cloth_short.hpp"
#include "job/drop.hpp"
#include "job/laid.hpp"
#include "job/open_quilt.hpp"
#include "job/print_ids.hpp"
#include "job/reckoning.hpp"
#include "job/reshape.hpp"
#include "makeup/deal.hpp"
#include "project/at_work.hpp"
#include "swap/by_hand.hpp"

namespace farflung::job {
namespace {

using project::Document;

/// A document with a change made to it, not yet saved.
struct Changed {
  Document document;
  std::string words;  ///< one sentence
  Report report;      ///< what it says beside the words
};

Report place_of(const setting::Plan& plan, int cell) { return {plan.cells[cell].row, plan.cells[cell].column}; }

Problem kept_cell(const setting::Plan& plan, int cell) {
  return input_problem(cell_name(plan.cells[cell]), "its block is kept in place", "free it first: farflung free");
}

Problem nothing_to_keep(const setting::Cell& cell) {
  return input_problem(cell_name(cell), "the cell is empty, there is no block to keep", "lay a block there first");
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

/// Everything that could be wrong with a block's new place, as problems that name the cell.
Result<Changed> if_well(Changed changed) {
  Problems wrong = quilt::problems_of(changed.document.quilt);
  if (!wrong.empty()) return wrong;
  return changed;
}

/// A cell that is sewn to others stays kept in either case: what hands may do with the whole of it is told apart.
void keep_or_free(quilt::Quilt& quilt, int cell, bool kept) {
  quilt.layout.kept[cell] = kept || swap::is_sewn_to_others(quilt, cell);
  for (quilt::SewnUnit& unit : quilt.sewn_units) {
    std::erase(unit.kept_by_hand, cell);
    const bool here = std::find(unit.cells.begin(), unit.cells.end(), cell) != unit.cells.end();
    if (kept && here) unit.kept_by_hand.push_back(cell);
  }
}

Result<Changed> marked(Document document, const Edit& edit, bool kept) {
  const setting::Plan plan = quilt::plan_of(document.quilt);
  Result<std::vector<int>> cells = cells_named(edit.cells, plan);
  if (!cells) return cells.problems();
  Report report;
  report["kept"] = kept;
  report["cells"] = Report::array();
  std::string words = kept ? "Kept in place:" : "Free to move:";
  for (int cell : *cells) {
    if (kept && document.quilt.layout.block[cell] == quilt::kNone) {
      return nothing_to_keep(plan.cells[cell]);
    }
    keep_or_free(document.quilt, cell, kept);
    report["cells"].push_back(place_of(plan, cell));
    words += " " + cell_name(plan.cells[cell]) + (cell == cells->back() ? "." : ",");
  }
  if (!kept && std::any_of(cells->begin(), cells->end(),
                           [&](int cell) { return swap::is_sewn_to_others(document.quilt, cell); })) {
    words += " What is sewn moves whole.";
  }
  return Changed{std::move(document), words, report};
}

/// Cells of sewn units, the units as they were, that hold something else now.
Problems torn_by_hand(const quilt::Quilt& before, const quilt::Quilt& after) {
  Problems problems;
  if (before.layout.block.size() != after.layout.block.size()) return problems;
  const setting::Plan plan = quilt::plan_of(after);
  for (std::size_t i = 0; i < std::min(before.sewn_units.size(), after.sewn_units.size()); ++i) {
    if (before.sewn_units[i].cells != after.sewn_units[i].cells) continue;
    for (const int cell : after.sewn_units[i].cells) {
      const bool same =
          before.layout.block[cell] == after.layout.block[cell] && before.layout.turn[cell] == after.layout.turn[cell];
      if (same) continue;
      problems.push_back(input_problem(cell_name(plan.cells[cell]), "its block is sewn to others",
                                       "move all of them: farflung swap, or take the stage out of /layout/sewn"));
    }
  }
  return problems;
}

/// Only blocks are kept: a problem for each place that a change keeps and that is empty; a place that it empties is
/// free then.
Problems keep_blocks_alone(const quilt::Quilt& before, quilt::Quilt& after) {
  Problems problems;
  if (before.layout == after.layout) return problems;
  const setting::Plan plan = quilt::plan_of(after);
  const auto& was_kept = before.layout.kept;
  for (std::size_t c = 0; c < after.layout.kept.size(); ++c) {
    if (!after.layout.kept[c] || after.layout.block[c] != quilt::kNone) continue;
    const bool was_so = was_kept.size() == after.layout.kept.size() && was_kept[c];
    if (!was_so) problems.push_back(nothing_to_keep(plan.cells[c]));
    after.layout.kept[c] = false;
  }
  return problems;
}

/// The units that a value of /units names.
std::optional<quilt::Units> units_typed(const std::string& value) {
  for (const auto units : {quilt::Units::inches, quilt::Units::centimetres, quilt::Units::millimetres}) {
    const std::string name = quilt::unit_name(units);
    if (value == name || value == text_of(Report(name))) return units;
  }
  return std::nullopt;
}

/// The file's lengths in other units: every one is as long as before.
Changed measured_in(Document document, quilt::Units units, const Edit& edit) {
  document.quilt.units = units;
  Report report;
  report["pointer"] = edit.pointer;
  const std::string size = draw::finished_size(document.quilt, quilt::plan_of(document.quilt));
  return {std::move(document),
          std::string("Lengths are in ") + quilt::unit_name(units) + " now; the top measures as before: " + size + ".",
          report};
}

std::set<std::string> block_ids(const quilt::Quilt& quilt, const std::vector<int>& blocks) {
  std::set<std::string> ids;
  for (const int block : blocks) {
    if (block != quilt::kNone) ids.insert(quilt.blocks[block].id);
  }
  return ids;
}

/// " 12 blocks have no place any more, spares now: B043 ...": of those that lay somewhere, what became of the ones that
/// do not now.
std::string lost_places(const quilt::Quilt& before, const quilt::Quilt& after) {
  constexpr std::size_t kNamed = 12;
  const std::set<std::string> lies = block_ids(after, after.layout.block),
                              spare = block_ids(after, quilt::spares(after));
  std::string named, words;
  std::size_t spares = 0, gone = 0;
  for (const std::string& id : block_ids(before, before.layout.block)) {
    if (lies.count(id) > 0) continue;
    if (spare.count(id) == 0) {
      ++gone;
    } else if (++spares <= kNamed) {
      named += " " + id;
    }
  }
  if (spares > 0) {
    words += " " + counted(spares, "block has", "blocks have") + " no place any more, " +
             (spares == 1 ? "a spare" : "spares") + " now:" + named + (spares > kNamed ? " ..." : "") + ".";
  }
  if (gone > 0) words += " " + counted(gone, "unsewn block", "unsewn blocks") + " found no place and went.";
  return words;
}

std::size_t empty_places(const quilt::Quilt& quilt) {
  return static_cast<std::size_t>(std::count(quilt.layout.block.begin(), quilt.layout.block.end(), quilt::kNone));
}

std::size_t kept_places(const quilt::Quilt& quilt) {
  return static_cast<std::size_t>(std::count(quilt.layout.kept.begin(), quilt.layout.kept.end(), true));
}

/// What a change of the setting did to the top's size, its blocks and its places, each in a sentence after a space; ""
/// where it did nothing.
std::string what_followed(const quilt::Quilt& before, const quilt::Quilt& after) {
  const std::string size = draw::finished_size(after, quilt::plan_of(after));
  std::string words;
  if (size != draw::finished_size(before, quilt::plan_of(before))) words += " The top is " + size + " finished now.";
  words += lost_places(before, after);
  if (const std::size_t empty = empty_places(after); empty > empty_places(before)) {
    words += " " + counted(empty, "place is", "places are") + " empty.";
  }
  if (const std::size_t open = blocks_to_deal(after); open > blocks_to_deal(before)) {
    words += " " + counted(open, "block waits", "blocks wait") + " to be dealt prints: arrange does that.";
  }
  if (const std::size_t had = kept_places(before), has = kept_places(after); has < had) {
    words += " " + counted(had - has, "place that was kept is", "places that were kept are") + " gone.";
  }
  return words;
}

Result<Changed> valued(const Document& document, const Edit& edit) {
  if (const auto units = units_typed(edit.value); edit.pointer == "/units" && units) {
    return measured_in(document, *units, edit);
  }
  const std::string value = with_print_ids(document.quilt, edit.pointer, edit.value);
  Result<Document> changed = project::set(document, edit.pointer, value, project::NewKeys::refused);
  if (!changed) return changed.problems();
  const Problems torn = torn_by_hand(document.quilt, changed->quilt);
  if (!torn.empty()) return torn;
  const Problems nothing_kept = keep_blocks_alone(document.quilt, changed->quilt);
  if (!nothing_kept.empty()) return nothing_kept;
  Report report;
  report["pointer"] = edit.pointer;
  std::string words = "Set " + edit.pointer + " to " + (value.empty() ? "an empty text" : value) + ".";
  if (edit.pointer.rfind("/setting", 0) == 0) words += what_followed(document.quilt, changed->quilt);
  return Changed{std::move(*changed), std::move(words), report};
}

Result<Changed> swapped(Document document, const Edit& edit) {
  const setting::Plan plan = quilt::plan_of(document.quilt);
  Result<std::vector<int>> cells = cells_named(edit.cells, plan);
  if (!cells) return cells.problems();
  if (cells->size() != 2) {
    return input_problem(edit.cells.empty() ? "swap" : edit.cells.front(), "a swap takes two cells",
                         "name another cell to swap with");
  }
  const int first = cells->front();
  const int second = cells->back();
  const Result<swap::Step> step = swap::exchange(document.quilt, first, second);
  if (!step) return step.problems();
  swap::carry_out(*step, document.quilt);
  Report report;
  report["a"] = place_of(plan, first);
  report["b"] = place_of(plan, second);
  std::string words = "Swapped " + cell_name(plan.cells[first]) + " with " + cell_name(plan.cells[second]);
  if (!step->whole.empty()) {
    words += ", and with them what they are sewn to: " + counted(step->whole.size(), "block", "blocks") + " in all";
  }
  return if_well({std::move(document), words + ".", report});
}

/// The next turn after `now`, clockwise, that the pattern allows.
Turn next_turn(const block::Pattern& pattern, Turn now) {
  for (int quarters = 1; quarters < Turn::kCount; ++quarters) {
    const Turn next = now + Turn::quarters(quarters);
    if (pattern.allows(next)) return next;
  }
  return now;
}

Result<Changed> turned_whole(Document document, int cell, int quarters) {
  const std::string place = cell_name(quilt::plan_of(document.quilt).cells[cell]);
  if (quarters % 4 != 0 && quarters % 4 != 2) {
    return input_problem(place, "its block is sewn to others, which turn half round only", "give two quarters");
  }
  const Result<swap::Step> step = swap::half_round(document.quilt, cell);
  if (!step) return step.problems();
  swap::carry_out(*step, document.quilt);
  Report report;
  report["cell"] = place_of(quilt::plan_of(document.quilt), cell);
  report["turn"] = document.quilt.layout.turn[cell].quarters();
  return if_well({std::move(document), "Turned what is sewn at " + place + " half round.", report});
}

Result<Changed> turned(Document document, const Edit& edit) {
  const setting::Plan plan = quilt::plan_of(document.quilt);
  if (edit.cells.size() != 1) return input_problem("turn", "a turn takes one cell", "name it, such as R2C5");
  Result<int> cell = cell_named(edit.cells.front(), plan);
  if (!cell) return cell.problems();

  quilt::Quilt& quilt = document.quilt;
  const int block = quilt.layout.block[*cell];
  const std::string place = cell_name(plan.cells[*cell]);
  if (block == quilt::kNone) return input_problem(place, "the cell is empty", "name a cell that holds a block");
  if (swap::is_sewn_to_others(quilt, *cell)) return turned_whole(std::move(document), *cell, edit.quarters);
  if (quilt.layout.kept[*cell]) return kept_cell(plan, *cell);
  const block::Pattern& pattern = quilt.patterns[quilt.blocks[block].pattern];
  const Turn now = quilt.layout.turn[*cell];
  const Turn next = edit.quarters == 0 ? next_turn(pattern, now) : now + Turn::quarters(edit.quarters);
  if (next == now) {
    return input_problem(place, "pattern " + pattern.name + " lies one way only", "there is nothing to turn");
  }
  quilt.layout.turn[*cell] = next;
  Report report;
  report["cell"] = place_of(plan, *cell);
  report["turn"] = next.quarters();
  const std::string lies = next.quarters() == 0
                               ? "as its pattern is drawn"
                               : counted(next.quarters(), "quarter", "quarters") + " clockwise of its pattern";
  return if_well({std::move(document), "Turned " + place + ": it lies " + lies + " now.", report});
}

Result<Changed> laid_again(const Document& document, const Edit& edit, const std::string& folder) {
  Result<Document> with = laid(document, folder, edit.value);
  if (!with) return with.problems();
  return Changed{std::move(*with), "Laid as " + edit.value + ".", Report::object()};
}

/// A print takes a part of the quilt, as job/candidates.hpp tries it.
Result<Changed> used(Document document, const Edit& edit) {
  const std::optional<choice::Role> role = choice::role_named(edit.pointer);
  if (!role) return input_problem(edit.pointer, "the quilt has no such part", "name border, binding, backing ...");
  for (const choice::Candidate& candidate : choice::own_candidates(document.quilt)) {
    if (candidate.print.id != edit.value) continue;
    Result<quilt::Quilt> with = choice::tried(document.quilt, *role, candidate);
    if (!with) return with.problems();
    document.quilt = std::move(*with);
    return if_well({std::move(document), candidate.print.name + " for the " + edit.pointer + ".", Report::object()});
  }
  return input_problem(edit.value, "there is no such print", "name one of the quilt's own");
}

/// The chosen prints, and no others, are dealt to the blocks that are neither sewn nor kept.
Result<Changed> taken(Document document, const Edit& edit) {
  const Report ids = Report::parse(edit.value, nullptr, false);
  if (!ids.is_array() || ids.empty()) return input_problem("prints", "no prints are named", "name the ids of some");
  makeup::Options how;
  for (const Report& id : ids) {
    const int print = id.is_string() ? document.quilt.print_with_id(id.get<std::string>()) : quilt::kNone;
    if (print == quilt::kNone)
      return input_problem(text_of(id), "there is no such print", "name the quilt's own by id");
    how.prints.push_back(print);
  }
  Result<std::vector<block::Block>> dealt = makeup::deal(document.quilt, how);
  if (!dealt) return dealt.problems();
  document.quilt.blocks = std::move(*dealt);
  return if_well({std::move(document), "Took " + counted(how.prints.size(), "print", "prints") + " for the blocks.",
                  Report::object()});
}

/// Prints leave the quilt; the blocks that held them wait to be dealt.
Result<Changed> dropped(Document document, const Edit& edit) {
  const Report list = Report::parse(edit.value, nullptr, false);
  std::vector<std::string> names;
  for (const Report& name : list.is_array() ? list : Report::array()) {
    if (name.is_string()) names.push_back(name.get<std::string>());
  }
  const std::size_t before = document.quilt.prints.size();
  Result<quilt::Quilt> with = without_prints(document.quilt, names);
  if (!with) return with.problems();
  document.quilt = std::move(*with);
  std::string words = "Took " + counted(before - document.quilt.prints.size(), "print", "prints") + " out.";
  const std::size_t open = blocks_to_deal(document.quilt);
  Report report;
  report["to_deal"] = open;
  if (open > 0) words += " " + counted(open, "block waits", "blocks wait") + " to be dealt prints: arrange does that.";
  return if_well({std::move(document), words, report});
}

Result<Changed> reshaped_to(const Document& document, const Edit& edit) {
  Result<Document> with = reshaped(document, edit.value);
  if (!with) return with.problems();
  const Problems torn = torn_by_hand(document.quilt, with->quilt);
  if (!torn.empty()) return torn;
  return Changed{*with, shape_words(with->quilt) + what_followed(document.quilt, with->quilt), Report::object()};
}

Result<Changed> changed_by(const Document& document, const Edit& edit, const std::string& folder) {
  if (edit.does == "swap") return swapped(document, edit);
  if (edit.does == "turn") return turned(document, edit);
  if (edit.does == "keep") return marked(document, edit, true);
  if (edit.does == "free") return marked(document, edit, false);
  if (edit.does == "set") return valued(document, edit);
  if (edit.does == "use") return used(document, edit);
  if (edit.does == "take") return taken(document, edit);
  if (edit.does == "drop") return dropped(document, edit);
  if (edit.does == "reshape") return reshaped_to(document, edit);
  if (edit.does == "lay") return laid_again(document, edit, folder);
  return input_problem(edit.does, "there is no such change by hand",
                       "swap, turn, keep, free, set, use, take, drop, lay, reshape, undo or redo");
}

/// The change, and where it leaves a patch narrower than its seam allowance, or, cutting the quilt otherwise or telling
/// of other cloth in hand, prints short of cloth, that.
Result<Changed> changed_in_sight_of_cloth(const Document& document, const Edit& edit, const std::string& folder) {
  Result<Changed> changed = changed_by(document, edit, folder);
  static const std::set<std::string> kOnlyMove = {"swap", "turn", "keep", "free", "lay"};
  if (!changed || kOnlyMove.count(edit.does) > 0 || !problems_of_top(changed->document.quilt).empty()) return changed;
  const std::string narrow = cloth::narrow_said(changed->document.quilt);
  if (!narrow.empty() && narrow != cloth::narrow_said(document.quilt)) changed->words += " " + narrow;
  const std::vector<int> prints = cloth::newly_short(document.quilt, changed->document.quilt);
  if (prints.empty()) return changed;
  changed->words += " " + short_words(changed->document.quilt, prints);
  changed->report["short"] = Report::array();
  for (const int print : prints) changed->report["short"].push_back(changed->document.quilt.prints[print].id);
  return changed;
}

/// One change by the command line, on whatever is there.
Outcome by_hand(const std::string& folder, const Edit& edit, bool dry_run) {
  Result<Document> document = project::read(folder);
  if (!document) return document.problems();
  Result<Changed> changed = changed_in_sight_of_cloth(*document, edit, folder);
  if (!changed) return changed.problems();
  const Result<Done> written = dry_run ? Done{} : project::write(folder, changed->document);
  if (!written) return written.problems();
  Report report = new_report();
  report.update(changed->report);
  report["says"] = changed->words;
  return Answer{changed->words + "\n" + tried_words(dry_run), text_of(report), {}, true};
}

Outcome walked(const std::string& folder, const Result<Document>& step, std::string words) {
  if (!step) return step.problems();
  const Result<project::History> history = project::history(folder);
  if (!history) return history.problems();
  words += " " + counted(history->before, "step can", "steps can") + " be undone from here, " +
           std::to_string(history->after) + " redone.";
  Report report = new_report();
  report["says"] = words;
  return Answer{words + "\n", text_of(report), {}, true};
}

constexpr const char* kUndone = "Back at the version before.";
constexpr const char* kRedone = "On at the version after.";

/// Undo or redo, where it is the one thing asked for; it takes the quilt's hold by itself.
Outcome step_in_history(const Edits& edits, Reckoning& reckoning) {
  const bool back = edits.edits.front().does == "undo";
  if (!edits.version.empty()) {
    const Result<std::string> present = version_of(edits.folder);
    if (!present) return present.problems();
    if (*present != edits.version) return changed_since();
  }
  const Result<Document> document = back ? project::undo(edits.folder) : project::redo(edits.folder);
  if (!document) return document.problems();
  return standing_report(edits.folder, *document, reckoning, back ? kUndone : kRedone);
}

}  // namespace

Outcome set_value(const std::string& folder, const std::string& pointer, const std::string& value, bool dry_run) {
  return by_hand(folder, {"set", {}, 0, pointer, value}, dry_run);
}

Outcome swap_cells(const std::string& folder, const std::string& a, const std::string& b, bool dry_run) {
  return by_hand(folder, {"swap", {a, b}, 0, "", ""}, dry_run);
}

Outcome turn_cell(const std::string& folder, const std::string& cell, int quarters, bool dry_run) {
  return by_hand(folder, {"turn", {cell}, quarters, "", ""}, dry_run);
}

Outcome keep_cells(const std::string& folder, const std::vector<std::string>& cells, bool dry_run) {
  return by_hand(folder, {"keep", cells, 0, "", ""}, dry_run);
}

Outcome free_cells(const std::string& folder, const std::vector<std::string>& cells, bool dry_run) {
  return by_hand(folder, {"free", cells, 0, "", ""}, dry_run);
}

Outcome drop_prints(const std::string& folder, const std::vector<std::string>& prints, bool dry_run) {
  return by_hand(folder, {"drop", {}, 0, "", text_of(Report(prints))}, dry_run);
}

Outcome undo(const std::string& folder) { return walked(folder, project::undo(folder), kUndone); }
Outcome redo(const std::string& folder) { return walked(folder, project::redo(folder), kRedone); }

void keep_version(const std::string& folder) { static_cast<void>(project::keep_present(folder).ok()); }

Outcome edit(const Edits& edits, Reckoning& reckoning) {
  if (edits.edits.empty()) return input_problem("edits", "nothing is to be changed", "name a change");
  const std::string& first = edits.edits.front().does;
  if (edits.edits.size() == 1 && (first == "undo" || first == "redo")) return step_in_history(edits, reckoning);
  const Result<project::Hold> held = project::hold(edits.folder, "a change by hand");
  if (!held) return held.problems();
  if (!edits.version.empty()) {
    const Result<std::string> present = version_of(edits.folder);
    if (!present) return present.problems();
    if (*present != edits.version) return changed_since();
  }
  Result<Document> document = reckoning.read(edits.folder);
  if (!document) return document.problems();
  std::string words;
  for (const Edit& one : edits.edits) {
    Result<Changed> changed = changed_in_sight_of_cloth(*document, one, edits.folder);
    if (!changed) return changed.problems();
    document = std::move(changed->document);
    words += (words.empty() ? "" : " ") + changed->words;
  }
  const Result<Done> written = project::write_first(*held, *document);
  if (!written) return written.problems();
  reckoning.keep(edits.folder, *document);
  return standing_report(edits.folder, *document, reckoning, words);
}

}  // namespace farflung::job
