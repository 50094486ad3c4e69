#include "photo/split.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

#include <opencv2/imgproc.hpp>

#include "photo/sides.hpp"

namespace farflung::photo {
namespace {

constexpr int kAngles = 25;         ///< tried on either side of each axis of the region
constexpr double kAngleStep = 0.7;  ///< degrees
constexpr int kBeside = 4;          ///< pixels: where a gap's neighbours are looked at
constexpr double kGap = 0.6;        ///< how much of a line must look like a gap, where the cloths differ clearly
constexpr double kPlainGap = 0.85;  ///< the same, where the cloths are more alike
constexpr double kDifferent = 0.3;  ///< Bhattacharyya's distance from which two cloths differ clearly
constexpr double kAlike = 0.22;     ///< and below which they may well be one
constexpr double kThin = 0.22;      ///< width over length of what is no cloth but a stripe of one
constexpr double kParallel = 0.99;  ///< cosine of the angle between the edges of a print's stripes
constexpr double kAsGood = 0.05;    ///< of a score: so much less like a gap, an edge of stripes is as good a gap as one
constexpr float kOneColour = 8;     ///< dE (1976)
constexpr double kSolid = 0.62;     ///< of its hull, that a region of cloths covers; motifs cover less
constexpr float kBare = 5.5F;  ///< standard deviations: a gap so wide that its colour is unmixed is not farther off
constexpr std::size_t kSamples = 12000;

/// A straight cut: all places p with p.normal = at.
struct Cut {
  cv::Point2d normal;
  double at = 0, score = -1;
};

/// A region and what may part it.
struct Field {
  cv::Mat region, unlike, lab;
  double least;

  float off(int column, int row) const {
    return unlike.ptr<float>(std::clamp(row, 0, unlike.rows - 1))[std::clamp(column, 0, unlike.cols - 1)];
  }
  bool inside(int column, int row) const {
    return row >= 0 && column >= 0 && row < region.rows && column < region.cols && region.ptr(row)[column] != 0;
  }

