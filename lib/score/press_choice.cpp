#include "score/press_choice.hpp"

#include <algorithm>

#include "score/two_ways.hpp"

namespace farflung::score {
namespace {

using Pressed = std::vector<std::optional<bool>>;

bool is_met(const PressWish& wish, const std::vector<bool>& other) {
  return (other[wish.a] != other[wish.b]) == wish.differ;
}

int unmet(const std::vector<PressWish>& wishes, const std::vector<bool>& other) {
  return static_cast<int>(
      std::count_if(wishes.begin(), wishes.end(), [&](const PressWish& wish) { return !is_met(wish, other); }));
}

struct Link {
  int to = 0;
  bool differ = false;
};

using Graph = std::vector<std::vector<Link>>;

Graph graph_of(const std::vector<PressWish>& wishes, std::size_t blocks) {
  Graph graph(blocks);
  for (const PressWish& wish : wishes) {
    graph[wish.a].push_back({wish.b, wish.differ});
    graph[wish.b].push_back({wish.a, wish.differ});
  }
  return graph;
}

/// All wishes met where they can be: from what is pressed outwards, then from any block left, pressed as drawn.
std::vector<bool> two_coloured(const std::vector<PressWish>& wishes, const Pressed& pressed) {
  const Graph graph = graph_of(wishes, pressed.size());
  std::vector<bool> other(pressed.size(), false);
  std::vector<bool> seen(pressed.size(), false);
  const auto spread_from = [&](std::vector<int> reached) {
    for (std::size_t k = 0; k < reached.size(); ++k) {
      for (const Link& link : graph[reached[k]]) {
        if (seen[link.to]) continue;
        seen[link.to] = true;
        other[link.to] = other[reached[k]] != link.differ;
        reached.push_back(link.to);
      }
    }
  };
  std::vector<int> roots;
  for (int b = 0; b < static_cast<int>(pressed.size()); ++b) {
    if (!pressed[b]) continue;
    other[b] = *pressed[b];
    seen[b] = true;
    roots.push_back(b);
  }
  spread_from(std::move(roots));
  for (int b = 0; b < static_cast<int>(pressed.size()); ++b) {
    if (seen[b]) continue;
    seen[b] = true;
    spread_from({b});
  }
  return other;
}

/// The wishes as costs, each `worth` where it is not met.
TwoWays costs_of(const std::vector<PressWish>& wishes, std::size_t blocks, std::int64_t worth) {
  TwoWays costs;
  costs.own.assign(blocks, {0, 0});
  for (const PressWish& wish : wishes) {
    if (wish.a != wish.b) costs.links.push_back({wish.a, wish.b, wish.differ ? worth : 0, wish.differ ? 0 : worth});
  }
  return costs;
}

/// What is pressed stays: its wishes become costs of the blocks beside it.
WaysChosen fewest_unmet(const std::vector<PressWish>& wishes, const Pressed& pressed) {
  TwoWays costs = costs_of({}, pressed.size(), 1);
  for (const PressWish& wish : wishes) {
    if (pressed[wish.a] && pressed[wish.b]) continue;
    if (!pressed[wish.a] && !pressed[wish.b]) {
      costs.links.push_back({wish.a, wish.b, wish.differ ? 1 : 0, wish.differ ? 0 : 1});
      continue;
    }
    const int open = pressed[wish.a] ? wish.b : wish.a;
    const bool wants_other = *pressed[pressed[wish.a] ? wish.a : wish.b] != wish.differ;
    costs.own[open][wants_other ? 0 : 1] += 1;
  }
  WaysChosen chosen = cheapest_ways(costs);
  for (std::size_t b = 0; b < pressed.size(); ++b) {
    if (pressed[b]) chosen.other[b] = *pressed[b];
  }
  return chosen;
}

WaysChosen chosen_for(const std::vector<PressWish>& wishes, const Pressed& pressed) {
  WaysChosen all_met{two_coloured(wishes, pressed), true};
  return unmet(wishes, all_met.other) == 0 ? all_met : fewest_unmet(wishes, pressed);
}

/// The shortest way from one end of a wish to the other through wishes that are met; empty where there is none.
std::vector<int> ring_of(const std::vector<PressWish>& wishes, const std::vector<bool>& other, const PressWish& wish) {
  std::vector<PressWish> met;
  std::copy_if(wishes.begin(), wishes.end(), std::back_inserter(met),
               [&](const PressWish& each) { return is_met(each, other); });
  const Graph graph = graph_of(met, other.size());
  std::vector<int> from(other.size(), -1);
  std::vector<int> reached{wish.a};
  from[wish.a] = wish.a;
  for (std::size_t k = 0; k < reached.size() && from[wish.b] < 0; ++k) {
    for (const Link& link : graph[reached[k]]) {
      if (from[link.to] >= 0) continue;
      from[link.to] = reached[k];
      reached.push_back(link.to);
    }
  }
  std::vector<int> ring;
  if (from[wish.b] < 0) return ring;
  for (int at = wish.b; at != wish.a; at = from[at]) ring.push_back(at);
  ring.push_back(wish.a);
  std::reverse(ring.begin(), ring.end());
  return ring;
}

/// How pressed blocks would best be pressed again: first that as many wishes are met as can be, then few blocks.
void find_press_again(const std::vector<PressWish>& wishes, const Pressed& pressed, PressChoice& choice) {
  choice.unmet_then = unmet(wishes, choice.other);
  if (choice.unmet_then == 0) return;
  TwoWays costs = costs_of(wishes, pressed.size(), static_cast<std::int64_t>(pressed.size()) + 1);
  for (std::size_t b = 0; b < pressed.size(); ++b) {
    if (pressed[b]) costs.own[b][*pressed[b] ? 0 : 1] = 1;
  }
  const WaysChosen then = cheapest_ways(costs);
  if (unmet(wishes, then.other) >= choice.unmet_then) return;
  choice.unmet_then = unmet(wishes, then.other);
  for (int b = 0; b < static_cast<int>(pressed.size()); ++b) {
    if (pressed[b] && then.other[b] != *pressed[b]) choice.press_again.push_back(b);
  }
}

}  // namespace

std::vector<bool> press_unpressed(const std::vector<PressWish>& wishes, const Pressed& pressed) {
  return chosen_for(wishes, pressed).other;
}

PressChoice choose_press(const std::vector<PressWish>& wishes, const Pressed& pressed) {
  PressChoice choice;
  WaysChosen chosen = chosen_for(wishes, pressed);
  choice.other = std::move(chosen.other);
  choice.exact = chosen.exact;
  for (const PressWish& wish : wishes) {
    if (wish.a == wish.b || is_met(wish, choice.other)) continue;
    std::vector<int> ring = ring_of(wishes, choice.other, wish);
    if (!ring.empty()) choice.odd_rings.push_back(std::move(ring));
  }
  find_press_again(wishes, pressed, choice);
  return choice;
}

}  // namespace farflung::score
