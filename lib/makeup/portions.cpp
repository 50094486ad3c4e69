#include "makeup/portions.hpp"

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <utility>

namespace farflung::makeup {

bool asks_for_value(const Asked& asked) { return std::find(asked.begin(), asked.end(), false) != asked.end(); }

Asked asked_for(const quilt::Quilt& quilt, const Deck& deck, const std::vector<int>& prints) {
  using Value = block::Slot::Value;
  const std::vector<block::Slot>& slots = quilt.patterns[deck.pattern].slots;
  const Value value = slots[deck.slot].value;
  if (value == Value::any) return Asked(prints.size(), true);
  const auto dealt = [&](Value of) {
    return std::count_if(slots.begin(), slots.end(),
                         [&](const block::Slot& slot) { return slot.value == of && slot.print == kNone; });
  };
  std::vector<std::size_t> order(prints.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto lightness = [&](std::size_t p) { return quilt.prints[prints[p]].features.lab.L; };
  std::sort(order.begin(), order.end(), [&](std::size_t p, std::size_t q) {
    return std::pair(-lightness(p), prints[p]) < std::pair(-lightness(q), prints[q]);
  });
  const auto all = static_cast<std::ptrdiff_t>(prints.size());
  const std::ptrdiff_t most = std::max(dealt(Value::light), all - dealt(Value::dark));
  const std::ptrdiff_t lights = std::clamp((all + 1) / 2, dealt(Value::light), most);
  Asked asked(prints.size(), false);
  for (std::ptrdiff_t rank = 0; rank < all; ++rank) asked[order[rank]] = (rank < lights) == (value == Value::light);
  return asked;
}

Portions::Portions(std::vector<int> most, int slots) : most_(std::move(most)), slots_(slots), used_(most_.size(), 0) {}

std::vector<int> Portions::next(int slots, int each, const Asked& asked) {
  begun_ += slots;
  std::vector<int> room;
  for (std::size_t p = 0; p < most_.size(); ++p) {
    const auto by_now = (static_cast<std::int64_t>(most_[p]) * begun_ + slots_ - 1) / slots_;
    const int share = std::max(0, static_cast<int>(by_now) - used_[p]);
    room.push_back(asked[p] ? std::min(most_[p] - used_[p], (share + each - 1) / each * each) : 0);
  }
  std::vector<int> given(most_.size(), 0);
  int left = share_out(slots, each, room, given);
  for (const bool whatever : {false, true}) {
    if (left == 0) break;
    for (std::size_t p = 0; p < most_.size(); ++p) room[p] = asked[p] || whatever ? most_[p] - used_[p] : 0;
    left = share_out(left, each, room, given);
  }
  for (std::size_t p = 0; p < most_.size(); ++p) used_[p] += given[p];
  return given;
}

/// Cut by cut to the print that has least, here first and then in all. What is left where all room is taken.
int Portions::share_out(int slots, int each, const std::vector<int>& room, std::vector<int>& given) const {
  while (slots > 0) {
    int next = kNone;
    for (int p = 0; p < static_cast<int>(room.size()); ++p) {
      if (given[p] >= room[p]) continue;
      const auto has = [&](int print) { return std::pair(given[print], used_[print]); };
      if (next == kNone || has(p) < has(next)) next = p;
    }
    if (next == kNone) break;
    const int cut = std::min({each, slots, room[next] - given[next]});
    given[next] += cut;
    slots -= cut;
  }
  return slots;
}

}  // namespace farflung::makeup
