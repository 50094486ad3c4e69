#include "job/explain.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <set>

#include "base/counted.hpp"
#include "colour/typed.hpp"

namespace farflung::job {
namespace {

using score::Explanation;
using score::Measure;

/// How many of each kind of remark people are told; the rest is in the JSON.
constexpr std::size_t kMostRemarks = 3;

const std::string& name_of(const Measure& measure, int print) { return print::name_of(measure.quilt().prints[print]); }

const char* way_name(score::Line::Way way) {
  switch (way) {
    case score::Line::Way::row:
      return "row";
    case score::Line::Way::column:
      return "column";
    case score::Line::Way::falling:
      return "diagonal falling to the right";
    case score::Line::Way::rising:
      break;
  }
  return "diagonal rising to the right";
}

const char* what_name(score::LineCast::What what) {
  switch (what) {
    case score::LineCast::What::value:
      return "value";
    case score::LineCast::What::red_green:
      return "red or green";
    case score::LineCast::What::yellow_blue:
      break;
  }
  return "yellow or blue";
}

/// Which way something leans: the sign picks one of two words.
const char* lean(double above, const char* over, const char* under) { return above > 0 ? over : under; }

const char* line_lean(const score::LineCast& line) {
  switch (line.what) {
    case score::LineCast::What::value:
      return lean(line.above, "lighter", "darker");
    case score::LineCast::What::red_green:
      return lean(line.above, "redder", "greener");
    case score::LineCast::What::yellow_blue:
      break;
  }
  return lean(line.above, "yellower", "bluer");
}

std::string spacing_words(const Explanation& explanation, const Measure& measure) {
  std::string text =
      "Prints, their copies, how near the closest two lie of how far apart they could (in blocks), and where:\n";
  for (const score::PrintSpacing& spacing : explanation.spacings) {
    if (spacing.copies == 0) continue;
    const print::Print& print = measure.quilt().prints[spacing.print];
    char line[64];
    std::snprintf(line, sizeof line, "  %-2s %4d  ", print.code.c_str(), spacing.copies);
    text += line;
    if (spacing.copies > 1) {
      const double ideal = spacing.ideal > 0 ? spacing.ideal : spacing.nearest;
      std::snprintf(line, sizeof line, "%5.2f of %5.2f  ", spacing.nearest, ideal);
      text += line;
    } else {
      text += std::string(16, ' ');
    }
    text += print::name_of(print);
    if (spacing.copies > 1) text += ": " + cells_text(measure.plan(), {spacing.nearest_a, spacing.nearest_b});
    text += "\n";
  }
  return text;
}

/// "#8a9a7b (L* 62, a* -6, b* 14)".
std::string colour_words(const colour::Lab& lab) {
  char text[64];
  std::snprintf(text, sizeof text, " (L* %.0f, a* %.0f, b* %.0f)", lab.L, lab.a, lab.b);
  return colour::hex(lab) + text;
}

std::string cast_words(const Explanation& explanation, const Measure& measure) {
  const score::RegionCast& cast = explanation.strongest;
  if (cast.cell == quilt::kNone) return "";
  constexpr double kUnseen = 0.05;  // times the usual: nothing that an eye could find
  if (cast.strength < kUnseen) return "No region has a cast of its own that could be seen.\n";
  constexpr double kPlain = 3;  // so many times the usual: no chance of the shuffle any more
  const std::string region = colour_words(cast.lab), whole = colour_words(cast.mean);
  return "The region with the strongest cast lies around " + cell_name(measure.plan().cells[cast.cell]) +
         (region == whole          ? ": hardly "
          : cast.strength < kPlain ? ": a little "
                                   : ": plainly ") +
         cast_lean(cast.cast) + " than the whole" +
         (region == whole ? "" : ", " + region + " where the whole is " + whole) + "; " + short_number(cast.strength) +
         " times the cast that is usual in a shuffle.\n";
}

std::string line_words(const Explanation& explanation, const Measure& measure) {
  std::string text;
  const setting::Plan& plan = measure.plan();
  for (std::size_t i = 0; i < std::min(kMostRemarks, explanation.equal_steps.size()); ++i) {
    const score::EqualSteps& steps = explanation.equal_steps[i];
    text += name_of(measure, steps.print) + " lies in equal steps: " + cells_text(plan, steps.cells) + ".\n";
  }
  for (std::size_t i = 0; i < std::min(kMostRemarks, explanation.lines.size()); ++i) {
    const score::LineCast& line = explanation.lines[i];
    text += "The " + std::string(way_name(line.way)) + " from " + cell_name(plan.cells[line.cells.front()]) + " to " +
            cell_name(plan.cells[line.cells.back()]) + " reads " + line_lean(line) + " than the rest.\n";
  }
  return text;
}

Report cell_json(const setting::Plan& plan, int cell) {
  if (cell == quilt::kNone) return nullptr;
  return {plan.cells[cell].row, plan.cells[cell].column};
}

Report cells_json(const setting::Plan& plan, const std::vector<int>& cells) {
  Report list = Report::array();
  for (int cell : cells) list.push_back(cell_json(plan, cell));
  return list;
}

Report lab_json(const colour::Lab& lab) { return {lab.L, lab.a, lab.b}; }

const char* cause_name(score::Cause cause) {
  switch (cause) {
    case score::Cause::crowded:
      return "crowded";
    case score::Cause::kept:
      return "kept";
    case score::Cause::turns:
      return "turns";
    case score::Cause::patterns:
      return "patterns";
    case score::Cause::none:
      break;
  }
  return "none";
}

std::string cause_words(const score::PrintBound& print) {
  switch (print.cause) {
    case score::Cause::kept:
      return "kept cells force it";
    case score::Cause::turns:
      return "the turns that its sewn blocks may take force it";
    case score::Cause::patterns:
      return "the cells of its own pattern force it";
    default:
      return "no more than " + std::to_string(print.most_apart) + " can lie apart";
  }
}

}  // namespace

const char* cast_lean(const score::Reading& cast) {
  std::size_t strongest = 0;
  for (std::size_t i = 1; i < cast.size(); ++i) {
    if (std::abs(cast[i]) > std::abs(cast[strongest])) strongest = i;
  }
  static constexpr const char* kOver[] = {"lighter", "redder", "yellower", "busier"};
  static constexpr const char* kUnder[] = {"darker", "greener", "bluer", "plainer"};
  return lean(cast[strongest], kOver[strongest], kUnder[strongest]);
}

std::string short_number(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f", value);
  return text;
}

std::string cells_text(const setting::Plan& plan, const std::vector<int>& cells) {
  std::string text;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) text += i + 1 == cells.size() ? " and " : ", ";
    text += cell_name(plan.cells[cells[i]]);
  }
  return text;
}

