#include "extract/one_way.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <opencv2/imgproc.hpp>

#include "extract/autocorrelation.hpp"
#include "extract/steps.hpp"

namespace farflung::extract {
namespace {

constexpr double kMotif = 12;          ///< pixels from one motif to the next in which they are looked at, at most
constexpr double kSmooth = 1;          ///< pixels: finer than this, motifs show how they lie on the pixels
constexpr double kMostMotifs = 12;     ///< along each side that are looked at
constexpr double kReach = 0.6;         ///< motifs: steps farther than this lead to another motif
constexpr double kMisprint = 0.2;      ///< motifs: steps shorter than this show how inks and lenses are out of register
constexpr int kStep = 3;               ///< pixels between the steps that are tried
constexpr double kWindow = 0.5;        ///< motifs: deviation of a window's weight, so that rows of motifs average out
constexpr int kCoarse = 3;             ///< pixels that are summed before windows are weighed
constexpr double kExtreme = 2.5;       ///< deviations: beyond this a pixel counts no more
constexpr double kLeastColour = 0.01;  ///< of the first contrast's power, at least, that a second one has
constexpr double kRepeats = 0.6;       ///< autocorrelation after a step by which the whole swatch repeats
constexpr double kRow = 2.5;           ///< motifs to a repeat: no more stand in rows, and each is one of many alike
constexpr double kApart = 1.6;         ///< motifs between windows: nearer ones show the same motifs
constexpr double kInSight = 0.75;      ///< of the swatch: how far such a step is looked for
constexpr std::size_t kFewest = 4;     ///< windows that must vote
constexpr double kSure = 5;            ///< deviations of the votes' agreement from chance
constexpr double kShows = 0.06;        ///< of what a half turn could change at most, at least that much changes

cv::Mat of_deviation_one(const cv::Mat& aspect) {
  cv::Scalar mean, deviation;
  cv::meanStdDev(aspect, mean, deviation);
  return (aspect - mean[0]) / std::max(1e-6, deviation[0]);
}

/// As many motifs as are looked at, at as many pixels.
cv::Mat middle_of(const std::vector<cv::Mat>& channels, double shrink, double motif) {
  cv::Mat merged, lab;
  cv::merge(channels, merged);
  cv::resize(merged, lab, {}, shrink, shrink, cv::INTER_AREA);
  cv::GaussianBlur(lab, lab, {}, kSmooth);
  const int most = cvRound(kMostMotifs * motif);
  const cv::Size part(std::min(lab.cols, most), std::min(lab.rows, most));
  return lab(cv::Rect((lab.cols - part.width) / 2, (lab.rows - part.height) / 2, part.width, part.height)).clone();
}

/// What of the print is looked at together, each of mean 0 and deviation 1: its strongest contrast, the next one across
/// it, and the products of these, which say where contrast is strong.
std::vector<cv::Mat> aspects_of(const cv::Mat& lab) {
  const cv::Mat points = lab.reshape(1, static_cast<int>(lab.total()));
  const cv::PCA contrasts(points, cv::noArray(), cv::PCA::DATA_AS_ROW, 2);
  const cv::Mat projected = contrasts.project(points);
  std::vector<cv::Mat> aspects;
  for (int k = 0; k < 2; ++k) {
    const float power = contrasts.eigenvalues.at<float>(k);
    if (k > 0 && (power < 1 || power < kLeastColour * contrasts.eigenvalues.at<float>(0))) break;
    const cv::Mat one = of_deviation_one(projected.col(k).clone().reshape(1, lab.rows));
    aspects.push_back(cv::max(cv::min(one, kExtreme), -kExtreme));
  }
  for (std::size_t i = 0, colours = aspects.size(); i < colours; ++i) {
    for (std::size_t j = 0; j <= i; ++j) aspects.push_back(of_deviation_one(aspects[i].mul(aspects[j])));
  }
  return aspects;
}

/// Steps of one half; the other half mirrors it.
std::vector<cv::Point> steps_of(double motif) {
  const double most = kReach * motif, least = kMisprint * motif;
  const int reach = static_cast<int>(most);
  std::vector<cv::Point> steps;
  for (int y = 0; y <= reach; y += kStep) {
    for (int x = y == 0 ? kStep : -(reach / kStep) * kStep; x <= reach; x += kStep) {
      const double far = std::hypot(x, y);
      if (far >= least && far <= most) steps.emplace_back(x, y);
    }
  }
  return steps;
}

/// The middles of windows a motif apart in a picture of this size.
std::vector<cv::Point2d> windows_of(cv::Size size, double motif) {
  const cv::Size count(static_cast<int>(size.width / motif), static_cast<int>(size.height / motif));
  std::vector<cv::Point2d> windows;
  windows.reserve(static_cast<std::size_t>(count.area()));
  for (int row = 0; row < count.height; ++row) {
    for (int column = 0; column < count.width; ++column)
      windows.emplace_back((column + 0.5) * size.width / count.width, (row + 0.5) * size.height / count.height);
  }
  return windows;
}

/// Whether a window lies in the cell of the repeat round the `middle`.
bool in_cell(cv::Point2d window, cv::Point2d middle, const Lattice& repeat) {
  const cv::Point2d off = window - middle;
  const double whole = repeat.first.cross(repeat.second);
  return std::abs(off.cross(repeat.second)) <= 0.5 * std::abs(whole) &&
         std::abs(repeat.first.cross(off)) <= 0.5 * std::abs(whole);
}

/// How parts of the swatch lean: by how much one aspect, a step away from another, correlates otherwise than a step the
/// other way. Turned by half they lean as much to the other side. A column for each step and two aspects. CV_32F.
struct Leaning {
  cv::Mat windows;  ///< a row for each window
  cv::Mat whole;    ///< one row: the middle counts most, the rim not at all, so that rows of motifs average out
};

class Leanings {
 public:
  Leanings(std::vector<cv::Mat> aspects, double motif) : aspects_(std::move(aspects)), motif_(motif) {
    const int rim = cvCeil(kReach * motif);
    inner_ = cv::Rect(rim, rim, std::max(0, aspects_[0].cols - 2 * rim), std::max(0, aspects_[0].rows - 2 * rim));
  }

