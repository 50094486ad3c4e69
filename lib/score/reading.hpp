// How a block reads from across the room: its share of each print, its colour and weight among the others.
#pragma once

#include <array>
#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::score {

using quilt::kNone;

/// (1.5 L*, a*, b*, 20 busyness): value does the work, and loud prints should not gather either.
using Reading = std::array<double, 4>;

/// The scalar product and the difference of two readings, component by component.
inline double dot(const Reading& a, const Reading& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2] + a[3] * b[3]; }
inline Reading minus(const Reading& a, const Reading& b) {
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2], a[3] - b[3]};
}

/// By its mean colour and its busyness, measured or told.
Reading reading_of(const print::Print& print);

/// A print and the share of a block's area that it fills: w(p, b).
struct Share {
  int print = 0;
  double share = 0;
};

/// What makes a block's slots count: by slot of its pattern.
struct SlotFacts {
  std::vector<double> area;     ///< share of the block, 0..1
  std::vector<bool> may_touch;  ///< left out of w
};

/// Areas of slots without patches are 0.
SlotFacts slot_facts(const block::Pattern& pattern);

/// The prints of a block by slot; kNone where one is not dealt yet.
std::vector<int> prints_of(const quilt::Quilt& quilt, const block::Block& block);

/// Each print at most once, in the order of the slots; slots that may touch are left out.
std::vector<Share> shares_of(const SlotFacts& facts, const std::vector<int>& prints);

/// The area-weighted mean of the prints' readings over the slots that hold a print; zero where none does.
Reading mean_reading(const SlotFacts& facts, const std::vector<int>& prints, const std::vector<Reading>& readings);

}  // namespace farflung::score
