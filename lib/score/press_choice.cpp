#include "score/press_choice.hpp"

#include <algorithm>
#include <deque>

namespace farflung::score {
namespace {

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

int unmet(const std::vector<PressWish>& wishes, const std::vector<bool>& other) {
  return static_cast<int>(std::count_if(wishes.begin(), wishes.end(), [&](const PressWish& wish) {
    return (other[wish.a] != other[wish.b]) != wish.differ;
  }));
}

/// Blocks reached from each other through wishes, coloured from the first one on.
struct Colouring {
  std::vector<bool> other;
  std::vector<int> parent;  ///< by block, -1 at a root
  std::vector<std::vector<int>> components;
};

/// Breadth first from every fixed block, then from what is left; fixed blocks keep their way.
Colouring coloured(const Graph& graph, const std::vector<std::optional<bool>>& fixed) {
  const int blocks = static_cast<int>(graph.size());
  Colouring colouring{std::vector<bool>(blocks, false), std::vector<int>(blocks, -1), {}};
  std::vector<bool> seen(blocks, false);
  const auto spread_from = [&](std::deque<int> queue) {
    std::vector<int> component(queue.begin(), queue.end());
    while (!queue.empty()) {
      const int at = queue.front();
      queue.pop_front();
      for (const Link& link : graph[at]) {
        if (seen[link.to]) continue;
        seen[link.to] = true;
        colouring.other[link.to] = colouring.other[at] != link.differ;
        colouring.parent[link.to] = at;
        queue.push_back(link.to);
        component.push_back(link.to);
      }
    }
    if (!component.empty()) colouring.components.push_back(std::move(component));
  };
  std::deque<int> roots;
  for (int b = 0; b < blocks; ++b) {
    if (!fixed[b]) continue;
    colouring.other[b] = *fixed[b];
    seen[b] = true;
    roots.push_back(b);
  }
  spread_from(roots);
  for (int b = 0; b < blocks; ++b) {
    if (seen[b]) continue;
    seen[b] = true;
    spread_from({b});
  }
  return colouring;
}

/// Changes single blocks that are free to while that meets more wishes.
void improve(const Graph& graph, const std::vector<std::optional<bool>>& fixed, std::vector<bool>& other) {
  for (bool changed = true; changed;) {
    changed = false;
    for (int b = 0; b < static_cast<int>(graph.size()); ++b) {
      if (fixed[b]) continue;
      int balance = 0;
      for (const Link& link : graph[b]) balance += (other[b] != other[link.to]) == link.differ ? 1 : -1;
      if (balance >= 0) continue;
      other[b] = !other[b];
      changed = true;
    }
  }
}

/// The ring that a wish closes in the tree of the colouring; empty where its ends hang on different roots.
std::vector<int> ring_of(const Colouring& colouring, const PressWish& wish) {
  const auto path = [&](int block) {
    std::vector<int> up{block};
    while (colouring.parent[up.back()] >= 0) up.push_back(colouring.parent[up.back()]);
    return up;
  };
  std::vector<int> a = path(wish.a);
  std::vector<int> b = path(wish.b);
  if (a.back() != b.back()) return {};
  while (a.size() > 1 && b.size() > 1 && a[a.size() - 2] == b[b.size() - 2]) {
    a.pop_back();
    b.pop_back();
  }
  a.insert(a.end(), b.rbegin() + 1, b.rend());
  return a;
}

/// How pressed blocks would best be pressed again: all as if nothing were pressed, each group the way that changes
/// fewer.
void find_press_again(const std::vector<PressWish>& wishes, const Graph& graph,
                      const std::vector<std::optional<bool>>& pressed, PressChoice& choice) {
  const std::vector<std::optional<bool>> none(pressed.size());
  Colouring free = coloured(graph, none);
  for (const std::vector<int>& component : free.components) {
    int changes = 0, same = 0;
    for (const int b : component) {
      if (pressed[b]) (free.other[b] != *pressed[b] ? changes : same) += 1;
    }
    if (changes <= same) continue;
    for (const int b : component) free.other[b] = !free.other[b];
  }
  improve(graph, none, free.other);
  choice.unmet_then = unmet(wishes, choice.other);
  if (unmet(wishes, free.other) >= choice.unmet_then) return;
  choice.unmet_then = unmet(wishes, free.other);
  for (int b = 0; b < static_cast<int>(pressed.size()); ++b) {
    if (pressed[b] && free.other[b] != *pressed[b]) choice.press_again.push_back(b);
  }
}

}  // namespace

std::vector<bool> press_unpressed(const std::vector<PressWish>& wishes,
                                  const std::vector<std::optional<bool>>& pressed) {
  const Graph graph = graph_of(wishes, pressed.size());
  std::vector<bool> other = coloured(graph, pressed).other;
  improve(graph, pressed, other);
  return other;
}

PressChoice choose_press(const std::vector<PressWish>& wishes, const std::vector<std::optional<bool>>& pressed) {
  PressChoice choice;
  const Graph graph = graph_of(wishes, pressed.size());
  const Colouring colouring = coloured(graph, pressed);
  choice.other = colouring.other;
  for (const PressWish& wish : wishes) {
    if ((choice.other[wish.a] != choice.other[wish.b]) == wish.differ) continue;
    const bool both_pressed = pressed[wish.a] && pressed[wish.b];
    if (!both_pressed) choice.exact = false;
    std::vector<int> ring = ring_of(colouring, wish);
    if (!ring.empty()) choice.odd_rings.push_back(std::move(ring));
  }
  if (!choice.exact) improve(graph, pressed, choice.other);
  find_press_again(wishes, graph, pressed, choice);
  return choice;
}

}  // namespace farflung::score
