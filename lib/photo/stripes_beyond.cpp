#include "photo/stripes_beyond.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "base/median.hpp"
#include "photo/lab_table.hpp"
#include "photo/region.hpp"

namespace farflung::photo {
namespace {

constexpr double kGap = 0.12;      ///< of the stripes' length: as broad a stripe of the surface's colour may be
constexpr double kAtEdge = 0.02;   ///< of the same: where the outline itself may be off
constexpr double kFull = 0.6;      ///< of a line along a stripe, that shows cloth: a dark one may seem shade
constexpr double kBare = 0.4;      ///< the same of a gap, however narrow
constexpr double kFarther = 0.25;  ///< of what lies just beyond the stripes' ends, at most cloth
constexpr double kKnown = 0.85;    ///< of the stripes, whose colours the cloth shows
constexpr float kAlike = 8;        ///< dE (1976)
constexpr double kWorth = 0.02;    ///< of the stripes' length: less is not looked for

/// Places by shares of a quad: u across the stripes, v along them, both 0..1 within it.
class Frame {
 public:
  explicit Frame(const Quad& quad) {
    const cv::Point2f unit[4] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
    cv::Point2f corners[4];
    for (int i = 0; i < 4; ++i) corners[i] = quad[i];
    picture_from_unit_ = cv::getPerspectiveTransform(unit, corners);
  }

  /// None behind the horizon.
  std::optional<cv::Point2d> at(double u, double v) const {
    const cv::Vec3d p = picture_from_unit_ * cv::Vec3d(u, v, 1);
    if (p[2] < 0.2) return {};
    return cv::Point2d(p[0] / p[2], p[1] / p[2]);
  }

 private:
  cv::Matx33d picture_from_unit_;
};

class Beyond {
 public:
  /// `frame` is the quad's, `breadth` and `length` its pixels across the stripes and along them.
  Beyond(const Frame& frame, double breadth, double length, const cv::Mat& cloth, const cv::Mat& rgb)
      : frame_(frame), step_(1 / breadth), length_(length / breadth), cloth_(cloth), rgb_(rgb) {}

  /// How far the stripes go on beyond side u = 0 or 1: the last stripe's far edge; that side itself where there are
  /// none.
  double last_from(double side) const {
    const double way = side > 0.5 ? step_ : -step_;
    double last = side, gap = 0, farther = 0, lines = 0;
    bool apart = false;
    for (double u = side + way; std::abs(u - side) < std::max(1.0, length_); u += way) {
      const std::optional<double> share = cloth_on(u, 0.06, 0.94);
      if (!share) break;
      if (*share >= kFull && !apart) {
        if (std::abs(u - side) > kAtEdge * length_) return side;  // no gap: whatever this is, it is not behind one
      } else if (*share >= kFull) {
        gap = 0, last = u + way / 2, ++lines;
        farther += (cloth_on(u, -0.08, -0.04).value_or(0) + cloth_on(u, 1.04, 1.08).value_or(0)) / 2;
      } else {
        apart = apart || *share <= kBare, gap += step_;
        if (gap > kGap * length_) break;
      }
    }
    return lines >= 2 && farther / lines < kFarther ? last : side;
  }

  /// Whether the colours of the cloth between `from` and `to` lie within the quad.
  bool known_between(double from, double to) const {
    const std::vector<cv::Vec3f> own = colours_between(0.03, 0.97, false), found = colours_between(from, to, true);
    const auto known = [&](const cv::Vec3f& colour) {
      return std::any_of(own.begin(), own.end(), [&](const cv::Vec3f& one) { return cv::norm(one - colour) < kAlike; });
    };
    return static_cast<double>(std::count_if(found.begin(), found.end(), known)) >=
           kKnown * static_cast<double>(found.size());
  }

 private:
  /// Share of cloth along the stripes' line `u`; none where the line leaves the picture.
  std::optional<double> cloth_on(double u, double from, double to) const {
    constexpr int kCount = 24;
    int count = 0;
    for (int i = 0; i < kCount; ++i) {
      const auto p = pixel(u, from + (to - from) * (i + 0.5) / kCount);
      if (!p) return {};
      count += cloth_.at<std::uint8_t>(*p) != 0;
    }
    return static_cast<double>(count) / kCount;
  }

  std::optional<cv::Point> pixel(double u, double v) const {
    const auto p = frame_.at(u, v);
    if (!p) return {};
    const cv::Point place(cvRound(p->x), cvRound(p->y));
    if (!cv::Rect({0, 0}, cloth_.size()).contains(place)) return {};
    return place;
  }

