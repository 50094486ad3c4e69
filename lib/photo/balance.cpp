#include "photo/balance.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/core.hpp>

namespace farflung::photo {
namespace {

double straightened(const Balance& b, double encoded) {
  const double d = colour::decoded(std::max(0.0, encoded + b.contrast * std::sin(2 * CV_PI * encoded)));
  return std::pow(d, b.gamma) * (1 + b.shoulder * d) / (1 + b.shoulder) - b.flare;
}

double light_at(const Balance& b, double x, double y) {
  return std::exp(b.fall[0] * x + b.fall[1] * y + b.fall[2] * x * x + b.fall[3] * x * y + b.fall[4] * y * y);
}

/// Cone responses from linear sRGB: Bradford's matrix after that of sRGB, and back.
const cv::Matx33d& cones_from_light() {
  static const cv::Matx33d matrix = [] {
    const cv::Matx33d cones_from_xyz(0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296);
    cv::Matx33d xyz_from_light;
    for (int c = 0; c < 3; ++c) {
      const colour::Xyz xyz = colour::xyz_from_light({c == 0 ? 1.0 : 0.0, c == 1 ? 1.0 : 0.0, c == 2 ? 1.0 : 0.0});
      xyz_from_light(0, c) = xyz.X, xyz_from_light(1, c) = xyz.Y, xyz_from_light(2, c) = xyz.Z;
    }
    return cones_from_xyz * xyz_from_light;
  }();
  return matrix;
}

/// The gains and the matrix, ready to be used on many pixels.
class Mixing {
 public:
  explicit Mixing(const Balance& balance) : matrix_(balance.matrix) {
    static const cv::Matx33d light_from_cones = cones_from_light().inv();
    const cv::Matx33d gains(balance.gain[0], 0, 0, 0, balance.gain[1], 0, 0, 0, balance.gain[2]);
    neutral_ = light_from_cones * gains * cones_from_light();
  }

  colour::Light operator()(double r, double g, double b) const {
    const cv::Vec3d n = neutral_ * cv::Vec3d(r, g, b);
    const std::array<double, 6> terms = {n[0], n[1], n[2], root(n[0], n[1]), root(n[1], n[2]), root(n[2], n[0])};
    std::array<double, 3> light{};
    for (std::size_t row = 0; row < 3; ++row) {
      for (std::size_t i = 0; i < 6; ++i) light[row] += matrix_[6 * row + i] * terms[i];
    }
    return {light[0], light[1], light[2]};
  }

 private:
  static double root(double p, double q) { return (p > 0 && q > 0 ? std::sqrt(p * q) : 0) - (p + q) / 2; }

