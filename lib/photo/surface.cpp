#include "photo/surface.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "base/median.hpp"
#include "photo/shade.hpp"

namespace farflung::photo {
namespace {

constexpr float kDarkest = 0.63F;  ///< cube root of the least light in a shade
constexpr int kTerms = 6;
using Terms = std::array<float, kTerms>;

/// Positions are in [-1, 1] across the picture.
Terms terms(float x, float y) { return {1, x, y, x * x, x * y, y * y}; }

/// One polynomial per channel.
struct Field {
  std::array<cv::Vec3f, kTerms> coefficients{};

  cv::Vec3f at(float x, float y) const {
    const Terms t = terms(x, y);
    cv::Vec3f value(0, 0, 0);
    for (int i = 0; i < kTerms; ++i) value += t[i] * coefficients[i];
    return value;
  }
};

struct Sample {
  float x, y;
  cv::Vec3f lab;
};

float norm(const cv::Vec3f& v) { return std::sqrt(v.dot(v)); }

/// Least squares on the first `used` terms (1 constant, 3 plane, 6 second degree), damped so that few or bunched
/// samples cannot bend it.
Field fitted(const std::vector<Sample>& samples, int used) {
  cv::Matx<double, kTerms, kTerms> sums;
  cv::Matx<double, kTerms, 3> means;
  for (const Sample& s : samples) {
    const Terms t = terms(s.x, s.y);
    for (int i = 0; i < used; ++i) {
      for (int j = i; j < used; ++j) sums(i, j) += t[i] * t[j];
      for (int c = 0; c < 3; ++c) means(i, c) += t[i] * s.lab[c];
    }
  }
  cv::Mat normal(used, used, CV_64F), solved;
  for (int i = 0; i < used; ++i) {
    for (int j = 0; j < used; ++j) normal.at<double>(i, j) = sums(std::min(i, j), std::max(i, j));
    if (i > 0) normal.at<double>(i, i) += 1e-3 * static_cast<double>(samples.size());
  }
  cv::solve(normal, cv::Mat(means).rowRange(0, used), solved, cv::DECOMP_SVD);
  Field field;
  for (int i = 0; i < used; ++i) field.coefficients[i] = cv::Vec3d(solved.ptr<double>(i));
  return field;
}

float x_of(int column, int columns) { return 2.0F * (column + 0.5F) / columns - 1; }

std::vector<Sample> sampled(const cv::Mat& lab, int step, int rim) {
  std::vector<Sample> samples;
  for (int row = 0; row < lab.rows; row += step) {
    const auto* line = lab.ptr<cv::Vec3f>(row);
    const bool outer_row = row < rim || row >= lab.rows - rim;
    for (int column = 0; column < lab.cols; column += step) {
      if (rim > 0 && !outer_row && column >= rim && column < lab.cols - rim) continue;
      samples.push_back({x_of(column, lab.cols), x_of(row, lab.rows), line[column]});
    }
  }
  return samples;
}

/// The commonest colour, in boxes of 8 L* by 6 a* by 6 b* that overlap by half.
cv::Vec3f commonest(const std::vector<Sample>& samples) {
  std::map<std::array<int, 3>, int> counts;
  const auto box = [](const cv::Vec3f& lab) {
    return std::array<int, 3>{cvFloor(lab[0] / 4), cvFloor(lab[1] / 3), cvFloor(lab[2] / 3)};
  };
  for (const Sample& s : samples) ++counts[box(s.lab)];
  int most = 0;
  std::array<int, 3> best{};
  for (const auto& entry : counts) {
    int sum = 0;
    for (int i = 0; i < 27; ++i) {
      const auto found =
          counts.find({entry.first[0] + i % 3 - 1, entry.first[1] + i / 3 % 3 - 1, entry.first[2] + i / 9 - 1});
      if (found != counts.end()) sum += found->second;
    }
    if (sum > most) most = sum, best = entry.first;
  }
  return {best[0] * 4.0F + 2, best[1] * 3.0F + 1.5F, best[2] * 3.0F + 1.5F};
}

/// How the surface's own pixels scatter about what is expected of them.
struct Scatter {
  cv::Matx33f whitening = cv::Matx33f::eye() * (1 / 3.0F);
  double widest = 3;  ///< standard deviation along the widest axis, dE
};

/// `sum` is of the outer products of `count` differences. No axis is taken to be narrower than 0.7 dE, which is what
/// the expected colour itself may be off; trimming at three deviations has cut 3 % off them.
Scatter scatter_of(const cv::Matx33d& sum, double count) {
  constexpr double kLeast = 0.7, kTrimmed = 1.03;
  cv::Vec3d values;
  cv::Matx33d axes;
  cv::eigen(sum * (1 / count), values, axes);
  Scatter scatter;
  cv::Matx33d scale = cv::Matx33d::zeros();
  for (int i = 0; i < 3; ++i) {
    const double deviation = std::max(kLeast, kTrimmed * std::sqrt(std::max(0.0, values[i])));
    if (i == 0) scatter.widest = deviation;
    scale(i, i) = 1 / deviation;
  }
  scatter.whitening = cv::Matx33f(scale * axes);
  return scatter;
}

/// A field and how the surface's own pixels scatter about it.
struct Fit {
  Field field;
  Scatter scatter;

