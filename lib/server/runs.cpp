#include "server/runs.hpp"

#include <algorithm>
#include <chrono>
#include <utility>

#include "base/limits.hpp"
#include "server/json.hpp"

namespace farflung::server {
namespace {

constexpr std::chrono::milliseconds kBetweenPictures{80};  // ten a second are wanted, and none comes just on time

bool over(const Run& run) { return run.state != Run::State::waiting && run.state != Run::State::running; }

Json progress_json(const job::Progress& progress) {
  Json json = {{"done", progress.done}, {"at", progress.at}};
  if (progress.touches) json["touch"] = *progress.touches;
  if (progress.F) json["F"] = *progress.F;
  return json;
}

}  // namespace

const char* name_of(Run::State state) {
  switch (state) {
    case Run::State::waiting:
      return "waiting";
    case Run::State::running:
      return "running";
    case Run::State::done:
      return "done";
    case Run::State::failed:
      return "failed";
    case Run::State::stopped:
      return "stopped";
  }
  return "";
}

Runs::Runs(Events& events, std::function<void(const Run&)> finished, int threads)
    : events_(events), finished_(std::move(finished)) {
  for (int k = 0; k < threads; ++k) threads_.emplace_back([this] { work(); });
}

Runs::~Runs() {
  {
    const std::lock_guard lock(mutex_);
    leaving_ = true;
    for (const auto& run : runs_) run->stop = true;
  }
  wake_.notify_all();
  for (std::thread& thread : threads_) thread.join();
}

std::shared_ptr<Run> Runs::start(const std::string& quilt, const std::string& does, Work work) {
  const std::lock_guard lock(mutex_);
  std::size_t waiting = 0;
  for (const auto& run : runs_) {
    if (over(*run)) continue;
    ++waiting;
    // Photographs may come by the dozen; anything else is one at a time.
    if (run->quilt == quilt && (run->does != does || does != "photograph")) return nullptr;
  }
  if (leaving_ || waiting >= limits::kWaitingRuns) return nullptr;
  forget_old();
  auto run = std::make_shared<Run>();
  run->id = std::to_string(++number_);
  run->quilt = quilt;
  run->does = does;
  run->work = std::move(work);
  runs_.push_back(run);
  wake_.notify_one();
  return run;
}

void Runs::forget_old() {
  auto it = runs_.begin();
  while (runs_.size() > limits::kKeptRuns && it != runs_.end()) it = over(**it) ? runs_.erase(it) : std::next(it);
}

/// The first that waits and whose quilt nothing else goes on with.
std::shared_ptr<Run> Runs::next() {
  for (const auto& run : runs_) {
    if (run->state != Run::State::waiting) continue;
    const bool busy = std::any_of(runs_.begin(), runs_.end(), [&](const auto& other) {
      return other->quilt == run->quilt && other->state == Run::State::running;
    });
    if (!busy) return run;
  }
  return nullptr;
}

void Runs::work() {
  std::unique_lock lock(mutex_);
  for (;;) {
    std::shared_ptr<Run> run;
    wake_.wait(lock, [&] { return leaving_ || (run = next()) != nullptr; });
    if (leaving_) return;
    run->state = Run::State::running;
    lock.unlock();
    const job::Outcome outcome = run->stop ? job::Outcome(job::stopped()) : run->work.job(watch(run));
    finish(run, outcome);
    lock.lock();
    wake_.notify_all();
  }
}

job::Watch Runs::watch(const std::shared_ptr<Run>& run) {
  using Clock = std::chrono::steady_clock;
  return [this, run, told = Clock::time_point(), drawn = Clock::time_point()](const job::Progress& now) mutable {
    const Clock::time_point time = Clock::now();
    if (time - told >= kBetweenPictures || now.done >= 1) {
      told = time;
      tell_progress(*run, now);
    }
    if (now.layout && time - drawn >= kBetweenPictures && events_.anyone(run->quilt)) {
      drawn = time;
      events_.tell(run->quilt, "layout", "{\"run\":\"" + run->id + "\"," + now.layout().substr(1), true);
    }
    return !run->stop;
  };
}

void Runs::tell_progress(Run& run, const job::Progress& now) {
  std::string text;
  {
    const std::lock_guard lock(mutex_);
    run.progress = now;
    run.progress.layout = nullptr;  // it holds only as long as the call that told it
    text = text_of(run, false);
  }
  events_.tell(run.quilt, "progress", std::move(text), true);
}

void Runs::finish(const std::shared_ptr<Run>& run, const job::Outcome& outcome) {
  std::string text;
  {
    const std::lock_guard lock(mutex_);
    if (outcome) {
      run->state = Run::State::done;
      run->progress.done = 1;
      run->report = outcome->json;
      run->words = outcome->words;
      run->promise_kept = outcome->promise_kept;
    } else {
      run->state = job::is_stopped(outcome.problems()) ? Run::State::stopped : Run::State::failed;
      run->report = problems_text(outcome.problems());
    }
    run->work.job = nullptr;
    text = text_of(*run, true);
    ended_.notify_all();
  }
  finished_(*run);
  events_.tell(run->quilt, "run", std::move(text));
}

std::string Runs::text_of(const Run& run, bool with_answer) const {
  Json json = {{"id", run.id}, {"does", run.does}, {"state", name_of(run.state)}};
  json.update(progress_json(run.progress));
  if (!with_answer || !over(run)) return json_text(json);
  json["words"] = run.words;
  json["promise_kept"] = run.promise_kept;
  if (run.state == Run::State::done && !run.work.file.empty()) json["file"] = run.work.file;
  std::string text = json_text(json);
  text.pop_back();
  return text + ",\"answer\":" + (run.report.empty() ? "{}" : run.report) + "}";
}

bool Runs::stop(const std::string& quilt, const std::string& id) {
  const std::lock_guard lock(mutex_);
  for (const auto& run : runs_) {
    if (run->quilt != quilt || run->id != id) continue;
    run->stop = true;
    return true;
  }
  return false;
}

void Runs::stop_all(const std::string& quilt) {
  std::unique_lock lock(mutex_);
  for (const auto& run : runs_) {
    if (run->quilt == quilt) run->stop = true;
  }
  ended_.wait(lock, [&] {
    return std::none_of(runs_.begin(), runs_.end(),
                        [&](const auto& run) { return run->quilt == quilt && !over(*run); });
  });
}

std::string Runs::report(const std::string& quilt, const std::string& id) const {
  const std::lock_guard lock(mutex_);
  for (const auto& run : runs_) {
    if (run->quilt == quilt && run->id == id) return text_of(*run, true);
  }
  return "";
}

std::string Runs::reports(const std::string& quilt) const {
  const std::lock_guard lock(mutex_);
  std::string text;
  for (auto run = runs_.rbegin(); run != runs_.rend(); ++run) {
    if ((*run)->quilt == quilt) text += (text.empty() ? "" : ",") + text_of(**run, false);
  }
  return "[" + text + "]";
}

std::string Runs::busy_with(const std::string& quilt) const {
  const std::lock_guard lock(mutex_);
  for (const auto& run : runs_) {
    if (run->quilt == quilt && !over(*run)) return run->does;
  }
  return "";
}

bool Runs::anything_running() const {
  const std::lock_guard lock(mutex_);
  return std::any_of(runs_.begin(), runs_.end(), [](const auto& run) { return !over(*run); });
}

}  // namespace farflung::server
