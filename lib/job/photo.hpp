// Photographs in, prints out.
#pragma once

#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

/// `folder` holds the quilt that the prints come into; `files` are photographs anywhere.
struct TakePhotographs {
  std::string folder;
  std::vector<std::string> files;
  std::vector<std::string> names;  ///< for the prints, in reading order; the rest are named by their files
  std::string across;              ///< what each swatch measures from left to right on the cloth, where the user knows
  std::vector<std::string> corners;  ///< told by hand for the one photograph: "x,y,x,y,x,y,x,y" each
  bool whole = false;                ///< the cloth fills the frame of every photograph
  std::string white;                 ///< "x,y" of something white in the one photograph
  std::string colour;                ///< no photograph: a print of this colour, "#3a6ea5" or "52, -14, 8"
  /// Nothing is written.
  bool dry_run = false;
};

/// Copies each photograph into photos/, writes its swatches to swatches/, adds a print for each to the quilt and writes
/// an overview with outlines and codes beside the photographs. A photograph that gives nothing is a problem in the
/// answer; the others still come in. Where none gives anything, nothing is changed.
Outcome take_photographs(const TakePhotographs& asked, const Watch& watch);

}  // namespace farflung::job
