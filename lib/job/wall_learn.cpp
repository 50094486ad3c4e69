#include "job/wall_learn.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/counted.hpp"
#include "base/typed_name.hpp"
#include "extract/features.hpp"
#include "job/pending_files.hpp"
#include "job/wall_pictures.hpp"
#include "job/wall_words.hpp"
#include "wall/group.hpp"

namespace farflung::job {
namespace {

using quilt::kNone;

Report corners_json(const photo::Corners& corners) {
  Report list = Report::array();
  for (const auto& corner : corners) list.push_back({std::round(corner[0] * 10) / 10, std::round(corner[1] * 10) / 10});
  return list;
}

/// The pattern of cells to which the setting gives none.
Result<int> pattern_of(const quilt::Quilt& quilt, const std::string& name) {
  if (quilt.patterns.empty()) {
    return input_problem("/patterns", "the quilt has no pattern",
                         "say how the blocks are pieced: farflung new --pattern");
  }
  if (name.empty()) {
    if (quilt.patterns.size() == 1 || !quilt.setting.alternate.empty()) return 0;
    return input_problem("--pattern", "the quilt has several patterns", "name the one that the blocks are pieced by");
  }
  for (std::size_t p = 0; p < quilt.patterns.size(); ++p) {
    const block::Pattern& pattern = quilt.patterns[p];
    if (plain_name(pattern.id) == plain_name(name) || plain_name(pattern.name) == plain_name(name)) {
      return static_cast<int>(p);
    }
  }
  return input_problem("--pattern " + name, "the quilt has no such pattern", "name one by its id or name");
}

std::string numbered(const char* letter, int digits, std::size_t number) {
  std::string text = std::to_string(number);
  while (static_cast<int>(text.size()) < digits) text.insert(text.begin(), '0');
  return letter + text;
}

struct LearntAll {
  std::vector<wall::BlockLearnt> blocks;
  std::vector<int> empty;
  std::vector<photo::Corners> corners;
  std::vector<int> cards;               ///< by photograph
  std::vector<wall::PrintSeen> prints;  ///< those that the wall alone shows
};

Result<LearntAll> learnt(const Wall& options, const quilt::Quilt& quilt, int pattern, const Photographs& taken,
                         const std::vector<photo::Picture>& cloth) {
  LearntAll all;
  if (quilt.prints.empty()) {
    Result<wall::Grouped> grouped = wall::group_wall(taken.sections, quilt, pattern, options.prints);
    if (!grouped) return grouped.problems();
    return LearntAll{std::move(grouped->blocks), std::move(grouped->empty), std::move(grouped->corners),
                     std::move(grouped->cards), std::move(grouped->prints)};
  }
  for (const wall::Section& section : taken.sections) {
    const Result<wall::Learnt> one = wall::learn_wall(section.photograph, quilt, pattern, cloth, section.options);
    if (!one) return one.problems();
    all.blocks.insert(all.blocks.end(), one->blocks.begin(), one->blocks.end());
    all.empty.insert(all.empty.end(), one->empty.begin(), one->empty.end());
    all.corners.push_back(one->corners);
    all.cards.push_back(one->cards);
  }
  std::sort(all.blocks.begin(), all.blocks.end(), [](const auto& a, const auto& b) { return a.cell < b.cell; });
  for (std::size_t i = 1; i < all.blocks.size(); ++i) {
    if (all.blocks[i].cell == all.blocks[i - 1].cell) {
      return input_problem("--rows", "two photographs show the same cell", "say which rows and columns each shows");
    }
  }
  return all;
}

std::size_t unsure_blocks(const LearntAll& all) {
  return static_cast<std::size_t>(
      std::count_if(all.blocks.begin(), all.blocks.end(), [](const auto& b) { return !b.sure; }));
}

/// Whether what was read is no ground for a quilt.
bool hardly_learnt(const LearntAll& all) { return all.blocks.empty() || 2 * unsure_blocks(all) > all.blocks.size(); }

/// Prints of which there is nothing but the wall: named by number, their swatches cut from it.
Result<Done> add_prints(const std::vector<wall::PrintSeen>& seen, PendingFiles& files, quilt::Quilt& quilt) {
  for (std::size_t i = 0; i < seen.size(); ++i) {
    print::Print print;
    print.id = numbered("P", 2, i + 1);
    print.name = "Print " + std::to_string(i + 1);
    print.swatch_width = Length::inches(seen[i].inches);
    print.features = extract::features_of(seen[i].swatch, seen[i].inches);
    Result<Done> added = files.add_swatch(print, seen[i].swatch);
    if (!added) return added;
    quilt.prints.push_back(std::move(print));
  }
  print::give_codes(quilt.prints);
  return Done{};
}

int pattern_at(const setting::Plan& plan, int cell, int otherwise) {
  return plan.cells[cell].pattern != kNone ? plan.cells[cell].pattern : otherwise;
}

/// Nothing but one cloth is likelier the wall itself, a floor or a sheet of paper: a block that shows one print in all
/// of several slots is not sure, nor is any where the whole wall shows one print.
void doubt_one_cloth(std::vector<wall::BlockLearnt>& blocks, const quilt::Quilt& quilt, const setting::Plan& plan,
                     int pattern) {
  std::set<int> on_wall;
  for (wall::BlockLearnt& one : blocks) {
    const auto& slots = quilt.patterns[pattern_at(plan, one.cell, pattern)].slots;
    std::vector<int> dealt;
    for (std::size_t slot = 0; slot < slots.size(); ++slot) {
      if (slots[slot].print == kNone) dealt.push_back(one.prints[slot]);
    }
    on_wall.insert(dealt.begin(), dealt.end());
    if (dealt.size() > 1 && std::set<int>(dealt.begin(), dealt.end()).size() == 1) one.sure = false;
  }
  if (blocks.size() < 2 || on_wall.size() != 1) return;
  for (wall::BlockLearnt& one : blocks) one.sure = false;
}

/// What was learnt, and how the wall was taken to be.
struct Lesson {
  LearntAll all;
  Taken taken = Taken::blocks;
};

/// Blocks as they were said to lie; where a tenth of them or more is not sure, as one sewn top as well, if that tells
/// far more, as where a planned wall is read.
Result<Lesson> learnt_as_it_lies(const Wall& options, const quilt::Quilt& quilt, int pattern, Photographs& taken,
                                 const std::vector<photo::Picture>& cloth) {
  const setting::Plan plan = quilt::plan_of(quilt);
  Result<LearntAll> all = learnt(options, quilt, pattern, taken, cloth);
  if (!all) return all.problems();
  doubt_one_cloth(all->blocks, quilt, plan, pattern);
  const std::size_t unsure = unsure_blocks(*all);
  const bool clear = !all->blocks.empty() && 10 * unsure < all->blocks.size();
  if (clear || !may_be_sewn(options, plan)) return Lesson{std::move(*all), options.top ? Taken::top : Taken::blocks};
  for (wall::Section& section : taken.sections) section.options.laid = wall::Laid::top;
  Result<LearntAll> as_top = learnt(options, quilt, pattern, taken, cloth);
  if (as_top) doubt_one_cloth(as_top->blocks, quilt, plan, pattern);
  const bool better =
      as_top && !hardly_learnt(*as_top) && (hardly_learnt(*all) || 3 * unsure_blocks(*as_top) <= unsure);
  if (better) return Lesson{std::move(*as_top), Taken::top_unasked};
  return Lesson{std::move(*all), Taken::blocks_after_all};
}

/// In the place of all blocks that there were.
void take_blocks(const std::vector<wall::BlockLearnt>& blocks, const setting::Plan& plan, int pattern,
                 quilt::Quilt& quilt) {
  quilt.blocks.clear();
  quilt.layout = setting::empty_arrangement(quilt.setting);
  for (const wall::BlockLearnt& one : blocks) {
    block::Block block;
    block.id = numbered("B", 3, quilt.blocks.size() + 1);
    block.pattern = pattern_at(plan, one.cell, pattern);
    block.prints = one.prints;
    const auto& slots = quilt.patterns[block.pattern].slots;
    for (std::size_t slot = 0; slot < slots.size(); ++slot) {
      if (slots[slot].print != kNone) block.prints[slot] = kNone;
    }
    block.sewn = true;
    block.cut_turn = quilt.patterns[block.pattern].allows(Turn()) ? Turn() : one.turn;
    quilt.layout.block[one.cell] = static_cast<int>(quilt.blocks.size());
    quilt.layout.turn[one.cell] = one.turn;
    quilt.blocks.push_back(std::move(block));
  }
}

void add_learnt(Report& report, const LearntAll& all, const quilt::Quilt& quilt, const setting::Plan& plan) {
  report["cells"] = Report::array();
  for (std::size_t b = 0; b < all.blocks.size(); ++b) {
    const wall::BlockLearnt& one = all.blocks[b];
    Report prints = Report::object();
    const block::Pattern& pattern = quilt.patterns[quilt.blocks[b].pattern];
    for (std::size_t slot = 0; slot < pattern.slots.size(); ++slot) {
      const int print = quilt::print_of_slot(quilt, quilt.blocks[b], static_cast<int>(slot));
      prints[pattern.slots[slot].name] = print == kNone ? Report(nullptr) : Report(quilt.prints[print].id);
    }
    report["cells"].push_back({{"row", plan.cells[one.cell].row},
                               {"column", plan.cells[one.cell].column},
                               {"block", quilt.blocks[b].id},
                               {"prints", prints},
                               {"turn", one.turn.quarters()},
                               {"confidence", std::round(1e4 * one.confidence) / 1e4},
                               {"sure", one.sure}});
  }
  report["empty"] = Report::array();
  for (const int cell : all.empty) report["empty"].push_back({plan.cells[cell].row, plan.cells[cell].column});
  report["new_prints"] = Report::array();
  for (std::size_t i = 0; i < all.prints.size(); ++i) {
    report["new_prints"].push_back(
        {{"id", quilt.prints[i].id}, {"name", quilt.prints[i].name}, {"patches", all.prints[i].patches}});
  }
}

/// Whether no block is more than a place to fill, as in a quilt that was just begun.
bool nothing_to_lose(const quilt::Quilt& quilt) {
  return std::all_of(quilt.blocks.begin(), quilt.blocks.end(), [](const block::Block& block) {
    const bool dealt = std::any_of(block.prints.begin(), block.prints.end(), [](int print) { return print != kNone; });
    return !block.sewn && !dealt;
  });
}

std::string hardly_words(const LearntAll& all) {
  std::string words = "The wall could hardly be read. ";
  if (all.blocks.empty()) {
    words += "No block was seen on it.";
  } else {
    const std::size_t sure = all.blocks.size() - unsure_blocks(all);
    words += "Of " + counted(all.blocks.size(), "block", "blocks") + " " +
             (sure == 0 ? "none is" : std::to_string(sure) + (sure == 1 ? " is" : " are")) + " sure.";
  }
  return words +
         " Photograph it again, nearer and square before it, in more light, all the blocks in the picture; or say "
         "where the blocks' corners are (--corners), how many rows and columns there are, how a block is pieced.\n";
}

std::string words_of(const LearntAll& all, const quilt::Quilt& quilt, const setting::Plan& plan) {
  if (hardly_learnt(all)) return hardly_words(all);
  std::string words = counted(all.blocks.size(), "block", "blocks") + " learnt";
  if (!all.prints.empty()) words += ", of " + counted(all.prints.size(), "print", "prints") + " that look different";
  const std::size_t unsure = unsure_blocks(all);
  words += unsure == 0 ? ".\n" : "; " + std::to_string(unsure) + " to look at yourself:\n";
  for (std::size_t b = 0; b < all.blocks.size(); ++b) {
    if (all.blocks[b].sure) continue;
    words += "  " + setting::cell_name(plan.cells[all.blocks[b].cell]) + ": read as";
    for (std::size_t slot = 0; slot < all.blocks[b].prints.size(); ++slot) {
      const int print = all.blocks[b].prints[slot];
      words += (slot == 0 ? " " : ", ") + (print == kNone ? "unknown" : print::name_of(quilt.prints[print]));
    }
    words += ".\n";
  }
  for (const int cell : all.empty) words += "  " + setting::cell_name(plan.cells[cell]) + " is empty.\n";
  if (!all.prints.empty()) {
    words += "The prints are called Print 1, Print 2 ...: name them with farflung set QUILT /prints/0/name.\n";
  }
  return words;
}

/// The top as it was read, the blocks that are not sure marked.
Result<Done> draw_learnt(const Wall& options, const LearntAll& all, const quilt::Quilt& quilt,
                         const setting::Plan& plan, const std::vector<photo::Picture>& cloth) {
  std::vector<draw::CellMark> marks;
  for (const wall::BlockLearnt& one : all.blocks) {
    if (!one.sure) marks.push_back({one.cell, draw::CellMark::Kind::unsure, "look"});
  }
  draw::Swatches swatches;
  for (const wall::PrintSeen& seen : all.prints) {
    swatches.push_back({seen.swatch.columns, seen.swatch.rows, seen.swatch.rgb});
  }
  for (const photo::Picture& swatch : cloth) swatches.push_back({swatch.columns, swatch.rows, swatch.rgb});
  const Result<sheet::Paper> paper = sheet::paper_named(options.paper, quilt.units);
  return write_marked({quilt, plan, swatches, marks, *paper}, options.output, options.force);
}

}  // namespace

std::string add_photographs(Report& report, const std::vector<std::string>& files, const Photographs& taken,
                            const std::vector<photo::Corners>& corners, const std::vector<int>& cards) {
  report["photographs"] = Report::array();
  std::string words;
  for (std::size_t i = 0; i < files.size(); ++i) {
    const photo::Corners in_file = photo::scaled(corners[i], taken.full[i]);
    report["photographs"].push_back({{"file", files[i]}, {"corners", corners_json(in_file)}, {"cards", cards[i]}});
    if (cards[i] == 4) words += files[i] + ": the corners are where the four cards say.\n";
    if (cards[i] == 3) {
      words += files[i] + ": three corner cards were seen; the fourth corner is where the blocks end.\n";
    }
  }
  return words;
}

bool may_be_sewn(const Wall& asked, const setting::Plan& plan) {
  const bool whole = asked.photographs.size() == 1 && asked.rows.empty() && asked.columns.empty();
  return whole && !asked.top && asked.corners.empty() && !plan.frame.empty();
}

Outcome learn_from_wall(const Wall& options, project::Document& document, Photographs taken,
                        const std::vector<photo::Picture>& cloth, Answer answer) {
  quilt::Quilt quilt = document.quilt;
  const setting::Plan plan = quilt::plan_of(quilt);
  const Result<int> pattern = pattern_of(quilt, options.pattern);
  if (!pattern) return pattern.problems();
  const Result<Lesson> lesson = learnt_as_it_lies(options, quilt, *pattern, taken, cloth);
  if (!lesson) return lesson.problems();
  const LearntAll& all = lesson->all;
  const bool hardly = hardly_learnt(all);
  const bool write = options.accept || (nothing_to_lose(quilt) && !hardly);
  PendingFiles files(options.folder);
  const Result<Done> added = add_prints(all.prints, files, quilt);
  if (!added) return added.problems();
  take_blocks(all.blocks, plan, *pattern, quilt);

  Report report = new_report();
  answer.words = add_photographs(report, options.photographs, taken, all.corners, all.cards);
  add_learnt(report, all, quilt, plan);
  add_taken(report, lesson->taken);
  answer.words += taken_words(lesson->taken) + words_of(all, quilt, plan);
  if (!options.output.empty()) {
    const Result<Done> written = draw_learnt(options, all, quilt, plan, cloth);
    if (!written) return written.problems();
    answer.words += "As it was read: " + options.output + "\n";
  }
  if (write) {
    document.quilt = quilt;
    const Result<Done> saved = files.save(document);
    if (!saved) return saved.problems();
    answer.words += "The quilt holds these blocks now, laid as they are; farflung undo takes them out.\n";
  } else if (hardly) {
    answer.words += "The quilt was left as it is; --accept takes these blocks all the same, and -o shows them.\n";
  } else {
    answer.words += "The quilt has blocks already: --accept puts these in their place.\n";
  }
  answer.promise_kept = !hardly;
  report["hardly_read"] = hardly;
  report["accepted"] = write;
  put_report(report, answer);
  return answer;
}

}  // namespace farflung::job
