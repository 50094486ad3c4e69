#include "photo/companions.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include <opencv2/imgproc.hpp>

#include "base/median.hpp"
#include "photo/other_sizes.hpp"
#include "photo/pieces.hpp"
#include "photo/pinked_alike.hpp"
#include "photo/plane.hpp"
#include "photo/square_up.hpp"
#include "photo/strips.hpp"

namespace farflung::photo {
namespace {

constexpr double kClear = 0.3;   ///< support from which a side is seen
constexpr double kStray = 0.09;  ///< of a side, that a cloth may lie from where its row has it
constexpr double kSureEnough = 0.65;
constexpr double kFaint = 1.5;    ///< times what bare surface shows: a cloth of nearly its own colour
constexpr double kSettles = 0.3;  ///< deviations, by which a supposed cloth must stand out better elsewhere to be moved
constexpr std::size_t kSquaredUp = 3;  ///< so many tell their common size
constexpr int kMostPieces = 60;
constexpr int kMostTries = 150;

/// What lies within an outline.
struct Inside {
  double cloth = 0;   ///< share that is unlike the surface
  double unlike = 0;  ///< mean deviations from it
};

bool within(const Quad& quad, cv::Size size) {
  const double slack = 0.01 * size.width;
  return std::all_of(quad.begin(), quad.end(), [&](const cv::Point2d& p) {
    return p.x > -slack && p.y > -slack && p.x < size.width + slack && p.y < size.height + slack;
  });
}

/// How the cloths lie: centres on the table along the rows and across them.
struct Rows {
  double across = 0, down = 0;  ///< steps from cloth to cloth; 0 where none is known
};

class Companions {
 public:
  Companions(const std::vector<Piece>& pieces, const Ground& ground) : ground_(ground), seen_(pieces) {}

  std::vector<Piece> found() {
    if (!settle_plane(seen_)) return seen_;
    others_ = of_other_sizes(seen_, plane_);
    if (!share_a_size(seen_, others_, plane_)) return each_by_itself();
    take_the_congruent();
    if (kept_.size() < 2) return seen_;
    for (int round = 0; round < 12; ++round) {
      const std::size_t before = kept_.size();
      grow();
      if (kept_.size() == before || tries_ >= kMostTries) break;
      settle_plane(kept_);
    }
    if (kept_.size() >= kSquaredUp) {
      settle_plane(kept_);
      pink_alike();
      kept_ = squared_up(kept_, plane_, ground_.lit);
    }
    keep_the_others();
    return kept_;
  }

 private:
  bool settle_plane(const std::vector<Piece>& pieces) {
    std::vector<Quad> quads;
    for (const Piece& piece : pieces) {
      if (!piece.supposed) quads.push_back(piece.outline.quad);
    }
    // The stripes of one print are of one size too: they are not asked where two pieces are no strips.
    const auto whole =
        std::stable_partition(quads.begin(), quads.end(), [](const Quad& quad) { return !is_strip(quad); });
    if (whole - quads.begin() >= 2) quads.erase(whole, quads.end());
    if (quads.size() < 2) return false;
    const auto plane = fitted_plane(quads, ground_.rgb.size(), 2, ground_.table_from_photo);
    if (plane) plane_ = *plane;
    return plane.has_value();
  }

  /// Whether it is so of a cloth that is taken to be there.
  template <typename Test>
  bool any_cloth(const Test& is_so) const {
    const auto of_piece = [&](const Piece& piece) { return is_so(piece.outline.quad); };
    return std::any_of(kept_.begin(), kept_.end(), of_piece) || std::any_of(others_.begin(), others_.end(), of_piece);
  }

  bool overlaps(const Quad& quad, double most) const {
    return any_cloth([&](const Quad& cloth) { return overlap(cloth, quad) > most; });
  }

  /// The clearest first.
  std::vector<Piece> by_clearness() const {
    std::vector<Piece> sorted = seen_;
    std::stable_sort(sorted.begin(), sorted.end(), [](const Piece& a, const Piece& b) {
      return a.outline.support * a.fit > b.outline.support * b.fit;
    });
    return sorted;
  }

