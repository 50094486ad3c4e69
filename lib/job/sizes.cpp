#include "job/sizes.hpp"

#include <cmath>
#include <cstdio>

#include "choice/sizes.hpp"
#include "cloth/plan.hpp"
#include "draw/top.hpp"
#include "job/open_quilt.hpp"
#include "project/sizes.hpp"

namespace farflung::job {
namespace {

/// What a quilt of this size takes of its blocks' prints together.
struct Takes {
  double yards = 0;      ///< of the quilt's units' yardage: yards or metres
  std::string unit;      ///< "yd" or "m"
  int fat_quarters = 0;  ///< that hold as much, by area, rounded up for each print
};

/// Blocks only: sashing, borders, binding and backing are told apart by `cloth`.
Takes takes_of(const quilt::Quilt& quilt) {
  const cloth::CutList list = cloth::cut_list(quilt);
  const double fat_quarter = 20 * 17.5;
  std::vector<double> area(quilt.prints.size() + 1, 0);
  for (const cloth::CutLine& line : list.lines) {
    if (line.pattern == cloth::kNone) continue;
    area[line.print == cloth::kNone ? quilt.prints.size() : line.print] +=
        line.rectangles * line.shape.width.cut.inches() * line.shape.height.cut.inches();
  }
  Takes takes;
  double all = 0;
  // A tenth is lost to strips that do not come out even.
  constexpr double kLoss = 1.1;
  for (double square_inches : area) {
    all += square_inches * kLoss;
    takes.fat_quarters += static_cast<int>(std::ceil(square_inches * kLoss / fat_quarter));
  }
  const Length length = Length::inches(all / 40);
  const bool metric = quilt.units != quilt::Units::inches;
  takes.unit = metric ? "m" : "yd";
  takes.yards = metric ? std::ceil(length.millimetres() / 100) / 10 : std::ceil(length.inches() / 4.5) / 8;
  return takes;
}

/// How many of the bundle's fat quarters and other cuts are in hand; 0 where none is recorded.
int cuts_in_hand(const quilt::Quilt& quilt) {
  int count = 0;
  for (const print::Print& print : quilt.prints) {
    for (const print::Cloth& cloth : print.cloth) count += cloth.count;
  }
  return count;
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
  report["cuts_in_hand"] = cuts_in_hand(quilt);
  std::string words = "Size      blocks   finished           all block prints   fat quarters\n";
  for (const project::Size& size : *common) {
    Result<choice::SizeReport> fits = choice::nearest_size(quilt, {size.name, size.width, size.height});
    if (!fits) return fits.problems();
    const quilt::Quilt resized = choice::resized(quilt, fits->rows, fits->columns);
    const Takes takes = takes_of(resized);
    const std::string finished = draw::finished_size(resized, quilt::plan_of(resized));
    report["sizes"].push_back({{"name", size.name},
                               {"rows", fits->rows},
                               {"columns", fits->columns},
                               {"blocks", fits->blocks},
                               {"width", quilt::in_units(fits->width, quilt.units)},
                               {"height", quilt::in_units(fits->height, quilt.units)},
                               {"amount", takes.yards},
                               {"unit", takes.unit},
                               {"fat_quarters", takes.fat_quarters},
                               {"note", size.note},
                               {"caution", size.caution},
                               {"says", fits->says}});
    char line[160];
    std::snprintf(line, sizeof line, "%-9s %2d x %-3d  %-18s %6g %-2s %15d\n", size.name.c_str(), fits->rows,
                  fits->columns, finished.c_str(), takes.yards, takes.unit.c_str(), takes.fat_quarters);
    words += line;
  }
  words +=
      "Blocks only, a tenth added for what strips lose; farflung cloth adds borders, binding and backing.\n"
      "Beds differ: measure the bed and the drop before cutting.\n";
  return Answer{words, text_of(report), {}, true};
}

}  // namespace farflung::job
