#include "wall/judge.hpp"

#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

namespace farflung::wall {

Misfits::Misfits(const Evidence& evidence, const Book& book, const Light& light)
    : patches_(evidence.patches), prints_(book.prints()) {
  table_.reserve(static_cast<std::size_t>(evidence.cells()) * patches_ * prints_);
  for (int cell = 0; cell < evidence.cells(); ++cell) {
    for (int patch = 0; patch < patches_; ++patch) {
      for (int print = 0; print < prints_; ++print) {
        table_.push_back(light.misfit(evidence, cell, patch, book.of(patch, print)));
      }
    }
  }
}

Settled settled(const Evidence& evidence, const Book& book, const Look& mean_of_prints,
                const std::vector<Light::Sample>& start,
                const std::function<Opinion(const Misfits&, bool last)>& opinion) {
  Light light(evidence, mean_of_prints);
  if (!start.empty()) light.fit(evidence, book, start, 2);
  Misfits misfits(evidence, book, light);
  Opinion now = opinion(misfits, false);
  constexpr int kDegrees[] = {0, 1, 1, 2, 2, 3, 3};
  for (const int degree : kDegrees) {
    if (degree < 2 && !start.empty()) continue;
    light.fit(evidence, book, now.samples, degree);
    misfits = Misfits(evidence, book, light);
    now = opinion(misfits, false);
  }
  const double misfit = now.misfit;
  const double patches = static_cast<double>(now.samples.size());
  now = opinion(misfits, true);
  const double worth = misfit + light.uncertainty() * patches;
  return {std::move(misfits), std::move(now), worth};
}

std::optional<photo::Corners> corners_of(const photo::Picture& photograph, const quilt::Quilt& quilt,
                                         const setting::Plan& plan, const Grid& grid, const ReadOptions& options) {
  if (options.corners) return options.corners;
  const std::optional<photo::Corners> found = outer_corners(photograph);
  if (!found || options.laid == Laid::blocks || quilt.setting.borders.empty()) return found;
  // Of a top the outer edge of the borders is seen.
  Grid whole = grid;
  whole.box = {0, 0, plan.width.inches(), plan.height.inches()};
  const cv::Matx33d photo_from_top = photo_from_wall(whole, *found);
  photo::Corners corners{};
  const cv::Rect2d& box = grid.box;
  const cv::Point2d of_box[4] = {
      {box.x, box.y}, {box.x + box.width, box.y}, {box.x + box.width, box.y + box.height}, {box.x, box.y + box.height}};
  for (std::size_t k = 0; k < 4; ++k) {
    const cv::Vec3d seen = photo_from_top * cv::Vec3d(of_box[k].x, of_box[k].y, 1);
    corners[k] = {seen[0] / seen[2], seen[1] / seen[2]};
  }
  return corners;
}

std::vector<double> gaps_of(Laid laid) {
  if (laid == Laid::top) return {0};
  return {0.1, 0.5};
}

}  // namespace farflung::wall
