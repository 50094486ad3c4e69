#include "job/quilts.hpp"

#include "base/limits.hpp"
#include "draw/top.hpp"
#include "job/open_quilt.hpp"
#include "project/disk.hpp"

namespace farflung::job {

Outcome summary(const std::string& folder) {
  Report report = new_report();
  const Result<project::Document> document = project::read(folder);
  if (!document) {
    report["problems"] = problems_json(document.problems());
    return Answer{"", text_of(report), document.problems(), true};
  }
  const quilt::Quilt& quilt = document->quilt;
  std::size_t laid = 0;
  for (const int block : quilt.layout.block) laid += block == quilt::kNone ? 0 : 1;
  report["title"] = quilt.title;
  report["finished_size"] = draw::finished_size(quilt, quilt::plan_of(quilt));
  report["blocks"] = quilt.blocks.size();
  report["cells"] = quilt.layout.block.size();
  report["laid"] = laid;
  report["prints"] = quilt.prints.size();
  return Answer{"", text_of(report), {}, true};
}

Result<std::string> quilt_text(const std::string& folder) {
  return project::disk::read_file(folder + "/quilt.json", limits::kFileBytes);
}

}  // namespace farflung::job
