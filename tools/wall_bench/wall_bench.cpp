// How well photographed walls are read: wall_bench [WALLS] [ROWS COLUMNS] [WIDTH] [FIRST]
#include <cstdio>
#include <cstdlib>
#include <ctime>

#include "wall_bench/trial.hpp"

using namespace farflung;

namespace {

double percent(int part, int whole) { return whole == 0 ? 100 : 100.0 * part / whole; }

void show(const char* name, const wall_bench::Tally& tally) {
  std::printf("  %-14s right %.2f %%, turns %.2f %%, sure %.2f %% of which right %.2f %%\n", name,
              percent(tally.right, tally.cells), percent(tally.turns_right, tally.turns),
              percent(tally.sure, tally.cells), percent(tally.sure_right, tally.sure));
}

double seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

}  // namespace

int main(int count, char** words) {
  const int walls = count > 1 ? std::atoi(words[1]) : 4;
  wall_bench::Wanted wanted;
  if (count > 3) wanted.rows = std::atoi(words[2]), wanted.columns = std::atoi(words[3]);
  if (count > 4) wanted.pixels = {std::atoi(words[4]), std::atoi(words[4]) * 3 / 4};
  const int first = count > 5 ? std::atoi(words[5]) : 0;
  wall_bench::Tally given, found, learnt, grouped, told;
  for (int w = first; w < first + walls; ++w) {
    wanted.pattern = w % 4;
    const wall_bench::Wall wall = wall_bench::wall_by_lot(wanted, Seed{static_cast<std::uint64_t>(w) + 1});
    wall::ReadOptions options;
    options.corners = wall.corners;
    const double start = seconds();
    const auto read = wall::read_wall(wall.picture, wall.quilt, wall.swatches, options);
    const double middle = seconds();
    const auto learn = wall::learn_wall(wall.picture, wall.quilt, 0, wall.swatches, options);
    const double end = seconds();
    const auto alone = wall::read_wall(wall.picture, wall.quilt, wall.swatches);
    const auto alike = wall::group_wall({{wall.picture, options}}, wall.quilt, 0, 0);
    const auto counted = wall::group_wall({{wall.picture, options}}, wall.quilt, 0, wanted.prints);
    const wall_bench::Tally d = tally_of(wall, *alike), e = tally_of(wall, *counted);
    grouped += d;
    told += e;
    const wall_bench::Tally a = tally_of(wall, *read), b = tally_of(wall, *learn);
    given += a;
    learnt += b;
    std::printf(
        "%3d pattern %d: read %d of %d, turns %d of %d, sure %d (%d right); learnt %d, sure %d (%d right); "
        "alike %d in %zu prints, told how many %d; %.1f s, %.1f s",
        w, wanted.pattern, a.right, a.cells, a.turns_right, a.turns, a.sure, a.sure_right, b.right, b.sure,
        b.sure_right, d.right, alike->prints.size(), e.right, middle - start, end - middle);
    if (alone) {
      const wall_bench::Tally c = tally_of(wall, *alone);
      found += c;
      std::printf("; corners found: read %d\n", c.right);
    } else {
      found += {a.cells, 0, 0, 0, 0, 0};
      std::printf("; no corners found\n");
    }
    std::fflush(stdout);
  }
  show("corners given", given);
  show("corners found", found);
  show("learnt", learnt);
  show("no swatches", grouped);
  show("prints counted", told);
}
