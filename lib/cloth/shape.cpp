#include "cloth/shape.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "cloth/extent.hpp"
#include "cloth/trade.hpp"

namespace farflung::cloth {
namespace {

struct Vec {
  double x = 0, y = 0;  ///< inches
};

Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y}; }
double cross(Vec a, Vec b) { return a.x * b.y - a.y * b.x; }
double dot(Vec a, Vec b) { return a.x * b.x + a.y * b.y; }
double length(Vec a) { return std::hypot(a.x, a.y); }

Point to_point(Vec a) { return {in(a.x), in(a.y)}; }

using Outline = std::vector<Vec>;

/// Without repeated corners, nor corners in the middle of a straight side.
Outline corners_of(const Polygon& polygon) {
  Outline all;
  for (const Point& point : polygon) {
    const Vec here{point.x.inches(), point.y.inches()};
    if (all.empty() || length(here - all.back()) > kNear) all.push_back(here);
  }
  while (all.size() > 1 && length(all.front() - all.back()) <= kNear) all.pop_back();
  Outline result;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Vec before = all[(i + all.size() - 1) % all.size()];
    const Vec after = all[(i + 1) % all.size()];
    const Vec chord = after - before;
    const double off = length(chord) > 0 ? std::abs(cross(chord, all[i] - before)) / length(chord) : 0;
    if (off > kNear) result.push_back(all[i]);
  }
  return result;
}

double outline_area(const Outline& outline) {
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) twice += cross(outline[i], outline[(i + 1) % outline.size()]);
  return twice / 2;
}

Extent extent_of(const Outline& outline) {
  Extent extent;
  for (Vec p : outline) extent.take_in(p.x, p.y);
  return extent;
}

/// A right-angled triangle with equal short sides that holds an outline, its grain along the axes.
struct Triangle {
  Shape shape = Shape::half_square;
  Facing facing = 0;
  double side = 0;  ///< short side of a half-square, long side of a quarter-square triangle; inches
  double area() const { return shape == Shape::half_square ? side * side / 2 : side * side / 4; }
};

/// The smallest of the eight that hold the outline: four corners, four sides.
Triangle holding_triangle(const Outline& outline) {
  const Extent box = extent_of(outline);
  double sum_low = 1e300, sum_high = -1e300, difference_low = 1e300, difference_high = -1e300;
  for (Vec p : outline) {
    sum_low = std::min(sum_low, p.x + p.y);
    sum_high = std::max(sum_high, p.x + p.y);
    difference_low = std::min(difference_low, p.x - p.y);
    difference_high = std::max(difference_high, p.x - p.y);
  }
  const std::array<Triangle, 8> all = {{
      {Shape::half_square, 0, sum_high - box.left - box.top},
      {Shape::half_square, 1, box.right - box.top - difference_low},
      {Shape::half_square, 2, box.right + box.bottom - sum_low},
      {Shape::half_square, 3, difference_high - box.left + box.bottom},
      {Shape::quarter_square, 0, sum_high - difference_low - 2 * box.top},
      {Shape::quarter_square, 1, 2 * box.right - sum_low - difference_low},
      {Shape::quarter_square, 2, difference_high - sum_low + 2 * box.bottom},
      {Shape::quarter_square, 3, sum_high + difference_high - 2 * box.left},
  }};
  const auto smaller = [](const Triangle& a, const Triangle& b) { return a.area() < b.area() - kNear * kNear; };
  return *std::min_element(all.begin(), all.end(), smaller);
}

/// True where each side keeps within the snap of the length that makes the areas equal.
bool same_area(double a, double b, double side) { return std::abs(a - b) <= 2 * kNear * std::max(side, kNear); }

CutShape triangle_cut(const Triangle& triangle, Length seam, Ruler ruler, Length extra) {
  CutShape cut;
  const bool half = triangle.shape == Shape::half_square;
  const Length side = in(triangle.side);
  cut.shape = triangle.shape;
  cut.facing = triangle.facing;
  cut.per_rectangle = half ? 2 : 4;
  cut.finished_width = cut.finished_height = side;
  cut.width = cut.height =
      measured((half ? half_square_cut(side, seam) : quarter_square_cut(side, seam)) + extra, ruler);
  cut.working = "square for " + std::string(half ? "two" : "four") + ": finished " + (half ? "short" : "long") +
                " side " + said(side, ruler) + " + " + said(seam, ruler) +
                (half ? " x (2 + root 2)" : " x (2 + 2 root 2)") +
                (extra > Length() ? " + " + said(extra, ruler) + " to trim" : "") + " = " + said(cut.width) +
                (half ? ", cut once on the diagonal" : ", cut twice on the diagonal");
  return cut;
}