  float off(const Sample& s) const { return norm(scatter.whitening * (s.lab - field.at(s.x, s.y))); }
};

std::vector<Sample> near(const std::vector<Sample>& samples, const Fit& fit, float gate) {
  std::vector<Sample> kept;
  for (const Sample& s : samples) {
    if (fit.off(s) < gate) kept.push_back(s);
  }
  return kept;
}

Scatter scatter_about(const Field& field, const std::vector<Sample>& kept) {
  cv::Matx33d sum = cv::Matx33d::zeros();
  for (const Sample& s : kept) {
    const cv::Vec3d r = s.lab - field.at(s.x, s.y);
    sum += r * r.t();
  }
  return scatter_of(sum, static_cast<double>(kept.size()));
}

/// From a first colour outward: the field learns how the light falls, the scatter how the surface is grained.
Fit grown(const std::vector<Sample>& samples, Fit fit, int used, int rounds, float gate) {
  for (int round = 0; round < rounds; ++round) {
    const std::vector<Sample> kept = near(samples, fit, gate);
    if (kept.size() < 50) break;
    fit.field = fitted(kept, used);
    fit.scatter = scatter_about(fit.field, kept);
  }
  return fit;
}

double share_near(const std::vector<Sample>& samples, const Fit& fit) {
  return static_cast<double>(near(samples, fit, kUnlike).size()) /
         static_cast<double>(std::max<std::size_t>(1, samples.size()));
}

/// One plain colour: the commonest of the rim.
Fit plain_fit(const std::vector<Sample>& rim) {
  Fit fit;
  const cv::Vec3f first = commonest(rim);
  fit.field.coefficients[0] = first;
  return grown(rim, fit, 3, 8, 4);
}

/// Beyond the edge of a table its floor may be seen, along as much of the rim: of two plain colours, that which is seen
/// more of in the picture.
Fit commonest_plain_fit(const std::vector<Sample>& rim, const std::vector<Sample>& all) {
  constexpr double kMuch = 0.25, kMost = 0.75;  // of the rim
  const Fit first = plain_fit(rim);
  if (share_near(rim, first) > kMost) return first;
  std::vector<Sample> rest;
  for (const Sample& s : rim) {
    if (first.off(s) >= kUnlike) rest.push_back(s);
  }
  const Fit second = plain_fit(rest);
  return share_near(rim, second) > kMuch && share_near(all, second) > share_near(all, first) ? second : first;
}

/// A grained surface: from the rim's median colour, its scatter thought wide at first.
Fit grained_fit(const std::vector<Sample>& rim) {
  Fit fit;
  for (int c = 0; c < 3; ++c) {
    std::vector<float> values;
    values.reserve(rim.size());
    for (const Sample& s : rim) values.push_back(s.lab[c]);
    fit.field.coefficients[0][c] = median(std::move(values));
  }
  fit.scatter.whitening = cv::Matx33f::eye() * (1 / 8.0F);
  return grown(rim, fit, 3, 8, 3.3F);
}

cv::Mat drawn(const Field& field, cv::Size size) {
  cv::Mat expected(size, CV_32FC3);
  for (int row = 0; row < size.height; ++row) {
    auto* line = expected.ptr<cv::Vec3f>(row);
    for (int column = 0; column < size.width; ++column) {
      line[column] = field.at(x_of(column, size.width), x_of(row, size.height));
    }
  }
  return expected;
}

/// Where the surface itself is seen: 1, elsewhere 0. CV_32F.
cv::Mat seen_surface(const cv::Mat& lab, const cv::Mat& expected, const Surface& surface) {
  cv::Mat seen(lab.size(), CV_32F);
  for (int row = 0; row < lab.rows; ++row) {
    const auto *a = lab.ptr<cv::Vec3f>(row), *b = expected.ptr<cv::Vec3f>(row);
    auto* s = seen.ptr<float>(row);
    for (int column = 0; column < lab.cols; ++column) {
      s[column] = surface.unlike(a[column], b[column], false) < kUnlike ? 1.0F : 0.0F;
    }
  }
  return seen;
}

/// Adds to `expected` what the surface's own pixels differ from it, averaged over about a thirtieth of the picture.
void bend(const cv::Mat& lab, const Surface& surface, cv::Mat& expected) {
  const cv::Size small(std::max(8, lab.cols / 4), std::max(8, lab.rows / 4));
  cv::Mat weight = seen_surface(lab, expected, surface), off = lab - expected;
  std::vector<cv::Mat> channels;
  cv::split(off, channels);
  for (cv::Mat& channel : channels) {
    channel = channel.mul(weight);
    cv::resize(channel, channel, small, 0, 0, cv::INTER_AREA);
    cv::GaussianBlur(channel, channel, {}, small.width / 30.0);
  }
  cv::resize(weight, weight, small, 0, 0, cv::INTER_AREA);
  cv::GaussianBlur(weight, weight, {}, small.width / 30.0);
  for (cv::Mat& channel : channels) channel /= weight + 0.02;  // far from any surface the polynomial stands
  cv::merge(channels, off);
  cv::resize(off, off, lab.size(), 0, 0, cv::INTER_LINEAR);
  expected += off;
}

/// Bends what is expected to the shades that lie on the surface, where it then scatters clearly less about it.
bool follow_shade(const cv::Mat& lab, Surface& surface) {
  constexpr double kClearly = 0.8;
  const std::optional<Shaded> shaded = shade_on(lab, surface);
  if (!shaded) return false;
  cv::Matx33d sum = cv::Matx33d::zeros();
  double count = 0;
  for (int row = 0; row < lab.rows; row += 2) {
    const auto *seen = lab.ptr<cv::Vec3f>(row), *bare = shaded->expected.ptr<cv::Vec3f>(row);
    const auto* is_seen = shaded->seen.ptr(row);
    for (int column = 0; column < lab.cols; column += 2) {
      if (is_seen[column] == 0) continue;
      const cv::Vec3d r = seen[column] - bare[column];
      sum += r * r.t(), ++count;
    }
  }
  const Scatter scatter = scatter_of(sum, count);
  if (scatter.widest > kClearly * surface.noise) return false;
  surface.expected = shaded->expected, surface.noise = scatter.widest, surface.whitening = scatter.whitening;
  return true;
}

/// Every so-many-th pixel, its noise as it was.
cv::Mat thinned(const cv::Mat& lab, int step) {
  cv::Mat thin(std::max(1, lab.rows / step), std::max(1, lab.cols / step), lab.type());
  for (int row = 0; row < thin.rows; ++row) {
    const auto* from = lab.ptr<cv::Vec3f>(row * step + step / 2);
    auto* to = thin.ptr<cv::Vec3f>(row);
    for (int column = 0; column < thin.cols; ++column) to[column] = from[column * step + step / 2];
  }
  return thin;
}

Surface fitted_to(const cv::Mat& lab) {
  const int rim_width = std::max(3, std::min(lab.cols, lab.rows) / 40);
  const std::vector<Sample> rim = sampled(lab, 2, rim_width), all = sampled(lab, 4, 0);
  Fit fit = commonest_plain_fit(rim, all);
  double share = share_near(rim, fit);
  if (share < 0.85) {
    const Fit grained = grained_fit(rim);
    const double grained_share = share_near(rim, grained);
    if (grained_share > std::max(0.85, share) && grained.scatter.widest < 11) fit = grained, share = grained_share;
  }
  if (share > 0.4) fit = grown(all, fit, kTerms, 4, 3.5F);

  Surface surface{0, fit.scatter.widest, drawn(fit.field, lab.size()), fit.scatter.whitening};
  if (!follow_shade(lab, surface)) bend(lab, surface, surface.expected);
  std::size_t alike = 0;
  for (const Sample& s : rim) {
    const auto column = static_cast<int>((s.x + 1) * lab.cols / 2), row = static_cast<int>((s.y + 1) * lab.rows / 2);
    alike += surface.unlike(s.lab, surface.expected.at<cv::Vec3f>(row, column), true) < kUnlike;
  }
  surface.rim_share = static_cast<double>(alike) / static_cast<double>(rim.size());
  return surface;
}

}  // namespace

float Surface::unlike(const cv::Vec3f& lab, const cv::Vec3f& bare, bool shaded) const {
  if (!shaded) return norm(whitening * (lab - bare));
  const cv::Vec3f v = from_black(lab), e = from_black(bare);
  const float k = std::clamp(root_of_light(v, e), kDarkest, 1.0F);
  return norm(whitening * (v - k * e));
}

void Surface::squared_unlike(const LabRow& seen, const LabRow& bare, float* __restrict plain,
                             float* __restrict shaded) const {
  const cv::Matx33f w = whitening;
  const auto squared = [&w](float L, float a, float b) {
    const float x = w(0, 0) * L + w(0, 1) * a + w(0, 2) * b, y = w(1, 0) * L + w(1, 1) * a + w(1, 2) * b,
                z = w(2, 0) * L + w(2, 1) * a + w(2, 2) * b;
    return x * x + y * y + z * z;
  };
  // Plain pointers, for compilers to see that several pixels can be worked out at once.
  const float *seen_L = seen.L.data(), *seen_a = seen.a.data(), *seen_b = seen.b.data();
  const float *bare_L = bare.L.data(), *bare_a = bare.a.data(), *bare_b = bare.b.data();
  const auto count = seen.L.size();
  // As root_of_light.
  for (std::size_t i = 0; i < count; ++i) {
    const float eL = bare_L[i] + 16, ea = bare_a[i], eb = bare_b[i];
    const float k = ((seen_L[i] + 16) * eL + seen_a[i] * ea + seen_b[i] * eb) / (eL * eL + ea * ea + eb * eb);
    shaded[i] = std::min(1.0F, std::max(kDarkest, k));
  }
  for (std::size_t i = 0; i < count; ++i) {
    const float L = seen_L[i] + 16, a = seen_a[i], b = seen_b[i], eL = bare_L[i] + 16, ea = bare_a[i], eb = bare_b[i];
    const float k = shaded[i];
    plain[i] = squared(L - eL, a - ea, b - eb);
    shaded[i] = squared(L - k * eL, a - k * ea, b - k * eb);
  }
}

Surface fit_surface(const cv::Mat& lab) {
  // A surface changes slowly: a thousand pixels across show all of it.
  constexpr int kEnough = 1000;
  const int step = std::max(lab.cols, lab.rows) / kEnough;
  if (step < 2) return fitted_to(lab);
  Surface surface = fitted_to(thinned(lab, step));
  cv::resize(surface.expected, surface.expected, lab.size(), 0, 0, cv::INTER_LINEAR);
  return surface;
}

}  // namespace farflung::photo
