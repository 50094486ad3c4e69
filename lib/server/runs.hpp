// Long jobs, run beside the server: one at a time for each quilt, watched, stopped, their answers kept for a while.
#pragma once

#include <atomic>
#include <condition_variable>
#include <functional>
#include <list>
#include <memory>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "job/answer.hpp"
#include "server/events.hpp"

namespace farflung::server {

/// What a long job is to do, and where what it makes can then be had.
struct Work {
  std::function<job::Outcome(const job::Watch&)> job;
  std::string file;  ///< an address; empty: it makes no file
};

/// One long job on one quilt.
struct Run {
  enum class State { waiting, running, done, failed, stopped };

  /// A number that no other run of this server has, and the quilt's name.
  std::string id, quilt;
  std::string does;  ///< "arrange", "photograph" ...
  Work work;

  // What follows is written under the lock of Runs.
  State state = State::waiting;
  job::Progress progress;
  std::string report;  ///< the answer's JSON, or the problems'
  std::string words;
  bool promise_kept = true;
  std::atomic<bool> stop{false};
};

/// "waiting", "running", "done", "failed", "stopped".
const char* name_of(Run::State state);

/// Safe to use from several threads.
class Runs {
 public:
  /// `finished` is called on the run's own thread once its answer stands, before the next run of its quilt begins.
  Runs(Events& events, std::function<void(const Run&)> finished, int threads = 2);
  ~Runs();  ///< stops them all, and waits for them

  /// Begins a run; a photograph waits where others of that quilt go on. None where anything else goes on with the
  /// quilt, or too many wait.
  std::shared_ptr<Run> start(const std::string& quilt, const std::string& does, Work work);

  /// Asks a run to stop, and does not wait for it; false where there is no such run.
  bool stop(const std::string& quilt, const std::string& id);
  void stop_all(const std::string& quilt);  ///< and waits until none goes on

  /// The run as JSON: id, does, state, done, at, touch, F, and once it is over
  /// words, promise_kept, file (the address of what was made) and answer: the job's own report, or its problems.
  /// Empty where there is no such run.
  std::string report(const std::string& quilt, const std::string& id) const;
  std::string reports(const std::string& quilt) const;  ///< the latest first

  /// What goes on with a quilt and may change it; empty where nothing does.
  std::string busy_with(const std::string& quilt) const;
  /// Whether any run of any quilt waits or goes on.
  bool anything_running() const;

 private:
  void work();
  std::shared_ptr<Run> next();
  job::Watch watch(const std::shared_ptr<Run>& run);
  void tell_progress(Run& run, const job::Progress& now);
  void finish(const std::shared_ptr<Run>& run, const job::Outcome& outcome);
  std::string text_of(const Run& run, bool with_answer) const;
  void forget_old();

  Events& events_;
  std::function<void(const Run&)> finished_;
  mutable std::mutex mutex_;
  std::condition_variable wake_, ended_;
  std::list<std::shared_ptr<Run>> runs_;  ///< in the order in which they were started
  int number_ = 0;
  bool leaving_ = false;
  std::vector<std::thread> threads_;
};

}  // namespace farflung::server
