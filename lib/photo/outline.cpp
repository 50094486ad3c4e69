#include "photo/outline.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "photo/teeth.hpp"

namespace farflung::photo {
namespace {

constexpr double kWidelyOff = 0.035;  ///< of a side's length: what pinked teeth wander at most
constexpr double kLeastDepth = 1.5;   ///< pixels, of what may be teeth

/// The pixel above and to the left of a place, and how far beyond it the place lies.
struct Within {
  int column, row;
  float u, v;

  Within(const cv::Mat& picture, double x, double y) {
    x = std::clamp(x, 0.0, picture.cols - 1.001);
    y = std::clamp(y, 0.0, picture.rows - 1.001);
    column = static_cast<int>(x), row = static_cast<int>(y);
    u = static_cast<float>(x - column), v = static_cast<float>(y - row);
  }

  template <typename Value>
  Value mean(const Value& a, const Value& b, const Value& below_a, const Value& below_b) const {
    return (a * (1 - u) + b * u) * (1 - v) + (below_a * (1 - u) + below_b * u) * v;
  }
};

cv::Vec3f sample(const cv::Mat& lab, double x, double y) {
  const Within at(lab, x, y);
  const auto *top = lab.ptr<cv::Vec3f>(at.row) + at.column, *below = lab.ptr<cv::Vec3f>(at.row + 1) + at.column;
  return at.mean(top[0], top[1], below[0], below[1]);
}

cv::Vec3f lab_at(const cv::Mat& rgb, double x, double y) {
  const Within at(rgb, x, y);
  const auto *top = rgb.ptr<cv::Vec3b>(at.row) + at.column, *below = rgb.ptr<cv::Vec3b>(at.row + 1) + at.column;
  const LabTable& table = LabTable::get();
  const auto light = [&](int c) {
    return at.mean(table.light(top[0][c]), table.light(top[1][c]), table.light(below[0][c]), table.light(below[1][c]));
  };
  return table.lab(light(0), light(1), light(2));
}

/// The differences from the bare surface along a line that crosses the side, every half pixel from outside inward.
struct Profile {
  static constexpr double kStep = 0.5;
  double reach;
  std::vector<float> plain, shaded;  ///< standard deviations of the surface; below 0 beyond the picture

