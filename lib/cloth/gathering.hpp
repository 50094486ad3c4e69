// The pieces of a quilt as they are met, gathered into lines that are cut alike.
#pragma once

#include <string>
#include <vector>

#include "cloth/pieces.hpp"

namespace farflung::cloth {

/// Patches of one part that are cut alike.
struct Part {
  int print = kNone;
  /// The slot's name, or what of the frame: as CutLine::part.
  std::string part;
  int pattern = kNone;
  CutShape shape;
  /// May lie either way on the cloth; false for the pieces of a print that must stand upright.
  bool turnable = true;
  /// Patches.
  int count = 0;
  std::string note;
};

/// Half-square or quarter-square; a template of three corners is none.
bool is_triangle(const CutShape& shape);

/// Long side first: what may lie either way is listed once.
CutShape laid_long(CutShape shape, Length seam);

/// Parts gathered in the order in which they are met, then turned into lines that share their squares.
class Gathering {
 public:
  explicit Gathering(Length seam) : seam_(seam) {}

  /// `count` more of a part; parts that are cut alike and have the same note become one.
  void add(Part part, int count = 1);
  std::vector<CutLine> lines() const;

 private:
  Length seam_;
  std::vector<Part> parts_;
};

}  // namespace farflung::cloth
