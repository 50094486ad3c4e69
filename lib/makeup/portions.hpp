// How many slots each print fills. For the sources of this module only.
#pragma once

#include <vector>

#include "makeup/deal.hpp"

namespace farflung::makeup {

/// By print that is dealt, whether a slot asks for it.
using Asked = std::vector<bool>;

bool asks_for_value(const Asked& asked);

/// A light slot asks for the lighter half of the prints, a dark one for the darker half; where a pattern has more slots
/// of one value than half of the prints, for as many as it needs.
Asked asked_for(const quilt::Quilt& quilt, const Deck& deck, const std::vector<int>& prints);

/// How many slots each print fills, group by group of slots that are cut alike and ask for the same prints. Every print
/// gets as many as all others as far as its cloth goes; what it has cloth for is parted over the groups by their sizes.
class Portions {
 public:
  /// `most` by print, of `slots` in all.
  Portions(std::vector<int> most, int slots);

  /// By print, for the next `slots` slots, in whole cuts of `each`: only where cloth or slots end, a part of a cut.
  /// What is not asked for is given only where the cloth of what is asked for ends.
  std::vector<int> next(int slots, int each, const Asked& asked);

 private:
  int share_out(int slots, int each, const std::vector<int>& room, std::vector<int>& given) const;

  std::vector<int> most_;
  int slots_ = 0, begun_ = 0;
  std::vector<int> used_;
};

}  // namespace farflung::makeup