bool is_rectangle(const Outline& corners) {
  if (corners.size() != 4) return false;
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec a = corners[(i + 1) % 4] - corners[i];
    const Vec b = corners[(i + 2) % 4] - corners[(i + 1) % 4];
    if (std::abs(dot(a, b)) > 2 * kNear * std::max(length(a), length(b))) return false;
  }
  return true;
}

bool along_axes(Vec edge) { return std::abs(edge.x) <= kNear || std::abs(edge.y) <= kNear; }

bool has_side_along_axes(const Outline& corners) {
  for (std::size_t i = 0; i < corners.size(); ++i) {
    if (along_axes(corners[(i + 1) % corners.size()] - corners[i])) return true;
  }
  return false;
}

CutShape rectangle_cut(double width, double height, bool askew, Length seam, Ruler ruler) {
  CutShape cut;
  cut.finished_width = in(width);
  cut.finished_height = in(height);
  if (std::abs(width - height) <= kNear) cut.finished_height = cut.finished_width;
  cut.shape = cut.finished_width == cut.finished_height ? Shape::square : Shape::rectangle;
  cut.width = measured(straight_cut(cut.finished_width, seam), ruler);
  cut.height = measured(straight_cut(cut.finished_height, seam), ruler);
  cut.askew = askew;
  cut.working = rectangle_working(cut, seam);
  return cut;
}

/// The same outline turned until `edge` lies along x.
Outline laid_along(const Outline& outline, Vec edge) {
  const double size = length(edge);
  const Vec unit{edge.x / size, edge.y / size};
  Outline result;
  for (Vec p : outline) result.push_back({dot(p, unit), cross(unit, p)});
  return result;
}

Vec longest_edge(const Outline& outline) {
  Vec longest;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec edge = outline[(i + 1) % outline.size()] - outline[i];
    if (length(edge) > length(longest) + kNear) longest = edge;
  }
  return longest;
}

/// Whether turning the outline over can bring it onto itself: its edges and angles read the same backwards.
bool mirrors_itself(const Outline& outline) {
  const std::size_t n = outline.size();
  const auto edge = [&](std::size_t i) { return length(outline[(i + 1) % n] - outline[i % n]); };
  const auto chord = [&](std::size_t i) { return length(outline[(i + 2) % n] - outline[i % n]); };
  const auto hollow = [&](std::size_t i) {
    return cross(outline[(i + 1) % n] - outline[i % n], outline[(i + 2) % n] - outline[(i + 1) % n]) < 0;
  };
  for (std::size_t shift = 0; shift < n; ++shift) {
    bool same = true;
    for (std::size_t i = 0; i < n && same; ++i) {
      const std::size_t back = (shift + 2 * n - i) % n;
      same = std::abs(edge(i) - edge(back)) <= 2 * kNear &&
             std::abs(chord(i) - chord((back + n - 1) % n)) <= 2 * kNear && hollow(i) == hollow((back + n - 1) % n);
    }
    if (same) return true;
  }
  return false;
}

Outline grown(const Outline& outline, double seam) {
  const std::size_t n = outline.size();
  const double way = outline_area(outline) > 0 ? 1 : -1;  // y runs down: positive is clockwise on the cloth
  const auto outward = [&](std::size_t i) {
    const Vec edge = outline[(i + 1) % n] - outline[i % n];
    const double size = length(edge);
    return Vec{way * edge.y / size, -way * edge.x / size};
  };
  constexpr double kFarthest = 3;  // allowances from the finished corner
  Outline result;
  for (std::size_t i = 0; i < n; ++i) {
    const Vec a = outward(i + n - 1);
    const Vec b = outward(i);
    const double closeness = 1 + dot(a, b);
    const double reach = std::sqrt(2 / std::max(closeness, 1e-12));  // of the mitre, in allowances
    const bool outer = way * cross(outline[i] - outline[(i + n - 1) % n], outline[(i + 1) % n] - outline[i]) > 0;
    if (!outer || reach <= kFarthest) {
      result.push_back({outline[i].x + seam * (a.x + b.x) / closeness, outline[i].y + seam * (a.y + b.y) / closeness});
      continue;
    }
    // Blunted square to the point, at kFarthest allowances: both cut edges stop where they reach that line.
    const Vec sum{a.x + b.x, a.y + b.y};
    const Vec point{sum.x / length(sum), sum.y / length(sum)};
    for (const Vec normal : {a, b}) {
      const Vec along{-normal.y, normal.x};
      const double run = (kFarthest - dot(normal, point)) * seam / dot(along, point);
      result.push_back(
          {outline[i].x + seam * normal.x + run * along.x, outline[i].y + seam * normal.y + run * along.y});
    }
  }
  return result;
}