  /// All that do not overlap one that is plainly seen, or larger: what is neither may be a part of it.
  std::vector<Piece> each_by_itself() {
    others_.clear();
    std::vector<Piece> sorted = by_clearness();
    const auto unclear = std::stable_partition(sorted.begin(), sorted.end(), is_plain);
    std::stable_sort(unclear, sorted.end(),
                     [](const Piece& a, const Piece& b) { return area(a.outline.quad) > area(b.outline.quad); });
    for (const Piece& piece : sorted) {
      if (!overlaps(piece.outline.quad, kOverlap)) kept_.push_back(piece);
    }
    return kept_;
  }

  void take_the_congruent() {
    const std::vector<Piece> sorted = by_clearness();
    for (const Piece& piece : sorted) {
      if (place_of(plane_, piece.outline.quad).off < kCongruent && !overlaps(piece.outline.quad, kOverlap)) {
        kept_.push_back(piece);
      }
    }
    // Clear cloths of nearly the usual size come before any that is only supposed; but where all are folded to one size
    // they are part of a print, as far as its lines reach.
    if (of_one_size(kept_, plane_)) return;
    for (const Piece& piece : sorted) {
      const double size = size_of(piece.outline.quad);
      if (piece.outline.support * piece.fit > kSureEnough && size > 0.75 && size < 1.33 &&
          place_of(plane_, piece.outline.quad).off < 3 * kCongruent && !overlaps(piece.outline.quad, kOverlap)) {
        kept_.push_back(piece);
      }
    }
  }

  /// Cloths of one bundle are pinked all or none.
  void pink_alike() {
    if (const double pitch = shared_pitch(kept_, plane_, ground_.lit); pitch > 0) {
      kept_ = along_tips(kept_, pitch, plane_);
      return;
    }
    for (Piece& piece : kept_) {
      if (piece.outline.pitch > 0) piece.outline = located(piece.outline.quad, ground_, kUsualReach, false);
    }
  }

  /// Area on the table over that of the usual cloth.
  double size_of(const Quad& quad) const {
    std::vector<cv::Point2f> corners;
    for (const cv::Point2d& p : quad) corners.emplace_back(plane_.on_table(p));
    return cv::contourArea(corners) / (plane_.width * plane_.height);
  }

  /// A centre on the table in the cloths' own directions.
  cv::Point2d along_rows(cv::Point2d centre) const {
    const double c = std::cos(plane_.turn), s = std::sin(plane_.turn);
    return {c * centre.x + s * centre.y, c * centre.y - s * centre.x};
  }
  cv::Point2d on_table(cv::Point2d along) const {
    const double c = std::cos(plane_.turn), s = std::sin(plane_.turn);
    return {c * along.x - s * along.y, s * along.x + c * along.y};
  }

  std::vector<cv::Point2d> centres() const {
    std::vector<cv::Point2d> list;
    for (const Piece& piece : kept_) list.push_back(along_rows(place_of(plane_, piece.outline.quad).centre));
    return list;
  }

  Rows rows(const std::vector<cv::Point2d>& at) const {
    std::vector<double> across, down;
    for (std::size_t i = 0; i < at.size(); ++i) {
      for (std::size_t j = 0; j < at.size(); ++j) {
        const cv::Point2d step = at[j] - at[i];
        if (step.x > 0.95 * plane_.width && step.x < 1.4 * plane_.width && std::abs(step.y) < 0.25 * plane_.height)
          across.push_back(step.x);
        if (step.y > 0.95 * plane_.height && step.y < 1.4 * plane_.height && std::abs(step.x) < 0.25 * plane_.width)
          down.push_back(step.y);
      }
    }
    return {median(across), median(down)};
  }

  /// Looks beside every cloth for another.
  void grow() {
    const std::vector<cv::Point2d> at = centres();
    const Rows steps = rows(at);
    // Where only one step is known, the gaps are thought to be alike.
    const double gap = steps.across > 0 ? steps.across - plane_.width
                       : steps.down > 0 ? steps.down - plane_.height
                                        : -1;
    const auto lengths = [&](double known, double side) {
      if (known > 0) return std::vector<double>{known};
      if (gap >= 0) return std::vector<double>{side + gap};
      return std::vector<double>{1.035 * side, 1.07 * side, 1.14 * side};
    };
    const std::vector<double> across = lengths(steps.across, plane_.width), down = lengths(steps.down, plane_.height);
    std::vector<std::vector<cv::Point2d>> places;
    for (const cv::Point2d& centre : at) {
      for (const int way : {-1, 1}) {
        std::vector<cv::Point2d> beside, below;
        for (const double step : across) beside.push_back(centre + cv::Point2d(way * step, 0));
        for (const double step : down) below.push_back(centre + cv::Point2d(0, way * step));
        places.push_back(beside), places.push_back(below);
      }
    }
    for (const auto& options : places) try_places(options);
  }

