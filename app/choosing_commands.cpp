#include "command.hpp"
#include "job/borders.hpp"
#include "job/candidates.hpp"
#include "job/choose.hpp"
#include "job/colourway.hpp"
#include "job/compare.hpp"
#include "job/sizes.hpp"
#include "job/supplies.hpp"
#include "job/threads.hpp"
#include "values.hpp"

namespace farflung::app {
namespace {

constexpr const char* kPicture = "draw them side by side: FILE.png, FILE.svg or FILE.pdf";

/// Where a picture goes, for the commands that draw one beside what they say.
void add_picture(CLI::App& line, std::string& output, std::string& paper, bool& force) {
  line.add_option("-o,--output", output, kPicture);
  add_paper(line, paper, "letter or a4, of a PDF (as the quilt is measured: inches letter, else a4)");
  line.add_flag("--force", force, "replace a file that is there");
}

void add_choose(CLI::App& parser, Chosen& chosen) {
  Command<job::Choose> command(parser, "choose", "Choose the prints of the bundle that work best together");
  job::Choose& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  add_count(*command.line, "--take", options.take, "how many")->required();
  command.line->add_option("--keep", options.keep, "a print that must be among them; may be given again")->take_all();
  command.line->add_option("--drop", options.drop, "a print that must not; may be given again")->take_all();
  add_number(*command.line, "--lively", options.lively, "0 calm: hues held together .. 1 lively: hues spread (0.5)",
             0.0, 1.0);
  add_seed(*command.line, options.seed, "for bundles too large to prove (1)");
  add_picture(*command.line, options.output, options.paper, options.force);
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
  thread.paper = asked.part.paper;
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
  add_count(*command.line, "--border", asked.part.border, "which border, counted from the inside (the outermost)");
  command.line->add_option("--photo", asked.part.photographs,
                           "photographs of candidates, a folder of them or another quilt's (the quilt's own prints)");
  command.line->add_flag("--left-over", asked.part.left_over, "of its own prints only those that lie nowhere in it");
  command.line->add_option("--from", asked.thread.from, "a table of threads: name, colour (forty plain ones)");
  command.line->add_flag("--show,!--blend", asked.thread.show, "threads that show, or that blend (blend)");
  command.line->add_option("--style", asked.thread.style, "quilting: lines, waves, loops or pebbles (loops)");
  command.line->add_option("--spacing", asked.thread.spacing, "between lines of quilting (2 in)");
  add_number(*command.line, "--factor", asked.thread.factor, "thread for each length of stitches (1.4)", 1.0, 5.0);
  add_picture(*command.line, asked.part.output, asked.part.paper, asked.part.force);
  command.does(chosen, [](const TryWish& wish, const job::Watch&) { return try_as(wish); });
}

void add_compare(CLI::App& parser, Chosen& chosen) {
  Command<job::Compare> command(parser, "compare", "Draw several layouts, sizes or choices side by side");
  job::Compare& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  command.line
      ->add_option("WITH", options.with,
                   "another quilt's folder, a size such as lap or 60x72, brick, straight or 'on point', or border=Kelp")
      ->required();
  add_picture(*command.line, options.output, options.paper, options.force);
  command.line->get_option("--output")->required();
  command.does(chosen, [](const job::Compare& asked, const job::Watch&) { return job::compare(asked); });
}

void add_colourway(CLI::App& parser, Chosen& chosen) {
  Command<job::Colourway> command(parser, "colourway",
                                  "Show the same layout with one print replaced, or all by another bundle");
  job::Colourway& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  command.line->add_option("--replace", options.replace, "the print that goes (all, matched value for value)");
  command.line->add_option("--bundle", options.bundle,
                           "what may come: photographs, a folder of them, another quilt (the quilt's own prints)");
  command.line->add_option("--by", options.by, "of those this print alone");
  add_count(*command.line, "--accept", options.accept, "take this one of the list, counted from 1 (change nothing)");
  add_picture(*command.line, options.output, options.paper, options.force);
  command.does(chosen, [](const job::Colourway& asked, const job::Watch&) { return job::colourway(asked); });
}

void add_borders(CLI::App& parser, Chosen& chosen) {
  Command<job::Borders> command(parser, "borders", "Find border widths that make the top reach a size");
  job::Borders& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  command.line->add_option("--size", options.size, "a size's name such as lap, or width x height: 60x72")->required();
  command.line->add_option("--step", options.step, "widths are whole multiples of it (1/4 in, or 5 mm)");
  add_count(*command.line, "--accept", options.accept, "take this one of the list, counted from 1 (change nothing)");
  add_picture(*command.line, options.output, options.paper, options.force);
  command.does(chosen, [](const job::Borders& asked, const job::Watch&) { return job::borders(asked); });
}

void add_supplies(CLI::App& parser, Chosen& chosen) {
  Command<std::string> command(parser, "supplies", "List what a class has to bring: so many lights, darks, an accent");
  command.line->add_option("QUILT", *command.options, kQuilt)->required();
  command.does(chosen, [](const std::string& folder, const job::Watch&) { return job::supplies(folder); });
}

}  // namespace

void add_choosing(CLI::App& parser, Chosen& chosen) {
  add_choose(parser, chosen);
  add_sizes(parser, chosen);
  add_try(parser, chosen);
  add_borders(parser, chosen);
  add_colourway(parser, chosen);
  add_supplies(parser, chosen);
  add_compare(parser, chosen);
}

}  // namespace farflung::app
