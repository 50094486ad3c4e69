#include "extract/steps.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

namespace farflung::extract {
namespace {

constexpr double kLeastRise = 0.015;    ///< of a hump, as a share of the print's whole contrast
constexpr double kLeastRepeat = 0.3;    ///< tossed motifs look like each other less than this after any one step
constexpr double kFine = 0.7;           ///< of the strongest lattice's strength, at least, that a finer one needs
constexpr std::size_t kMostPeaks = 24;  ///< nearest ones, of which pairs are tried

struct Peak {
  cv::Point2d step;
  double height = 0;
};

double vertex(double before, double here, double after) {
  const double bend = before - 2 * here + after;
  return bend < 0 ? std::clamp(0.5 * (before - after) / bend, -0.5, 0.5) : 0;
}

cv::Point2d refined(const cv::Mat& c, cv::Point p) {
  const float here = c.at<float>(p);
  return {p.x + vertex(c.at<float>(p.y, p.x - 1), here, c.at<float>(p.y, p.x + 1)),
          p.y + vertex(c.at<float>(p.y - 1, p.x), here, c.at<float>(p.y + 1, p.x))};
}

/// The top of the hill at `step`, looked for within `reach` pixels; none past the rim.
std::optional<Peak> top_near(const cv::Mat& c, cv::Point2d step, int reach) {
  const cv::Point middle(c.cols / 2, c.rows / 2), about(cvRound(step.x) + middle.x, cvRound(step.y) + middle.y);
  if (about.x < reach + 1 || about.y < reach + 1 || about.x + reach + 1 >= c.cols || about.y + reach + 1 >= c.rows)
    return {};
  cv::Point best = about;
  for (int y = -reach; y <= reach; ++y) {
    for (int x = -reach; x <= reach; ++x) {
      if (c.at<float>(about + cv::Point(x, y)) > c.at<float>(best)) best = about + cv::Point(x, y);
    }
  }
  return Peak{refined(c, best) - cv::Point2d(middle), c.at<float>(best)};
}

/// Hilltops of one half of the steps (the other half mirrors it), no farther than `most` and at least `least` high,
/// nearest first.
std::vector<Peak> hilltops(const cv::Mat& c, double most, double least = kLeastRepeat / 2) {
  cv::Mat highest;
  cv::dilate(c, highest, cv::getStructuringElement(cv::MORPH_ELLIPSE, {5, 5}));
  const int cx = c.cols / 2, cy = c.rows / 2;
  std::vector<Peak> peaks;
  for (int y = 2; y <= cy; ++y) {
    for (int x = 2; x + 2 < c.cols; ++x) {
      if (y == cy && x <= cx) continue;
      const double distance = std::hypot(x - cx, y - cy);
      const float here = c.at<float>(y, x);
      if (distance < 3 || distance > most || here < highest.at<float>(y, x) || here < least) continue;
      peaks.push_back({refined(c, {x, y}) - cv::Point2d(cx, cy), here});
    }
  }
  std::sort(peaks.begin(), peaks.end(),
            [](const Peak& a, const Peak& b) { return a.step.dot(a.step) < b.step.dot(b.step); });
  if (peaks.size() > kMostPeaks) peaks.resize(kMostPeaks);
  return peaks;
}

/// Shortest steps of the same lattice (Gauss' reduction).
void reduce(Lattice& lattice) {
  cv::Point2d &u = lattice.first, &v = lattice.second;
  for (int round = 0; round < 20; ++round) {
    if (u.dot(u) > v.dot(v)) std::swap(u, v);
    const double times = std::round(u.dot(v) / u.dot(u));
    if (times == 0) return;
    v -= times * u;
  }
}

template <typename Use>
void each_step(const cv::Mat& c, const Lattice& lattice, Use&& use) {
  const double most = std::hypot(c.cols, c.rows) / 2, shortest = std::sqrt(lattice.first.dot(lattice.first));
  const int count = std::min(12, static_cast<int>(most / std::max(1.0, shortest)) + 1);
  for (int i = 0; i <= count; ++i) {
    for (int j = -count; j <= count; ++j) {
      if (i > 0 || j > 0) use(i, j, i * lattice.first + j * lattice.second);
    }
  }
}

double strength(const cv::Mat& c, const Lattice& lattice) {
  double sum = 0;
  int count = 0;
  each_step(c, lattice, [&](int, int, cv::Point2d step) {
    if (const auto top = top_near(c, step, 2)) sum += top->height, ++count;
  });
  return count >= 4 ? sum / count : 0;
}

/// Least squares over every repeat in sight, each weighed by its height.
void fit(const cv::Mat& c, Lattice& lattice) {
  for (int round = 0; round < 3; ++round) {
    double ii = 0, ij = 0, jj = 0;
    cv::Point2d at_i, at_j;
    each_step(c, lattice, [&](int i, int j, cv::Point2d step) {
      const auto top = top_near(c, step, 2);
      if (!top || top->height < kLeastRepeat / 2) return;
      const double w = top->height;
      ii += w * i * i, ij += w * i * j, jj += w * j * j;
      at_i += w * i * top->step, at_j += w * j * top->step;
    });
    const double determinant = ii * jj - ij * ij;
    if (determinant <= 1e-9 * ii * jj) return;
    lattice.first = (jj * at_i - ij * at_j) / determinant;
    lattice.second = (ii * at_j - ij * at_i) / determinant;
  }
}

}  // namespace

std::vector<Hump> humps_of(const std::vector<double>& profile) {
  std::vector<Hump> humps;
  double dip = 1;
  for (std::size_t i = 2; i + 2 < profile.size(); ++i) {
    const double before = profile[i - 1], here = profile[i], after = profile[i + 1];
    dip = std::min(dip, here);
    if (here <= before || here < after) continue;
    humps.push_back({static_cast<double>(i) + vertex(before, here, after), here, here - dip});
    dip = here;
  }
  return humps;
}

std::optional<Hump> first_hump(const std::vector<Hump>& humps, double share) {
  double most = kLeastRise;
  for (const Hump& hump : humps) {
    if (hump.height > 0) most = std::max(most, hump.rise);
  }
  for (const Hump& hump : humps) {
    if (hump.height > 0 && hump.rise >= std::max(kLeastRise, share * most)) return hump;
  }
  return {};
}

std::optional<Lattice> lattice_near(const cv::Mat& correlation, double side) {
  const std::vector<Peak> peaks = hilltops(correlation, 3 * side);
  std::vector<Lattice> lattices;
  double most = kLeastRepeat;
  for (std::size_t i = 0; i < peaks.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      Lattice lattice{peaks[i].step, peaks[j].step};
      if (lattice.area() < 0.4 * side * side || lattice.area() > 2.5 * side * side) continue;
      reduce(lattice);
      lattice.strength = strength(correlation, lattice);
      if (lattice.strength < kLeastRepeat) continue;
      lattices.push_back(lattice);
      most = std::max(most, lattice.strength);
    }
  }
  // Motifs that differ in their ink alone repeat less well than all of them together, and are motifs all the same.
  const Lattice* finest = nullptr;
  for (const Lattice& lattice : lattices) {
    if (lattice.strength >= kFine * most && (finest == nullptr || lattice.area() < finest->area())) finest = &lattice;
  }
  if (finest == nullptr) return {};
  Lattice best = *finest;
  fit(correlation, best);
  reduce(best);
  return best;
}

std::optional<Lattice> repeats_of(const cv::Mat& correlation, double like) {
  constexpr double kOtherWay = 0.3;  // sine of the angle between the steps, at least
  const double far = correlation.cols + correlation.rows;
  const std::vector<Peak> peaks = hilltops(correlation, far, like);
  if (peaks.empty()) return {};
  const Peak& first = peaks.front();
  const double length = std::sqrt(first.step.dot(first.step));
  for (const Peak& peak : peaks) {
    const Lattice lattice{first.step, peak.step, std::min(first.height, peak.height)};
    if (lattice.area() > kOtherWay * length * std::sqrt(peak.step.dot(peak.step))) return lattice;
  }
  return Lattice{first.step, cv::Point2d(-first.step.y, first.step.x) * (far / length), first.height};
}

}  // namespace farflung::extract