std::string words_of(const Explanation& explanation, const Measure& measure) {
  return cast_words(explanation, measure) + line_words(explanation, measure) + spacing_words(explanation, measure);
}

Report json_of(const Explanation& explanation, const Measure& measure) {
  const setting::Plan& plan = measure.plan();
  const auto id = [&](int print) { return measure.quilt().prints[print].id; };
  Report report;
  const score::RegionCast& cast = explanation.strongest;
  report["cast"] = nullptr;
  if (cast.cell != quilt::kNone) {
    report["cast"] = {{"cell", cell_json(plan, cast.cell)}, {"scale", cast.scale},
                      {"lab", lab_json(cast.lab)},          {"mean", lab_json(cast.mean)},
                      {"strength", cast.strength},          {"leans", cast_lean(cast.cast)}};
  }
  for (const char* list : {"equal_steps", "lines"}) report[list] = Report::array();
  for (const score::EqualSteps& steps : explanation.equal_steps) {
    report["equal_steps"].push_back(
        {{"print", id(steps.print)}, {"cells", cells_json(plan, steps.cells)}, {"step", steps.step}});
  }
  for (const score::LineCast& line : explanation.lines) {
    report["lines"].push_back({{"way", way_name(line.way)},
                               {"cells", cells_json(plan, line.cells)},
                               {"what", what_name(line.what)},
                               {"above", line.above},
                               {"deviations", line.deviations}});
  }
  return report;
}

namespace {

/// "B001, B004 and B007"; of many the first.
std::string ids_text(const quilt::Quilt& quilt, const std::vector<int>& blocks) {
  constexpr std::size_t kMost = 24;
  std::string text;
  for (std::size_t i = 0; i < std::min(kMost, blocks.size()); ++i) {
    const bool last = i + 1 == blocks.size() && i > 0;
    text += (i == 0 ? "" : (last ? " and " : ", ")) + quilt.blocks[blocks[i]].id;
  }
  if (blocks.size() > kMost) text += " and " + std::to_string(blocks.size() - kMost) + " more (--json names them)";
  return text;
}

/// How the blocks that are not pressed yet are to be pressed, and whether another choice could do better.
std::string press_words(const score::Nesting& nesting, const quilt::Quilt& quilt) {
  std::vector<int> other;
  bool unpressed = false;
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    if (quilt.blocks[b].press) continue;
    unpressed = true;
    if (nesting.press[b] == block::Block::Press::other) other.push_back(static_cast<int>(b));
  }
  if (!unpressed) return "";
  std::string text = other.empty() ? "Press all that are not pressed yet as drawn"
                                   : "Press these the other way, and all others that are not pressed yet as drawn: " +
                                         ids_text(quilt, other);
  if (nesting.unnested > 0) text += nesting.exact ? "; no choice nests more" : "; no better choice is known";
  return text + ".\n";
}

