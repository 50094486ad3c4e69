#include "wall/align.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include "wall/looks.hpp"

namespace farflung::wall {
namespace {

constexpr double kPixelsPerBlock = 64;
constexpr double kMargin = 0.35;      ///< blocks of flat wall around the box
constexpr int kDirections = 16;       ///< that edges are told apart by, over half a turn
constexpr double kClear = 3;          ///< standard deviations from which a cell is believed to be where it seems
constexpr double kClearer = 1;        ///< and more than it is where it was thought to be
constexpr std::size_t kFewCells = 6;  ///< fewer say nothing of the whole wall
constexpr double kAstray = 0.1;       ///< of a block, that one hangs away from its place at the most

/// A place on a line of a pattern, pixels from the block's centre, and which way the line faces.
struct OnLine {
  cv::Point2f at;
  int direction = 0;
};

/// The lines of a pattern in one turn.
using Lines = std::vector<OnLine>;

int direction_of(cv::Point2d normal) {
  const double half_turns = std::atan2(normal.y, normal.x) / CV_PI;
  const int direction = static_cast<int>(std::lround(half_turns * kDirections));
  return (direction % kDirections + kDirections) % kDirections;
}

/// Inches from the block's centre; its outer sides lie `raw` beyond its finished size.
std::set<std::array<double, 4>> segments_of(const block::Pattern& pattern, Turn turn, double raw) {
  const auto [width, height] = turned_inches(pattern, turn);
  const auto at_end = [](double a, double b, double end) {
    return std::abs(a - end) < 1e-6 && std::abs(b - end) < 1e-6;
  };
  std::set<std::array<double, 4>> segments;
  for (const block::Patch& patch : pattern.patches) {
    const Polygon polygon = turned(patch.polygon, pattern.width, pattern.height, turn);
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      double ax = polygon[i].x.inches(), ay = polygon[i].y.inches();
      double bx = polygon[(i + 1) % polygon.size()].x.inches(), by = polygon[(i + 1) % polygon.size()].y.inches();
      if (std::pair(ax, ay) > std::pair(bx, by)) std::swap(ax, bx), std::swap(ay, by);
      const double across = at_end(ax, bx, 0) ? -raw : at_end(ax, bx, width) ? raw : 0;
      const double down = at_end(ay, by, 0) ? -raw : at_end(ay, by, height) ? raw : 0;
      segments.insert(
          {ax + across - width / 2, ay + down - height / 2, bx + across - width / 2, by + down - height / 2});
    }
  }
  return segments;
}

Lines lines_of(const block::Pattern& pattern, Turn turn, double raw, bool on_point, double scale) {
  constexpr double kStep = 2;  // pixels
  const double c = on_point ? std::sqrt(0.5) : 1, s = on_point ? std::sqrt(0.5) : 0;
  Lines lines;
  for (const auto& [ax, ay, bx, by] : segments_of(pattern, turn, raw)) {
    const cv::Point2d from((c * ax - s * ay) * scale, (s * ax + c * ay) * scale);
    const cv::Point2d to((c * bx - s * by) * scale, (s * bx + c * by) * scale);
    const double length = cv::norm(to - from);
    const int direction = direction_of({to.y - from.y, from.x - to.x});
    const int count = static_cast<int>(length / kStep);
    for (int k = 1; k < count; ++k) lines.push_back({from + (to - from) * (static_cast<double>(k) / count), direction});
  }
  return lines;
}

/// How strong edges are that face each way, 0..1: a strong one says little more than a fair one.
std::array<cv::Mat, kDirections> edges_of(const cv::Mat& flat, const std::array<bool, kDirections>& wanted) {
  constexpr float kFair = 0.1F;  // of the cube root of light, over a pixel
  cv::Mat root, across, down;
  cv::pow(cv::max(flat, cv::Scalar::all(0)), 1 / 3.0, root);
  cv::Sobel(root, across, CV_32F, 1, 0, 3, 1 / 4.0);
  cv::Sobel(root, down, CV_32F, 0, 1, 3, 1 / 4.0);
  std::array<cv::Mat, kDirections> edges;
  for (int d = 0; d < kDirections; ++d) {
    if (!wanted[d]) continue;
    const auto c = static_cast<float>(std::cos(CV_PI * d / kDirections));
    const auto s = static_cast<float>(std::sin(CV_PI * d / kDirections));
    edges[d].create(flat.size(), CV_32F);
    for (int row = 0; row < flat.rows; ++row) {
      const auto* x = across.ptr<cv::Vec3f>(row);
      const auto* y = down.ptr<cv::Vec3f>(row);
      auto* to = edges[d].ptr<float>(row);
      for (int column = 0; column < flat.cols; ++column) {
        const float strength = static_cast<float>(cv::norm(c * x[column] + s * y[column]));
        to[column] = strength / (strength + kFair);
      }
    }
  }
  return edges;
}

/// Where a cell is seen, pixels of the flat wall from where it was thought to be. Standard deviations by which the
/// pattern's lines meet stronger edges than they do around: there, and very near to where it was thought to be.
struct Place {
  cv::Point2d shift;
  double clear = 0, here = 0;
};

class Aligner {
 public:
  Aligner(const photo::Picture& photograph, const quilt::Quilt& quilt, const Grid& grid)
      : photograph_(&photograph), scale_(kPixelsPerBlock / std::max(grid.width, grid.height)) {
    const double raw = quilt.seam_allowance.inches();
    for (const block::Pattern& pattern : quilt.patterns) {
      for (const Turn turn : pattern.turns) {
        Lines lines = lines_of(pattern, turn, raw, grid.on_point, scale_);
        for (const OnLine& each : lines) wanted_[each.direction] = true;
        const auto same = [&](const Lines& other) {
          return other.size() == lines.size() &&
                 std::equal(other.begin(), other.end(), lines.begin(),
                            [](const OnLine& a, const OnLine& b) { return a.at == b.at; });
        };
        if (std::none_of(lines_.begin(), lines_.end(), same)) lines_.push_back(std::move(lines));
      }
    }
  }

