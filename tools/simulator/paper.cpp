#include "simulator/paper.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/light.hpp"
#include "simulator/scene.hpp"
#include "simulator/shapes.hpp"

namespace farflung::simulator {
namespace {

/// Ink runs a little into the white beside it. `page` is CV_8U linear: 255 white.
void run_ink(cv::Mat& page, double spread_in_pixels) {
  const cv::Mat ink = 255 - page;
  const auto w = static_cast<float>(spread_in_pixels);
  cv::Mat beside;
  cv::filter2D(ink, beside, CV_8U, cv::Mat(cv::Matx33f(0, w, 0, w, 0, w, 0, w, 0)), {-1, -1}, 0, cv::BORDER_CONSTANT);
  page = 255 - cv::max(ink, beside);
}

/// `page` is CV_32FC3 linear, 1 where it is white, 0 where it is black.
Paper inked(const cv::Mat& page, double width, double height, const Stationery& stationery) {
  Paper paper;
  const cv::Vec3d white = stationery.white - cv::Vec3d::all(stationery.black);
  cv::multiply(page, cv::Scalar(white[0], white[1], white[2]), paper.light);
  paper.light += cv::Scalar::all(stationery.black);
  paper.width = width;
  paper.height = height;
  return paper;
}

}  // namespace

Stationery stationery(Seed seed) {
  Rng rng(seed);
  Stationery drawn;
  const double bright = rng.between(0.97, 1.03), blue = rng.between(-0.018, 0.018), pink = rng.between(-0.006, 0.006);
  drawn.white = {drawn.white[0] * (bright + pink), drawn.white[1] * bright, drawn.white[2] * (bright + blue)};
  drawn.black = rng.between(0.025, 0.048);
  drawn.spread = rng.between(0.0004, 0.002);
  return drawn;
}

Paper printed(const cv::Mat& page, double width, double height, const Stationery& stationery) {
  cv::Mat colour = page;
  if (page.channels() == 1) cv::cvtColor(page, colour, cv::COLOR_GRAY2RGB);
  return inked(linear_picture(colour), width, height, stationery);
}

Paper page_of_boxes(const std::vector<cv::Rect2d>& black, const std::optional<cv::Rect2d>& window, double width,
                    double height, const Stationery& stationery) {
  constexpr double kPerInch = 200;
  const cv::Size size(cvRound(width * kPerInch), cvRound(height * kPerInch));
  const auto in_pixels = [&](const cv::Rect2d& box) {
    const cv::Point from(cvRound((box.x + width / 2) * kPerInch), cvRound((box.y + height / 2) * kPerInch));
    const cv::Point to(cvRound((box.x + box.width + width / 2) * kPerInch),
                       cvRound((box.y + box.height + height / 2) * kPerInch));
    return cv::Rect(from, to) & cv::Rect({0, 0}, size);
  };
  cv::Mat page(size, CV_8U, cv::Scalar(255));
  for (const cv::Rect2d& box : black) page(in_pixels(box)).setTo(0);
  run_ink(page, stationery.spread * kPerInch);
  cv::Mat linear;
  cv::cvtColor(page, linear, cv::COLOR_GRAY2RGB);
  linear.convertTo(linear, CV_32F, 1 / 255.0);
  Paper paper = inked(linear, width, height, stationery);
  if (window) {
    paper.shape = cv::Mat::ones(size, CV_32F);
    paper.shape(in_pixels(*window)).setTo(0);
    paper.over = true;
  }
  return paper;
}

std::array<cv::Point2d, 4> corners_of(const Paper& paper) {
  const double angle = paper.degrees * CV_PI / 180;
  const cv::Point2d right = toward(angle) * (paper.width / 2), down = toward(angle + CV_PI / 2) * (paper.height / 2);
  return {paper.centre - right - down, paper.centre + right - down, paper.centre + right + down,
          paper.centre - right + down};
}

void lay_beside(Scene& scene, Paper paper, double gap) {
  double right = 0, top = 1e9, bottom = -1e9;
  for (const Placed& cloth : scene.cloths) {
    for (const cv::Point2d corner : corners_of(cloth)) {
      right = std::max(right, corner.x);
      top = std::min(top, corner.y);
      bottom = std::max(bottom, corner.y);
    }
  }
  if (scene.cloths.empty()) top = bottom = 0;
  const double angle = paper.degrees * CV_PI / 180;
  const double reach = (paper.width * std::abs(std::cos(angle)) + paper.height * std::abs(std::sin(angle))) / 2;
  paper.centre = {right + gap + reach, (top + bottom) / 2};
  scene.papers.push_back(paper);
}

}  // namespace farflung::simulator
