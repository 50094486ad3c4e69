#include "arrange/arrange.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <mutex>
#include <thread>

#include "arrange/chain.hpp"
#include "makeup/deal.hpp"
#include "score/measure.hpp"

namespace farflung::arrange {
namespace {

constexpr int kChains = 4;

/// Proposals of one chain at effort 1, from what the instance needs to cool slowly enough.
std::int64_t default_proposals(const Task& task) {
  double turns = 0;
  for (const std::vector<int>& forms : task.freedom.forms) turns += static_cast<double>(forms.size());
  turns /= std::max<double>(1, static_cast<double>(task.freedom.forms.size()));
  const double places = std::max(20, task.model->places);
  return static_cast<std::int64_t>(places * 20'000 * (1 + 0.25 * (turns - 1)));
}

std::vector<Held> held_in(const quilt::Quilt& quilt, const score::Model& model) {
  std::vector<Held> held;
  for (const int cell : model.cell) {
    const int block = quilt.layout.block[cell];
    held.push_back({block, model.form_of(quilt.blocks[block].pattern, quilt.layout.turn[cell])});
  }
  return held;
}

quilt::Quilt laid(quilt::Quilt quilt, const score::Model& model, const Found& found) {
  for (int i = 0; i < model.places; ++i) {
    quilt.layout.block[model.cell[i]] = found.held[i].block;
    quilt.layout.turn[model.cell[i]] = model.forms[found.held[i].form].turn;
  }
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
  Listener(const Options& options, int chains) : options_(options), done_(chains, 0.0) {}

  bool stopped() const { return stopped_; }

  bool hear(int chain, double done) {
    if (stopped_) return false;
    if (!options_.progress) return true;
    const std::lock_guard lock(mutex_);
    if (done < 1 || done_[chain] < 1) {  // a descent asks often and has nothing new to tell
      done_[chain] = done;
      double sum = 0;
      for (const double each : done_) sum += each;
      if (!options_.progress({sum / static_cast<double>(done_.size())})) stopped_ = true;
    }
    return !stopped_;
  }

 private:
  const Options& options_;
  std::mutex mutex_;
  std::vector<double> done_;
  std::atomic<bool> stopped_{false};
};

/// The best of what all chains find, laid.
quilt::Quilt best_of_chains(const quilt::Quilt& quilt, const Task& task, const Options& options, Listener& listener) {
  const score::Model& model = *task.model;
  const std::vector<Held> held = held_in(quilt, model);
  Rng rng(derived(options.seed, 1));
  const Heat heat = sample_heat(task, random_start(task, held, rng), derived(options.seed, 2));
  Work work{static_cast<std::int64_t>(options.effort * static_cast<double>(default_proposals(task))), {}};
  if (options.seconds) {
    const auto started = std::chrono::steady_clock::now();
    const double seconds = std::max(0.01, *options.seconds);
    work.proposals = 2'000 * 250;
    work.clock = [started, seconds] {
      const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - started;
      return passed.count() / seconds;
    };
  }
  std::vector<Found> found(kChains);
  run_all(kChains, options.seconds ? kChains : options.threads, [&](int chain) {
    Rng start(derived(options.seed, 10 + static_cast<std::uint64_t>(chain)));
    found[chain] = anneal(task, random_start(task, held, start), heat, work,
                          derived(options.seed, 100 + static_cast<std::uint64_t>(chain)),
                          [&](double done) { return listener.hear(chain, done); });
  });
  quilt::Quilt best = laid(quilt, model, found[0]);
  score::Score best_score = score::score_of(best);
  for (int chain = 1; chain < kChains; ++chain) {
    quilt::Quilt other = laid(quilt, model, found[chain]);
    const score::Score score = score::score_of(other);
    if (!score::better(score, best_score)) continue;
    best = std::move(other);
    best_score = score;
  }
  return best;
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
      layout.turn[cell] = turns_of(quilt, quilt.blocks[b]).front();
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
  Listener listener(options, kChains);
  quilt::Quilt best = best_of_chains(report.quilt, task, options, listener);
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
  return report;
}

}  // namespace farflung::arrange