  std::array<double, 18> matrix_;
  cv::Matx33d neutral_;
};

// A balance as numbers that may each run freely: gamma, shoulder, flare, fall in x and y, log gains, the matrix's
// elements off the diagonal, its root elements, contrast.
constexpr int kNumbers = 24, kContrast = 23, kFirstOfMatrix = 8;
using Numbers = std::array<double, kNumbers>;

/// Where each number lies in ordinary cameras and rooms, and how far it strays. The curve is that of telephones, as
/// fitted to photographs of a 24-patch chart.
constexpr Numbers kMiddle = {1, 0.45, -0.004, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0.024};
constexpr Numbers kStray = {0.12, 0.35, 0.006, 0.2, 0.2, 1.5, 1.5, 1.5, 0.3, 0.3, 0.3, 0.3,
                            0.3,  0.3,  0.5,   0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.02};

Balance balance_of(const Numbers& n, const Balance& start) {
  Balance b = start;
  b.gamma = std::clamp(n[0], 0.5, 2.0);
  b.shoulder = std::clamp(n[1], -0.6, 3.0);
  b.flare = n[2];
  b.contrast = std::clamp(n[kContrast], -0.1, 0.12);
  b.fall[0] = start.fall[0] + n[3];
  b.fall[1] = start.fall[1] + n[4];
  for (int c = 0; c < 3; ++c) b.gain[c] = std::exp(n[5 + c]);
  for (int row = 0; row < 3; ++row) {
    const double first = n[8 + 2 * row], second = n[9 + 2 * row];
    b.matrix[6 * row + row] = 1 - first - second;
    b.matrix[6 * row + (row == 0 ? 1 : 0)] = first;
    b.matrix[6 * row + (row == 2 ? 1 : 2)] = second;
    for (int i = 0; i < 3; ++i) b.matrix[6 * row + 3 + i] = n[14 + 3 * row + i];
  }
  return b;
}

std::vector<double> residuals(const Numbers& n, const std::vector<KnownColour>& known, const Balance& start) {
  const Balance b = balance_of(n, start);
  std::vector<double> r;
  for (const KnownColour& colour : known) {
    const colour::Lab lab = colour::lab_from_light(b.corrected(colour.seen, colour.x, colour.y));
    const double chroma = 1 + 0.045 * std::hypot(colour.truth.a, colour.truth.b);
    r.push_back(lab.L - colour.truth.L);
    r.push_back((lab.a - colour.truth.a) / chroma);
    r.push_back((lab.b - colour.truth.b) / chroma);
  }
  // What a measurement is good to, against the numbers' own habits.
  constexpr double kGood = 1.4;
  const bool colourless = std::all_of(known.begin(), known.end(), [](const KnownColour& colour) {
    return std::hypot(colour.truth.a, colour.truth.b) < 6;
  });
  // A surface that shows the fall of light all over the picture says more of it than a sheet in one corner.
  constexpr double kFallAsSeen = 0.006;
  const bool fall_seen = std::any_of(start.fall.begin(), start.fall.end(), [](double f) { return f != 0; });
  for (int i = 0; i < kNumbers; ++i) {
    // Greys say nothing of filters: what little they seem to say is noise.
    double stray = colourless && (i == 1 || (i >= kFirstOfMatrix && i < kContrast)) ? 1e-3 : kStray[i];
    if (fall_seen && (i == 3 || i == 4)) stray = kFallAsSeen;
    r.push_back(kGood * (n[i] - kMiddle[i]) / stray);
  }
  return r;
}

double squared(const std::vector<double>& r) {
  double sum = 0;
  for (const double x : r) sum += x * x;
  return sum;
}

Numbers stepped(const Numbers& n, const std::vector<double>& r, const std::vector<KnownColour>& known,
                const Balance& start, double damping) {
  const int rows = static_cast<int>(r.size());
  cv::Mat jacobian(rows, kNumbers, CV_64F), right(rows, 1, CV_64F);
  for (int i = 0; i < kNumbers; ++i) {
    Numbers moved = n;
    const double step = 1e-4 * kStray[i];
    moved[i] += step;
    const std::vector<double> s = residuals(moved, known, start);
    for (int k = 0; k < rows; ++k) jacobian.at<double>(k, i) = (s[k] - r[k]) / step;
  }
  for (int k = 0; k < rows; ++k) right.at<double>(k) = -r[k];
  cv::Mat normal = jacobian.t() * jacobian, change;
  for (int i = 0; i < kNumbers; ++i) normal.at<double>(i, i) *= 1 + damping;
  cv::solve(normal, jacobian.t() * right, change, cv::DECOMP_SVD);
  Numbers next = n;
  for (int i = 0; i < kNumbers; ++i) next[i] += change.at<double>(i);
  return next;
}

}  // namespace

colour::Light Balance::corrected(const std::array<double, 3>& seen, double x, double y) const {
  const double light = light_at(*this, x, y);
  const double r = straightened(*this, seen[0]) / light, g = straightened(*this, seen[1]) / light,
               b = straightened(*this, seen[2]) / light;
  return Mixing(*this)(r, g, b);
}

Balance fitted_balance(const std::vector<KnownColour>& known, const Balance& start) {
  Numbers n = kMiddle;
  std::vector<double> r = residuals(n, known, start);
  double damping = 1e-2;
  for (int round = 0; round < 60 && damping < 1e8; ++round) {
    const Numbers next = stepped(n, r, known, start, damping);
    const std::vector<double> s = residuals(next, known, start);
    const double before = squared(r), after = squared(s);
    if (!(after < before)) {
      damping *= 8;
      continue;
    }
    n = next, r = s, damping = std::max(1e-7, damping / 4);
    if (before - after < 1e-7 * before) break;
  }
  return balance_of(n, start);
}

Picture balanced(const Picture& swatch, const Corners& corners, double columns, double rows, const Balance& balance) {
  std::array<double, 256> curve{};
  for (int v = 0; v < 256; ++v) curve[v] = straightened(balance, v / 255.0);
  constexpr int kSteps = 4096;
  static const std::vector<std::uint8_t> encode = [] {
    std::vector<std::uint8_t> table(kSteps + 1);
    for (int i = 0; i <= kSteps; ++i) {
      // Finer where it is dark: the table runs over the square root of light.
      const double root = static_cast<double>(i) / kSteps;
      table[i] = static_cast<std::uint8_t>(std::lround(255 * colour::encoded(root * root)));
    }
    return table;
  }();
  const auto byte = [&](double light) {
    return encode[static_cast<std::size_t>(std::sqrt(std::clamp(light, 0.0, 1.0)) * kSteps + 0.5)];
  };
  const Mixing mix(balance);
  Picture result(swatch.columns, swatch.rows);
  for (int row = 0; row < swatch.rows; ++row) {
    const double v = (row + 0.5) / swatch.rows;
    for (int column = 0; column < swatch.columns; ++column) {
      const double u = (column + 0.5) / swatch.columns;
      double x = 0, y = 0;
      const std::array<double, 4> weight = {(1 - u) * (1 - v), u * (1 - v), u * v, (1 - u) * v};
      for (int i = 0; i < 4; ++i) x += weight[i] * corners[i][0], y += weight[i] * corners[i][1];
      const double light = 1 / light_at(balance, 2 * x / columns - 1, 2 * y / rows - 1);
      const colour::Srgb p = swatch.at(column, row);
      const colour::Light daylight = mix(curve[p.r] * light, curve[p.g] * light, curve[p.b] * light);
      result.set(column, row, {byte(daylight.r), byte(daylight.g), byte(daylight.b)});
    }
  }
  return result;
}

}  // namespace farflung::photo
