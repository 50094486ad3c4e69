#include "simulator/camera.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/light.hpp"

namespace farflung::simulator {
namespace {

constexpr double kWhite = 0.8;    // where the whitest white falls at 0 EV, of full light
constexpr double kMostLight = 4;  // that the curve's table covers

double radians(double degrees) { return degrees * CV_PI / 180; }

cv::Matx33d about_z(double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c, -s, 0, s, c, 0, 0, 0, 1};
}

cv::Matx33d about_x(double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {1, 0, 0, 0, c, -s, 0, s, c};
}

// An sRGB value from linear light that may exceed 1: plain at `tone` 0, a telephone's at 1.
double curve(double linear, double tone) {
  const double plain = srgb_from_linear(linear);
  constexpr double kKnee = 0.70, kRest = 0.30;
  const double soft = plain < kKnee ? plain : kKnee + kRest * (1 - std::exp(-(plain - kKnee) / kRest));
  const double steep = soft - 0.055 * std::sin(2 * CV_PI * soft);
  return (1 - tone) * std::min(plain, 1.0) + tone * std::clamp(steep, 0.0, 1.0);
}

cv::Mat curved(const cv::Mat& linear, double tone) {
  constexpr int kKnots = 2048;
  std::vector<float> knots(kKnots + 1);
  for (int i = 0; i <= kKnots; ++i) {
    const double root = static_cast<double>(i) / kKnots;
    knots[static_cast<std::size_t>(i)] = static_cast<float>(255 * curve(kMostLight * root * root, tone));
  }
  return through_curve(linear, kMostLight, knots);
}

// Shot and read noise, a little smeared as by the reading of a colour mosaic.
void add_noise(cv::Mat& linear, double noise, Seed seed) {
  if (noise <= 0) return;
  cv::RNG rng(seed.value);
  cv::Mat grain(linear.size(), CV_32FC3), spread;
  rng.fill(grain, cv::RNG::NORMAL, 0, 1);
  cv::GaussianBlur(grain, grain, {3, 3}, 0.6);
  constexpr double kSmeared = 0.57;  // what that blur leaves of a deviation of 1
  cv::max(linear, 0, spread);
  cv::sqrt(spread * 0.75 + cv::Scalar::all(0.25 * 0.25), spread);
  linear += grain.mul(spread) * (noise / kSmeared);
}

// Someone leans over the table: a shadow from one side, its edge a rounded back.
cv::Mat cast_over(const Light& light, cv::Size pixels) {
  cv::Mat coarse(96, 96, CV_32F);
  const double angle = radians(light.cast_from), c = std::cos(angle), s = std::sin(angle);
  for (int y = 0; y < coarse.rows; ++y) {
    for (int x = 0; x < coarse.cols; ++x) {
      const double u = (x + 0.5) / 96 - 0.5, v = (y + 0.5) / 96 - 0.5;
      const double along = 0.5 - (u * c + v * s), aside = v * c - u * s;  // 0 at the side it falls in from
      const double edge = light.cast_reach - 1.6 * aside * aside;
      const double t = std::clamp((edge - along) / light.cast_softness + 0.5, 0.0, 1.0);
      coarse.at<float>(y, x) = static_cast<float>(1 - light.cast_depth * t * t * (3 - 2 * t));
    }
  }
  cv::Mat lit;
  cv::resize(coarse, lit, pixels, 0, 0, cv::INTER_LINEAR);
  return lit;
}

// What the lens loses toward the corners.
cv::Mat lens_over(double vignette, cv::Size pixels) {
  cv::Mat coarse(33, 33, CV_32F), dark;
  for (int y = 0; y < coarse.rows; ++y) {
    for (int x = 0; x < coarse.cols; ++x) {
      const double u = x / 16.0 - 1, v = y / 16.0 - 1, r2 = (u * u + v * v) / 2;
      coarse.at<float>(y, x) = static_cast<float>(1 - vignette * r2 * r2);
    }
  }
  cv::resize(coarse, dark, pixels, 0, 0, cv::INTER_CUBIC);
  return dark;
}

// As a telephone meters: the whole at a third of full light, but the brightest hundredth no higher than 0.55.
double metered_gain(const cv::Mat& scene, const cv::Mat& gain) {
  cv::Mat small, lit, bright;
  cv::resize(scene, small, {64, 48}, 0, 0, cv::INTER_AREA);
  cv::resize(gain, lit, {64, 48}, 0, 0, cv::INTER_AREA);
  cv::transform(small, bright, cv::Matx13f(0.2126f, 0.7152f, 0.0722f));
  bright = bright.mul(lit);
  std::vector<float> values(bright.begin<float>(), bright.end<float>());
  const auto high = values.begin() + static_cast<std::ptrdiff_t>(values.size()) * 99 / 100;
  std::nth_element(values.begin(), high, values.end());
  return std::min(0.33 / cv::mean(bright)[0], 0.55 / static_cast<double>(*high));
}

cv::Matx33d colour_of(const Light& light, const Develop& develop, double white_level) {
  const cv::Matx33d cast = cast_of(light.kelvin);
  const cv::Vec3d white = cast * cv::Vec3d(1, 1, 1);
  cv::Vec3d gains;
  for (int k = 0; k < 3; ++k) gains[k] = std::pow(white[k], -develop.balance);
  gains[1] *= 1 - develop.tint;
  const double bright = white_level * std::pow(2.0, develop.exposure);
  cv::Matx33d vivid = cv::Matx33d::eye() * (1 + develop.vividness);
  const double grey[3] = {0.2126, 0.7152, 0.0722};
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 3; ++column) vivid(row, column) -= develop.vividness * grey[column];
  }
  return vivid * cv::Matx33d::diag(gains) * cast * bright;
}

}  // namespace

