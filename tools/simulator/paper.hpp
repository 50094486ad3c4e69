// A printed page in the picture: a reference sheet, a colour chart, a ruler.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include <opencv2/core.hpp>

#include "base/rng.hpp"

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

/// What a home printer prints with. Office papers differ: more or less bright, more or less blue.
struct Stationery {
  cv::Vec3d white = {0.855, 0.86, 0.872};  ///< linear light, L* 94.3
  double black = 0.035;                    ///< linear light of the blackest print, L* 21.9
  double spread = 0.001;                   ///< inches by which ink runs beyond each edge; at most 0.0025
};

/// Paper and ink drawn by lot: white within about 2 dE of the usual, black L* 18 to 26, ink that runs 10 to 50
/// micrometres.
Stationery stationery(Seed seed);

/// A page as a home printer makes it: `page` is CV_8UC1 or CV_8UC3 sRGB (red first), its white the paper's, its black
/// the ink's.
Paper printed(const cv::Mat& page, double width, double height, const Stationery& stationery = {});

/// A page of black boxes, each in inches from the middle of the page (x right, y down), at 200 pixels to the inch;
/// where `window` is given, it is cut out.
///
///   std::vector<cv::Rect2d> black;  // every black cell of every mark
///   lay_beside(scene, page_of_boxes(black, {}, 8.5, 11, stationery(Seed{7})), 0.5);
Paper page_of_boxes(const std::vector<cv::Rect2d>& black, const std::optional<cv::Rect2d>& window, double width,
                    double height, const Stationery& stationery = {});

/// Its corners on the table, clockwise from its own top left.
std::array<cv::Point2d, 4> corners_of(const Paper& paper);

/// Lays `paper` on the scene's table to the right of all its cloths, `gap` inches from them.
void lay_beside(Scene& scene, Paper paper, double gap);

}  // namespace farflung::simulator
