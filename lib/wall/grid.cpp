#include "wall/grid.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "photo/corner_cards.hpp"
#include "photo/mat.hpp"
#include "photo/surface.hpp"
#include "wall/looks.hpp"

namespace farflung::wall {
namespace {

/// A straight line: points p with normal . p = offset.
struct Side {
  cv::Point2d normal;
  double offset = 0;
};

std::optional<cv::Point2d> crossing(const Side& a, const Side& b) {
  const double determinant = a.normal.x * b.normal.y - a.normal.y * b.normal.x;
  if (std::abs(determinant) < 0.2) return std::nullopt;
  return cv::Point2d((a.offset * b.normal.y - b.offset * a.normal.y) / determinant,
                     (a.normal.x * b.offset - b.normal.x * a.offset) / determinant);
}

/// The four sides of a hull that enclose the least: a corner that is cut off is no side.
std::vector<Side> enclosing_sides(const std::vector<cv::Point>& hull) {
  std::vector<cv::Point> simple;
  cv::approxPolyDP(hull, simple, 0.006 * cv::arcLength(hull, true), true);
  const std::size_t n = simple.size();
  if (n < 4 || n > 16) return {};
  std::vector<Side> sides;
  for (std::size_t i = 0; i < n; ++i) {
    const cv::Point2d along = simple[(i + 1) % n] - simple[i];
    const double length = std::hypot(along.x, along.y);
    const cv::Point2d normal(along.y / length, -along.x / length);
    double offset = -1e18;
    for (const cv::Point& p : hull) offset = std::max(offset, normal.x * p.x + normal.y * p.y);
    double inner = 1e18;
    for (const cv::Point& p : hull) inner = std::min(inner, normal.x * p.x + normal.y * p.y);
    // Outward is the way in which the edge's own corners lie farthest.
    const double own = normal.x * simple[i].x + normal.y * simple[i].y;
    sides.push_back(std::abs(own - offset) <= std::abs(own - inner) ? Side{normal, offset} : Side{-normal, -inner});
  }
  double least = 1e18;
  std::vector<Side> best;
  for (std::size_t a = 0; a < n; ++a)
    for (std::size_t b = a + 1; b < n; ++b)
      for (std::size_t c = b + 1; c < n; ++c)
        for (std::size_t d = c + 1; d < n; ++d) {
          const std::vector<Side> four = {sides[a], sides[b], sides[c], sides[d]};
          std::vector<cv::Point2f> corners;
          for (int k = 0; k < 4; ++k) {
            const auto corner = crossing(four[k], four[(k + 1) % 4]);
            if (corner) corners.emplace_back(*corner);
          }
          if (corners.size() < 4 || !cv::isContourConvex(corners)) continue;
          const double area = std::abs(cv::contourArea(corners));
          if (area < least) least = area, best = four;
        }
  return best;
}

/// Moves a side to where the outline runs on the whole, not where it sticks out most.
Side settled(const Side& side, const std::vector<cv::Point>& outline, double reach) {
  std::vector<cv::Point2f> near;
  for (const cv::Point& p : outline) {
    const double depth = side.offset - (side.normal.x * p.x + side.normal.y * p.y);
    if (depth < reach) near.emplace_back(p);
  }
  if (near.size() < 20) return side;
  cv::Vec4f line;
  cv::fitLine(near, line, cv::DIST_HUBER, 0, 0.01, 0.01);
  cv::Point2d normal(line[1], -line[0]);
  if (normal.dot(side.normal) < 0) normal = -normal;
  return {normal, normal.x * line[2] + normal.y * line[3]};
}

}  // namespace

cv::Point2d projected(const cv::Matx33d& h, cv::Point2d p) {
  const cv::Vec3d q = h * cv::Vec3d(p.x, p.y, 1);
  return {q[0] / q[2], q[1] / q[2]};
}

cv::Size2d turned_inches(const block::Pattern& pattern, Turn turn) {
  const cv::Size2d upright(pattern.width.inches(), pattern.height.inches());
  return turn.quarters() % 2 == 1 ? cv::Size2d(upright.height, upright.width) : upright;
}

Grid grid_of(const quilt::Quilt& quilt, const setting::Plan& plan, const ReadOptions& options, double gap) {
  const bool blocks = options.laid == Laid::blocks;
  const double raw = blocks ? quilt.seam_allowance.inches() : 0;
  const double sash = quilt.setting.sashing ? quilt.setting.sashing->width.inches() : 0;
  Grid grid;
  grid.width = plan.block_width.inches();
  grid.height = plan.block_height.inches();
  grid.on_point = plan.on_point;
  const double across = blocks ? (grid.width + 2 * raw + gap) / (grid.width + sash) : 1;
  const double down = blocks ? (grid.height + 2 * raw + gap) / (grid.height + sash) : 1;
  double half_width = grid.width / 2 + raw;
  double half_height = grid.height / 2 + raw;
  if (grid.on_point) half_width = half_height = (half_width + half_height) * std::sqrt(0.5);
  cv::Point2d low(1e18, 1e18), high(-1e18, -1e18);
  const auto within = [](int at, int first, int last) { return at >= first && (last < 0 || at <= last); };
  for (std::size_t c = 0; c < plan.cells.size(); ++c) {
    const setting::Cell& cell = plan.cells[c];
    if (!within(cell.row, options.first_row, options.last_row) ||
        !within(cell.column, options.first_column, options.last_column)) {
      continue;
    }
    const cv::Point2d centre(cell.centre.x.inches() * across, cell.centre.y.inches() * down);
    grid.cells.push_back(static_cast<int>(c));
    grid.centres.push_back(centre);
    low = {std::min(low.x, centre.x - half_width), std::min(low.y, centre.y - half_height)};
    high = {std::max(high.x, centre.x + half_width), std::max(high.y, centre.y + half_height)};
  }
  grid.box = {low, high};
  return grid;
}

photo::Corners outline_in_box(const Grid& grid, std::size_t cell) {
  const double turned = std::sqrt(0.5);
  photo::Corners outline;
  for (int k = 0; k < 4; ++k) {
    cv::Point2d corner(grid.width / 2 * (k == 1 || k == 2 ? 1 : -1), grid.height / 2 * (k >= 2 ? 1 : -1));
    if (grid.on_point) corner = {turned * (corner.x - corner.y), turned * (corner.x + corner.y)};
    corner += grid.centres[cell] - grid.box.tl();
    outline[k] = {corner.x / grid.box.width, corner.y / grid.box.height};
  }
  return outline;
}

cv::Matx33d photo_from_wall(const Grid& grid, const photo::Corners& corners) {
  const cv::Rect2d& box = grid.box;
  const cv::Point2f from[4] = {{static_cast<float>(box.x), static_cast<float>(box.y)},
                               {static_cast<float>(box.x + box.width), static_cast<float>(box.y)},
                               {static_cast<float>(box.x + box.width), static_cast<float>(box.y + box.height)},
                               {static_cast<float>(box.x), static_cast<float>(box.y + box.height)}};
  cv::Point2f to[4];
  for (int k = 0; k < 4; ++k) to[k] = {static_cast<float>(corners[k][0]), static_cast<float>(corners[k][1])};
  return cv::Matx33d(cv::getPerspectiveTransform(from, to));
}

namespace {

/// What stands out from a plain wall, in a picture made small (CV_8U); what lies within `cards` does not count.
struct StandsOut {
  cv::Mat cloth;
  double scale = 1;  ///< pixels of it, to one of the photograph
};

StandsOut standing_out(const photo::Picture& photograph, const std::vector<photo::Corners>& cards) {
  constexpr double kLongest = 800;
  const double scale = std::min(1.0, kLongest / std::max(photograph.columns, photograph.rows));
  cv::Mat small;
  cv::resize(photo::view(photograph), small, {}, scale, scale, cv::INTER_AREA);
  cv::GaussianBlur(small, small, {}, 1.2);
  const cv::Mat lab = photo::lab_of(small);
  const photo::Surface surface = photo::fit_surface(lab);
  cv::Mat cloth(lab.size(), CV_8U);
  for (int row = 0; row < lab.rows; ++row) {
    for (int column = 0; column < lab.cols; ++column) {
      const float unlike =
          surface.unlike(lab.at<cv::Vec3f>(row, column), surface.expected.at<cv::Vec3f>(row, column), false);
      cloth.at<std::uint8_t>(row, column) = unlike > photo::kUnlike ? 255 : 0;
    }
  }
  for (const photo::Corners& card : cards) {
    std::vector<cv::Point> outline;
    for (const auto& corner : card) outline.emplace_back(cvRound(corner[0] * scale), cvRound(corner[1] * scale));
    cv::fillConvexPoly(cloth, outline, cv::Scalar(0));
    // The card's rim and its shadow.
    cv::polylines(cloth, std::vector<std::vector<cv::Point>>{outline}, true, cv::Scalar(0), 5);
  }
  const cv::Mat speck = cv::getStructuringElement(cv::MORPH_RECT, {5, 5});
  cv::morphologyEx(cloth, cloth, cv::MORPH_OPEN, speck);
  return {cloth, scale};
}

cv::Mat square_of(int pixels) { return cv::getStructuringElement(cv::MORPH_RECT, {pixels | 1, pixels | 1}); }

/// The outer corners of what hangs together once gaps of `gap` are closed and what is narrower than `narrow` is cut
/// off, both as shares of the picture's longer side.
std::optional<photo::Corners> corners_of(const StandsOut& standing, double gap, double narrow) {
  cv::Mat cloth = standing.cloth;
  const int longer = std::max(cloth.cols, cloth.rows);
  const int reach = std::max(3, static_cast<int>(gap * longer)) | 1;
  cv::copyMakeBorder(cloth, cloth, reach, reach, reach, reach, cv::BORDER_CONSTANT, cv::Scalar(0));
  cv::morphologyEx(cloth, cloth, cv::MORPH_CLOSE, square_of(reach));
  if (narrow > 0) cv::morphologyEx(cloth, cloth, cv::MORPH_OPEN, square_of(static_cast<int>(narrow * longer)));
  std::vector<std::vector<cv::Point>> outlines;
  cv::findContours(cloth, outlines, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
  if (outlines.empty()) return std::nullopt;
  const auto largest = std::max_element(outlines.begin(), outlines.end(), [](const auto& a, const auto& b) {
    return cv::contourArea(a) < cv::contourArea(b);
  });
  if (cv::contourArea(*largest) < 0.1 * cloth.total()) return std::nullopt;
  std::vector<cv::Point> hull;
  cv::convexHull(*largest, hull);
  std::vector<Side> sides = enclosing_sides(hull);
  if (sides.size() != 4) return std::nullopt;
  for (Side& side : sides) side = settled(side, *largest, 0.02 * std::max(cloth.cols, cloth.rows));
  std::vector<cv::Point2d> corners;
  for (int k = 0; k < 4; ++k) {
    const auto corner = crossing(sides[k], sides[(k + 1) % 4]);
    if (!corner) return std::nullopt;
    corners.push_back((*corner - cv::Point2d(reach, reach) + cv::Point2d(0.5, 0.5)) * (1 / standing.scale));
  }
  // Clockwise, from the one nearest the picture's own top left.
  cv::Point2d middle;
  for (const cv::Point2d& corner : corners) middle += corner * 0.25;
  std::sort(corners.begin(), corners.end(), [&](cv::Point2d a, cv::Point2d b) {
    return std::atan2(a.y - middle.y, a.x - middle.x) < std::atan2(b.y - middle.y, b.x - middle.x);
  });
  const auto first = std::min_element(corners.begin(), corners.end(),
                                      [](cv::Point2d a, cv::Point2d b) { return a.x + a.y < b.x + b.y; });
  std::rotate(corners.begin(), first, corners.end());
  photo::Corners found{};
  for (std::size_t k = 0; k < 4; ++k) found[k] = {corners[k].x, corners[k].y};
  return found;
}

bool nearly_same(const photo::Corners& a, const photo::Corners& b, double pixels) {
  for (std::size_t k = 0; k < 4; ++k) {
    if (std::hypot(a[k][0] - b[k][0], a[k][1] - b[k][1]) > pixels) return false;
  }
  return true;
}

}  // namespace

std::vector<photo::Corners> outlines_of(const photo::Picture& photograph, const std::vector<photo::Corners>& cards) {
  // Blocks hang a little apart; what hangs beside them may be nearer to them than they are to one another, or thin.
  constexpr double kGap = 0.03, kNarrow = 0.06, kSame = 0.004;
  const StandsOut standing = standing_out(photograph, cards);
  std::vector<photo::Corners> outlines;
  for (const auto& [gap, narrow] : std::vector<std::pair<double, double>>{
           {kGap, 0}, {kGap / 2.5, 0}, {kGap / 6, 0}, {kGap, kNarrow}, {kGap / 2.5, kNarrow}}) {
    const auto corners = corners_of(standing, gap, narrow);
    if (!corners) continue;
    const double near = kSame * std::max(photograph.columns, photograph.rows);
    if (std::none_of(outlines.begin(), outlines.end(),
                     [&](const auto& other) { return nearly_same(other, *corners, near); }))
      outlines.push_back(*corners);
  }
  return outlines;
}

std::optional<Edge> edge_of(const photo::Picture& photograph) {
  const auto cards = photo::find_corner_cards(photograph);
  Edge edge;
  std::vector<photo::Corners> covered;
  int unseen = kNone;
  for (std::size_t k = 0; k < cards.size(); ++k) {
    if (cards[k]) {
      edge.corners[k] = cards[k]->tip;
      covered.push_back(cards[k]->card);
      ++edge.cards;
    } else {
      unseen = static_cast<int>(k);
    }
  }
  if (edge.cards == 4) return edge;
  const std::vector<photo::Corners> outlines = outlines_of(photograph, covered);
  if (outlines.empty()) return std::nullopt;
  const photo::Corners& outer = outlines.front();
  if (edge.cards < 3) return Edge{outer, 0, {outlines.begin() + 1, outlines.end()}};
  // The one corner without a card is the outline's that lies nearest to where a parallelogram has it.
  const auto& after = edge.corners[(unseen + 1) % 4];
  const auto& before = edge.corners[(unseen + 3) % 4];
  const auto& across = edge.corners[(unseen + 2) % 4];
  const std::array<double, 2> about = {after[0] + before[0] - across[0], after[1] + before[1] - across[1]};
  edge.corners[unseen] = *std::min_element(outer.begin(), outer.end(), [&](const auto& a, const auto& b) {
    return std::hypot(a[0] - about[0], a[1] - about[1]) < std::hypot(b[0] - about[0], b[1] - about[1]);
  });
  return edge;
}

photo::Corners corners_seen(const Grid& grid, const cv::Matx33d& photo_from_wall) {
  const cv::Rect2d& box = grid.box;
  const cv::Point2d of_box[4] = {box.tl(), {box.x + box.width, box.y}, box.br(), {box.x, box.y + box.height}};
  photo::Corners corners{};
  for (std::size_t k = 0; k < 4; ++k) {
    const cv::Point2d seen = projected(photo_from_wall, of_box[k]);
    corners[k] = {seen.x, seen.y};
  }
  return corners;
}

photo::Corners box_corners(const setting::Plan& plan, const Grid& grid, const photo::Corners& edge, double raw) {
  Grid whole = grid;
  whole.box = {-raw, -raw, plan.width.inches() + 2 * raw, plan.height.inches() + 2 * raw};
  return corners_seen(grid, photo_from_wall(whole, edge));
}

cv::Mat flat_wall(const photo::Picture& photograph, const Grid& grid, const cv::Matx33d& photo_from_wall,
                  double pixels_per_inch, double margin) {
  // The photograph first made about as fine as the flat wall, so that each of its pixels is a mean.
  const cv::Point2d a = projected(photo_from_wall, {grid.box.x, grid.box.y});
  const cv::Point2d b = projected(photo_from_wall, {grid.box.x + grid.box.width, grid.box.y});
  const cv::Point2d c = projected(photo_from_wall, {grid.box.x, grid.box.y + grid.box.height});
  const double finest =
      std::max(std::hypot(b.x - a.x, b.y - a.y) / grid.box.width, std::hypot(c.x - a.x, c.y - a.y) / grid.box.height);
  const double scale = std::min(1.0, 1.15 * pixels_per_inch / finest);
  cv::Mat small = photo::view(photograph);
  if (scale < 1) cv::resize(small, small, {}, scale, scale, cv::INTER_AREA);
  const cv::Matx33d wall_from_flat(1 / pixels_per_inch, 0, grid.box.x - margin + 0.5 / pixels_per_inch, 0,
                                   1 / pixels_per_inch, grid.box.y - margin + 0.5 / pixels_per_inch, 0, 0, 1);
  const cv::Matx33d small_from_photo(scale, 0, -0.5, 0, scale, -0.5, 0, 0, 1);
  const cv::Size size(static_cast<int>(std::ceil((grid.box.width + 2 * margin) * pixels_per_inch)),
                      static_cast<int>(std::ceil((grid.box.height + 2 * margin) * pixels_per_inch)));
  cv::Mat flat;
  cv::warpPerspective(light_of(small), flat, small_from_photo * photo_from_wall * wall_from_flat, size,
                      cv::INTER_LINEAR | cv::WARP_INVERSE_MAP, cv::BORDER_REPLICATE);
  return flat;
}

}  // namespace farflung::wall
