#include "swap/cycles.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "base/rng.hpp"
#include "swap/packing_bound.hpp"

namespace farflung::swap {
namespace {

/// One errand, or several in a chain whose joints are settled.
struct Arc {
  int from = 0, to = 0;
  std::vector<int> places;
};

Round joined(const Arc& first, const Arc& second) {
  Round round = first.places;
  round.insert(round.end(), second.places.begin(), second.places.end());
  return round;
}

struct Graph {
  std::vector<Arc> arcs;

  /// Replaces arcs i and j (i's end is j's start) by one that runs through both.
  void chain(std::size_t i, std::size_t j) {
    Arc arc{arcs[i].from, arcs[j].to, joined(arcs[i], arcs[j])};
    remove(i, j);
    arcs.push_back(std::move(arc));
  }
  void remove(std::size_t i, std::size_t j) {
    arcs.erase(arcs.begin() + static_cast<std::ptrdiff_t>(std::max(i, j)));
    arcs.erase(arcs.begin() + static_cast<std::ptrdiff_t>(std::min(i, j)));
  }
};

bool take_loop(Graph& graph, std::vector<Round>& taken) {
  for (std::size_t i = 0; i < graph.arcs.size(); ++i) {
    if (graph.arcs[i].from != graph.arcs[i].to) continue;
    taken.push_back(graph.arcs[i].places);
    graph.arcs.erase(graph.arcs.begin() + static_cast<std::ptrdiff_t>(i));
    return true;
  }
  return false;
}

/// u to v and v to u: were they in two cycles, the rest of those two would make one at least; so it is right to take
/// it.
bool take_pair(Graph& graph, std::vector<Round>& taken) {
  std::map<std::pair<int, int>, std::size_t> known;
  for (std::size_t i = 0; i < graph.arcs.size(); ++i) known[{graph.arcs[i].from, graph.arcs[i].to}] = i;
  for (const auto& [way, i] : known) {
    const auto back = known.find({way.second, way.first});
    if (back == known.end()) continue;
    taken.push_back(joined(graph.arcs[i], graph.arcs[back->second]));
    graph.remove(i, back->second);
    return true;
  }
  return false;
}

/// A vertex with one way in and one way out is passed, not chosen.
bool pass_through(Graph& graph) {
  std::map<int, std::vector<std::size_t>> in, out;
  for (std::size_t i = 0; i < graph.arcs.size(); ++i) {
    out[graph.arcs[i].from].push_back(i);
    in[graph.arcs[i].to].push_back(i);
  }
  for (const auto& [vertex, arcs] : in) {
    if (arcs.size() != 1) continue;
    graph.chain(arcs.front(), out[vertex].front());
    return true;
  }
  return false;
}

void reduce(Graph& graph, std::vector<Round>& taken) {
  while (take_loop(graph, taken) || take_pair(graph, taken) || pass_through(graph)) {
  }
}

std::vector<Graph> components(const Graph& graph) {
  std::map<int, int> group;
  for (const Arc& arc : graph.arcs) group[arc.from] = arc.from, group[arc.to] = arc.to;
  const auto root = [&](int vertex) {
    while (group[vertex] != vertex) vertex = group[vertex] = group[group[vertex]];
    return vertex;
  };
  for (const Arc& arc : graph.arcs) group[root(arc.from)] = root(arc.to);
  std::map<int, Graph> parts;
  for (const Arc& arc : graph.arcs) parts[root(arc.from)].arcs.push_back(arc);
  std::vector<Graph> all;
  all.reserve(parts.size());
  for (auto& [key, part] : parts) all.push_back(std::move(part));
  return all;
}

/// Takes a shortest cycle through an arc drawn by lot, again and again.
std::vector<Round> by_lot(Graph graph, Rng& rng) {
  std::vector<Round> rounds;
  while (!graph.arcs.empty()) {
    rng.shuffle(std::span<Arc>(graph.arcs));
    // The shortest of a few: breadth first from the end of an arc back to its start.
    std::vector<std::size_t> best;
    const std::size_t trials = std::min<std::size_t>(graph.arcs.size(), 1 + rng.below(8));
    for (std::size_t first = 0; first < trials; ++first) {
      std::map<int, std::size_t> reached_by = {{graph.arcs[first].to, first}};
      std::vector<int> front = {graph.arcs[first].to};
      for (std::size_t k = 0; k < front.size() && !reached_by.contains(graph.arcs[first].from); ++k) {
        for (std::size_t i = 0; i < graph.arcs.size(); ++i) {
          if (graph.arcs[i].from != front[k] || reached_by.contains(graph.arcs[i].to)) continue;
          reached_by[graph.arcs[i].to] = i;
          front.push_back(graph.arcs[i].to);
        }
      }
      std::vector<std::size_t> cycle;
      for (int vertex = graph.arcs[first].from;; vertex = graph.arcs[cycle.back()].from) {
        cycle.push_back(reached_by[vertex]);
        if (cycle.back() == first) break;
      }
      if (best.empty() || cycle.size() < best.size()) best = cycle;
    }
    Round round;
    for (auto i = best.rbegin(); i != best.rend(); ++i) {
      round.insert(round.end(), graph.arcs[*i].places.begin(), graph.arcs[*i].places.end());
    }
    rounds.push_back(std::move(round));
    std::sort(best.rbegin(), best.rend());
    for (const std::size_t i : best) graph.arcs.erase(graph.arcs.begin() + static_cast<std::ptrdiff_t>(i));
    reduce(graph, rounds);
  }
  return rounds;
}

std::vector<Way> ways_of(const Graph& graph) {
  std::vector<Way> ways;
  for (const Arc& arc : graph.arcs) ways.push_back({arc.from, arc.to});
  std::sort(ways.begin(), ways.end());
  return ways;
}

int most_of(const Graph& graph) {
  int most = 0;
  for (const Graph& part : components(graph)) most += static_cast<int>(std::floor(packing_bound(ways_of(part))));
  return most;
}

/// Branch and bound within one component.
class Search {
 public:
  explicit Search(std::int64_t most_branches) : left_(most_branches) {}

