#include "job/cloth_short.hpp"

#include "choice/words.hpp"
#include "cloth/yields.hpp"
#include "job/cloth.hpp"
#include "job/open_quilt.hpp"

namespace farflung::job {

std::string short_words(const quilt::Quilt& quilt, const std::vector<int>& prints) {
  if (prints.empty()) return "";
  constexpr std::size_t kNamed = 6;
  std::vector<std::string> names;
  names.reserve(prints.size());
  for (const int print : prints) names.push_back(print::name_of(quilt.prints[print]));
  if (names.size() > kNamed + 1) {
    names.resize(kNamed);
    names.push_back(std::to_string(prints.size() - kNamed) + " more prints");
  }
  return "The cloth in hand is not enough for " + choice::listed(names) + ": farflung cloth says what is missing.";
}

Outcome cloth_short(const std::string& folder) {
  const Result<project::Document> document = open_quilt(folder);
  if (!document) return document.problems();
  Report report = new_report();
  report["short"] = Report::array();
  for (const int print : cloth::all_short(document->quilt)) {
    report["short"].push_back(document->quilt.prints[print].id);
  }
  return Answer{"", text_of(report), {}, true};
}

}  // namespace farflung::job
