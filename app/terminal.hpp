// How the program speaks: results on standard output, everything else on standard error.
#pragma once

#include <chrono>
#include <string>

#include "base/result.hpp"
#include "job/answer.hpp"

namespace farflung::app {

/// Exit statuses, as the manual lists them.
enum Status { kDone = 0, kSystemFailed = 1, kWrongInput = 2, kPromiseBroken = 3, kInterrupted = 130 };

struct Manner {
  bool json = false;
  bool quiet = false;
  bool verbose = false;
  bool plain = false;    ///< no colour, no moving progress line
  std::string progress;  ///< "json": a line of JSON on standard error for each step, for other programs to read
};

class Terminal {
 public:
  explicit Terminal(const Manner& manner);

  /// Prints what a job gave back and says with which status to leave.
  Status show(const job::Outcome& outcome) const;

  /// A complaint about the command line itself.
  Status wrong_usage(const std::string& cause, const std::string& remedy) const;

  /// Draws the progress line where standard error is a terminal; false once Ctrl-C was pressed.
  job::Watch watch() const;

 private:
  void complain(const Problems& problems) const;
  void tell_cost() const;

  Manner manner_;
  bool moving_;  ///< the progress line may be redrawn in place
  bool colour_;
  std::chrono::steady_clock::time_point started_ = std::chrono::steady_clock::now();
};

/// From here on Ctrl-C asks a job that watches to stop; any other job, or a second Ctrl-C, leaves at once.
void listen_for_interrupt();
bool interrupted();

}  // namespace farflung::app