  bool taken(cv::Point2d along) const {
    const auto near = [&](cv::Point2d other) {
      return std::abs(other.x - along.x) < 0.6 * plane_.width && std::abs(other.y - along.y) < 0.6 * plane_.height;
    };
    const auto same = [&](cv::Point2d other) {
      return std::abs(other.x - along.x) < 0.03 * plane_.width && std::abs(other.y - along.y) < 0.03 * plane_.height;
    };
    const std::vector<cv::Point2d> at = centres();
    return std::any_of(at.begin(), at.end(), near) || std::any_of(tried_.begin(), tried_.end(), same);
  }

  void try_places(const std::vector<cv::Point2d>& options) {
    std::optional<Piece> best;
    for (const cv::Point2d& along : options) {
      if (taken(along) || tries_ >= kMostTries || kept_.size() >= kMostPieces) continue;
      const Quad quad = outline_at(plane_, on_table(along), plane_.turn);
      if (!within(quad, ground_.rgb.size()) || !convex(quad)) continue;
      ++tries_;
      if (auto piece = looked_at(quad, between(along))) {
        if (!best || piece->outline.support > best->outline.support) best = piece;
      } else {
        tried_.push_back(along);
      }
    }
    if (best && !overlaps(best->outline.quad, kOverlap)) kept_.push_back(*best);
  }

  /// Whether a place lies between two cloths of a row or of a column: rows seldom leave one out.
  bool between(cv::Point2d along) const {
    const std::vector<cv::Point2d> at = centres();
    const auto beside = [&](double x, double y) {
      return std::any_of(at.begin(), at.end(), [&](const cv::Point2d& other) {
        const double dx = (other.x - along.x) / plane_.width - x, dy = (other.y - along.y) / plane_.height - y;
        return std::abs(dx) < 0.3 && std::abs(dy) < 0.3;
      });
    };
    return (beside(-1.06, 0) && beside(1.06, 0)) || (beside(0, -1.06) && beside(0, 1.06));
  }

  /// What the bare surface itself shows, where it is sure to be bare.
  float usual_unlike() const {
    std::vector<float> values;
    for (int row = 2; row < ground_.unlike.rows; row += 6) {
      for (int column = 2; column < ground_.unlike.cols; column += 6) {
        const float off = ground_.unlike.at<float>(row, column);
        if (off < kUnlike) values.push_back(off);
      }
    }
    return values.empty() ? 1 : median(std::move(values));
  }

  /// Within an outline, where no other cloth lies.
  Inside inside(const Quad& quad) const {
    constexpr int kSteps = 24;
    Inside result;
    int count = 0;
    for (const cv::Point2d& p : spread_over(quad, kSteps)) {
      if (is_taken(p)) continue;
      const float off = ground_.unlike_at(p);
      result.cloth += off > kUnlike ? 1 : 0;
      result.unlike += std::min(off, 20.0F);
      ++count;
    }
    const double all = std::max(1, count);
    return {result.cloth / all, result.unlike / all};
  }

  /// A cloth of the usual size at about this place, where there is one. Between two others the faintest sign will do.
  std::optional<Piece> looked_at(const Quad& supposed, bool is_between) const {
    const Inside within_it = inside(supposed);
    const bool faint = is_between && within_it.unlike > kFaint * usual_;
    if (within_it.unlike < 1.2 && !faint) return {};
    const Place expected = place_of(plane_, supposed);
    const auto seen_near = [&](const Quad& quad, double farthest) -> std::optional<Piece> {
      const Outline seen = located(quad, ground_, 0.08);
      const Place place = place_of(plane_, seen.quad);
      const double stray = cv::norm(place.centre - expected.centre) / std::sqrt(plane_.width * plane_.height);
      if (seen.support <= kClear || place.off >= kCongruent || stray >= farthest) return {};
      return Piece{seen, std::clamp(0.6 + within_it.cloth, 0.0, 1.0), false};
    };
    if (auto seen = seen_near(supposed, kStray)) return seen;
    const Quad settled = is_between ? supposed : settled_from(expected);
    if (auto seen = seen_near(settled, 2 * kStray)) return seen;
    // Some sides are seen, others are not: those lie where the common size has them.
    const auto [mixed, sides] = mixed_with(settled);
    if (!convex(mixed.quad)) return {};
    const bool present = within_it.cloth > 0.6 || (within_it.cloth > 0.15 && sides >= 2) || sides >= 3 || faint;
    if (!present) return {};
    return Piece{mixed, 0.6, true};
  }

