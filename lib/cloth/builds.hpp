// How boxes are put together from smaller ones, side by side or one above the other: every guillotine layout is one.
#pragma once

#include <vector>

#include "cloth/guillotine.hpp"

namespace farflung::cloth {

/// One box: a wanted piece, or two builds put together; a side that is short is left over. Sizes in steps of a ruler.
struct Build {
  enum class Kind { piece, beside, above } kind = Kind::piece;
  int a = 0, b = 0;  ///< piece: wanted and 0 or 1 for turned; else the two builds
  int width = 0, height = 0;
};

/// An arena of builds; indices stay good.
class Builds {
 public:
  /// Each adds a build and gives its index.
  int piece(const std::vector<Wanted>& wanted, int index, bool turned);
  int beside(int a, int b);
  int above(int a, int b);
  int joined(Build::Kind kind, int a, int b) { return kind == Build::Kind::beside ? beside(a, b) : above(a, b); }
  const Build& operator[](int index) const { return builds_[index]; }

  /// The cuts that make a build out of a sheet; what it holds beyond `wanted` counts as left over.
  Layout layout(int build, int width, int height, const std::vector<Wanted>& wanted) const;

 private:
  std::vector<Build> builds_;
};

/// Where there is no such build.
constexpr int kNoBuild = -1;

/// Strips right across the sheet, each filled as well as can be, in several orders and both directions: all found.
std::vector<Layout> strip_layouts(int width, int height, const std::vector<Wanted>& wanted, bool across_only = false);

/// Every way to put the wanted rectangles together, by how many of each: exact, for small sets.
class Fronts {
 public:
  Fronts(int width, int height, const std::vector<Wanted>& wanted, std::int64_t limit);

  bool complete() const { return complete_; }  ///< false: the limit was reached, nothing below is meaningful
  int states() const { return static_cast<int>(fronts_.size()); }
  /// Whether all of it can be cut from the sheet.
  bool fits(int state) const { return !fronts_[state].empty(); }
  /// How many of each wanted rectangle a state holds; `state` is the other way, capped at what can matter.
  std::vector<int> counts(int state) const;
  int state(const std::vector<int>& counts) const;
  /// Of all that the state holds, by Wanted::worth.
  std::int64_t value(int state) const;
  int full() const { return states() - 1; }  ///< everything that can matter

  /// The build of a state that leaves the largest rectangle of the sheet, and the one of least height.
  int roomiest(int state) const;
  int shortest(int state) const;
  const Builds& builds() const { return builds_; }

 private:
  struct Box {
    int width = 0, height = 0, build = kNoBuild;
  };
  void join(int state, std::int64_t& left);

  int width_, height_;
  std::vector<Wanted> wanted_;
  std::vector<int> most_, stride_;
  bool complete_ = false;
  Builds builds_;
  std::vector<std::vector<Box>> fronts_;  ///< by state; ascending width, descending height
};

/// The best of partial layouts kept at every size that sums of sides can reach; near the best, seldom proven.
Layout grid_layout(int width, int height, const std::vector<Wanted>& wanted, std::int64_t limit);

}  // namespace farflung::cloth
