// What arrange deals and what it leaves to its block.
#include "job/arrange.hpp"

#include <filesystem>
#include <fstream>
#include <map>

#include "job/world.hpp"

namespace farflung::job {
namespace {

/// Four prints dealt to twelve squares.
struct Laid {
  Laid() {
    for (const auto& [colour, name] : std::map<std::string, std::string>{
             {"#2f5d50", "Kelp"}, {"#c6503c", "Buoy"}, {"#e8b44c", "Lantern"}, {"#dfe3e6", "Gannet"}}) {
      world.add_print(colour, name);
    }
    world.change({"reshape", {}, 0, "", R"({"pattern": "square", "rows": 4, "columns": 3})"});
    reported(arranged());
  }

  Outcome arranged(const std::vector<std::string>& add = {}, const std::string& blocks = "") const {
    Arrange options;
    options.folder = world.folder();
    options.effort = 0.02;
    options.add = add;
    options.blocks = blocks;
    return arrange(options, [](const Progress&) { return true; });
  }

  /// The print of each block, by the block's id.
  std::map<std::string, std::string> dealt() const {
    std::map<std::string, std::string> prints;
    const Json file = world.file();
    for (const Json& block : file["blocks"]) {
      const Json& print = block["prints"].begin().value();
      prints[block["id"]] = print.is_string() ? print.get<std::string>() : "";
    }
    return prints;
  }

  int copies(const std::string& print) const {
    int count = 0;
    for (const auto& [id, its] : dealt()) count += its == print ? 1 : 0;
    return count;
  }

  World world;
};

TEST(Arrange, ABlockKeepsItsPrintWhenOthersLackTheirs) {
  const Laid laid;
  const auto before = laid.dealt();
  laid.world.change({"drop", {}, 0, "", R"(["Buoy"])"});
  const auto open = laid.dealt();
  const Outcome arranged = laid.arranged();
  ASSERT_TRUE(arranged);
  EXPECT_NE(arranged->words.find("3 blocks that lacked prints were dealt some; the others keep theirs."),
            std::string::npos)
      << arranged->words;
  std::map<std::string, int> times;
  for (const auto& [id, print] : laid.dealt()) {
    EXPECT_NE(print, "") << id;
    ++times[print];
    if (open.count(id) > 0 && !open.at(id).empty()) {
      EXPECT_EQ(print, before.at(id)) << id;
    }
  }
  for (const auto& [print, count] : times) EXPECT_EQ(count, 4) << print;
}

TEST(Arrange, AQuiltThatHasGrownDealsItsNewBlocksAlone) {
  const Laid laid;
  const auto before = laid.dealt();
  laid.world.change({"reshape", {}, 0, "", R"({"rows": 5, "columns": 4})"});
  ASSERT_TRUE(laid.arranged());
  const auto after = laid.dealt();
  EXPECT_EQ(after.size(), 20u);
  for (const auto& [id, print] : before) EXPECT_EQ(after.at(id), print) << id;
}

TEST(Arrange, AFabricThatCameLaterIsNamedAndDealtWhereItIsAdded) {
  const Laid laid;
  const std::string oilskin = laid.world.add_print("#3a3d6e", "Oilskin");
  const Outcome without = laid.arranged();
  ASSERT_TRUE(without);
  EXPECT_NE(without->words.find("In no block, border or binding: Oilskin; --add Oilskin deals it as well."),
            std::string::npos)
      << without->words;
  EXPECT_EQ(laid.copies(oilskin), 0);
  EXPECT_NE(refused(laid.arranged({"Oilskin"}, "sewn")), "");
  EXPECT_NE(refused(laid.arranged({"Herring"})), "");
  ASSERT_TRUE(laid.arranged({"Oilskin"}));
  EXPECT_GE(laid.copies(oilskin), 2);
}

TEST(Arrange, BlocksWhosePrintsThePatternNamesAreNotDealtAlready) {
  const Laid laid;
  const std::filesystem::path path = std::filesystem::path(laid.world.folder()) / "quilt.json";
  Json file = Json::parse(std::ifstream(path));
  Json plain = file["patterns"][0];
  plain["id"] = "plain";
  plain["slots"].begin().value()["print"] = file["prints"][0]["id"];
  file["patterns"].push_back(plain);
  file["setting"]["alternate"] = Json::parse(R"([["square", "plain"], ["plain", "square"]])");
  file["layout"] = Json::object();
  for (std::size_t i = 0; i < file["blocks"].size(); ++i) {
    file["blocks"][i]["prints"] = Json::object();
    if (i % 2 == 1) file["blocks"][i]["pattern"] = "plain";
  }
  std::ofstream(path) << file;
  const Json report = reported(laid.arranged());
  EXPECT_EQ(report["dealt_beside"], 0);
  EXPECT_EQ(report["blocks"], "open");
}

}  // namespace
}  // namespace farflung::job
