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
  Freedom freedom;
  std::vector<Held> wall;

  explicit Ground(const score::Measure& of)
      : measure(of), model(score::model_of(of)), freedom(freedom_of(of, model, of.quilt().layout)) {
    for (const int cell : of.places().cell) wall.push_back(held_in(of.quilt().layout, cell));
  }

  Held held_in(const setting::Arrangement& layout, int cell) const {
    const int block = layout.block[cell];
    return {block, model.form_of_block(block, layout.turn[cell])};
  }

  setting::Arrangement arrangement(const std::vector<Held>& held) const {
    setting::Arrangement layout = measure.quilt().layout;
    for (std::size_t i = 0; i < held.size(); ++i) {
      layout.block[model.cell[i]] = held[i].block;
      layout.turn[model.cell[i]] = model.forms[held[i].form].turn;
    }
    return layout;
  }

  Step step(const score::Swap& move) const {
    const int b = move.b == kNone ? move.a : move.b;
    return {model.cell[move.a], model.cell[b], model.forms[move.form_a].turn,
            model.forms[move.b == kNone ? move.form_a : move.form_b].turn};
  }

  /// `after` is the layout that the step leaves.
  score::Swap move(const Step& step, const setting::Arrangement& after) const {
    const int a = model.place_of_cell[step.a];
    const int form_a = held_in(after, step.a).form;
    if (step.turns_only()) return {a, kNone, form_a, 0};
    return {a, model.place_of_cell[step.b], form_a, held_in(after, step.b).form};
  }
};

/// Chains of annealing side by side, each from the same start with a seed of its own: half of them hold touches apart
/// at any price, half at the price of a few good swaps, which finds ways round.
constexpr int kChains = 4;

/// Changes to a list that a chain tries, all lists together, at effort 1.
constexpr double kRounds = 8'000;

void anneal(const Ground& ground, const BetterOptions& options, Bests& bests) {
  const int rounds = std::max(1, static_cast<int>(options.effort * kRounds / options.most));
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

/// The steps to a layout, the one that mends the most first.
class BestFirst {
 public:
  explicit BestFirst(const Ground& ground)
      : ground_(ground),
        distance_(ground.measure.plan()),
        kinds_(make_ups(ground.measure.quilt())),
        prices_(ground.model, ground.freedom, ground.wall, kTouchFirst) {}

  std::vector<Step> to(const setting::Arrangement& target) {
    setting::Arrangement layout = ground_.measure.quilt().layout;
    std::vector<Trip> left = errands_between(layout, target, kinds_, distance_).trips;
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
      // Trips that share a cell keep their order.
      const bool free = std::none_of(left.begin(), left.begin() + static_cast<std::ptrdiff_t>(t),
                                     [&](const Trip& before) { return share_a_cell(before, left[t]); });
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
  std::vector<int> kinds_;
  Rearrangement prices_;
};

std::vector<Made> told(const score::Measure& measure, const std::vector<Step>& steps) {
  std::vector<Made> made;
  setting::Arrangement layout = measure.quilt().layout;
  for (const Step& step : steps) {
    setting::Arrangement after = layout;
    make(step, after);
    made.push_back({step, measure.score(after), says_of(measure, step, layout, after)});
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
    list.steps = told(measure, best_first.to(ground.arrangement(held)));
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
    const std::vector<Made> one = told(measure, {ground.step(each.move)});
    made.push_back(one.front());
  }
  return made;
}

}  // namespace farflung::swap
