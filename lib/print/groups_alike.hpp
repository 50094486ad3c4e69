// Pairs of prints that are alike, gathered so that each is told once.
#pragma once

#include <vector>

#include "print/pairs_alike.hpp"

namespace farflung::print {

/// Prints of which each is a pair with every other: all of kind `same`, or of either kind.
struct Group {
  Pair::Kind kind = Pair::Kind::alike;
  std::vector<std::size_t> prints;  ///< by index, rising
};

/// Every pair stands in a group of its own kind, and no group names a pair that is none. Those that may be one fabric
/// come first, then by their nearest pair. n prints of which each is like every other are one group.
std::vector<Group> groups_of(const std::vector<Pair>& pairs);

}  // namespace farflung::print
