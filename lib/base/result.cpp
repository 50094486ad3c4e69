#include "base/result.hpp"

#include <string_view>

namespace farflung {

namespace {

constexpr std::string_view kPointerMark = ".json#";

/// Where the pointer begins in `at`; none where `at` is not a place within a JSON file.
std::size_t pointer_start(const std::string& at) {
  const std::size_t mark = at.rfind(kPointerMark);
  return mark == std::string::npos ? mark : mark + kPointerMark.size();
}

}  // namespace

std::string Problem::text() const { return at.empty() ? says() : at + ": " + says(); }

std::string Problem::says() const { return remedy.empty() ? cause : cause + ": " + remedy; }

std::string Problem::file() const {
  const std::size_t start = pointer_start(at);
  return start == std::string::npos ? "" : at.substr(0, start - 1);
}

std::string Problem::place() const {
  const std::size_t start = pointer_start(at);
  return start == std::string::npos ? at : at.substr(start);
}

}  // namespace farflung
