// How well photographed walls are read.
//   wall_bench lot WALLS [ROWS COLUMNS] [WIDTH] [FIRST]    by lot over slants, lamps, walls, gaps: a line each, and all
//   wall_bench kinds WALLS [ROWS COLUMNS] [WIDTH]          a row for each kind of difficulty, its corners looked for
//   wall_bench command WALLS [ROWS COLUMNS] [WIDTH]        what the whole command costs, beside decoding alone
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>

#include "wall_bench/command.hpp"
#include "wall_bench/variants.hpp"

using namespace farflung;

namespace {

using wall_bench::Tally;
using wall_bench::Wall;

double percent(int part, int whole) { return whole == 0 ? 100 : 100.0 * part / whole; }

void show(const char* name, const Tally& tally) {
  std::printf("  %-20s right %6.2f %%, turns %6.2f %%, sure %6.2f %% of which right %6.2f %%\n", name,
              percent(tally.right, tally.cells), percent(tally.turns_right, tally.turns),
              percent(tally.sure, tally.cells), percent(tally.sure_right, tally.sure));
  std::fflush(stdout);
}

double seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

/// All ways of reading one wall, each added to its sum.
struct Ways {
  Tally given, found, learnt, grouped, counted;
  int unseen = 0;  ///< walls whose corners were not found

  /// Where a wall is not to be read, all of its cells are wrong.
  void add(const Wall& wall, int prints) {
    wall::ReadOptions options;
    options.corners = wall.corners;
    const double start = seconds();
    const Tally read = tally_of(wall, *wall::read_wall(wall.picture, wall.quilt, wall.swatches, options));
    const double middle = seconds();
    const Tally learn = tally_of(wall, *wall::learn_wall(wall.picture, wall.quilt, 0, wall.swatches, options));
    const double end = seconds();
    const auto alone = wall::read_wall(wall.picture, wall.quilt, wall.swatches);
    const Tally self = alone ? tally_of(wall, *alone) : Tally{read.cells, 0, 0, 0, 0, 0};
    unseen += alone ? 0 : 1;
    const Tally alike = tally_of(wall, *wall::group_wall({{wall.picture, options}}, wall.quilt, 0, 0));
    const Tally told = tally_of(wall, *wall::group_wall({{wall.picture, options}}, wall.quilt, 0, prints));
    given += read, learnt += learn, found += self, grouped += alike, counted += told;
    std::printf(
        "    of %d: read %d, sure %d (%d right), corners found %d; learnt %d, sure %d (%d right); alike %d, prints "
        "counted %d; %.1f s, %.1f s of one core\n",
        read.cells, read.right, read.sure, read.sure_right, self.right, learn.right, learn.sure, learn.sure_right,
        alike.right, told.right, middle - start, end - middle);
    std::fflush(stdout);
  }
  void show_all() const {
    show("corners given", given);
    show("corners found", found);
    show("learnt", learnt);
    show("no swatches", grouped);
    show("prints counted", counted);
  }
};

void by_lot(wall_bench::Wanted wanted, int walls, int first) {
  Ways ways;
  for (int w = first; w < first + walls; ++w) {
    wanted.pattern = w % 4;
    ways.add(wall_by_lot(wanted, Seed{static_cast<std::uint64_t>(w) + 1}), wanted.prints);
  }
  ways.show_all();
}

void by_kind(wall_bench::Wanted wanted, int walls) {
  for (const wall_bench::Variant& variant : wall_bench::variants()) {
    Tally found, learnt;
    int unseen = 0;
    for (int w = 0; w < walls; ++w) {
      wanted.pattern = (w + 1) % 4;
      const Wall wall = wall_so(variant, wanted, Seed{static_cast<std::uint64_t>(w) + 101});
      const auto read = wall::read_wall(wall.picture, wall.quilt, wall.swatches);
      const auto learn = wall::learn_wall(wall.picture, wall.quilt, 0, wall.swatches);
      if (read && learn) {
        found += tally_of(wall, *read);
        learnt += tally_of(wall, *learn);
      } else {
        found += {wanted.rows * wanted.columns, 0, 0, 0, 0, 0};
        learnt += {wanted.rows * wanted.columns, 0, 0, 0, 0, 0};
        ++unseen;
      }
    }
    show(variant.name, found);
    std::printf("  %-20s learnt %6.2f %%, sure %6.2f %% of which right %6.2f %%%s\n", "",
                percent(learnt.right, learnt.cells), percent(learnt.sure, learnt.cells),
                percent(learnt.sure_right, learnt.sure), unseen > 0 ? "; corners not found" : "");
  }
}

void by_command(wall_bench::Wanted wanted, int walls) {
  for (int w = 0; w < walls; ++w) {
    wanted.pattern = w % 4;
    const wall_bench::Cost cost = wall_bench::cost_of_command(wanted, Seed{static_cast<std::uint64_t>(w) + 1});
    if (cost.command <= 0 || cost.decoding <= 0) {
      std::printf("  the command failed\n");
      continue;
    }
    std::printf("  %.1f megapixels, %d blocks: %.2f s, %.1f times decoding (%.2f s); of one core %.2f s, %.1f times\n",
                wanted.pixels.area() / 1e6, wanted.rows * wanted.columns, cost.command, cost.command / cost.decoding,
                cost.decoding, cost.command_core, cost.command_core / cost.decoding_core);
    std::fflush(stdout);
  }
}

}  // namespace

int main(int count, char** words) {
  const std::string what = count > 2 ? words[1] : "";
  if (what != "lot" && what != "kinds" && what != "command") {
    std::fprintf(stderr, "wall_bench lot|kinds|command WALLS [ROWS COLUMNS] [WIDTH] [FIRST]\n");
    return 2;
  }
  const int walls = std::atoi(words[2]);
  wall_bench::Wanted wanted;
  if (count > 4) wanted.rows = std::atoi(words[3]), wanted.columns = std::atoi(words[4]);
  if (count > 5) wanted.pixels = {std::atoi(words[5]), std::atoi(words[5]) * 3 / 4};
  if (what == "kinds") {
    by_kind(wanted, walls);
  } else if (what == "command") {
    by_command(wanted, walls);
  } else {
    by_lot(wanted, walls, count > 6 ? std::atoi(words[6]) : 0);
  }
  return 0;
}
