#include "command.hpp"
#include "job/edit.hpp"
#include "job/pack.hpp"
#include "serving.hpp"
#include "values.hpp"

namespace farflung::app {
namespace {

/// What the commands that change a quilt by hand are told.
struct ByHand {
  std::string folder;
  std::string first, second;
  std::vector<std::string> cells;
  int quarters = 0;
  bool dry_run = false;
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

void add_dry_run(CLI::App& line, ByHand& asked) {
  line.add_flag("--dry-run", asked.dry_run, "say what would be changed, write nothing");
}

void add_cells(CLI::App& line, ByHand& asked) {
  line.add_option("CELL", asked.cells, "cells such as R2C5, counted from 1")->required();
  add_dry_run(line, asked);
}

void add_changes(CLI::App& parser, Chosen& chosen) {
  add_by_hand(
      parser, chosen, "set", "Change one value of the quilt by its JSON pointer",
      [](const ByHand& asked) { return job::set_value(asked.folder, asked.first, asked.second, asked.dry_run); },
      [](CLI::App& line, ByHand& asked) {
        line.add_option("POINTER", asked.first, "where, such as /prints/0/name")->required();
        line.add_option("VALUE", asked.second, "what, as JSON; anything else is taken as text")->required();
        add_dry_run(line, asked);
      });
  add_by_hand(
      parser, chosen, "swap", "Let two blocks change places",
      [](const ByHand& asked) { return job::swap_cells(asked.folder, asked.first, asked.second, asked.dry_run); },
      [](CLI::App& line, ByHand& asked) {
        line.add_option("CELL", asked.first, "a cell such as R2C5, counted from 1")->required();
        line.add_option("WITH", asked.second, "the other cell")->required();
        add_dry_run(line, asked);
      });
  add_by_hand(
      parser, chosen, "turn", "Turn a block where it lies",
      [](const ByHand& asked) { return job::turn_cell(asked.folder, asked.first, asked.quarters, asked.dry_run); },
      [](CLI::App& line, ByHand& asked) {
        line.add_option("CELL", asked.first, "a cell such as R2C5, counted from 1")->required();
        add_number(line, "--quarters", asked.quarters, "quarter turns clockwise (to the next turn allowed)", 1, 3);
        add_dry_run(line, asked);
      });
  add_by_hand(
      parser, chosen, "keep", "Keep blocks where they are",
      [](const ByHand& asked) { return job::keep_cells(asked.folder, asked.cells, asked.dry_run); }, add_cells);
  add_by_hand(
      parser, chosen, "free", "Let kept blocks move again",
      [](const ByHand& asked) { return job::free_cells(asked.folder, asked.cells, asked.dry_run); }, add_cells);
  add_by_hand(
      parser, chosen, "drop", "Take prints out of the quilt; their blocks are dealt anew by arrange",
      [](const ByHand& asked) { return job::drop_prints(asked.folder, asked.cells, asked.dry_run); },
      [](CLI::App& line, ByHand& asked) {
        line.add_option("PRINT", asked.cells, "prints by id, code or name")->required();
        add_dry_run(line, asked);
      });
  add_by_hand(
      parser, chosen, "undo", "Go back to the version before",
      [](const ByHand& asked) { return job::undo(asked.folder); }, nullptr);
  add_by_hand(
      parser, chosen, "redo", "Go on to the version after", [](const ByHand& asked) { return job::redo(asked.folder); },
      nullptr);
}

/// What pack and unpack are told.
struct Packing {
  std::string folder, file;
  bool force = false;
};

void add_packing(CLI::App& parser, Chosen& chosen) {
  Command<Packing> pack(parser, "pack", "Pack the whole quilt into one file, to move or keep");
  pack.line->add_option("QUILT", pack.options->folder, kQuilt)->required();
  pack.line->add_option("FILE", pack.options->file, "the file to write; - is standard output")->required();
  pack.line->add_flag("--force", pack.options->force, "replace a file that is there");
  pack.does(chosen,
            [](const Packing& asked, const job::Watch&) { return job::pack(asked.folder, asked.file, asked.force); });

  Command<Packing> unpack(parser, "unpack", "Bring a packed quilt to a folder");
  unpack.line->add_option("QUILT", unpack.options->folder, "the folder to make")->required();
  unpack.line->add_option("FILE", unpack.options->file, "the packed file; - is standard input")->required();
  unpack.does(chosen, [](const Packing& asked, const job::Watch&) { return job::unpack(asked.folder, asked.file); });
}

}  // namespace

void add_editing(CLI::App& parser, Chosen& chosen) {
  add_changes(parser, chosen);
  add_packing(parser, chosen);
  add_serving(parser, chosen);
}

}  // namespace farflung::app
