// An address as a code that a telephone's camera reads (QR, ISO/IEC 18004).
#pragma once

#include <string>

namespace farflung::server {

/// Black on white with the quiet border that readers need; empty where the text is too long.
std::string code_svg(const std::string& text);

/// For a terminal: lines of half blocks, light on dark whatever its colours.
std::string code_lines(const std::string& text);

}  // namespace farflung::server
