#include "job/answer.hpp"

#include <algorithm>
#include <string_view>

namespace farflung::job {
namespace {

const Problem kStopped{Problem::Kind::input, "", "stopped", "nothing was changed"};

}  // namespace

std::string typed(const std::string& name) {
  const auto is_plain = [](unsigned char c) {
    return c >= 0x80 || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
           std::string_view("_./-+,:@%").find(static_cast<char>(c)) != std::string_view::npos;
  };
  if (!name.empty() && std::all_of(name.begin(), name.end(), is_plain)) return name;
  std::string quoted = "'";
  for (const char c : name) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

std::string tried_words(bool dry_run) { return dry_run ? "Only tried: nothing was written.\n" : ""; }

Problem stopped() { return kStopped; }

bool is_stopped(const Problems& problems) { return problems.size() == 1 && problems.front() == kStopped; }

}  // namespace farflung::job
