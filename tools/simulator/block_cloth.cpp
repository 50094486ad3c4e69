#include "simulator/block_cloth.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/field.hpp"

namespace farflung::simulator {
namespace {

std::vector<cv::Point> in_pixels(const Polygon& outline, double per_inch, cv::Point origin = {}) {
  std::vector<cv::Point> corners;
  for (const Point& p : outline) {
    corners.emplace_back(cvRound((p.x.inches() * per_inch - 0.5 - origin.x) * (1 << kShift)),
                         cvRound((p.y.inches() * per_inch - 0.5 - origin.y) * (1 << kShift)));
  }
  return corners;
}

cv::Rect box_of(const Polygon& outline, double per_inch, cv::Size frame) {
  double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
  for (const Point& p : outline) {
    left = std::min(left, p.x.inches() * per_inch);
    right = std::max(right, p.x.inches() * per_inch);
    top = std::min(top, p.y.inches() * per_inch);
    bottom = std::max(bottom, p.y.inches() * per_inch);
  }
  return cv::Rect(cvFloor(left) - 1, cvFloor(top) - 1, cvCeil(right - left) + 3, cvCeil(bottom - top) + 3) &
         cv::Rect({0, 0}, frame);
}

void lay_piece(Pieced& picture, const PieceCut& piece, const Bolts& bolts) {
  const cv::Rect box = box_of(piece.outline, bolts.pixels_per_inch, picture.light.size());
  if (box.empty()) return;
  const cv::Mat& bolt = bolts.light[static_cast<std::size_t>(piece.print)][static_cast<std::size_t>(piece.turn % 4)];
  Rng rng(piece.seed);
  const auto from_row = static_cast<int>(rng.below(static_cast<std::uint32_t>(bolt.rows)));
  const auto from_column = static_cast<int>(rng.below(static_cast<std::uint32_t>(bolt.cols)));
  const cv::Point from(from_column, from_row);
  cv::Mat mask = cv::Mat::zeros(box.size(), CV_8U);
  cv::fillPoly(mask, std::vector<std::vector<cv::Point>>{in_pixels(piece.outline, bolts.pixels_per_inch, box.tl())},
               255, cv::LINE_AA, kShift);
  mask.convertTo(mask, CV_32F, 1 / 255.0);
  cv::Mat light = picture.light(box), shape = picture.shape(box);
  // Where the picture is bare still, cloth is laid whole: its edge fades into the wall later, by its shape.
  cv::Mat cover = mask.clone();
  cover.setTo(1, (shape <= 0) & (mask > 0));
  blended(light, window(bolt, from, box.size()), cover).copyTo(light);
  cv::min(shape + mask, 1, shape);  // two edges that meet cover the pixel between them
}

}  // namespace

Bolts bolts_of(const std::vector<Fabric>& fabrics, double pixels_per_inch) {
  Bolts bolts;
  bolts.pixels_per_inch = pixels_per_inch;
  for (const Fabric& fabric : fabrics) {
    std::array<cv::Mat, 4> turns;
    turns[0] = cloth(fabric, pixels_per_inch);
    cv::rotate(turns[0], turns[1], cv::ROTATE_90_CLOCKWISE);
    cv::rotate(turns[0], turns[2], cv::ROTATE_180);
    cv::rotate(turns[0], turns[3], cv::ROTATE_90_COUNTERCLOCKWISE);
    bolts.light.push_back(turns);
  }
  return bolts;
}

Pieced pieced(const std::vector<PieceCut>& pieces, double width, double height, const Bolts& bolts, double seams) {
  const cv::Size size(std::max(2, cvRound(width * bolts.pixels_per_inch)),
                      std::max(2, cvRound(height * bolts.pixels_per_inch)));
  Pieced picture{cv::Mat::zeros(size, CV_32FC3), cv::Mat::zeros(size, CV_32F)};
  for (const PieceCut& piece : pieces) lay_piece(picture, piece, bolts);
  if (seams <= 0) return picture;

  cv::Mat joins = cv::Mat::zeros(size, CV_8U);
  for (const PieceCut& piece : pieces) {
    cv::polylines(joins, std::vector<std::vector<cv::Point>>{in_pixels(piece.outline, bolts.pixels_per_inch)}, true,
                  255, std::max(1, cvRound(0.03 * bolts.pixels_per_inch)), cv::LINE_AA, kShift);
  }
  cv::Mat shade, soft, three;
  joins.convertTo(shade, CV_32F, 1 / 255.0);
  cv::GaussianBlur(shade, soft, {}, std::max(0.6, 0.06 * bolts.pixels_per_inch));
  shade = 1 - seams * (0.25 * shade + 0.45 * soft);
  cv::merge(std::vector<cv::Mat>{shade, shade, shade}, three);
  picture.light = picture.light.mul(three);
  return picture;
}

}  // namespace farflung::simulator
