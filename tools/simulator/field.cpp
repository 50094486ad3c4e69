#include "simulator/field.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/light.hpp"

namespace farflung::simulator {

cv::Mat drawn_out(const cv::Mat& coarse, cv::Size size) {
  constexpr int kPad = 3;
  cv::Mat padded;
  cv::copyMakeBorder(coarse, padded, kPad, kPad, kPad, kPad, cv::BORDER_WRAP);
  const double fx = static_cast<double>(coarse.cols) / size.width, fy = static_cast<double>(coarse.rows) / size.height;
  const cv::Matx23d coarse_from_fine(fx, 0, kPad - 0.5 + fx / 2, 0, fy, kPad - 0.5 + fy / 2);
  cv::Mat fine;
  cv::warpAffine(padded, fine, coarse_from_fine, size, cv::INTER_CUBIC | cv::WARP_INVERSE_MAP, cv::BORDER_REPLICATE);
  return fine;
}

cv::Mat deviates(cv::Size size, Rng& rng) {
  cv::Mat field(size, CV_32F);
  cv::RNG fast(rng.next());
  fast.fill(field, cv::RNG::NORMAL, 0, 1);
  return field;
}

cv::Mat clouds(const Tile& tile, double grain, int octaves, double persistence, Rng& rng) {
  const cv::Size size = tile.pixels();
  cv::Mat field = cv::Mat::zeros(size, CV_32F);
  double strength = 1, power = 0;
  for (int k = 0; k < octaves; ++k, grain /= 2, strength *= persistence) {
    const cv::Size coarse(std::max(2, cvRound(tile.width / grain)), std::max(2, cvRound(tile.height / grain)));
    const cv::Mat octave = deviates(coarse, rng);  // drawn even where too fine to see: the rest stays the same
    if (coarse.width > size.width || coarse.height > size.height) continue;
    field += strength * drawn_out(octave, size);
    power += strength * strength;
  }
  constexpr double kSpread = 2.6;  // of a drawn-out octave, from the 1st to the 99th percentile, in its own deviations
  field.convertTo(field, CV_32F, 1 / (kSpread * std::sqrt(std::max(power, 1e-9))), 0.5);
  return field;
}

cv::Mat stirred(const cv::Mat& picture, const Tile& tile, double grain, double strength, Rng& rng) {
  const cv::Mat right = clouds(tile, grain, 3, 0.5, rng), down = clouds(tile, grain, 3, 0.5, rng);
  cv::Mat across(picture.size(), CV_32F), along(picture.size(), CV_32F);
  const auto reach = static_cast<float>(2 * strength * tile.pixels_per_inch);
  const auto wrapped = [](float place, int size) {
    const auto whole = static_cast<float>(size);
    return place - whole * std::floor(place / whole);
  };
  for (int y = 0; y < picture.rows; ++y) {
    for (int x = 0; x < picture.cols; ++x) {
      const float dx = (right.at<float>(y, x) - 0.5f) * reach, dy = (down.at<float>(y, x) - 0.5f) * reach;
      across.at<float>(y, x) = wrapped(static_cast<float>(x) + dx, picture.cols);
      along.at<float>(y, x) = wrapped(static_cast<float>(y) + dy, picture.rows);
    }
  }
  cv::Mat result;
  cv::remap(picture, result, across, along, cv::INTER_LINEAR, cv::BORDER_WRAP);
  return result;
}

cv::Mat dyed(const cv::Mat& field, const std::vector<Ink>& inks) {
  cv::Mat run(1, 256, CV_8UC3);
  for (int i = 0; i < 256; ++i) {
    const double place = i / 255.0 * static_cast<double>(inks.size() - 1);
    const auto first = std::min(static_cast<std::size_t>(place), inks.size() - 2);
    const Ink ink = mixed(inks[first], inks[first + 1], place - static_cast<double>(first));
    run.at<cv::Vec3b>(i) = {ink.red, ink.green, ink.blue};
  }
  cv::Mat steps, three, picture;
  field.convertTo(steps, CV_8U, 255);
  cv::merge(std::vector<cv::Mat>{steps, steps, steps}, three);
  cv::LUT(three, linear_picture(run), picture);
  return picture;
}

cv::Mat blended(const cv::Mat& first, const cv::Mat& second, const cv::Mat& mask) {
  cv::Mat three = mask;
  if (first.channels() == 3) cv::merge(std::vector<cv::Mat>{mask, mask, mask}, three);
  return first + (second - first).mul(three);
}

cv::Mat stepped(const cv::Mat& field, double low, double high) {
  cv::Mat t;
  field.convertTo(t, CV_32F, 1 / (high - low), -low / (high - low));
  cv::max(t, 0, t);
  cv::min(t, 1, t);
  return t.mul(t).mul(3 - 2 * t);
}

}  // namespace farflung::simulator
