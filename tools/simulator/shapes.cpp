#include "simulator/shapes.hpp"

#include <algorithm>
#include <cmath>

namespace farflung::simulator {
namespace {

constexpr double kPi = CV_PI;

// Closed outline about a bent midrib: half widths given along it.
template <typename HalfWidth>
Shape about_rib(const Shape& midrib, HalfWidth half_width) {
  const std::size_t last = midrib.size() - 1;
  Shape left, right;
  for (std::size_t i = 0; i <= last; ++i) {
    const cv::Point2d along = midrib[std::min(i + 1, last)] - midrib[i > 0 ? i - 1 : 0];
    const double length = std::max(1e-9, std::hypot(along.x, along.y));
    const cv::Point2d side =
        cv::Point2d(-along.y, along.x) * (half_width(static_cast<double>(i) / static_cast<double>(last)) / length);
    left.push_back(midrib[i] + side);
    right.push_back(midrib[i] - side);
  }
  left.insert(left.end(), right.rbegin(), right.rend());
  return left;
}

}  // namespace

cv::Point2d toward(double angle) { return {std::cos(angle), std::sin(angle)}; }

Shape circle(cv::Point2d centre, double radius) { return ellipse(centre, radius, radius, 0); }

Shape ellipse(cv::Point2d centre, double along, double across, double angle) {
  constexpr int kSteps = 36;
  Shape shape;
  for (int i = 0; i < kSteps; ++i) {
    const double t = 2 * kPi * i / kSteps;
    shape.push_back(centre + toward(angle) * (along * std::cos(t)) + toward(angle + kPi / 2) * (across * std::sin(t)));
  }
  return shape;
}

Shape box(double left, double top, double width, double height) {
  return {{left, top}, {left + width, top}, {left + width, top + height}, {left, top + height}};
}

Shape petal(cv::Point2d base, double angle, double length, double width, double belly) {
  const double power = std::log(0.5) / std::log(belly);
  return about_rib(rib(base, angle, length, 0),
                   [=](double t) { return width / 2 * std::pow(std::sin(kPi * std::pow(t, power)), 0.7); });
}

Shape leaf(cv::Point2d base, double angle, double length, double width, double bend) {
  return about_rib(rib(base, angle, length, bend),
                   [=](double t) { return width / 2 * std::sin(kPi * std::pow(t, 0.8)); });
}

Shape rib(cv::Point2d base, double angle, double length, double bend) {
  constexpr int kSteps = 16;
  Shape path;
  for (int i = 0; i <= kSteps; ++i) {
    const double t = static_cast<double>(i) / kSteps;
    path.push_back(base + toward(angle) * (length * t) + toward(angle + kPi / 2) * (length * bend * t * t));
  }
  return path;
}

Shape rosette(cv::Point2d centre, double radius, int petals, double angle, double depth) {
  const int steps = petals * 14;
  Shape shape;
  for (int i = 0; i < steps; ++i) {
    const double t = 2 * kPi * i / steps;
    const double lobe = std::pow(std::abs(std::cos(petals * t / 2)), 0.6);
    shape.push_back(centre + toward(angle + t) * (radius * (1 - depth + depth * lobe)));
  }
  return shape;
}

Shape star(cv::Point2d centre, double outer, double inner, int points, double angle) {
  Shape shape;
  for (int i = 0; i < 2 * points; ++i) {
    shape.push_back(centre + toward(angle + kPi * i / points) * (i % 2 == 0 ? outer : inner));
  }
  return shape;
}

Shape pebble(cv::Point2d centre, double radius, double unevenness, Rng& rng) {
  double size[3], phase[3];
  for (int k = 0; k < 3; ++k) {
    size[k] = unevenness * rng.between(-1, 1) / (k + 1);
    phase[k] = rng.between(0, 2 * kPi);
  }
  constexpr int kSteps = 40;
  Shape shape;
  for (int i = 0; i < kSteps; ++i) {
    const double t = 2 * kPi * i / kSteps;
    double r = 1;
    for (int k = 0; k < 3; ++k) r += size[k] * std::cos((k + 2) * t + phase[k]);
    shape.push_back(centre + toward(t) * (radius * r));
  }
  return shape;
}

Shape curl(cv::Point2d start, double angle, double length, double turns) {
  constexpr int kSteps = 48;
  Shape path = {start};
  for (int i = 0; i < kSteps; ++i) {
    const double t = static_cast<double>(i) / kSteps;
    const double heading = angle + 2 * kPi * turns * std::pow(t, 1.7);
    path.push_back(path.back() + toward(heading) * (length / kSteps * (1 - 0.72 * t)));
  }
  return path;
}

Shape smooth(const Shape& places, int steps) {
  if (places.size() < 3) return places;
  Shape path;
  const int last = static_cast<int>(places.size()) - 1;
  const auto at = [&](int i) { return places[static_cast<std::size_t>(std::clamp(i, 0, last))]; };
  for (int i = 0; i < last; ++i) {
    const cv::Point2d p0 = at(i - 1), p1 = at(i), p2 = at(i + 1), p3 = at(i + 2);
    for (int k = 0; k < steps; ++k) {
      const double t = static_cast<double>(k) / steps;
      path.push_back(0.5 * (2 * p1 + (p2 - p0) * t + (2 * p0 - 5 * p1 + 4 * p2 - p3) * (t * t) +
                            (3 * p1 - p0 - 3 * p2 + p3) * (t * t * t)));
    }
  }
  path.push_back(places.back());
  return path;
}

Shape bezier(cv::Point2d a, cv::Point2d b, cv::Point2d c, cv::Point2d d, int steps) {
  Shape path;
  for (int i = 0; i <= steps; ++i) {
    const double t = static_cast<double>(i) / steps, u = 1 - t;
    path.push_back(a * (u * u * u) + b * (3 * u * u * t) + c * (3 * u * t * t) + d * (t * t * t));
  }
  return path;
}

}  // namespace farflung::simulator
