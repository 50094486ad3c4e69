// The same quilt in other prints.
#pragma once

#include <string>
#include <vector>

#include "choice/role.hpp"

namespace farflung::choice {

/// The quilt with one print replaced wherever it lies, the layout as it was. A print of the quilt's own takes over the
/// other's places (patches of it may then touch); one from outside comes in its stead, with a code of its own, and
/// with the replaced print's id where its own is empty or taken.
quilt::Quilt replaced(const quilt::Quilt& quilt, int print, const Candidate& by);

/// Which print of the second bundle takes a print's place.
struct ValueMatch {
  int print = 0;          ///< of the quilt
  int with = 0;           ///< of the second bundle
  double difference = 0;  ///< L* of the new less L* of the old
  std::string says;       ///< "Buoy (L* 45) for Kelp (L* 48)"
};

/// The quilt recoloured by matching values: what was light stays light, so that the layout still reads.
struct Colourway {
  quilt::Quilt quilt;               ///< in the second bundle's prints
  std::vector<ValueMatch> matches;  ///< every print in use, from the lightest to the darkest
  double mean_difference = 0;       ///< of |L* difference|
  std::vector<int> left_over;       ///< of the second bundle
};

/// Every print in use (in blocks, frame, binding or backing) gives its place to one of the second bundle, no two to the
/// same, so that the sum of squared differences in L* is the least there is; of equals that with the least squared
/// difference in busyness. A bundle of fewer prints than are in use is a problem.
Result<Colourway> matched_by_value(const quilt::Quilt& quilt, const std::vector<print::Print>& bundle);

/// The prints in use, ascending.
std::vector<int> prints_in_use(const quilt::Quilt& quilt);

}  // namespace farflung::choice
