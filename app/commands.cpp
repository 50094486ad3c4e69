#include "commands.hpp"

#include "command.hpp"
#include "help_page.hpp"
#include "job/arrange.hpp"
#include "job/check.hpp"
#include "job/cloth.hpp"
#include "job/demo.hpp"
#include "job/guide.hpp"
#include "job/new_quilt.hpp"
#include "job/photo.hpp"
#include "job/preview.hpp"
#include "job/reference.hpp"
#include "job/sheets.hpp"
#include "values.hpp"

namespace farflung::app {
namespace {

void add_demo(CLI::App& parser, Chosen& chosen) {
  Command<job::Demo> command(parser, "demo",
                             "Write the demo quilt and run the whole way through, to preview and sheets");
  command.line->add_option("DIR", command.options->folder, "the folder to make")->required();
  command.line->add_flag("--force", command.options->force, "replace a quilt that is there");
  command.does(chosen, job::demo);
}

/// A topic of the guide, or a command, which then says what --help says of it.
struct Help {
  std::string topic;
};

void add_help(CLI::App& parser, Chosen& chosen) {
  Command<Help> command(parser, "help", "The guide: how to photograph, what to do when colours look wrong, ...");
  command.line->add_option("TOPIC", command.options->topic, "a topic, or a command; none lists the topics");
  command.does(chosen, [&parser](const Help& asked, const job::Watch&) -> job::Outcome {
    if (asked.topic.empty()) return job::guide();
    for (const CLI::App* named : parser.get_subcommands([](const CLI::App*) { return true; })) {
      if (named->get_name() == asked.topic) return job::told(help_page(parser, *named));
    }
    return job::guide_topic(asked.topic);
  });
}

void add_new(CLI::App& parser, Chosen& chosen) {
  Command<job::NewQuilt> command(parser, "new", "Make an empty quilt from a pattern and a size");
  job::NewQuilt& options = *command.options;
  command.line->add_option("DIR", options.folder, "the folder to make")->required();
  command.line
      ->add_option("--pattern", options.patterns,
                   "a pattern's id, or its file; given again they take turns over the blocks (square)")
      ->expected(1)
      ->take_all();
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
  command.line->add_option("FILE", options.files, "photographs; - is standard input");
  command.line->add_option("--name", options.names, "a print's name, in reading order; may be given again")
      ->expected(1)
      ->take_all();
  command.line->add_option("--across", options.across, "what each swatch measures from left to right, such as 18");
  command.line
      ->add_option("--corners", options.corners,
                   "where the cloth is, clockwise from its top left: x,y,x,y,x,y,x,y; may be given again")
      ->take_all();
  command.line->add_flag("--whole", options.whole, "the cloth fills the frame");
  command.line->add_option("--white", options.white, "a place in the photograph that is white: x,y");
  command.line->add_option("--colour", options.colour, "no photograph: a print of this colour, #3a6ea5 or L,a,b");
  command.line->add_flag("--dry-run", options.dry_run, "say what would be found, write nothing");
  command.does(chosen, job::take_photographs);
}

void add_reference(CLI::App& parser, Chosen& chosen) {
  Command<job::ReferenceSheet> command(parser, "reference",
                                       "Print the sheet that makes photographs true to size and colour");
  job::ReferenceSheet& options = *command.options;
  command.line->add_option("-o,--output", options.output, "FILE.pdf; - is standard output")->required();
  add_paper(*command.line, options.paper, "letter or a4 (letter)");
  command.line->add_flag("--force", options.force, "replace a file that is there");
  command.does(chosen, [](const job::ReferenceSheet& asked, const job::Watch&) { return job::reference_sheet(asked); });
}

void add_arrange(CLI::App& parser, Chosen& chosen) {
  Command<job::Arrange> command(parser, "arrange", "Deal prints to blocks and blocks to places");
  job::Arrange& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  add_seed(*command.line, options.seed, "the same seed gives the same quilt (1)");
  add_number(*command.line, "--effort", options.effort, "work, as a multiple of the usual (1)", 0.001, 1000.0);
  add_number(*command.line, "--seconds", options.seconds,
             "work so long instead; the result then depends on the machine", 0.1, 86400.0)
      ->excludes("--effort");
  add_choice(
      *command.line, "--blocks", options.blocks,
      "open: deal prints to blocks anew; sewn: blocks are as they are (those that lack a print are dealt theirs)",
      {"open", "sewn"});
  command.line->add_option("--add", options.add, "a print to deal that no block holds yet; may be given again");
  add_choice(*command.line, "--triangles", options.triangles,
             "half-square triangles that you cut from one square, 2, 4 or 8, and are dealt together (2)", {2, 4, 8});
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
  add_number(*command.line, "--width", options.width, "pixels across (1600)", 16, 20000);
  command.line->add_flag("--grey", options.grey, "values only");
  command.line->add_flag("--force", options.force, "replace a file that is there");
  command.does(chosen, [](const job::Preview& asked, const job::Watch&) { return job::preview(asked); });
}

/// How cloth is cut: the same for the list and for the printed pages.
void add_workroom_options(CLI::App& line, job::WorkroomWish& how) {
  add_number(line, "--kits", how.kits, "kits for a class or a shop", 1, 1000);
  line.add_flag("--spares", how.spares, "look hard for spare blocks in what is left over");
  line.add_flag("--prewashed", how.prewashed, "the cloth will be washed before it is cut");
  line.add_flag("--sixteenths", how.sixteenths, "cut to 1/16 in");
  add_number(line, "--layers", how.layers, "layers of cloth to cut at once (4)", 1, 12);
  line.add_option("--geese", how.geese, "flying geese are made plain, 'four at once' or by flip (plain)");
  line.add_option("--corners", how.corners, "corners of blocks are cut as a triangle, or sewn on by flip (triangle)");
  line.add_flag("--lengthwise", how.lengthwise, "borders in one piece along the selvage");
  line.add_option("--backing-seams", how.backing_seams,
                  "the backing's seams run across, along, or as takes least cloth (least)");
}

void add_sheets(CLI::App& parser, Chosen& chosen) {
  Command<job::Sheets> command(parser, "sheets", "Print the placement map and the other sheets as a PDF");
  job::Sheets& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  command.line->add_option("-o,--output", options.output, "FILE.pdf; - is standard output")->required();
  add_paper(*command.line, options.paper);
  command.line->add_option("--only", options.only, "sheets by name, such as map,key (all)")->delimiter(',');
  command.line->footer(job::sheets_by_name());
  command.line->add_flag("--left-handed", options.left_handed, "draw cutting plans from the right edge");
  add_workroom_options(*command.line, options.how);
  command.line->add_flag("--force", options.force, "replace a file that is there");
  command.does(chosen, [](const job::Sheets& asked, const job::Watch&) { return job::sheets(asked); });
}

void add_cloth(CLI::App& parser, Chosen& chosen) {
  Command<job::ClothWish> command(parser, "cloth", "Say what to cut and what to buy, with the working");
  job::ClothWish& options = *command.options;
  command.line->add_option("QUILT", options.folder, kQuilt)->required();
  add_workroom_options(*command.line, options.how);
  command.line->add_flag("--take-spares", options.take_spares,
                         "make the spare blocks that the cloth allows part of the quilt");
  command.does(chosen, [](const job::ClothWish& asked, const job::Watch&) { return job::cloth(asked); });
}

}  // namespace

void add_commands(CLI::App& parser, Chosen& chosen) {
  add_help(parser, chosen);
  add_demo(parser, chosen);
  add_new(parser, chosen);
  add_photo(parser, chosen);
  add_reference(parser, chosen);
  add_choosing(parser, chosen);
  add_arrange(parser, chosen);
  add_preview(parser, chosen);
  add_sheets(parser, chosen);
  add_cloth(parser, chosen);
  add_check(parser, chosen);
  add_at_the_wall(parser, chosen);
  add_editing(parser, chosen);
}

}  // namespace farflung::app
