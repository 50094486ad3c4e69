// What is wrong with a command line, in words of ours.
#pragma once

#include <string>
#include <vector>

#include <CLI/CLI.hpp>

namespace farflung::app {

/// What the parser found wrong with `words`, of which `line` (a command, or the whole parser where none was named)
/// could make nothing: "--seed: its value is missing". Told by the kind of the error and by what was said: how the
/// parser words it is its own affair, and stands only where there is nothing better.
std::string in_plain_words(const CLI::App& parser, const CLI::App& line, const CLI::ParseError& error,
                           const std::vector<std::string>& words);

}  // namespace farflung::app