/// Where not all can nest. A ring that several of its seam ends close is named once.
std::string odd_words(const score::Nesting& nesting, const setting::Plan& plan) {
  std::set<std::vector<int>> known;
  std::string text;
  for (const std::vector<int>& ring : nesting.odd_rings) {
    std::vector<int> cells = ring;
    std::sort(cells.begin(), cells.end());
    if (known.insert(cells).second && known.size() <= kMostRemarks) {
      text += "Around " + cells_text(plan, ring) + " not all can nest.\n";
    }
  }
  if (known.size() <= kMostRemarks) return text;
  return text + "Nor around " + counted(known.size() - kMostRemarks, "other place") + " (--json names them).\n";
}

}  // namespace

std::string words_of(const score::Nesting& nesting, const quilt::Quilt& quilt, const setting::Plan& plan) {
  if (quilt.setting.sashing) return "Sashing lies between the blocks: nothing has to nest, press all to the sash.\n";
  const bool pieced = std::any_of(quilt.patterns.begin(), quilt.patterns.end(),
                                  [](const block::Pattern& pattern) { return !pattern.piecing.empty(); });
  if (nesting.nothing_to_nest()) {
    return pieced ? "No seam ends meet across joins: nothing has to nest.\n"
                  : "The patterns have no piecing steps: no seam ends are known, so that nothing has to nest.\n";
  }
  std::string text = counted(nesting.meetings.size(), "seam end meets", "seam ends meet") +
                     " another across a join: " + std::to_string(nesting.nested) + " nest, " +
                     std::to_string(nesting.unnested) + " do not" +
                     (nesting.open > 0 ? ", " + std::to_string(nesting.open) + " are pressed open" : "") + ".\n" +
                     press_words(nesting, quilt);
  if (!nesting.press_again.empty()) {
    text += "Pressed again the other way, these would leave " + std::to_string(nesting.unnested_then) +
            " that do not: " + ids_text(quilt, nesting.press_again) + ".\n";
  }
  return text + odd_words(nesting, plan);
}

Report json_of(const score::Nesting& nesting, const quilt::Quilt& quilt, const setting::Plan& plan) {
  Report report = {{"meet", nesting.meetings.size()},
                   {"nest", nesting.nested},
                   {"do_not", nesting.unnested},
                   {"open", nesting.open},
                   {"exact", nesting.exact}};
  for (const char* list : {"other", "press_again", "odd_rings"}) report[list] = Report::array();
  for (std::size_t i = 0; i < nesting.press.size(); ++i) {
    if (nesting.press[i] == block::Block::Press::other) report["other"].push_back(quilt.blocks[i].id);
  }
  for (int block : nesting.press_again) report["press_again"].push_back(quilt.blocks[block].id);
  report["do_not_then"] = nesting.unnested_then;
  for (const std::vector<int>& ring : nesting.odd_rings) report["odd_rings"].push_back(cells_json(plan, ring));
  return report;
}

namespace {

/// "R1 C4 with R3 C5", and how a block is to be turned on its way, where it is.
std::string swap_words(const arrange::MendingSwap& swap, const quilt::Quilt& quilt, const setting::Plan& plan) {
  std::string text = cell_name(plan.cells[swap.cell_a]) + " with " + cell_name(plan.cells[swap.cell_b]);
  const auto add_turn = [&](int from, int to, Turn turn) {
    static constexpr const char* kWays[] = {"", "a quarter to the right", "half round", "a quarter to the left"};
    const int quarters = (turn + quilt.layout.turn[from].back()).quarters();
    if (quarters == 0) return;
    text += ", the block that comes to " + cell_name(plan.cells[to]) + " turned " + kWays[quarters] + ",";
  };
  add_turn(swap.cell_b, swap.cell_a, swap.turn_a);
  add_turn(swap.cell_a, swap.cell_b, swap.turn_b);
  return text;
}

}  // namespace

