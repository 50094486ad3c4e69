#include "photo/other_sizes.hpp"

#include <algorithm>
#include <cmath>

#include "photo/pieces.hpp"
#include "photo/region.hpp"
#include "photo/square_up.hpp"
#include "photo/strips.hpp"

namespace farflung::photo {
namespace {

constexpr double kNearly = 0.05;         ///< of a side, that what is of the usual length may seem to be off it
constexpr double kWithNeighbour = 1.25;  ///< of a side, with a stripe of the cloth beside it
constexpr double kWidestGap = 0.12;      ///< of a side: with wider gaps between them, cloths are not taken for one
constexpr double kEdgeToEdge = 0.96;     ///< of what two pieces span, that they cover where hardly a gap lies between
constexpr double kMostly = 0.85;         ///< of a side, that is seen of a cloth whose rim is like the surface
constexpr std::size_t kFoldedAlike = 4;  ///< so many of one size tell that the others were folded to it too
constexpr std::ptrdiff_t kUsualToOther = 3;

/// Over the usual cloth's.
cv::Size2d sides_of(const Quad& quad, const Plane& plane) {
  const cv::Size2d sides = mean_sides(plane.on_table(quad));
  return {sides.width / plane.width, sides.height / plane.height};
}

bool is_block_of_usual(const Quad& quad, const Plane& plane) {
  // With the gaps between them.
  const auto count = [](double times) {
    const double whole = std::floor(times + kNearly);
    return times < whole * (1 + kWidestGap) + kNearly ? static_cast<int>(whole) : 0;
  };
  const cv::Size2d sides = sides_of(quad, plane);
  return count(sides.width) * count(sides.height) >= 2;
}

/// The stripes along one of its sides may be too like the surface to be seen; where `many` are alike, also all of its
/// rim, or what shows beside it may be its neighbour's.
bool may_be_part_of_usual(const Quad& quad, const Plane& plane, bool many) {
  const auto [across, down] = sides_of(quad, plane);
  const auto full = [](double times) { return std::abs(times - 1) < kNearly; };
  if (std::max(across, down) > (many ? kWithNeighbour : 1 + kNearly)) return false;
  return full(across) || full(down) ||
         (many && std::max(across, down) < 1 + kNearly && std::min(across, down) > kMostly);
}

/// Whether two pieces lie edge to edge and are no more than a usual one together: stripes of one cloth.
bool are_parts_of_usual(const Quad& one, const Quad& other, const Plane& plane) {
  std::vector<cv::Point> corners(one.begin(), one.end());
  corners.insert(corners.end(), other.begin(), other.end());
  const Quad both = four_corners(corners);
  if (!convex(both) || area(one) + area(other) < kEdgeToEdge * area(both)) return false;
  return may_be_part_of_usual(both, plane, false);
}

bool is_congruent(const Piece& piece, const Plane& plane) {
  return place_of(plane, piece.outline.quad).off < kCongruent;
}

/// Neither a usual one nor some of them together, nor a stripe of one.
bool is_of_other_size(const Piece& piece, const Plane& plane) {
  const Quad& quad = piece.outline.quad;
  return !piece.supposed && !is_strip(quad) && !is_congruent(piece, plane) && !is_block_of_usual(quad, plane);
}

}  // namespace

std::vector<Piece> of_other_sizes(const std::vector<Piece>& pieces, const Plane& plane) {
  std::vector<Piece> usual, others, result;
  for (const Piece& piece : pieces) {
    if (is_plain(piece) && !is_strip(piece.outline.quad))
      (is_congruent(piece, plane) ? usual : others).push_back(piece);
  }
  const bool folded_alike = of_one_size(usual, plane, kFoldedAlike);
  for (const Piece& piece : others) {
    const Quad& quad = piece.outline.quad;
    const bool covered = std::any_of(usual.begin(), usual.end(),
                                     [&](const Piece& other) { return overlap(other.outline.quad, quad) > kOverlap; });
    const bool part = folded_alike && may_be_part_of_usual(quad, plane, usual.size() >= kMany);
    const bool with_another = std::any_of(others.begin(), others.end(), [&](const Piece& other) {
      return other.outline.quad != quad && are_parts_of_usual(quad, other.outline.quad, plane);
    });
    if (!covered && !part && !with_another && !is_block_of_usual(quad, plane)) result.push_back(piece);
  }
  return result;
}

bool share_a_size(const std::vector<Piece>& pieces, const std::vector<Piece>& others, const Plane& plane) {
  const auto usual = std::count_if(pieces.begin(), pieces.end(),
                                   [&](const Piece& piece) { return is_plain(piece) && is_congruent(piece, plane); });
  const bool by_chance = usual < kUsualToOther && std::any_of(pieces.begin(), pieces.end(), [&](const Piece& piece) {
                           return sureness(piece) >= kSure && is_of_other_size(piece, plane);
                         });
  return !by_chance && usual >= kUsualToOther * static_cast<std::ptrdiff_t>(others.size());
}

}  // namespace farflung::photo
