#include "photo/shade.hpp"

#include <vector>

#include <opencv2/imgproc.hpp>

namespace farflung::photo {
namespace {

constexpr float kLeastLight = 0.63F, kMostLight = 1.3F;  ///< cube roots of the light over what is expected
constexpr float kSteep = 0.01F;  ///< of such a root from pixel to pixel: steeper than the rim of a shade
constexpr int kCell = 8;         ///< pixels over which light is averaged

/// What each pixel says of the light on the surface, if it is surface.
struct Light {
  cv::Mat root;  ///< CV_32F, cube root of the light over what is expected
  cv::Mat hue;   ///< CV_8U, 255 where the pixel has the surface's hue in such a light
};

Light light_on(const cv::Mat& lab, const Surface& surface) {
  Light light{cv::Mat(lab.size(), CV_32F), cv::Mat(lab.size(), CV_8U)};
  for (int row = 0; row < lab.rows; ++row) {
    const auto *seen = lab.ptr<cv::Vec3f>(row), *bare = surface.expected.ptr<cv::Vec3f>(row);
    auto* root = light.root.ptr<float>(row);
    auto* hue = light.hue.ptr(row);
    for (int column = 0; column < lab.cols; ++column) {
      const cv::Vec3f v = from_black(seen[column]), e = from_black(bare[column]);
      const float k = root_of_light(v, e);
      root[column] = k;
      const cv::Vec3f off = surface.whitening * (v - k * e);
      hue[column] = k > kLeastLight && k < kMostLight && off.dot(off) < kUnlike * kUnlike ? 255 : 0;
    }
  }
  return light;
}

/// Where the light changes as softly as at the rim of a shade: 255.
cv::Mat soft(const cv::Mat& root) {
  cv::Mat smooth, across, down, steepness;
  cv::GaussianBlur(root, smooth, {}, 1);
  cv::Sobel(smooth, across, CV_32F, 1, 0, 3, 1.0 / 8);
  cv::Sobel(smooth, down, CV_32F, 0, 1, 3, 1.0 / 8);
  cv::magnitude(across, down, steepness);
  return steepness < kSteep;
}

/// What of `passable` is surface: each part that runs along much of the picture's rim.
cv::Mat surface_in(const cv::Mat& passable) {
  constexpr double kOfRim = 0.08;
  cv::Mat labels;
  const int count = cv::connectedComponents(passable, labels, 4);
  std::vector<int> at_rim(count, 0);
  for (int column = 0; column < labels.cols; ++column)
    ++at_rim[labels.at<int>(0, column)], ++at_rim[labels.at<int>(labels.rows - 1, column)];
  for (int row = 0; row < labels.rows; ++row)
    ++at_rim[labels.at<int>(row, 0)], ++at_rim[labels.at<int>(row, labels.cols - 1)];
  at_rim[0] = 0;
  cv::Mat result(passable.size(), CV_8U);
  for (int row = 0; row < labels.rows; ++row) {
    const int* label = labels.ptr<int>(row);
    auto* r = result.ptr(row);
    for (int column = 0; column < labels.cols; ++column)
      r[column] = at_rim[label[column]] > kOfRim * 2 * (labels.cols + labels.rows) ? 255 : 0;
  }
  return result;
}

/// `values` where `weights` are 1 or more; elsewhere as smooth as the places about allow: filled from ever coarser
/// means (pull and push: Gortler et al., The Lumigraph, 1996, section 3.4).
cv::Mat filled(const cv::Mat& values, const cv::Mat& weights) {
  const cv::Mat own = cv::min(weights, 1);
  if (values.cols <= 2 || values.rows <= 2) {
    const double all = cv::sum(own)[0];
    return cv::Mat(values.size(), CV_32F, cv::Scalar(all > 0 ? values.dot(own) / all : 1));
  }
  const cv::Size half((values.cols + 1) / 2, (values.rows + 1) / 2);
  cv::Mat sums, shares, coarse;
  cv::resize(values.mul(own), sums, half, 0, 0, cv::INTER_AREA);
  cv::resize(own, shares, half, 0, 0, cv::INTER_AREA);
  cv::Mat means = sums / cv::max(shares, 1e-6);
  cv::resize(filled(means, shares * 4), coarse, values.size(), 0, 0, cv::INTER_LINEAR);
  return values.mul(own) + coarse.mul(1 - own);
}

/// The light's root in cells of the picture, told where `seen` is and filled elsewhere.
cv::Mat light_field(const cv::Mat& root, const cv::Mat& seen) {
  const cv::Size cells(std::max(2, root.cols / kCell), std::max(2, root.rows / kCell));
  cv::Mat weights, sums;
  seen.convertTo(weights, CV_32F, 1.0 / 255);
  cv::resize(root.mul(weights), sums, cells, 0, 0, cv::INTER_AREA);
  cv::resize(weights, weights, cells, 0, 0, cv::INTER_AREA);
  cv::Mat field = filled(sums / cv::max(weights, 1e-6), weights * 4);
  cv::resize(field, field, root.size(), 0, 0, cv::INTER_LINEAR);
  return field;
}

}  // namespace

std::optional<Shaded> shade_on(const cv::Mat& lab, const Surface& surface) {
  constexpr double kMostly = 0.3;  // of the picture: less says nothing of how light falls on all of it
  const Light light = light_on(lab, surface);
  cv::Mat passable;
  cv::erode(light.hue & soft(light.root), passable, cv::getStructuringElement(cv::MORPH_RECT, {3, 3}));
  Shaded shaded{{}, surface_in(passable)};
  if (cv::countNonZero(shaded.seen) < kMostly * static_cast<double>(lab.total())) return {};
  const cv::Mat field = light_field(light.root, shaded.seen);
  shaded.expected.create(lab.size(), CV_32FC3);
  for (int row = 0; row < lab.rows; ++row) {
    const auto* bare = surface.expected.ptr<cv::Vec3f>(row);
    auto* expected = shaded.expected.ptr<cv::Vec3f>(row);
    const float* k = field.ptr<float>(row);
    for (int column = 0; column < lab.cols; ++column)
      expected[column] = k[column] * from_black(bare[column]) - from_black({0, 0, 0});
  }
  return shaded;
}

}  // namespace farflung::photo
