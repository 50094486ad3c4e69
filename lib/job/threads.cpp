#include "job/threads.hpp"

#include <algorithm>
#include <filesystem>

#include "base/limits.hpp"
#include "choice/quilting.hpp"
#include "choice/thread.hpp"
#include "colour/srgb.hpp"
#include "colour/typed.hpp"
#include "job/exhibits.hpp"
#include "project/data_folder.hpp"
#include "project/disk.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostNamed = 6;
constexpr std::size_t kMostThreadsDrawn = 3;

Result<std::vector<choice::ThreadColour>> threads_of(const TryThread& options) {
  fs::path file = options.from;
  if (options.from.empty()) {
    Result<fs::path> data = project::data_folder();
    if (!data) return data.problems();
    file = *data / "thread_colours.csv";
  }
  Result<std::string> text = project::disk::read_file(file, limits::kThreadListBytes);
  if (!text) return text.problems();
  return choice::threads_from_csv(*text, file.string());
}

draw::Colour drawn(const colour::Lab& lab) {
  const colour::Srgb pixel = colour::srgb_from_lab(lab);
  return {pixel.r / 255.0, pixel.g / 255.0, pixel.b / 255.0, 1};
}

Report threads_json(const std::vector<choice::RankedThread>& ranked, const std::vector<choice::ThreadColour>& threads,
                    const quilt::Quilt& quilt) {
  Report list = Report::array();
  for (const choice::RankedThread& one : ranked) {
    list.push_back(
        {{"thread", threads[one.thread].name},
         {"colour", colour::hex(threads[one.thread].lab)},
         {"share", one.showing.share},
         {"worst", one.showing.worst == choice::kNone ? Report(nullptr) : Report(quilt.prints[one.showing.worst].id)},
         {"says", one.says}});
  }
  return list;
}

std::string threads_in_words(const std::string& heading, const std::vector<choice::RankedThread>& ranked,
                             const std::vector<choice::ThreadColour>& threads) {
  std::string text = ranked.empty() ? "" : heading + "\n";
  for (std::size_t i = 0; i < std::min(kMostNamed, ranked.size()); ++i) {
    text += "  " + std::to_string(i + 1) + ". " + threads[ranked[i].thread].name + ": " + ranked[i].says + "\n";
  }
  return text;
}

/// The top quilted with each of the first few threads, side by side.
Result<Done> draw_threads(const Drawing& drawing, const quilt::Quilt& quilt, const draw::Swatches& swatches,
                          const std::vector<Point>& path, const std::vector<choice::RankedThread>& ranked,
                          const std::vector<choice::ThreadColour>& threads) {
  Exhibits exhibits;
  for (std::size_t i = 0; i < std::min(kMostThreadsDrawn, ranked.size()); ++i) {
    const choice::ThreadColour& thread = threads[ranked[i].thread];
    exhibits.add_quilted(quilt, swatches, path, drawn(thread.lab), std::to_string(i + 1) + "  " + thread.name,
                         {ranked[i].says});
  }
  return exhibits.write(quilt, "Threads", drawing);
}

}  // namespace

Outcome try_threads(const TryThread& options) {
  const Drawing drawing{options.output, options.paper, options.force};
  Problems problems = problems_of_drawing(drawing);
  const std::optional<choice::QuiltingOptions::Style> style = choice::quilting_style_named(options.style);
  if (!style) {
    problems.push_back(
        input_problem("--style " + options.style, "there is no such quilting", "give lines, waves, loops or pebbles"));
  }
  if (!problems.empty()) return problems;
  Result<project::Document> document = project::read(options.folder);
  if (!document) return document.problems();
  const quilt::Quilt& quilt = document->quilt;
  Result<Length> spacing = length_option("--spacing", options.spacing, quilt.units);
  if (!spacing) return spacing.problems();
  Result<std::vector<choice::ThreadColour>> threads = threads_of(options);
  if (!threads) return threads.problems();
  const setting::Plan plan = quilt::plan_of(quilt);
  Result<choice::Quilting> quilting = choice::quilted(plan.width, plan.height, {*style, *spacing, options.factor});
  if (!quilting) return quilting.problems();

  const choice::ThreadReport ranked =
      choice::rank_threads(quilt, *threads, options.show ? choice::ThreadAim::show : choice::ThreadAim::blend);
  Answer answer;
  answer.words = threads_in_words("On the top:", ranked.top, *threads) +
                 threads_in_words("On the back:", ranked.back, *threads) + quilting->says + "\n";
  if (!options.output.empty()) {
    const draw::Swatches swatches = swatches_of(quilt, options.folder, kExhibitPixels, answer.warnings);
    Result<Done> written = draw_threads(drawing, quilt, swatches, quilting->path, ranked.top, *threads);
    if (!written) return written.problems();
  }
  Report report = new_report();
  report["aim"] = options.show ? "show" : "blend";
  report["top"] = threads_json(ranked.top, *threads, quilt);
  report["back"] = threads_json(ranked.back, *threads, quilt);
  report["quilting"] = {{"style", options.style},
                        {"spacing", quilt::in_units(quilting->spacing, quilt.units)},
                        {"path_inches", quilting->path_inches},
                        {"top_inches", quilting->top_inches},
                        {"bobbin_inches", quilting->bobbin_inches},
                        {"factor", options.factor},
                        {"says", quilting->says}};
  put_report(report, answer);
  tell_drawing(drawing, answer);
  return answer;
}

}  // namespace farflung::job