  /// `reach`: of a block.
  std::vector<Place> places(const Framed& framed, double reach) const {
    const int pixels = static_cast<int>(reach * kPixelsPerBlock);
    const double margin = kMargin * std::max(framed.grid.width, framed.grid.height);
    cv::Mat flat = flat_wall(*photograph_, framed.grid, photo_from_wall(framed.grid, framed.corners), scale_, margin);
    soften(flat);
    const auto edges = edges_of(flat, wanted_);
    std::vector<Place> places;
    for (const cv::Point2d& centre : framed.grid.centres) {
      const cv::Point2d at =
          (centre - framed.grid.box.tl() + cv::Point2d(margin, margin)) * scale_ - cv::Point2d(0.5, 0.5);
      Place best;
      for (const Lines& lines : lines_) {
        const Place place = place_of(edges, flat.size(), lines, at, pixels);
        const double here = std::max(best.here, place.here);
        if (place.clear > best.clear) best = place;
        best.here = here;
      }
      places.push_back(best);
    }
    return places;
  }

  double scale() const { return scale_; }

 private:
  static Place place_of(const std::array<cv::Mat, kDirections>& edges, cv::Size size, const Lines& lines,
                        cv::Point2d at, int reach) {
    constexpr int kStep = 2, kNear = 2, kAround = 18;  // pixels; what is usual is told from as far as the last
    const auto strength = [&](int dx, int dy) {
      double sum = 0;
      for (const OnLine& each : lines) {
        const int x = cvRound(at.x + each.at.x + dx), y = cvRound(at.y + each.at.y + dy);
        if (x >= 0 && y >= 0 && x < size.width && y < size.height) sum += edges[each.direction].at<float>(y, x);
      }
      return sum / static_cast<double>(std::max<std::size_t>(1, lines.size()));
    };
    double sum = 0, squares = 0, most = -1, nearest = -1;
    int count = 0;
    cv::Point where;
    for (int dy = -kAround; dy <= kAround; dy += kStep) {
      for (int dx = -kAround; dx <= kAround; dx += kStep) {
        const double here = strength(dx, dy);
        sum += here, squares += here * here, ++count;
        const int away = std::max(std::abs(dx), std::abs(dy));
        if (away <= kNear) nearest = std::max(nearest, here);
        if (away <= reach && here > most) most = here, where = {dx, dy};
      }
    }
    cv::Point best = where;
    for (int dy = -1; dy <= 1; ++dy) {
      for (int dx = -1; dx <= 1; ++dx) {
        const double here = strength(where.x + dx, where.y + dy);
        if (here > most) most = here, best = where + cv::Point(dx, dy);
      }
    }
    const double mean = sum / count;
    const double deviation = std::sqrt(std::max(1e-12, squares / count - mean * mean));
    return {best, (most - mean) / deviation, (nearest - mean) / deviation};
  }

