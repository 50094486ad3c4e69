// Patches that are narrower than their own seam allowance.
#pragma once

#include <string>

#include "quilt/quilt.hpp"

namespace farflung::cloth {

/// "The seam allowance of 3/4 in is wider than the narrowest patch of Nine patch, 1/2 in: pressed to one side it
/// reaches across into the next seam."; "" where every patch, sash and border is as wide as the allowance or wider.
std::string narrow_said(const quilt::Quilt& quilt);

}  // namespace farflung::cloth
