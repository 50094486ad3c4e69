#include "job/sizes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "choice/sizes.hpp"
#include "cloth/plan.hpp"
#include "cloth/ruler.hpp"
#include "draw/top.hpp"
#include "job/drop.hpp"
#include "job/open_quilt.hpp"
#include "project/sizes.hpp"
#include "quilt/cloth_kinds.hpp"

namespace farflung::job {
namespace {

/// What the blocks of a quilt take of all their prints together. Nothing is understated: every figure is of a plan that
/// gives all the pieces.
struct Takes {
  double amount = 0;     ///< if each print is bought as yardage, each rounded up as shops cut
  std::string unit;      ///< "yd" or "m"
  int fat_quarters = 0;  ///< if each print is bought as fat quarters
  int prints = 0;        ///< that lie in the blocks
  int in_short = 0;      ///< prints of which the cloth in hand is not enough
};

cloth::PlanOptions quick() {
  cloth::PlanOptions options;
  options.effort.strips_only = true;
  return options;
}

/// The list without sashing, borders and binding: `cloth` tells of those.
cloth::CutList of_blocks(const quilt::Quilt& quilt) {
  cloth::CutOptions cutting;
  cutting.yardage = cloth::usual_yardage(quilt.units);
  cloth::CutList list = cloth::cut_list(quilt, cutting);
  std::erase_if(list.lines, [](const cloth::CutLine& line) { return line.pattern == cloth::kNone; });
  list.runs.clear();
  return list;
}

double rounded_up(Length length, bool metric) {
  constexpr double kInchesPerEighth = 4.5;
  return metric ? std::ceil(length.millimetres() / 100 - 1e-9) / 10
                : std::ceil(length.inches() / kInchesPerEighth - 1e-9) / 8;
}

const quilt::ClothKind& fat_quarter(quilt::Units units) { return *quilt::kind_named("fat quarter", units); }

int fat_quarters_for(const cloth::CutList& list, quilt::Quilt quilt, int print) {
  constexpr int kPlenty = 999;
  const quilt::ClothKind& kind = fat_quarter(quilt.units);
  quilt.prints[print].cloth = {{kind.name, kind.usable_width, kind.usable_length, kPlenty, {}, {}}};
  int count = 0;
  for (const cloth::SheetPlan& sheet : cloth::print_plan(quilt, list, print, quick()).sheets) count += sheet.copies;
  return count;
}

Takes takes_of(const quilt::Quilt& quilt) {
  const cloth::CutList list = of_blocks(quilt);
  const bool metric = quilt.units != quilt::Units::inches;
  Takes takes;
  takes.unit = metric ? "m" : "yd";
  for (int print = cloth::kNone; print < static_cast<int>(quilt.prints.size()); ++print) {
    std::vector<int> lines;
    for (std::size_t i = 0; i < list.lines.size(); ++i) {
      if (list.lines[i].print == print) lines.push_back(static_cast<int>(i));
    }
    if (lines.empty()) continue;
    takes.amount += rounded_up(cloth::yardage_for(list, lines, {}, quick()), metric);
    if (print == cloth::kNone) continue;
    ++takes.prints;
    takes.fat_quarters += fat_quarters_for(list, quilt, print);
    if (!quilt.prints[print].cloth.empty() && !cloth::print_plan(quilt, list, print, quick()).enough) ++takes.in_short;
  }
  return takes;
}

bool any_in_hand(const quilt::Quilt& quilt) {
  return std::any_of(quilt.prints.begin(), quilt.prints.end(),
                     [](const print::Print& print) { return !print.cloth.empty(); });
}

/// "20 x 17 1/2 in": what is counted on of each.
std::string fat_quarter_said(quilt::Units units) {
  const quilt::ClothKind& kind = fat_quarter(units);
  const bool metric = units != quilt::Units::inches;
  return cloth::said(kind.usable_width, kind.usable_length, metric ? cloth::Ruler::millimetres : cloth::Ruler::eighths);
}

/// What the cloth in hand allows, one size after the other.
std::string allowance(const std::vector<std::string>& enough) {
  if (enough.empty()) return "The cloth in hand is not enough for the blocks of any of these.\n";
  std::string text = "The cloth in hand is enough for the blocks of:";
  for (std::size_t i = 0; i < enough.size(); ++i) text += (i == 0 ? " " : ", ") + enough[i];
  return text + ".\n";
}

/// One size as the report and the table tell it.
struct Row {
  Report report;
  std::string line;
  bool enough = false;  ///< the cloth in hand is enough for its blocks
};

Result<Row> row_of(const quilt::Quilt& quilt, const project::Size& size) {
  Result<choice::SizeReport> fits = choice::nearest_size(quilt, {size.name, size.width, size.height});
  if (!fits) return fits.problems();
  const quilt::Quilt resized = choice::resized(quilt, fits->rows, fits->columns);
  const Takes takes = takes_of(resized);
  const bool in_hand = any_in_hand(quilt);
  Row row;
  row.enough = in_hand && takes.in_short == 0;
  row.report = {{"name", size.name},
                {"rows", fits->rows},
                {"columns", fits->columns},
                {"blocks", fits->blocks},
                {"width", quilt::in_units(fits->width, quilt.units)},
                {"height", quilt::in_units(fits->height, quilt.units)},
                {"wider", quilt::in_units(fits->wider, quilt.units)},
                {"taller", quilt::in_units(fits->taller, quilt.units)},
                {"prints", takes.prints},
                {"uses_per_print", fits->uses_per_print},
                {"amount", takes.amount},
                {"unit", takes.unit},
                {"fat_quarters", takes.fat_quarters},
                {"prints_short", in_hand ? Report(takes.in_short) : Report(nullptr)},
                {"note", project::note_of(size, quilt.units)},
                {"caution", size.caution},
                {"says", fits->says}};
  const std::string finished = draw::finished_size(resized, quilt::plan_of(resized));
  const std::string amount = cloth::amount_text(takes.amount, takes.unit);
  char line[200];
  std::snprintf(line, sizeof line, "%-9s %3d x %-8d %7d   %-18s %5d %6.1f %14d %12s\n", size.name.c_str(), fits->rows,
                fits->columns, fits->blocks, finished.c_str(), takes.prints, fits->uses_per_print, takes.fat_quarters,
                amount.c_str());
  row.line = line;
  return row;
}

}  // namespace

Outcome sizes(const std::string& folder) {
  Result<project::Document> document = project::read(folder);
  if (!document) return document.problems();
  const quilt::Quilt& quilt = document->quilt;
  Result<std::vector<project::Size>> common = project::common_sizes();
  if (!common) return common.problems();

  Report report = new_report();
  report["sizes"] = Report::array();
  std::vector<std::string> enough;
  std::string words =
      "Size     rows x columns   blocks   finished          prints   each   fat quarters   or yardage\n";
  for (const project::Size& size : *common) {
    Result<Row> row = row_of(quilt, size);
    if (!row) return row.problems();
    report["sizes"].push_back(std::move(row->report));
    words += row->line;
    if (row->enough) enough.push_back(size.name);
  }
  if (blocks_to_deal(quilt) == quilt.blocks.size()) {
    words +=
        "No print is dealt yet: amounts are of one cloth for all blocks. farflung arrange deals them, and what each "
        "print\ntakes is known.\n";
  }
  words += "each: how often a print is used. Fat quarters (" + fat_quarter_said(quilt.units) +
           " usable) and yardage are of the\nblocks, each print for itself; farflung cloth adds borders, binding and "
           "backing.\n";
  if (any_in_hand(quilt)) words += allowance(enough);
  words +=
      "Beds differ: measure the bed and the drop before cutting. Babies under a year sleep without loose bedding.\n";
  return Answer{words, text_of(report), {}, true};
}

}  // namespace farflung::job
