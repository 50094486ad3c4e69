// Which print to use for the border, the background, the binding ...: every candidate ranked, with its reasons.
#pragma once

#include <string>
#include <vector>

#include "choice/role.hpp"

namespace farflung::choice {

/// How well a candidate does in its part; each 0 .. 1, 1 best.
struct Fit {
  double step = 0;   ///< value step along the seams (backing: how little of it shadows through the top)
  double hue = 0;    ///< its hue is in the quilt already (accent: is rare there); greys 0.6 always
  double quiet = 0;  ///< 1 - busyness (backing: busyness, which hides the stitches)
  double apart = 0;  ///< the share of its seams along which it differs from what it meets by CIEDE2000 10 or more
};

/// What a candidate comes to in its part: differences along seams, weighed by their length.
struct RankedCandidate {
  int candidate = 0;  ///< index into the list of candidates
  double score = 0;   ///< 0 .. 1: the weighted mean of the fit
  Fit fit;
  double value_step = 0;  ///< mean of |dL*| along the seams, by length; backing: over the top, by area
  double lighter = 0;     ///< mean of dL* likewise; above 0 where the candidate is the lighter
  double hue_share = 0;   ///< the share of the top within 30 degrees of its hue; 0 for greys
  int nearest = kNone;    ///< the print it meets that it is least told apart from (index into the quilt's prints)
  /// CIEDE2000 to that print.
  double nearest_delta_e = 0;
  std::vector<std::string> why;
};

/// All candidates for one part, and what each of them would meet there.
struct RoleReport {
  Role role;
  std::vector<RankedCandidate> ranked;  ///< best first; equals in the order given
  std::vector<double> meets;            ///< inches of seam, by print of the quilt; backing: shares of the top
  std::string rule;                     ///< what the part asks for, in words
};

/// Ranks candidates by how they meet what they would touch. Empty cells count for nothing; where nothing is touched yet
/// (no blocks laid), every print of the quilt counts alike.
///
/// The step scores 0 at no difference in L*, rising evenly to 1 at `wanted`; where a part can shout (border, sashing,
/// setting) it falls from 1 at `loud` to 0.4 at 25 L* more:
///
///   part        wanted  loud   weights: step  hue  quiet  apart
///   background    25      -             .45   .10   .30    .15
///   accent        15      -             .35   .20   .10    .35
///   sashing       12     45             .40   .20   .25    .15
///   setting       12     45             .40   .20   .25    .15
///   border        12     35             .40   .30   .15    .15
///   binding        8      -             .30   .50   .05    .15
///   backing        -      -             .40   .40   .20     -    step: 1 - share of the top over 30 L* lighter than it
Result<RoleReport> rank_candidates(const quilt::Quilt& quilt, Role role, const std::vector<Candidate>& candidates);

}  // namespace farflung::choice
