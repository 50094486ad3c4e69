#include "arrange/print_exchange.hpp"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "arrange/descent.hpp"

namespace farflung::arrange {
namespace {

/// Places of two prints that exchange what they hold: as many of the one as of the other.
struct Group {
  std::vector<int> first, second;
};

class Exchanges {
 public:
  Exchanges(score::Pricer& pricer, Moves& moves, const Freedom& freedom)
      : pricer_(pricer), moves_(moves), freedom_(freedom), seen_(pricer.model().places, 0) {}

  /// By print: its places; none where blocks hold several prints.
  std::optional<std::vector<std::vector<int>>> places_of_prints() const {
    std::vector<std::vector<int>> places(pricer_.model().prints);
    for (int i = 0; i < pricer_.model().places; ++i) {
      const auto prints = moves_.copies_in(pricer_.held()[i].block);
      if (prints.size() > 1) return std::nullopt;
      for (const int print : prints) places[print].push_back(i);
    }
    return places;
  }

  bool between(const std::vector<int>& first, const std::vector<int>& second) {
    std::vector<Group> groups;
    if (first.size() == second.size()) groups.push_back({first, second});
    for (const int place : first) seen_[place] = 1;
    for (const int place : second) seen_[place] = 2;
    for (const int place : first) {
      Group group = hanging_together(place);
      const std::size_t count = group.first.size();
      if (count > 0 && count < first.size() && count == group.second.size()) groups.push_back(group);
    }
    for (const int place : second) seen_[place] = 0;
    for (const Group& group : groups) {
      if (exchanged(group)) return true;
    }
    return false;
  }

 private:
  Group hanging_together(int from) {
    Group group;
    if (seen_[from] != 1) return group;
    std::vector<int> open{from};
    seen_[from] = 0;
    group.first.push_back(from);
    for (; !open.empty();) {
      const int place = open.back();
      open.pop_back();
      for (const int other : moves_.copies()->near_to(place)) {
        if (seen_[other] == 0) continue;
        (seen_[other] == 1 ? group.first : group.second).push_back(other);
        seen_[other] = 0;
        open.push_back(other);
      }
    }
    return group;
  }

  /// Makes the exchange where its blocks may move and that betters the layout.
  bool exchanged(const Group& group) {
    std::vector<score::Swap> back;
    score::Price sum;
    for (std::size_t k = 0; k < group.first.size(); ++k) {
      const int a = group.first[k];
      const int b = group.second[k];
      const Held in_a = pricer_.held()[a];
      const Held in_b = pricer_.held()[b];
      if (freedom_.pool_of_place[a] == kNone || freedom_.pool_of_place[a] != freedom_.pool_of_place[b]) break;
      const score::Swap swap{a, b, in_b.form, in_a.form};
      const score::Price price = pricer_.delta(swap);
      sum.touch = sum.touch + price.touch;
      sum.F += price.F;
      moves_.swap(swap);
      back.push_back({a, b, in_a.form, in_b.form});
    }
    if (back.size() == group.first.size() && betters(sum)) return true;
    for (; !back.empty(); back.pop_back()) moves_.swap(back.back());
    return false;
  }

  score::Pricer& pricer_;
  Moves& moves_;
  const Freedom& freedom_;
  std::vector<char> seen_;  ///< by place: 1 and 2 for the two prints, 0 for what was met
};

}  // namespace

bool exchange_prints(score::Pricer& pricer, Moves& moves, const Freedom& freedom, const std::function<bool()>& go_on) {
  if (moves.copies() == nullptr) return false;
  Exchanges exchanges(pricer, moves, freedom);
  bool made = false;
  for (int p = 0; p < pricer.model().prints; ++p) {
    for (int q = 0; q < p; ++q) {
      const auto places = exchanges.places_of_prints();
      if (!places || !go_on()) return made;
      made |= exchanges.between((*places)[p], (*places)[q]);
    }
  }
  return made;
}

}  // namespace farflung::arrange
