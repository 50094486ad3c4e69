// The command that opens the page.
#pragma once

#include "commands.hpp"

namespace farflung::app {

/// The whole job on a page, until Ctrl-C.
void add_serving(CLI::App& parser, Chosen& chosen);

}  // namespace farflung::app