  std::vector<cv::Vec3f> colours_between(double from, double to, bool of_cloth) const {
    constexpr int kCount = 24;
    std::vector<cv::Vec3f> colours;
    for (int i = 0; i < kCount * kCount; ++i) {
      const int across = i % kCount, along = i / kCount;
      const auto p = pixel(from + (to - from) * (across + 0.5) / kCount, 0.06 + 0.88 * (along + 0.5) / kCount);
      if (p && (!of_cloth || cloth_.at<std::uint8_t>(*p) != 0))
        colours.push_back(LabTable::get().lab(rgb_.at<cv::Vec3b>(*p)));
    }
    return colours;
  }

  const Frame& frame_;
  double step_, length_;  ///< in shares of the breadth: a pixel; the stripes' length
  const cv::Mat &cloth_, &rgb_;
};

/// Over stripes that run along sides 1 and 3.
std::optional<Quad> widened_across(const Quad& quad, const cv::Mat& cloth, const cv::Mat& rgb) {
  const double breadth = (side_of(quad, 0).length + side_of(quad, 2).length) / 2,
               length = (side_of(quad, 1).length + side_of(quad, 3).length) / 2;
  if (breadth < 4 || length < 12) return {};
  const Frame frame(quad);
  const Beyond beyond(frame, breadth, length, cloth, rgb);
  double first = beyond.last_from(0), last = beyond.last_from(1);
  if (first < 0 && !beyond.known_between(first, 0)) first = 0;
  if (last > 1 && !beyond.known_between(1, last)) last = 1;
  if ((last - first - 1) * breadth < kWorth * length) return {};
  Quad wide;
  constexpr double kEnds[2] = {0, 1};
  for (int i = 0; i < 4; ++i) {
    const auto corner = frame.at(i == 1 || i == 2 ? last : first, kEnds[i / 2]);
    if (!corner) return {};
    wide[i] = *corner;
  }
  return convex(wide) ? std::optional(wide) : std::nullopt;
}

}  // namespace

std::optional<Quad> widened_over_stripes(const Quad& quad, const cv::Mat& cloth, const cv::Mat& rgb) {
  if (const auto wide = widened_across(quad, cloth, rgb)) return wide;
  const auto wide = widened_across({quad[1], quad[2], quad[3], quad[0]}, cloth, rgb);
  if (!wide) return {};
  return Quad{(*wide)[3], (*wide)[0], (*wide)[1], (*wide)[2]};
}

bool gaps_are_dyed(const Quad& quad, const cv::Mat& cloth, const cv::Mat& rgb, const Surface& surface) {
  constexpr int kRim = 5;               // pixels, into which blur brings the colours of what lies beside
  constexpr std::size_t kEnough = 200;  // pixels
  constexpr double kDyed = 3;           // standard deviations of the surface's own pixels
  const std::vector<cv::Point> outline(quad.begin(), quad.end());
  const cv::Rect box = cv::boundingRect(outline) & cv::Rect({0, 0}, cloth.size());
  if (box.empty()) return false;
  cv::Mat gaps = cv::Mat::zeros(box.size(), CV_8U);
  const Quad within = moved(quad, -box.tl());
  cv::fillConvexPoly(gaps, std::vector<cv::Point>(within.begin(), within.end()), 255);
  gaps.setTo(0, cloth(box));
  cv::erode(gaps, gaps, cv::getStructuringElement(cv::MORPH_RECT, {kRim, kRim}), {-1, -1}, 1, cv::BORDER_CONSTANT, 0);
  std::array<std::vector<float>, 3> off;
  for (int row = 0; row < gaps.rows; ++row) {
    const auto* bare = surface.expected.ptr<cv::Vec3f>((box.y + row) * surface.expected.rows / cloth.rows);
    for (int column = 0; column < gaps.cols; ++column) {
      if (gaps.ptr(row)[column] == 0) continue;
      const cv::Vec3f seen = from_black(LabTable::get().lab(rgb.at<cv::Vec3b>(box.y + row, box.x + column))),
                      lit = from_black(bare[(box.x + column) * surface.expected.cols / cloth.cols]);
      const cv::Vec3f hue = seen - std::min(1.0F, root_of_light(seen, lit)) * lit;
      for (int c = 0; c < 3; ++c) off[c].push_back(hue[c]);
    }
  }
  if (off[0].size() < kEnough) return false;
  const cv::Vec3d hue(median(std::move(off[0])), median(std::move(off[1])), median(std::move(off[2])));
  return cv::norm(hue) > kDyed * surface.noise;
}

}  // namespace farflung::photo
