#include "photo/pieces.hpp"

#include <algorithm>
#include <optional>

#include <opencv2/imgproc.hpp>

#include "photo/lattice.hpp"
#include "photo/motifs.hpp"
#include "photo/region.hpp"
#include "photo/split.hpp"
#include "photo/stripe_ends.hpp"
#include "photo/stripes_beyond.hpp"
#include "photo/strips.hpp"

namespace farflung::photo {
namespace {

constexpr double kLeastShare = 0.0015;  ///< of the picture, that a piece of cloth covers
constexpr double kMostOfRim = 0.3;      ///< of the picture's rim, that one piece of cloth may reach beyond
constexpr double kLeastSupport = 0.3;   ///< of an outline that is only supposed, for it to be believed
constexpr double kSupposedFit = 0.85;
constexpr double kFilled = 0.8, kWellFilled = 0.9;  ///< of an outline, by the region that it is drawn round
constexpr double kAllCloth = 0.9;  ///< of a region, that is unlike the surface in any shade where all of it is cloth
constexpr double kMost = 0.8;      ///< of what is told for cloth, that one lies in which more hangs on
constexpr double kThread = 0.012;  ///< of the picture's longer side, that what hangs off a cloth is broad at most

/// Whether such a box meets the rim of the picture.
bool reaches_rim(const cv::Rect& box, cv::Size picture) {
  return box.x == 0 || box.y == 0 || box.br().x == picture.width || box.br().y == picture.height;
}

/// How much of the picture's rim a component that lies in `box` takes up.
double share_of_rim(const cv::Mat& component, const cv::Rect& box, cv::Size picture) {
  double count = 0;
  if (box.x == 0) count += cv::countNonZero(component.col(0));
  if (box.y == 0) count += cv::countNonZero(component.row(0));
  if (box.x + box.width == picture.width) count += cv::countNonZero(component.col(component.cols - 1));
  if (box.y + box.height == picture.height) count += cv::countNonZero(component.row(component.rows - 1));
  return count / (2.0 * (picture.width + picture.height));
}

cv::Point2d middle(const Quad& quad) { return (quad[0] + quad[1] + quad[2] + quad[3]) * 0.25; }

class Taking {
 public:
  Taking(const Told& told, const cv::Mat& small, const Ground& ground)
      : told_(told),
        small_(small),
        ground_(ground),
        full_from_small_(ground.full_from_small()),
        least_(kLeastShare * static_cast<double>(told.cloth.total())) {}

  Pieces pieces() {
    take_regions();
    const bool much = is_much(left_over());
    if (much) gather_motifs();
    gather_stripes();
    if (const cv::Mat left = left_over(); much && is_much(left)) gather_tatters(left);
    return {pieces_, covered_ / std::max(1, cv::countNonZero(told_.cloth))};
  }

 private:
  void take_regions() {
    constexpr int kRim = 2;  // pixels
    // Only where there is any: most of a picture may be bare.
    const cv::Rect within = with_rim(cv::boundingRect(told_.cloth), kRim, told_.cloth.size());
    cv::Mat labels, stats, centres;
    const int count = cv::connectedComponentsWithStats(told_.cloth(within), labels, stats, centres, 4);
    for (int i = 1; i < count; ++i) {
      const double area_of = stats.at<int>(i, cv::CC_STAT_AREA);
      const cv::Rect box = with_rim(box_of(stats, i) + within.tl(), kRim, told_.cloth.size());
      if (reaches_rim(box, told_.cloth.size())) at_rim_ += area_of;
      if (area_of < least_) continue;
      const cv::Mat region = labels(box - within.tl()) == i;
      if (share_of_rim(region, box, told_.cloth.size()) > kMostOfRim)
        continue;  // the print of a cloth that fills the frame
      if (const auto ends = quad_by_stripe_ends(region); ends && take_supposed(moved(*ends, box.tl()))) continue;
      const cv::Mat lab = lab_of(small_(box));
      if (area_of > 6 * least_) {
        for (const Quad& cell : cells_of_block(region, told_.unlike(box), lab)) take_supposed(moved(cell, box.tl()));
      }
      for (const cv::Mat& part : split_at_gaps(region, told_.unlike(box), lab, least_)) {
        if (auto cloth = cloth_in(part, box.tl())) {
          pieces_.push_back(*cloth);
          covered_ += cv::countNonZero(part);
        }
      }
    }
  }

