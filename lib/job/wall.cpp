#include "job/wall.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <optional>

#include "base/counted.hpp"
#include "base/limits.hpp"
#include "job/drop.hpp"
#include "job/places_typed.hpp"
#include "job/standard_streams.hpp"
#include "job/wall_learn.hpp"
#include "job/wall_pictures.hpp"
#include "job/wall_way.hpp"
#include "job/wall_words.hpp"
#include "photo/decode.hpp"

namespace farflung::job {
namespace {

/// "1-4" or "3", from 1, as a range from 0.
struct Range {
  int first = 0, last = 0;
};
std::optional<Range> range_in(const std::string& text) {
  char* end = nullptr;
  const long first = std::strtol(text.c_str(), &end, 10);
  if (end == text.c_str()) return std::nullopt;
  long last = first;
  if (*end == '-') {
    const char* second = end + 1;
    last = std::strtol(second, &end, 10);
    if (end == second) return std::nullopt;
  }
  constexpr long kMost = 100000;
  if (*end != '\0' || first < 1 || last < first || last > kMost) return std::nullopt;
  return Range{static_cast<int>(first - 1), static_cast<int>(last - 1)};
}

/// The options of each photograph; its corners still in pixels of the file.
Result<std::vector<wall::ReadOptions>> options_of(const Wall& asked) {
  std::vector<wall::ReadOptions> options(asked.photographs.size());
  Problems problems;
  const auto fits = [&](const char* option, std::size_t count) {
    if (count == 0 || count == options.size()) return true;
    problems.push_back(input_problem(option,
                                     "it is given " + counted(count, "time", "times") + " for " +
                                         counted(options.size(), "photograph", "photographs"),
                                     "give it once for each photograph, in their order"));
    return false;
  };
  const bool corners = fits("--corners", asked.corners.size());
  const bool rows = fits("--rows", asked.rows.size());
  const bool columns = fits("--columns", asked.columns.size());
  for (std::size_t i = 0; i < options.size(); ++i) {
    options[i].name = asked.photographs[i];
    options[i].laid = asked.top ? wall::Laid::top : wall::Laid::blocks;
    if (corners && !asked.corners.empty()) {
      const Result<photo::Corners> typed = corners_typed(asked.corners[i]);
      if (typed) {
        options[i].corners = *typed;
      } else {
        add_problems(problems, typed);
      }
    }
    const auto take = [&](const char* option, const std::string& text, int& first, int& last) {
      if (const auto range = range_in(text)) {
        first = range->first, last = range->last;
      } else {
        problems.push_back(
            input_problem(std::string(option) + " " + text, "this is no range", "give one such as 1-4, or 3 alone"));
      }
    };
    if (rows && !asked.rows.empty()) take("--rows", asked.rows[i], options[i].first_row, options[i].last_row);
    if (columns && !asked.columns.empty()) {
      take("--columns", asked.columns[i], options[i].first_column, options[i].last_column);
    }
  }
  if (!problems.empty()) return problems;
  return options;
}

/// As many pixels as reading needs, and no more: a block of a hundred-and-sixty-eight is still some 150 across.
constexpr int kLongest = 2600;
constexpr int kSwatchLongest = 1024;

std::vector<photo::Picture> cloth_of(const quilt::Quilt& quilt, const std::string& folder, Problems& warnings) {
  std::vector<photo::Picture> swatches;
  for (draw::Picture& picture : swatches_of(quilt, folder, kSwatchLongest, warnings)) {
    photo::Picture swatch;
    swatch.columns = picture.width;
    swatch.rows = picture.height;
    swatch.rgb = std::move(picture.rgb);
    swatches.push_back(std::move(swatch));
  }
  return swatches;
}

Problems problems_of_outputs(const Wall& options) {
  Problems wrong;
  for (const std::string& file : {options.output, options.plan_output}) {
    if (file.empty()) continue;
    const Problems found = problems_of_output(file, {".png", ".svg", ".pdf"}, options.force);
    wrong.insert(wrong.end(), found.begin(), found.end());
  }
  return wrong;
}

/// Every photograph decoded, its corners in its own pixels.
Result<Photographs> photographs_of(const Wall& asked, const std::vector<wall::ReadOptions>& how, const Watch& watch) {
  photo::DecodeOptions decoding;
  decoding.longest = kLongest;
  Photographs taken;
  Problems problems;
  for (std::size_t i = 0; i < how.size(); ++i) {
    const double done = 0.5 * static_cast<double>(i) / static_cast<double>(how.size());
    if (!watch({.done = done, .at = "Reading " + asked.photographs[i]})) return Problems{stopped()};
    Result<photo::Photograph> photograph = photo::decode(asked.photographs[i], decoding);
    if (!photograph) {
      add_problems(problems, photograph);
      continue;
    }
    const double full = photograph->full_from_picture();
    taken.full.push_back(full);
    taken.sections.push_back({std::move(photograph->picture), how[i]});
    auto& corners = taken.sections.back().options.corners;
    if (corners) corners = photo::scaled(*corners, 1 / full);
  }
  if (!problems.empty()) return problems;
  return taken;
}

/// What was read as the layout that the quilt takes: nothing stays kept where nothing lies.
setting::Arrangement layout_to_take(const wall::WallRead& read) {
  setting::Arrangement layout = read.layout;
  for (std::size_t c = 0; c < layout.block.size(); ++c) {
    if (layout.block[c] != quilt::kNone) continue;
    layout.kept[c] = false;
    layout.turn[c] = Turn();
  }
  return layout;
}

/// What was read, and how the wall was taken to be.
struct Reading {
  wall::WallRead read;
  Taken taken;
};

/// As it was said to lie; where a tenth of the places or more is not sure, as one sewn top as well, if that tells far
/// more: blocks that hang loose are never read better as a top than as blocks by so much, narrow borders are.
Result<Reading> read_as_it_lies(const Wall& asked, const quilt::Quilt& quilt, const setting::Plan& plan,
                                Photographs& taken, const std::vector<photo::Picture>& cloth) {
  Result<wall::WallRead> read = wall::read_wall(taken.sections, quilt, cloth);
  if (!read) return read.problems();
  const auto unsure = count_unsure(*read);
  if (10 * unsure < read->cells.size() || !may_be_sewn(asked, plan)) {
    return Reading{std::move(*read), asked.top ? Taken::top : Taken::blocks};
  }
  for (wall::Section& section : taken.sections) section.options.laid = wall::Laid::top;
  Result<wall::WallRead> as_top = wall::read_wall(taken.sections, quilt, cloth);
  const bool better = as_top && !hardly_read(*as_top) && (hardly_read(*read) || 3 * count_unsure(*as_top) <= unsure);
  if (better) return Reading{std::move(*as_top), Taken::top_unasked};
  return Reading{std::move(*read), Taken::blocks_after_all};
}

/// Whether the quilt has blocks, but no print for any of them.
bool nothing_dealt(const quilt::Quilt& quilt) {
  const bool none = std::all_of(quilt.blocks.begin(), quilt.blocks.end(), [](const block::Block& block) {
    return std::all_of(block.prints.begin(), block.prints.end(), [](int print) { return print == quilt::kNone; });
  });
  return none && !quilt.blocks.empty() && blocks_to_deal(quilt) == quilt.blocks.size();
}

/// The pictures that were asked for: what was read, and the plan. Each is named in the answer's words.
Result<Done> draw_both(const Wall& options, const quilt::Quilt& quilt, const quilt::Quilt& as_read,
                       const wall::WallRead& read, const sheet::Paper& paper, Answer& answer) {
  if (options.output.empty() && options.plan_output.empty()) return Done{};
  const setting::Plan plan = quilt::plan_of(quilt);
  const draw::Swatches swatches = swatches_of(quilt, options.folder, kSwatchLongest, answer.warnings);
  const auto write = [&](const quilt::Quilt& drawn, const std::vector<draw::CellMark>& marks, const std::string& file,
                         const std::string& what) -> Result<Done> {
    if (file.empty()) return Done{};
    Result<Done> written = write_marked({drawn, plan, swatches, marks, paper}, file, options.force);
    if (written) answer.words += what + ": " + file + "\n";
    return written;
  };
  Result<Done> written = write(as_read, marks_on_read(quilt, plan, read), options.output, "As it was read");
  if (!written) return written;
  return write(quilt, marks_on_plan(quilt, plan, read), options.plan_output, "The plan, wrong places marked");
}

Outcome read_from(const Wall& options, const Watch& watch) {
  const Result<std::vector<wall::ReadOptions>> how = options_of(options);
  if (!how) return how.problems();
  const Problems wrong = problems_of_outputs(options);
  if (!wrong.empty()) return wrong;
  Result<project::Document> document = project::read(options.folder);
  if (!document) return document.problems();
  const quilt::Quilt quilt = document->quilt;
  if (!options.learn && nothing_dealt(quilt)) {
    return input_problem(options.folder, "no block has its prints yet, so that none could be told from another",
                         "have the blocks arranged first, or learn from the photograph what hangs there (--learn)");
  }
  const Result<sheet::Paper> paper = sheet::paper_named(options.paper, quilt.units);
  if (!paper) return paper.problems();
  const setting::Plan plan = quilt::plan_of(quilt);

  Answer answer;
  const std::vector<photo::Picture> cloth = cloth_of(quilt, options.folder, answer.warnings);
  Result<Photographs> taken = photographs_of(options, *how, watch);
  if (!taken) return taken.problems();
  if (options.learn) return learn_from_wall(options, *document, std::move(*taken), cloth, std::move(answer));
  const Result<Reading> reading = read_as_it_lies(options, quilt, plan, *taken, cloth);
  if (!reading) return reading.problems();
  const wall::WallRead& read = reading->read;

  Report report = new_report();
  answer.words = add_photographs(report, options.photographs, *taken, read.corners, read.cards);
  add_wall_read(report, quilt, plan, read, reading->taken);
  answer.words += words_of(quilt, plan, read, reading->taken);
  quilt::Quilt as_read = quilt;
  as_read.layout = layout_to_take(read);
  if (!hardly_read(read)) answer.words += add_way_back(report, quilt, as_read, read);
  if (!watch({.done = 0.8, .at = "Drawing"})) return stopped();

  const Result<Done> drawn = draw_both(options, quilt, as_read, read, *paper, answer);
  if (!drawn) return drawn.problems();
  if (options.accept) {
    document->quilt.layout = as_read.layout;
    const Result<Done> saved = project::write(options.folder, *document);
    if (!saved) return saved.problems();
    answer.words += "This is the layout now; farflung undo brings the old one back.\n";
    answer.promise_kept = !mostly_unsure(read);
  }
  report["accepted"] = options.accept;
  put_report(report, answer);
  return answer;
}

}  // namespace

Outcome wall(const Wall& asked, const Watch& watch) {
  const auto read = [&](const std::vector<std::string>& paths) {
    Wall options = asked;
    options.photographs = paths;
    return read_from(options, watch);
  };
  return with_given(asked.photographs, kSentPhotograph, limits::kPhotographBytes, read);
}

}  // namespace farflung::job
