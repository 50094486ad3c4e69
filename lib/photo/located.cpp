#include "photo/located.hpp"

#include <algorithm>

#include "photo/parting.hpp"

namespace farflung::photo {
namespace {

constexpr double kAllClear = 2.0;  ///< mean log likelihood ratio along a side about which there is no doubt
constexpr double kByColour = 0.5;  ///< support at most where colours alone part: those of a motif and its ground do too
constexpr double kMostParted = 0.02;  ///< of a side, that colours move it: a pale stripe at a rim is cloth as well

/// `outline` moved to where `sharp` has it, if that is an outline at all.
Outline taken_over(Outline outline, const Outline& sharp) {
  if (!convex(sharp.quad)) return outline;
  outline.quad = sharp.quad;
  outline.depth = sharp.depth;
  outline.toothed |= sharp.toothed;
  outline.support = std::max(outline.support, sharp.support);
  return outline;
}

/// Where colours part best near an outline, sharpened as far as they allow.
Outline parted(Outline outline, const Ground& ground, double reach) {
  const Parting parting(outline.quad, ground.lit.rgb, ground.surface, reach);
  const Parted by_colour = parting.best();
  if (!convex(by_colour.quad)) return outline;
  outline.quad = by_colour.quad;
  const double clear = *std::min_element(by_colour.clear.begin(), by_colour.clear.end()) / kAllClear;
  outline.support = std::max(outline.support, std::clamp(clear, 0.0, kByColour));
  Outline sharp = sharpened(outline, ground.lit);
  if (!sharp.toothed) sharp.quad = parting.preferring(sharp.quad, by_colour);
  return taken_over(outline, sharp);
}

}  // namespace

Outline located(const Quad& rough, const Ground& ground, double reach) {
  Outline outline{rough, 0, 0};
  const double side = shortest_side(rough);
  for (const double share : {reach, reach / 2}) {
    const Outline next =
        refined(outline.quad, ground.rgb, ground.surface, std::max(4 * ground.full_from_small(), share * side));
    if (!convex(next.quad) || next.support < 0.2) break;
    outline = next;
  }
  const Outline sharp = sharpened(outline, ground.lit);
  // Colours part teeth at their roots.
  if (outline.toothed || sharp.toothed) return taken_over(outline, sharp);
  return parted(outline, ground, std::max(4.0, kMostParted * side));
}

}  // namespace farflung::photo
