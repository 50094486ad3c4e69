// The table that cloths of one size lie on, as if seen from straight above. Internal to photo.
#pragma once

#include <optional>
#include <vector>

#include <opencv2/core.hpp>

#include "photo/outline.hpp"

namespace farflung::photo {

/// Lengths on the table are in a unit of its own.
struct Plane {
  cv::Matx33d table_from_photo = cv::Matx33d::eye();
  cv::Matx33d photo_from_table = cv::Matx33d::eye();
  double width = 0, height = 0;  ///< of the usual cloth, its sides across and down
  double turn = 0;               ///< radians: how most cloths are turned on the table
  int agreeing = 0;              ///< how many outlines are that size
  bool known = false;            ///< how the table lies is told by something else than the cloths

  /// The same point in the other frame, through the homography.
  cv::Point2d on_table(cv::Point2d photo) const;
  cv::Point2d in_photo(cv::Point2d table) const;
  Quad on_table(const Quad& photo) const;
  Quad in_photo(const Quad& table) const;
};

/// A rectangle of the usual size on the table.
struct Place {
  cv::Point2d centre;
  double turn = 0;  ///< radians, of its side across
  double off = 0;   ///< how far the outline is from such a rectangle: root mean square of its corners over its side
};

/// The place that an outline comes nearest to.
Place place_of(const Plane& plane, const Quad& quad);

/// The outline, in the photograph, of the usual cloth at `centre`.
Quad outline_at(const Plane& plane, cv::Point2d centre, double turn);

/// From how far off an outline is no rectangle of the usual size.
constexpr double kCongruent = 0.045;

/// The plane on which most of the outlines are rectangles of one size, by robust least squares (Geman and McClure's
/// weights) over the vanishing line, the stretch and skew, and the size, from several beginnings; two outlines at least
/// must agree. None where less than `least` do. `known` is what else tells how the table lies: a homography from the
/// photograph to places on it, of any turn and size.
std::optional<Plane> fitted_plane(const std::vector<Quad>& quads, cv::Size picture, int least = 2,
                                  const std::optional<cv::Matx33d>& known = {});

}  // namespace farflung::photo
