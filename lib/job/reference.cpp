#include "job/reference.hpp"

#include "job/open_quilt.hpp"
#include "sheet/pdf.hpp"
#include "sheet/reference_page.hpp"

namespace farflung::job {

Outcome reference_sheet(const ReferenceSheet& options) {
  Result<sheet::Paper> paper = sheet::paper_named(options.paper);
  if (!paper) return paper.problems();
  const Problems wrong = problems_of_output(options.output, {".pdf"}, options.force);
  if (!wrong.empty()) return wrong;
  Result<std::string> bytes = sheet::pdf({sheet::reference_page(*paper)}, {}, "Reference sheet");
  if (!bytes) return bytes.problems();
  Result<Done> written = write_output(options.output, *bytes, options.force);
  if (!written) return written.problems();
  Answer answer;
  if (options.output == "-") return answer;
  Report report = new_report();
  report["file"] = options.output;
  report["paper"] = options.paper;
  answer.json = text_of(report);
  answer.words = "Reference sheet: " + options.output +
                 "\nPrint it at 100 %, not fitted to the page, and lay a ruler on its two lines.\n";
  return answer;
}

}  // namespace farflung::job
