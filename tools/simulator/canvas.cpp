#include "simulator/canvas.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/light.hpp"
#include "simulator/shapes.hpp"

namespace farflung::simulator {
namespace {

// Inches run from the corner of the first pixel; OpenCV counts from its centre.
// So many fine pixels to a side of a pixel that smooth edges are exact enough; never over about 2,400 to a side.
int fineness(const Tile& tile) {
  const int wanted = cvCeil(240 / tile.pixels_per_inch);
  const int most = static_cast<int>(2400 / (std::max(tile.width, tile.height) * tile.pixels_per_inch));
  return std::clamp(wanted, 2, std::clamp(most, 2, 12));
}

// OpenCV draws an outline half a pixel wide about what it fills: the shape is drawn in by as much.
std::vector<cv::Point2d> drawn_in(const std::vector<cv::Point2d>& shape) {
  const std::size_t n = shape.size();
  double twice_area = 0;
  for (std::size_t i = 0; i < n; ++i) twice_area += shape[i].cross(shape[(i + 1) % n]);
  const double inward = twice_area > 0 ? 1 : -1;
  const auto normal = [&](std::size_t from, std::size_t to) {
    const cv::Point2d along = shape[to] - shape[from];
    const double length = std::hypot(along.x, along.y);
    return length < 1e-9 ? cv::Point2d() : cv::Point2d(-along.y, along.x) * (inward / length);
  };
  std::vector<cv::Point2d> inner(n);
  for (std::size_t i = 0; i < n; ++i) {
    const cv::Point2d before = normal((i + n - 1) % n, i), after = normal(i, (i + 1) % n);
    const cv::Point2d miter = (before + after) * (1 / std::max(0.35, 1 + before.dot(after)));
    inner[i] = shape[i] + miter * 0.5;
  }
  return inner;
}

cv::Point fixed(cv::Point2d p) {
  constexpr double kOne = 1 << kShift;
  return {cvRound((p.x - 0.5) * kOne), cvRound((p.y - 0.5) * kOne)};
}

}  // namespace

Ink mixed(Ink first, Ink second, double share) {
  const auto mix = [share](int a, int b) {
    return static_cast<std::uint8_t>(std::clamp(a + (b - a) * share + 0.5, 0.0, 255.0));
  };
  Ink ink;
  ink.red = mix(first.red, second.red);
  ink.green = mix(first.green, second.green);
  ink.blue = mix(first.blue, second.blue);
  return ink;
}

cv::Size Tile::pixels() const {
  return {std::max(8, cvRound(width * pixels_per_inch)), std::max(8, cvRound(height * pixels_per_inch))};
}

Canvas::Canvas(const Tile& tile, Ink ground) : tile_(tile), finer_(fineness(tile)) {
  const cv::Size size = tile.pixels() * finer_;
  scale_ = {size.width / tile.width, size.height / tile.height};
  picture_ = cv::Mat(size, CV_8UC3, cv::Scalar(ground.red, ground.green, ground.blue));
}

void Canvas::fill(const Shape& shape, Ink ink) {
  if (shape.empty()) return;
  cv::Point2d low(1e9, 1e9), high(-1e9, -1e9);
  std::vector<cv::Point2d> fine(shape.size());
  for (std::size_t i = 0; i < shape.size(); ++i) {
    fine[i] = {shape[i].x * scale_.x, shape[i].y * scale_.y};
    low = {std::min(low.x, fine[i].x), std::min(low.y, fine[i].y)};
    high = {std::max(high.x, fine[i].x), std::max(high.y, fine[i].y)};
  }
  fine = drawn_in(fine);
  const double width = picture_.cols, height = picture_.rows;
  std::vector<cv::Point> corners(shape.size());
  for (int down = -cvFloor(high.y / height); down <= -cvFloor((low.y - 1) / height); ++down) {
    for (int right = -cvFloor(high.x / width); right <= -cvFloor((low.x - 1) / width); ++right) {
      for (std::size_t i = 0; i < fine.size(); ++i) {
        corners[i] = fixed({fine[i].x + right * width, fine[i].y + down * height});
      }
      cv::fillPoly(picture_, std::vector<std::vector<cv::Point>>{corners}, cv::Scalar(ink.red, ink.green, ink.blue),
                   cv::LINE_AA, kShift);
    }
  }
}

void Canvas::dot(cv::Point2d centre, double radius, Ink ink) { fill(circle(centre, radius), ink); }

void Canvas::ring(cv::Point2d centre, double radius, double width, Ink ink) {
  Shape path = circle(centre, radius);
  path.push_back(path.front());
  line(path, width, ink);
}

void Canvas::stroke(const Shape& path, double start, double middle, double end, Ink ink) {
  if (path.size() < 2) return;
  const std::size_t last = path.size() - 1;
  const auto width_at = [&](std::size_t i) {
    const double t = static_cast<double>(i) / static_cast<double>(last);
    return t < 0.5 ? start + (middle - start) * 2 * t : middle + (end - middle) * (2 * t - 1);
  };
  Shape left, right;
  for (std::size_t i = 0; i <= last; ++i) {
    const cv::Point2d along = path[std::min(i + 1, last)] - path[i > 0 ? i - 1 : 0];
    const double length = std::max(1e-9, std::hypot(along.x, along.y));
    const cv::Point2d side = cv::Point2d(-along.y, along.x) * (width_at(i) / 2 / length);
    left.push_back(path[i] + side);
    right.push_back(path[i] - side);
  }
  // Piece by piece: one outline of a curled stroke would cross itself and leave holes.
  const double overlap = 0.6 / scale_.x;
  for (std::size_t i = 0; i < last; ++i) {
    const cv::Point2d along = path[i + 1] - path[i];
    const cv::Point2d more = along * (overlap / std::max(1e-9, std::hypot(along.x, along.y)));
    fill({left[i] - more, left[i + 1] + more, right[i + 1] + more, right[i] - more}, ink);
  }
  if (start > 0.01) dot(path.front(), start / 2, ink);
  if (end > 0.01) dot(path.back(), end / 2, ink);
}

cv::Mat Canvas::linear() const {
  cv::Mat small;
  cv::resize(linear_picture(picture_), small, tile_.pixels(), 0, 0, cv::INTER_AREA);
  return small;
}

cv::Mat mask_of(const Canvas& white_on_black) {
  cv::Mat mask;
  cv::extractChannel(white_on_black.linear(), mask, 1);
  return mask;
}

double wrapped_distance(const Tile& tile, cv::Point2d a, cv::Point2d b) {
  double dx = std::fmod(std::abs(a.x - b.x), tile.width);
  double dy = std::fmod(std::abs(a.y - b.y), tile.height);
  dx = std::min(dx, tile.width - dx);
  dy = std::min(dy, tile.height - dy);
  return std::hypot(dx, dy);
}

void spread_out(Shape& places, const Tile& tile, double apart) {
  const auto nearer_way = [](double d, double whole) { return d - whole * std::round(d / whole); };
  const double reach = 1.5 * apart;
  for (int round = 0; round < 12; ++round) {
    Shape pushes(places.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
      for (std::size_t j = i + 1; j < places.size(); ++j) {
        const cv::Point2d away(nearer_way(places[i].x - places[j].x, tile.width),
                               nearer_way(places[i].y - places[j].y, tile.height));
        if (std::abs(away.x) >= reach || std::abs(away.y) >= reach) continue;
        const double distance = std::hypot(away.x, away.y);
        if (distance >= reach || distance < 1e-9) continue;
        const cv::Point2d push = away * (0.12 * (reach - distance) / distance);
        pushes[i] += push;
        pushes[j] -= push;
      }
    }
    for (std::size_t i = 0; i < places.size(); ++i) places[i] += pushes[i];
  }
}

cv::Point2d anywhere_on(const Tile& tile, Rng& rng) {
  const double y = rng.uniform() * tile.height;
  return {rng.uniform() * tile.width, y};
}

Shape scattered(const Tile& tile, double apart, Rng& rng, int trials) {
  Shape places;
  const double least = apart * apart;
  const int tries = static_cast<int>(trials * tile.width * tile.height / (apart * apart));
  for (int i = 0; i < tries; ++i) {
    const cv::Point2d place = anywhere_on(tile, rng);
    const bool free = std::all_of(places.begin(), places.end(), [&](cv::Point2d other) {
      double dx = std::abs(place.x - other.x), dy = std::abs(place.y - other.y);
      dx = std::min(dx, tile.width - dx);
      dy = std::min(dy, tile.height - dy);
      return dx * dx + dy * dy >= least;
    });
    if (free) places.push_back(place);
  }
  spread_out(places, tile, apart);
  return places;
}

}  // namespace farflung::simulator
