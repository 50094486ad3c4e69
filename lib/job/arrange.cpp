#include "job/arrange.hpp"

#include <cstdio>

#include "arrange/arrange.hpp"
#include "job/drawn_json.hpp"
#include "job/explain.hpp"
#include "makeup/cuts.hpp"

namespace farflung::job {
namespace {

using Blocks = arrange::Options::Blocks;

/// Whether a block that may still be dealt lacks a print.
bool has_open_slots(const quilt::Quilt& quilt) {
  for (const block::Block& block : quilt.blocks) {
    for (std::size_t slot = 0; slot < block.prints.size(); ++slot) {
      if (print_of_slot(quilt, block, static_cast<int>(slot)) == quilt::kNone) return true;
    }
  }
  return false;
}

Blocks blocks_asked(const Arrange& options, const quilt::Quilt& quilt) {
  if (options.blocks == "open") return Blocks::open;
  if (options.blocks == "sewn") return Blocks::sewn;
  return has_open_slots(quilt) ? Blocks::open : Blocks::sewn;
}

Problems problems_of_wish(const Arrange& options, const quilt::Quilt& quilt) {
  if (quilt.prints.empty()) {
    return {input_problem(options.folder, "the quilt has no prints yet",
                          "take photographs of the fabrics in: farflung photo " + options.folder + " *.jpg")};
  }
  if (quilt.blocks.empty()) {
    return {input_problem(options.folder, "the quilt has no blocks", "make it with farflung new, or list its blocks")};
  }
  if (blocks_asked(options, quilt) == Blocks::sewn && has_open_slots(quilt)) {
    return {input_problem(options.folder, "some blocks lack a print, so that they cannot be taken as sewn",
                          "let arrange deal them: --blocks open")};
  }
  return {};
}

Report score_json(const score::Score& score) { return {{"touch", score.terms.touches}, {"F", score.F}}; }

std::string score_words(int touches, double F) {
  return counted(static_cast<std::size_t>(touches), "touch", "touches") + ", score " + short_number(F);
}

std::string score_words(const score::Score& score) { return score_words(score.terms.touches, score.F); }

/// Where nesting is asked for: how the seam ends meet now, and why not all of them nest where that is a rule.
void add_nesting(const arrange::Report& arranged, Answer& answer, Report& report) {
  const quilt::Quilt& quilt = arranged.quilt;
  if (quilt.goals.nest <= 0 && !quilt.goals.nest_rule) return;
  const score::Nesting nesting = score::nesting_of(quilt);
  const setting::Plan plan = quilt::plan_of(quilt);
  if (arranged.after.broken > 0) {
    answer.words += "Seam ends have to nest in this quilt, and " +
                    counted(static_cast<std::size_t>(arranged.after.broken), "does", "do") + " not.\n";
  }
  answer.words += words_of(nesting, quilt, plan);
  report["nesting"] = json_of(nesting, quilt, plan);
}

Answer answer_of(const arrange::Report& arranged, const Arrange& options, Blocks blocks) {
  Answer answer;
  Report report = new_report();
  const int touches = arranged.after.terms.touches;
  const bool was_laid = arranged.before.F > 0 || arranged.before.terms.touches > 0;
  answer.promise_kept = touches == 0 && arranged.after.broken == 0;
  answer.words = "Arranged with seed " + std::to_string(options.seed) + ": " + score_words(arranged.after) + "." +
                 (was_laid ? " It was " + score_words(arranged.before) + "." : "") + " Less is better.\n";
  if (touches > 0) {
    answer.words += words_of(arranged.bound, arranged.quilt, touches) + "farflung check " + options.folder +
                    " says where they are.\n";
    report["bound"] = json_of(arranged.bound, arranged.quilt, touches);
  }
  add_nesting(arranged, answer, report);
  const std::vector<int> left_over = quilt::spares(arranged.quilt);
  report["spares"] = Report::array();
  for (int block : left_over) report["spares"].push_back(arranged.quilt.blocks[block].id);
  if (!left_over.empty()) {
    answer.words += "Left over: " + counted(left_over.size(), "spare block", "spare blocks") + ":";
    for (int block : left_over) answer.words += " " + arranged.quilt.blocks[block].id;
    answer.words += ".\n";
  }
  report["left_over"] = Report::array();
  for (const makeup::LeftOver& left : makeup::left_over(arranged.quilt)) {
    const std::string& id = arranged.quilt.prints[left.print].id;
    const double side = quilt::in_units(Length::inches(left.side), arranged.quilt.units);
    report["left_over"].push_back({{"print", id}, {"side", side}, {"pieces", left.pieces}});
    answer.words += counted(static_cast<std::size_t>(left.pieces), "triangle", "triangles") + " of " +
                    arranged.quilt.prints[left.print].name + " will be left over: they are cut from whole squares.\n";
  }
  report["seed"] = options.seed;
  report["blocks"] = blocks == Blocks::open ? "open" : "sewn";
  report["before"] = score_json(arranged.before);
  report["after"] = score_json(arranged.after);
  answer.json = text_of(report);
  return answer;
}

/// What a screen draws anew while blocks move.
std::string picture_of(const quilt::Quilt& quilt) {
  return text_of(Report{{"layout", layout_json(quilt.layout)}, {"prints", prints_by_patch(quilt)}});
}

}  // namespace

Outcome arrange(const Arrange& options, const Watch& watch) {
  Result<project::Document> document = open_quilt(options.folder);
  if (!document) return document.problems();
  const Problems wrong = problems_of_wish(options, document->quilt);
  if (!wrong.empty()) return wrong;

  arrange::Options how;
  how.seed = {options.seed};
  how.effort = options.effort;
  how.blocks = blocks_asked(options, document->quilt);
  how.seconds = options.seconds;
  how.progress = [&watch](const arrange::Progress& now) {
    Progress told{now.done, "Arranging: " + score_words(now.touches, now.F), now.touches, now.F, {}};
    if (now.laid) told.layout = [&now] { return picture_of(now.laid()); };
    return watch(told);
  };
  Result<arrange::Report> arranged = arrange::arrange(document->quilt, how);
  if (!arranged) return arranged.problems();
  if (arranged->stopped) return stopped();
  watch({.done = 1});

  if (!options.dry_run) {
    document->quilt = arranged->quilt;
    Result<Done> written = project::write(options.folder, *document);
    if (!written) return written.problems();
  }
  return answer_of(*arranged, options, how.blocks);
}

}  // namespace farflung::job
