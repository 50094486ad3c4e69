// The pieces of a quilt as they are met, gathered into lines that are cut alike.
#pragma once

#include <string>
#include <vector>

#include "cloth/pieces.hpp"

namespace farflung::cloth {

/// Patches of one part that are cut alike.
struct Part {
  int print = kNone;
  std::string part;
  int pattern = kNone;
  CutShape shape;
  bool turnable = true;
  int count = 0;
  std::string note;
};

bool is_triangle(const CutShape& shape);

/// Long side first: what may lie either way is listed once.
CutShape laid_long(CutShape shape, Length seam);

/// Parts gathered in the order in which they are met, then turned into lines that share their squares.
class Gathering {
 public:
  explicit Gathering(Length seam) : seam_(seam) {}

  void add(Part part, int count = 1);
  std::vector<CutLine> lines() const;

 private:
  Length seam_;
  std::vector<Part> parts_;
};

}  // namespace farflung::cloth
