// What a command is made of, for the files that add commands.
#pragma once

#include <memory>

#include "commands.hpp"

namespace farflung::app {

inline constexpr const char* kQuilt = "the quilt's folder";

/// One command: its options are fields of a value that lives as long as the parser.
template <typename Options>
class Command {
 public:
  Command(CLI::App& parser, const char* name, const char* does)
      : options(std::make_shared<Options>()), line(parser.add_subcommand(name, does)) {}

  /// `job` is called with the options and the watch.
  template <typename Job>
  void does(Chosen& chosen, Job job) {
    line->callback([&chosen, job, kept = options] {
      chosen = [job, kept](const job::Watch& watch) { return job(*kept, watch); };
    });
  }

  std::shared_ptr<Options> options;
  CLI::App* line;
};

/// Which prints, how big, which border, which thread.
void add_choosing(CLI::App& parser, Chosen& chosen);

/// Reading the real wall and bettering it.
void add_at_the_wall(CLI::App& parser, Chosen& chosen);

/// Changes by hand, undo and redo, packing.
void add_editing(CLI::App& parser, Chosen& chosen);

}  // namespace farflung::app
