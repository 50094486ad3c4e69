// The rows that the benches print: what was measured, what is reached for, what was found.
#pragma once

#include <string>

namespace farflung::bench {

enum class Verdict { none, reached, short_of };

inline Verdict verdict(bool reached) { return reached ? Verdict::reached : Verdict::short_of; }

void print_heading(const std::string& text);
void print_row(const std::string& what, const std::string& reach, const std::string& found,
               Verdict verdict = Verdict::none);

/// As std::snprintf.
[[gnu::format(printf, 1, 2)]] std::string text(const char* format, ...);

}  // namespace farflung::bench
