// The table.
#pragma once

#include "simulator/scene.hpp"

namespace farflung::simulator {

/// The table as a camera sees it: CV_32FC3 linear light in daylight.
cv::Mat surface_seen(const Surface& surface, const cv::Matx33d& photo_from_table, cv::Size pixels, Seed seed);

}  // namespace farflung::simulator
