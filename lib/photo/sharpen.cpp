#include "photo/sharpen.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "photo/teeth.hpp"

namespace farflung::photo {
namespace {

constexpr double kStep = 0.5;          ///< pixels between samples across a side
constexpr double kGrain = 0.025;       ///< of the surface's light: its own unevenness and the camera's noise
constexpr double kShade = 0.35;        ///< of the surface's light: what a shadow may take
constexpr double kBend = 0.06;         ///< of the difference: cameras' curves bend the way from one light to the other
constexpr double kClear = 2;           ///< deviations, from which cloth can be told from the surface at one place
constexpr double kEdge = 0.56;         ///< of the way to the cloth: its shade and its folded rim draw half way outward
constexpr double kLeastSupport = 0.3;  ///< of a side: where less of it shows an edge, it stays

/// The direction in light along which this cloth is best told from its surface in any shade (Fisher's discriminant).
struct Telling {
  cv::Vec3d way;         ///< (light - bare).way is 0 on the surface, 1 on the cloth
  double clear = 0;      ///< deviations between the two
  double shadeless = 0;  ///< 0..1, how little a shade on the surface can look like the cloth
};

Telling telling(const cv::Vec3d& cloth, const cv::Vec3d& bare) {
  const cv::Vec3d off = cloth - bare;
  const double bright = bare.dot(bare), shade = kShade * kShade;
  const double grain = kGrain * kGrain * bright + kBend * kBend * off.dot(off) + 4e-6;
  const double taken = shade / (grain + shade * bright);
  const cv::Vec3d way = off - bare * (bare.dot(off) * taken);
  const double apart = way.dot(off);
  if (!(apart > 1e-12)) return {};
  const cv::Vec3d square = off - bare * (bare.dot(off) / std::max(1e-9, bright));
  return {way * (1 / apart), std::sqrt(apart / grain), std::clamp(square.dot(square) / apart, 0.0, 1.0)};
}

std::optional<Crossing> crossing(const Lit& lit, const Side& side, double along, double reach) {
  const cv::Vec3d cloth = mean_light(lit, side, along, -4.5, 4);
  const cv::Vec3d bare = bare_at(lit, side.place(along, 2));
  const Telling tell = telling(cloth, bare);
  if (tell.clear < kClear) return {};
  const int half = static_cast<int>(reach / kStep), count = 2 * half + 1;
  std::vector<double> m(count);
  for (int i = 0; i < count; ++i) {
    const cv::Point2d p = side.place(along, (half - i) * kStep);
    if (p.x < 0 || p.y < 0 || p.x > lit.rgb.cols - 1 || p.y > lit.rgb.rows - 1) {
      m[i] = 0;
      continue;
    }
    m[i] = (light_at(lit, p) - bare).dot(tell.way);
  }
  std::optional<Crossing> best;
  for (int i = 1; i < count; ++i) {
    // What the surface looks like just outside: in the shade it is never quite 0.
    double outer = m[i - 1];
    for (int k = i - 1; k >= std::max(0, i - 9); --k) outer = std::min(outer, m[k]);
    const double level = kEdge + 0.5 * std::clamp(outer, 0.0, 0.9) * (1 - tell.shadeless);
    if (m[i - 1] >= level || m[i] < level) continue;
    double inner = m[i];
    for (int k = i; k <= std::min(count - 1, i + 4); ++k) inner = std::max(inner, m[k]);
    if (outer > level - 0.2 || inner < level + 0.2) continue;
    const double part = (level - m[i - 1]) / (m[i] - m[i - 1]);
    const double out = (half - (i - 1 + part)) * kStep;
    if (!best || std::abs(out) < std::abs(best->out)) best = Crossing{along, out, std::min(1.0, tell.clear / 12)};
  }
  return best;
}

struct FoundSide {
  Line line;
  double support = 0, pitch = 0;
  std::vector<Crossing> points;
};

FoundSide found_side(const Lit& lit, const Side& side, double reach, bool last) {
  const int count = std::clamp(static_cast<int>(side.length), 24, last ? 420 : 120);
  std::vector<Crossing> points;
  for (int i = 0; i < count; ++i) {
    if (const auto p = crossing(lit, side, 0.03 + 0.94 * (i + 0.5) / count, reach)) points.push_back(*p);
  }
  FoundSide found;
  if (points.size() < 10) return found;
  const double tolerance = std::max(1.5, 0.006 * side.length);
  found.line = agreed(points, tolerance, 20, 0.25).value_or(least_squares_line(points, {}, 1e9));
  for (int i = 0; i < 4; ++i) found.line = least_squares_line(points, found.line, tolerance);
  int near = 0;
  for (const Crossing& p : points) near += std::abs(p.out - found.line.at(p.along)) < tolerance;
  found.support = static_cast<double>(near) / count;
  if (last) found.pitch = pitch_of_teeth(points, found.line, side.length).value_or(0);
  found.points = std::move(points);
  return found;
}

/// Whether the line through `line` runs within `most` pixels of a side, at both its ends.
bool runs_along(const std::array<cv::Point2d, 2>& line, const Side& side, double most) {
  return std::all_of(line.begin(), line.end(),
                     [&](cv::Point2d p) { return std::abs((p - side.from).dot(side.outward)) <= most; });
}

Sharpened once(const Outline& start, const Outline& outline, const Lit& lit, double most_moved, bool last,
               bool may_be_pinked) {
  std::array<std::array<cv::Point2d, 2>, 4> lines;
  std::array<FoundSide, 4> found;
  std::array<Side, 4> sides;
  for (int i = 0; i < 4; ++i) {
    sides[i] = side_of(outline.quad, i);
    found[i] = found_side(lit, sides[i], std::max(3.0, 0.012 * sides[i].length), last);
  }
  for (FoundSide& f : found) {
    if (f.support < kLeastSupport) f = {};
  }
  const double pitch =
      may_be_pinked ? common_pitch({found[0].pitch, found[1].pitch, found[2].pitch, found[3].pitch}, 3) : 0;
  Sharpened result;
  Outline& next = result.outline;
  next.support = 1;
  next.depth = outline.depth;
  next.pitch = pitch;
  next.at_tips = pitch > 0;
  for (int i = 0; i < 4; ++i) {
    FoundSide& f = found[i];
    if (pitch > 0) {
      const double depth = kToothDepth * (f.pitch > 0 ? f.pitch : pitch);
      for (int k = 0; k < 4; ++k) f.line = least_squares_line(f.points, f.line, depth + 0.8);
      f.line.at_start += depth / 2;
      next.depth = std::max(next.depth, depth);
    }
    lines[i] = {sides[i].place(0, f.line.at(0)), sides[i].place(1, f.line.at(1))};
    if (const Side begun = side_of(start.quad, i); !runs_along(lines[i], begun, most_moved + next.depth)) {
      lines[i] = {begun.from, begun.to};
      f.support = 0;
    }
    result.support[i] = f.support;
    next.support = std::min(next.support, f.support);
  }
  next.quad = quad_between(lines);
  return result;
}

/// A line that moves no end of the side farther than `most` pixels.
bool keeps_near(const Line& line, double most) { return std::abs(line.at(0)) <= most && std::abs(line.at(1)) <= most; }

}  // namespace

Sides sharpened_sides(const Quad& quad, const Lit& lit, double reach, double beyond) {
  Sides result{quad, {}};
  for (const bool last : {false, true}) {
    std::array<std::array<cv::Point2d, 2>, 4> lines;
    for (int i = 0; i < 4; ++i) {
      Side side = side_of(result.quad, i);
      side.from -= beyond * side.outward, side.to -= beyond * side.outward;
      const double most = std::max(3.0, reach * side.length);
      FoundSide found = found_side(lit, side, last ? std::max(4.0, 0.02 * side.length) : most, false);
      const bool seen = found.support > 0.5 && keeps_near(found.line, most);
      if (!seen) found = {};
      result.support[i] = found.support;
      lines[i] = {side.place(0, found.line.at(0) + beyond), side.place(1, found.line.at(1) + beyond)};
    }
    result.quad = quad_between(lines);
  }
  return result;
}

Sharpened sharpened(const Outline& outline, const Lit& lit, double most_moved, bool may_be_pinked) {
  Sharpened result{outline, {}};
  for (const bool last : {false, false, true}) {
    const Sharpened next = once(outline, result.outline, lit, most_moved, last, may_be_pinked);
    if (!convex(next.outline.quad)) break;
    result = next;
  }
  return result;
}

}  // namespace farflung::photo
