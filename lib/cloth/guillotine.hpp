// Rectangles out of a rectangle by cuts from edge to edge, which is all that a rotary cutter can do. Whole steps of a
// ruler throughout: the unit does not matter here.
#pragma once

#include <cstdint>
#include <numeric>
#include <vector>

namespace farflung::cloth {

/// Of all counts together; 0 of none.
inline int total(const std::vector<int>& counts) { return std::accumulate(counts.begin(), counts.end(), 0); }

/// x runs right, y down, from the sheet's top left corner.
struct Rect {
  int x = 0, y = 0, width = 0, height = 0;
  std::int64_t area() const { return static_cast<std::int64_t>(width) * height; }
  friend bool operator==(const Rect&, const Rect&) = default;
};

/// A rectangle that is wanted `count` times.
struct Wanted {
  int width = 0, height = 0;
  int count = 0;
  bool turnable = true;    ///< may lie on its side
  std::int64_t value = 0;  ///< what one is worth; 0: its area
  std::int64_t worth() const { return value > 0 ? value : static_cast<std::int64_t>(width) * height; }
};

/// One cut: the piece `of` falls into two along a line at `at`, measured in the sheet's own coordinates.
struct Cut {
  Rect of;
  bool upright = false;  ///< the line runs up and down, at x = at; else across, at y = at
  int at = 0;
  friend bool operator==(const Cut&, const Cut&) = default;
};

/// Where one wanted rectangle lies.
struct Placed {
  Rect rect;
  int wanted = 0;  ///< index into the list
  /// On its side: width and height of what is wanted exchanged.
  bool turned = false;
};

/// A sheet cut up. Guarantees: made one after the other, each cut goes right through a piece that lies there, and in
/// the end the pieces that lie there are exactly `placed` and `left`. Parallel cuts that make strips come together.
struct Layout {
  std::vector<Placed> placed;
  std::vector<Cut> cuts;
  std::vector<Rect> left;
  std::int64_t value = 0;
  bool best = false;  ///< proven: nothing worth more can be cut from the sheet

  /// By wanted, how many of each are placed; `wanted` is how many kinds there are.
  std::vector<int> counts(std::size_t wanted) const;
};

/// How hard to look.
struct Effort {
  std::int64_t exact = 20'000'000;  ///< pairs of boxes that the exhaustive search may join
  std::int64_t grid = 60'000'000;   ///< pairs of partial layouts that the grid search may join
  /// Look at plain strips alone: fast, seldom the best.
  bool strips_only = false;
};

/// The layout of greatest value found. Where everything wanted fits, the one that leaves the largest single rectangle
/// among plain strips is preferred. Deterministic.
Layout best_layout(int width, int height, const std::vector<Wanted>& all, const Effort& effort = {});

/// Everything wanted, from a sheet of this width and the least length found; the length is the lowest edge of the last
/// piece. Pieces wider than the sheet are left out: compare counts.
Layout least_length(int width, const std::vector<Wanted>& all, const Effort& effort = {});

/// The same on any number of sheets alike, as few as were found; `proven` where it is the least there is.
struct Sheets {
  std::vector<Layout> layouts;
  std::vector<int> missing;  ///< by wanted: what fits on none, or beyond `most` sheets
  bool proven = false;
};
/// At most `most` sheets. Where they do not hold all, `proven` says that no plan would; with one, that none holds more.
Sheets fewest_sheets(int width, int height, const std::vector<Wanted>& wanted, int most, const Effort& effort = {});

/// Cut by cut: whether the layout keeps its guarantees on such a sheet and gives no more than is wanted.
bool replays(int width, int height, const std::vector<Wanted>& wanted, const Layout& layout);

}  // namespace farflung::cloth
