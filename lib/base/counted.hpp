// How many of a thing there are, in words.
#pragma once

#include <concepts>
#include <string>

namespace farflung {

/// "1 print", "3 prints"; "1 touch", "2 touches".
template <std::integral Count>
std::string counted(Count count, const std::string& one, const std::string& many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

/// The same of what takes an s: "1 block", "3 blocks".
template <std::integral Count>
std::string counted(Count count, const std::string& one) {
  return counted(count, one, one + "s");
}

}  // namespace farflung
