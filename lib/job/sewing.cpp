#include "job/sewing.hpp"

#include "cloth/sewing.hpp"
#include "draw/text.hpp"
#include "job/open_quilt.hpp"

namespace farflung::job {
namespace {

Report row_json(const cloth::SewingRow& row) {
  Report cells = Report::array();
  for (const cloth::RowPlace& place : row.places) {
    cells.push_back(place.kind == cloth::RowPlace::Kind::filler ? Report(nullptr) : Report(place.cell));
  }
  Report seams = Report::array();
  for (const std::string& seam : row.seams) seams.push_back("Sew the " + seam + ".");
  return {{"name", draw::capital(row.name)},
          {"stack", draw::capital(row.stack)},
          {"cells", cells},
          {"seams", seams},
          {"press", row.seams.empty() ? "" : draw::capital(row.press) + "."}};
}

}  // namespace

Outcome sewing(const std::string& folder) {
  const Result<project::Document> document = project::read(folder);
  if (!document) return document.problems();
  const cloth::SewingOrder order = cloth::sewing_order(document->quilt);
  Report report = new_report();
  report["rows"] = Report::array();
  for (const cloth::SewingRow& row : order.rows) report["rows"].push_back(row_json(row));
  report["steps"] = order.steps;
  return Answer{"", text_of(report), {}, true};
}

}  // namespace farflung::job
