#include "job/choose.hpp"

#include "choice/choose.hpp"
#include "job/open_quilt.hpp"

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
  for (int print : prints) text += (text.empty() ? "" : ", ") + quilt.prints[print].name;
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
  if (!chosen.others.empty()) text += "The next best:\n";
  for (const ChosenSet& set : chosen.others) {
    text += "  " + names_of(quilt, set.enters) + " for " + names_of(quilt, set.leaves);
    for (const std::string& why : set.why) text += ": " + why;
    text += "\n";
  }
  for (const choice::Substitute& one : chosen.substitutes) text += "  " + one.says + "\n";
  return text;
}

}  // namespace

std::string choose_measure() { return choice::kMeasureInWords; }

Outcome choose(const Choose& options) {
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
  return Answer{words_of(quilt, *chosen), text_of(report), {}, true};
}

}  // namespace farflung::job
