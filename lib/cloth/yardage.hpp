// What to buy: binding, backing, batting, hanging sleeve and strips, each with the working shown.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cloth/pieces.hpp"

namespace farflung::cloth {

/// One thing to buy. Never understated; rounded up to 1/8 yd or 10 cm.
struct Purchase {
  std::string what;  ///< "binding", "backing", "batting", "sleeve", "border 1", or a print's name
  int print = kNone;
  Length exact;          ///< length of cloth at the usable width, allowances included
  Length buy;            ///< rounded up
  double amount = 0;     ///< of `buy`, in `unit`
  std::string unit;      ///< "yd" or "m"
  std::string says;      ///< the working, sentence by sentence
  bool in_hand = false;  ///< the cloth in hand covers it
};

/// What cloth is sold by: 1/8 yd or 10 cm, and how many of these hold a length.
Length purchase_step(bool metric);
int steps_of_purchase(Length exact, bool metric);

/// A length of cloth as it is bought: shrinkage and squaring added, rounded up to 1/8 yd, or to 10 cm where metric.
Purchase purchase(const std::string& what, int print, Length exact, const YardageOptions& options, bool metric,
                  const std::string& working);

/// Strips across the cloth for a binding around a top of this size, joined on the diagonal: each join takes the strip's
/// own width.
struct BindingPlan {
  Length perimeter, total;  ///< total: perimeter + extra
  Length strip_width;
  int strips = 0;  ///< across the cloth, each usable_width long; none where bias
  Length square;   ///< bias: the side of each square
  int squares = 0;
  Length cloth;  ///< length taken from cloth of the usable width
  std::string says;
};
/// width x height of the top, finished; strip_width as cut, rounded up to a mark.
BindingPlan binding_plan(Length width, Length height, Length strip_width, bool bias, const YardageOptions& options,
                         Ruler ruler);

/// One way to make a backing.
struct BackingWay {
  bool across = false;  ///< the seams run across the quilt (parallel to its top edge), else up and down
  int panels = 1;
  Length panel_width;   ///< across the cloth, seam allowances included
  Length panel_length;  ///< along the selvage
  Length cloth;         ///< panels x panel_length
  std::string says;
};

/// Both ways to make the backing, and the one that is taken.
struct BackingPlan {
  Length width, height;  ///< of the finished backing
  BackingWay up_and_down, across;
  BackingWay chosen;
  std::string why;  ///< why that one
};

/// Seams across run parallel to the rollers of a long-arm frame when the quilt is loaded by its top edge.
BackingPlan backing_plan(Length top_width, Length top_height, Length over, const YardageOptions& options, Ruler ruler);

/// A size in which batting is packed.
struct BattingSize {
  const char* name;
  Length width, length;
};
/// As commonly packed in North America, smallest first; makers differ by an inch or two.
const std::vector<BattingSize>& batting_sizes();

/// The filling between top and backing.
struct BattingPlan {
  Length width, height;                 ///< needed
  std::optional<BattingSize> packaged;  ///< the smallest that holds it, either way round; none where none does
  Length by_length;                     ///< or so much of batting by the yard, joined where it is too narrow
  std::string says;
};
/// backing_over: how far the backing reaches beyond the top on each side; the batting lies between the
/// two in size.
BattingPlan batting_plan(Length top_width, Length top_height, Length backing_over, const YardageOptions& options,
                         Ruler ruler);

}  // namespace farflung::cloth
