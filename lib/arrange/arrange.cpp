#include "arrange/arrange.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <memory>

#include "arrange/chain.hpp"
#include "arrange/elites.hpp"
#include "arrange/far_starts.hpp"
#include "arrange/held.hpp"
#include "arrange/listener.hpp"
#include "arrange/run_all.hpp"
#include "makeup/deal.hpp"
#include "score/measure.hpp"

namespace farflung::arrange {
namespace {

constexpr int kChains = 4;          // at once
constexpr double kClearing = 0.05;  // of a run's proposals: the exchanges that clear its start

/// How the work is parted: rounds of so many runs at once, each of so many proposals.
struct Rounds {
  int count = 1;
  std::int64_t proposals = 0;  ///< of one run

  int runs() const { return count * kChains; }
  bool crosses(int round) const { return round >= (count + 4) / 5; }
};

/// Blocks that can turn or hold several prints cost more a proposal and prints to be dealt most, so that a quilt of so
/// many cells takes about the same time. Small quilts are given up to twice their share, in many short rounds: each run
/// finds another of their many good layouts, and crossings find better. Of a large one's all are alike and a longer run
/// finds a better, so that it has one round; of more work than one effort, half makes longer runs and half more of
/// them.
Rounds rounds_of(const Task& task, double effort) {
  constexpr double kTypical = 168;  // cells of a quilt
  const bool one_slot = task.model->rows <= 1;
  const double each = !task.freedom.decks.empty() ? 28'000 : (one_slot ? 200'000 : 120'000);  // proposals a place
  const double places = task.model->places;
  const double more = effort * std::max(places, std::min(kTypical, 2 * places)) / places;
  Rounds rounds;
  const double few = std::clamp(kTypical / places, 1.0, 12.0);
  const double times = task.freedom.decks.empty() ? std::sqrt(effort) * few * few : std::sqrt(more);
  rounds.count = std::max(1, static_cast<int>(std::ceil(times - 1e-9)));
  rounds.proposals = static_cast<std::int64_t>(more * each * places / rounds.count);
  return rounds;
}

quilt::Quilt laid(quilt::Quilt quilt, const score::Model& model, const Found& found) {
  lay(found.held, model, quilt.layout);
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    for (std::size_t slot = 0; slot < quilt.blocks[b].prints.size(); ++slot) {
      if (quilt.patterns[quilt.blocks[b].pattern].slots[slot].print != kNone) continue;
      quilt.blocks[b].prints[slot] = found.pieces[b].prints[slot];
    }
  }
  return quilt;
}

std::function<double()> clock_of(double seconds) {
  const auto started = std::chrono::steady_clock::now();
  return [started, seconds] {
    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - started;
    return passed.count() / std::max(0.01, seconds);
  };
}

/// What elites are ranked by: no F outweighs a touch or an end that a rule wants nested.
double rank_of(const Task& task, const Found& found) {
  constexpr double kTouch = 1e6;
  const score::Pricer pricer(*task.model, found.held, {});
  const score::TouchSum touch = pricer.touch();
  return pricer.F() + kTouch * (touch.count + touch.ends);
}

/// What one stage of the work has: a quilt to begin from and a share of the effort.
struct Stage {
  const quilt::Quilt& quilt;
  const score::Measure& measure;
  const Task& task;
  const Options& options;
  double share = 1;                      ///< of the effort, or of the seconds
  const FarStarts* far_apart = nullptr;  ///< where runs begin whose task has a clearance

