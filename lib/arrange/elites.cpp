#include "arrange/elites.hpp"

#include <algorithm>
#include <cmath>

namespace farflung::arrange {
namespace {

constexpr double kAlike = 1e-10;  // of F

/// The blocks of one pool by kind, to be laid one after another.
class Stock {
 public:
  Stock(const Freedom& freedom, const Pool& pool) : kind_(freedom.kind), left_(pool.blocks) {}

  void shuffle(Rng& rng) { rng.shuffle(std::span<int>(left_)); }

  /// A block of a kind; kNone: none is left.
  int take(int kind) {
    const auto found = std::find_if(left_.begin(), left_.end(), [&](int block) { return kind_[block] == kind; });
    if (found == left_.end()) return kNone;
    const int block = *found;
    *found = left_.back();
    left_.pop_back();
    return block;
  }

  int take_any() {
    const int block = left_.back();
    left_.pop_back();
    return block;
  }

 private:
  const std::vector<int>& kind_;
  std::vector<int> left_;
};

}  // namespace

Elites::Elites(const Task& task, const std::vector<Symmetry>& symmetries, int most)
    : task_(task), symmetries_(symmetries), most_(most) {}

double Elites::best_F() const {
  const auto least =
      std::min_element(elites_.begin(), elites_.end(), [](const Elite& a, const Elite& b) { return a.F < b.F; });
  return least->F;
}

bool Elites::take(const std::vector<Held>& held, double F) {
  for (const Elite& elite : elites_) {
    if (std::abs(elite.F - F) <= kAlike * std::abs(F)) return false;
  }
  if (!full()) {
    elites_.push_back({held, F});
    return true;
  }
  const auto worst =
      std::max_element(elites_.begin(), elites_.end(), [](const Elite& a, const Elite& b) { return a.F < b.F; });
  if (F >= worst->F) return false;
  *worst = {held, F};
  return true;
}

std::vector<int> Elites::kinds_of(const Elite& elite) const {
  std::vector<int> kinds;
  for (const Held& held : elite.held) kinds.push_back(task_.freedom.kind[held.block]);
  return kinds;
}

/// The symmetry under which the second agrees with the first in the most places, though not in all.
const Symmetry& Elites::upon(const std::vector<int>& first, const std::vector<int>& second) const {
  const int n = static_cast<int>(first.size());
  const Symmetry* best = &symmetries_.front();
  int most = -1;
  for (const Symmetry& map : symmetries_) {
    int agree = 0;
    for (int i = 0; i < n; ++i) agree += first[map[i]] == second[i] ? 1 : 0;
    if (agree <= most || agree == n) continue;
    most = agree;
    best = &map;
  }
  return *best;
}

std::vector<Held> Elites::crossed(Rng& rng) const {
  const auto count = static_cast<std::uint32_t>(elites_.size());
  const std::uint32_t a = rng.below(count);
  const std::uint32_t b = (a + 1 + rng.below(count - 1)) % count;
  const std::vector<int> first = kinds_of(elites_[a]);
  const std::vector<int> second = kinds_of(elites_[b]);
  const Symmetry& map = upon(first, second);
  std::vector<int> laid_upon(first.size());
  for (std::size_t i = 0; i < map.size(); ++i) laid_upon[map[i]] = second[i];

  std::vector<Held> held = elites_[a].held;
  for (const Pool& pool : task_.freedom.pools) {
    Stock stock(task_.freedom, pool);
    stock.shuffle(rng);
    std::vector<int> open;
    const auto lay = [&](int place, int block) {
      const std::vector<int>& forms = task_.freedom.forms[block];
      const bool allowed = std::find(forms.begin(), forms.end(), held[place].form) != forms.end();
      held[place] = {block, allowed ? held[place].form : forms[rng.below(static_cast<std::uint32_t>(forms.size()))]};
    };
    for (const int place : pool.places) {
      const int block = first[place] == laid_upon[place] ? stock.take(first[place]) : kNone;
      if (block == kNone) {
        open.push_back(place);
      } else {
        lay(place, block);
      }
    }
    rng.shuffle(std::span<int>(open));
    std::vector<int> rest;
    for (const int place : open) {
      const int block = stock.take(rng.below(2) == 0 ? first[place] : laid_upon[place]);
      if (block == kNone) {
        rest.push_back(place);
      } else {
        lay(place, block);
      }
    }
    for (const int place : rest) lay(place, stock.take_any());
  }
  return held;
}

}  // namespace farflung::arrange
