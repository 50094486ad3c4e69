// How good a layout is at the default effort beside long runs, how long it takes, and whether small optima are reached.
//   bench_quality [SEEDS [LONG]]     LONG: how many times the default effort a long run takes (50)
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "arrange/arrange.hpp"
#include "instances.hpp"

namespace {

using namespace farflung;

struct Named {
  std::string name;
  quilt::Quilt (*make)(int, int, int, Seed);
  int rows, columns, prints;
};

struct Run {
  double F = 0, wall = 0;
  int touches = 0;
};

Run run(const quilt::Quilt& quilt, Seed seed, double effort) {
  const double start = bench::wall_seconds();
  const auto report = arrange::arrange(quilt, {.seed = seed, .effort = effort});
  return {report->after.F, bench::wall_seconds() - start, report->after.terms.touches};
}

void compare_efforts(const Named& named, int seeds, double longest) {
  const quilt::Quilt quilt = named.make(named.rows, named.columns, named.prints, {1});
  std::vector<double> once, eight, wall;
  int touches = 0;
  for (int seed = 1; seed <= seeds; ++seed) {
    const Run at_default = run(quilt, {static_cast<std::uint64_t>(seed)}, 1);
    const Run at_eight = run(quilt, {static_cast<std::uint64_t>(seed)}, 8);
    once.push_back(at_default.F);
    eight.push_back(at_eight.F);
    wall.push_back(at_default.wall);
    touches += at_default.touches;
  }
  const double best = run(quilt, {99}, longest).F;
  std::printf("%-28s %7.2f s   F %.4f   / long run %.4f   at 8 times / long run %.4f   touches in %d seeds: %d\n",
              named.name.c_str(), bench::median(wall), bench::median(once), bench::median(once) / best,
              bench::median(eight) / best, seeds, touches);
  std::fflush(stdout);
}

/// The least (touch, F) of all layouts that look different, the prints' copies as they are.
score::Score exhaustive(const bench::Bench& bench, const quilt::Quilt& quilt) {
  std::vector<int> blocks(quilt.blocks.size());
  for (std::size_t b = 0; b < blocks.size(); ++b) blocks[b] = static_cast<int>(b);
  const auto by_print = [&](int a, int b) { return quilt.blocks[a].prints < quilt.blocks[b].prints; };
  std::sort(blocks.begin(), blocks.end(), by_print);
  score::Score best;
  bool any = false;
  do {
    setting::Arrangement layout = quilt.layout;
    layout.block = blocks;
    const score::Score score = bench.measure.score(layout);
    if (!any || score::better(score, best)) best = score;
    any = true;
  } while (std::next_permutation(blocks.begin(), blocks.end(), by_print));
  return best;
}

void small_grids() {
  const std::string path = std::string(FARFLUNG_SOURCE) + "/data/bench/small_grids.tsv";
  std::ifstream known(path);
  std::string line;
  int reached = 0, all = 0;
  std::getline(known, line);
  while (std::getline(known, line)) {
    std::istringstream fields(line);
    int rows = 0, columns = 0, prints = 0, touches = 0;
    std::uint64_t seed = 0;
    double F = 0;
    fields >> rows >> columns >> prints >> seed >> touches >> F;
    const Run found = run(bench::squares(rows, columns, prints, {seed}), {seed}, 1);
    ++all;
    if (found.touches == touches && std::abs(found.F - F) < 1e-6 * F) ++reached;
  }
  std::printf("small grids: %d of %d optima reached\n", reached, all);
}

void write_small_grids() {
  std::ofstream out(std::string(FARFLUNG_SOURCE) + "/data/bench/small_grids.tsv");
  out << "rows\tcolumns\tprints\tseed\ttouches\tF\n";
  for (int rows = 1; rows <= 3; ++rows) {
    for (int columns = std::max(2, rows); columns <= 4; ++columns) {
      for (const int prints : {3, 4}) {
        if (prints > rows * columns) continue;
        const quilt::Quilt quilt = bench::squares(rows, columns, prints, {1});
        const score::Score best = exhaustive(bench::Bench(quilt), quilt);
        char text[96];
        std::snprintf(text, sizeof text, "%d\t%d\t%d\t1\t%d\t%.12g\n", rows, columns, prints, best.terms.touches,
                      best.F);
        out << text;
      }
    }
  }
}

void big_grid(double longer) {
  const quilt::Quilt quilt = bench::squares(100, 100, 60, {1});
  const double start = bench::wall_seconds();
  const auto report = arrange::arrange(quilt, {.seed = {1}, .seconds = 60.0});
  const double wall = bench::wall_seconds() - start;
  const auto longest = arrange::arrange(quilt, {.seed = {2}, .seconds = longer});
  std::printf("100 x 100, 60 prints: F %.4f in %.1f s, / long run of %.0f s %.4f, touches %d\n", report->after.F, wall,
              longer, report->after.F / longest->after.F, report->after.terms.touches);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc > 1 && std::string(argv[1]) == "--write-small-grids") {
    write_small_grids();
    return 0;
  }
  const int seeds = argc > 1 ? std::atoi(argv[1]) : 10;
  const double longest = argc > 2 ? std::atof(argv[2]) : 50;
  small_grids();
  const Named named[] = {{"63 cells, one slot", bench::squares, 9, 7, 12},
                         {"63 cells, three slots", bench::rails, 9, 7, 12},
                         {"168 cells, one slot", bench::squares, 14, 12, 24},
                         {"168 cells, three slots", bench::rails, 14, 12, 24},
                         {"1,200 cells, one slot", bench::squares, 40, 30, 24}};
  for (const Named& each : named) compare_efforts(each, seeds, longest);
  if (argc > 3) big_grid(std::atof(argv[3]));
  return 0;
}
