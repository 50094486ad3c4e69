#include "score/touch_bound.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <optional>
#include <set>

namespace farflung::score {
namespace {

constexpr int kNever = std::numeric_limits<int>::max() / 4;

/// Places to be filled or not by blocks of one print, and what two of them cost.
struct Puzzle {
  struct Edge {
    int to = 0, cost = 0;
  };
  enum class Rule { free, filled, empty };

  std::vector<Rule> rule;                ///< by place
  std::vector<int> own;                  ///< by place: touches with the frame
  std::vector<std::vector<Edge>> edges;  ///< by place, both ways
};

/// least[k]: the least cost of k filled places among `order`, the edges among them counted.
std::vector<int> least_costs(const Puzzle& puzzle, const std::vector<int>& order, int most) {
  std::vector<int> position(puzzle.rule.size(), -1);
  for (int k = 0; k < static_cast<int>(order.size()); ++k) position[order[k]] = k;
  std::vector<int> last_needed(order.size());
  for (int k = 0; k < static_cast<int>(order.size()); ++k) {
    last_needed[k] = k;
    for (const Puzzle::Edge& edge : puzzle.edges[order[k]])
      last_needed[k] = std::max(last_needed[k], position[edge.to]);
  }
  std::vector<int> frontier;  // positions, bit b of a state says whether frontier[b] is filled
  std::vector<std::vector<int>> states(1, std::vector<int>(most + 1, kNever));
  states[0][0] = 0;
  for (int k = 0; k < static_cast<int>(order.size()); ++k) {
    const int place = order[k];
    const std::size_t bits = frontier.size();
    std::vector<std::vector<int>> next(std::size_t{2} << bits, std::vector<int>(most + 1, kNever));
    for (std::size_t state = 0; state < states.size(); ++state) {
      if (puzzle.rule[place] != Puzzle::Rule::filled) next[state] = states[state];
      if (puzzle.rule[place] == Puzzle::Rule::empty) continue;
      int cost = puzzle.own[place];
      for (const Puzzle::Edge& edge : puzzle.edges[place]) {
        for (std::size_t b = 0; b < bits; ++b) {
          if (frontier[b] == position[edge.to] && (state >> b & 1) != 0) cost += edge.cost;
        }
      }
      std::vector<int>& filled = next[state | (std::size_t{1} << bits)];
      for (int count = 0; count < most; ++count) {
        if (states[state][count] < kNever) filled[count + 1] = states[state][count] + cost;
      }
    }
    frontier.push_back(k);
    for (std::size_t b = frontier.size(); b-- > 0;) {  // forget what no later place will ask for
      if (last_needed[frontier[b]] > k) continue;
      std::vector<std::vector<int>> fewer(next.size() / 2, std::vector<int>(most + 1, kNever));
      for (std::size_t state = 0; state < next.size(); ++state) {
        const std::size_t without = (state & ((std::size_t{1} << b) - 1)) | (state >> (b + 1) << b);
        for (int count = 0; count <= most; ++count) {
          fewer[without][count] = std::min(fewer[without][count], next[state][count]);
        }
      }
      next = std::move(fewer);
      frontier.erase(frontier.begin() + static_cast<std::ptrdiff_t>(b));
    }
    states = std::move(next);
  }
  return states[0];
}

/// The widest frontier that an order of places leads to.
int widest_frontier(const Puzzle& puzzle, const std::vector<int>& order) {
  std::vector<int> position(puzzle.rule.size(), -1);
  for (int k = 0; k < static_cast<int>(order.size()); ++k) position[order[k]] = k;
  int widest = 0;
  std::vector<int> open(order.size() + 1, 0);
  for (int k = 0; k < static_cast<int>(order.size()); ++k) {
    int last = k;
    for (const Puzzle::Edge& edge : puzzle.edges[order[k]]) last = std::max(last, position[edge.to]);
    ++open[k];
    --open[last];
  }
  int now = 0;
  for (const int change : open) widest = std::max(widest, now += change);
  return widest;
}

std::vector<int> together(const std::vector<int>& a, const std::vector<int>& b, int most) {
  std::vector<int> sum(most + 1, kNever);
  for (int i = 0; i <= most; ++i) {
    for (int j = 0; i + j <= most; ++j) sum[i + j] = std::min({sum[i + j], kNever, a[i] + b[j]});
  }
  return sum;
}

/// The places along the shorter side of the top, cut into strips that the dynamic programme can carry.
std::vector<int> least_costs_in_strips(const Puzzle& puzzle, const Places& places, int most) {
  std::vector<int> all(places.count());
  for (int i = 0; i < places.count(); ++i) all[i] = i;
  const auto sorted_by = [&](bool down_first) {
    std::vector<int> order = all;
    std::sort(order.begin(), order.end(), [&](int a, int b) {
      const auto key = [&](int i) {
        return down_first ? std::pair(places.down[i], places.across[i]) : std::pair(places.across[i], places.down[i]);
      };
      return key(a) < key(b);
    });
    return order;
  };
  const std::vector<int> by_rows = sorted_by(true);
  const std::vector<int> by_columns = sorted_by(false);
  const bool rows = widest_frontier(puzzle, by_rows) <= widest_frontier(puzzle, by_columns);
  const std::vector<int>& order = rows ? by_rows : by_columns;
  const auto sideways = [&](int i) { return rows ? places.across[i] : places.down[i]; };
  std::set<int> all_lanes;
  for (const int i : all) all_lanes.insert(sideways(i));
  const std::size_t strips = static_cast<std::size_t>((widest_frontier(puzzle, order) + kFrontier - 1) / kFrontier);
  const std::size_t lanes_each = strips > 1 ? (all_lanes.size() + strips - 1) / strips : all_lanes.size();
  std::vector<int> least;
  std::vector<bool> taken(places.count(), false);
  for (std::size_t left = order.size(); left > 0;) {
    std::set<int> lanes;  // as many as fit
    std::vector<int> strip;
    std::set<int> open_lanes;
    for (const int i : all) {
      if (!taken[i]) open_lanes.insert(sideways(i));
    }
    for (const int lane : open_lanes) {
      lanes.insert(lane);
      std::vector<int> wider;
      for (const int i : order) {
        if (!taken[i] && lanes.count(sideways(i)) > 0) wider.push_back(i);
      }
      if (!strip.empty() && (lanes.size() > lanes_each || widest_frontier(puzzle, wider) > kFrontier)) break;
      strip = std::move(wider);
    }
    for (const int i : strip) taken[i] = true;
    left -= strip.size();
    const std::vector<int> costs = least_costs(puzzle, strip, most);
    least = least.empty() ? costs : together(least, costs, most);
  }
  return least;
}

/// Blocks of one pattern that hold a print in the same slots and may take the same turns.
struct Kind {
  int pattern = 0;
  std::vector<bool> holds;  ///< by slot
  std::vector<Turn> turns;