  double out(double index) const { return reach - index * kStep; }
};

Profile profile(const Side& side, double along, const cv::Mat& rgb, const Surface& surface, double reach) {
  Profile result{reach, {}, {}};
  const double sx = static_cast<double>(surface.expected.cols) / rgb.cols;
  const double sy = static_cast<double>(surface.expected.rows) / rgb.rows;
  const int count = static_cast<int>(2 * reach / Profile::kStep) + 1;
  for (int i = 0; i < count; ++i) {
    const cv::Point2d p = side.place(along, result.out(i));
    if (p.x < -0.5 || p.y < -0.5 || p.x > rgb.cols - 0.5 || p.y > rgb.rows - 0.5) {
      result.plain.push_back(-1), result.shaded.push_back(-1);
      continue;
    }
    const cv::Vec3f seen = lab_at(rgb, p.x, p.y);
    const cv::Vec3f bare = sample(surface.expected, (p.x + 0.5) * sx - 0.5, (p.y + 0.5) * sy - 0.5);
    result.plain.push_back(surface.unlike(seen, bare, false));
    result.shaded.push_back(surface.unlike(seen, bare, true));
  }
  return result;
}

/// Inward from index `start`, where the values first climb half way to what they are just inside.
std::optional<double> climb(const std::vector<float>& values, int start) {
  constexpr int kPlateau = 10;
  const int count = static_cast<int>(values.size());
  for (int i = std::max(1, start); i < count; ++i) {
    if (values[i] < kUnlike || values[i - 1] < 0) continue;
    float height = 0;
    for (int k = i; k < std::min(count, i + kPlateau); ++k) height = std::max(height, values[k]);
    const float half = std::max(kUnlike / 2, height / 2);
    for (int k = i; k < std::min(count, i + kPlateau); ++k) {
      if (values[k] < half) continue;
      int low = k;
      while (low > start && values[low - 1] >= half) --low;
      if (low == 0) return {};
      const double before = std::max(0.0F, values[low - 1]);
      const double part = values[low] > before ? (half - before) / (values[low] - before) : 1;
      return low - 1 + std::clamp(part, 0.0, 1.0);
    }
  }
  return {};
}

/// Outward from the rough side, the first place where bare or shaded surface is seen for a pixel and a half.
int nearest_surface(const Profile& profile) {
  constexpr int kRun = 3;
  const int middle = static_cast<int>(profile.reach / Profile::kStep);
  const int farthest_in = std::min(static_cast<int>(profile.shaded.size()) - 1, middle + middle / 2);
  int run = 0;
  for (int i = farthest_in; i >= 0; --i) {
    run = profile.shaded[i] >= 0 && profile.shaded[i] < kUnlike ? run + 1 : 0;
    if (run >= kRun && i <= middle + kRun) return i;
  }
  return -1;
}

/// How many lines across a side are looked at.
int usual_count(const Side& side) { return std::clamp(static_cast<int>(side.length / 3), 24, 160); }

std::vector<Crossing> crossings(const Side& side, int count, const cv::Mat& rgb, const Surface& surface, double reach) {
  std::vector<Crossing> found;
  for (int i = 0; i < count; ++i) {
    const double along = 0.04 + 0.92 * (i + 0.5) / count;
    const Profile line = profile(side, along, rgb, surface, reach);
    const int start = nearest_surface(line);
    if (start < 0) continue;
    auto index = climb(line.shaded, start);
    if (!index) index = climb(line.plain, start);
    if (index) found.push_back({along, line.out(*index)});
  }
  return found;
}

Line least_squares(const std::vector<Crossing>& points) {
  double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
  for (const Crossing& p : points) n += 1, sx += p.along, sy += p.out, sxx += p.along * p.along, sxy += p.along * p.out;
  const double det = n * sxx - sx * sx;
  if (n < 2 || std::abs(det) < 1e-9) return {n > 0 ? sy / n : 0, 0};
  const double slope = (n * sxy - sx * sy) / det;
  return {(sy - slope * sx) / n, slope};
}

std::vector<Crossing> within(const std::vector<Crossing>& points, const Line& line, double tolerance) {
  std::vector<Crossing> kept;
  for (const Crossing& p : points) {
    if (std::abs(p.out - line.at(p.along)) <= tolerance) kept.push_back(p);
  }
  return kept;
}

struct FoundSide {
  Line line;
  double support = 0, depth = 0;
  bool wanders = false;         ///< between two lines, as along teeth
  std::vector<Crossing> about;  ///< all that may be of the cloth's edge
};

/// Quantile q of what the crossings lie outward of `line`.
double outward_quantile(const std::vector<Crossing>& points, const Line& line, double q) {
  std::vector<double> off;
  off.reserve(points.size());
  for (const Crossing& p : points) off.push_back(p.out - line.at(p.along));
  std::sort(off.begin(), off.end());
  return off.empty() ? 0 : off[static_cast<std::size_t>(q * (off.size() - 1))];
}

FoundSide found_side(const std::vector<Crossing>& points, int asked, double length) {
  FoundSide side;
  if (points.size() < 6) return side;
  const double tolerance = std::max(1.2, 0.004 * length);
  side.line = agreed(points, tolerance, 24, 0.2).value_or(least_squares(points));
  for (int i = 0; i < 3; ++i) {
    const auto kept = within(points, side.line, tolerance);
    if (kept.size() >= 6) side.line = least_squares(kept);
  }
  const double narrow = static_cast<double>(within(points, side.line, tolerance).size()) / asked;
  // A pinked edge wanders evenly between tips and notches: take its tips.
  const double wide_tolerance = std::max(4.0, kWidelyOff * length);
  const auto wide = within(points, side.line, wide_tolerance);
  const double low = outward_quantile(wide, side.line, 0.1), high = outward_quantile(wide, side.line, 0.9);
  side.depth = high - low;
  side.support = narrow;
  if (narrow < 0.75 && static_cast<double>(wide.size()) / asked > 0.85 && side.depth > kLeastDepth) {
    side.wanders = true;
    side.line = least_squares(wide);
    side.line.at_start += outward_quantile(wide, side.line, 0.96);
    side.support = static_cast<double>(wide.size()) / asked * 0.9;
  }
  side.about = wide;
  return side;
}

/// Of its teeth, looked at closely; 0 where it has none.
double pitch_along(const Side& side, const cv::Mat& rgb, const Surface& surface, double reach) {
  const int count = std::clamp(static_cast<int>(side.length), 24, 420);
  const std::vector<Crossing> points = crossings(side, count, rgb, surface, reach);
  if (points.size() < 6) return 0;
  const Line line = least_squares(within(points, least_squares(points), std::max(4.0, kWidelyOff * side.length)));
  return pitch_of_teeth(points, line, side.length).value_or(0);
}

/// A side of a rough outline and what is found along it.
struct Looked {
  Side side;
  FoundSide found;
  Wandering wandering;
};

Looked looked_at(const Side& side, const cv::Mat& rgb, const Surface& surface, double reach) {
  const int asked = usual_count(side);
  Looked looked{side, found_side(crossings(side, asked, rgb, surface, reach), asked, side.length), {}};
  const FoundSide& found = looked.found;
  double pitch = 0;
  if (found.wanders) {
    pitch = pitch_along(side, rgb, surface, reach);
  } else if (found.depth > kLeastDepth) {  // along a long side, teeth hardly wander for its length
    pitch = pitch_of_teeth(found.about, least_squares(found.about), side.length).value_or(0);
  }
  looked.wandering = {side.length, pitch, found.depth};
  return looked;
}

/// Along the tips of teeth of a pitch: half way from notches to tips is where the edge is told best.
void lay_along_tips(FoundSide& found, double pitch) {
  const double depth = kToothDepth * pitch;
  found.line = least_squares(found.about);
  found.line.at_start += depth / 2;
  found.depth = std::max(found.depth, depth);
}

}  // namespace

Outline refined(const Quad& rough, const cv::Mat& rgb, const Surface& surface, double reach, bool may_be_pinked) {
  std::array<Looked, 4> sides;
  std::array<Wandering, 4> wanderings;
  std::array<double, 4> plain{};  // pitches of teeth that stand out for their side's length
  for (int i = 0; i < 4; ++i) {
    sides[i] = looked_at(side_of(rough, i), rgb, surface, reach);
    wanderings[i] = sides[i].wandering;
    if (sides[i].found.wanders) plain[i] = wanderings[i].pitch;
  }
  const auto pinked = may_be_pinked ? pinked_round(wanderings) : std::nullopt;
  Outline outline;
  outline.support = 1;
  outline.pinked = outline.at_tips = pinked.has_value();
  outline.pitch = may_be_pinked ? common_pitch(pinked.value_or(plain), 2) : 0;
  std::array<std::array<cv::Point2d, 2>, 4> lines;
  for (int i = 0; i < 4; ++i) {
    auto& [side, found, wandering] = sides[i];
    if (pinked) lay_along_tips(found, (*pinked)[i]);
    lines[i] = {side.place(0, found.line.at(0)), side.place(1, found.line.at(1))};
    outline.support = std::min(outline.support, found.support);
    outline.depth = std::max(outline.depth, found.depth);
  }
  outline.quad = quad_between(lines);
  return outline;
}

}  // namespace farflung::photo
