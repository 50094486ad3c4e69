#include "score/copy_field.hpp"

#include <algorithm>

namespace farflung::score {
namespace {

bool holds(std::span<const Share> shares, int print) {
  return std::any_of(shares.begin(), shares.end(), [&](const Share& share) { return share.print == print; });
}

}  // namespace

CopyField::CopyField(const Model& model)
    : lines_weight_(model.lines_weight), closest_weight_(model.closest_weight), lattice_(model.lattice.get()) {
  if (empty()) return;
  places_ = model.places;
  held_.assign(static_cast<std::size_t>(model.prints) * places_, 0);
  thirds_.assign(held_.size(), 0);
  copies_.resize(model.prints);
  pairs_at_.assign(lattice_->ranks(), 0);
  closest_ = lattice_->ranks();
}

void CopyField::add_flips(const Change& change, std::vector<Flip>& flips) {
  if (change.place == kNone) return;
  for (const Share& share : change.was) {
    if (!holds(change.is, share.print)) flips.push_back({share.print, change.place, -1});
  }
  for (const Share& share : change.is) {
    if (!holds(change.was, share.print)) flips.push_back({share.print, change.place, 1});
  }
}

/// How many triples a copy makes where a flip puts or takes it, the flips before it made.
int CopyField::triples_with(const Flip& flip, std::span<const Flip> before) const {
  int triples = thirds_[index(flip.print, flip.place)];
  for (std::size_t m = 0; m < before.size(); ++m) {
    const Flip& made = before[m];
    if (made.print != flip.print) continue;
    lattice_->with_third(flip.place, made.place, [&](int k) {
      triples += made.sign * held_[index(flip.print, k)];
      for (const Flip& other : before.subspan(m + 1)) {  // three places change in one line
        if (other.print == flip.print && other.place == k) triples += made.sign * other.sign;
      }
    });
  }
  return triples;
}

double CopyField::distance_at(int rank) const {
  return rank == lattice_->ranks() ? lattice_->farthest() : lattice_->distance(rank);
}

int CopyField::closest_from(int rank) const {
  while (rank < lattice_->ranks() && pairs_at_[rank] == 0) ++rank;
  return rank;
}

/// The rank of the closest pair once the flips are made.
int CopyField::closest_after(std::span<const Flip> flips) const {
  thread_local std::vector<int> change;
  thread_local std::vector<int> changed;
  change.resize(std::max(change.size(), static_cast<std::size_t>(lattice_->ranks())), 0);
  changed.clear();
  const auto count = [&](int place, int other, int sign) {
    const int rank = lattice_->rank(place, other);
    change[rank] += sign;
    changed.push_back(rank);
  };
  for (std::size_t f = 0; f < flips.size(); ++f) {
    const Flip& flip = flips[f];
    for (const int copy : copies_[flip.print]) {
      if (copy != flip.place) count(flip.place, copy, flip.sign);
    }
    for (std::size_t e = 0; e < f; ++e) {
      if (flips[e].print == flip.print) count(flip.place, flips[e].place, flip.sign * flips[e].sign);
    }
  }
  int closest = closest_;
  for (const int rank : changed) {
    if (change[rank] > 0) closest = std::min(closest, rank);
  }
  while (closest < lattice_->ranks() && pairs_at_[closest] + change[closest] == 0) ++closest;
  for (const int rank : changed) change[rank] = 0;
  return closest;
}

double CopyField::cost(std::span<const Change> changes) const {
  thread_local std::vector<Flip> flips;
  flips.clear();
  for (const Change& change : changes) add_flips(change, flips);
  double cost = 0;
  if (lines_weight_ != 0) {
    int triples = 0;
    for (std::size_t f = 0; f < flips.size(); ++f) {
      triples += flips[f].sign * triples_with(flips[f], {flips.data(), f});
    }
    cost += lines_weight_ * triples;
  }
  if (closest_weight_ != 0) cost -= closest_weight_ * (distance_at(closest_after(flips)) - distance_at(closest_));
  return cost;
}

void CopyField::make(const Flip& flip) {
  std::vector<int>& copies = copies_[flip.print];
  char& held = held_[index(flip.print, flip.place)];
  if (flip.sign < 0) {
    held = 0;
    copies.erase(std::find(copies.begin(), copies.end(), flip.place));
  }
  triples_ += flip.sign * thirds_[index(flip.print, flip.place)];
  for (const int copy : copies) {
    lattice_->with_third(flip.place, copy, [&](int k) { thirds_[index(flip.print, k)] += flip.sign; });
    const int rank = lattice_->rank(flip.place, copy);
    pairs_at_[rank] += flip.sign;
    closest_ = std::min(closest_, rank);
  }
  if (flip.sign > 0) {
    held = 1;
    copies.push_back(flip.place);
  }
  closest_ = closest_from(closest_);
}

void CopyField::apply(std::span<const Change> changes) {
  std::vector<Flip> flips;
  for (const Change& change : changes) add_flips(change, flips);
  for (const Flip& flip : flips) make(flip);
}

}  // namespace farflung::score
