// What people read of a quilt's print, dealt or not.
#pragma once

#include <string>

#include "quilt/quilt.hpp"

namespace farflung::quilt {

/// "Kelp", or the id of a print without a name; "not dealt yet" where it is kNone.
inline std::string print_name(const Quilt& quilt, int print) {
  return print == kNone ? "not dealt yet" : print::name_of(quilt.prints[print]);
}

}  // namespace farflung::quilt
