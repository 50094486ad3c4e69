#include "job/choose.hpp"

#include <algorithm>
#include <cmath>

#include "choice/choose.hpp"
#include "draw/pieces.hpp"
#include "job/exhibits.hpp"

namespace farflung::job {
namespace {

using choice::ChosenSet;

Report ids_of(const quilt::Quilt& quilt, const std::vector<int>& prints) {
  Report list = Report::array();
  for (int print : prints) list.push_back(quilt.prints[print].id);
  return list;
}

std::string names_of(const quilt::Quilt& quilt, const std::vector<int>& prints) {
  std::string text;
  for (int print : prints) text += (text.empty() ? "" : ", ") + print::name_of(quilt.prints[print]);
  return text;
}

Report others_json(const quilt::Quilt& quilt, const std::vector<ChosenSet>& others) {
  Report list = Report::array();
  for (const ChosenSet& set : others) {
    list.push_back({{"take", ids_of(quilt, set.take)},
                    {"leaves", ids_of(quilt, set.leaves)},
                    {"enters", ids_of(quilt, set.enters)},
                    {"cost", set.terms.cost},
                    {"why", set.why}});
  }
  return list;
}

Report substitutes_json(const quilt::Quilt& quilt, const std::vector<choice::Substitute>& substitutes) {
  Report list = Report::array();
  for (const choice::Substitute& one : substitutes) {
    list.push_back({{"drop", quilt.prints[one.dropped].id},
                    {"instead", quilt.prints[one.instead].id},
                    {"rise", one.rise},
                    {"says", one.says}});
  }
  return list;
}

std::string words_of(const quilt::Quilt& quilt, const choice::ChooseReport& chosen) {
  std::string text = "Take, from light to dark: " + names_of(quilt, chosen.best.take) + ".\n";
  for (const std::string& why : chosen.best.why) text += "  " + why + "\n";
  text += "  " + chosen.proof + "\n";
  if (!chosen.others.empty()) text += "The next best sets:\n";
  for (const ChosenSet& set : chosen.others) {
    for (const std::string& why : set.why) text += "  " + why + "\n";
  }
  if (!chosen.substitutes.empty()) text += "Should one be sold out:\n";
  for (const choice::Substitute& one : chosen.substitutes) text += "  " + one.says + "\n";
  return text;
}

/// A set as a board of cuts from light to dark, in inches: each print with its code, its own grey below it.
draw::Display board_of(const quilt::Quilt& quilt, const std::vector<int>& take) {
  constexpr double kCut = 4, kGrey = 1, kGap = 0.4, kCode = 0.8;
  const int columns = static_cast<int>(std::ceil(std::sqrt(1.4 * static_cast<double>(take.size()))));
  const int rows = (static_cast<int>(take.size()) + columns - 1) / columns;
  draw::Display board{columns * (kCut + kGap), rows * (kCut + kGrey + kGap + kCode), {}};
  for (int i = 0; i < static_cast<int>(take.size()); ++i) {
    const print::Print& print = quilt.prints[take[i]];
    const int column = i % columns, row = i / columns;
    const double left = column * (kCut + kGap), top = row * (kCut + kGrey + kGap + kCode);
    board.add(draw::Area{draw::outline_of({left, top, kCut, kCut}),
                         draw::cloth_of(quilt, take[i], 0, static_cast<std::uint64_t>(take[i]))});
    board.add(
        draw::Area{draw::outline_of({left, top + kCut, kCut, kGrey}), draw::colour_of({print.features.lab.L, 0, 0})});
    board.add(draw::Text{print.code,
                         {left + kCut / 2, top + kCut + kGrey + 0.9 * kCode},
                         kCode,
                         draw::Anchor::middle,
                         true,
                         draw::kInk,
                         draw::Role::code});
  }
  return board;
}

Result<Done> draw_sets(const Drawing& drawing, const quilt::Quilt& quilt, const std::string& folder,
                       const choice::ChooseReport& chosen, Problems& warnings) {
  const draw::Swatches swatches = swatches_of(quilt, folder, kExhibitPixels, warnings);
  Exhibits exhibits;
  exhibits.add_display(board_of(quilt, chosen.best.take), swatches, "1  The best set", chosen.best.why);
  for (std::size_t i = 0; i < chosen.others.size(); ++i) {
    exhibits.add_display(board_of(quilt, chosen.others[i].take), swatches,
                         std::to_string(i + 2) + "  " + names_of(quilt, chosen.others[i].enters) + " for " +
                             names_of(quilt, chosen.others[i].leaves),
                         chosen.others[i].why);
  }
  return exhibits.write(quilt, "Prints to choose", drawing);
}

}  // namespace

std::string choose_measure() { return choice::kMeasureInWords; }

Outcome choose(const Choose& options) {
  const Drawing drawing{options.output, options.paper, options.force};
  const Problems wrong = problems_of_drawing(drawing);
  if (!wrong.empty()) return wrong;
  Result<project::Document> document = project::read(options.folder);
  if (!document) return document.problems();
  const quilt::Quilt& quilt = document->quilt;

  Problems problems;
  choice::ChooseOptions how;
  how.take = options.take;
  how.taste.lively = options.lively;
  how.seed = {options.seed};
  how.keep = prints_named(quilt, options.keep, problems);
  how.drop = prints_named(quilt, options.drop, problems);
  if (!problems.empty()) return problems;
  Result<choice::ChooseReport> chosen = choice::choose(quilt.prints, how);
  if (!chosen) return chosen.problems();

  Report report = new_report();
  report["take"] = ids_of(quilt, chosen->best.take);
  report["why"] = chosen->best.why;
  report["cost"] = chosen->best.terms.cost;
  report["others"] = others_json(quilt, chosen->others);
  report["substitutes"] = substitutes_json(quilt, chosen->substitutes);
  report["proven"] = chosen->optimal;
  report["proof"] = chosen->proof;
  Answer answer;
  answer.words = words_of(quilt, *chosen);
  if (!options.output.empty()) {
    Result<Done> drawn = draw_sets(drawing, quilt, options.folder, *chosen, answer.warnings);
    if (!drawn) return drawn.problems();
  }
  put_report(report, answer);
  tell_drawing(drawing, answer);
  return answer;
}

}  // namespace farflung::job
