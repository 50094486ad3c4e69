#include "photo/parting.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

namespace farflung::photo {
namespace {

constexpr double kStep = 0.5;       ///< pixels between samples across a side
constexpr double kMixed = 1;        ///< pixels on either side of an edge whose colours are of both
constexpr double kWidelyMixed = 2;  ///< the same where the picture is much blurred
constexpr double kOutside = 3;      ///< pixels beyond those that are asked: a gap between cloths may be no wider
constexpr double kInside = 6;       ///< pixels within that are asked
constexpr float kMost = 4;          ///< log likelihood ratio that one pixel may count
constexpr double kLeast = 1.0;      ///< mean ratio along a side: where it is less, the side stays
constexpr double kLeastFar = 1.5;   ///< the same, to be moved far
constexpr double kNear = 0.25;      ///< of the reach: farther is far
constexpr float kShaded = -3.5;     ///< log of how likely shade is, spread over all its depths
constexpr float kWider = 3;         ///< times the surface's scatter: how far its colours stray between cloths
constexpr float kStrayed = 0.1F / (kWider * kWider * kWider);  ///< density of those over that of the others
constexpr float kNeither = 1e-6F;     ///< density of colours that are of neither, as the surface's
constexpr float kOther = 3e-6F;       ///< and as the cloth's
constexpr double kHardlyWorse = 0.6;  ///< mean ratio: what a pixel too far costs
constexpr double kFarther = 2.2;      ///< pixels that colours are not wrong by
constexpr int kSamples = 48;          ///< by as many within an outline

/// CIELAB of the pixels at so many places, as one row: each the mean of two by two, against noise.
cv::Mat lab_at(const cv::Mat& rgb, const std::vector<cv::Point2d>& places) {
  cv::Mat seen(1, static_cast<int>(places.size()), CV_8UC3);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const int x = std::clamp(cvFloor(places[i].x), 0, rgb.cols - 2),
              y = std::clamp(cvFloor(places[i].y), 0, rgb.rows - 2);
    const auto *above = rgb.ptr<cv::Vec3b>(y) + x, *below = rgb.ptr<cv::Vec3b>(y + 1) + x;
    auto& mean = seen.at<cv::Vec3b>(static_cast<int>(i));
    for (int c = 0; c < 3; ++c)
      mean[c] = static_cast<std::uint8_t>((above[0][c] + above[1][c] + below[0][c] + below[1][c] + 2) / 4);
  }
  return lab_of(seen);
}

/// How often a cloth shows each colour: a histogram in CIELAB, each sample shared by the boxes around it.
class Colours {
 public:
  Colours(const Quad& quad, const cv::Mat& rgb, double rim) : counts_(kL * kA * kA) {
    const double across = std::min(cv::norm(quad[1] - quad[0]), cv::norm(quad[3] - quad[0]));
    const double edge = std::clamp(rim / std::max(1.0, across), 0.04, 0.3);
    const cv::Mat seen = lab_at(rgb, spread_over(quad, kSamples, edge));
    for (int i = 0; i < seen.cols; ++i) add(seen.at<cv::Vec3f>(i));
    for (float& count : counts_) count /= kSamples * kSamples * kBox * kBox * kBox;
  }

  /// Per unit of CIELAB's volume.
  float density(const cv::Vec3f& lab) const {
    float sum = 0;
    each_box(lab, [&](std::size_t box, float weight) { sum += weight * counts_[box]; });
    return sum;
  }

 private:
  static constexpr int kL = 22, kA = 30;
  static constexpr float kBox = 5;

