#include "swap/search.hpp"

#include <algorithm>
#include <cmath>

namespace farflung::swap {

using score::Swap;

void Bests::offer(const Rearrangement& layout) {
  const int work = layout.work();
  if (work > most()) return;
  for (int less = 0; less <= work; ++less) {
    const Best& known = by_work_[less];
    if (!known.held.empty() && !better(layout.worth(), known.worth)) return;
  }
  by_work_[work] = {layout.worth(), layout.held()};
}

void Bests::merge(const Bests& other) {
  for (std::size_t work = 0; work < by_work_.size(); ++work) {
    const Best& theirs = other.by_work_[work];
    if (theirs.held.empty()) continue;
    if (by_work_[work].held.empty() || better(theirs.worth, by_work_[work].worth)) by_work_[work] = theirs;
  }
}

const Best& Bests::within(int half_swaps) const {
  const Best* best = &by_work_[0];
  for (int work = 1; work <= std::min(half_swaps, most()); ++work) {
    const Best& each = by_work_[work];
    if (!each.held.empty() && better(each.worth, best->worth)) best = &each;
  }
  return *best;
}

void best_swap_again_and_again(Rearrangement& layout, int most_half_swaps, Bests& bests) {
  while (layout.work() + 2 <= most_half_swaps) {
    Priced best;
    bool found = false;
    for_each_move(layout, [&](const Priced& each) {
      if (each.move.b != kNone && (!found || each.cost < best.cost)) best = each, found = true;
    });
    if (!found || best.cost > -1e-9) return;
    layout.apply(best.move);
    bests.offer(layout);
  }
}

namespace {

class Annealer {
 public:
  Annealer(Rearrangement& layout, Seed seed, Bests& bests) : layout_(layout), rng_(seed), bests_(bests) {
    const std::vector<std::vector<int>>& forms = layout.freedom().forms;
    may_turn_ = std::any_of(forms.begin(), forms.end(), [](const auto& each) { return each.size() > 1; });
  }

  /// `gain` is about what a swap wins in F.
  void run(int half_swaps, int rounds, double gain) {
    budget_ = half_swaps;
    layout_.become(bests_.within(half_swaps).held);
    fill();
    for (int round = 0; round < rounds; ++round) {
      temperature_ = kHot * gain * std::pow(kCooling, static_cast<double>(round) / rounds);
      change();
    }
  }

 private:
  static constexpr double kHot = 0.1;      ///< of what a swap of the list wins in F on the average
  static constexpr double kCooling = 0.3;  ///< how cold it ends
  static constexpr int kSample = 300;
  static constexpr double kNothing = 1e300;  ///< the cost of a move where none was found

  /// Where few sites are left, their moves are seen in a smaller sample.
  int sample() const {
    const auto sites = static_cast<int>(layout_.freedom().sites.size());
    return std::min(kSample, 16 * sites);
  }

  int room() const { return budget_ - layout_.work(); }
  int any(const std::vector<int>& sites) { return sites[rng_.below(static_cast<std::uint32_t>(sites.size()))]; }

  void make(const Priced& move) {
    undo_.push_back(layout_.apply(move.move));
    change_ += move.cost;
  }

  /// Takes one step of the list back.
  void take_back() {
    const int site = any(layout_.moved());
    focus_[0] = focus_[1] = site;
    if (layout_.at_home(site)) {
      const int form = layout_.home_form(site);
      const Swap back{site, kNone, form, 0};
      make({back, layout_.cost(back)});
      return;
    }
    const int from = layout_.site_of(layout_.home_unit(site));
    focus_[1] = from;
    make(layout_.best_swap(site, from));
  }

  /// The best of a sample of moves that the room allows; half of them reach from where a step was taken back.
  Priced sampled(int size, bool turns_only) {
    const Freedom& freedom = layout_.freedom();
    Priced best;
    best.cost = kNothing;
    for (int k = 0; k < size; ++k) {
      const int a = k % 2 == 0 ? focus_[k / 2 % 2] : any(freedom.sites);
      Priced each;
      if (turns_only || room() < 2 || k % 16 == 15) {
        if (freedom.forms[layout_.held()[a].block].size() < 2) continue;
        each = layout_.best_turn(a);
      } else {
        const int b = any(freedom.sites);
        if (a == b || freedom.klass[a] != freedom.klass[b]) continue;
        each = layout_.best_swap(a, b);
      }
      // Only what adds to the list: else turning a block to and fro could fill it for ever.
      const int work = layout_.work_of(each.move);
      if (each.cost < best.cost && work > 0 && work <= room()) best = each;
    }
    return best;
  }

  void fill() {
    undo_.clear();
    focus_[0] = any(layout_.freedom().sites);
    focus_[1] = any(layout_.freedom().sites);
    while (room() > 0) {
      const Priced best = sampled(2 * sample(), false);
      if (best.cost > 0) break;
      make(best);
      bests_.offer(layout_);
    }
  }

  void change() {
    undo_.clear();
    change_ = 0;
    if (layout_.moved().empty()) return fill();
    take_back();
    if (rng_.below(4) == 0 && !layout_.moved().empty()) take_back();
    const int size = 2 + static_cast<int>(rng_.below(static_cast<std::uint32_t>(sample())));
    // Two turns are the work of a swap, and the first of them rarely beats one: now and then nothing else is tried.
    const bool turns_only = may_turn_ && rng_.below(8) == 0;
    while (room() > 0) {
      const Priced best = sampled(size, turns_only);
      const bool last = best.cost < kNothing && room() <= layout_.work_of(best.move);
      if (last || best.cost > temperature_) {
        if (!accepted(change_ + std::min(best.cost, 0.0))) return revert();
        if (best.cost < 0) make(best);
        return settle();
      }
      make(best);
    }
    if (accepted(change_)) return settle();
    revert();
  }

  bool accepted(double change) { return change <= 0 || rng_.uniform() < std::exp(-change / temperature_); }

  void settle() {
    if (!layout_.moved().empty()) {
      const int site = any(layout_.moved());
      if (!layout_.at_home(site)) {
        const Priced turn = layout_.best_turn(site);
        if (turn.cost < -1e-12) layout_.apply(turn.move);
      }
    }
    bests_.offer(layout_);
  }

  void revert() {
    for (std::size_t k = undo_.size(); k > 0; --k) layout_.apply(undo_[k - 1]);
  }

  Rearrangement& layout_;
  Rng rng_;
  Bests& bests_;
  int budget_ = 0;
  bool may_turn_ = false;
  double temperature_ = 1;
  double change_ = 0;
  int focus_[2] = {0, 0};
  std::vector<Swap> undo_;
};

}  // namespace

void anneal_lists(Rearrangement& layout, Seed seed, int rounds, Bests& bests) {
  if (layout.freedom().sites.size() < 2) return;
  Annealer annealer(layout, seed, bests);
  const double whole = std::max(-bests.within(bests.most()).worth.F, 1e-6);
  for (int half_swaps = 2; half_swaps <= bests.most(); half_swaps += 2) {
    const double gain = whole / (bests.most() / 2.0);
    annealer.run(half_swaps, rounds, gain);
  }
}

}  // namespace farflung::swap
