// The blocks themselves from photographs of the wall. For the sources of this module only.
#pragma once

#include <string>
#include <vector>

#include "job/open_quilt.hpp"
#include "job/wall.hpp"
#include "wall/read.hpp"

namespace farflung::job {

/// The photographs of one wall, decoded.
struct Photographs {
  std::vector<wall::Section> sections;
  std::vector<double> full;  ///< by photograph: pixels of the file to one of the picture
};

/// "photographs": each file with its corners and how many printed corner cards said them; words where cards did.
std::string add_photographs(Report& report, const std::vector<std::string>& files, const Photographs& taken,
                            const std::vector<photo::Corners>& corners, const std::vector<int>& cards);

/// Whether the photograph may show more than the blocks, the quilt sewn to one top, and nothing said how it lies. Where
/// a part of a top ends in a photograph, or which corners were meant, is for her to say.
bool may_be_sewn(const Wall& asked, const setting::Plan& plan);

/// `answer` holds what went wrong so far.
Outcome learn_from_wall(const Wall& options, project::Document& document, Photographs taken,
                        const std::vector<photo::Picture>& cloth, Answer answer);

}  // namespace farflung::job