  std::vector<Round> run(const Graph& graph) {
    Rng rng(Seed{7});
    const int bound = most_of(graph);
    for (int trial = 0; trial < kTrials && static_cast<int>(best_.size()) < bound; ++trial) {
      std::vector<Round> rounds = by_lot(graph, rng);
      if (rounds.size() > best_.size()) best_ = std::move(rounds);
    }
    if (static_cast<int>(best_.size()) < bound) branch(graph, {});
    return best_;
  }

  bool complete() const { return left_ >= 0; }
  std::int64_t left() const { return left_; }

 private:
  static constexpr int kTrials = 200;

  void branch(Graph graph, std::vector<Round> taken) {
    if (left_ < 0) return;
    reduce(graph, taken);
    if (graph.arcs.empty()) {
      if (taken.size() > best_.size()) best_ = std::move(taken);
      return;
    }
    const int here = static_cast<int>(taken.size());
    const auto [known, fresh] = known_.try_emplace(ways_of(graph), here);
    if (!fresh) {
      if (known->second >= here) return;
      known->second = here;
    }
    if (here + most_of(graph) <= static_cast<int>(best_.size())) return;
    if (--left_ < 0) return;
    // Where the fewest ways meet: one way in, and each different way out that it may go on by.
    std::map<int, int> meet;
    for (const Arc& arc : graph.arcs) ++meet[arc.to];
    const auto fewest =
        std::min_element(meet.begin(), meet.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
    std::size_t in = 0;
    while (graph.arcs[in].to != fewest->first) ++in;
    std::vector<int> tried;
    for (std::size_t out = 0; out < graph.arcs.size(); ++out) {
      const Arc& arc = graph.arcs[out];
      if (arc.from != fewest->first || std::find(tried.begin(), tried.end(), arc.to) != tried.end()) continue;
      tried.push_back(arc.to);
      Graph next = graph;
      next.chain(in, out);
      branch(std::move(next), taken);
    }
  }

  std::int64_t left_;
  std::vector<Round> best_;
  std::map<std::vector<Way>, int> known_;
};

}  // namespace

/// A branch costs a linear program, which grows with the cube of the arcs: beyond this many only a few are spent.
constexpr std::size_t kProvenArcs = 64;
constexpr std::int64_t kFewBranches = 10;

Rounds most_rounds(const std::vector<Errand>& errands, std::int64_t most_branches) {
  Graph graph;
  for (const Errand& errand : errands) graph.arcs.push_back({errand.wants, errand.holds, {errand.place}});
  Rounds result;
  result.proven = true;
  reduce(graph, result.rounds);
  for (const Graph& part : components(graph)) {
    const bool small = part.arcs.size() <= kProvenArcs;
    const std::int64_t budget = std::min(most_branches - result.branches, small ? most_branches : kFewBranches);
    Search search(budget);
    const std::vector<Round> rounds = search.run(part);
    result.rounds.insert(result.rounds.end(), rounds.begin(), rounds.end());
    result.proven &= search.complete();
    result.branches += budget - std::max<std::int64_t>(search.left(), 0);
  }
  return result;
}

}  // namespace farflung::swap
