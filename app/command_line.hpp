// The command line: what may be said, and which job each saying is.
#pragma once

namespace farflung::app {

/// Runs one command and gives the exit status: 0 done; 1 the system failed it; 2 the input or the command line is
/// wrong; 3 done as well as can be, but a promise could not be kept; 130 stopped by Ctrl-C, nothing changed.
int run(int count, char** words);

}  // namespace farflung::app
