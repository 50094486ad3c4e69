#include <cmath>

#include "choice/thread.hpp"
#include "fuzz/entries.hpp"
#include "fuzz/promise.hpp"

namespace farflung::fuzz {

void threads(std::string_view bytes) {
  const Result<std::vector<choice::ThreadColour>> read = choice::threads_from_csv(bytes, "threads.csv");
  if (!read) return promise_reasons(read.problems());
  promise(!read->empty(), "a table has threads");
  for (const choice::ThreadColour& thread : *read) {
    promise(!thread.name.empty(), "a thread has a name");
    promise(std::isfinite(thread.lab.L + thread.lab.a + thread.lab.b), "a colour is finite");
  }
}

}  // namespace farflung::fuzz
