#include "score/two_ways.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace farflung::score {
namespace {

using Cost = std::int64_t;

/// Windows of so many things at most, one around every so many.
struct WindowSize {
  std::size_t most = 0, every = 0;
  int frontier = 0;
};
constexpr WindowSize kWindowSizes[] = {{48, 1, 10}, {160, 4, 14}};  // small ones first, which cost little

struct Edge {
  int to = 0;
  Cost same = 0, apart = 0;
};

using Graph = std::vector<std::vector<Edge>>;

Graph graph_of(const TwoWays& problem) {
  std::map<std::pair<int, int>, std::pair<Cost, Cost>> between;
  for (const TwoWays::Link& link : problem.links) {
    auto& [same, apart] = between[std::minmax(link.a, link.b)];
    same += link.same;
    apart += link.apart;
  }
  Graph graph(problem.own.size());
  for (const auto& [pair, cost] : between) {
    graph[pair.first].push_back({pair.second, cost.first, cost.second});
    graph[pair.second].push_back({pair.first, cost.first, cost.second});
  }
  return graph;
}

/// Some of the things, in the order in which they are decided; all others stay as they are.
struct Part {
  std::vector<int> order;
  int frontier = 0;  ///< the most that are decided at once and still linked to what is not
};

/// Finds an order that keeps the frontier narrow: next comes what adds least to it.
class Narrowing {
 public:
  Narrowing(const Graph& graph, const std::vector<int>& things)
      : graph_(graph), things_(things), state_(graph.size(), State::outside), undecided_(graph.size(), 0) {
    for (const int thing : things) state_[thing] = State::waiting;
    for (const int thing : things) {
      for (const Edge& edge : graph[thing]) undecided_[thing] += state_[edge.to] != State::outside ? 1 : 0;
    }
  }

  Part part() {
    Part part;
    int open = 0;
    while (part.order.size() < things_.size()) {
      if (reached_.empty()) reach(first_waiting());
      const auto next = std::min_element(reached_.begin(), reached_.end(), [&](int a, int b) {
        return std::pair(growth(a), undecided_[a]) < std::pair(growth(b), undecided_[b]);
      });
      const int thing = *next;
      reached_.erase(next);
      part.frontier = std::max(part.frontier, open + 1);
      open += growth(thing);
      state_[thing] = State::decided;
      part.order.push_back(thing);
      for (const Edge& edge : graph_[thing]) {
        --undecided_[edge.to];
        if (state_[edge.to] == State::waiting) reach(edge.to);
      }
    }
    return part;
  }

 private:
  enum class State : char { outside, waiting, reached, decided };

  void reach(int thing) {
    state_[thing] = State::reached;
    reached_.push_back(thing);
  }

  int first_waiting() const {
    return *std::min_element(things_.begin(), things_.end(), [&](int a, int b) {
      return std::pair(state_[a] != State::waiting, undecided_[a]) <
             std::pair(state_[b] != State::waiting, undecided_[b]);
    });
  }

  /// What the frontier grows by: the thing itself, less those whose last undecided neighbour it is.
  int growth(int thing) const {
    int grows = undecided_[thing] > 0 ? 1 : 0;
    for (const Edge& edge : graph_[thing]) {
      if (state_[edge.to] == State::decided && undecided_[edge.to] == 1) --grows;
    }
    return grows;
  }

  const Graph& graph_;
  const std::vector<int>& things_;
  std::vector<State> state_;
  std::vector<int> undecided_;  ///< by thing, its neighbours that are not decided yet
  std::vector<int> reached_;    ///< not decided themselves, but a neighbour is
};

Part narrow_part(const Graph& graph, const std::vector<int>& things) { return Narrowing(graph, things).part(); }

/// The exact choice for one part, all other things as they are.
class Decider {
 public:
  Decider(const TwoWays& problem, const Graph& graph, std::vector<bool>& other)
      : problem_(problem), graph_(graph), other_(other) {}

  void decide(const Part& part) {
    decided_at_.assign(graph_.size(), -1);
    for (int k = 0; k < static_cast<int>(part.order.size()); ++k) decided_at_[part.order[k]] = k;
    frontier_.clear();
    forgotten_.clear();
    costs_ = {0};
    for (int k = 0; k < static_cast<int>(part.order.size()); ++k) {
      add(part.order[k], k);
      for (std::size_t at = frontier_.size(); at-- > 0;) {
        if (last_asked_for(frontier_[at]) <= k) forget(at);
      }
    }
    for (auto one = forgotten_.rbegin(); one != forgotten_.rend(); ++one) {
      std::size_t state = 0;
      for (std::size_t at = 0; at < one->left.size(); ++at) state |= std::size_t{other_[one->left[at]]} << at;
      other_[one->thing] = one->other[state];
    }
  }

 private:
  /// A thing that nothing undecided asks for any more: how it goes best, by how the rest of the frontier goes.
  struct Forgotten {
    int thing = 0;
    std::vector<int> left;
    std::vector<bool> other;
  };

  int last_asked_for(int thing) const {
    int last = decided_at_[thing];
    for (const Edge& edge : graph_[thing]) last = std::max(last, decided_at_[edge.to]);
    return last;
  }

