#include "photo/located.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "photo/blurred_edge.hpp"
#include "photo/parting.hpp"

namespace farflung::photo {
namespace {

constexpr double kAllClear = 2.0;  ///< mean log likelihood ratio along a side about which there is no doubt
constexpr double kByColour = 0.5;  ///< support at most where colours alone part: those of a motif and its ground do too
constexpr double kMostParted = 0.08;     ///< of a side, that colours move it
constexpr double kEdgeSeen = 0.4;        ///< support of a side whose edge is weighed against what colours say
constexpr double kSame = 1, kOther = 6;  ///< pixels apart: nearer they are one edge, farther two
constexpr double kUsually = 1.8;         ///< pixels, by which a good outline is sharpened
constexpr double kExplains = 0.5;        ///< misfit of an edge that explains what is seen

/// `outline` moved to where `sharp` has it, if that is an outline at all.
Outline taken_over(Outline outline, const Outline& sharp) {
  if (!convex(sharp.quad)) return outline;
  outline.quad = sharp.quad;
  outline.depth = sharp.depth;
  if (sharp.pitch > 0) outline.pitch = sharp.pitch;
  outline.at_tips = sharp.at_tips;
  outline.support = std::max(outline.support, sharp.support);
  return outline;
}

/// Pixels from side `index` of one quad to that of another, at whichever end they are farther apart.
double apart(const Quad& one, const Quad& other, int index) {
  const Side side = side_of(one, index);
  const auto off = [&](cv::Point2d place) { return std::abs((place - side.from).dot(side.outward)); };
  return std::max(off(other[index]), off(other[(index + 1) % 4]));
}

/// Each side where its edge is seen or where colours part. An edge that is seen is the finer, unless it is a stripe's
/// or a shade's: then colours say so. Colours that a blur mixes may say so wrongly: where one of the two explains all
/// that is seen about it, it is the better one of them.
Quad seen_or_parted(const Sharpened& sharp, const Parted& by_colour, const Parting& parting, const Lit& lit) {
  const Quad& seen = sharp.outline.quad;
  const std::array<bool, 4> hardly_worse = parting.hardly_worse(seen, by_colour);
  std::array<std::array<cv::Point2d, 2>, 4> lines;
  for (int i = 0; i < 4; ++i) {
    bool by_edge = hardly_worse[i];
    const double off = apart(by_colour.quad, seen, i);
    if (sharp.support[i] >= kEdgeSeen && off > kSame && off < kOther) {
      const double of_seen = misfit_of_edge(seen, i, lit), of_parted = misfit_of_edge(by_colour.quad, i, lit);
      if (std::min(of_seen, of_parted) < kExplains) by_edge = of_seen <= of_parted;
    }
    const Quad& from = by_edge ? seen : by_colour.quad;
    lines[i] = {from[i], from[(i + 1) % 4]};
  }
  return quad_between(lines);
}

/// Where colours part best near an outline, sharpened as far as they allow.
Outline parted(Outline outline, const Ground& ground, double reach, bool may_be_pinked) {
  const Parting parting(outline.quad, ground.lit.rgb, ground.surface, reach);
  const Parted by_colour = parting.best();
  if (!convex(by_colour.quad)) return outline;
  outline.quad = by_colour.quad;
  const double clear = *std::min_element(by_colour.clear.begin(), by_colour.clear.end()) / kAllClear;
  outline.support = std::max(outline.support, std::clamp(clear, 0.0, kByColour));
  Sharpened sharp = sharpened(outline, ground.lit, kOther, may_be_pinked);
  if (sharp.outline.pitch == 0) sharp.outline.quad = seen_or_parted(sharp, by_colour, parting, ground.lit);
  return taken_over(outline, sharp.outline);
}

}  // namespace

Outline located(const Quad& rough, const Ground& ground, double reach, bool may_be_pinked) {
  Outline outline{rough, 0, 0};
  const double side = shortest_side(rough);
  for (const double share : {reach, reach / 2}) {
    const Outline next = refined(outline.quad, ground.rgb, ground.surface,
                                 std::max(4 * ground.full_from_small(), share * side), may_be_pinked);
    if (!convex(next.quad) || next.support < 0.2 || (outline.pinked && !next.pinked)) break;
    outline = next;
  }
  if (outline.pinked) return outline;  // half way up its teeth there is no edge to be found
  const Outline sharp = sharpened(outline, ground.lit, kUsually, may_be_pinked).outline;
  // Colours part teeth at their roots.
  if (outline.pitch > 0 || sharp.pitch > 0) return taken_over(outline, sharp);
  return parted(outline, ground, std::max(4.0, kMostParted * side), may_be_pinked);
}

}  // namespace farflung::photo