  template <typename Use>
  static void each_box(const cv::Vec3f& lab, Use&& use) {
    const float l = std::clamp(lab[0] / kBox, 0.0F, kL - 1.01F), a = std::clamp(lab[1] / kBox + 15, 0.0F, kA - 1.01F),
                b = std::clamp(lab[2] / kBox + 15, 0.0F, kA - 1.01F);
    const int i = static_cast<int>(l), j = static_cast<int>(a), k = static_cast<int>(b);
    const float u = l - static_cast<float>(i), v = a - static_cast<float>(j), w = b - static_cast<float>(k);
    for (int corner = 0; corner < 8; ++corner) {
      const int di = corner & 1, dj = corner >> 1 & 1, dk = corner >> 2;
      use((static_cast<std::size_t>(i + di) * kA + static_cast<std::size_t>(j + dj)) * kA +
              static_cast<std::size_t>(k + dk),
          (di != 0 ? u : 1 - u) * (dj != 0 ? v : 1 - v) * (dk != 0 ? w : 1 - w));
    }
  }

  void add(const cv::Vec3f& lab) {
    each_box(lab, [&](std::size_t box, float weight) { counts_[box] += weight; });
  }

  std::vector<float> counts_;
};

/// What pixels say: above 0 where they are likelier the surface's than the cloth's.
class Telling {
 public:
  Telling(const Quad& rough, const cv::Mat& rgb, const Surface& surface, double reach)
      : rgb_(rgb), surface_(surface), colours_(rough, rgb, reach) {
    const double peak = std::abs(cv::determinant(cv::Matx33d(surface.whitening))) / std::pow(2 * CV_PI, 1.5);
    peak_ = static_cast<float>(peak);
  }

  std::vector<double> surface_over_cloth(const std::vector<cv::Point2d>& places) const {
    const cv::Mat seen = lab_at(rgb_, places);
    std::vector<double> ratios;
    ratios.reserve(places.size());
    for (std::size_t i = 0; i < places.size(); ++i)
      ratios.push_back(ratio(seen.at<cv::Vec3f>(static_cast<int>(i)), places[i]));
    return ratios;
  }

 private:
  double ratio(const cv::Vec3f& seen, cv::Point2d at) const {
    const cv::Mat& expected = surface_.expected;
    const int column = static_cast<int>((at.x + 0.5) * expected.cols / rgb_.cols),
              row = static_cast<int>((at.y + 0.5) * expected.rows / rgb_.rows);
    const cv::Vec3f& bare =
        expected.at<cv::Vec3f>(std::clamp(row, 0, expected.rows - 1), std::clamp(column, 0, expected.cols - 1));
    const float plain = surface_.unlike(seen, bare, false), shaded = surface_.unlike(seen, bare, true);
    const float off = std::min(plain * plain, shaded * shaded - 2 * kShaded);
    const float of_surface = peak_ * (std::exp(-off / 2) + kStrayed * std::exp(-off / (2 * kWider * kWider)));
    const float log_ratio = std::log((of_surface + kNeither) / (colours_.density(seen) + kOther));
    return std::clamp(log_ratio, -kMost, kMost);
  }

  const cv::Mat& rgb_;
  const Surface& surface_;
  Colours colours_;
  float peak_ = 0;
};

/// Running sums, from outside inward, of what the pixels across a side say.
struct Profile {
  double along = 0;
  std::vector<double> sums;

  double between(int from, int to) const {
    return sums[static_cast<std::size_t>(to)] - sums[static_cast<std::size_t>(from)];
  }
};

/// Side `index` of a quad, as it runs along `side`.
Line line_along(const Side& side, const Quad& quad, int index) {
  const cv::Point2d from = quad[index], way = quad[(index + 1) % 4] - from, along = side.to - side.from;
  const auto out_at = [&](cv::Point2d place) {
    const double cross = way.cross(side.outward);
    return std::abs(cross) < 1e-9 ? 0.0 : way.cross(from - place) / cross;
  };
  const double start = out_at(side.from);
  return {start, out_at(side.from + along) - start};
}

}  // namespace

