// The manual page and the shell's completion, both made from the commands themselves, so that they cannot fall behind.
#pragma once

#include <string>

#include <CLI/CLI.hpp>

namespace farflung::app {

/// The manual page farflung(1) in mdoc, every command and option in it; ASCII, lines of at most 78 characters.
std::string manual_of(const CLI::App& parser);

/// Completion for bash: commands, the options of each, files and folders.
std::string bash_completion_of(const CLI::App& parser);

}  // namespace farflung::app
