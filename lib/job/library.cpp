#include "job/library.hpp"

#include "job/drawn_json.hpp"
#include "project/patterns.hpp"
#include "project/sizes.hpp"

namespace farflung::job {

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
  return Answer{"", text_of(report), {}, true};
}

}  // namespace farflung::job
