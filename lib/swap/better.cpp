#include "swap/better.hpp"

#include <algorithm>
#include <atomic>
#include <thread>

#include "swap/errands.hpp"
#include "swap/says.hpp"
#include "swap/search.hpp"

namespace farflung::swap {
namespace {

/// Everything a search starts from.
struct Ground {
  const score::Measure& measure;
  score::Model model;
  Sites sites;
  Freedom freedom;
  std::vector<Held> wall;

  explicit Ground(const score::Measure& of)
      : measure(of),
        model(score::model_of(of)),
        sites(of.quilt(), of.plan()),
        freedom(freedom_of(of, model, sites)),
        wall(held_of(sites.wall(), model, sites)) {}

  /// On sites.
  setting::Arrangement arrangement(const std::vector<Held>& held) const {
    setting::Arrangement layout = sites.wall();
    for (std::size_t s = 0; s < held.size(); ++s) {
      layout.block[s] = held[s].block;
      layout.turn[s] = sites.sites()[s].sewn() ? Turn::quarters(2 * held[s].form) : model.forms[held[s].form].turn;
    }
    return layout;
  }

  /// Between sites.
  Step step(const score::Swap& move) const {
    std::vector<Held> held = wall;
    const int b = move.b == kNone ? move.a : move.b;
    std::swap(held[move.a], held[b]);
    held[move.a].form = move.form_a;
    if (move.b != kNone) held[b].form = move.form_b;
    const setting::Arrangement after = arrangement(held);
    return {move.a, b, after.turn[move.a], after.turn[b]};
  }

  /// `after` is the layout, on sites, that the step leaves.
  score::Swap move(const Step& step, const setting::Arrangement& after) const {
    const std::vector<Held> held = held_of(after, model, sites);
    if (step.turns_only()) return {step.a, kNone, held[step.a].form, 0};
    return {step.a, step.b, held[step.a].form, held[step.b].form};
  }

  /// How much dearer prices are than a single block's: the mean over the sites of how many blocks hang there.
  double blocks_a_site() const {
    return std::max(1.0, static_cast<double>(model.places) / std::max<double>(1.0, static_cast<double>(wall.size())));
  }
};

/// Chains of annealing side by side, each from the same start with a seed of its own: half of them hold touches apart
/// at any price, half at the price of a few good swaps, which finds ways round.
constexpr int kChains = 4;

/// Changes to a list that a chain tries, all lists together, at effort 1.
constexpr double kRounds = 8'000;

void anneal(const Ground& ground, const BetterOptions& options, Bests& bests) {
  const double rounds_in_all = options.effort * kRounds / ground.blocks_a_site();
  const int rounds = std::max(1, static_cast<int>(rounds_in_all / options.most));
  const double gain = std::max(1e-3, -bests.within(2).worth.F);
  std::vector<Bests> found(kChains, bests);
  std::atomic<int> next = 0;
  const auto work = [&] {
    for (int chain = next++; chain < kChains; chain = next++) {
      const score::TouchPrice price = chain % 2 == 0 ? score::TouchPrice{4 * gain, 2 * gain, 2 * gain} : kTouchFirst;
      Rearrangement layout(ground.model, ground.freedom, ground.wall, price);
      anneal_lists(layout, derived(options.seed, static_cast<std::uint64_t>(chain)), rounds, found[chain]);
    }
  };
  std::vector<std::thread> threads;
  for (int k = 1; k < std::min(options.threads, kChains); ++k) threads.emplace_back(work);
  work();
  for (std::thread& thread : threads) thread.join();
  for (const Bests& each : found) bests.merge(each);
}

/// The steps to a layout, on sites, the one that mends the most first.
class BestFirst {
 public:
  explicit BestFirst(const Ground& ground)
      : ground_(ground),
        distance_(ground.measure.plan(), ground.sites),
        prices_(ground.model, ground.freedom, ground.wall, kTouchFirst) {}

  std::vector<Step> to(const setting::Arrangement& target) {
    setting::Arrangement layout = ground_.sites.wall();
    std::vector<Trip> left = errands_between(layout, target, ground_.sites.kinds(), distance_).trips;
    std::vector<Step> steps;
    prices_.become(ground_.wall);
    while (!left.empty()) {
      const std::size_t next = best_next(left, layout, target);
      const Trip trip = left[next];
      left.erase(left.begin() + static_cast<std::ptrdiff_t>(next));
      steps.push_back(step_of(trip, left, layout, target));
      make(steps.back(), layout);
      prices_.apply(ground_.move(steps.back(), layout));
    }
    return steps;
  }

