// What one print is asked for, and how it is laid on the cloth in hand: the plan's work in a ruler's steps.
#pragma once

#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "cloth/plan.hpp"

namespace farflung::cloth {

/// The pieces of one print, on a ruler's steps, once the length of a joined strip is settled.
struct Demand {
  /// As they are shown, in lengths; `wanted` is the same list in steps of the ruler.
  std::vector<WantedPiece> pieces;
  std::vector<Wanted> wanted;
};

/// Gathers what one print is asked for: rectangles alike come together, whatever they are for. The list must outlive
/// it.
class DemandMaker {
 public:
  explicit DemandMaker(const CutList& list) : list_(list) {}

  /// The rectangles of one line of the list, by its index.
  void add_line(int index);
  /// The strips of a run that are cut from cloth so wide.
  void add_run(const Run& run, Length strip);
  /// The demand, its pieces lettered in the order in which they came. The last call.
  Demand take();

 private:
  void add_strips(const Run& run, Length length, int count);
  void add(WantedPiece piece, const std::string& name);

  const CutList& list_;
  Demand demand_;
  std::vector<std::set<std::string>> names_;  ///< by piece, what it is for
};

/// A piece of cloth in hand, on the ruler's steps.
struct Sheet {
  int cloth = 0;  ///< index into the print's cloths
  int width = 0, height = 0;
};

/// How long the strips of each run are cut, by its index in the list.
using StripLengths = std::map<int, Length>;

/// A demand laid on sheets: which layout on which sheet, and what found no room.
struct Attempt {
  Demand demand;
  StripLengths strips;  ///< as the demand has them
  std::vector<std::pair<Sheet, Layout>> sheets;
  /// By wanted.
  std::vector<int> missing;
  /// Everything found room, or it is certain that it cannot.
  bool proven = false;
  /// In steps of the ruler, squared.
  std::int64_t missing_area() const {
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < missing.size(); ++i) {
      sum += static_cast<std::int64_t>(missing[i]) * demand.wanted[i].width * demand.wanted[i].height;
    }
    return sum;
  }
};

/// The print's cloths one by one, `more_of_first` beyond those recorded.
std::vector<Sheet> sheets_of(const print::Print& print, Ruler ruler, int more_of_first = 0);

/// The demand on these sheets: as few as can be where all are alike, else one after another, smallest or largest first.
Attempt best_attempt(const Demand& demand, std::vector<Sheet> sheets, const Effort& effort);

}  // namespace farflung::cloth
