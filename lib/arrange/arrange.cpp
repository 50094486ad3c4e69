#include "arrange/arrange.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <memory>

#include "arrange/chain.hpp"
#include "arrange/far_starts.hpp"
#include "arrange/held.hpp"
#include "arrange/listener.hpp"
#include "arrange/run_all.hpp"
#include "arrange/tempering.hpp"
#include "makeup/deal.hpp"
#include "score/measure.hpp"

namespace farflung::arrange {
namespace {

constexpr double kClearing = 0.05;  // of a run's proposals: the exchanges that clear its start

/// How the work is parted: so many runs, each of so many proposals, that only cool or exchange their layouts as well.
struct Runs {
  int count = 4;
  std::int64_t proposals = 0;  ///< of one run
  bool exchange = false;
};

constexpr double kUsual = 168;  // cells of a quilt

/// How many layouts exchange best: small quilts' come round often and are worth more together; the larger a quilt, the
/// more a longer way of each is worth.
int exchanging(int places) {
  constexpr double kMost = 8, kLeast = 2;
  constexpr double kSmall = 63;  // cells: so many are right for the most
  return static_cast<int>(std::lround(std::clamp(kMost * std::pow(kSmall / places, 1.4), kLeast, kMost)));
}

/// Layouts that exchange need time to come round: the more cells they have, the more of it a place. Those of many cells
/// never do, are all as good as each other, and better the longer a run is.
Runs parted(double proposals_a_place, bool open, int places) {
  constexpr double kLarge = 2 * kUsual;
  constexpr double kOfOne = 120'000;  // proposals a place that a layout needs which exchanges, of the usual size
  Runs runs;
  const int layouts = exchanging(places);
  runs.exchange = !open && places <= kLarge && proposals_a_place >= layouts * kOfOne * places / kUsual;
  if (runs.exchange) runs.count = layouts;
  if (places > kLarge) runs.count = 2;
  runs.proposals = static_cast<std::int64_t>(proposals_a_place * places / runs.count);
  return runs;
}

/// Proposals a place: of a quilt of the usual size, of a small one at most, of a large one at least.
struct Pains {
  double usual = 0, most = 0, least = 0;
};

/// Blocks that can turn or hold several prints cost more a proposal, and prints to be dealt most. Quilts up to the
/// usual size take some seconds at most; a larger one takes as much longer as it has more places, up to a thousand of
/// them.
Runs runs_of(const Task& task, double effort) {
  constexpr double kSmall = 1.7;
  constexpr double kMany = 1'200;
  constexpr double kDearer = 1.1;  // beyond them each proposal takes longer as well
  const bool open = !task.freedom.decks.empty();
  const int places = std::max(1, task.model->places);
  const double size = kUsual / places;
  if (open) return parted(112'000 * effort * std::clamp(size, 1.0, 2.0), true, places);
  const bool one_slot = task.model->rows <= 1;
  const Pains pains = one_slot ? Pains{6'000'000, 7'000'000, 1'800'000} : Pains{750'000, 3'500'000, 600'000};
  const double small = std::min(pains.usual * std::pow(size, kSmall), pains.most);
  const double large = pains.least * std::min(1.0, std::pow(kMany / places, kDearer));
  return parted(effort * std::max(small, large), false, places);
}

/// Where so few layouts differ that each could be tried a thousand times over, no more is done than that.
Runs as_many_as_matter(Runs runs, double layouts) {
  constexpr double kOfEach = 1'000;
  if (static_cast<double>(runs.proposals) <= kOfEach * layouts) return runs;
  return {runs.count, static_cast<std::int64_t>(kOfEach * layouts), false};
}

/// The same by a clock: what a machine of our days proposes in so many seconds says how to part it.
Runs runs_for(const Task& task, double seconds) {
  constexpr double kProposals = 50e6;  // a second
  const int places = std::max(1, task.model->places);
  return parted(seconds * kProposals / places, !task.freedom.decks.empty(), places);
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

/// What one stage of the work has: a quilt to begin from and a share of the effort.
struct Stage {
  const quilt::Quilt& quilt;
  const score::Measure& measure;
  const Task& task;
  const Options& options;
  double share = 1;                      ///< of the effort, or of the seconds
  const FarStarts* far_apart = nullptr;  ///< where runs begin whose task has a clearance

  bool open() const { return !task.freedom.decks.empty(); }
  Runs runs() const {
    if (options.seconds) return runs_for(task, share * *options.seconds);
    const Runs usual = runs_of(task, share * options.effort);
    return open() ? usual : as_many_as_matter(usual, layouts_at_most(task.freedom, measure));
  }
};

/// What all runs find.
std::vector<Found> all_runs(const Stage& stage, const Runs& runs, const Listener& listener,
                            const std::function<Watch(int run, const std::vector<Held>&)>& watch) {
  const Task& task = stage.task;
  const Options& options = stage.options;
  const std::vector<Held> held = held_in(stage.quilt, *task.model);
  Rng rng(derived(options.seed, 1));
  const Heat heat = sample_heat(task, random_start(task, held, rng), derived(options.seed, 2));
  Work work{runs.proposals, {}};
  if (options.seconds) work.clock = clock_of(stage.share * *options.seconds);
  const int threads = options.seconds && !runs.exchange ? runs.count : options.threads;  // by a clock all run at once
  const auto seed_of = [&](int run, int part) {
    return derived(options.seed, 10 + 2 * static_cast<std::uint64_t>(run) + part);
  };
  std::vector<std::vector<Held>> starts(runs.count);
  std::vector<Watch> watches(runs.count);
  std::vector<Found> found(runs.count);
  run_all(runs.count, threads, [&](int run) {
    Rng start(seed_of(run, 0));
    starts[run] = random_start(task, held, start);
    if (stage.far_apart != nullptr) {
      const double patience = kClearing * static_cast<double>(runs.proposals) / task.model->places;
      starts[run] =
          stage.far_apart->cleared(starts[run], patience, seed_of(run, 0), [&] { return !listener.stopped(); });
    }
    watches[run] = watch(run, starts[run]);
    if (!runs.exchange) found[run] = anneal(task, starts[run], heat, work, seed_of(run, 1), watches[run]);
  });
  if (!runs.exchange) return found;
  return temper(task, starts, heat, work, derived(options.seed, 5), options.threads, watches);
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

/// A quilt, its score, and how many different pictures its blocks show; 0 where prints are dealt.
struct Scored {
  quilt::Quilt quilt;
  score::Score score;
  int pictures = 0;
};

/// Whether `a` is taken rather than `b`: of layouts that are as good, the more regular one. One row turned about among
/// others reads as a mistake.
bool taken_before(const Scored& a, const Scored& b) {
  if (score::better(a.score, b.score)) return true;
  return a.pictures < b.pictures && !score::better(b.score, a.score);
}

/// What laying all blocks one way leads down to, where all of them can show the same and nothing is dealt. Such layouts
/// are so regular that a search which turns blocks one by one finds none as free of touches in a large quilt.
std::vector<Found> one_way(const Stage& stage, const Listener& listener) {
  std::vector<Found> found;
  if (stage.open() || stage.task.clearance) return found;
  for (std::vector<Held>& start : all_one_way(stage.task.freedom, held_in(stage.quilt, *stage.task.model))) {
    found.push_back(descend(stage.task, std::move(start), {}, derived(stage.options.seed, 6),
                            [&](const Standing&) { return !listener.stopped(); }));
  }
  return found;
}

/// The best of what all runs of a stage find, laid and measured as it is dealt; the stage's own quilt where they were
/// stopped.
Scored best_of_runs(const Stage& stage, double until, Listener& listener) {
  const Runs runs = stage.runs();
  listener.begin_stage(runs.count, until);
  std::vector<Found> found = all_runs(stage, runs, listener, [&](int run, const std::vector<Held>& from) {
    return stage.open() ? watch_open(stage, run, listener) : watch_sewn(stage, run, from, listener);
  });
  for (Found& regular : one_way(stage, listener)) found.push_back(std::move(regular));
  std::optional<Scored> best;
  for (std::size_t k = 0; k < found.size() && !listener.stopped(); ++k) {
    Scored now{laid(stage.quilt, *stage.task.model, found[k]), {}};
    if (!stage.open()) now.pictures = pictures_shown(stage.task.freedom, found[k].held);
    now.score = stage.open() ? stage.measure.dealt_anew(now.quilt).score(now.quilt.layout)
                             : stage.measure.score(now.quilt.layout);
    if (!best || taken_before(now, *best)) best = std::move(now);
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
  Scored dealt = best_of_runs({quilt, measure, task, options, kDealing}, kDealing, listener);
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
    auto dealt = makeup::deal(report.quilt, {derived(options.seed, 3), {}, options.most, options.halves});
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