/// One side's.
class Parting::Search {
 public:
  Search(const Side& side, const Telling& telling, double reach)
      : reach_(reach), beyond_(reach + kWidelyMixed + std::max(kOutside, kInside) + 2 * kStep) {
    const int count = std::clamp(static_cast<int>(side.length / 3), 24, 120);
    const int samples = static_cast<int>(2 * beyond_ / kStep) + 1;
    profiles_.reserve(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i) {
      Profile profile{0.03 + 0.94 * (i + 0.5) / count, {0}};
      std::vector<cv::Point2d> places;
      places.reserve(static_cast<std::size_t>(samples));
      for (int k = 0; k < samples; ++k) places.push_back(side.place(profile.along, beyond_ - k * kStep));
      for (const double says : telling.surface_over_cloth(places)) profile.sums.push_back(profile.sums.back() + says);
      profiles_.push_back(std::move(profile));
    }
  }

  /// The best line and its mean ratio a pixel.
  std::pair<Line, double> best() const {
    const auto within = [&](double reach) {
      std::pair<Line, double> found{{}, score({}, kMixed)};
      refine(found, reach, 2);
      refine(found, 3, 0.5);
      return found;
    };
    const double near_reach = std::min(reach_, std::max(4.0, kNear * reach_));
    const auto near = within(near_reach);
    if (near_reach == reach_) return near;
    const auto far = within(reach_);
    return far.second > near.second && far.second > kLeastFar ? far : near;
  }

  /// Of the pixels beside a line, those within `mixed` pixels of it left out.
  double score(const Line& line, double mixed) const {
    constexpr int kOut = static_cast<int>(kOutside / kStep), kIn = static_cast<int>(kInside / kStep);
    const int steps = static_cast<int>(mixed / kStep);
    double sum = 0;
    for (const Profile& profile : profiles_) {
      const int at = cvRound((beyond_ - line.at(profile.along)) / kStep);
      sum += profile.between(at - steps - kOut, at - steps) - profile.between(at + steps + 1, at + steps + 1 + kIn);
    }
    return sum / static_cast<double>(profiles_.size() * (kOut + kIn));
  }

 private:
  void refine(std::pair<Line, double>& found, double by, double step) const {
    const Line about = found.first;
    const int steps = static_cast<int>(2 * by / step + 1e-9);
    for (int i = 0; i <= steps; ++i) {
      for (int k = 0; k <= steps; ++k) {
        const double from = i * step - by, to = k * step - by;
        const Line line{about.at_start + from, about.slope + to - from};
        if (std::abs(line.at(0)) > reach_ || std::abs(line.at(1)) > reach_) continue;
        if (const double s = score(line, kMixed); s > found.second + 1e-9) found = {line, s};
      }
    }
  }

  double reach_, beyond_;
  std::vector<Profile> profiles_;
};

Parting::Parting(const Quad& rough, const cv::Mat& rgb, const Surface& surface, double reach) {
  const Telling telling(rough, rgb, surface, reach);
  for (int i = 0; i < 4; ++i) {
    sides_[i] = side_of(rough, i);
    searches_.emplace_back(sides_[i], telling, reach);
  }
}

Parting::~Parting() = default;

Parted Parting::best() const {
  std::array<std::array<cv::Point2d, 2>, 4> lines;
  Parted result;
  for (int i = 0; i < 4; ++i) {
    auto [line, clear] = searches_[i].best();
    if (clear < kLeast) line = {};
    lines[i] = {sides_[i].place(0, line.at(0)), sides_[i].place(1, line.at(1))};
    result.clear[i] = clear;
  }
  result.quad = quad_between(lines);
  return result;
}

std::array<bool, 4> Parting::hardly_worse(const Quad& quad, const Parted& parted) const {
  std::array<bool, 4> result{};
  for (int i = 0; i < 4; ++i) {
    const Line line = line_along(sides_[i], quad, i), by_colour = line_along(sides_[i], parted.quad, i);
    const double off = std::max(std::abs(line.at(0) - by_colour.at(0)), std::abs(line.at(1) - by_colour.at(1)));
    const Search& search = searches_[i];
    result[i] =
        off <= kFarther && search.score(line, kWidelyMixed) >= search.score(by_colour, kWidelyMixed) - kHardlyWorse;
  }
  return result;
}

}  // namespace farflung::photo
