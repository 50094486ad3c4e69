#include "simulator/scene.hpp"

#include "simulator/shapes.hpp"

namespace farflung::simulator {

std::vector<cv::Point2d> corners_of(const Placed& cloth) {
  const double angle = cloth.degrees * CV_PI / 180;
  const cv::Point2d right = toward(angle) * (cloth.width / 2), down = toward(angle + CV_PI / 2) * (cloth.height / 2);
  return {cloth.centre - right - down, cloth.centre + right - down, cloth.centre + right + down,
          cloth.centre - right + down};
}

Scene in_rows(const std::vector<Fabric>& fabrics, int across, double width, double height, double gap, double askew,
              Seed seed) {
  Rng rng(seed);
  Scene scene;
  scene.seed = seed;
  for (std::size_t i = 0; i < fabrics.size(); ++i) {
    Placed cloth;
    cloth.fabric = fabrics[i];
    cloth.width = width * rng.between(0.98, 1.02);
    cloth.height = height * rng.between(0.98, 1.02);
    const int column = static_cast<int>(i) % across, row = static_cast<int>(i) / across;
    cloth.centre = {(column + 0.5) * (width + gap) + gap * rng.between(-0.15, 0.15),
                    (row + 0.5) * (height + gap) + gap * rng.between(-0.15, 0.15)};
    cloth.degrees = rng.between(-askew, askew);
    cloth.from = {rng.between(0, 12), rng.between(0, 12)};
    scene.cloths.push_back(cloth);
  }
  return scene;
}

}  // namespace farflung::simulator
