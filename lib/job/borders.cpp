#include "job/borders.hpp"

#include "choice/border_widths.hpp"
#include "job/exhibits.hpp"
#include "project/sizes.hpp"

namespace farflung::job {
namespace {

Report way_json(const choice::BorderWidths& way, quilt::Units units) {
  Report widths = Report::array();
  for (Length width : way.widths) widths.push_back(quilt::in_units(width, units));
  return {{"widths", widths},
          {"width", quilt::in_units(way.width, units)},
          {"height", quilt::in_units(way.height, units)},
          {"wider", quilt::in_units(way.wider, units)},
          {"taller", quilt::in_units(way.taller, units)},
          {"says", way.says}};
}

Result<choice::BordersReport> ways_of(const Borders& options, const quilt::Quilt& quilt) {
  Result<project::Size> size = project::size_named(options.size, quilt.units);
  const bool metric = quilt.units != quilt::Units::inches;
  const std::string usual = metric ? "5 mm" : "1/4 in";
  Result<Length> step = length_option("--step", options.step.empty() ? usual : options.step, quilt.units);
  Problems problems;
  if (!size) add_problems(problems, size);
  if (!step) add_problems(problems, step);
  if (!problems.empty()) return problems;
  return choice::borders_to_reach(quilt, {size->name, size->width, size->height}, *step);
}

Result<Done> draw_ways(const Drawing& drawing, const quilt::Quilt& quilt, const std::string& folder,
                       const choice::BordersReport& report, Problems& warnings) {
  const draw::Swatches swatches = swatches_of(quilt, folder, kExhibitPixels, warnings);
  Exhibits exhibits;
  for (std::size_t i = 0; i < report.ways.size(); ++i) {
    exhibits.add(choice::with_border_widths(quilt, report.ways[i].widths), swatches, "Way " + std::to_string(i + 1),
                 {report.ways[i].says});
  }
  return exhibits.write(quilt, "Borders", drawing);
}

}  // namespace

Outcome borders(const Borders& options) {
  const Drawing drawing{options.output, options.paper, options.force};
  const Problems wrong = problems_of_drawing(drawing);
  if (!wrong.empty()) return wrong;
  Result<project::Document> document = project::read(options.folder);
  if (!document) return document.problems();
  const quilt::Quilt& quilt = document->quilt;
  Result<choice::BordersReport> ways = ways_of(options, quilt);
  if (!ways) return ways.problems();
  const int count = static_cast<int>(ways->ways.size());
  if (options.accept > count) {
    return input_problem("--accept " + std::to_string(options.accept), "there is no such way",
                         "there " + std::string(count == 1 ? "is one" : "are " + std::to_string(count)));
  }

  Answer answer;
  Report report = new_report();
  report["ways"] = Report::array();
  for (int i = 0; i < count; ++i) {
    report["ways"].push_back(way_json(ways->ways[i], quilt.units));
    answer.words += "  " + std::to_string(i + 1) + ". " + ways->ways[i].says + "\n";
  }
  report["notes"] = ways->notes;
  for (const std::string& note : ways->notes) answer.words += "  " + note + "\n";
  if (!options.output.empty()) {
    Result<Done> written = draw_ways(drawing, quilt, options.folder, *ways, answer.warnings);
    if (!written) return written.problems();
  }
  report["accepted"] = options.accept > 0;
  if (options.accept > 0) {
    document->quilt = choice::with_border_widths(quilt, ways->ways[options.accept - 1].widths);
    Result<Done> saved = project::write(options.folder, *document);
    if (!saved) return saved.problems();
    answer.words += "The quilt has these borders now; farflung undo takes them back.\n";
  }
  put_report(report, answer);
  tell_drawing(drawing, answer);
  return answer;
}

}  // namespace farflung::job
