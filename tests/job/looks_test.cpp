// What a screen is told beside the picture: the rows as they are sewn, the casts of regions.
#include <functional>
#include <map>
#include <set>

#include "job/arrange.hpp"
#include "job/casts.hpp"
#include "job/drawn.hpp"
#include "job/sewing.hpp"
#include "job/world.hpp"

namespace farflung::job {
namespace {

NewQuilt of_setting(const std::string& setting) {
  NewQuilt wish;
  wish.setting = setting;
  wish.size = "45x54";
  wish.block = "9";
  return wish;
}

TEST(Sewing, PutsEveryCellInOneRowWithASeamBetweenNeighbours) {
  for (const char* setting : {"straight", "brick", "on point"}) {
    const World world(of_setting(setting));
    const Json sewing = reported(job::sewing(world.folder()));
    const std::size_t cells = reported(drawn(world.folder()))["cells"].size();
    std::multiset<int> seen;
    for (const Json& row : sewing["rows"]) {
      EXPECT_NE(row["name"], "");
      EXPECT_EQ(row["seams"].size() + 1, row["cells"].size()) << setting << " " << row["name"];
      for (const Json& cell : row["cells"]) {
        if (!cell.is_null()) seen.insert(cell.get<int>());
      }
    }
    EXPECT_EQ(seen.size(), cells) << setting;
    EXPECT_EQ(std::set<int>(seen.begin(), seen.end()).size(), cells) << setting;
    EXPECT_FALSE(sewing["steps"].empty());
  }
}

/// A quilt of two prints, one block of each to a cell, the dark ones where `dark` says.
Json casts_of(const World& world, const std::string& dark, const std::string& light,
              const std::function<bool(int row, int column)>& is_dark) {
  Json file = world.file();
  std::map<std::string, std::string> print_of;
  const Json& cells = file["layout"]["cells"];
  for (int r = 0; r < static_cast<int>(cells.size()); ++r) {
    for (int c = 0; c < static_cast<int>(cells[r].size()); ++c) print_of[cells[r][c]] = is_dark(r, c) ? dark : light;
  }
  Json blocks = file["blocks"];
  for (Json& block : blocks) block["prints"] = {{"A", print_of[block["id"]]}};
  world.change({"set", {}, 0, "/blocks", blocks.dump()});
  return reported(casts(world.folder(), *world.reckoning));
}

TEST(Casts, SayWhichWayEachRegionLeansAndHowStrongly) {
  const World world(of_setting("straight"));
  const std::string dark = world.add_print("#303030", "Slipway");
  const std::string light = world.add_print("#e0e0e0", "Gannet");
  const Json report = casts_of(world, dark, light, [](int row, int) { return row < 2; });
  ASSERT_EQ(report["casts"].size(), reported(drawn(world.folder()))["cells"].size());
  const Json& first = report["casts"].front();
  const Json& last = report["casts"].back();
  EXPECT_EQ(first["leans"], "darker");
  EXPECT_EQ(last["leans"], "lighter");
  EXPECT_GT(first["strength"].get<double>(), 1);
  EXPECT_LT(first["colour"].get<std::string>(), report["mean"].get<std::string>());  // greys: hexadecimal in order
  EXPECT_GT(last["colour"].get<std::string>(), report["mean"].get<std::string>());
}

TEST(Casts, AreNoneWhereNoBlockDiffers) {
  const World world(of_setting("straight"));
  const std::string one = world.add_print("#808080", "Slipway");
  EXPECT_TRUE(casts_of(world, one, one, [](int, int) { return true; })["casts"].empty());
}

}  // namespace
}  // namespace farflung::job
