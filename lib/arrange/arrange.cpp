#include "arrange/arrange.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <mutex>
#include <thread>

#include "arrange/chain.hpp"
#include "arrange/elites.hpp"
#include "arrange/held.hpp"
#include "makeup/deal.hpp"
#include "score/measure.hpp"

namespace farflung::arrange {
namespace {

constexpr int kChains = 4;  // at once

/// How the work is parted: rounds of so many runs at once, each of so many proposals.
struct Rounds {
  int count = 1;
  std::int64_t proposals = 0;  ///< of one run

  int runs() const { return count * kChains; }
  bool crosses(int round) const { return round >= (count + 1) / 2; }
};

/// Blocks that can turn or hold several prints cost more a proposal, so that a quilt of so many cells takes about the
/// same time. Small quilts are given more than their share, and what is more than four runs need makes half longer
/// runs, half more of them: of a small quilt's layouts each run finds another, of a large one's all are alike and a
/// longer run finds a better.
Rounds rounds_of(const Task& task, double effort) {
  constexpr double kTypical = 168;  // cells of a quilt
  const bool plain = task.model->rows <= 1 && task.freedom.decks.empty();
  const double each = plain ? 60'000 : 28'000;  // proposals a place
  const double places = task.model->places;
  const double more = effort * std::max(places, std::min(kTypical, places + 60)) / places;
  Rounds rounds;
  rounds.count = std::max(1, static_cast<int>(std::ceil(std::sqrt(more) - 1e-9)));
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

/// Runs tasks 0 .. count - 1 on so many threads; which thread runs which does not matter.
void run_all(int count, int threads, const std::function<void(int)>& run) {
  const int cores = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
  const int workers = std::clamp(threads > 0 ? threads : cores, 1, count);
  std::atomic<int> next{0};
  const auto work = [&] {
    for (int k = next++; k < count; k = next++) run(k);
  };
  std::vector<std::thread> others;
  for (int k = 1; k < workers; ++k) others.emplace_back(work);
  work();
  for (std::thread& other : others) other.join();
}

/// What the chains tell, brought together for one listener.
class Listener {
 public:
  Listener(const Options& options, int chains) : options_(options), done_(chains, 0.0), scores_(chains) {}

  bool stopped() const { return stopped_; }

  /// `lay` makes a quilt of what a chain holds.
  bool hear(int chain, const Standing& standing, const score::Score& start,
            const std::function<quilt::Quilt(const Found&)>& lay) {
    if (stopped_) return false;
    if (!options_.progress) return true;
    const std::lock_guard lock(mutex_);
    if (standing.done >= 1 && done_[chain] >= 1) return true;  // a descent asks often and has nothing new to tell
    done_[chain] = standing.done;
    scores_[chain] = start;
    scores_[chain]->terms.touches += standing.change.touch.count;
    scores_[chain]->terms.touch_length += standing.change.touch.length;
    scores_[chain]->broken += standing.change.touch.ends;
    scores_[chain]->F += standing.change.F;
    Progress now = progress();
    if (chain == best_) now.laid = [&] { return lay(standing.found()); };
    if (!options_.progress(now)) stopped_ = true;
    return !stopped_;
  }

 private:
  Progress progress() {
    Progress all;
    const score::Score* best = nullptr;
    for (std::size_t k = 0; k < done_.size(); ++k) {
      all.done += done_[k] / static_cast<double>(done_.size());
      if (!scores_[k]) continue;
      if (best != nullptr && !score::better(*scores_[k], *best)) continue;
      best = &*scores_[k];
      best_ = static_cast<int>(k);
    }
    all.touches = best->terms.touches;
    all.F = best->F;
    return all;
  }

  const Options& options_;
  std::mutex mutex_;
  std::vector<double> done_;
  std::vector<std::optional<score::Score>> scores_;
  int best_ = 0;
  std::atomic<bool> stopped_{false};
};

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

/// What all runs find. Those of the later rounds begin from crossings of the best before; blocks whose prints are dealt
/// anew have no two layouts to cross. Once the listener has stopped them no further round begins.
std::vector<Found> all_runs(const Task& task, const std::vector<Held>& held, const Rounds& rounds,
                            const Options& options, const Listener& listener,
                            const std::function<Watch(int run, const std::vector<Held>&)>& watch) {
  Rng rng(derived(options.seed, 1));
  const Heat heat = sample_heat(task, random_start(task, held, rng), derived(options.seed, 2));
  Heat reheat = heat;
  reheat.first /= 2;
  Work work{rounds.proposals, {}};
  if (options.seconds) work = {2'000 * 250, clock_of(*options.seconds)};
  const std::vector<Symmetry> symmetries = {identity(task.model->places)};
  Elites elites(task, symmetries, 2 * kChains);
  std::vector<Found> found(rounds.runs());
  for (int round = 0; round < rounds.count && !listener.stopped(); ++round) {
    const bool crosses = rounds.crosses(round) && task.freedom.decks.empty();
    run_all(kChains, options.seconds ? kChains : options.threads, [&](int chain) {
      const int run = round * kChains + chain;
      Rng start(derived(options.seed, 10 + 2 * static_cast<std::uint64_t>(run)));
      const bool crossed = crosses && elites.enough_to_cross();
      const std::vector<Held> from = crossed ? elites.crossed(start) : random_start(task, held, start);
      found[run] = anneal(task, from, crossed ? reheat : heat, work,
                          derived(options.seed, 11 + 2 * static_cast<std::uint64_t>(run)), watch(run, from));
    });
    if (rounds.count == 1 || !task.freedom.decks.empty()) continue;
    for (int run = round * kChains; run < (round + 1) * kChains; ++run) {
      elites.take(found[run].held, rank_of(task, found[run]));
    }
  }
  return found;
}

/// The best of what all runs find, laid.
quilt::Quilt best_of_runs(const quilt::Quilt& quilt, const score::Measure& measure, const Task& task,
                          const Rounds& rounds, const Options& options, Listener& listener) {
  const score::Model& model = *task.model;
  const auto watch = [&](int run, const std::vector<Held>& from) -> Watch {
    const score::Score first =
        options.progress ? measure.score(laid(quilt, model, {from, model.pieces}).layout) : score::Score{};
    return [&, run, first](const Standing& standing) {
      return listener.hear(run, standing, first, [&](const Found& now) { return laid(quilt, model, now); });
    };
  };
  const std::vector<Found> found = all_runs(task, held_in(quilt, model), rounds, options, listener, watch);
  if (listener.stopped()) return quilt;
  quilt::Quilt best = laid(quilt, model, found[0]);
  score::Score best_score = score::score_of(best);
  for (std::size_t run = 1; run < found.size(); ++run) {
    quilt::Quilt other = laid(quilt, model, found[run]);
    const score::Score score = score::score_of(other);
    if (!score::better(score, best_score)) continue;
    best = std::move(other);
    best_score = score;
  }
  return best;
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
  const score::Model model = score::model_of(measure);
  Task task{&model, freedom_of(report.quilt, measure, model, open), std::nullopt};
  if (open) task.balance.emplace(report.quilt, measure.prints());
  const Rounds rounds = options.seconds ? Rounds{} : rounds_of(task, options.effort);
  Listener listener(options, rounds.runs());
  quilt::Quilt best = best_of_runs(report.quilt, measure, task, rounds, options, listener);
  if (listener.stopped()) {
    report.quilt = quilt;
    report.after = report.before;
    report.stopped = true;
    return report;
  }
  report.after = score::score_of(best);
  const score::Score given = measure.score(report.quilt.layout);
  if (open || score::better(report.after, given)) {
    report.quilt = std::move(best);
  } else {
    report.after = given;
  }
  if (report.after.terms.touches > 0) report.bound = bound_of(report.quilt);
  return report;
}

}  // namespace farflung::arrange