  friend bool operator<(const Kind& a, const Kind& b) {
    const auto quarters = [](const Kind& kind) {
      std::vector<int> all;
      for (const Turn turn : kind.turns) all.push_back(turn.quarters());
      return all;
    };
    return std::tuple(a.pattern, a.holds, quarters(a)) < std::tuple(b.pattern, b.holds, quarters(b));
  }
};

/// What is taken as given when a print's touches are bounded.
struct Given {
  bool kept = true, turns = true, patterns = true;
};

class Bounder {
 public:
  Bounder(const Measure& measure, const setting::Arrangement& arrangement, const TurnsOfBlocks& turns, int print)
      : measure_(measure), arrangement_(arrangement), turns_(turns), print_(print) {}

  /// The blocks that hold the print, and how many of them must be placed: no more can stay out than there are spares.
  int copies() const {
    int placed_or_spare = 0;
    int spares = static_cast<int>(measure_.quilt().blocks.size()) - measure_.places().count();
    for (std::size_t b = 0; b < measure_.quilt().blocks.size(); ++b)
      placed_or_spare += holds(static_cast<int>(b)) ? 1 : 0;
    return std::max(0, placed_or_spare - spares);
  }

  /// Costs by number of copies.
  std::vector<int> least(Given given, int most) const {
    return least_costs_in_strips(puzzle(given), measure_.places(), most);
  }