  cv::Size size() const { return inner_.size(); }

  Leaning of(const std::vector<cv::Point2d>& windows) const {
    const cv::Size coarse(std::max(2, inner_.width / kCoarse), std::max(2, inner_.height / kCoarse));
    cv::Mat taper;
    cv::createHanningWindow(taper, coarse, CV_32F);
    taper /= cv::sum(taper)[0];
    cv::Mat lean, columns, whole;
    for (const cv::Point step : steps_of(motif_)) {
      for (std::size_t i = 0; i < aspects_.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
          cv::resize(odd(i, j, step), lean, coarse, 0, 0, cv::INTER_AREA);
          whole.push_back(static_cast<float>(lean.dot(taper)));
          cv::GaussianBlur(lean, lean, {}, kWindow * motif_ / kCoarse, 0, cv::BORDER_REFLECT);
          columns.push_back(at(lean, windows));
        }
      }
    }
    return {columns.t(), whole.t()};
  }

 private:
  cv::Mat odd(std::size_t i, std::size_t j, cv::Point step) const {
    return aspects_[i](inner_).mul(aspects_[j](inner_ + step)) - aspects_[i](inner_ + step).mul(aspects_[j](inner_));
  }

  cv::Mat at(const cv::Mat& lean, const std::vector<cv::Point2d>& windows) const {
    cv::Mat row(1, static_cast<int>(windows.size()), CV_32F);
    for (int w = 0; w < row.cols; ++w) {
      const auto& middle = windows[static_cast<std::size_t>(w)];
      row.at<float>(w) = lean.at<float>(static_cast<int>(middle.y * lean.rows / inner_.height),
                                        static_cast<int>(middle.x * lean.cols / inner_.width));
    }
    return row;
  }

  std::vector<cv::Mat> aspects_;
  double motif_;
  cv::Rect inner_;
};

/// Root of the mean square of a lean.
double strength(const cv::Mat& lean) { return cv::norm(lean) / std::sqrt(static_cast<double>(lean.total())); }

/// Whether the windows, those `apart` from one another, lean together: by more than chance, and by enough to be seen.
/// Were each as likely to lean either way, the sum of their scalar products would have mean 0 and the deviation taken
/// here.
bool lean_together(const cv::Mat& windows, const std::vector<cv::Point2d>& middles, double apart) {
  double sum = 0, squares = 0, pairs = 0;
  const cv::Mat products = windows * windows.t();
  for (int i = 0; i < products.rows; ++i) {
    for (int j = 0; j < i; ++j) {
      if (cv::norm(middles[i] - middles[j]) < apart) continue;
      const double product = products.at<float>(i, j);
      sum += product, squares += product * product, pairs += 1;
    }
  }
  return sum > kSure * std::sqrt(squares) && sum > kShows * kShows * pairs * windows.cols;
}

}  // namespace

bool stands_one_way(const std::vector<cv::Mat>& channels, double side) {
  const double shrink = std::min(1.0, kMotif / side), motif = side * shrink;
  if (steps_of(motif).empty()) return false;
  const Leanings leanings(aspects_of(middle_of(channels, shrink, motif)), motif);
  const std::vector<cv::Point2d> all = windows_of(leanings.size(), motif);
  if (all.size() < kFewest) return false;
  const Leaning lean = leanings.of(all);
  if (strength(lean.whole) <= kShows) return false;
  // Where a piece larger than a motif comes again, the windows of one such piece vote.
  std::optional<Lattice> repeat = repeats_of(autocorrelation(channels, kInSight), kRepeats);
  const bool in_rows = repeat && repeat->area() < kRow * side * side;
  if (in_rows) return lean_together(lean.windows, all, 0);
  if (!repeat) return lean_together(lean.windows, all, kApart * motif);
  repeat->first *= shrink, repeat->second *= shrink;
  const cv::Point2d middle(leanings.size().width / 2.0, leanings.size().height / 2.0);
  std::vector<cv::Point2d> once;
  cv::Mat votes;
  for (std::size_t w = 0; w < all.size(); ++w) {
    if (!in_cell(all[w], middle, *repeat)) continue;
    once.push_back(all[w]);
    votes.push_back(lean.windows.row(static_cast<int>(w)));
  }
  return once.size() >= kFewest && lean_together(votes, once, kApart * motif);
}

}  // namespace farflung::extract
