#include "simulator/lay.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/field.hpp"

namespace farflung::simulator {
namespace {

cv::Matx33d moved(double x, double y) { return {1, 0, x, 0, 1, y, 0, 0, 1}; }

cv::Rect around(const LaidCloth& cloth, int more, cv::Size frame) {
  const double right = cloth.light.cols - 0.5, bottom = cloth.light.rows - 0.5;
  cv::Point2d low(1e9, 1e9), high(-1e9, -1e9);
  for (const cv::Point2d corner : {cv::Point2d(-0.5, -0.5), {right, -0.5}, {right, bottom}, {-0.5, bottom}}) {
    const cv::Point2d p = projected(cloth.photo_from_picture, corner);
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  const cv::Rect box(cvFloor(low.x) - more, cvFloor(low.y) - more, cvCeil(high.x - low.x) + 2 * more + 1,
                     cvCeil(high.y - low.y) + 2 * more + 1);
  return box & cv::Rect({0, 0}, frame);
}

void lay_shadow(cv::Mat& part, const cv::Mat& shape, const Light& light, double pixels) {
  const double angle = light.shadow_toward * CV_PI / 180;
  const cv::Matx23d shift(1, 0, pixels * std::cos(angle), 0, 1, pixels * std::sin(angle));
  cv::Mat shadow, three;
  cv::warpAffine(shape, shadow, shift, shape.size(), cv::INTER_LINEAR, cv::BORDER_REPLICATE);
  cv::GaussianBlur(shadow, shadow, {}, std::max(0.6, 0.7 * pixels));
  shadow = 1 - light.shadow_depth * shadow;
  cv::merge(std::vector<cv::Mat>{shadow, shadow, shadow}, three);
  cv::multiply(part, three, part);
}

}  // namespace

void lay(cv::Mat& photograph, const LaidCloth& cloth, const Light& light) {
  const cv::Rect box = around(cloth, cvCeil(4 * cloth.stands_off) + 3, photograph.size());
  if (box.empty()) return;
  const cv::Mat box_from_picture(moved(-box.x, -box.y) * cloth.photo_from_picture);
  cv::Mat laid, shape, part = photograph(box);
  cv::warpPerspective(cloth.light, laid, box_from_picture, box.size(), cv::INTER_LINEAR, cv::BORDER_REPLICATE);
  cv::warpPerspective(cloth.shape, shape, box_from_picture, box.size(), cv::INTER_LINEAR, cv::BORDER_CONSTANT, 0);
  if (cloth.stands_off > 0) lay_shadow(part, shape, light, cloth.stands_off);
  blended(part, laid, shape).copyTo(part);
}

double scale_at(const cv::Matx33d& photo_from_table, cv::Point2d place) {
  const cv::Point2d here = projected(photo_from_table, place);
  const cv::Point2d right = projected(photo_from_table, place + cv::Point2d(0.5, 0)) - here;
  const cv::Point2d down = projected(photo_from_table, place + cv::Point2d(0, 0.5)) - here;
  return std::hypot(right.x, right.y) + std::hypot(down.x, down.y);
}

}  // namespace farflung::simulator
