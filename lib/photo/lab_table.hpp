// CIELAB of sRGB bytes by tables, for pictures.
#pragma once

#include <array>
#include <cstdint>

#include <opencv2/core.hpp>

namespace farflung::photo {

/// Within 0.01 of colour::lab_from_srgb in each of L*, a*, b*, at a fifth of its price.
class LabTable {
 public:
  static const LabTable& get();

  /// Light over that of white, 0..1, of one byte.
  float light(std::uint8_t value) const { return light_[value]; }

  cv::Vec3f lab(float red, float green, float blue) const {
    const float x = root(0.4339499F * red + 0.3762098F * green + 0.1898403F * blue),
                y = root(0.2126729F * red + 0.7151522F * green + 0.0721750F * blue),
                z = root(0.0177566F * red + 0.1094680F * green + 0.8727754F * blue);
    return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
  }
  cv::Vec3f lab(const cv::Vec3b& rgb) const { return lab(light_[rgb[0]], light_[rgb[1]], light_[rgb[2]]); }

 private:
  static constexpr int kSteps = 4096;

  LabTable();

  /// CIE 15:2004's cube root, a straight line between entries.
  float root(float share) const {
    const float at = share * kSteps;
    const int below = static_cast<int>(at);
    return root_[below] + (at - static_cast<float>(below)) * (root_[below + 1] - root_[below]);
  }

  std::array<float, 256> light_{};
  std::array<float, kSteps + 3> root_{};  // white may round to a little above 1
};

/// CV_32FC3 from CV_8UC3 in the order R, G, B.
cv::Mat lab_of(const cv::Mat& rgb);

}  // namespace farflung::photo
