#include "photo/surface.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <vector>

#include <opencv2/imgproc.hpp>

namespace farflung::photo {
namespace {

constexpr int kTerms = 6;
using Terms = std::array<float, kTerms>;

/// Positions are in [-1, 1] across the picture.
Terms terms(float x, float y) { return {1, x, y, x * x, x * y, y * y}; }

/// One polynomial per channel.
struct Field {
  cv::Mat coefficients = cv::Mat::zeros(kTerms, 3, CV_32F);

  cv::Vec3f at(float x, float y) const {
    const Terms t = terms(x, y);
    cv::Vec3f value(0, 0, 0);
    for (int i = 0; i < kTerms; ++i) {
      for (int c = 0; c < 3; ++c) value[c] += t[i] * coefficients.at<float>(i, c);
    }
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
  cv::Mat normal = cv::Mat::zeros(used, used, CV_64F), right = cv::Mat::zeros(used, 3, CV_64F);
  for (const Sample& s : samples) {
    const Terms t = terms(s.x, s.y);
    for (int i = 0; i < used; ++i) {
      for (int j = 0; j < used; ++j) normal.at<double>(i, j) += t[i] * t[j];
      for (int c = 0; c < 3; ++c) right.at<double>(i, c) += t[i] * s.lab[c];
    }
  }
  for (int i = 1; i < used; ++i) normal.at<double>(i, i) += 1e-3 * samples.size();
  cv::Mat solved, narrow;
  cv::solve(normal, right, solved, cv::DECOMP_SVD);
  Field field;
  solved.convertTo(narrow, CV_32F);
  narrow.copyTo(field.coefficients.rowRange(0, used));
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

std::vector<Sample> near(const std::vector<Sample>& samples, const Field& field, float gate) {
  std::vector<Sample> kept;
  for (const Sample& s : samples) {
    const cv::Vec3f off = s.lab - field.at(s.x, s.y);
    if (norm(off) < gate) kept.push_back(s);
  }
  return kept;
}

/// From a first colour outward: the gate narrows as the field learns how the light falls.
Field grown(const std::vector<Sample>& samples, Field field, int used, std::initializer_list<float> gates) {
  for (const float gate : gates) {
    const std::vector<Sample> kept = near(samples, field, gate);
    if (kept.size() < 50) break;
    field = fitted(kept, used);
  }
  return field;
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

cv::Mat distance_between(const cv::Mat& lab, const cv::Mat& expected) {
  cv::Mat distance(lab.size(), CV_32F);
  for (int row = 0; row < lab.rows; ++row) {
    const auto *a = lab.ptr<cv::Vec3f>(row), *b = expected.ptr<cv::Vec3f>(row);
    auto* d = distance.ptr<float>(row);
    for (int column = 0; column < lab.cols; ++column) d[column] = norm(a[column] - b[column]);
  }
  return distance;
}

/// Median distance of what lies within `gate`, as the standard deviation that a normal spread would have.
double spread_within(const cv::Mat& distance, float gate) {
  std::vector<float> kept;
  for (int row = 0; row < distance.rows; row += 3) {
    const auto* d = distance.ptr<float>(row);
    for (int column = 0; column < distance.cols; column += 3) {
      if (d[column] < gate) kept.push_back(d[column]);
    }
  }
  if (kept.empty()) return gate;
  std::nth_element(kept.begin(), kept.begin() + kept.size() / 2, kept.end());
  return kept[kept.size() / 2] / 1.54;  // the median of a chi distribution of three degrees of freedom
}

/// Adds to `expected` what the surface's own pixels differ from it, averaged over about a fifteenth of the picture.
void bend(const cv::Mat& lab, const cv::Mat& distance, float gate, cv::Mat& expected) {
  const cv::Size small(std::max(8, lab.cols / 8), std::max(8, lab.rows / 8));
  cv::Mat mask = distance < gate, weight, off;
  mask.convertTo(weight, CV_32F, 1.0 / 255);
  off = lab - expected;
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

}  // namespace

cv::Mat lab_of(const cv::Mat& rgb) {
  cv::Mat scaled, lab;
  rgb.convertTo(scaled, CV_32FC3, 1 / 255.0);
  cv::cvtColor(scaled, lab, cv::COLOR_RGB2Lab);
  return lab;
}

Surface fit_surface(const cv::Mat& lab) {
  const int rim_width = std::max(3, std::min(lab.cols, lab.rows) / 40);
  const std::vector<Sample> rim = sampled(lab, 2, rim_width);
  Field field;
  const cv::Vec3f first = commonest(rim);
  for (int c = 0; c < 3; ++c) field.coefficients.at<float>(0, c) = first[c];
  field = grown(rim, field, 3, {12, 12, 10, 10, 8, 8});
  field = grown(sampled(lab, 4, 0), field, kTerms, {7, 7, 6, 6});

  Surface surface;
  surface.expected = drawn(field, lab.size());
  surface.distance = distance_between(lab, surface.expected);
  bend(lab, surface.distance, 6, surface.expected);
  surface.distance = distance_between(lab, surface.expected);
  surface.noise = spread_within(surface.distance, 6);

  std::size_t alike = 0, all = 0;
  for (int row = 0; row < lab.rows; ++row) {
    const bool outer_row = row < rim_width || row >= lab.rows - rim_width;
    for (int column = 0; column < lab.cols; ++column) {
      if (!outer_row && column >= rim_width && column < lab.cols - rim_width) continue;
      ++all;
      alike += surface.distance.at<float>(row, column) < std::max(4.0, 4 * surface.noise);
    }
  }
  surface.rim_share = static_cast<double>(alike) / static_cast<double>(all);
  return surface;
}

}  // namespace farflung::photo
