#include "job/preview.hpp"

#include "draw/grey.hpp"
#include "draw/top.hpp"
#include "job/laid.hpp"
#include "job/open_quilt.hpp"
#include "render/render.hpp"

namespace farflung::job {
namespace {

bool ends_with(const std::string& text, const std::string& ending) {
  return text.size() >= ending.size() && text.compare(text.size() - ending.size(), ending.size(), ending) == 0;
}

}  // namespace

Outcome preview(const Preview& options) {
  const Problems wrong = problems_of_output(options.output, {".png", ".svg"}, options.force);
  if (!wrong.empty()) return wrong;
  Result<project::Document> document = project::read(options.folder);
  if (document && !options.layout.empty()) document = laid(*document, options.folder, options.layout);
  if (!document) return document.problems();
  if (Problems none = problems_of_top(document->quilt); !none.empty()) return none;

  Answer answer;
  const setting::Plan plan = quilt::plan_of(document->quilt);
  draw::Swatches swatches = swatches_of(document->quilt, options.folder, 1024, answer.warnings);
  draw::Display display = draw::top_of(document->quilt, plan, draw::pinned_up(plan)).display;
  if (options.grey) {
    swatches = draw::in_grey(swatches);
    display = draw::in_grey(display);
  }
  const bool svg = ends_with(options.output, ".svg") || ends_with(options.output, ".SVG");
  Result<std::string> bytes =
      svg ? render::svg(display, swatches, options.width) : render::png(display, swatches, options.width);
  if (!bytes) return bytes.problems();
  Result<Done> written = write_output(options.output, *bytes, options.force);
  if (!written) return written.problems();

  const std::string size = draw::finished_size(document->quilt, plan);
  Report report = new_report();
  report["file"] = options.output;
  report["finished_size"] = size;
  report["problems"] = problems_json(answer);
  if (options.output != "-") answer.words = "Preview of the top, " + size + ": " + options.output + "\n";
  answer.json = options.output == "-" ? "" : text_of(report);
  return answer;
}

}  // namespace farflung::job
