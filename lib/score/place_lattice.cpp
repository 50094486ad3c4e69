#include "score/place_lattice.hpp"

#include <algorithm>
#include <cmath>

namespace farflung::score {
namespace {

/// Pitches that one step of the lattice spans, given each place's steps and where it lies; 0 where all lie in one line.
double step_of(const std::vector<int>& steps, const std::vector<double>& at) {
  const auto [least, most] = std::minmax_element(steps.begin(), steps.end());
  if (*least == *most) return 0;
  return (at[most - steps.begin()] - at[least - steps.begin()]) / (*most - *least);
}

}  // namespace

PlaceLattice::PlaceLattice(const Places& places) : across_(places.across), down_(places.down) {
  if (places.count() == 0) return;
  const auto [left, right] = std::minmax_element(across_.begin(), across_.end());
  const auto [top, bottom] = std::minmax_element(down_.begin(), down_.end());
  left_ = *left;
  top_ = *top;
  wide_ = *right - *left + 1;
  high_ = *bottom - *top + 1;
  place_.assign(static_cast<std::size_t>(wide_) * high_, kNone);
  for (int i = 0; i < places.count(); ++i) {
    place_[static_cast<std::size_t>(down_[i] - top_) * wide_ + (across_[i] - left_)] = i;
  }
  find_ranks(places);
}

void PlaceLattice::find_ranks(const Places& places) {
  const double step_across = step_of(places.across, places.x);
  const double step_down = step_of(places.down, places.y);
  std::vector<double> squares;
  for (int down = 0; down < high_; ++down) {
    for (int across = 0; across < wide_; ++across) {
      squares.push_back(std::pow(across * step_across, 2) + std::pow(down * step_down, 2));
    }
  }
  std::vector<double> sorted(squares.begin() + 1, squares.end());
  std::sort(sorted.begin(), sorted.end());
  for (const double square : sorted) {
    if (distance_.empty() || square > distance_.back() * (1 + 1e-9)) distance_.push_back(square);
  }
  for (const double square : squares) {
    const auto found = std::lower_bound(distance_.begin(), distance_.end(), square * (1 - 1e-9));
    rank_.push_back(static_cast<int>(found - distance_.begin()));
  }
  for (double& distance : distance_) distance = std::sqrt(distance);
  // The two furthest apart are the first or the last of their rows.
  std::vector<int> ends;
  for (int down = top_; down < top_ + high_; ++down) {
    int first = kNone, last = kNone;
    for (int across = left_; across < left_ + wide_; ++across) {
      const int place = at(across, down);
      if (place == kNone) continue;
      if (first == kNone) first = place;
      last = place;
    }
    if (first != kNone) ends.insert(ends.end(), {first, last});
  }
  for (const int i : ends) {
    for (const int j : ends) {
      if (i != j) farthest_ = std::max(farthest_, distance_[rank(i, j)]);
    }
  }
}

int equal_triples(const PlaceLattice& lattice, const CopiesOfPrints& copies) {
  int triples = 0;
  for (const std::vector<int>& of_print : copies) {
    std::vector<int> sorted = of_print;
    std::sort(sorted.begin(), sorted.end());
    for (std::size_t a = 0; a < sorted.size(); ++a) {
      for (std::size_t b = a + 1; b < sorted.size(); ++b) {
        const int middle = lattice.midway(sorted[a], sorted[b]);
        triples += middle != kNone && std::binary_search(sorted.begin(), sorted.end(), middle) ? 1 : 0;
      }
    }
  }
  return triples;
}

double closest_copies(const PlaceLattice& lattice, const CopiesOfPrints& copies) {
  double closest = lattice.farthest();
  for (const std::vector<int>& of_print : copies) {
    for (std::size_t a = 0; a < of_print.size(); ++a) {
      for (std::size_t b = a + 1; b < of_print.size(); ++b) {
        closest = std::min(closest, lattice.distance(lattice.rank(of_print[a], of_print[b])));
      }
    }
  }
  return closest;
}

}  // namespace farflung::score