  /// How much more unlike the surface it is within an outline than just round it, where no other cloth lies, in
  /// deviations.
  double stands_out(const Quad& quad) const {
    constexpr int kSteps = 20, kRound = 2;  // samples a side within, and more of them round it
    constexpr float kMost = 12;
    double in = 0, out = 0;
    int ins = 0, outs = 0;
    for (int i = -kRound; i < kSteps + kRound; ++i) {
      for (int j = -kRound; j < kSteps + kRound; ++j) {
        const double u = (i + 0.5) / kSteps, v = (j + 0.5) / kSteps;
        const cv::Point2d p = ((1 - u) * quad[0] + u * quad[1]) * (1 - v) + ((1 - u) * quad[3] + u * quad[2]) * v;
        const bool is_in = u > 0 && u < 1 && v > 0 && v < 1;
        if (!is_in && is_taken(p)) continue;
        (is_in ? in : out) += std::min(ground_.unlike_at(p), kMost);
        ++(is_in ? ins : outs);
      }
    }
    return in / std::max(1, ins) - out / std::max(1, outs);
  }

  bool is_taken(cv::Point2d p) const {
    return any_cloth([&](const Quad& cloth) { return contains(cloth, p); });
  }

  /// The outline of the usual cloth moved and turned from where it is supposed until it stands out best.
  Quad settled_from(const Place& expected) const {
    const auto outline = [&](const Place& place) { return outline_at(plane_, place.centre, place.turn); };
    Place best = expected;
    double most = stands_out(outline(best)) + kSettles;
    for (const double step : {0.05, 0.025, 0.012}) {
      const Place from = best;
      constexpr int kEach = 5;  // places along, places across, turns
      for (int i = 0; i < kEach * kEach * kEach; ++i) {
        const int along = i % kEach - 2, across = i / kEach % kEach - 2, turn = i / (kEach * kEach) - 2;
        Place tried = from;
        tried.centre += on_table({along * step * plane_.width, across * step * plane_.height});
        tried.turn += turn * 0.8 * step;
        const double here = stands_out(outline(tried));
        if (here > most) most = here, best = tried;
      }
    }
    return outline(best);
  }

  /// The supposed outline with each side moved to the edge that is seen near it, where one is.
  std::pair<Outline, int> mixed_with(const Quad& supposed) const {
    const Sides sides = sharpened_sides(supposed, ground_.lit, 0.05);
    Outline outline{supposed, 0, 0};
    int clear = 0;
    for (const double support : sides.support) clear += support > 0.5;
    outline.quad = sides.quad;
    outline.support = 0.3;
    return {outline, clear};
  }

  void keep_the_others() {
    kept_.insert(kept_.end(), others_.begin(), others_.end());
    const bool trusted = kept_.size() >= 4;
    for (const Piece& piece : seen_) {
      if (overlaps(piece.outline.quad, kOverlap)) continue;
      const bool sure = piece.outline.support * piece.fit > kSureEnough;
      if (trusted && !(sure && size_of(piece.outline.quad) > 0.25)) continue;
      kept_.push_back(piece);
    }
  }

  const Ground& ground_;
  const std::vector<Piece>& seen_;
  Plane plane_;
  float usual_ = usual_unlike();
  std::vector<Piece> kept_;
  std::vector<Piece> others_;  ///< plainly seen, of sizes of their own: neither changed nor grown over
  std::vector<cv::Point2d> tried_;
  int tries_ = 0;
};

}  // namespace

std::vector<Piece> with_companions(const std::vector<Piece>& pieces, const Ground& ground) {
  std::vector<Piece> found = Companions(pieces, ground).found();
  if (ground.table_from_photo && found.size() < kSquaredUp) {
    for (Piece& piece : found) piece = doubted_if_leaning(piece, *ground.table_from_photo);
  }
  return found;
}

}  // namespace farflung::photo