std::string words_of(const std::vector<arrange::AccentAdvice>& advice, const quilt::Quilt& quilt,
                     const setting::Plan& plan) {
  std::string text;
  for (std::size_t i = 0; i < std::min(kMostRemarks, advice.size()); ++i) {
    const score::AccentInLine& accent = advice[i].accent;
    const bool centre = accent.where == score::AccentInLine::Where::centre_line;
    text += print::name_of(quilt.prints[accent.print]) + " is a strong accent and " +
            (centre ? "sits on the quilt's centre line" : "its copies share a " + std::string(way_name(accent.way))) +
            ": " + cells_text(plan, accent.cells);
    if (advice[i].mend) {
      text += "; swapping " + swap_words(*advice[i].mend, quilt, plan) + " would mend it";
    }
    text += ".\n";
  }
  return text;
}

std::string words_of(const std::vector<arrange::KeptCost>& costs, const setting::Plan& plan) {
  constexpr double kWorthTelling = 0.005;
  constexpr std::size_t kMostNamed = 12;
  std::string text;
  std::vector<int> for_nothing;
  for (const arrange::KeptCost& cost : costs) {
    if (cost.touches == 0 && cost.F < kWorthTelling) {
      for_nothing.push_back(cost.cell);
      continue;
    }
    text += "Keeping " + cell_name(plan.cells[cost.cell]) + " costs ";
    if (cost.touches > 0) text += counted(cost.touches, "touch", "touches");
    if (cost.F >= kWorthTelling) text += (cost.touches > 0 ? " and " : "") + short_number(cost.F) + " of the score";
    text += ".\n";
  }
  if (for_nothing.empty()) return text;
  if (for_nothing.size() > kMostNamed) {
    return text + "Keeping " + (text.empty() ? "" : "the other ") + std::to_string(for_nothing.size()) +
           " cells costs nothing.\n";
  }
  return text + "Keeping " + cells_text(plan, for_nothing) + " costs nothing.\n";
}

Report json_of(const std::vector<arrange::AccentAdvice>& advice, const quilt::Quilt& quilt, const setting::Plan& plan) {
  Report list = Report::array();
  for (const arrange::AccentAdvice& one : advice) {
    const bool centre = one.accent.where == score::AccentInLine::Where::centre_line;
    Report entry = {{"print", quilt.prints[one.accent.print].id},
                    {"where", centre ? "centre line" : way_name(one.accent.way)},
                    {"cells", cells_json(plan, one.accent.cells)},
                    {"mend", nullptr}};
    if (one.mend) {
      entry["mend"] = {{"a", cell_json(plan, one.mend->cell_a)},
                       {"b", cell_json(plan, one.mend->cell_b)},
                       {"turn_a", one.mend->turn_a.quarters()},
                       {"turn_b", one.mend->turn_b.quarters()},
                       {"F", one.mend->F}};
    }
    list.push_back(entry);
  }
  return list;
}

Report json_of(const std::vector<arrange::KeptCost>& costs, const setting::Plan& plan) {
  Report list = Report::array();
  for (const arrange::KeptCost& cost : costs) {
    list.push_back({{"cell", cell_json(plan, cost.cell)}, {"touch", cost.touches}, {"F", cost.F}});
  }
  return list;
}

std::string words_of(const score::TouchBound& bound, const quilt::Quilt& quilt, int touches) {
  if (bound.touches == 0) {
    return "Nothing is known that forces " + std::string(touches == 1 ? "it" : "them") +
           ": another seed or more effort may do without.\n";
  }
  std::string text = "No layout of these blocks has fewer than " + counted(bound.touches, "touch", "touches") + ":\n";
  for (const score::PrintBound& print : bound.prints) {
    text += "  " + print::name_of(quilt.prints[print.print]) + " has " + counted(print.copies, "copy", "copies") +
            ": " + cause_words(print) + ", so that it touches itself " + counted(print.touches, "time") + " at least\n";
  }
  const int more = touches - bound.touches;
  return text +
         (more == 0 ? "This layout has no more than that.\n"
                    : "This layout has " + std::to_string(more) + " more; whether they can be avoided is not known.\n");
}

Report json_of(const score::TouchBound& bound, const quilt::Quilt& quilt, int touches) {
  Report report = {{"least", bound.touches}, {"reached", touches == bound.touches}, {"prints", Report::array()}};
  for (const score::PrintBound& print : bound.prints) {
    report["prints"].push_back({{"id", quilt.prints[print.print].id},
                                {"copies", print.copies},
                                {"most_apart", print.most_apart},
                                {"least", print.touches},
                                {"cause", cause_name(print.cause)}});
  }
  return report;
}

}  // namespace farflung::job
