// What --help says.
#pragma once

#include <string>

#include <CLI/CLI.hpp>

namespace farflung::app {

/// The page of the program: its commands, what goes with each of them, an example. No line is longer than 80.
std::string help_page(const CLI::App& parser);

/// The page of one of the program's commands: what it takes, its own options, what goes with every command, examples.
std::string help_page(const CLI::App& parser, const CLI::App& command);

/// A quilt from beginning to end, as lines to type.
extern const char* const kWholeWay;

}  // namespace farflung::app
