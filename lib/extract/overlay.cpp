#include "extract/overlay.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "extract/middle.hpp"
#include "extract/wide_blur.hpp"
#include "photo/lab_table.hpp"
#include "photo/mat.hpp"

namespace farflung::extract {
namespace {

constexpr int kSide = 192;          ///< pixels of a look's longer side
constexpr double kLaid = 96;        ///< the same as looks are laid over each other
constexpr double kCoarse = 64;      ///< the same where every other zoom is tried for the best
constexpr double kSlow = 12;        ///< of these: what changes more slowly is light
constexpr double kSharp = 0.8;      ///< of these: what is finer is noise
constexpr double kOctave = 0.05;    ///< from one zoom to the next
constexpr int kZoomsInInches = 8;   ///< either way
constexpr int kZooms = 18;          ///< either way, where inches are not known
constexpr double kLeast = 0.25;     ///< of the smaller look that must lie on the other
constexpr double kByChance = 0.25;  ///< power of the share that lies on the other: of little cloth much is alike
constexpr int kElsewhere = 5;       ///< pixels from the best place to another

/// Sums over rectangles of a channel's squares.
cv::Mat sums_of_squares(const std::vector<cv::Mat>& channels) {
  cv::Mat squares = cv::Mat::zeros(channels[0].size(), CV_32F), sums;
  for (const cv::Mat& channel : channels) squares += channel.mul(channel);
  cv::integral(squares, sums, CV_64F);
  return sums;
}

double within(const cv::Mat& sums, const cv::Rect& part) {
  const cv::Point a = part.tl(), b = part.br();
  return sums.at<double>(b) - sums.at<double>(b.y, a.x) - sums.at<double>(a.y, b.x) + sums.at<double>(a);
}

cv::Mat spectrum(const cv::Mat& channel, cv::Size size) {
  cv::Mat padded, result;
  cv::copyMakeBorder(channel, padded, 0, size.height - channel.rows, 0, size.width - channel.cols, cv::BORDER_CONSTANT,
                     0);
  cv::dft(padded, result, 0, channel.rows);
  return result;
}

/// One look, on which others are laid.
class Ground {
 public:
  /// None laid on it is larger than `most`.
  Ground(const std::vector<cv::Mat>& channels, cv::Size most)
      : size_(channels[0].size()),
        padded_(cv::getOptimalDFTSize(size_.width + most.width), cv::getOptimalDFTSize(size_.height + most.height)),
        squares_(sums_of_squares(channels)) {
    for (const cv::Mat& channel : channels) spectra_.push_back(spectrum(channel, padded_));
  }

  print::Overlay best_of(const std::vector<cv::Mat>& channels) const {
    cv::Mat likeness = likeness_of(channels);
    print::Overlay best;
    cv::Point place;
    cv::minMaxLoc(likeness, nullptr, &best.likeness, nullptr, &place);
    cv::circle(likeness, place, kElsewhere, 0, cv::FILLED);
    cv::minMaxLoc(likeness, nullptr, &best.next);
    return best;
  }

 private:
  /// Sums of products at every place, those left of and above the first pixel at the far end.
  cv::Mat products_with(const std::vector<cv::Mat>& channels) const {
    cv::Mat all = cv::Mat::zeros(padded_, CV_32F), one, products;
    for (std::size_t c = 0; c < channels.size(); ++c) {
      cv::mulSpectrums(spectra_[c], spectrum(channels[c], padded_), one, 0, true);
      all += one;
    }
    cv::dft(all, products, cv::DFT_INVERSE | cv::DFT_SCALE | cv::DFT_REAL_OUTPUT);
    return products;
  }

  /// At every place where enough of one lies on the other; elsewhere 0.
  cv::Mat likeness_of(const std::vector<cv::Mat>& channels) const {
    const cv::Mat products = products_with(channels), squares = sums_of_squares(channels);
    const cv::Size size = channels[0].size();
    const double smaller = std::min(size.area(), size_.area());
    cv::Mat likeness = cv::Mat::zeros(size_.height + size.height - 1, size_.width + size.width - 1, CV_32F);
    for (int y = 1 - size.height; y < size_.height; ++y) {
      const auto* sums = products.ptr<float>(y < 0 ? y + padded_.height : y);
      auto* line = likeness.ptr<float>(y + size.height - 1) + size.width - 1;
      for (int x = 1 - size.width; x < size_.width; ++x) {
        const cv::Rect here = cv::Rect({x, y}, size) & cv::Rect({0, 0}, size_);
        const double share = here.area() / smaller;
        if (share < kLeast) continue;
        const double power = within(squares_, here) * within(squares, here - cv::Point(x, y));
        if (power <= 0) continue;
        line[x] =
            static_cast<float>(sums[x < 0 ? x + padded_.width : x] / std::sqrt(power) * std::pow(share, kByChance));
      }
    }
    return likeness;
  }

  cv::Size size_, padded_;
  cv::Mat squares_;
  std::vector<cv::Mat> spectra_;
};

/// CIELAB at so many pixels across, without what changes slowly: three CV_32F.
std::vector<cv::Mat> detail(const cv::Mat& lab, double across) {
  cv::Mat small = zoomed(lab, across / lab.cols), around;
  cv::GaussianBlur(small, small, {}, kSharp);
  blur_widely(small, around, kSlow);
  small -= around;
  std::vector<cv::Mat> channels;
  cv::split(small, channels);
  return channels;
}

/// Two looks, in CIELAB, and what each spans from left to right, in one unit.
struct Two {
  cv::Mat first, second;
  double first_across = 1, second_across = 1;

  double longest() const {
    return std::max(first_across * std::max(first.cols, first.rows) / first.cols,
                    second_across * std::max(second.cols, second.rows) / second.cols);
  }
};

/// The best of the zooms from step `from` to step `to`, so many `apart`; the longer look has `side` pixels.
print::Overlay best_zoom(const Two& two, double side, int from, int to, int apart) {
  const double fine = side / two.longest();
  const auto at_zoom = [&](int step) {
    return detail(two.second, fine * two.second_across * std::exp2(step * kOctave));
  };
  const Ground ground(detail(two.first, fine * two.first_across), at_zoom(to)[0].size());
  print::Overlay best;
  for (int step = from; step <= to; step += apart) {
    print::Overlay overlay = ground.best_of(at_zoom(step));
    overlay.octaves = step * kOctave;
    if (overlay.likeness > best.likeness) best = overlay;
  }
  return best;
}

}  // namespace

Look look_of(const photo::Picture& swatch, std::optional<double> inches) {
  const cv::Mat rgb = middle_of(swatch);
  if (inches) *inches *= static_cast<double>(rgb.cols) / swatch.columns;
  return {photo::picture_from(shrunk_to(rgb, kSide)), inches};
}

print::Overlay laid_over(const Look& first, const Look& second) {
  const bool inches = first.inches && second.inches;
  const Two two{photo::lab_of(photo::view(first.picture)), photo::lab_of(photo::view(second.picture)),
                inches ? *first.inches : 1, inches ? *second.inches : 1};
  const int most = inches ? kZoomsInInches : kZooms;
  const int about = static_cast<int>(std::lround(best_zoom(two, kCoarse, -most, most, 2).octaves / kOctave));
  return best_zoom(two, kLaid, std::max(-most, about - 2), std::min(most, about + 2), 1);
}

}  // namespace farflung::extract