  const photo::Picture* photograph_;
  double scale_;
  std::array<bool, kDirections> wanted_{};
  std::vector<Lines> lines_;  ///< by look: forms whose lines are the same count once
};

double meets(const std::vector<Place>& places) {
  constexpr double kMost = 8;  // one cell that is very clear is no more than clear
  double sum = 0;
  for (const Place& place : places) sum += std::clamp(place.here, 0.0, kMost);
  return places.empty() ? 0 : sum / static_cast<double>(places.size());
}

bool by_x(cv::Point2d a, cv::Point2d b) { return a.x < b.x; }
bool by_y(cv::Point2d a, cv::Point2d b) { return a.y < b.y; }

/// The corners by which the cells lie where they are seen; none where too few are clear.
std::optional<photo::Corners> corners_by(const Framed& framed, const std::vector<Place>& places, double scale) {
  const cv::Matx33d photo_of = photo_from_wall(framed.grid, framed.corners);
  std::vector<cv::Point2d> on_wall, seen;
  for (std::size_t c = 0; c < places.size(); ++c) {
    if (places[c].clear < kClear) continue;
    on_wall.push_back(framed.grid.centres[c]);
    seen.push_back(projected(photo_of, framed.grid.centres[c] + places[c].shift * (1 / scale)));
  }
  if (on_wall.size() < std::max(kFewCells, places.size() / 3)) return {};
  const cv::Rect2d& box = framed.grid.box;
  const double inches = std::max(framed.grid.width, framed.grid.height);
  // A row alone does not say how the wall slants.
  const auto [left, right] = std::minmax_element(on_wall.begin(), on_wall.end(), by_x);
  const auto [top, bottom] = std::minmax_element(on_wall.begin(), on_wall.end(), by_y);
  if (std::min(right->x - left->x, bottom->y - top->y) < inches / 2) return {};
  const double block =
      cv::norm(projected(photo_of, box.tl()) - projected(photo_of, {box.x + box.width, box.y})) / box.width * inches;
  constexpr double kNear = 0.06;  // of a block
  const cv::Mat fitted = cv::findHomography(on_wall, seen, cv::RANSAC, kNear * block, cv::noArray(), 2000, 0.999);
  if (fitted.empty()) return {};
  return corners_seen(framed.grid, cv::Matx33d(fitted));
}

}  // namespace

Aligned aligned(const photo::Picture& photograph, const quilt::Quilt& quilt, Framed framed) {
  constexpr double kReaches[] = {0.27, 0.16, kAstray, kAstray};  // of a block
  const Aligner aligner(photograph, quilt, framed.grid);
  constexpr double kBetter = 1.04;  // than at the start: by less, chance may better it
  Aligned best;
  double least = 0;
  for (const double reach : kReaches) {
    const std::vector<Place> places = aligner.places(framed, reach);
    const double meets_here = meets(places);
    if (best.framed.grid.cells.empty()) {
      best = {framed, meets_here};
      least = kBetter * meets_here;
    } else if (meets_here > least) {
      best = {framed, meets_here};
      least = meets_here;
    }
    const auto corners = corners_by(framed, places, aligner.scale());
    if (!corners) break;
    framed.corners = *corners;
  }
  return best;
}

Framed each_by_itself(const photo::Picture& photograph, const quilt::Quilt& quilt, Framed framed) {
  const Aligner aligner(photograph, quilt, framed.grid);
  const std::vector<Place> places = aligner.places(framed, kAstray);
  for (std::size_t c = 0; c < places.size(); ++c) {
    // One that is seen nearly as well where the others say that it lies does lie there.
    if (places[c].clear < kClear || places[c].clear - places[c].here < kClearer) continue;
    framed.grid.centres[c] += places[c].shift * (1 / aligner.scale());
  }
  return framed;
}

}  // namespace farflung::wall
