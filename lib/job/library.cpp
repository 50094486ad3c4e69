#include "job/library.hpp"

#include "job/drawn_json.hpp"
#include "project/patterns.hpp"
#include "project/sizes.hpp"
#include "quilt/cloth_kinds.hpp"
#include "sheet/sheets.hpp"

namespace farflung::job {
namespace {

Report cloth_json(quilt::Units units) {
  Report kinds = Report::array();
  for (const quilt::ClothKind& kind : quilt::cloth_kinds(units)) {
    const bool by_length = kind.usable_length == Length();
    kinds.push_back({{"kind", kind.name},
                     {"many", kind.many},
                     {"usable_width", kind.usable_width.inches()},
                     {"usable_length", by_length ? Report(nullptr) : Report(kind.usable_length.inches())}});
  }
  return kinds;
}

}  // namespace

Outcome library() {
  const Result<std::vector<block::Pattern>> patterns = project::library_patterns();
  if (!patterns) return patterns.problems();
  const Result<std::vector<project::Size>> sizes = project::common_sizes();
  if (!sizes) return sizes.problems();
  Report report = new_report();
  report["patterns"] = patterns_json(*patterns);
  report["sizes"] = Report::array();
  for (const project::Size& size : *sizes) {
    report["sizes"].push_back({{"name", size.name},
                               {"width", size.width.inches()},
                               {"height", size.height.inches()},
                               {"note", size.note},
                               {"metric_note", size.metric_note},
                               {"caution", size.caution}});
  }
  report["cloth"] = {{"inches", cloth_json(quilt::Units::inches)}, {"metric", cloth_json(quilt::Units::millimetres)}};
  report["sheets"] = Report::array();
  for (const sheet::Kind& kind : sheet::kinds()) {
    report["sheets"].push_back({{"name", kind.name}, {"says", kind.says}});
  }
  return Answer{"", text_of(report), {}, true};
}

}  // namespace farflung::job
