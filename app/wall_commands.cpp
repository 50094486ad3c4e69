#include "command.hpp"
#include "job/swaps.hpp"
#include "job/wall.hpp"
#include "values.hpp"

namespace farflung::app {
namespace {

void add_swaps(CLI::App& parser, Chosen& chosen) {
  Command<job::Swaps> command(parser, "swaps", "List the fewest swaps from the layout on the wall to a better one");
  job::Swaps& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  add_number(*command.line, "--max", options.most, "swaps at most; a turn alone counts half (5)", 1, 100);
  command.line->add_option("--to", options.to,
                           "to this layout: a quilt's folder, or a file that holds one layout; - is standard input");
  add_seed(*command.line, options.seed, "the same seed gives the same list (1)");
  command.does(chosen, [](const job::Swaps& asked, const job::Watch&) { return job::swaps(asked); });
}

void add_wall(CLI::App& parser, Chosen& chosen) {
  Command<job::Wall> command(parser, "wall", "Read the real wall from a photograph and say what differs from the plan");
  job::Wall& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  command.line
      ->add_option("PHOTO", options.photographs,
                   "photographs of the blocks: one, or one of each section; - is standard input")
      ->required();
  command.line
      ->add_option("--corners", options.corners,
                   "the four outer corners of the blocks, clockwise from the quilt's own top left: x,y,x,y,x,y,x,y")
      ->expected(1)
      ->take_all();
  command.line->add_option("--rows", options.rows, "the rows that the photograph shows: 1-4, or 3 alone (all)")
      ->expected(1)
      ->take_all();
  command.line->add_option("--columns", options.columns, "the columns that it shows (all)")->expected(1)->take_all();
  command.line->add_flag("--top", options.top, "a sewn top, sashing and borders included (blocks side by side)");
  command.line->add_flag("--learn", options.learn, "make the blocks from the photograph: nobody wrote them down");
  command.line->add_option("--pattern", options.pattern, "learning: the blocks' pattern (the quilt's only one)");
  add_number(*command.line, "--prints", options.prints,
             "learning without prints: how many there are (as many as differ)", 1, 400);
  command.line->add_flag("--accept", options.accept, "take what was read as the layout; undo brings the old one back");
  command.line->add_option("-o,--output", options.output,
                           "what was read: FILE.png or FILE.svg, or its placement map as FILE.pdf");
  command.line->add_option("--plan", options.plan_output,
                           "the plan with the wrong places marked: FILE.png, .svg or .pdf");
  add_paper(*command.line, options.paper);
  command.line->add_flag("--force", options.force, "replace files that are there");
  command.does(chosen, job::wall);
}

}  // namespace

void add_at_the_wall(CLI::App& parser, Chosen& chosen) {
  add_swaps(parser, chosen);
  add_wall(parser, chosen);
}

}  // namespace farflung::app
