// Checks woven from dyed yarn: where warp crosses weft both colours show.
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/design.hpp"
#include "simulator/light.hpp"
#include "simulator/shapes.hpp"

namespace farflung::simulator {
namespace {

struct Band {
  double width;  ///< in motifs
  std::size_t ink;
};

// The colour of each thread across one way of the cloth: 1 x pixels, CV_32FC3 linear light.
cv::Mat sett(Brush& brush, double inches, int pixels, const std::vector<Band>& bands) {
  double total = 0;
  for (const Band& band : bands) total += band.width;
  const double times = std::round(inches / (total * brush.motif));
  brush.scale = inches / times;
  constexpr int kFiner = 8;
  cv::Mat fine(1, pixels * kFiner, CV_8UC3);
  for (int i = 0; i < fine.cols; ++i) {
    double place = std::fmod((i + 0.5) / fine.cols * times, 1.0) * total;
    std::size_t k = 0;
    while (k + 1 < bands.size() && place >= bands[k].width) place -= bands[k++].width;
    const Ink ink = brush.ink(bands[k].ink);
    fine.at<cv::Vec3b>(i) = {ink.red, ink.green, ink.blue};
  }
  cv::Mat colours;
  cv::resize(linear_picture(fine), colours, {pixels, 1}, 0, 0, cv::INTER_AREA);
  return colours;
}

// Warp over weft by turns, in a fine twill that shows only close to.
cv::Mat woven(Brush& brush, const std::vector<Band>& warp_bands, const std::vector<Band>& weft_bands) {
  const cv::Size size = brush.tile.pixels();
  const cv::Mat warp = sett(brush, brush.tile.width, size.width, warp_bands);
  const cv::Mat weft = sett(brush, brush.tile.height, size.height, weft_bands);
  const double threads = 34;  // visible twill lines to the inch
  const double fx = std::round(brush.tile.width * threads) / size.width;
  const double fy = std::round(brush.tile.height * threads) / size.height;
  const double seen = std::clamp((brush.tile.pixels_per_inch / threads - 1.5) / 2, 0.0, 1.0) * 0.30;
  cv::Mat picture(size, CV_32FC3);
  std::vector<float> wave(1024);
  for (int i = 0; i < 1024; ++i)
    wave[static_cast<std::size_t>(i)] = static_cast<float>(0.5 + seen * std::sin(2 * CV_PI * i / 1024.0));
  for (int y = 0; y < size.height; ++y) {
    const cv::Vec3f across = weft.at<cv::Vec3f>(y);
    for (int x = 0; x < size.width; ++x) {
      const double turn = x * fx + y * fy;
      const float over = wave[static_cast<std::size_t>((turn - std::floor(turn)) * 1023.99)];
      picture.at<cv::Vec3f>(y, x) = warp.at<cv::Vec3f>(x) * over + across * (1 - over);
    }
  }
  return picture;
}

// inks: ground, check; motif is from check to check
cv::Mat gingham(Brush& brush) {
  const std::vector<Band> bands = {{0.25, 0}, {0.5, 1}, {0.25, 0}};
  return woven(brush, bands, bands);
}

// inks: ground, broad band, second band, fine line
cv::Mat plaid(Brush& brush) {
  const std::vector<Band> bands = {{0.14, 0}, {0.03, 3}, {0.06, 0}, {0.22, 1}, {0.03, 3}, {0.05, 2},
                                   {0.03, 3}, {0.22, 1}, {0.06, 0}, {0.03, 3}, {0.14, 0}, {0.16, 2}};
  return woven(brush, bands, bands);
}

// inks: ground, line
cv::Mat windowpane(Brush& brush) {
  const std::vector<Band> bands = {{0.44, 0}, {0.035, 1}, {0.05, 0}, {0.035, 1}, {0.44, 0}};
  return woven(brush, bands, bands);
}

// Broken checks: four dark, four light threads each way in a 2/2 twill, drawn large. inks: ground, check
cv::Mat houndstooth(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double u = brush.motif / 8;
  brush.scale = brush.motif;
  const int across = static_cast<int>(std::round(brush.tile.width / u));
  const int down = static_cast<int>(std::round(brush.tile.height / u));
  for (int y = 0; y < down; ++y) {
    for (int x = 0; x < across; ++x) {
      const bool warp_up = ((x + y) % 4) < 2;
      const bool dark = warp_up ? x % 8 < 4 : y % 8 < 4;
      if (dark) canvas.fill(box(x * u, y * u, u, u), brush.ink(1));
    }
  }
  return canvas.linear();
}

}  // namespace

std::vector<Design> check_designs() {
  return {{"gingham", 8, 8, {}, gingham},
          {"plaid", 3, 3, {}, plaid},
          {"windowpane", 6, 6, {}, windowpane},
          {"houndstooth", 6, 6, {}, houndstooth}};
}

}  // namespace farflung::simulator
