#include "photo/pinked_alike.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/median.hpp"
#include "photo/teeth.hpp"

namespace farflung::photo {
namespace {

constexpr std::size_t kMostAsked = 9;              ///< pieces whose sides are looked at: they tell as much as more
constexpr double kReach = 0.012, kLeastReach = 3;  ///< of a side, and pixels, that are looked at on either side of it
constexpr double kRim = 0.03;                      ///< of a side at either end: the next one's light is mixed in there
constexpr int kFewestPoints = 40, kMostPoints = 240;  ///< along a side
constexpr double kSlow = 0.08;                        ///< of a side: what changes over as much is no tooth
constexpr double kMostOff = 2.5;                      ///< usual deviations: a motif that meets the edge counts no more
constexpr std::size_t kAbout = 40;   ///< numbers of teeth on either side of one, that tell what is usual
constexpr double kStandsOut = 3.5;   ///< times that, in the middle one of many sides
constexpr double kFewSides = 6;      ///< of two times as many, half as much more: a few prints may chance to agree
constexpr double kWidestBlur = 2.2;  ///< pixels, standard deviation
constexpr double kAsDeep = 0.5;      ///< of what that leaves of teeth, at least: prints that repeat hardly move an edge

/// A quadrilateral with each side so much farther out.
Quad widened(const Quad& quad, double by) {
  std::array<std::array<cv::Point2d, 2>, 4> lines;
  for (int i = 0; i < 4; ++i) {
    const Side side = side_of(quad, i);
    lines[i] = {side.place(0, by), side.place(1, by)};
  }
  return quad_between(lines);
}

/// How many pixels of cloth, of those within `reach` of the side, a line across it shows.
double cloth_across(const Lit& lit, const Side& side, double along, double reach) {
  constexpr double kDarkest = 0.55, kBrightest = 1.15;  // of the surface's light: what shade leaves of it
  constexpr double kFaint = 1e-4;                       // square of a step in light that no noise makes
  const cv::Vec3d unshaded = bare_at(lit, side.place(along, reach));
  const cv::Vec3d beyond = mean_light(lit, side, along, reach + 0.5, 2);
  const cv::Vec3d bare =
      unshaded * std::clamp(beyond.dot(unshaded) / std::max(1e-9, unshaded.dot(unshaded)), kDarkest, kBrightest);
  const cv::Vec3d step = mean_light(lit, side, along, -reach - 3, 3) - bare;
  double sum = 0;
  const int steps = static_cast<int>(2 * reach);
  for (int i = 0; i <= steps; ++i) {
    const double out = i - reach;
    const double share = (light_at(lit, side.place(along, out)) - bare).dot(step) / (step.dot(step) + kFaint);
    sum += std::clamp(share, -0.5, 1.5);
  }
  return sum;
}

/// What changes fast along a side, in usual deviations. Gives those, in pixels.
double keep_the_fast(std::vector<Crossing>& points, double side_over_run) {
  const std::size_t reach = std::max<std::size_t>(
      3, static_cast<std::size_t>(kSlow / 2 * side_over_run * static_cast<double>(points.size())));
  std::vector<double> fast, sizes;
  for (std::size_t i = 0; i < points.size(); ++i) {
    std::vector<double> about;
    for (std::size_t k = i < reach ? 0 : i - reach; k < std::min(points.size(), i + reach + 1); ++k)
      about.push_back(points[k].out);
    fast.push_back(points[i].out - median(about));
    sizes.push_back(std::abs(fast.back()));
  }
  const double usual = 1.48 * median(sizes) + 1e-6;
  for (std::size_t i = 0; i < points.size(); ++i) points[i].out = std::clamp(fast[i] / usual, -kMostOff, kMostOff);
  return usual;
}

/// What each number of teeth to a length carries along a side.
struct Carried {
  std::vector<double> standing_out;  ///< times what is usual for the numbers about it
  std::vector<double> as_deep;       ///< amplitude over that of teeth through the widest blur
};

/// For numbers of teeth to `mean_side`, on the table; nothing where the side is too short to tell.
Carried carried_along(const Side& side, const Plane& plane, const Lit& lit, double mean_side) {
  const int count = std::min(kMostPoints, static_cast<int>((1 - 2 * kRim) * side.length));
  if (count < kFewestPoints) return {};
  const cv::Point2d start = plane.on_table(side.from);
  const double length = cv::norm(plane.on_table(side.to) - start) / mean_side;
  std::vector<Crossing> points;
  for (int i = 0; i < count; ++i) {
    const double along = kRim + (1 - 2 * kRim) * (i + 0.5) / count;
    points.push_back({cv::norm(plane.on_table(side.place(along, 0)) - start) / mean_side,
                      cloth_across(lit, side, along, std::max(kLeastReach, kReach * side.length / length))});
  }
  const double usual = keep_the_fast(points, 1 / length), pixels = side.length / length;
  const std::vector<double> carried = carried_by_teeth(points, pixels);
  Carried result;
  for (std::size_t i = 0; i < carried.size(); ++i) {
    // Of what is spread evenly over all numbers, half carry less than the logarithm of 2 of the mean.
    result.standing_out.push_back(carried[i] * std::log(2.0) / (usual_about(carried, i, kAbout) + 1e-12));
    const double of_teeth = amplitude_of_teeth(pixels / teeth_at(i), kWidestBlur);
    result.as_deep.push_back(2 * std::sqrt(carried[i]) * usual / of_teeth);
  }
  return result;
}

double mean_side_of(const std::vector<Piece>& pieces, const Plane& plane) {
  double sum = 0;
  for (const Piece& piece : pieces) {
    const cv::Size2d sides = mean_sides(plane.on_table(piece.outline.quad));
    sum += (sides.width + sides.height) / 2;
  }
  return sum / static_cast<double>(pieces.size());
}

}  // namespace

double shared_pitch(const std::vector<Piece>& pieces, const Plane& plane, const Lit& lit) {
  if (pieces.empty()) return 0;
  const double mean_side = mean_side_of(pieces, plane);
  const std::size_t stride = (pieces.size() + kMostAsked - 1) / kMostAsked;
  std::vector<Carried> sides;
  std::size_t numbers = SIZE_MAX;
  for (std::size_t i = 0; i < pieces.size(); i += stride) {
    const Outline& outline = pieces[i].outline;
    const Quad edge = widened(outline.quad, -outline.beyond_edge());
    for (int side = 0; side < 4; ++side) {
      Carried carried = carried_along(side_of(edge, side), plane, lit, mean_side);
      if (carried.standing_out.empty()) continue;
      numbers = std::min(numbers, carried.standing_out.size());
      sides.push_back(std::move(carried));
    }
  }
  if (sides.empty()) return 0;
  double most = kStandsOut * (1 + kFewSides / static_cast<double>(sides.size())), pitch = 0;
  for (std::size_t number = 0; number < numbers; ++number) {
    const auto middle_of = [&](const std::vector<double> Carried::*part) {
      std::vector<double> values;
      values.reserve(sides.size());
      for (const Carried& side : sides) values.push_back((side.*part)[number]);
      return median(std::move(values));
    };
    const double middle = middle_of(&Carried::standing_out);
    if (middle > most && middle_of(&Carried::as_deep) > kAsDeep) most = middle, pitch = mean_side / teeth_at(number);
  }
  return pitch;
}

std::vector<Piece> along_tips(std::vector<Piece> pieces, double pitch, const Plane& plane) {
  for (Piece& piece : pieces) {
    Outline& outline = piece.outline;
    const Quad on_table = plane.on_table(outline.quad);
    const double pixels = std::sqrt(area(outline.quad) / std::max(1e-12, area(on_table)));  // to the table's unit
    outline.quad = plane.in_photo(widened(on_table, kToothDepth * pitch / 2 - outline.beyond_edge() / pixels));
    outline.pitch = pitch * pixels;
    outline.depth = std::max(outline.depth, kToothDepth * outline.pitch);
    outline.at_tips = true;
  }
  return pieces;
}

}  // namespace farflung::photo