cv::Point2d projected(const cv::Matx33d& target_from_source, cv::Point2d point) {
  const cv::Vec3d p = target_from_source * cv::Vec3d(point.x, point.y, 1);
  return {p[0] / p[2], p[1] / p[2]};
}

cv::Matx33d photo_from_table(const Camera& camera, const std::vector<cv::Point2d>& frame) {
  cv::Point2d low(1e9, 1e9), high(-1e9, -1e9);
  for (const cv::Point2d p : frame) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  const cv::Point2d centre = (low + high) * 0.5;
  const double reach = std::hypot(high.x - low.x, high.y - low.y) / 2;
  const double away = reach / std::tan(radians(camera.view / 2));
  const double side = radians(camera.azimuth - 90);
  const cv::Matx33d turn =
      about_z(radians(camera.roll)) * about_z(side) * about_x(radians(-camera.slant)) * about_z(-side);
  const cv::Matx33d from_centre(1, 0, -centre.x, 0, 1, -centre.y, 0, 0, 1);
  cv::Matx33d seen(turn(0, 0), turn(0, 1), 0, turn(1, 0), turn(1, 1), 0, turn(2, 0), turn(2, 1), away);
  seen = seen * from_centre;

  cv::Point2d left(1e9, 1e9), right(-1e9, -1e9);
  for (const cv::Point2d p : frame) {
    const cv::Point2d q = projected(seen, p);
    left = {std::min(left.x, q.x), std::min(left.y, q.y)};
    right = {std::max(right.x, q.x), std::max(right.y, q.y)};
  }
  const double room = 1 - 2 * camera.margin;
  const double fit_x = camera.pixels.width * room / (right.x - left.x);
  const double fit_y = camera.pixels.height * room / (right.y - left.y);
  const double scale = camera.margin < 0 ? std::max(fit_x, fit_y) : std::min(fit_x, fit_y);
  const cv::Point2d middle = (left + right) * 0.5;
  return cv::Matx33d(scale, 0,
                     (camera.pixels.width - 1) / 2.0 + camera.shift.x * camera.pixels.width - scale * middle.x, 0,
                     scale, (camera.pixels.height - 1) / 2.0 + camera.shift.y * camera.pixels.height - scale * middle.y,
                     0, 0, 1) *
         seen;
}

cv::Mat light_over(const Light& light, cv::Size pixels) {
  constexpr int kGrid = 48;
  cv::Mat coarse(kGrid, kGrid, CV_32F);
  const double angle = radians(light.fall_off_toward), c = std::cos(angle), s = std::sin(angle);
  const double longest = std::abs(c) + std::abs(s);
  for (int y = 0; y < kGrid; ++y) {
    for (int x = 0; x < kGrid; ++x) {
      const double u = 2 * (x + 0.5) / kGrid - 1, v = 2 * (y + 0.5) / kGrid - 1;
      const double along = std::clamp(0.5 + 0.5 * (u * c + v * s) / longest, 0.0, 1.0);
      const double aside = (v * c - u * s) / longest;
      // As from a lamp beside the brightest place: mostly along the way, a little to its sides.
      coarse.at<float>(y, x) = static_cast<float>(0.85 * (0.4 * along + 0.6 * along * along) + 0.15 * aside * aside);
    }
  }
  cv::normalize(coarse, coarse, 0, 1, cv::NORM_MINMAX);
  coarse = 1 - light.fall_off * coarse;
  cv::Mat lit;
  cv::resize(coarse, lit, pixels, 0, 0, cv::INTER_LINEAR);
  if (light.cast_depth > 0) lit = lit.mul(cast_over(light, pixels));
  return lit;
}

Exposure exposed(const cv::Mat& scene, const cv::Mat& lit, const Light& light, const Develop& develop) {
  const cv::Mat gain = lit.mul(lens_over(develop.vignette, scene.size()));
  const double white_level = develop.metered ? metered_gain(scene, gain) : kWhite;
  return {gain, colour_of(light, develop, white_level)};
}

double sensor_light(double developed, double tone) {
  double low = 0, high = kMostLight;
  for (int i = 0; i < 50; ++i) {
    const double middle = (low + high) / 2;
    (curve(middle, tone) < developed ? low : high) = middle;
  }
  return high;
}

cv::Mat developed(const cv::Mat& scene, const Exposure& exposure, const Develop& develop, Seed seed) {
  // In bands, with a little of their neighbours: 12 megapixels of floats at a time would take a gigabyte.
  constexpr int kBand = 256;
  const int more = cvCeil(4 * develop.blur) + 8;
  cv::Mat srgb(scene.size(), CV_8UC3);
  for (int top = 0; top < scene.rows; top += kBand) {
    const int bottom = std::min(top + kBand, scene.rows);
    const cv::Range wide(std::max(0, top - more), std::min(scene.rows, bottom + more));
    cv::Mat three, band;
    const cv::Mat part = exposure.lit.rowRange(wide);
    cv::merge(std::vector<cv::Mat>{part, part, part}, three);
    cv::transform(scene.rowRange(wide).mul(three), band, cv::Mat(exposure.colour));
    if (develop.blur > 0) cv::GaussianBlur(band, band, {}, develop.blur);
    add_noise(band, develop.noise, derived(seed, static_cast<std::uint64_t>(top)));
    cv::Mat seen = curved(band, develop.tone);
    if (develop.sharpening > 0) {
      cv::Mat soft;
      cv::GaussianBlur(seen, soft, {}, 1.2);
      cv::addWeighted(seen, 1 + develop.sharpening, soft, -develop.sharpening, 0, seen);
    }
    seen.rowRange(top - wide.start, bottom - wide.start).copyTo(srgb.rowRange(top, bottom));
  }
  return srgb;
}

}  // namespace farflung::simulator