  /// A rough outline that is only supposed, in pixels of `small`, where it is borne out; whether it is.
  bool take_supposed(const Quad& rough) {
    const Outline outline = located(scaled(rough, full_from_small_), ground_);
    if (outline.support <= kLeastSupport) return false;
    pieces_.push_back({outline, kSupposedFit, false});
    covered_ += std::abs(area(rough));
    return true;
  }

  /// What is told for cloth and lies outside the pieces that are sure.
  cv::Mat left_over() const {
    constexpr double kRim = 1.03;  // the outlines a little wider
    cv::Mat left = told_.cloth.clone();
    for (const Piece& piece : pieces_) {
      if (sureness(piece) < kSure || is_strip(piece.outline.quad)) continue;
      const Quad quad = scaled(piece.outline.quad, 1 / full_from_small_);
      const cv::Point2d centre = middle(quad);
      std::vector<cv::Point> wide;
      for (const cv::Point2d& p : quad) wide.emplace_back(centre + kRim * (p - centre));
      cv::fillConvexPoly(left, wide, 0);
    }
    return left;
  }

  /// Whether that is cloth enough for a piece, and no hand or blade at the rim.
  bool is_much(const cv::Mat& left) const {
    constexpr double kPart = 0.5;  // of the least that motifs are gathered to
    return cv::countNonZero(left) - at_rim_ > kPart * least_;
  }

  /// A cloth of its surface's colour may be cut to pieces along its motifs, none of them sure, or along stripes that
  /// come again: then it is what they fill together.
  void gather_motifs() {
    constexpr double kWhole = 0.8;
    for (const Quad& rough : gathered_motifs(told_.cloth, 2 * least_)) {
      const Quad quad = scaled(rough, full_from_small_);
      const auto within = [&](const Piece& piece) { return contains(quad, middle(piece.outline.quad)); };
      std::vector<Quad> strips;
      for (const Piece& piece : pieces_) {
        if (within(piece) && sureness(piece) >= kSure && is_strip(piece.outline.quad))
          strips.push_back(piece.outline.quad);
      }
      const bool striped = may_be_stripes(strips, ground_.rgb);
      if (!striped && holds_several(quad)) continue;
      const auto whole = [&](const Piece& piece) {
        if (!within(piece)) return false;
        const bool sure = sureness(piece) >= kSure && !(striped && is_strip(piece.outline.quad));
        return sure || area(piece.outline.quad) > kWhole * area(quad);
      };
      if (std::any_of(pieces_.begin(), pieces_.end(), whole)) continue;
      const Outline outline = located(quad, ground_);
      if (outline.support <= kLeastSupport) continue;
      std::erase_if(pieces_, within);
      pieces_.push_back({outline, kSupposedFit, false});
      covered_ += cloth_within(rough);
    }
  }

  /// Whether cloths lie within a quadrilateral, each of them a rectangle by itself.
  bool holds_several(const Quad& quad) const {
    std::vector<Quad> rectangles;
    for (const Piece& piece : pieces_) {
      const Quad& own = piece.outline.quad;
      if (piece.fit >= kSupposedFit && !is_strip(own) && contains(quad, middle(own))) rectangles.push_back(own);
    }
    return lie_side_by_side(rectangles, quad);
  }