  bool open() const { return !task.freedom.decks.empty(); }
  Rounds rounds() const { return options.seconds ? Rounds{} : rounds_of(task, share * options.effort); }
};

/// What all runs find. Those of the later rounds begin from crossings of the best before; blocks whose prints are dealt
/// anew have no two layouts to cross. Once the listener has stopped them no further round begins.
std::vector<Found> all_runs(const Stage& stage, const Rounds& rounds, const Listener& listener,
                            const std::function<Watch(int run, const std::vector<Held>&)>& watch) {
  const Task& task = stage.task;
  const Options& options = stage.options;
  const std::vector<Held> held = held_in(stage.quilt, *task.model);
  Rng rng(derived(options.seed, 1));
  const Heat heat = sample_heat(task, random_start(task, held, rng), derived(options.seed, 2));
  Heat reheat = heat;
  reheat.first /= 2;
  Work work{rounds.proposals, {}};
  if (options.seconds) work = {2'000 * 250, clock_of(stage.share * *options.seconds)};
  const int places = task.model->places;
  const std::vector<Symmetry> symmetries = {identity(places)};
  Elites elites(task, symmetries, 2 * kChains);
  std::vector<Found> found(rounds.runs());
  for (int round = 0; round < rounds.count && !listener.stopped(); ++round) {
    const bool crosses = rounds.crosses(round) && !stage.open();
    run_all(kChains, options.seconds ? kChains : options.threads, [&](int chain) {
      const int run = round * kChains + chain;
      const Seed seed = derived(options.seed, 10 + 2 * static_cast<std::uint64_t>(run));
      Rng start(seed);
      const bool crossed = crosses && elites.enough_to_cross();
      std::vector<Held> from = crossed ? elites.crossed(start) : random_start(task, held, start);
      if (stage.far_apart != nullptr) {
        from = stage.far_apart->cleared(from, kClearing * work.proposals / places, seed,
                                        [&] { return !listener.stopped(); });
      }
      found[run] = anneal(task, from, crossed ? reheat : heat, work,
                          derived(options.seed, 11 + 2 * static_cast<std::uint64_t>(run)), watch(run, from));
    });
    if (rounds.count == 1 || stage.open()) continue;
    for (int run = round * kChains; run < (round + 1) * kChains; ++run) {
      elites.take(found[run].held, rank_of(task, found[run]));
    }
  }
  return found;
}

/// How a run whose blocks stay as they are is told: its first score, and what has changed since.
Watch watch_sewn(const Stage& stage, int run, const std::vector<Held>& from, Listener& listener) {
  if (!listener.listens()) return [](const Standing&) { return true; };
  const score::Model& model = *stage.task.model;
  const score::Score first = stage.measure.score(laid(stage.quilt, model, {from, model.pieces}).layout);
  return [&stage, &listener, run, first](const Standing& standing) {
    score::Score now = first;
    now.terms.touches += standing.change.touch.count;
    now.terms.touch_length += standing.change.touch.length;
    now.broken += standing.change.touch.ends;
    now.F += standing.change.F;
    return listener.hear(run, standing.done, now,
                         [&] { return laid(stage.quilt, *stage.task.model, standing.found()); });
  };
}

/// How a run that deals prints is told: dealing changes what an average shuffle of the blocks is, so that now and then
/// the quilt is measured anew as the run has it, and told as it was then until the next time.
Watch watch_open(const Stage& stage, int run, Listener& listener) {
  if (!listener.listens()) return [](const Standing&) { return true; };
  struct Look {
    quilt::Quilt quilt;
    score::Score score;
    double next = 0;  ///< how far the run is to be before the next look
  };
  return [&stage, &listener, run, look = std::make_shared<Look>()](const Standing& standing) {
    constexpr double kBetween = 0.05;
    if (standing.done >= look->next) {
      look->quilt = laid(stage.quilt, *stage.task.model, standing.found());
      look->score = stage.measure.dealt_anew(look->quilt).score(look->quilt.layout);
      look->next = standing.done < 1 ? std::min(1.0, standing.done + kBetween) : 2;
    }
    return listener.hear(run, standing.done, look->score, [&] { return look->quilt; });
  };
}

/// A quilt and its score.
struct Scored {
  quilt::Quilt quilt;
  score::Score score;
};

/// The best of what all runs of a stage find, laid and measured as it is dealt; the stage's own quilt where they were
/// stopped.
Scored best_of_runs(const Stage& stage, double until, Listener& listener) {
  const Rounds rounds = stage.rounds();
  listener.begin_stage(rounds.runs(), until);
  const std::vector<Found> found = all_runs(stage, rounds, listener, [&](int run, const std::vector<Held>& from) {
    return stage.open() ? watch_open(stage, run, listener) : watch_sewn(stage, run, from, listener);
  });
  std::optional<Scored> best;
  for (std::size_t run = 0; run < found.size() && !listener.stopped(); ++run) {
    Scored now{laid(stage.quilt, *stage.task.model, found[run]), {}};
    now.score = stage.open() ? stage.measure.dealt_anew(now.quilt).score(now.quilt.layout)
                             : stage.measure.score(now.quilt.layout);
    if (!best || score::better(now.score, best->score)) best = std::move(now);
  }
  return best ? *best : Scored{stage.quilt, stage.measure.score(stage.quilt.layout)};
}

/// Places and turns for blocks that are as they are, every goal weighed against every other.
Scored laid_freely(const quilt::Quilt& quilt, const score::Measure& measure, const Options& options, double share,
                   Listener& listener) {
  const score::Model model = score::model_of(measure);
  const Task task{&model, freedom_of(quilt, measure, model, false), std::nullopt};
  return best_of_runs({quilt, measure, task, options, share}, 1, listener);
}

/// The same where the closest two copies come before all but touches: first they are brought as far apart as can be,
/// then the other goals are sought among the layouts that leave them so.
Scored laid_far_apart(const quilt::Quilt& quilt, const score::Measure& measure, const Options& options, double share,
                      Listener& listener) {
  constexpr double kPatience = 20'000;  // exchanges a place at an effort of 1
  quilt::Quilt others = quilt;
  others.goals.closest = 0;
  const score::Measure without(others);
  const score::Model model = score::model_of(without);
  Task task{&model, freedom_of(quilt, measure, model, false), std::nullopt};
  const std::function<double()> clock = options.seconds ? clock_of(share * *options.seconds / 4) : nullptr;
  const Trying trying{clock ? 10 * kPatience : kPatience * share * options.effort, options.threads,
                      [&] { return !clock || clock() < 1; }};
  const FarStarts far_apart(task, measure.places(), held_in(quilt, model), trying, derived(options.seed, 4));
  task.clearance = far_apart.clearance();
  return best_of_runs({quilt, measure, task, options, clock ? 3 * share / 4 : share, &far_apart}, 1, listener);
}

/// Places and turns for blocks that are as they are; never worse than the quilt lies.
Scored laid_anew(const quilt::Quilt& quilt, const score::Measure& measure, const Options& options, double share,
                 Listener& listener) {
  const bool far_apart = quilt.goals.closest > 0;
  Scored best = far_apart ? laid_far_apart(quilt, measure, options, share, listener)
                          : laid_freely(quilt, measure, options, share, listener);
  if (far_apart && best.score.terms.touches + best.score.broken > 0 && !listener.stopped()) {  // those come first
    const Scored freely = laid_freely(quilt, measure, options, share, listener);
    if (score::better(freely.score, best.score)) best = freely;
  }
  const score::Score given = measure.score(quilt.layout);
  if (!score::better(best.score, given)) best = {quilt, given};
  return best;
}

/// Make-up and places together; then, what was dealt measured as it is, places alone.
Scored dealt_and_laid(const quilt::Quilt& quilt, const score::Measure& measure, const Options& options,
                      Listener& listener) {
  constexpr double kDealing = 0.25;  // of the effort: laying what is dealt anew gains more than dealing longer
  const score::Model model = score::model_of(measure);
  const Task task{&model, freedom_of(quilt, measure, model, true), makeup::Balance(quilt, measure.prints())};
  if (task.freedom.decks.empty()) return laid_anew(quilt, measure, options, 1, listener);
  const Scored dealt = best_of_runs({quilt, measure, task, options, kDealing}, kDealing, listener);
  if (listener.stopped()) return dealt;
  return laid_anew(dealt.quilt, measure.dealt_anew(dealt.quilt), options, 1 - kDealing, listener);
}

score::TouchBound bound_of(const quilt::Quilt& quilt) {
  score::TurnsOfBlocks turns;
  for (const block::Block& block : quilt.blocks) turns.push_back(quilt::turns_of(quilt, block));
  return score::touch_bound(score::Measure(quilt), quilt.layout, turns);
}

}  // namespace

Problems Options::check() const {
  Problems problems;
  if (!(effort > 0) || effort > 1e6) {
    problems.push_back(input_problem("--effort", "effort must be above 0", "give a number such as 1 or 8"));
  }
  if (seconds && !(*seconds > 0)) {
    problems.push_back(input_problem("--seconds", "seconds must be above 0", "give a number such as 10"));
  }
  return problems;
}

setting::Arrangement filled(const quilt::Quilt& quilt) {
  setting::Arrangement layout = quilt.layout;
  for (const int block : layout.block) {
    if (block != kNone) return layout;
  }
  const setting::Plan plan = quilt::plan_of(quilt);
  std::vector<bool> used(quilt.blocks.size(), false);
  for (std::size_t cell = 0; cell < plan.cells.size(); ++cell) {
    for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
      const int own = plan.cells[cell].pattern;
      if (used[b] || (own != kNone && own != quilt.blocks[b].pattern)) continue;
      used[b] = true;
      layout.block[cell] = static_cast<int>(b);
      layout.turn[cell] = quilt::turns_of(quilt, quilt.blocks[b]).front();
      break;
    }
  }
  return layout;
}

Result<Report> arrange(const quilt::Quilt& quilt, const Options& options) {
  Problems problems = options.check();
  if (!problems.empty()) return problems;
  Report report;
  report.before = score::score_of(quilt);
  report.quilt = quilt;
  report.quilt.layout = filled(quilt);
  const bool open = options.blocks == Options::Blocks::open;
  if (open) {
    auto dealt = makeup::deal(report.quilt, {derived(options.seed, 3), {}, options.most});
    if (!dealt) return dealt.problems();
    report.quilt.blocks = std::move(*dealt);
  }
  const score::Measure measure(report.quilt);
  if (measure.places().count() == 0) {
    return input_problem("/layout", "no cell holds a block", "make blocks first");
  }
  Listener listener(options.progress);
  Scored best = open ? dealt_and_laid(report.quilt, measure, options, listener)
                     : laid_anew(report.quilt, measure, options, 1, listener);
  if (listener.stopped()) {
    report.quilt = quilt;
    report.after = report.before;
    report.stopped = true;
    return report;
  }
  report.after = best.score;
  report.quilt = std::move(best.quilt);
  if (report.after.terms.touches > 0) report.bound = bound_of(report.quilt);
  return report;
}

}  // namespace farflung::arrange
