#include "extract/palette.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include <opencv2/imgproc.hpp>

#include "extract/heaps.hpp"
#include "extract/middle.hpp"
#include "extract/mixtures.hpp"
#include "photo/lab_table.hpp"

namespace farflung::extract {
namespace {

constexpr std::size_t kMost = 6;
constexpr std::size_t kSeeds = 12;
constexpr double kSame = 3;       ///< dE00 under which two colours are one
constexpr double kTrace = 0.004;  ///< a colour of less than this share is none of the print's
constexpr int kSide = 360;        ///< pixels of the longer side in which colours are counted
constexpr double kNoise = 4;      ///< dE: smaller differences between neighbours are noise and weave
constexpr double kEdge = 2;       ///< dE a pixel: where colours change as fast, half is edge

cv::Mat smoothed_lab(const photo::Picture& swatch) {
  cv::Mat smooth;
  cv::bilateralFilter(photo::lab_of(shrunk_to(middle_of(swatch), kSide)), smooth, 5, kNoise,
                      2);  // weave and noise go, the edges of motifs stay
  return smooth;
}

/// 1 where the colour is even, towards 0 on edges.
cv::Mat flatness(const cv::Mat& lab) {
  cv::Mat dx, dy;
  cv::Sobel(lab, dx, CV_32F, 1, 0, 3, 1 / 8.0);
  cv::Sobel(lab, dy, CV_32F, 0, 1, 3, 1 / 8.0);
  cv::Mat flat(lab.size(), CV_32F);
  for (int row = 0; row < lab.rows; ++row) {
    for (int column = 0; column < lab.cols; ++column) {
      const cv::Vec3f x = dx.at<cv::Vec3f>(row, column), y = dy.at<cv::Vec3f>(row, column);
      flat.at<float>(row, column) = static_cast<float>(1 / (1 + (x.dot(x) + y.dot(y)) / (kEdge * kEdge)));
    }
  }
  return flat;
}

std::vector<Heap> heaps_of(const cv::Mat& lab) {
  const cv::Mat flat = flatness(lab);
  std::map<int, Heap> heaps;
  int last = -1;  // neighbours are often alike: each heap is looked up once for all of a run
  Heap* heap = nullptr;
  for (int row = 0; row < lab.rows; ++row) {
    for (int column = 0; column < lab.cols; ++column) {
      const auto& p = lab.at<cv::Vec3f>(row, column);
      const auto part = [](float x) { return std::clamp(cvFloor(x / 2.5F) + 64, 0, 127); };
      const int place = (part(p[0]) * 128 + part(p[1])) * 128 + part(p[2]);
      if (place != last) heap = &heaps[place], last = place;
      const double weight = flat.at<float>(row, column);
      heap->lab += weight * cv::Vec3d(p);
      heap->flat += weight;
      heap->count += 1;
    }
  }
  std::vector<Heap> list;
  for (auto& entry : heaps) {
    Heap& one = entry.second;
    one.lab *= 1 / one.flat;
    one.light = light_of(one.lab);
    list.push_back(one);
  }
  return list;
}

/// The heaviest heap first, then again and again the one that stands most for what no seed is near to.
std::vector<cv::Vec3d> seeds(const std::vector<Heap>& heaps) {
  const auto heaviest =
      std::max_element(heaps.begin(), heaps.end(), [](const Heap& a, const Heap& b) { return a.flat < b.flat; });
  std::vector<cv::Vec3d> centres = {heaviest->lab};
  while (centres.size() < kSeeds) {
    double most = 0;
    const Heap* next = nullptr;
    for (const Heap& heap : heaps) {
      const double far = heap.flat * squared(heap.lab, centres[nearest(centres, heap.lab)]);
      if (far > most) most = far, next = &heap;
    }
    if (next == nullptr) break;
    centres.push_back(next->lab);
  }
  return centres;
}

void settle(const std::vector<Heap>& heaps, std::vector<cv::Vec3d>& centres) {
  for (int round = 0; round < 15; ++round) {
    std::vector<cv::Vec3d> sums(centres.size());
    std::vector<double> weights(centres.size());
    for (const Heap& heap : heaps) {
      const std::size_t i = nearest(centres, heap.lab);
      sums[i] += heap.flat * heap.lab;
      weights[i] += heap.flat;
    }
    double moved = 0;
    for (std::size_t i = 0; i < centres.size(); ++i) {
      if (weights[i] <= 0) continue;
      const cv::Vec3d centre = sums[i] * (1 / weights[i]);
      moved = std::max(moved, squared(centre, centres[i]));
      centres[i] = centre;
    }
    if (moved < 0.01) break;
  }
}

using Colours = std::vector<print::PaletteColour>;

void merge(Colours& colours, std::size_t i, std::size_t j) {
  print::PaletteColour &a = colours[i], &b = colours[j];
  const double sum = std::min(1.0, a.share + b.share);  // a rounding over the whole is none
  const double s = sum > 0 ? a.share / sum : 1, t = 1 - s;
  a = {{s * a.lab.L + t * b.lab.L, s * a.lab.a + t * b.lab.a, s * a.lab.b + t * b.lab.b}, sum};
  colours.erase(colours.begin() + static_cast<std::ptrdiff_t>(j));
}

/// Merges the cheapest pair, or says that none needs merging.
bool merge_once(Colours& colours) {
  std::size_t first = 0, second = 0;
  double least = 1e18;
  bool needed = colours.size() > kMost;
  for (std::size_t i = 0; i < colours.size(); ++i) {
    for (std::size_t j = i + 1; j < colours.size(); ++j) {
      const double dE = colour::delta_e_2000(colours[i].lab, colours[j].lab);
      const double a = colours[i].share, b = colours[j].share;
      const bool trace = std::min(a, b) < kTrace;
      double cost = dE * dE * a * b / std::max(1e-12, a + b);
      if (dE < kSame || trace) needed = true, cost = dE < kSame ? -1 / (1 + dE) : 0.5 * cost;
      if (cost < least) least = cost, first = i, second = j;
    }
  }
  if (!needed || colours.size() < 2) return false;
  merge(colours, first, second);
  return true;
}

}  // namespace

std::vector<print::PaletteColour> palette_of(const photo::Picture& swatch) {
  const std::vector<Heap> heaps = heaps_of(smoothed_lab(swatch));
  std::vector<cv::Vec3d> centres = seeds(heaps);
  settle(heaps, centres);
  drop_mixtures(heaps, centres);
  const std::vector<double> shares = shares_of(heaps, centres);
  Colours colours;
  for (std::size_t i = 0; i < centres.size(); ++i) colours.push_back({lab_of(centres[i]), shares[i]});
  while (merge_once(colours)) {
  }
  std::stable_sort(colours.begin(), colours.end(), [](const auto& a, const auto& b) { return a.share > b.share; });
  return colours;
}

}  // namespace farflung::extract
