// What a slot asks for, in a word.
#pragma once

#include "block/pattern.hpp"

namespace farflung::block {

/// "any", "light" or "dark", as a file says it.
inline const char* word_of(Slot::Value value) {
  return value == Slot::Value::light ? "light" : value == Slot::Value::dark ? "dark" : "any";
}

}  // namespace farflung::block
