// Pieces of work on several threads.
#pragma once

#include <functional>

namespace farflung::arrange {

/// Runs tasks 0 .. count - 1 on so many threads (0: one for each core); which thread runs which does not matter.
void run_all(int count, int threads, const std::function<void(int)>& run);

/// The same in steps: when all tasks of one have ended, `between` is called once, and the next begins where it says
/// true. It throws nothing.
void run_in_steps(int count, int threads, const std::function<void(int)>& run, const std::function<bool()>& between);

}  // namespace farflung::arrange
