// A printed page in the picture: a reference sheet, a colour chart, a ruler.
#pragma once

#include <array>

#include <opencv2/core.hpp>

namespace farflung::simulator {

struct Scene;

struct Paper {
  cv::Mat light;                    ///< CV_32FC3 linear RGB light that it sends back in daylight, whole page
  cv::Mat shape;                    ///< CV_32F 0..1 of the same size: 0 where a window is cut; empty: no window
  double width = 8.5, height = 11;  ///< inches
  cv::Point2d centre;               ///< on the table
  double degrees = 0;               ///< turned clockwise
  bool over = false;                ///< lies over the cloths, as a sheet with a window does; else under them
};

/// A page as a home printer makes it: `page` is CV_8UC1 or CV_8UC3 sRGB (red first), its white the paper's, its black
/// no blacker than printed ink. Paper white is 0.86 of full light, a very little blue; ink black 0.035.
Paper printed(const cv::Mat& page, double width, double height);

/// Its corners on the table, clockwise from its own top left.
std::array<cv::Point2d, 4> corners_of(const Paper& paper);

/// Lays `paper` on the scene's table to the right of all its cloths, `gap` inches from them.
void lay_beside(Scene& scene, Paper paper, double gap);

/// What is seen of the table where the paper lies: light that its white sends back, for the truth.
cv::Vec3d paper_white();

}  // namespace farflung::simulator