  /// 0..1: how far a pixel is a valley of `unlike` across `normal`; 1 outside the region.
  float gapness(int column, int row, cv::Point2d normal) const {
    if (!inside(column, row)) return 1;
    const auto beside = [&](int by) {
      const int dx = cvRound(normal.x * by), dy = cvRound(normal.y * by);
      return std::min(off(column + dx, row + dy), off(column - dx, row - dy));
    };
    const float here = off(column, row);
    if (here > kBare && beside(2) < 1.3F * here) return 0;
    return std::clamp(2 - 2.5F * here / std::max(beside(kBeside), 1e-3F), 0.0F, 1.0F);
  }
};

/// A pixel within the region's hull.
struct Sample {
  float x, y, gap;
  bool cloth;
};

cv::Mat hull_of(const cv::Mat& region) {
  const std::vector<cv::Point> points = ends_of_rows(region);
  std::vector<cv::Point> hull;
  cv::Mat filled = cv::Mat::zeros(region.size(), CV_8U);
  if (points.empty()) return filled;
  cv::convexHull(points, hull);
  cv::fillConvexPoly(filled, hull, 255);
  return filled;
}

/// Some of the hull's pixels, scattered evenly but in no rows, so that lines at every angle meet as many.
std::vector<Sample> sampled(const Field& field, const cv::Mat& hull, cv::Point2d normal) {
  const auto all = static_cast<std::uint64_t>(cv::countNonZero(hull));
  const std::uint64_t one_in = std::max<std::uint64_t>(1, all / kSamples);
  std::vector<Sample> samples;
  std::uint64_t state = 1;
  for (int row = 0; row < hull.rows; ++row) {
    for (int column = 0; column < hull.cols; ++column) {
      if (hull.ptr(row)[column] == 0) continue;
      state = state * 6364136223846793005ULL + 1442695040888963407ULL;
      if ((state >> 33) % one_in != 0) continue;
      samples.push_back({static_cast<float>(column), static_cast<float>(row), field.gapness(column, row, normal),
                         field.inside(column, row)});
    }
  }
  return samples;
}

/// The best cut at one angle by samples: of the lines that leave enough on either side, the most like a gap.
Cut best_at(const std::vector<Sample>& samples, cv::Point2d normal, double least_share, int reach) {
  std::vector<double> gap(2 * reach), chord(2 * reach), cloth(2 * reach);
  double all = 0, before = 0;
  for (const Sample& s : samples) {
    // Never negative, and lround would be a call for each sample. NOLINTNEXTLINE(bugprone-incorrect-roundings)
    const auto bin = static_cast<int>(normal.x * s.x + normal.y * s.y + reach + 0.5);
    chord[bin] += 1;
    gap[bin] += s.gap;
    if (s.cloth) cloth[bin] += 1, all += 1;
  }
  Cut best{normal};
  for (int bin = 1; bin + 1 < 2 * reach; ++bin) {
    before += cloth[bin];
    if (before < least_share * all || all - before < least_share * all || chord[bin] < 3) continue;
    const double score = gap[bin] / chord[bin];
    if (score > best.score) best.score = score, best.at = bin - reach;
  }
  return best;
}

/// The same line's score by every pixel along it, and by the better of its neighbours to either side.
double exact_score(const Field& field, const cv::Mat& hull, const Cut& cut) {
  const cv::Point2d way(-cut.normal.y, cut.normal.x);
  const double reach = std::hypot(hull.cols, hull.rows);
  double sum = 0, count = 0;
  for (int step = 0; step <= 2 * reach; ++step) {
    const cv::Point2d p = cut.at * cut.normal + (step - reach) * way;
    const int column = cvRound(p.x), row = cvRound(p.y);
    if (row < 0 || column < 0 || row >= hull.rows || column >= hull.cols || hull.ptr(row)[column] == 0) continue;
    float most = 0;
    for (const int by : {-1, 0, 1}) {
      most =
          std::max(most, field.gapness(cvRound(p.x + by * cut.normal.x), cvRound(p.y + by * cut.normal.y), cut.normal));
    }
    sum += most, count += 1;
  }
  return count < 8 ? 0 : sum / count;
}

/// The directions of the region's two pairs of sides.
std::array<double, 2> axes(const cv::Mat& region) {
  const std::vector<cv::Point> points = ends_of_rows(region);
  const double angle = cv::minAreaRect(points).angle * CV_PI / 180;
  return {angle, angle + CV_PI / 2};
}

/// Coarse counts of colours, as square roots of shares.
std::vector<float> colours(const cv::Mat& lab, const cv::Mat& region) {
  constexpr int kL = 16, kA = 20, kB = 20;
  std::vector<float> counts(kL * kA * kB);
  double all = 0;
  for (int row = 0; row < lab.rows; row += 2) {
    for (int column = 0; column < lab.cols; column += 2) {
      if (region.ptr(row)[column] == 0) continue;
      // Each pixel counts in the boxes around it, so that a little less light changes little.
      const cv::Vec3f p = lab.ptr<cv::Vec3f>(row)[column];
      const float l = std::clamp(p[0] / 7, 0.0F, kL - 1.01F), a = std::clamp(p[1] / 8 + 10, 0.0F, kA - 1.01F),
                  b = std::clamp(p[2] / 8 + 10, 0.0F, kB - 1.01F);
      const int i = static_cast<int>(l), j = static_cast<int>(a), k = static_cast<int>(b);
      const float u = l - i, v = a - j, w = b - k;
      for (int corner = 0; corner < 8; ++corner) {
        const int di = corner & 1, dj = corner >> 1 & 1, dk = corner >> 2;
        counts[((i + di) * kA + j + dj) * kB + k + dk] +=
            (di != 0 ? u : 1 - u) * (dj != 0 ? v : 1 - v) * (dk != 0 ? w : 1 - w);
      }
      all += 1;
    }
  }
  for (float& count : counts) count = std::sqrt(count / static_cast<float>(std::max(1.0, all)));
  return counts;
}

/// Bhattacharyya's distance between the colours of two parts: 0 alike .. 1 nothing in common.
double difference(const cv::Mat& lab, const cv::Mat& first, const cv::Mat& second) {
  const std::vector<float> a = colours(lab, first), b = colours(lab, second);
  double common = 0;
  for (std::size_t i = 0; i < a.size(); ++i) common += static_cast<double>(a[i]) * b[i];
  return std::sqrt(std::max(0.0, 1 - common));
}

std::array<cv::Mat, 2> parts(const cv::Mat& region, const Cut& cut) {
  std::array<cv::Mat, 2> result = {cv::Mat::zeros(region.size(), CV_8U), cv::Mat::zeros(region.size(), CV_8U)};
  for (int row = 0; row < region.rows; ++row) {
    const auto* in = region.ptr(row);
    std::array<std::uint8_t*, 2> out = {result[0].ptr(row), result[1].ptr(row)};
    for (int column = 0; column < region.cols; ++column) {
      const double side = cut.normal.x * column + cut.normal.y * row - cut.at;
      if (in[column] != 0 && std::abs(side) > 1) out[side > 0][column] = 255;
    }
  }
  return result;
}

bool is_stripe(const cv::Mat& region) {
  const std::vector<cv::Point> points = ends_of_rows(region);
  if (points.empty()) return true;
  const cv::Size2f size = cv::minAreaRect(points).size;
  return std::min(size.width, size.height) < kThin * std::max(size.width, size.height);
}

/// The best cut along each axis of the region, the better one first.
std::vector<Cut> best_cuts(const Field& field) {
  const cv::Mat hull = hull_of(field.region);
  const int reach = static_cast<int>(std::hypot(hull.cols, hull.rows)) + 2;
  const double least_share = field.least / std::max(1, cv::countNonZero(field.region));
  std::vector<Cut> cuts;
  for (const double axis : axes(field.region)) {
    const std::vector<Sample> samples = sampled(field, hull, {std::cos(axis), std::sin(axis)});
    std::vector<Cut> tried;
    for (int i = -kAngles; i <= kAngles; ++i) {
      const double angle = axis + i * kAngleStep * CV_PI / 180;
      tried.push_back(best_at(samples, {std::cos(angle), std::sin(angle)}, least_share, reach));
    }
    std::sort(tried.begin(), tried.end(), [](const Cut& a, const Cut& b) { return a.score > b.score; });
    tried.resize(6);
    for (Cut& cut : tried) cut.score = exact_score(field, hull, cut);
    cuts.push_back(
        *std::max_element(tried.begin(), tried.end(), [](const Cut& a, const Cut& b) { return a.score < b.score; }));
  }
  if (cuts[1].score > cuts[0].score) std::swap(cuts[0], cuts[1]);
  return cuts;
}

/// One part of a region and where its top left corner lies in it.
struct Part {
  cv::Mat mask;
  cv::Point at;
};

/// An edge of a print's stripe that looked like a gap.
struct StripeEdge {
  cv::Point2d normal;
  double score;
  std::array<cv::Vec3f, 2> beside;  ///< mean CIELAB of what lies on either side
};

/// What a region was taken apart to.
struct Taken {
  std::vector<Part> parts;
  std::vector<StripeEdge> edges;
};

/// The mean colours just beside a cut, on either side.
std::array<cv::Vec3f, 2> beside(const Field& field, const Cut& cut) {
  constexpr int kNear = 3, kFar = 6;  // pixels
  std::array<cv::Vec3d, 2> sums;
  std::array<double, 2> counts{};
  for (int row = 0; row < field.region.rows; ++row) {
    for (int column = 0; column < field.region.cols; ++column) {
      const double side = cut.normal.x * column + cut.normal.y * row - cut.at;
      if (std::abs(side) < kNear || std::abs(side) > kFar || field.region.ptr(row)[column] == 0) continue;
      sums[side > 0] += cv::Vec3d(field.lab.ptr<cv::Vec3f>(row)[column]), ++counts[side > 0];
    }
  }
  return {sums[0] * (1 / std::max(1.0, counts[0])), sums[1] * (1 / std::max(1.0, counts[1]))};
}

/// Whether a cut runs between the same colours as an edge of stripes, along it, and is hardly more like a gap: then it
/// is one of their edges too. What blur mixes of a dark stripe and a light one may be just the surface's colour.
bool is_one_of(const StripeEdge& cut, const std::vector<StripeEdge>& edges) {
  const auto alike = [](const cv::Vec3f& a, const cv::Vec3f& b) { return cv::norm(a - b) < kOneColour; };
  return std::any_of(edges.begin(), edges.end(), [&](const StripeEdge& edge) {
    if (std::abs(edge.normal.dot(cut.normal)) < kParallel || edge.score < cut.score - kAsGood) return false;
    return (alike(edge.beside[0], cut.beside[0]) && alike(edge.beside[1], cut.beside[1])) ||
           (alike(edge.beside[0], cut.beside[1]) && alike(edge.beside[1], cut.beside[0]));
  });
}

Part cropped(const cv::Mat& mask) {
  const cv::Rect box = cv::boundingRect(mask);
  return {mask(box).clone(), box.tl()};
}

/// `tries` is what may still be spent on looking for cuts: a print full of lines could use up any amount.
Taken split(const Field& field, int& tries) {
  Taken taken{{{field.region, {0, 0}}}, {}};
  if (cv::countNonZero(field.region) < 2 * field.least || tries <= 0) return taken;
  --tries;
  for (const Cut& cut : best_cuts(field)) {
    if (cut.score < kGap) continue;
    const auto halves = parts(field.region, cut);
    if (cv::countNonZero(halves[0]) == 0 || cv::countNonZero(halves[1]) == 0) continue;
    const double different = difference(field.lab, halves[0], halves[1]);
    if (different < kAlike || (different < kDifferent && cut.score < kPlainGap)) continue;
    Taken done;
    for (const cv::Mat& half : halves) {
      const Part whole = cropped(half);
      const cv::Rect box(whole.at, whole.mask.size());
      const Taken within = split({whole.mask, field.unlike(box), field.lab(box), field.least}, tries);
      for (const Part& part : within.parts) done.parts.push_back({part.mask, part.at + whole.at});
      done.edges.insert(done.edges.end(), within.edges.begin(), within.edges.end());
    }
    const bool stripes =
        std::any_of(done.parts.begin(), done.parts.end(), [](const Part& part) { return is_stripe(part.mask); });
    if (!stripes && done.edges.empty()) return done;
    const StripeEdge here{cut.normal, cut.score, beside(field, cut)};
    if (!stripes && !is_one_of(here, done.edges)) return done;
    taken.edges.insert(taken.edges.end(), done.edges.begin(), done.edges.end());
    if (stripes) taken.edges.push_back(here);
  }
  return taken;
}

}  // namespace

std::vector<cv::Mat> split_at_gaps(const cv::Mat& region, const cv::Mat& unlike, const cv::Mat& lab, double least) {
  int tries = cv::countNonZero(region) < kSolid * cv::countNonZero(hull_of(region)) ? 0 : 80;
  std::vector<cv::Mat> result;
  for (const Part& part : split({region, unlike, lab, least}, tries).parts) {
    cv::Mat mask = cv::Mat::zeros(region.size(), CV_8U);
    part.mask.copyTo(mask(cv::Rect(part.at, part.mask.size())));
    result.push_back(mask);
  }
  return result;
}

}  // namespace farflung::photo
