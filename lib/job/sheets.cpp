#include "job/sheets.hpp"

#include "base/counted.hpp"
#include "draw/top.hpp"
#include "job/open_quilt.hpp"
#include "score/nesting.hpp"
#include "sheet/pdf.hpp"
#include "sheet/sheets.hpp"

namespace farflung::job {

std::string sheets_by_name() {
  std::string text = "The sheets, by name:";
  for (const sheet::Kind& kind : sheet::kinds()) {
    text += std::string(text.back() == ':' ? " " : "; ") + kind.name + " - " + kind.says;
  }
  return text + ".";
}

Outcome sheets(const Sheets& options) {
  const Problems wrong = problems_of_output(options.output, {".pdf"}, options.force);
  if (!wrong.empty()) return wrong;
  Result<project::Document> document = project::read(options.folder);
  if (!document) return document.problems();
  if (Problems none = problems_of_top(document->quilt); !none.empty()) return none;
  const Result<sheet::Paper> paper = sheet::paper_named(options.paper, document->quilt.units);
  if (!paper) return paper.problems();
  const Result<cloth::WorkroomOptions> how = workroom_options(options.how, document->quilt.units);
  if (!how) return how.problems();

  Answer answer;
  constexpr int kSwatchPixels = 1024;
  const draw::Swatches swatches = swatches_of(document->quilt, options.folder, kSwatchPixels, answer.warnings);
  sheet::Order order{*paper, options.only};
  order.workroom = *how;
  order.left_handed = options.left_handed;
  const quilt::Quilt pressed = score::pressed_to_nest(document->quilt);
  const Result<std::vector<sheet::Page>> pages = sheet::sheaf_of(pressed, order);
  if (!pages) return pages.problems();
  Result<std::string> bytes = sheet::pdf(*pages, swatches, document->quilt.title);
  if (!bytes) return bytes.problems();
  Result<Done> written = write_output(options.output, *bytes, options.force);
  if (!written) return written.problems();

  Report report = new_report();
  report["file"] = options.output;
  report["paper"] = paper->name;
  report["pages"] = Report::array();
  for (const sheet::Page& page : *pages) report["pages"].push_back({{"section", page.section}, {"part", page.part}});
  report["problems"] = problems_json(answer);
  if (options.output == "-") return answer;
  answer.words = counted(pages->size(), "page", "pages") + " on " + paper->name + ": " + options.output + "\n";
  answer.json = text_of(report);
  return answer;
}

}  // namespace farflung::job
