#include "layouts.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <sys/resource.h>

#include "arrange/arrange.hpp"
#include "instances.hpp"
#include "support/every_layout.hpp"
#include "table.hpp"

namespace farflung::bench {
namespace {

struct Named {
  std::string name;
  quilt::Quilt (*make)(int, int, int, Seed);
  int rows, columns, prints;
  double most_seconds;  ///< of wall clock on two cores at the default effort; 0: not asked
};

struct Run {
  double F = 0, seconds = 0;  ///< of processor time
  int touches = 0;
};

Run run(const quilt::Quilt& quilt, int seed, double effort) {
  const double start = process_seconds();
  const auto report = arrange::arrange(quilt, {.seed = {static_cast<std::uint64_t>(seed)}, .effort = effort});
  return {report->after.F, process_seconds() - start, report->after.terms.touches};
}

std::vector<Run> runs(const quilt::Quilt& quilt, int seeds, double effort) {
  std::vector<Run> all;
  for (int seed = 1; seed <= seeds; ++seed) all.push_back(run(quilt, seed, effort));
  return all;
}

double median_of(const std::vector<Run>& runs, double Run::*member) {
  std::vector<double> values;
  for (const Run& run : runs) values.push_back(run.*member);
  return median(values);
}

void print_efforts(const Named& named, const Sample& sample) {
  const quilt::Quilt quilt = named.make(named.rows, named.columns, named.prints, {1});
  const std::vector<Run> once = runs(quilt, sample.seeds, 1);
  const double seconds = median_of(once, &Run::seconds);
  const std::string reach = named.most_seconds > 0 ? text("%.1f s", named.most_seconds) : "";
  print_row(named.name + ", default effort", reach,
            text("%.2f s of processor time: %.2f s on two free cores", seconds, seconds / 2),
            named.most_seconds > 0 ? verdict(seconds / 2 <= named.most_seconds) : Verdict::none);
  const double F = median_of(once, &Run::F);
  int touches = 0;
  for (const Run& each : once) touches += each.touches;
  const double at_eight = median_of(runs(quilt, sample.seeds, 8), &Run::F);
  if (sample.long_seeds == 0) {
    print_row("  F at default effort / at 8 times", "", text("%.4f / %.4f = %.4f", F, at_eight, F / at_eight));
    return;
  }
  const double long_run = median_of(runs(quilt, sample.long_seeds, 50), &Run::F);
  print_row("  F at default effort / at 50 times", "1.02",
            text("%.4f / %.4f = %.4f; %d touches in %d seeds, %d long", F, long_run, F / long_run, touches,
                 sample.seeds, sample.long_seeds),
            verdict(F <= 1.02 * long_run));
  print_row("  F at 8 times the default effort / at 50 times", "1.010",
            text("%.4f / %.4f = %.4f", at_eight, long_run, at_eight / long_run), verdict(at_eight <= 1.01 * long_run));
}

std::string small_grids_path() { return std::string(FARFLUNG_SOURCE) + "/data/bench/small_grids.tsv"; }

double peak_megabytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

}  // namespace

void print_small_grid_rows() {
  std::ifstream known(small_grids_path());
  std::string line, missed;
  int reached = 0, all = 0;
  std::getline(known, line);
  while (std::getline(known, line)) {
    std::istringstream fields(line);
    int rows = 0, columns = 0, prints = 0, touches = 0, seed = 0;
    double F = 0;
    fields >> rows >> columns >> prints >> seed >> touches >> F;
    const Run found = run(squares(rows, columns, prints, {static_cast<std::uint64_t>(seed)}), seed, 1);
    ++all;
    if (found.touches == touches && std::abs(found.F - F) < 1e-6 * F) {
      ++reached;
    } else {
      missed += text("; %d x %d of %d: %.6g, known %.6g", rows, columns, prints, found.F, F);
    }
  }
  print_heading("One-slot grids up to 3 x 4 whose optimum is known by exhaustion, default effort");
  print_row("optima reached", text("%d", all), text("%d of %d", reached, all) + missed, verdict(reached == all));
}

void print_effort_rows(const Sample& sample) {
  print_heading(text("Quilts, median of %d seeds", sample.seeds));
  const Named named[] = {{"63 cells, one slot", squares, 9, 7, 12, 0},
                         {"63 cells, three slots", rails, 9, 7, 12, 0},
                         {"168 cells, one slot", squares, 14, 12, 24, 0},
                         {"168 cells, three slots", rails, 14, 12, 24, 1.5},
                         {"1,200 cells, one slot", squares, 40, 30, 24, 15}};
  for (const Named& each : named) print_efforts(each, sample);
}

void print_large_rows(const Sample& sample) {
  const quilt::Quilt quilt = squares(100, 100, 60, {1});
  const Run found = run(quilt, 1, sample.large_effort);
  const double memory = peak_megabytes();
  const Run longer = run(quilt, 2, sample.large_effort * sample.large_longer);
  print_heading(text("100 x 100 cells of 60 prints, effort %g", sample.large_effort));
  print_row("time", "60 s",
            text("%.0f s of processor time: %.0f s on two free cores", found.seconds, found.seconds / 2),
            verdict(found.seconds / 2 <= 60));
  print_row("peak memory", "1 GB", text("%.0f MB", memory), verdict(memory <= 1024));
  print_row(text("F / its own at %g times that", sample.large_longer), "1.02",
            text("%.4f / %.4f = %.4f; touches %d", found.F, longer.F, found.F / longer.F, found.touches),
            verdict(found.F <= 1.02 * longer.F));
}

void write_small_grids() {
  std::ofstream out(small_grids_path());
  out << "rows\tcolumns\tprints\tseed\ttouches\tF\n";
  for (int rows = 1; rows <= 3; ++rows) {
    for (int columns = std::max(2, rows); columns <= 4; ++columns) {
      for (const int prints : {3, 4}) {
        if (prints > rows * columns) continue;
        const quilt::Quilt quilt = squares(rows, columns, prints, {1});
        const score::Score best = support::best_of_all_layouts(score::Measure(quilt));
        out << text("%d\t%d\t%d\t1\t%d\t%.12g\n", rows, columns, prints, best.terms.touches, best.F);
      }
    }
  }
}

}  // namespace farflung::bench
