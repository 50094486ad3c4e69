// What each part of the quilt takes, as the trade's shopping lists have it.
#include "cloth/shopping.hpp"

#include <algorithm>
#include <map>

#include "base/counted.hpp"
#include "cloth/plan.hpp"

namespace farflung::cloth {
namespace {

/// The lines and runs of one part and print.
struct PartOfList {
  std::vector<int> lines, runs;
  std::string working;
  std::vector<std::pair<std::string, int>> pieces;  ///< how one is cut, and how many so
};

/// "blocks" for every slot of every pattern; the frame's parts by their own names.
std::string purpose_of(const CutLine& line) { return line.pattern != kNone ? "blocks" : line.part; }

/// Pieces of several slots that are cut alike are counted together.
void add_pieces(PartOfList& part, const CutLine& line) {
  for (auto& [working, count] : part.pieces) {
    if (working != line.shape.working) continue;
    count += line.rectangles;
    return;
  }
  part.pieces.emplace_back(line.shape.working, line.rectangles);
}

/// Ended with one full stop, and ready for what follows.
std::string as_sentence(const std::string& working) { return working + (working.ends_with('.') ? " " : ". "); }

std::string working_of(const PartOfList& part) {
  std::string words;
  for (const auto& [working, count] : part.pieces) {
    words += counted(count, "piece") + ", " + working + ". ";
  }
  return words + part.working;
}

Purchase sleeve(Length top_width, const YardageOptions& yardage, Ruler ruler, bool metric) {
  // As wide as the quilt; the hems at both ends bring it an inch inside each edge.
  const Length strip = up_to_mark(yardage.sleeve_cut, ruler);
  Run run;
  run.width = strip;
  run.total = top_width;
  run.join_loss = 2 * Length::inches(0.25);
  const int strips = run.strips_of(yardage.usable_width);
  return purchase("sleeve", kNone, strips * strip, yardage, metric,
                  "A strip " + said(strip, ruler) + " wide and as long as the quilt is wide, " +
                      said(top_width, ruler) + ", its ends hemmed: " + counted(strips, "strip") + " across the cloth.");
}

}  // namespace

std::vector<Purchase> purchases_by_part(const quilt::Quilt& quilt, const CutList& list, const CutOptions& cutting,
                                        const PlanOptions& options) {
  const bool metric = list.ruler == Ruler::millimetres;
  std::vector<std::pair<std::string, int>> order;
  std::map<std::pair<std::string, int>, PartOfList> parts;
  const auto part = [&](const std::string& what, int print) -> PartOfList& {
    if (!parts.count({what, print})) order.emplace_back(what, print);
    return parts[{what, print}];
  };
  for (std::size_t i = 0; i < list.lines.size(); ++i) {
    const CutLine& line = list.lines[i];
    PartOfList& mine = part(purpose_of(line), line.print);
    mine.lines.push_back(static_cast<int>(i));
    if (line.part == "backing" || line.part == "binding") {  // their working says how many pieces
      mine.working += as_sentence(line.shape.working);
    } else {
      add_pieces(mine, line);
    }
  }
  for (std::size_t i = 0; i < list.runs.size(); ++i) {
    PartOfList& mine = part(list.runs[i].part, list.runs[i].print);
    mine.runs.push_back(static_cast<int>(i));
    mine.working += as_sentence(list.runs[i].working);
  }
  std::vector<Purchase> purchases;
  for (const auto& [what, print] : order) {
    const PartOfList& mine = parts[{what, print}];
    const Length exact = yardage_for(list, mine.lines, mine.runs, options);
    std::string working = working_of(mine);
    if (!working.empty() && working.back() == ' ') working.pop_back();
    purchases.push_back(purchase(what, print, exact, list.yardage, metric, working));
  }
  const setting::Plan top = frame_plan(quilt, cutting);
  const Length over = quilt.backing ? quilt.backing->over : list.yardage.backing_over;
  if (!quilt.backing) {
    const BackingPlan backing = backing_plan(top.width, top.height, over, list.yardage, list.ruler);
    purchases.push_back(purchase("backing", kNone, backing.chosen.cloth, list.yardage, metric,
                                 backing.chosen.says + "; " + backing.why + "."));
  }
  const BattingPlan batting = batting_plan(top.width, top.height, over, list.yardage, list.ruler);
  Purchase bat;
  bat.what = "batting";
  const int units = steps_of_purchase(batting.by_length, metric);
  bat.exact = batting.by_length;
  bat.buy = units * purchase_step(metric);
  bat.amount = metric ? units / 10.0 : units / 8.0;
  bat.unit = metric ? "m" : "yd";
  bat.says = batting.says;
  purchases.push_back(bat);
  purchases.push_back(sleeve(top.width, list.yardage, list.ruler, metric));
  return purchases;
}

std::vector<ShoppingLine> shopping_lines(const quilt::Quilt& quilt, const std::vector<Purchase>& purchases) {
  std::vector<ShoppingLine> lines;
  for (const Purchase& one : purchases) {
    const bool of_print = one.print != kNone;
    const std::string what = of_print && one.what == print::name_of(quilt.prints[one.print]) ? "more cloth" : one.what;
    auto known = std::find_if(lines.begin(), lines.end(), [&](const ShoppingLine& line) {
      return of_print && !line.prints.empty() && line.what == what && line.each == one.amount &&
             line.unit == one.unit && line.says == one.says;
    });
    if (known == lines.end()) known = lines.insert(known, {what, {}, one.amount, 0, one.unit, one.says});
    ShoppingLine& line = *known;
    if (of_print) line.prints.push_back(one.print);
    line.in_all += one.amount;
  }
  return lines;
}

}  // namespace farflung::cloth
