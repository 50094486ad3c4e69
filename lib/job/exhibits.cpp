#include "job/exhibits.hpp"

#include "draw/top.hpp"
#include "render/render.hpp"

namespace farflung::job {
namespace {

constexpr int kSheetWidth = 1800;
constexpr int kSheetHeight = 1300;
constexpr int kOneRowHeight = 860;  // of a sheet with at most three
constexpr std::size_t kInOneRow = 3;
constexpr int kWordSize = 20;

/// About the weight of a quilting thread, as it shows from a step away; inches.
constexpr double kThreadWidth = 0.06;

}  // namespace

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

Result<Done> Exhibits::write(const std::string& file, bool force) const {
  const draw::Display sheet = draw::side_by_side(
      exhibits_, kSheetWidth, exhibits_.size() <= kInOneRow ? kOneRowHeight : kSheetHeight, kWordSize);
  const bool svg =
      file.size() > 4 && (file.substr(file.size() - 4) == ".svg" || file.substr(file.size() - 4) == ".SVG");
  Result<std::string> bytes =
      svg ? render::svg(sheet, swatches_, kSheetWidth) : render::png(sheet, swatches_, kSheetWidth);
  if (!bytes) return bytes.problems();
  return write_output(file, *bytes, force);
}

}  // namespace farflung::job
