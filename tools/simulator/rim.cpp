#include "simulator/rim.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/field.hpp"
#include "simulator/light.hpp"
#include "simulator/shapes.hpp"

namespace farflung::simulator {
namespace {

struct Part {
  Shape shape;  ///< x along the way in, its tip at 1; y to the right of it
  Ink ink;
};

// A finger or a thumb: a round-ended stroke with its light side and its nail.
void add_finger(std::vector<Part>& parts, cv::Point2d root, cv::Point2d tip, double width, Ink skin) {
  const cv::Point2d along = tip - root;
  const double length = std::hypot(along.x, along.y), angle = std::atan2(along.y, along.x);
  const cv::Point2d on = along * (1 / length), side(-on.y, on.x);
  const auto outline = [&](double w) {
    Shape shape;
    for (int i = 0; i <= 12; ++i) {
      shape.push_back(tip + toward(angle - CV_PI / 2 + CV_PI * i / 12) * (w / 2) - on * (width / 2));
    }
    shape.push_back(root + side * (w * 0.56));
    shape.push_back(root - side * (w * 0.56));
    return shape;
  };
  parts.push_back({outline(width), mixed(skin, 0x5a3020, 0.28)});
  parts.push_back({outline(width * 0.78), skin});
  parts.push_back({ellipse(tip - on * (width * 0.55), width * 0.34, width * 0.26, angle), mixed(skin, 0xffe8e0, 0.45)});
}

std::vector<Part> hand(Ink skin) {
  std::vector<Part> parts;
  add_finger(parts, {-0.05, -0.62}, {0.34, -0.86}, 0.24, skin);
  const double tips[] = {0.84, 1.0, 0.93, 0.70};
  for (int k = 0; k < 4; ++k) {
    const double y = -0.36 + 0.24 * k;
    add_finger(parts, {-0.2, y}, {tips[k], y * 1.25}, 0.21, skin);
  }
  Shape palm;
  for (const cv::Point2d p : ellipse({-0.45, -0.02}, 0.66, 0.60, 0)) palm.push_back(p);
  parts.push_back({palm, skin});
  return parts;
}

std::vector<Part> scissors(Ink handles) {
  const Ink steel = 0xb9bec4, shine = 0xe6e9ec;
  std::vector<Part> parts;
  for (int way = -1; way <= 1; way += 2) {
    const double w = way;
    parts.push_back({{{0.02, 0.055 * w}, {0.05, -0.045 * w}, {1.0, -0.16 * w}, {0.94, -0.10 * w}}, steel});
    parts.push_back({{{0.06, 0.0}, {0.06, -0.03 * w}, {1.0, -0.16 * w}}, shine});
    parts.push_back({{{0.06, 0.06 * w}, {0.02, -0.05 * w}, {-0.35, 0.14 * w}, {-0.30, 0.26 * w}}, handles});
    parts.push_back({ellipse({-0.52, 0.28 * w}, 0.28, 0.17, 0.25 * w), handles});
  }
  parts.push_back({circle({0.03, 0}, 0.035), mixed(steel, 0x000000, 0.4)});
  return parts;
}

}  // namespace

void lay_stray(cv::Mat& picture, const Stray& stray, double shadow_depth) {
  const double width = picture.cols, height = picture.rows, shorter = std::min(width, height);
  const cv::Point2d starts[] = {{stray.place * width, 0},
                                {width, stray.place * height},
                                {(1 - stray.place) * width, height},
                                {0, (1 - stray.place) * height}};
  const double in = (stray.side + 1) * CV_PI / 2 + stray.lean * CV_PI / 180;
  const double scale = 0.55 * stray.length * shorter;
  const cv::Point2d start = starts[stray.side % 4] + toward(in) * (stray.reach * shorter - scale);
  const cv::Point2d right = toward(in + CV_PI / 2) * scale, ahead = toward(in) * scale;
  const std::vector<Part> parts = stray.kind == Stray::Kind::hand ? hand(stray.skin) : scissors(stray.skin);

  constexpr int kFiner = 4;
  const auto mask_of_parts = [&](std::size_t first, std::size_t last, cv::Point2d shift) {
    cv::Mat mask = cv::Mat::zeros(picture.size(), CV_8U);
    for (std::size_t k = first; k < last; ++k) {
      std::vector<cv::Point> corners;
      for (const cv::Point2d p : parts[k].shape) {
        const cv::Point2d q = (start + ahead * p.x + right * p.y + shift) * (1 << kFiner);
        corners.emplace_back(cvRound(q.x), cvRound(q.y));
      }
      cv::fillPoly(mask, std::vector<std::vector<cv::Point>>{corners}, 255, cv::LINE_AA, kFiner);
    }
    mask.convertTo(mask, CV_32F, 1 / 255.0);
    return mask;
  };
  const double lift = 0.10 * scale;
  cv::Mat shadow = mask_of_parts(0, parts.size(), {0.5 * lift, 0.6 * lift}), three;
  cv::GaussianBlur(shadow, shadow, {}, std::max(1.0, 0.5 * lift));
  shadow = 1 - shadow_depth * shadow;
  cv::merge(std::vector<cv::Mat>{shadow, shadow, shadow}, three);
  picture = picture.mul(three);
  for (std::size_t k = 0; k < parts.size(); ++k) {
    const Ink ink = parts[k].ink;
    const cv::Mat body(picture.size(), CV_32FC3,
                       cv::Scalar(linear_from_srgb(ink.red / 255.0), linear_from_srgb(ink.green / 255.0),
                                  linear_from_srgb(ink.blue / 255.0)));
    picture = blended(picture, body, mask_of_parts(k, k + 1, {}));
  }
}

}  // namespace farflung::simulator
