// Pieces of work on several threads.
#pragma once

#include <functional>

namespace farflung::arrange {

/// Runs tasks 0 .. count - 1 on so many threads (0: one for each core); which thread runs which does not matter.
void run_all(int count, int threads, const std::function<void(int)>& run);

}  // namespace farflung::arrange
