#include "block/pattern.hpp"

#include "fuzz/entries.hpp"
#include "fuzz/promise.hpp"
#include "project/patterns.hpp"

namespace farflung::fuzz {

void pattern(std::string_view bytes) {
  const Result<block::Pattern> read = project::pattern_from_text(std::string(bytes), "own.json");
  if (!read) return promise_reasons(read.problems());
  promise(block::problems_of(*read, "").empty(), "what is read is a valid pattern");
}

}  // namespace farflung::fuzz
