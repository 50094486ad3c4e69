#include "commands.hpp"

#include "job/arrange.hpp"
#include "job/check.hpp"
#include "job/demo.hpp"
#include "job/edit.hpp"
#include "job/new_quilt.hpp"
#include "job/photo.hpp"
#include "job/preview.hpp"
#include "job/sheets.hpp"

namespace farflung::app {
namespace {

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

constexpr const char* kQuilt = "the quilt's folder";

void add_demo(CLI::App& parser, Chosen& chosen) {
  Command<job::Demo> command(parser, "demo",
                             "Write the demo quilt and run the whole way through, to preview and sheets");
  command.line->add_option("DIR", command.options->folder, "the folder to make")->required();
  command.line->add_flag("--force", command.options->force, "replace a quilt that is there");
  command.does(chosen, job::demo);
}

void add_new(CLI::App& parser, Chosen& chosen) {
  Command<job::NewQuilt> command(parser, "new", "Make an empty quilt from a pattern and a size");
  job::NewQuilt& options = *command.options;
  command.line->add_option("DIR", options.folder, "the folder to make")->required();
  command.line->add_option("--pattern", options.pattern, "a pattern's id, or its file (square)");
  command.line->add_option("--size", options.size, "a size's name such as lap, or width x height: 60x72 (lap)");
  command.line->add_option("--block", options.block, "finished width of a block (as the pattern is drawn)");
  command.line->add_option("--setting", options.setting, "straight, brick or 'on point' (straight)");
  command.line->add_option("--title", options.title, "the quilt's title (the folder's name)");
  command.line->add_option("--units", options.units, "in, cm or mm (in)");
  command.line->add_flag("--dry-run", options.dry_run, "say what would be made, write nothing");
  command.does(chosen, [](const job::NewQuilt& asked, const job::Watch&) { return job::new_quilt(asked); });
}

void add_photo(CLI::App& parser, Chosen& chosen) {
  Command<job::TakePhotographs> command(parser, "photo", "Take photographs of fabrics in, one or many prints each");
  job::TakePhotographs& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  command.line->add_option("FILE", options.files, "photographs")->required();
  command.line->add_option("--name", options.names, "a print's name, in reading order; may be given again")
      ->expected(1)
      ->take_all();
  command.line->add_option("--across", options.across, "what each swatch measures from left to right, such as 18");
  command.line->add_flag("--dry-run", options.dry_run, "say what would be found, write nothing");
  command.does(chosen, job::take_photographs);
}

void add_arrange(CLI::App& parser, Chosen& chosen) {
  Command<job::Arrange> command(parser, "arrange", "Deal prints to blocks and blocks to places");
  job::Arrange& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  command.line->add_option("--seed", options.seed, "the same seed gives the same quilt (1)");
  command.line->add_option("--effort", options.effort, "work, as a multiple of the usual (1)")
      ->check(CLI::Range(0.001, 1000.0));
  command.line->add_option("--seconds", options.seconds, "work so long instead; the result then depends on the machine")
      ->check(CLI::Range(0.1, 86400.0))
      ->excludes("--effort");
  command.line
      ->add_option("--blocks", options.blocks,
                   "open: deal prints to blocks anew; sewn: blocks are as they are (open where a slot has no print)")
      ->check(CLI::IsMember({"open", "sewn"}));
  command.line->add_flag("--dry-run", options.dry_run, "say what would come of it, write nothing");
  command.does(chosen, job::arrange);
}

void add_check(CLI::App& parser, Chosen& chosen) {
  Command<std::string> command(parser, "check", "Validate, score and explain a quilt");
  command.line->add_option("QUILT", *command.options, kQuilt)->required();
  command.does(chosen, [](const std::string& folder, const job::Watch&) { return job::check(folder); });
}

void add_preview(CLI::App& parser, Chosen& chosen) {
  Command<job::Preview> command(parser, "preview", "Draw the top as a PNG or SVG picture");
  job::Preview& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  command.line->add_option("-o,--output", options.output, "FILE.png or FILE.svg; - is standard output")->required();
  command.line->add_option("--width", options.width, "pixels across (1600)")->check(CLI::Range(16, 20000));
  command.line->add_flag("--grey", options.grey, "values only");
  command.line->add_flag("--force", options.force, "replace a file that is there");
  command.does(chosen, [](const job::Preview& asked, const job::Watch&) { return job::preview(asked); });
}

void add_sheets(CLI::App& parser, Chosen& chosen) {
  Command<job::Sheets> command(parser, "sheets", "Print the placement map and the other sheets as a PDF");
  job::Sheets& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  command.line->add_option("-o,--output", options.output, "FILE.pdf; - is standard output")->required();
  command.line->add_option("--paper", options.paper, "letter or a4 (letter)")->check(CLI::IsMember({"letter", "a4"}));
  command.line->add_option("--only", options.only, "sheets by name, such as map,key (all)")->delimiter(',');
  command.line->add_flag("--force", options.force, "replace a file that is there");
  command.does(chosen, [](const job::Sheets& asked, const job::Watch&) { return job::sheets(asked); });
}

/// What the commands that change a quilt by hand are told.
struct ByHand {
  std::string folder;
  std::string first, second;
  std::vector<std::string> cells;
  int quarters = 0;
};

template <typename Job>
CLI::App* add_by_hand(CLI::App& parser, Chosen& chosen, const char* name, const char* does, Job job,
                      const std::function<void(CLI::App&, ByHand&)>& add_more) {
  Command<ByHand> command(parser, name, does);
  command.line->add_option("QUILT", command.options->folder, kQuilt)->required();
  if (add_more) add_more(*command.line, *command.options);
  command.does(chosen, [job](const ByHand& asked, const job::Watch&) { return job(asked); });
  return command.line;
}

void add_cells(CLI::App& line, ByHand& asked) {
  line.add_option("CELL", asked.cells, "cells such as R2C5, counted from 1")->required();
}

void add_editing(CLI::App& parser, Chosen& chosen) {
  add_by_hand(
      parser, chosen, "set", "Change one value of the quilt by its JSON pointer",
      [](const ByHand& asked) { return job::set_value(asked.folder, asked.first, asked.second); },
      [](CLI::App& line, ByHand& asked) {
        line.add_option("POINTER", asked.first, "where, such as /prints/0/name")->required();
        line.add_option("VALUE", asked.second, "what, as JSON; anything else is taken as text")->required();
      });
  add_by_hand(
      parser, chosen, "swap", "Let two blocks change places",
      [](const ByHand& asked) { return job::swap_cells(asked.folder, asked.first, asked.second); },
      [](CLI::App& line, ByHand& asked) {
        line.add_option("CELL", asked.first, "a cell such as R2C5, counted from 1")->required();
        line.add_option("WITH", asked.second, "the other cell")->required();
      });
  add_by_hand(
      parser, chosen, "turn", "Turn a block where it lies",
      [](const ByHand& asked) { return job::turn_cell(asked.folder, asked.first, asked.quarters); },
      [](CLI::App& line, ByHand& asked) {
        line.add_option("CELL", asked.first, "a cell such as R2C5, counted from 1")->required();
        line.add_option("--quarters", asked.quarters, "quarter turns clockwise (to the next turn allowed)")
            ->check(CLI::Range(1, 3));
      });
  add_by_hand(
      parser, chosen, "keep", "Keep blocks where they are",
      [](const ByHand& asked) { return job::keep_cells(asked.folder, asked.cells); }, add_cells);
  add_by_hand(
      parser, chosen, "free", "Let kept blocks move again",
      [](const ByHand& asked) { return job::free_cells(asked.folder, asked.cells); }, add_cells);
  add_by_hand(
      parser, chosen, "undo", "Go back to the version before",
      [](const ByHand& asked) { return job::undo(asked.folder); }, nullptr);
  add_by_hand(
      parser, chosen, "redo", "Go on to the version after", [](const ByHand& asked) { return job::redo(asked.folder); },
      nullptr);
}

}  // namespace

void add_commands(CLI::App& parser, Chosen& chosen) {
  add_demo(parser, chosen);
  add_new(parser, chosen);
  add_photo(parser, chosen);
  add_arrange(parser, chosen);
  add_preview(parser, chosen);
  add_sheets(parser, chosen);
  add_check(parser, chosen);
  add_editing(parser, chosen);
}

}  // namespace farflung::app
