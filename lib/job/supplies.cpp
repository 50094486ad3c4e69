#include "job/supplies.hpp"

#include <algorithm>

#include "choice/supplies.hpp"
#include "job/open_quilt.hpp"

namespace farflung::job {

Outcome supplies(const std::string& folder) {
  Result<project::Document> document = project::read(folder);
  if (!document) return document.problems();
  const quilt::Quilt& quilt = document->quilt;
  if (quilt.blocks.empty()) {
    return input_problem(folder, "the quilt has no blocks yet", "lay it out first: farflung arrange " + typed(folder));
  }
  const choice::SupplyList list = choice::supplies_of(quilt);
  if (list.lines.empty()) {
    return input_problem(folder, "no block has its prints yet", "deal them: farflung arrange " + typed(folder));
  }

  Report report = new_report();
  report["says"] = list.says;
  report["supplies"] = Report::array();
  Answer answer;
  answer.words = "To bring: " + list.says + ".\n";
  for (const choice::Supply& supply : list.lines) {
    Report ids = Report::array();
    std::string names;
    for (int print : supply.prints) {
      const print::Print& one = quilt.prints[print];
      ids.push_back(one.id);
      names += (names.empty() ? "" : ", ") + print::name_of(one);
    }
    report["supplies"].push_back({{"part", choice::part_name(supply.part)},
                                  {"count", std::max<std::size_t>(1, supply.prints.size())},
                                  {"prints", ids},
                                  {"pieces", supply.pieces},
                                  {"square_inches", supply.cut_area},
                                  {"most_of_one", supply.largest_share},
                                  {"says", supply.says}});
    answer.words += "  " + supply.says + (names.empty() ? "" : "  (here " + names + ")") + "\n";
  }
  answer.words +=
      "Areas are of the pieces, seam allowances in; what cutting loses comes on top: farflung cloth says how much to "
      "buy.\n";
  answer.json = text_of(report);
  return answer;
}

}  // namespace farflung::job