CutShape template_cut(Outline corners, Length seam, Ruler ruler, bool upright) {
  CutShape cut;
  if (!upright && !has_side_along_axes(corners)) {
    cut.askew = true;
    corners = laid_along(corners, longest_edge(corners));
  }
  const Outline line = grown(corners, seam.inches());
  const Extent finished = extent_of(corners);
  const Extent box = extent_of(line);
  cut.shape = Shape::odd;
  cut.own_mirror = mirrors_itself(corners);
  cut.finished_width = in(finished.width());
  cut.finished_height = in(finished.height());
  cut.width = measured(in(box.width()), ruler);
  cut.height = measured(in(box.height()), ruler);
  for (Vec p : corners) cut.finished.push_back(to_point(p - Vec{box.left, box.top}));
  for (Vec p : line) cut.cut_line.push_back(to_point(p - Vec{box.left, box.top}));
  cut.working = "template, " + said(seam, ruler) + " around; it needs " + said(cut.width.cut, cut.height.cut, ruler);
  return cut;
}

/// The finished shape within the rectangle that is cut, for drawings.
void add_outline(CutShape& cut, const Outline& corners, Length seam) {
  const Outline line = grown(corners, seam.inches());
  const Extent box = extent_of(line);
  for (Vec p : corners) cut.finished.push_back(to_point(p - Vec{box.left, box.top}));
  for (Vec p : line) cut.cut_line.push_back(to_point(p - Vec{box.left, box.top}));
}

}  // namespace

std::string rectangle_working(const CutShape& cut, Length seam) {
  const Ruler ruler = cut.width.ruler;
  return "finished " + said(cut.finished_width, cut.finished_height, ruler) + " + 2 x " + said(seam, ruler) + " = " +
         said(cut.width) + " x " + said(cut.height);
}

const char* name_of(Shape shape) {
  switch (shape) {
    case Shape::square:
      return "square";
    case Shape::rectangle:
      return "rectangle";
    case Shape::half_square:
      return "half-square triangle";
    case Shape::quarter_square:
      return "quarter-square triangle";
    case Shape::odd:
      break;
  }
  return "template";
}

Polygon with_allowance(const Polygon& polygon, Length seam) {
  Polygon result;
  for (Vec p : grown(corners_of(polygon), seam.inches())) result.push_back(to_point(p));
  return result;
}

CutShape cut_shape(const Polygon& finished, Length seam, Ruler ruler, bool upright) {
  const Outline corners = corners_of(finished);
  const double whole = std::abs(outline_area(corners));
  if (is_rectangle(corners)) {
    const Vec first = corners[1] - corners[0];
    const Vec second = corners[2] - corners[1];
    const bool askew = !along_axes(first);
    if (!askew || !upright) {
      const bool first_is_across = std::abs(first.x) >= std::abs(first.y);
      CutShape cut = rectangle_cut(length(first_is_across ? first : second), length(first_is_across ? second : first),
                                   askew, seam, ruler);
      add_outline(cut, askew ? laid_along(corners, first_is_across ? first : second) : corners, seam);
      return cut;
    }
  }
  if (corners.size() == 3) {
    // A triangle askew is turned to lie along its own short side.
    const bool turn = !upright && !has_side_along_axes(corners);
    const Outline laid = turn ? laid_along(corners, longest_edge(corners)) : corners;
    const Triangle triangle = holding_triangle(laid);
    if (same_area(triangle.area(), whole, triangle.side)) {
      CutShape cut = triangle_cut(triangle, seam, ruler, Length());
      cut.askew = turn;
      add_outline(cut, laid, seam);
      return cut;
    }
  }
  return template_cut(corners, seam, ruler, upright);
}

CutShape setting_triangle(const Polygon& finished, Length seam, Ruler ruler, Length extra) {
  const Outline corners = corners_of(finished);
  CutShape cut = triangle_cut(holding_triangle(corners), seam, ruler, extra);
  add_outline(cut, corners, seam);
  return cut;
}

}  // namespace farflung::cloth
