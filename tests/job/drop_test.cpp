// Prints that are taken out of a quilt.
#include <algorithm>

#include "job/world.hpp"

namespace farflung::job {
namespace {

Edit drop(const Json& names) { return {"drop", {}, 0, "", names.dump()}; }
Edit set(const std::string& pointer, const std::string& value) { return {"set", {}, 0, pointer, value}; }

struct Dealt : World {
  std::string kelp = add_print("#2f5d50", "Kelp");
  std::string buoy = add_print("#c6503c", "Buoy");
  std::string gannet = add_print("#e6edf2", "Gannet");

  Dealt() { change({"take", {}, 0, "", Json({kelp, buoy, gannet}).dump()}); }

  /// By block, the print of its one slot.
  std::vector<Json> dealt() const {
    std::vector<Json> prints;
    const Json quilt = file();
    for (const Json& block : quilt["blocks"]) {
      const Json held = block.value("prints", Json::object());
      prints.push_back(held.empty() ? Json(nullptr) : held.begin().value());
    }
    return prints;
  }
};

TEST(DropPrints, LeavesItsBlocksToBeDealtAndAllOthersAsTheyAre) {
  const Dealt world;
  const std::vector<Json> before = world.dealt();
  const Json report = world.change(drop({"Kelp"}));
  const std::vector<Json> after = world.dealt();
  ASSERT_EQ(after.size(), before.size());
  for (std::size_t b = 0; b < before.size(); ++b) {
    EXPECT_EQ(after[b], before[b] == world.kelp ? Json(nullptr) : before[b]) << b;
  }
  const Json prints = world.file()["prints"];
  ASSERT_EQ(prints.size(), 2U);
  EXPECT_EQ(prints[0]["id"], world.buoy);
  EXPECT_EQ(prints[1]["id"], world.gannet);
  const auto open = std::count(before.begin(), before.end(), Json(world.kelp));
  EXPECT_NE(report["says"].get<std::string>().find(std::to_string(open) + " blocks wait"), std::string::npos)
      << report["says"];
}

TEST(DropPrints, UndoBringsItBackWhereItLay) {
  const Dealt world;
  const Json before = world.file();
  world.change(drop({world.buoy}));
  EXPECT_NE(world.file(), before);
  world.change({"undo", {}, 0, "", ""});
  EXPECT_EQ(world.file(), before);
}

TEST(DropPrints, BordersAndBindingKeepTheirOwnPrints) {
  const Dealt world;
  world.change({"use", {}, 0, "border", world.gannet});
  world.change({"use", {}, 0, "binding", world.buoy});
  world.change(drop({"Kelp"}));
  const Json quilt = world.file();
  EXPECT_EQ(quilt["setting"]["borders"][0]["print"], world.gannet);
  EXPECT_EQ(quilt["binding"]["print"], world.buoy);
}

TEST(DropPrints, IsRefusedWhereThePrintIsNeeded) {
  const Dealt world;
  world.change({"use", {}, 0, "binding", world.buoy});
  const auto cell_of = [&](const std::string& print) {
    const Json quilt = world.file();
    for (std::size_t r = 0; r < quilt["layout"]["cells"].size(); ++r) {
      for (std::size_t c = 0; c < quilt["layout"]["cells"][r].size(); ++c) {
        for (const Json& block : quilt["blocks"]) {
          if (block["id"] == quilt["layout"]["cells"][r][c] && block["prints"].begin().value() == print) {
            return "R" + std::to_string(r + 1) + "C" + std::to_string(c + 1);
          }
        }
      }
    }
    return std::string();
  };
  world.change({"keep", {cell_of(world.kelp)}, 0, "", ""});
  std::size_t sewn = 0;
  const std::vector<Json> dealt = world.dealt();
  while (dealt[sewn] != world.gannet) ++sewn;
  world.change(set("/blocks/" + std::to_string(sewn) + "/sewn", "true"));
  const Json before = world.file();
  EXPECT_NE(refused(world.try_edit(drop({"Buoy"}))).find("the print of the binding"), std::string::npos);
  EXPECT_NE(refused(world.try_edit(drop({"Kelp"}))).find("free it first"), std::string::npos);
  EXPECT_NE(refused(world.try_edit(drop({"Gannet"}))).find("sewn into block"), std::string::npos);
  EXPECT_NE(refused(world.try_edit(drop({"Herring"}))).find("no such print"), std::string::npos);
  EXPECT_NE(refused(world.try_edit(drop(Json::array()))), "");
  EXPECT_EQ(world.file(), before);
}

}  // namespace
}  // namespace farflung::job
