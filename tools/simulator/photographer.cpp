#include "simulator/photographer.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>

#include <opencv2/imgproc.hpp>
#ifdef FARFLUNG_HAS_CODECS
#include <opencv2/imgcodecs.hpp>
#endif

#include "simulator/field.hpp"
#include "simulator/light.hpp"
#include "simulator/piece.hpp"
#include "simulator/shapes.hpp"
#include "simulator/surface.hpp"

namespace farflung::simulator {
namespace {

// Pixels to the inch at a place on the table, along x and y averaged.
double scale_at(const cv::Matx33d& photo_from_table, cv::Point2d place) {
  const cv::Point2d here = projected(photo_from_table, place);
  const cv::Point2d right = projected(photo_from_table, place + cv::Point2d(0.5, 0)) - here;
  const cv::Point2d down = projected(photo_from_table, place + cv::Point2d(0, 0.5)) - here;
  return std::hypot(right.x, right.y) + std::hypot(down.x, down.y);
}

cv::Rect around(const std::vector<cv::Point2d>& points, int more, cv::Size frame) {
  cv::Point2d low(1e9, 1e9), high(-1e9, -1e9);
  for (const cv::Point2d p : points) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  const cv::Rect box(cvFloor(low.x) - more, cvFloor(low.y) - more, cvCeil(high.x - low.x) + 2 * more + 1,
                     cvCeil(high.y - low.y) + 2 * more + 1);
  return box & cv::Rect({0, 0}, frame);
}

cv::Matx33d moved(double x, double y) { return {1, 0, x, 0, 1, y, 0, 0, 1}; }

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

void lay_shadow(cv::Mat& part, const cv::Mat& shape, const Light& light, double pixels) {
  const double angle = light.shadow_toward * CV_PI / 180;
  const cv::Matx23d shift(1, 0, pixels * std::cos(angle), 0, 1, pixels * std::sin(angle));
  cv::Mat shadow, three;
  cv::warpAffine(shape, shadow, shift, shape.size(), cv::INTER_LINEAR, cv::BORDER_REPLICATE);
  cv::GaussianBlur(shadow, shadow, {}, std::max(0.6, 0.7 * pixels));
  shadow = 1 - light.shadow_depth * shadow;
  cv::merge(std::vector<cv::Mat>{shadow, shadow, shadow}, three);
  cv::multiply(part, three, part);
}

Seen lay(cv::Mat& picture, const Placed& cloth, const cv::Matx33d& photo_from_table, const Light& light, Seed seed) {
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

  const double reach = cloth.thickness * per_inch;
  const cv::Rect box = around(corners, cvCeil(4 * reach) + 3, picture.size());
  if (box.empty()) return seen;
  const cv::Matx33d box_from_piece =
      moved(-box.x, -box.y) * photo_from_table * table_from_cloth(cloth) * piece.from_cloth.inv();
  cv::Mat laid, shape, part = picture(box);
  cv::warpPerspective(piece.light, laid, cv::Mat(box_from_piece), box.size(), cv::INTER_LINEAR, cv::BORDER_REPLICATE);
  cv::warpPerspective(piece.shape, shape, cv::Mat(box_from_piece), box.size(), cv::INTER_LINEAR, cv::BORDER_CONSTANT,
                      0);
  lay_shadow(part, shape, light, reach);
  blended(part, laid, shape).copyTo(part);
  return seen;
}

}  // namespace

Photograph photographed(const Scene& scene, const Shot& shot, Seed seed) {
  std::vector<cv::Point2d> frame;
  for (const Placed& cloth : scene.cloths) {
    for (const cv::Point2d corner : corners_of(cloth)) frame.push_back(corner);
  }
  if (frame.empty()) frame = {{0, 0}, {16, 0}, {16, 12}, {0, 12}};
  Photograph photograph;
  photograph.photo_from_table = photo_from_table(shot.camera, frame);
  cv::Mat picture =
      surface_seen(scene.surface, photograph.photo_from_table, shot.camera.pixels, derived(scene.seed, 0));
  for (std::size_t i = 0; i < scene.cloths.size(); ++i) {
    photograph.cloths.push_back(
        lay(picture, scene.cloths[i], photograph.photo_from_table, shot.light, derived(scene.seed, i + 1)));
  }
  for (const Stray& stray : scene.strays) lay_stray(picture, stray, shot.light.shadow_depth);
  photograph.srgb = developed(picture, light_over(shot.light, picture.size()), shot.light, shot.develop, seed);
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
