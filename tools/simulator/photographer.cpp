#include "simulator/photographer.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>

#include <opencv2/imgproc.hpp>
#ifdef FARFLUNG_HAS_CODECS
#include <opencv2/imgcodecs.hpp>
#endif

#include "simulator/lay.hpp"
#include "simulator/piece.hpp"
#include "simulator/shapes.hpp"
#include "simulator/surface.hpp"

namespace farflung::simulator {
namespace {

cv::Matx33d table_from_cloth(const Placed& cloth) {
  const double angle = cloth.degrees * CV_PI / 180, c = std::cos(angle), s = std::sin(angle);
  const cv::Point2d corner = corners_of(cloth)[0];
  return {c, -s, corner.x, s, c, corner.y, 0, 0, 1};
}

bool holds_frame(const std::vector<cv::Point2d>& corners, cv::Size frame) {
  std::vector<cv::Point2f> outline(corners.begin(), corners.end());
  for (const cv::Point2f p : {cv::Point2f(0, 0), cv::Point2f(static_cast<float>(frame.width - 1), 0),
                              cv::Point2f(0, static_cast<float>(frame.height - 1)),
                              cv::Point2f(static_cast<float>(frame.width - 1), static_cast<float>(frame.height - 1))}) {
    if (cv::pointPolygonTest(outline, p, false) < 0) return false;
  }
  return true;
}

Seen lay_placed(cv::Mat& picture, const Placed& cloth, const cv::Matx33d& photo_from_table, const Light& light,
                Seed seed) {
  std::vector<cv::Point2d> corners;
  double per_inch = 0;
  for (const cv::Point2d corner : corners_of(cloth)) {
    corners.push_back(projected(photo_from_table, corner));
    per_inch = std::max(per_inch, scale_at(photo_from_table, corner));
  }
  const Piece piece = piece_of(cloth, std::clamp(per_inch, 8.0, 300.0), seed);
  Seen seen;
  seen.name = cloth.fabric.name;
  seen.lab = piece.lab;
  seen.fills_frame = holds_frame(corners, picture.size());
  std::copy(corners.begin(), corners.end(), seen.corners.begin());
  if (seen.fills_frame) {
    const double right = picture.cols - 1, bottom = picture.rows - 1;
    seen.corners = {cv::Point2d(0, 0), {right, 0}, {right, bottom}, {0, bottom}};
  }

  const cv::Matx33d photo_from_piece = photo_from_table * table_from_cloth(cloth) * piece.from_cloth.inv();
  lay(picture, {piece.light, piece.shape, photo_from_piece, cloth.thickness * per_inch}, light);
  return seen;
}

}  // namespace

PaperSeen lay_paper(cv::Mat& picture, const Paper& paper, const cv::Matx33d& photo_from_table, const Light& light) {
  const double angle = paper.degrees * CV_PI / 180, c = std::cos(angle), s = std::sin(angle);
  const std::array<cv::Point2d, 4> corners = corners_of(paper);
  PaperSeen seen;
  seen.photo_from_page = photo_from_table * cv::Matx33d(c, -s, corners[0].x, s, c, corners[0].y, 0, 0, 1);
  for (std::size_t k = 0; k < 4; ++k) seen.corners[k] = projected(photo_from_table, corners[k]);
  // Pages come finer than the photograph sees them: averaged down first, or thin lines would break up.
  constexpr double kStandsOff = 0.012;  // inches
  const double per_inch = scale_at(photo_from_table, paper.centre);
  cv::Mat page = paper.light, shape = paper.shape.empty() ? cv::Mat::ones(page.size(), CV_32F) : paper.shape;
  const cv::Size fine(cvRound(paper.width * per_inch * 1.5), cvRound(paper.height * per_inch * 1.5));
  if (fine.width < page.cols) {
    cv::resize(page, page, fine, 0, 0, cv::INTER_AREA);
    cv::resize(shape, shape, fine, 0, 0, cv::INTER_AREA);
  }
  const double fx = paper.width / page.cols, fy = paper.height / page.rows;
  const cv::Matx33d page_from_picture(fx, 0, 0.5 * fx, 0, fy, 0.5 * fy, 0, 0, 1);
  lay(picture, {page, shape, seen.photo_from_page * page_from_picture, kStandsOff * per_inch}, light);
  return seen;
}

Photograph photographed(const Scene& scene, const Shot& shot, Seed seed) {
  std::vector<cv::Point2d> frame;
  for (const Placed& cloth : scene.cloths) {
    for (const cv::Point2d corner : corners_of(cloth)) frame.push_back(corner);
  }
  for (const Paper& paper : scene.papers) {
    for (const cv::Point2d corner : corners_of(paper)) frame.push_back(corner);
  }
  if (frame.empty()) frame = {{0, 0}, {16, 0}, {16, 12}, {0, 12}};
  Photograph photograph;
  photograph.photo_from_table = photo_from_table(shot.camera, frame);
  cv::Mat picture =
      surface_seen(scene.surface, photograph.photo_from_table, shot.camera.pixels, derived(scene.seed, 0));
  photograph.papers.resize(scene.papers.size());
  const auto lay_papers = [&](bool over) {
    for (std::size_t i = 0; i < scene.papers.size(); ++i) {
      if (scene.papers[i].over != over) continue;
      photograph.papers[i] = lay_paper(picture, scene.papers[i], photograph.photo_from_table, shot.light);
    }
  };
  lay_papers(false);
  for (std::size_t i = 0; i < scene.cloths.size(); ++i) {
    photograph.cloths.push_back(
        lay_placed(picture, scene.cloths[i], photograph.photo_from_table, shot.light, derived(scene.seed, i + 1)));
  }
  lay_papers(true);
  for (const Stray& stray : scene.strays) lay_stray(picture, stray, shot.light.shadow_depth);
  photograph.exposure = exposed(picture, light_over(shot.light, picture.size()), shot.light, shot.develop);
  photograph.srgb = developed(picture, photograph.exposure, shot.develop, seed);
  return photograph;
}

std::vector<unsigned char> jpeg_of(const cv::Mat& srgb, int quality) {
  std::vector<unsigned char> bytes;
#ifdef FARFLUNG_HAS_CODECS
  cv::Mat blue_first;
  cv::cvtColor(srgb, blue_first, cv::COLOR_RGB2BGR);
  cv::imencode(".jpg", blue_first, bytes, {cv::IMWRITE_JPEG_QUALITY, quality});
#else
  (void)srgb, (void)quality;
#endif
  return bytes;
}

bool written(const std::string& file, const std::vector<unsigned char>& bytes) {
  std::ofstream out(file, std::ios::binary);
  out.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
  return static_cast<bool>(out.flush());
}

}  // namespace farflung::simulator
