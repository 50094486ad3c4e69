// Words in lines that fit a terminal.
#pragma once

#include <cstddef>
#include <string>

namespace farflung::app {

/// Lines longer than `width` characters are broken between words; what goes on stands two further in than its line
/// began, or at `hang` where that is given. Lines that fit, and words too long for any line, stay as they are.
std::string wrapped(const std::string& text, std::size_t width, std::size_t hang = 0);

}  // namespace farflung::app
