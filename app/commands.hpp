// Every command: its words on the command line, and the job that it is.
#pragma once

#include <functional>
#include <memory>

#include <CLI/CLI.hpp>

#include "job/answer.hpp"

namespace farflung::app {

/// What the command line asked for, once it is parsed.
using Chosen = std::function<job::Outcome(const job::Watch& watch)>;

/// Adds all commands to the parser. When one is parsed it puts its job into `chosen`.
void add_commands(CLI::App& parser, Chosen& chosen);

}  // namespace farflung::app
