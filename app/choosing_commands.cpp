#include "command.hpp"
#include "job/candidates.hpp"
#include "job/choose.hpp"
#include "job/compare.hpp"
#include "job/sizes.hpp"
#include "job/threads.hpp"

namespace farflung::app {
namespace {

void add_choose(CLI::App& parser, Chosen& chosen) {
  Command<job::Choose> command(parser, "choose", "Choose the prints of the bundle that work best together");
  job::Choose& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  command.line->add_option("--take", options.take, "how many")->required()->check(CLI::PositiveNumber);
  command.line->add_option("--keep", options.keep, "a print that must be among them; may be given again")->take_all();
  command.line->add_option("--drop", options.drop, "a print that must not; may be given again")->take_all();
  command.line->add_option("--lively", options.lively, "0 calm: hues held together .. 1 lively: hues spread (0.5)")
      ->check(CLI::Range(0.0, 1.0));
  command.line->add_option("--seed", options.seed, "for bundles too large to prove (1)");
  command.line->footer(job::choose_measure());
  command.does(chosen, [](const job::Choose& asked, const job::Watch&) { return job::choose(asked); });
}

void add_sizes(CLI::App& parser, Chosen& chosen) {
  Command<std::string> command(parser, "sizes", "Table the common sizes: rows, columns, cloth");
  command.line->add_option("QUILT", *command.options, kQuilt)->required();
  command.does(chosen, [](const std::string& folder, const job::Watch&) { return job::sizes(folder); });
}

/// What `try` is told: the job depends on the part.
struct TryWish {
  std::string as;
  job::TryOut part;
  job::TryThread thread;
};

job::Outcome try_as(const TryWish& asked) {
  if (asked.as != "thread") {
    job::TryOut part = asked.part;
    part.as = asked.as;
    return job::try_candidates(part);
  }
  job::TryThread thread = asked.thread;
  thread.folder = asked.part.folder;
  thread.output = asked.part.output;
  thread.force = asked.part.force;
  return job::try_threads(thread);
}

void add_try(CLI::App& parser, Chosen& chosen) {
  Command<TryWish> command(parser, "try",
                           "Rank and draw candidates for a border, background, binding, backing or thread");
  TryWish& asked = *command.options;
  command.line->add_option("QUILT", asked.part.folder, kQuilt)->required();
  command.line->add_option("--as", asked.as, "background, accent, sashing, setting, border, binding, backing or thread")
      ->required();
  command.line->add_option("--photo", asked.part.photographs, "photographs of candidates (the quilt's own prints)");
  command.line->add_option("--from", asked.thread.from, "a table of threads: name, colour (forty plain ones)");
  command.line->add_flag("--show,!--blend", asked.thread.show, "threads that show, or that blend (blend)");
  command.line->add_option("--style", asked.thread.style, "quilting: lines, waves, loops or pebbles (loops)");
  command.line->add_option("--spacing", asked.thread.spacing, "between lines of quilting (2 in)");
  command.line->add_option("--factor", asked.thread.factor, "thread for each length of stitches (1.4)")
      ->check(CLI::Range(1.0, 5.0));
  command.line->add_option("-o,--output", asked.part.output, "draw the first ones side by side: FILE.png or FILE.svg");
  command.line->add_flag("--force", asked.part.force, "replace a file that is there");
  command.does(chosen, [](const TryWish& wish, const job::Watch&) { return try_as(wish); });
}

void add_compare(CLI::App& parser, Chosen& chosen) {
  Command<job::Compare> command(parser, "compare", "Draw several layouts, sizes or choices side by side");
  job::Compare& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  command.line->add_option("WITH", options.with, "another quilt's folder, a size such as lap or 60x72, or border=Kelp")
      ->required();
  command.line->add_option("-o,--output", options.output, "FILE.png or FILE.svg")->required();
  command.line->add_flag("--force", options.force, "replace a file that is there");
  command.does(chosen, [](const job::Compare& asked, const job::Watch&) { return job::compare(asked); });
}

}  // namespace

void add_choosing(CLI::App& parser, Chosen& chosen) {
  add_choose(parser, chosen);
  add_sizes(parser, chosen);
  add_try(parser, chosen);
  add_compare(parser, chosen);
}

}  // namespace farflung::app
