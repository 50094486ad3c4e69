// What arrange deals and what it leaves to its block.
#include "job/arrange.hpp"

#include <filesystem>
#include <fstream>
#include <functional>
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

  /// With another seed, a value set by somebody else while it works.
  Outcome arranged_while_set(const std::string& pointer, const std::string& value, const std::string& blocks) const {
    return arranged_meanwhile(blocks, [&] { world.change({"set", {}, 0, pointer, value}); });
  }

  /// With another seed, something done by somebody else while it works.
  Outcome arranged_meanwhile(const std::string& blocks, const std::function<void()>& does) const {
    Arrange options;
    options.folder = world.folder();
    options.effort = 0.02;
    options.seed = 2;
    options.blocks = blocks;
    bool told = false;
    return arrange(options, [&](const Progress&) {
      if (!told) does();
      return told = true;
    });
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

TEST(Arrange, GoesIntoAQuiltThatWasSavedMeanwhileInWhatItDoesNotRead) {
  for (const std::string blocks : {"sewn", "open"}) {
    const Laid laid, alone;
    const Outcome undisturbed = alone.arranged_while_set("/title", R"("quilt")", blocks);
    ASSERT_TRUE(undisturbed);
    for (const auto& [pointer, value] : std::map<std::string, std::string>{{"/title", "Harbour raffle"},
                                                                           {"/prints/0/name", "Bladderwrack"},
                                                                           {"/backing", R"({"over": 6})"},
                                                                           {"/seam_allowance", "0.375"}}) {
      const Outcome outcome = laid.arranged_while_set(pointer, value, blocks);
      ASSERT_TRUE(outcome) << pointer << ": " << outcome.problems().front().text();
      EXPECT_NE(outcome->words.find("The quilt was changed meanwhile"), std::string::npos) << outcome->words;
    }
    const Json file = laid.world.file();
    EXPECT_EQ(file["title"], "Harbour raffle");
    EXPECT_EQ(file["prints"][0]["name"], "Bladderwrack");
    EXPECT_EQ(file["backing"]["over"], 6);
    EXPECT_EQ(file["blocks"], alone.world.file()["blocks"]) << blocks;
    EXPECT_EQ(undisturbed->words.find("The quilt was changed meanwhile"), std::string::npos);
  }
}

TEST(Arrange, GoesIntoAQuiltToWhichAPrintCameMeanwhile) {
  for (const char* blocks : {"sewn", "open"}) {
    const Laid laid;
    std::string oilskin;
    const Outcome outcome =
        laid.arranged_meanwhile(blocks, [&] { oilskin = laid.world.add_print("#3a3d6e", "Oilskin"); });
    ASSERT_TRUE(outcome) << outcome.problems().front().text();
    EXPECT_NE(outcome->words.find("The quilt was changed meanwhile"), std::string::npos) << outcome->words;
    EXPECT_NE(outcome->words.find("In no block, border or binding: Oilskin; --add Oilskin"), std::string::npos);
    EXPECT_EQ(laid.world.file()["prints"].size(), 5u);
    EXPECT_EQ(laid.copies(oilskin), 0);
  }
}

TEST(Arrange, IsRefusedWhereAPrintThatCameMeanwhileIsPutToUse) {
  const Laid laid;
  const Outcome outcome = laid.arranged_meanwhile("sewn", [&] {
    const std::string oilskin = laid.world.add_print("#3a3d6e", "Oilskin");
    laid.world.change({"set", {}, 0, "/setting/borders", R"([{"width": 2, "print": ")" + oilskin + "\"}]"});
  });
  EXPECT_TRUE(!outcome && was_overtaken(outcome.problems()));
}

TEST(Arrange, IsRefusedWhereWhatItWasMadeForWasChangedMeanwhileAndSaysWhat) {
  const Laid laid;
  const auto refusal = [&](const std::string& pointer, const std::string& value, const std::string& blocks) {
    const Json before = laid.world.file();
    const Outcome outcome = laid.arranged_while_set(pointer, value, blocks);
    EXPECT_TRUE(!outcome && was_overtaken(outcome.problems())) << pointer;
    EXPECT_EQ(laid.world.file()["layout"]["cells"], before["layout"]["cells"]) << "nothing of it was saved";
    return refused(outcome);
  };
  EXPECT_NE(refusal("/layout/kept", "[[0, 0]]", "sewn").find("made for its layout as it was"), std::string::npos);
  EXPECT_NE(refusal("/goals/streak", "2", "sewn").find("its goals"), std::string::npos);
  EXPECT_NE(refusal("/prints/1/features/lab", "[30, 1, 1]", "sewn").find("its prints"), std::string::npos);
  const std::string none = R"([{"kind": "fat quarter", "count": 0}])";
  EXPECT_NE(refusal("/prints/1/cloth", none, "open").find("cloth in hand"), std::string::npos);
}

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
