#include "arrange/near_copies.hpp"

#include <algorithm>

namespace farflung::arrange {

NearPlaces nearer_than(int places, int rank, const RankOfDistance& rank_of) {
  NearPlaces near(places);
  for (int i = 0; i < places; ++i) {
    for (int j = 0; j < places; ++j) {
      if (i != j && rank_of(i, j) < rank) near[i].push_back(j);
    }
  }
  return near;
}

std::vector<std::vector<int>> prints_of_blocks(const score::Model& model) {
  std::vector<std::vector<int>> prints;
  for (const score::Piece& piece : model.pieces) {
    prints.emplace_back();
    for (const score::Share& share : piece.parts.shares) prints.back().push_back(share.print);
  }
  return prints;
}

NearCopies::NearCopies(NearPlaces near, int prints)
    : near_(std::move(near)), counts_(static_cast<std::size_t>(prints) * near_.size(), 0) {}

bool NearCopies::near(int a, int b) const { return std::binary_search(near_[a].begin(), near_[a].end(), b); }

int NearCopies::conflicts(std::span<const int> prints, int place) const {
  int sum = 0;
  for (const int print : prints) sum += count(print, place);
  return sum;
}

void NearCopies::change(std::span<const int> prints, int place, int sign) {
  for (const int print : prints) {
    for (const int other : near_[place]) counts_[index(print, other)] += sign;
  }
}

/// What comes to a place may find there one copy too near: its own, that leaves the other place.
bool NearCopies::stays_clear(std::span<const int> in_a, int a, std::span<const int> in_b, int b) const {
  const auto most = [&](std::span<const int> prints, int to) {
    int counted = 0;
    for (const int print : prints) counted = std::max(counted, count(print, to));
    return counted;
  };
  const int found = std::max(most(in_a, b), most(in_b, a));
  return found == 0 || (found == 1 && near(a, b));
}

}  // namespace farflung::arrange
