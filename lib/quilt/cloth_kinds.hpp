// The kinds of cloth that shops sell, and what a plan may count on of each.
#pragma once

#include <string>
#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::quilt {

/// Cloth as the trade sells it: the size on the label, and what a plan may count on.
struct ClothKind {
  const char* name;
  const char* many;                    ///< what several are called
  Length width, length;                ///< on the label; length along the selvage
  Length usable_width, usable_length;  ///< selvages off, ends straightened; the length of yardage is what was bought
};

/// Fat quarter, fat eighth, long fat eighth, charm square, 10 in square, 2 1/2 in strip, yardage; as shops that measure
/// so sell them. By the metre a fat quarter is half a metre of a bolt 110 cm wide, parted along the selvage: 55 x 50
/// cm. Usable is what cloth::usual_yardage counts on: half the usable width, and the length less one straightened end.
const std::vector<ClothKind>& cloth_kinds(Units units);
/// By the name as cloth_kinds has it, of one or of many, as people type it: "Fat Quarters".
const ClothKind* kind_named(const std::string& name, Units units);  ///< null for scraps and anything else

}  // namespace farflung::quilt