  void add(int thing, int step) {
    Cost own[2] = {problem_.own[thing][0], problem_.own[thing][1]};
    std::vector<std::pair<std::size_t, Edge>> beside;
    for (const Edge& edge : graph_[thing]) {
      if (decided_at_[edge.to] < 0) {  // no part of this: it stays as it is
        for (const int way : {0, 1}) own[way] += (way == 1) == other_[edge.to] ? edge.same : edge.apart;
      } else if (decided_at_[edge.to] < step) {
        const auto at = std::find(frontier_.begin(), frontier_.end(), edge.to) - frontier_.begin();
        beside.emplace_back(static_cast<std::size_t>(at), edge);
      }
    }
    const std::size_t states = costs_.size();
    costs_.resize(2 * states);
    for (std::size_t state = 0; state < states; ++state) {
      Cost first = own[0];
      Cost other = own[1];
      for (const auto& [at, edge] : beside) {
        const bool is_other = (state >> at & 1) != 0;
        first += is_other ? edge.apart : edge.same;
        other += is_other ? edge.same : edge.apart;
      }
      costs_[state + states] = costs_[state] + other;
      costs_[state] += first;
    }
    frontier_.push_back(thing);
  }

  void forget(std::size_t at) {
    const std::size_t bit = std::size_t{1} << at;
    const std::size_t states = costs_.size() / 2;
    Forgotten forgotten{frontier_[at], {}, std::vector<bool>(states)};
    std::vector<Cost> fewer(states);
    for (std::size_t state = 0; state < states; ++state) {
      const std::size_t first = (state & (bit - 1)) | (state >> at << (at + 1));
      forgotten.other[state] = costs_[first | bit] < costs_[first];
      fewer[state] = std::min(costs_[first], costs_[first | bit]);
    }
    costs_ = std::move(fewer);
    frontier_.erase(frontier_.begin() + static_cast<std::ptrdiff_t>(at));
    forgotten.left = frontier_;
    forgotten_.push_back(std::move(forgotten));
  }

  const TwoWays& problem_;
  const Graph& graph_;
  std::vector<bool>& other_;
  std::vector<int> decided_at_;  ///< by thing, the step; below 0: no part of what is decided
  std::vector<int> frontier_;
  std::vector<Cost> costs_;  ///< by state of the frontier
  std::vector<Forgotten> forgotten_;
};

/// Things linked directly or not, nearest to `from` first; no more than `most`, none that was `seen`.
std::vector<int> around(const Graph& graph, int from, std::size_t most, std::vector<bool>& seen) {
  std::vector<int> things{from};
  seen[from] = true;
  for (std::size_t k = 0; k < things.size(); ++k) {
    for (const Edge& edge : graph[things[k]]) {
      if (seen[edge.to] || things.size() >= most) continue;
      seen[edge.to] = true;
      things.push_back(edge.to);
    }
  }
  return things;
}

std::vector<Part> windows_of(const Graph& graph, const std::vector<int>& things, const WindowSize& size) {
  std::vector<Part> windows;
  for (std::size_t k = 0; k < things.size(); k += size.every) {
    for (std::size_t most = size.most; most > 0; most = most * 3 / 4) {
      std::vector<bool> seen(graph.size(), false);
      Part window = narrow_part(graph, around(graph, things[k], most, seen));
      if (window.frontier > size.frontier) continue;
      windows.push_back(std::move(window));
      break;
    }
  }
  return windows;
}

void better_by_windows(const TwoWays& problem, const Graph& graph, const std::vector<int>& things,
                       std::vector<bool>& other) {
  Decider decider(problem, graph, other);
  for (const WindowSize& size : kWindowSizes) {
    const std::vector<Part> windows = windows_of(graph, things, size);
    for (Cost before = cost_of(problem, other);;) {
      for (const Part& window : windows) decider.decide(window);
      const Cost now = cost_of(problem, other);
      if (now >= before) break;
      before = now;
    }
  }
}

}  // namespace

std::int64_t cost_of(const TwoWays& problem, const std::vector<bool>& other) {
  Cost sum = 0;
  for (std::size_t thing = 0; thing < other.size(); ++thing) sum += problem.own[thing][other[thing] ? 1 : 0];
  for (const TwoWays::Link& link : problem.links) sum += other[link.a] == other[link.b] ? link.same : link.apart;
  return sum;
}

WaysChosen cheapest_ways(const TwoWays& problem) {
  const Graph graph = graph_of(problem);
  WaysChosen chosen{std::vector<bool>(problem.own.size(), false), true};
  std::vector<bool> seen(problem.own.size(), false);
  for (int thing = 0; thing < static_cast<int>(problem.own.size()); ++thing) {
    if (seen[thing]) continue;
    const std::vector<int> linked = around(graph, thing, graph.size(), seen);
    const Part whole = narrow_part(graph, linked);
    if (whole.frontier <= kWidestFrontier) {
      Decider(problem, graph, chosen.other).decide(whole);
    } else {
      better_by_windows(problem, graph, linked, chosen.other);
      chosen.exact = false;
    }
  }
  return chosen;
}

}  // namespace farflung::score
