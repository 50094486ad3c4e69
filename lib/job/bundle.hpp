// Prints that are not in the quilt: photographs of a shop's shelf, another quilt's bundle. For the sources of this
// module only.
#pragma once

#include <string>
#include <vector>

#include "choice/role.hpp"
#include "draw/picture.hpp"
#include "job/open_quilt.hpp"

namespace farflung::job {

/// Where one print of a bundle comes from.
struct Origin {
  std::string photograph;  ///< the photograph's file; empty where there is none
  std::string swatch;      ///< PNG bytes at full size; empty where there is none
};

/// Candidates with the pictures that go with them, all three of one length.
struct Bundle {
  std::vector<choice::Candidate> list;
  draw::Swatches swatches;
  std::vector<Origin> origins;

  /// The candidates' prints, in the same order.
  std::vector<print::Print> prints() const;
};

/// The prints of the quilt itself; `left_over`: only those that lie nowhere in it.
Bundle own_bundle(const quilt::Quilt& quilt, const std::string& folder, bool left_over, Problems& warnings);

/// Every print of `paths`: photographs, folders of photographs, other quilts' folders. A print from a photograph has
/// neither id nor code; one from a quilt keeps its own. What cannot be read is one of the answer's problems, a
/// lost swatch one of its warnings; the rest counts.
Bundle bundle_from(const std::vector<std::string>& paths, Answer& answer);

/// "Kelp (K)", "Kelp" where it has no code.
std::string name_with_code(const print::Print& print);

}  // namespace farflung::job