  Puzzle puzzle(Given given) const {
    Puzzle puzzle;
    const Places& places = measure_.places();
    const int n = places.count();
    puzzle.rule.assign(n, Puzzle::Rule::free);
    puzzle.own.assign(n, 0);
    puzzle.edges.resize(n);
    std::vector<std::set<Kind>> kinds(n);
    for (int i = 0; i < n; ++i) kinds[i] = kinds_in(i, given);
    for (int i = 0; i < n; ++i) {
      if (is_kept(i, given)) {
        puzzle.rule[i] = kinds[i].empty() ? Puzzle::Rule::empty : Puzzle::Rule::filled;
      } else if (kinds[i].empty()) {
        puzzle.rule[i] = Puzzle::Rule::empty;
      }
      puzzle.own[i] = least_with_frame(i, kinds[i]);
    }
    for (const setting::CellPair& pair : measure_.meetings().contacts().pairs()) {
      const int a = places.of_cell[pair.first];
      const int b = places.of_cell[pair.second];
      if (a == kNone || b == kNone || kinds[a].empty() || kinds[b].empty()) continue;
      const int cost = least_between(pair.relation, kinds[a], kinds[b]);
      if (cost == 0) continue;
      puzzle.edges[a].push_back({b, cost});
      puzzle.edges[b].push_back({a, cost});
    }
    return puzzle;
  }

 private:
  bool holds(int block) const {
    const std::vector<int>& prints = measure_.prints()[block];
    return std::find(prints.begin(), prints.end(), print_) != prints.end();
  }

  Kind kind_of(int block, const std::vector<Turn>& turns) const {
    Kind kind{measure_.quilt().blocks[block].pattern, {}, turns};
    for (const int print : measure_.prints()[block]) kind.holds.push_back(print == print_);
    return kind;
  }

  bool is_kept(int place, Given given) const { return given.kept && arrangement_.kept[measure_.places().cell[place]]; }

  /// The kinds of block with the print that may lie in a place.
  std::set<Kind> kinds_in(int place, Given given) const {
    const int cell = measure_.places().cell[place];
    std::set<Kind> kinds;
    if (is_kept(place, given)) {
      const int block = arrangement_.block[cell];
      if (holds(block)) kinds.insert(kind_of(block, {arrangement_.turn[cell]}));
      return kinds;
    }
    const int own = given.patterns ? measure_.plan().cells[cell].pattern : kNone;
    for (int b = 0; b < static_cast<int>(measure_.quilt().blocks.size()); ++b) {
      const int pattern = measure_.quilt().blocks[b].pattern;
      if (!holds(b) || (own != kNone && own != pattern)) continue;
      kinds.insert(kind_of(b, given.turns ? turns_[b] : measure_.quilt().patterns[pattern].turns));
    }
    return kinds;
  }

  int least_with_frame(int place, const std::set<Kind>& kinds) const {
    int least = kNever;
    for (const Kind& kind : kinds) {
      for (const Turn turn : kind.turns) {
        int touches = 0;
        for (const Meeting& meeting :
             measure_.meetings().with_frame(measure_.places().cell[place], kind.pattern, turn)) {
          if (!meeting.free && kind.holds[meeting.slot] && meeting.other == print_) touches += meeting.seams;
        }
        least = std::min(least, touches);
      }
    }
    return kinds.empty() ? 0 : least;
  }

