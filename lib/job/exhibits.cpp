#include "job/exhibits.hpp"

#include <cctype>
#include <filesystem>

#include "draw/top.hpp"
#include "render/render.hpp"
#include "sheet/compare.hpp"
#include "sheet/pdf.hpp"

namespace farflung::job {
namespace {

constexpr int kSheetWidth = 1800;
constexpr int kSheetHeight = 1300;
constexpr int kOneRowHeight = 860;  // of a sheet with at most three
constexpr std::size_t kInOneRow = 3;
constexpr int kWordSize = 20;

/// About the weight of a quilting thread, as it shows from a step away; inches.
constexpr double kThreadWidth = 0.06;

std::string ending_of(const std::string& file) {
  std::string ending = std::filesystem::path(file).extension().string();
  for (char& c : ending) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return ending;
}

}  // namespace

Problems problems_of_drawing(const Drawing& drawing) {
  if (drawing.file.empty()) return {};
  Problems problems = problems_of_output(drawing.file, {".png", ".svg", ".pdf"}, drawing.force);
  if (drawing.paper.empty()) return problems;
  if (const Result<sheet::Paper> paper = sheet::paper_named(drawing.paper); !paper) add_problems(problems, paper);
  return problems;
}

void tell_drawing(const Drawing& drawing, Answer& answer) {
  if (drawing.file == "-") {
    answer.words.clear();
    answer.json.clear();
  } else if (!drawing.file.empty()) {
    answer.words += "Drawn side by side: " + drawing.file + "\n";
  }
}

void Exhibits::add_display(draw::Display display, const draw::Swatches& swatches, const std::string& caption,
                           const std::vector<std::string>& notes) {
  const int before = static_cast<int>(swatches_.size());
  for (draw::Item& item : display.items) {
    auto* area = std::get_if<draw::Area>(&item);
    auto* cloth = area == nullptr ? nullptr : std::get_if<draw::Cloth>(&area->paint);
    if (cloth != nullptr) cloth->print += before;
  }
  swatches_.insert(swatches_.end(), swatches.begin(), swatches.end());
  exhibits_.push_back({std::move(display), caption, notes, ""});
}

void Exhibits::add(const quilt::Quilt& quilt, const draw::Swatches& swatches, const std::string& caption,
                   const std::vector<std::string>& notes) {
  add_display(draw::top_of(quilt, quilt::plan_of(quilt)).display, swatches, caption, notes);
}

void Exhibits::add_quilted(const quilt::Quilt& quilt, const draw::Swatches& swatches, const std::vector<Point>& path,
                           const draw::Colour& thread, const std::string& caption,
                           const std::vector<std::string>& notes) {
  draw::Top top = draw::top_of(quilt, quilt::plan_of(quilt));
  draw::Outline line;
  for (const Point& point : path) line.push_back(top.corner + draw::inches(point));
  top.display.add(draw::Line{std::move(line), kThreadWidth, thread, false, {}});
  add_display(std::move(top.display), swatches, caption, notes);
}

Result<std::string> Exhibits::bytes(const quilt::Quilt& quilt, const std::string& title, const Drawing& drawing) const {
  const std::string ending = ending_of(drawing.file);
  if (ending == ".pdf") {
    Result<sheet::Paper> paper = sheet::paper_named(drawing.paper, quilt.units);
    if (!paper) return paper.problems();
    const sheet::Book book{quilt, quilt::plan_of(quilt), *paper};
    return sheet::pdf(sheet::comparison(book, title, exhibits_), swatches_, title);
  }
  const int height = exhibits_.size() <= kInOneRow ? kOneRowHeight : kSheetHeight;
  const draw::Display sheet = draw::side_by_side(exhibits_, kSheetWidth, height, kWordSize);
  return ending == ".svg" ? render::svg(sheet, swatches_, kSheetWidth) : render::png(sheet, swatches_, kSheetWidth);
}

Result<Done> Exhibits::write(const quilt::Quilt& quilt, const std::string& title, const Drawing& drawing) const {
  Result<std::string> picture = bytes(quilt, title, drawing);
  if (!picture) return picture.problems();
  return write_output(drawing.file, *picture, drawing.force);
}

}  // namespace farflung::job