  /// Whether there is a piece that an outline borne out so far would lie upon and may not take the place of: one that
  /// is sure, as clear, or larger.
  bool gives_way(const Quad& quad, double support) const {
    constexpr double kAsLarge = 0.8;
    return std::any_of(pieces_.begin(), pieces_.end(), [&](const Piece& piece) {
      const double times = area(piece.outline.quad) / area(quad);
      if (times > 1 / kAsLarge) return contains(piece.outline.quad, middle(quad));
      if (!contains(quad, middle(piece.outline.quad))) return false;
      return sureness(piece) >= kSure || (times > kAsLarge && piece.outline.support >= support);
    });
  }

  /// A cloth may be told in tatters only from a surface much like it, and lie too near others to be gathered among
  /// them.
  void gather_tatters(const cv::Mat& left) {
    constexpr double kAllClear = 1;
    cv::Mat half;  // which shows well enough where to look
    cv::resize(left, half, {}, 0.5, 0.5, cv::INTER_AREA);
    std::vector<Outline> outlines;
    for (const Quad& rough : gathered_motifs(half >= 128, least_ / 2, circumscribed)) {
      const Quad quad = scaled(rough, 2 * full_from_small_);
      if (gives_way(quad, kAllClear)) continue;
      const Outline outline = located(quad, ground_);
      if (outline.support > kLeastSupport) outlines.push_back(outline);
    }
    std::stable_sort(outlines.begin(), outlines.end(),
                     [](const Outline& a, const Outline& b) { return a.support > b.support; });
    for (const Outline& outline : outlines) {
      if (gives_way(outline.quad, outline.support) || holds_several(outline.quad)) continue;
      std::erase_if(pieces_, [&](const Piece& piece) { return contains(outline.quad, middle(piece.outline.quad)); });
      pieces_.push_back({outline, kSupposedFit, false});
      covered_ += cloth_within(scaled(outline.quad, 1 / full_from_small_));
    }
  }

  /// A cloth some of whose stripes are of its surface's colour may end at one of them: then it goes on behind it.
  void gather_stripes() {
    constexpr double kPart = 0.5;
    for (const Piece& part : std::vector<Piece>(pieces_)) {
      const Outline outline = widened(part.outline);
      if (outline.support <= kLeastSupport || area(outline.quad) <= area(part.outline.quad)) continue;
      const Piece whole{outline, kSupposedFit, false};
      if (sureness(part) >= kSure && sureness(whole) < kSure) continue;
      const bool dyed = gaps_are_dyed(scaled(outline.quad, 1 / full_from_small_), told_.cloth, small_, ground_.surface);
      const auto within = [&](const Piece& piece) { return contains(outline.quad, middle(piece.outline.quad)); };
      const auto is_another = [&](const Piece& piece) {
        if (!within(piece) || piece.outline.quad == part.outline.quad) return false;
        const bool stands_alone = sureness(piece) >= kSure && !is_strip(piece.outline.quad) && !dyed;
        return stands_alone || area(piece.outline.quad) > std::max(area(part.outline.quad), kPart * area(outline.quad));
      };
      if (std::any_of(pieces_.begin(), pieces_.end(), is_another)) continue;
      std::erase_if(pieces_, within);
      pieces_.push_back(whole);
      covered_ += cloth_within(scaled(outline.quad, 1 / full_from_small_));
    }
  }

  /// Over stripe after stripe: what is seen from a narrow part is seen better from a wider one.
  Outline widened(Outline outline) const {
    constexpr int kRounds = 3;
    for (int round = 0; round < kRounds; ++round) {
      const auto rough = widened_over_stripes(scaled(outline.quad, 1 / full_from_small_), told_.cloth, small_);
      if (!rough) break;
      const Outline next = located(scaled(*rough, full_from_small_), ground_);
      if (!convex(next.quad) || next.support <= kLeastSupport) break;
      outline = next;
    }
    return outline;
  }

  double cloth_within(const Quad& quad) const {
    cv::Mat drawn = cv::Mat::zeros(told_.cloth.size(), CV_8U);
    cv::fillConvexPoly(drawn, std::vector<cv::Point>(quad.begin(), quad.end()), 255);
    return cv::countNonZero(drawn & told_.cloth);
  }

