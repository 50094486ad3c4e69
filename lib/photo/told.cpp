#include "photo/told.hpp"

#include <algorithm>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "photo/lab_table.hpp"
#include "photo/ruled.hpp"

namespace farflung::photo {
namespace {

/// A picture of the surface's colours stretched to `columns` x `rows`, a row at a time.
class Stretched {
 public:
  Stretched(const cv::Mat& picture, int columns, int rows) : picture_(picture), rows_(rows), between_(picture.cols) {
    for (int column = 0; column < columns; ++column) places_.push_back(place(column, columns, picture.cols));
  }

  void read(int row, LabRow& into) {
    const Place y = place(row, rows_, picture_.rows);
    const auto *above = picture_.ptr<cv::Vec3f>(y.before), *below = picture_.ptr<cv::Vec3f>(y.after);
    for (int i = 0; i < picture_.cols; ++i) between_.set(i, above[i] * (1 - y.part) + below[i] * y.part);
    stretch(between_.L, into.L);
    stretch(between_.a, into.a);
    stretch(between_.b, into.b);
  }

 private:
  struct Place {
    int before, after;
    float part;
  };

  static Place place(int index, int count, int from) {
    const float at = std::clamp((index + 0.5F) * from / count - 0.5F, 0.0F, from - 1.0F);
    const int before = static_cast<int>(at);
    return {before, std::min(before + 1, from - 1), at - before};
  }

  void stretch(const std::vector<float>& from, std::vector<float>& to) const {
    for (std::size_t i = 0; i < places_.size(); ++i) {
      const Place& x = places_[i];
      to[i] = from[x.before] * (1 - x.part) + from[x.after] * x.part;
    }
  }

  const cv::Mat& picture_;
  int rows_;
  LabRow between_;  ///< the picture's rows about the one asked for, blended
  std::vector<Place> places_;
};

}  // namespace

Told told_from(const cv::Mat& rgb, const Surface& surface, double thin) {
  cv::Mat plain(rgb.size(), CV_8U), shaded(rgb.size(), CV_8U);
  Told told;
  told.unlike.create(rgb.size(), CV_32F);
  const LabTable& table = LabTable::get();
  Stretched expected(surface.expected, rgb.cols, rgb.rows);
  LabRow seen(rgb.cols), bare(rgb.cols);
  std::vector<float> squared(rgb.cols);
  for (int row = 0; row < rgb.rows; ++row) {
    const auto* pixels = rgb.ptr<cv::Vec3b>(row);
    for (int column = 0; column < rgb.cols; ++column) seen.set(column, table.lab(pixels[column]));
    expected.read(row, bare);
    auto* u = told.unlike.ptr<float>(row);
    surface.squared_unlike(seen, bare, squared.data(), u);
    auto *p = plain.ptr(row), *s = shaded.ptr(row);
    for (int column = 0; column < rgb.cols; ++column) {
      p[column] = squared[column] < kUnlike * kUnlike ? 255 : 0;
      s[column] = p[column] != 0 || u[column] < kUnlike * kUnlike ? 255 : 0;
    }
  }
  cv::sqrt(told.unlike, told.unlike);
  cv::Mat broad, mask;
  const int width = 2 * static_cast<int>(thin / 2) + 1;
  cv::morphologyEx(shaded & ~plain, broad, cv::MORPH_OPEN, cv::getStructuringElement(cv::MORPH_RECT, {width, width}));
  cv::Mat open = plain | (shaded & ~broad);
  const cv::Mat lines = ruled_lines(~open);
  if (!lines.empty()) {
    open |= lines;
    told.unlike.setTo(0, lines);
  }
  cv::copyMakeBorder(~open, mask, 1, 1, 1, 1, cv::BORDER_CONSTANT, cv::Scalar(0));
  cv::floodFill(mask, {0, 0}, 128);
  told.cloth = mask(cv::Rect(1, 1, rgb.cols, rgb.rows)) != 128;
  cv::morphologyEx(told.cloth, told.cloth, cv::MORPH_OPEN, cv::getStructuringElement(cv::MORPH_ELLIPSE, {5, 5}));
  return told;
}

}  // namespace farflung::photo
