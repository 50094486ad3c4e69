#include "job/sewing.hpp"

#include <cctype>

#include "cloth/sewing.hpp"
#include "job/open_quilt.hpp"

namespace farflung::job {
namespace {

std::string large(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

/// Odd rows one way, even rows the other, so that they nest; with sashing all to the sash.
std::string press_words(const quilt::Quilt& quilt, const cloth::SewingRow& row, std::size_t index) {
  if (row.seams.empty() || row.name == "corner") return "";
  if (quilt.setting.sashing) return "Press toward the sashes.";
  return index % 2 == 0 ? "Press the seams to the right." : "Press the seams to the left.";
}

Report row_json(const quilt::Quilt& quilt, const cloth::SewingRow& row, std::size_t index) {
  Report cells = Report::array();
  for (const cloth::RowPlace& place : row.places) {
    cells.push_back(place.kind == cloth::RowPlace::Kind::filler ? Report(nullptr) : Report(place.cell));
  }
  Report seams = Report::array();
  for (const std::string& seam : row.seams) seams.push_back("Sew the " + seam + ".");
  return {{"name", large(row.name)},
          {"stack", large(row.stack)},
          {"cells", cells},
          {"seams", seams},
          {"press", press_words(quilt, row, index)}};
}

}  // namespace

Outcome sewing(const std::string& folder) {
  const Result<project::Document> document = project::read(folder);
  if (!document) return document.problems();
  const cloth::SewingOrder order = cloth::sewing_order(document->quilt);
  Report report = new_report();
  report["rows"] = Report::array();
  for (std::size_t i = 0; i < order.rows.size(); ++i) {
    report["rows"].push_back(row_json(document->quilt, order.rows[i], i));
  }
  report["steps"] = order.steps;
  return Answer{"", text_of(report), {}, true};
}

}  // namespace farflung::job
