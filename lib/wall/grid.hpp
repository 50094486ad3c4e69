// Where the cells lie in a photograph of the wall.
#pragma once

#include <optional>
#include <vector>

#include <opencv2/core.hpp>

#include "photo/picture.hpp"
#include "wall/read.hpp"

namespace farflung::wall {

/// The cells that a photograph shows, in inches on the wall.
struct Grid {
  std::vector<int> cells;            ///< of the plan
  std::vector<cv::Point2d> centres;  ///< by cell of this list
  double width = 0, height = 0;      ///< of a finished block
  bool on_point = false;
  cv::Rect2d box;  ///< about all the blocks, what shows of their seam allowances included
};

/// A finished block of a pattern in some turn, inches across and down.
cv::Size2d turned_inches(const block::Pattern& pattern, Turn turn);

/// `gap`: inches between neighbouring blocks' raw edges; meant for Laid::blocks.
Grid grid_of(const quilt::Quilt& quilt, const setting::Plan& plan, const ReadOptions& options, double gap);

/// The finished block in a cell of the grid's list, as CellRead gives it.
photo::Corners outline_in_box(const Grid& grid, std::size_t cell);

cv::Point2d projected(const cv::Matx33d& homography, cv::Point2d place);

/// Where the box's corners are seen.
photo::Corners corners_seen(const Grid& grid, const cv::Matx33d& photo_from_wall);

/// Pixels from inches on the wall, the box's corners being seen at `corners`.
cv::Matx33d photo_from_wall(const Grid& grid, const photo::Corners& corners);

/// The outer corners of whatever lies on a plain wall, clockwise from the top left, likeliest first: what hangs beside
/// the blocks is taken for some of them, or not. None where nothing stands out. A cut-off or missing corner is put
/// where the sides meet. What lies within `cards` does not count.
std::vector<photo::Corners> outlines_of(const photo::Picture& photograph,
                                        const std::vector<photo::Corners>& cards = {});

/// Where the wall's work ends in a photograph, clockwise from the quilt's own top left.
struct Edge {
  photo::Corners corners{};
  int cards = 0;                        ///< how many of the corners printed cards say
  std::vector<photo::Corners> or_else;  ///< without cards: where else it may end
};

/// By the printed corner cards, four or three of them; where there are none, by outlines_of, the quilt's top left
/// being the picture's. Of a sewn top the borders' outer edge. None: nothing stands out from the wall.
std::optional<Edge> edge_of(const photo::Picture& photograph);

/// The corners of the box about the cells of a top, given those of its outer edge, which lies `raw` inches beyond the
/// finished size: by its seam allowance, until it is bound.
photo::Corners box_corners(const setting::Plan& plan, const Grid& grid, const photo::Corners& edge, double raw);

/// The wall laid flat, `pixels_per_inch`, light linear (CV_32FC3), its top left pixel at the box's corner less `margin`
/// inches.
cv::Mat flat_wall(const photo::Picture& photograph, const Grid& grid, const cv::Matx33d& photo_from_wall,
                  double pixels_per_inch, double margin);

}  // namespace farflung::wall
