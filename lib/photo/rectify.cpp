#include "photo/rectify.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "photo/mat.hpp"

namespace farflung::photo {
namespace {

double length(const Corners& corners, int from, int to) {
  return std::hypot(corners[to][0] - corners[from][0], corners[to][1] - corners[from][1]);
}

/// photo_from_unit: the unit square's corners to `corners`.
cv::Matx33d photo_from_unit(const Corners& corners) {
  const cv::Point2f unit[4] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
  cv::Point2f seen[4];
  for (int i = 0; i < 4; ++i)
    seen[i] = cv::Point2f(static_cast<float>(corners[i][0]), static_cast<float>(corners[i][1]));
  return cv::getPerspectiveTransform(unit, seen);
}

}  // namespace

double aspect(const Corners& corners, double columns, double rows) {
  constexpr double kFocalOfDiagonal = 0.62;
  const double focal = kFocalOfDiagonal * std::hypot(columns, rows);
  Corners centred = corners;
  for (auto& corner : centred) corner = {(corner[0] - columns / 2) / focal, (corner[1] - rows / 2) / focal};
  const cv::Matx33d h = photo_from_unit(centred);
  const auto column = [&](int c) { return std::sqrt(h(0, c) * h(0, c) + h(1, c) * h(1, c) + h(2, c) * h(2, c)); };
  const double ratio = column(0) / column(1);
  return std::isfinite(ratio) && ratio > 0.02 && ratio < 50 ? ratio : 1;
}

Picture rectified(const Picture& picture, const Corners& corners, const RectifyOptions& options) {
  return rectified_whole(picture, corners, options).picture;
}

Rectified rectified_whole(const Picture& picture, const Corners& corners, const RectifyOptions& options) {
  const double across = (length(corners, 0, 1) + length(corners, 3, 2)) / 2;
  const double down = (length(corners, 0, 3) + length(corners, 1, 2)) / 2;
  const double ratio = options.aspect > 0 ? options.aspect : aspect(corners, picture.columns, picture.rows);
  // As many pixels as the cloth has in the photograph, in its true proportions.
  double width = std::sqrt(across * down * ratio), height = width / ratio;
  const double shrink = std::min(1.0, options.longest / std::max(width, height));
  const double margin = (options.depth + options.trim * std::min(across, down)) * width / across * shrink;
  width *= shrink, height *= shrink;
  const int columns = std::max(8, static_cast<int>(std::lround(width - 2 * margin)));
  const int rows = std::max(8, static_cast<int>(std::lround(height - 2 * margin)));
  const double left = (width - columns) / 2, top = (height - rows) / 2;

  // Pixel centres lie half a pixel in; the warp speaks of centres on both sides.
  const cv::Matx33d unit_from_swatch(1 / width, 0, (left + 0.5) / width, 0, 1 / height, (top + 0.5) / height, 0, 0, 1);
  const cv::Matx33d centres_from_photo(1, 0, -0.5, 0, 1, -0.5, 0, 0, 1);
  const cv::Matx33d photo_from_swatch = centres_from_photo * photo_from_unit(corners) * unit_from_swatch;
  cv::Mat source = view(picture), flat;
  if (shrink < 0.7) {
    cv::Mat smooth;
    cv::GaussianBlur(source, smooth, {}, 0.35 / shrink);
    source = smooth;
  }
  cv::warpPerspective(source, flat, photo_from_swatch, {columns, rows}, cv::INTER_LINEAR | cv::WARP_INVERSE_MAP,
                      cv::BORDER_REPLICATE);
  return {picture_from(flat), columns / width};
}

}  // namespace farflung::photo
