// How far a shape reaches, in inches; for the sources of this module.
#pragma once

#include <algorithm>

#include "base/plane.hpp"

namespace farflung::cloth {

/// kSnap in inches: what lies nearer is in one place.
inline const double kNear = kSnap.inches();

inline Length in(double inches) { return Length::inches(inches); }

/// The least upright rectangle that holds points; inside out while there are none.
struct Extent {
  double left = 1e300, top = 1e300, right = -1e300, bottom = -1e300;
  double width() const { return right - left; }
  double height() const { return bottom - top; }
  void take_in(double x, double y) {
    left = std::min(left, x);
    right = std::max(right, x);
    top = std::min(top, y);
    bottom = std::max(bottom, y);
  }
  bool holds(const Extent& other) const {
    return other.left >= left - kNear && other.right <= right + kNear && other.top >= top - kNear &&
           other.bottom <= bottom + kNear;
  }
};

}  // namespace farflung::cloth
