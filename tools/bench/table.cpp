#include "table.hpp"

#include <cstdarg>
#include <cstdio>

namespace farflung::bench {

void print_heading(const std::string& text) { std::printf("\n%s\n", text.c_str()); }

void print_row(const std::string& what, const std::string& reach, const std::string& found, Verdict verdict) {
  const char* says = verdict == Verdict::none ? "" : (verdict == Verdict::reached ? "reached" : "SHORT");
  std::printf("  %-46s | %-14s | %-64s %s\n", what.c_str(), reach.c_str(), found.c_str(), says);
  std::fflush(stdout);
}

std::string text(const char* format, ...) {
  char line[256];
  va_list values;
  va_start(values, format);
  std::vsnprintf(line, sizeof line, format, values);
  va_end(values);
  return line;
}

}  // namespace farflung::bench
