// Photographs of cloth whose truth is known.
#pragma once

#include <array>
#include <string>
#include <vector>

#include <opencv2/core.hpp>

#include "simulator/camera.hpp"
#include "simulator/scene.hpp"

namespace farflung::simulator {

struct Shot {
  Camera camera;
  Light light;
  Develop develop;
};

/// The truth about a printed page in a photograph.
struct PaperSeen {
  std::array<cv::Point2d, 4> corners{};  ///< of the page in pixels, clockwise from its own top left
  cv::Matx33d photo_from_page;           ///< pixels from inches on the page, (0, 0) its top left corner
};

/// The truth about one cloth in a photograph.
struct Seen {
  std::string name;                      ///< of its fabric
  std::array<cv::Point2d, 4> corners{};  ///< outer corners in pixels (the first pixel's centre is 0, 0), clockwise from
                                         ///< the cloth's own top left; the frame's corners where it fills the frame
  bool fills_frame = false;
  colour::Lab lab;  ///< of the mean linear light of this very piece in daylight
};

struct Photograph {
  cv::Mat srgb;                   ///< CV_8UC3, red first, as developed, before any JPEG
  std::vector<Seen> cloths;       ///< in the order of the scene
  std::vector<PaperSeen> papers;  ///< in the order of the scene
  cv::Matx33d photo_from_table;
  Exposure exposure;  ///< what it takes to undo light and camera exactly
};

/// Lays a printed page into a photograph, its shadow first.
PaperSeen lay_paper(cv::Mat& picture, const Paper& paper, const cv::Matx33d& photo_from_table, const Light& light);

/// Photographs the scene. The same scene, shot and seed give the same pixels. About 0.3 s for 2 megapixels at -O2.
///
///   Scene scene = in_rows(bundle(6, Seed{5}), 3, 5, 7, 0.6, 3, Seed{5});
///   Photograph photograph = photographed(scene, Shot{}, Seed{1});
///   std::vector<uchar> jpeg = jpeg_of(photograph, 90);
Photograph photographed(const Scene& scene, const Shot& shot, Seed seed);

/// The photograph's bytes as JPEG; empty where the simulator was built without OpenCV's codecs.
std::vector<unsigned char> jpeg_of(const cv::Mat& srgb, int quality);

/// Writes bytes to a file; false where that fails.
bool written(const std::string& file, const std::vector<unsigned char>& bytes);

}  // namespace farflung::simulator