  int least_between(int relation, const std::set<Kind>& first, const std::set<Kind>& second) const {
    const auto [known, is_new] = known_.try_emplace(std::tuple(relation, first, second), kNever);
    if (!is_new) return known->second;
    int& least = known->second;
    for (const Kind& a : first) {
      for (const Turn turn_a : a.turns) {
        for (const Kind& b : second) {
          for (const Turn turn_b : b.turns) {
            int touches = 0;
            for (const Meeting& meeting : measure_.meetings().between(relation, a.pattern, turn_a, b.pattern, turn_b)) {
              if (!meeting.free && a.holds[meeting.slot] && b.holds[meeting.other]) touches += meeting.seams;
            }
            least = std::min(least, touches);
          }
        }
      }
    }
    return least;
  }

  const Measure& measure_;
  const setting::Arrangement& arrangement_;
  const TurnsOfBlocks& turns_;
  int print_;
  mutable std::map<std::tuple<int, std::set<Kind>, std::set<Kind>>, int> known_;
};

/// Whether filling places one by one, where nothing is touched, already finds room for so many.
bool room_at_once(const Puzzle& puzzle, int copies) {
  std::vector<bool> filled(puzzle.rule.size(), false);
  const auto touched = [&](std::size_t i) {
    return puzzle.own[i] > 0 || std::any_of(puzzle.edges[i].begin(), puzzle.edges[i].end(),
                                            [&](const Puzzle::Edge& edge) { return filled[edge.to]; });
  };
  for (const Puzzle::Rule rule : {Puzzle::Rule::filled, Puzzle::Rule::free}) {
    for (std::size_t i = 0; i < filled.size(); ++i) {
      if (puzzle.rule[i] != rule || (rule == Puzzle::Rule::free && (copies <= 0 || touched(i)))) continue;
      if (touched(i)) return false;
      filled[i] = true;
      --copies;
    }
  }
  return copies == 0;
}

/// Which of what is given makes the difference, or that the copies alone are too many.
Cause cause_of(const Bounder& bounder, int copies, int touches, Given constrained) {
  const auto fewer_without = [&](Given given) { return bounder.least(given, copies)[copies] < touches; };
  if (constrained.kept && fewer_without({false, true, true})) return Cause::kept;
  if (constrained.turns && fewer_without({false, false, true})) return Cause::turns;
  if (constrained.patterns && fewer_without({false, false, false})) return Cause::patterns;
  return Cause::crowded;
}

}  // namespace

TouchBound touch_bound(const Measure& measure, const setting::Arrangement& arrangement, const TurnsOfBlocks& turns) {
  TouchBound bound;
  if (measure.places().count() < 2) return bound;
  Given constrained{false, false, !measure.quilt().setting.alternate.empty()};
  for (const bool kept : arrangement.kept) constrained.kept |= kept;
  for (std::size_t b = 0; b < turns.size(); ++b) {
    constrained.turns |= turns[b].size() < measure.quilt().patterns[measure.quilt().blocks[b].pattern].turns.size();
  }
  constrained.turns |= constrained.kept;  // a kept block cannot turn either
  for (int p = 0; p < static_cast<int>(measure.quilt().prints.size()); ++p) {
    const Bounder bounder(measure, arrangement, turns, p);
    const int copies = bounder.copies();
    if (room_at_once(bounder.puzzle({}), copies)) continue;
    const std::vector<int> least = bounder.least({}, copies);
    // Where the rules leave no room for so many, the blocks lie in more than they must: the rest of the bound stands.
    if (least[copies] == 0 || least[copies] >= kNever) continue;
    PrintBound of_print{p, copies, 0, least[copies], cause_of(bounder, copies, least[copies], constrained)};
    for (int k = 0; k <= copies; ++k) {
      if (least[k] == 0) of_print.most_apart = k;
    }
    bound.touches += of_print.touches;
    bound.prints.push_back(of_print);
  }
  return bound;
}

}  // namespace farflung::score
