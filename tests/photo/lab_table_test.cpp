#include "photo/lab_table.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "colour/srgb.hpp"

namespace farflung::photo {
namespace {

TEST(LabTable, IsWithinAHundredthOfTheExactConversionAllOverTheGamut) {
  double most = 0;
  for (int r = 0; r < 256; r += 5) {
    for (int g = 0; g < 256; g += 5) {
      for (int b = 0; b < 256; b += 5) {
        const cv::Vec3b pixel(static_cast<std::uint8_t>(r), static_cast<std::uint8_t>(g), static_cast<std::uint8_t>(b));
        const cv::Vec3f seen = LabTable::get().lab(pixel);
        const colour::Lab exact = colour::lab_from_srgb({pixel[0], pixel[1], pixel[2]});
        most = std::max({most, std::abs(seen[0] - exact.L), std::abs(seen[1] - exact.a), std::abs(seen[2] - exact.b)});
      }
    }
  }
  EXPECT_LT(most, 0.01);
}

}  // namespace
}  // namespace farflung::photo
