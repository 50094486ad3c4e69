// Prints called by their names in what is typed for the file. For the sources of this module only.
#pragma once

#include <string>

#include "quilt/quilt.hpp"

namespace farflung::job {

/// `value` as `pointer` takes it, the names and codes of prints in it turned to their ids: Kelp for /binding/print, or
/// {"print": "Kelp"} for /binding. What is an id already, and what names no print, stays as it was typed.
std::string with_print_ids(const quilt::Quilt& quilt, const std::string& pointer, const std::string& value);

}  // namespace farflung::job