 private:
  std::size_t best_next(const std::vector<Trip>& left, const setting::Arrangement& layout,
                        const setting::Arrangement& target) const {
    std::size_t best = 0;
    double least = 0;
    for (std::size_t t = 0; t < left.size(); ++t) {
      std::vector<Trip> others = left;
      others.erase(others.begin() + static_cast<std::ptrdiff_t>(t));
      // Trips that share a site keep their order.
      const bool free = std::none_of(left.begin(), left.begin() + static_cast<std::ptrdiff_t>(t),
                                     [&](const Trip& before) { return share_a_site(before, left[t]); });
      if (!free) continue;
      const Step step = step_of(left[t], others, layout, target);
      setting::Arrangement after = layout;
      make(step, after);
      const double cost = prices_.cost(ground_.move(step, after));
      if (t == 0 || cost < least) least = cost, best = t;
    }
    return best;
  }

  const Ground& ground_;
  Distances distance_;
  Rearrangement prices_;
};

/// Steps between sites as she makes them.
std::vector<Made> told(const Ground& ground, const std::vector<Step>& steps) {
  std::vector<Made> made;
  setting::Arrangement units = ground.sites.wall();
  setting::Arrangement layout = ground.measure.quilt().layout;
  for (const Step& each : steps) {
    const Step step = ground.sites.in_cells(each, units);
    make(each, units);
    setting::Arrangement after = layout;
    make(step, after);
    made.push_back({step, ground.measure.score(after), says_of(ground.measure, step, layout, after)});
    layout = std::move(after);
  }
  return made;
}

}  // namespace

BetterReport better_layouts(const score::Measure& measure, const BetterOptions& options) {
  const Ground ground(measure);
  BetterReport report;
  report.before = measure.score(measure.quilt().layout);
  Bests bests(2 * options.most, ground.wall);
  Rearrangement rival(ground.model, ground.freedom, ground.wall, kTouchFirst);
  best_swap_again_and_again(rival, bests.most(), bests);
  anneal(ground, options, bests);

  // Where blocks are alike a layout can be nearer than the search, which knows each block by name, believed.
  BestFirst best_first(ground);
  List list;
  list.after = report.before;
  std::vector<List> by_work(2 * options.most + 1, list);
  for (int work = 1; work <= bests.most(); ++work) {
    const std::vector<Held>& held = bests.within(work).held;
    list.steps = told(ground, best_first.to(ground.arrangement(held)));
    list.half_swaps = 0;
    list.after = report.before;
    for (const Made& made : list.steps) list.half_swaps += half_swaps(made.step), list.after = made.after;
    if (score::better(list.after, by_work[list.half_swaps].after)) by_work[list.half_swaps] = list;
  }
  for (int swaps = 1; swaps <= options.most; ++swaps) {
    const auto within = by_work.begin() + 2 * swaps + 1;
    const auto best = std::min_element(by_work.begin(), within,
                                       [](const List& a, const List& b) { return score::better(a.after, b.after); });
    report.lists.push_back(*best);
  }
  return report;
}

std::vector<Made> first_swaps(const score::Measure& measure, int count) {
  const Ground ground(measure);
  const Rearrangement layout(ground.model, ground.freedom, ground.wall, kTouchFirst);
  std::vector<Priced> best;
  for_each_move(layout, [&](const Priced& each) {
    if (each.cost > -1e-9) return;
    const auto at = std::upper_bound(best.begin(), best.end(), each,
                                     [](const Priced& a, const Priced& b) { return a.cost < b.cost; });
    if (at == best.end() && static_cast<int>(best.size()) >= count) return;
    best.insert(at, each);
    if (static_cast<int>(best.size()) > count) best.pop_back();
  });
  std::vector<Made> made;
  for (const Priced& each : best) {
    const std::vector<Made> one = told(ground, {ground.step(each.move)});
    made.push_back(one.front());
  }
  return made;
}

}  // namespace farflung::swap