  /// `component` is a part of the picture whose top left corner is `at`.
  std::optional<Piece> cloth_in(const cv::Mat& component, cv::Point at) const {
    std::optional<Piece> best = filling(component, at, kFilled);
    const bool is_sure = best && sureness(*best) >= kSure;
    const auto take_surer = [&](const cv::Mat& part) {
      const std::optional<Piece> piece = broadest_in(part, at);
      if (!piece) return;
      // A stripe between those of the surface's colour is not all of its cloth.
      const bool is_most = area(scaled(piece->outline.quad, 1 / full_from_small_)) > kMost * cv::countNonZero(part);
      if (!best || (is_most && sureness(*piece) > sureness(*best))) best = piece;
    };
    // What a board's grain or a ruled line ties to a cloth hangs off it by a thread, or is the board itself, darker, or
    // a square that is ruled beside it.
    if (!is_sure) take_surer(component);
    const cv::Mat unlike = component & (told_.unlike(cv::Rect(at, component.size())) > kUnlike);
    if (!is_sure || cv::countNonZero(unlike) < kAllCloth * cv::countNonZero(component)) take_surer(unlike);
    return best;
  }

  /// The cloth that fills the largest part of a component that hangs together by more than threads.
  std::optional<Piece> broadest_in(const cv::Mat& component, cv::Point at) const {
    const int width = 2 * static_cast<int>(kThread * std::max(told_.cloth.cols, told_.cloth.rows) / 2) + 1;
    cv::Mat broad;
    cv::morphologyEx(component, broad, cv::MORPH_OPEN, cv::getStructuringElement(cv::MORPH_RECT, {width, width}));
    cv::Mat labels, stats, centres;
    const int count = cv::connectedComponentsWithStats(broad, labels, stats, centres, 4);
    int largest = 0;
    for (int i = 1; i < count; ++i) {
      if (largest == 0 || stats.at<int>(i, cv::CC_STAT_AREA) > stats.at<int>(largest, cv::CC_STAT_AREA)) largest = i;
    }
    if (largest == 0 || stats.at<int>(largest, cv::CC_STAT_AREA) < least_) return {};
    return filling(labels == largest, at, kWellFilled);
  }

  /// The cloth whose outline such a component fills to that share.
  std::optional<Piece> filling(const cv::Mat& component, cv::Point at, double share) const {
    std::vector<std::vector<cv::Point>> contours;
    cv::findContours(component, contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    if (contours.empty()) return {};
    const auto& contour = *std::max_element(contours.begin(), contours.end(),
                                            [](const auto& a, const auto& b) { return a.size() < b.size(); });
    const Quad rough = four_corners(contour);
    if (agreement(rough, component) < share || !convex(rough)) return {};
    const Outline outline = located(scaled(moved(rough, at), full_from_small_), ground_);
    return Piece{outline, agreement(moved(scaled(outline.quad, 1 / full_from_small_), -at), component), false};
  }

  const Told& told_;
  const cv::Mat& small_;
  const Ground& ground_;
  double full_from_small_;
  double least_;  ///< pixels of `small_`, that a piece covers
  std::vector<Piece> pieces_;
  double at_rim_ = 0;   ///< pixels of `small_` that are told for cloth and hang together with its rim
  double covered_ = 0;  ///< pixels of `small_` that are told for cloth and lie in the pieces
};

}  // namespace

double sureness(const Piece& piece) { return std::min(1.0, piece.outline.support) * std::min(1.0, piece.fit / 0.95); }

bool is_plain(const Piece& piece) {
  constexpr double kPlain = 0.8;
  return !piece.supposed && sureness(piece) > kPlain;
}

Pieces pieces_in(const Told& told, const cv::Mat& small, const Ground& ground) {
  return Taking(told, small, ground).pieces();
}

}  // namespace farflung::photo
