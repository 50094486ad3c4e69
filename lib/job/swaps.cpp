#include "job/swaps.hpp"

#include <filesystem>

#include "base/counted.hpp"
#include "base/limits.hpp"
#include "job/drop.hpp"
#include "job/explain.hpp"
#include "job/standard_streams.hpp"
#include "job/swap_list.hpp"
#include "project/disk.hpp"
#include "swap/better.hpp"
#include "swap/fewest.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

std::string score_text(const score::Score& score) {
  return counted(score.terms.touches, "touch", "touches") + ", score " + short_number(score.F);
}

/// The layout of another quilt, its blocks found here by their ids.
Result<setting::Arrangement> in_blocks_of(const quilt::Quilt& quilt, const quilt::Quilt& other,
                                          const std::string& from) {
  setting::Arrangement layout = other.layout;
  for (int& block : layout.block) {
    if (block == quilt::kNone) continue;
    const std::string& id = other.blocks[block].id;
    block = quilt.block_with_id(id);
    if (block == quilt::kNone)
      return input_problem(from, "block " + id + " is none of this quilt", "name a layout of the same blocks");
  }
  return layout;
}

/// The layout in a quilt's folder, or in a file that holds one layout: read as if it stood in this quilt.
Result<setting::Arrangement> layout_from(const project::Document& document, const std::string& from) {
  std::error_code ignored;
  if (fs::is_directory(from, ignored)) {
    Result<project::Document> other = project::read(from);
    if (!other) return other.problems();
    if (other->quilt.layout.block.size() != document.quilt.layout.block.size()) {
      return input_problem(from, "its cells are not this quilt's", "name a quilt with as many rows and columns");
    }
    return in_blocks_of(document.quilt, other->quilt, from);
  }
  Result<std::string> text = project::disk::read_file(from, limits::kFileBytes);
  if (!text) return text.problems();
  Result<project::Document> laid = project::set(document, "/layout", *text);
  if (laid) return laid->quilt.layout;
  Problems problems = laid.problems();
  for (Problem& problem : problems) problem.at = from + "#" + project::pointer_of(problem);  // not the quilt's own file
  return problems;
}

Answer to_better(const score::Measure& measure, const swap::BetterReport& better) {
  const setting::Plan& plan = measure.plan();
  Report report = new_report();
  report["before"] = {{"touch", better.before.terms.touches}, {"F", better.before.F}};
  report["swaps"] = Report::array();
  report["curve"] = Report::array();
  std::string words = "Now: " + score_text(better.before) + "\n";
  std::string said = score_text(better.before);
  for (std::size_t k = 0; k < better.lists.size(); ++k) {
    const score::Score& after = better.lists[k].after;
    report["curve"].push_back({{"swaps", k + 1}, {"touch", after.terms.touches}, {"F", after.F}});
    // A swap more that gains nothing to speak of is not worth a line.
    if (score_text(after) == said) continue;
    said = score_text(after);
    words += "With at most " + counted(k + 1, "swap", "swaps") + ": " + said + "\n";
  }
  if (better.lists.empty() || better.lists.back().steps.empty()) {
    words += "No swap betters it.\n";
  } else {
    words += "The swaps, the one that mends most first:\n";
    for (const swap::Made& made : better.lists.back().steps) {
      report["swaps"].push_back(step_json(plan, made));
      words += "  " + std::to_string(report["swaps"].size()) + ". " + made.says + " (" + score_text(made.after) + ")\n";
    }
  }
  return {words, text_of(report), {}, true};
}

Outcome to_layout(const project::Document& document, const std::string& from, std::uint64_t seed) {
  const Result<setting::Arrangement> to = layout_from(document, from);
  if (!to) return to.problems();
  const Result<swap::FewestReport> way = swap::fewest_swaps(document.quilt, *to, {seed});
  if (!way) return way.problems();
  Report report = new_report();
  const std::string words = add_way(report, document.quilt, *way);
  return Answer{words, text_of(report), {}, true};
}

}  // namespace

Outcome swaps(const Swaps& options) {
  Result<project::Document> document = open_quilt(options.folder);
  if (!document) return document.problems();
  if (!options.to.empty()) {
    return with_given({options.to}, "layout.json", limits::kFileBytes, [&](const std::vector<std::string>& paths) {
      return to_layout(*document, paths.front(), options.seed);
    });
  }
  if (document->quilt.blocks.empty() || blocks_to_deal(document->quilt) == document->quilt.blocks.size()) {
    return input_problem(options.folder, "no block has its prints yet",
                         "deal them: farflung arrange " + typed(options.folder));
  }
  const score::Measure measure(document->quilt);
  swap::BetterOptions how;
  how.most = options.most;
  how.seed = {options.seed};
  return to_better(measure, swap::better_layouts(measure, how));
}

}  // namespace farflung::job
