#include "simulator/paper.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/light.hpp"
#include "simulator/scene.hpp"
#include "simulator/shapes.hpp"

namespace farflung::simulator {
namespace {

constexpr double kInkBlack = 0.035;

}  // namespace

cv::Vec3d paper_white() { return {0.855, 0.86, 0.872}; }

Paper printed(const cv::Mat& page, double width, double height) {
  cv::Mat colour = page;
  if (page.channels() == 1) cv::cvtColor(page, colour, cv::COLOR_GRAY2RGB);
  Paper paper;
  const cv::Vec3d white = paper_white();
  cv::multiply(linear_picture(colour), cv::Scalar(white[0] - kInkBlack, white[1] - kInkBlack, white[2] - kInkBlack),
               paper.light);
  paper.light += cv::Scalar::all(kInkBlack);
  paper.width = width;
  paper.height = height;
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
