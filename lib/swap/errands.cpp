#include "swap/errands.hpp"

#include <algorithm>
#include <map>

namespace farflung::swap {
namespace {

/// Where each block of the wall lies in `to`; kNone where `to` does not name it.
std::map<int, int> cell_by_block(const setting::Arrangement& to) {
  std::map<int, int> cells;
  for (std::size_t c = 0; c < to.block.size(); ++c) {
    if (to.block[c] != kNone) cells[to.block[c]] = static_cast<int>(c);
  }
  return cells;
}

/// The cycles of the blocks as they are named, without the cells that are right as they are (a block that would pass
/// there goes on to the next); empty where the layouts name different blocks.
std::vector<Round> named_rounds(const std::vector<Errand>& errands, const setting::Arrangement& wall,
                                const setting::Arrangement& to) {
  const std::map<int, int> goes = cell_by_block(to);
  std::vector<bool> wrong(wall.block.size(), false), seen(wall.block.size(), false);
  for (const Errand& errand : errands) wrong[errand.place] = true;
  std::vector<Round> rounds;
  for (const Errand& errand : errands) {
    Round round;
    for (int cell = errand.place; !seen[cell];) {
      seen[cell] = true;
      if (wrong[cell]) round.push_back(cell);
      const auto next = goes.find(wall.block[cell]);
      if (next == goes.end()) return {};
      cell = next->second;
    }
    if (!round.empty()) rounds.push_back(std::move(round));
  }
  return rounds;
}

}  // namespace

Errands errands_between(const setting::Arrangement& wall, const setting::Arrangement& to, const std::vector<int>& kinds,
                        const Distances& distance) {
  std::vector<Errand> errands;
  Errands result;
  for (std::size_t c = 0; c < wall.block.size(); ++c) {
    if (wall.block[c] == kNone) continue;
    const int cell = static_cast<int>(c);
    const int holds = kinds[wall.block[c]];
    const int wants = kinds[to.block[c]];
    if (holds != wants) errands.push_back({cell, holds, wants});
    if (holds == wants && wall.turn[c] != to.turn[c]) result.trips.push_back({cell, cell});
  }
  Rounds rounds = most_rounds(errands);
  result.proven = rounds.proven;
  if (!rounds.proven) {
    std::vector<Round> named = named_rounds(errands, wall, to);
    if (named.size() > rounds.rounds.size()) rounds.rounds = std::move(named);
  }
  for (const Round& round : rounds.rounds) {
    const std::vector<Trip> trips = settling_order(round, trips_of(round, distance));
    result.trips.insert(result.trips.end(), trips.begin(), trips.end());
  }
  return result;
}

int plain_swaps(const setting::Arrangement& wall, const setting::Arrangement& to) {
  const std::map<int, int> goes = cell_by_block(to);
  std::vector<bool> seen(wall.block.size(), false);
  int swaps = 0;
  for (std::size_t c = 0; c < wall.block.size(); ++c) {
    if (wall.block[c] == kNone || seen[c]) continue;
    int length = 0;
    bool closed = true;
    for (int cell = static_cast<int>(c); !seen[cell];) {
      seen[cell] = true;
      ++length;
      const auto next = goes.find(wall.block[cell]);
      closed = next != goes.end();
      if (!closed) break;
      cell = next->second;
    }
    swaps += closed ? length - 1 : length;
  }
  return swaps;
}

Step step_of(const Trip& trip, std::span<const Trip> later, const setting::Arrangement& layout,
             const setting::Arrangement& to) {
  const auto settled = [&](int cell) {
    return std::none_of(later.begin(), later.end(), [&](const Trip& t) { return t.a == cell || t.b == cell; });
  };
  return {trip.a, trip.b, settled(trip.a) ? to.turn[trip.a] : layout.turn[trip.b],
          settled(trip.b) ? to.turn[trip.b] : layout.turn[trip.a]};
}

std::vector<Step> steps_along(const std::vector<Trip>& trips, setting::Arrangement wall,
                              const setting::Arrangement& to) {
  std::vector<Step> steps;
  for (std::size_t t = 0; t < trips.size(); ++t) {
    steps.push_back(step_of(trips[t], std::span(trips).subspan(t + 1), wall, to));
    make(steps.back(), wall);
  }
  return steps;
}

}  // namespace farflung::swap
