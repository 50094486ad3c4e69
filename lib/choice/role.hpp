// The parts that one print plays in the whole quilt, and the quilt with another print in such a part.
#pragma once

#include <string>

#include "quilt/quilt.hpp"

namespace farflung::choice {

using block::kNone;

/// background and accent are slots of the patterns (see slots_of); setting is setting triangles and half blocks.
struct Role {
  enum class Kind { background, accent, sashing, setting, border, binding, backing };

  Kind kind = Kind::border;
  int border = kNone;  ///< which border, from the inside; kNone: the outermost
};

/// "background", "accent", "sashing", "setting", "border", "binding", "backing"; none for any other word.
std::optional<Role> role_named(const std::string& word);
/// The word that role_named reads.
const char* role_name(Role::Kind kind);

/// A print that might play a part: one of the quilt's own, or another.
struct Candidate {
  print::Print print;
  int own = kNone;  ///< its index in the quilt's prints, kNone where it is not among them
};

/// Every print of the quilt, as candidates.
std::vector<Candidate> own_candidates(const quilt::Quilt& quilt);

/// The slots of a pattern that play the part: those of that name; failing that, for a background, those that may touch
/// and hold one print in every block.
std::vector<int> slots_of(const block::Pattern& pattern, Role::Kind kind);

/// The quilt with the candidate in that part and nothing else changed: what to draw. A print from outside is added at
/// the end of the quilt's prints, with a code of its own. Sashing, border, binding or backing that the quilt lacks is
/// added at its usual width (quilt::usual_widths). A part that the quilt cannot have is a problem: a background
/// where no pattern has one, setting pieces in a straight setting.
Result<quilt::Quilt> tried(const quilt::Quilt& quilt, Role role, const Candidate& candidate);

}  // namespace farflung::choice
