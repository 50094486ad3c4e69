// Prints that take a part of the quilt, other patterns and sizes: changes by hand beyond swapping.
#include <map>

#include <gmock/gmock.h>

#include "job/check.hpp"
#include "job/world.hpp"

namespace farflung::job {
namespace {

TEST(UseAPrint, AddsTheBorderThatTheQuiltLacksAndUndoTakesItOut) {
  const World world;
  const std::string kelp = world.add_print("#2f5d50", "Kelp");
  ASSERT_FALSE(world.file()["setting"].contains("borders"));
  world.change({"use", {}, 0, "border", kelp});
  const Json border = world.file()["setting"]["borders"].at(0);
  EXPECT_EQ(border["print"], kelp);
  EXPECT_EQ(border["width"], 4);
  world.change({"undo", {}, 0, "", ""});
  EXPECT_FALSE(world.file()["setting"].contains("borders"));
}

TEST(SetAValue, TakesPrintsByNameAndCodeAsWellAsById) {
  const World world;
  const std::string kelp = world.add_print("#2f5d50", "Kelp");
  const std::string buoy = world.add_print("#c6503c", "Sea buoy");
  const auto set = [&](const char* pointer, const std::string& value) { world.change({"set", {}, 0, pointer, value}); };
  set("/binding", R"({"print": "Kelp", "width": 2.5})");
  EXPECT_EQ(world.file()["binding"]["print"], kelp);
  set("/binding/print", "Sea buoy");
  EXPECT_EQ(world.file()["binding"]["print"], buoy);
  set("/setting/borders", R"([{"width": 4, "print": "Kelp", "corners": "cornerstone", "cornerstone": "Sea buoy"}])");
  EXPECT_EQ(world.file()["setting"]["borders"][0]["print"], kelp);
  EXPECT_EQ(world.file()["setting"]["borders"][0]["cornerstone"], buoy);
  const std::string code = world.file()["prints"][0]["code"];
  const std::string slot = world.file()["patterns"][0]["slots"].begin().key();
  set(("/blocks/0/prints/" + slot).c_str(), code);
  EXPECT_EQ(world.file()["blocks"][0]["prints"][slot], kelp);
  set("/blocks/1/prints", Json({{slot, "Sea buoy"}}).dump());
  EXPECT_EQ(world.file()["blocks"][1]["prints"][slot], buoy);
  set("/title", "Kelp");
  EXPECT_EQ(world.file()["title"], "Kelp") << "a text that is no print's";
  EXPECT_NE(refused(world.try_edit({"set", {}, 0, "/binding/print", "Herring"})), "");
}

TEST(SetAValue, SaysThatATextIsEmpty) {
  const World world;
  const Outcome outcome = world.try_edit({"set", {}, 0, "/title", ""});
  ASSERT_TRUE(outcome);
  EXPECT_EQ(outcome->words, "Set /title to an empty text.\n");
}

TEST(SetAValue, SaysOfWhichPrintsTheClothInHandIsNotEnoughThen) {
  const World world;
  const std::string kelp = world.add_print("#2f5d50", "Kelp");
  const std::string buoy = world.add_print("#c6503c", "Buoy");
  const auto set = [&](const char* pointer, const std::string& value) {
    return world.change({"set", {}, 0, pointer, value});
  };
  set("/binding", R"({"print": "Kelp", "width": 2.5})");
  const std::string says = "The cloth in hand is not enough for Kelp: farflung cloth says what is missing.";
  EXPECT_THAT(set("/prints/0/cloth", R"([{"kind": "fat quarter", "count": 0}])")["says"].get<std::string>(),
              testing::EndsWith(says));
  EXPECT_EQ(reported(check(world.folder()))["short"], Json({kelp}));
  EXPECT_THAT(check(world.folder())->words, testing::HasSubstr(says));
  EXPECT_THAT(set("/title", "Harbour raffle")["says"].get<std::string>(),
              testing::Not(testing::HasSubstr("The cloth in hand")))
      << "nothing is cut otherwise";
  EXPECT_THAT(set("/prints/0/cloth", R"([{"kind": "fat quarter", "count": 30}])")["says"].get<std::string>(),
              testing::Not(testing::HasSubstr("The cloth in hand")));
  EXPECT_THAT(set("/binding/width", "60")["says"].get<std::string>(), testing::EndsWith(says)) << "more is asked of it";
  EXPECT_THAT(set("/prints/1/cloth", R"([{"kind": "fat quarter", "count": 0}])")["says"].get<std::string>(),
              testing::Not(testing::HasSubstr("Buoy:")))
      << "nothing is cut from it";
  EXPECT_THAT(world.change({"use", {}, 0, "backing", buoy})["says"].get<std::string>(),
              testing::HasSubstr("not enough for Buoy"));
}

TEST(SetAValue, SaysThatASeamAllowanceIsWiderThanAPatch) {
  NewQuilt wish;
  wish.patterns = {"nine-patch"};
  const World world(wish);
  const auto says = [&](const std::string& value) {
    return world.change({"set", {}, 0, "/seam_allowance", value})["says"].get<std::string>();
  };
  const std::string narrow = "The seam allowance of 3 1/2 in is wider than the narrowest patch of Nine patch, 3 in";
  EXPECT_THAT(says("3.5"), testing::HasSubstr(narrow));
  EXPECT_THAT(says("0.375"), testing::Not(testing::HasSubstr("wider")));
  EXPECT_NE(refused(world.try_edit({"set", {}, 0, "/seam_allowance", "25"})), "");
}

TEST(SetAValue, KeepsOnlyPlacesThatHoldABlock) {
  const World world;
  world.add_print("#2f5d50", "Kelp");
  Json layout = world.file()["layout"];
  ASSERT_FALSE(layout["cells"][0][1].is_null());
  world.change({"set", {}, 0, "/layout/cells/0/0", "null"});
  EXPECT_THAT(refused(world.try_edit({"set", {}, 0, "/layout/kept", "[[0, 0]]"})),
              testing::HasSubstr("there is no block to keep"));
  world.change({"set", {}, 0, "/layout/kept", "[[0, 1]]"});
  layout = world.file()["layout"];
  EXPECT_EQ(layout["kept"], Json({{0, 1}}));
  layout["cells"][0][1] = nullptr;
  world.change({"set", {}, 0, "/layout", layout.dump()});
  EXPECT_EQ(world.file()["layout"].value("kept", Json::array()), Json::array()) << "what is emptied is free";
}

TEST(SetAValue, OtherUnitsLeaveEveryLengthAsLongAsItIs) {
  const World world;
  world.add_print("#2f5d50", "Kelp");
  world.change({"set", {}, 0, "/setting/borders", R"([{"width": "2 1/2", "print": "Kelp"}])"});
  const Json before = world.file();
  world.change({"set", {}, 0, "/units", "cm"});
  const Json after = world.file();
  EXPECT_EQ(after["units"], "cm");
  EXPECT_DOUBLE_EQ(after["patterns"][0]["width"].get<double>(), 2.54 * before["patterns"][0]["width"].get<double>());
  EXPECT_DOUBLE_EQ(after["setting"]["borders"][0]["width"].get<double>(), 6.35);
  world.change({"set", {}, 0, "/units", "in"});
  EXPECT_EQ(world.file()["patterns"], before["patterns"]);
  EXPECT_NE(refused(world.try_edit({"set", {}, 0, "/units", "ells"})), "");
}

TEST(UseAPrint, ChangesThePrintAloneWhereThePartIsThere) {
  const World world;
  const std::string kelp = world.add_print("#2f5d50", "Kelp");
  const std::string buoy = world.add_print("#c6503c", "Buoy");
  world.change({"set", {}, 0, "/binding", R"({"print": ")" + kelp + R"(", "width": 2.25})"});
  world.change({"use", {}, 0, "binding", buoy});
  EXPECT_EQ(world.file()["binding"]["print"], buoy);
  EXPECT_EQ(world.file()["binding"]["width"], 2.25);
}

TEST(UseAPrint, IsRefusedForNoSuchPartNoSuchPrintAndAPartThatTheSettingLacks) {
  const World world;
  const std::string kelp = world.add_print("#2f5d50", "Kelp");
  const Json before = world.file();
  EXPECT_NE(refused(world.try_edit({"use", {}, 0, "sleeve", kelp})), "");
  EXPECT_NE(refused(world.try_edit({"use", {}, 0, "border", "P99"})), "");
  EXPECT_NE(refused(world.try_edit({"use", {}, 0, "setting", kelp})), "");
  EXPECT_EQ(world.file(), before);
}

TEST(TakePrints, DealsTheChosenOnesAloneToTheBlocks) {
  const World world;
  const std::string kelp = world.add_print("#2f5d50", "Kelp");
  const std::string buoy = world.add_print("#c6503c", "Buoy");
  const std::string gannet = world.add_print("#e6edf2", "Gannet");
  world.change({"take", {}, 0, "", Json({kelp, gannet}).dump()});
  std::map<std::string, int> times;
  const Json file = world.file();
  for (const Json& block : file["blocks"]) ++times[block["prints"].begin().value()];
  EXPECT_EQ(times.count(buoy), 0u);
  EXPECT_NEAR(times[kelp], times[gannet], 1);
  EXPECT_NE(refused(world.try_edit({"take", {}, 0, "", R"(["P99"])"})), "");
  EXPECT_NE(refused(world.try_edit({"take", {}, 0, "", "[]"})), "");
}

TEST(Reshape, KeepsPrintsBordersAndTheBlocksWidthAndBeginsBlocksAnew) {
  const World world;
  const std::string kelp = world.add_print("#2f5d50", "Kelp");
  world.change({"use", {}, 0, "border", kelp});
  const Json before = world.file();
  world.change({"reshape", {}, 0, "", R"({"pattern": "nine-patch", "rows": 5, "columns": 4})"});
  const Json after = world.file();
  EXPECT_EQ(after["prints"], before["prints"]);
  EXPECT_EQ(after["setting"]["borders"], before["setting"]["borders"]);
  EXPECT_EQ(after["patterns"].size(), 1u);
  EXPECT_EQ(after["patterns"][0]["id"], "nine-patch");
  EXPECT_EQ(after["patterns"][0]["width"], before["patterns"][0]["width"]);
  EXPECT_EQ(after["blocks"].size(), 20u);
  EXPECT_EQ(after["layout"]["cells"].size(), 5u);
  EXPECT_EQ(after["layout"]["cells"][0].size(), 4u);
}

TEST(Reshape, TakesSeveralPatternsInTurn) {
  const World world;
  world.change({"reshape", {}, 0, "", R"({"pattern": ["square", "Snowball"], "rows": 3, "columns": 3})"});
  const Json after = world.file();
  EXPECT_EQ(after["patterns"].size(), 2u);
  EXPECT_EQ(after["patterns"][1]["width"], after["patterns"][0]["width"]);
  EXPECT_EQ(after["setting"]["alternate"], Json::parse(R"([["square", "snowball"], ["snowball", "square"]])"));
  EXPECT_EQ(after["blocks"][4]["pattern"], "square");
  EXPECT_EQ(after["blocks"][5]["pattern"], "snowball");
  world.change({"reshape", {}, 0, "", R"({"kind": "on point"})"});
  const Json on_point = world.file();
  for (const Json& row : on_point["layout"]["cells"]) EXPECT_EQ(std::count(row.begin(), row.end(), Json()), 0);
  world.change({"reshape", {}, 0, "", R"({"pattern": "rails"})"});
  EXPECT_EQ(world.file()["patterns"].size(), 1u);
  EXPECT_TRUE(world.file()["setting"].value("alternate", Json::array()).empty());
  EXPECT_NE(refused(world.try_edit({"reshape", {}, 0, "", R"({"pattern": []})"})), "");
}

/// Cell by cell, the block and its turn.
std::map<std::pair<std::size_t, std::size_t>, std::string> lies_in(const Json& file) {
  std::map<std::pair<std::size_t, std::size_t>, std::string> lies;
  const Json& cells = file["layout"]["cells"];
  for (std::size_t r = 0; r < cells.size(); ++r) {
    for (std::size_t c = 0; c < cells[r].size(); ++c) {
      const Json turns = file["layout"].value("turns", Json());
      const int turn = turns.is_array() ? turns[r][c].get<int>() : 0;
      lies[{r, c}] = cells[r][c].dump() + " turned " + std::to_string(turn);
    }
  }
  return lies;
}

TEST(Reshape, AnotherSizeLeavesWhereItLiesWhatStillHasAPlace) {
  const World world;
  world.add_print("#2f5d50", "Kelp");
  world.change({"reshape", {}, 0, "", R"({"rows": 4, "columns": 3})"});
  world.change({"swap", {"R1C1", "R3C2"}, 0, "", ""});
  world.change({"keep", {"R2C2"}, 0, "", ""});
  const auto before = lies_in(world.file());
  world.change({"reshape", {}, 0, "", R"({"rows": 5, "columns": 2})"});
  const Json narrower = world.file();
  EXPECT_EQ(narrower["blocks"].size(), 10u) << "of the four that lost their place two fill the new row";
  for (const auto& [place, says] : lies_in(narrower)) {
    if (place.first < 4) {
      EXPECT_EQ(says, before.at(place));
    }
  }
  EXPECT_EQ(narrower["layout"]["kept"], Json({{1, 1}}));
  const Outcome larger = world.try_edit({"reshape", {}, 0, "", R"({"rows": 6, "columns": 4})"});
  ASSERT_TRUE(larger);
  EXPECT_NE(larger->words.find(" blocks wait to be dealt prints"), std::string::npos) << larger->words;
  EXPECT_NE(larger->words.find("finished now."), std::string::npos) << larger->words;
  const Json now = world.file();
  EXPECT_EQ(now["blocks"].size(), 24u);
  std::map<std::string, int> ids;
  for (const Json& block : now["blocks"]) EXPECT_EQ(++ids[block["id"]], 1);
  const auto lies = lies_in(now);
  for (const auto& [place, says] : lies_in(narrower)) EXPECT_EQ(lies.at(place), says);
}

TEST(Reshape, ASewnBlockThatLosesItsPlaceIsASpare) {
  const World world;
  world.add_print("#2f5d50", "Kelp");
  world.change({"reshape", {}, 0, "", R"({"rows": 3, "columns": 3})"});
  const Json made = world.file();
  const std::string last = made["layout"]["cells"][2][2];
  for (std::size_t b = 0; b < made["blocks"].size(); ++b) {
    if (made["blocks"][b]["id"] == last) {
      world.change({"set", {}, 0, "/blocks/" + std::to_string(b) + "/sewn", "true"});
    }
  }
  const Outcome smaller = world.try_edit({"reshape", {}, 0, "", R"({"rows": 2})"});
  ASSERT_TRUE(smaller);
  EXPECT_NE(smaller->words.find("1 block has no place any more, a spare now: " + last + "."), std::string::npos)
      << smaller->words;
  EXPECT_NE(smaller->words.find("2 unsewn blocks found no place and went."), std::string::npos) << smaller->words;
  EXPECT_EQ(world.file()["blocks"].size(), 7u);
}

TEST(SetAValue, SaysWhatElseAnotherSizeChanged) {
  const World world;
  world.change({"reshape", {}, 0, "", R"({"rows": 3, "columns": 3})"});
  const Outcome smaller = world.try_edit({"set", {}, 0, "/setting/rows", "2"});
  ASSERT_TRUE(smaller);
  EXPECT_NE(smaller->words.find("3 blocks have no place any more, spares now: "), std::string::npos) << smaller->words;
  const Outcome larger = world.try_edit({"set", {}, 0, "/setting/rows", "3"});
  ASSERT_TRUE(larger);
  EXPECT_NE(larger->words.find("3 places are empty."), std::string::npos) << larger->words;
}

TEST(Reshape, LeavesASlotItsOwnPrint) {
  const World world;
  const std::string kelp = world.add_print("#2f5d50", "Kelp");
  const std::string slot = world.file()["patterns"][0]["slots"].begin().key();
  world.change({"set", {}, 0, "/patterns/0/slots/" + slot + "/print", '"' + kelp + '"'});
  world.change({"reshape", {}, 0, "", R"({"rows": 5, "columns": 4})"});
  EXPECT_EQ(world.file()["patterns"][0]["slots"][slot]["print"], kelp);
  EXPECT_EQ(world.file()["blocks"].size(), 20u);
}

TEST(Reshape, TakesAPatternDrawnByHandWithItsPiecing) {
  const World world;
  world.change({"reshape", {}, 0, "", R"({"pattern": {"id": "own", "name": "Mine", "width": 8, "height": 8,
      "turns": [0, 1, 2, 3], "slots": {"A": {}, "B": {}},
      "patches": [{"slot": "A", "polygon": [[0, 0], [4, 0], [4, 8], [0, 8]]},
                  {"slot": "B", "polygon": [[4, 0], [8, 0], [8, 8], [4, 8]]}],
      "piecing": [{"join": [0, 1], "press": 0}]}, "rows": 3})"});
  const Json after = world.file();
  EXPECT_EQ(after["patterns"][0]["name"], "Mine");
  EXPECT_EQ(after["patterns"][0]["piecing"].size(), 1u);
  EXPECT_EQ(after["setting"]["rows"], 3);
}

TEST(Reshape, KeepsTheSettingOnPoint) {
  NewQuilt wish;
  wish.setting = "on point";
  const World world(wish);
  world.change({"reshape", {}, 0, "", R"({"rows": 3, "columns": 4})"});
  const Json after = world.file();
  EXPECT_EQ(after["setting"]["kind"], "on point");
  EXPECT_EQ(after["layout"]["cells"].size(), 5u);
  EXPECT_EQ(after["blocks"].size(), 3u * 4 + 2 * 3);
}

TEST(Reshape, ToAnotherSettingLeavesWhatStillHasAPlaceAndFillsTheRest) {
  const World world;
  world.add_print("#2f5d50", "Kelp");
  world.change({"reshape", {}, 0, "", R"({"rows": 3, "columns": 3})"});
  const auto before = lies_in(world.file());
  world.change({"reshape", {}, 0, "", R"({"kind": "on point"})"});
  const Json after = world.file();
  EXPECT_EQ(after["setting"]["kind"], "on point");
  ASSERT_EQ(after["layout"]["cells"].size(), 5u);
  EXPECT_EQ(after["blocks"].size(), 3u * 3 + 2 * 2);
  const auto lies = lies_in(after);
  for (const auto& [place, says] : lies) {
    EXPECT_EQ(says.find("null"), std::string::npos) << "every place has a block";
    if (place.first < 3 && place.second < 2) {
      EXPECT_EQ(says, before.at(place));
    }
  }
  world.change({"reshape", {}, 0, "", R"({"pattern": "nine-patch", "kind": "brick"})"});
  EXPECT_EQ(world.file()["blocks"].size(), 3u + 2 + 3);
}

TEST(Reshape, ToAnotherSizeOfBlockScalesThePatternAndLeavesTheLayout) {
  const World world;
  const Json before = world.file();
  const double wide = before["patterns"][0]["width"];
  world.change({"reshape", {}, 0, "", R"({"block": "4 1/2"})"});
  const Json after = world.file();
  EXPECT_DOUBLE_EQ(after["patterns"][0]["width"], 4.5);
  EXPECT_DOUBLE_EQ(after["patterns"][0]["height"], before["patterns"][0]["height"].get<double>() * 4.5 / wide);
  EXPECT_EQ(after["layout"], before["layout"]);
  EXPECT_EQ(after["blocks"], before["blocks"]);
  world.change({"set", {}, 0, "/blocks/0/sewn", "true"});
  EXPECT_NE(refused(world.try_edit({"reshape", {}, 0, "", R"({"block": "6"})"})).find("sewn already"),
            std::string::npos);
}

TEST(Reshape, ToAnotherPatternKeepsWideSashesAroundTheBlocks) {
  const World world;
  const std::string kelp = world.add_print("#2f5d50", "Kelp");
  world.change({"reshape", {}, 0, "", R"({"rows": 3, "columns": 3, "block": "3"})"});
  world.change({"set", {}, 0, "/setting/sashing", R"({"width": 3, "outer": true})"});
  world.change({"reshape", {}, 0, "", R"({"pattern": "nine-patch"})"});
  EXPECT_EQ(world.file()["blocks"].size(), 9u);
  EXPECT_EQ(world.file()["setting"]["sashing"]["outer"], true);
}

TEST(Reshape, RefusesWhatIsNoSizeAndNoPatternAndChangesNothing) {
  const World world;
  const Json before = world.file();
  for (const char* wish :
       {R"({"rows": 0})", R"({"rows": 2.5})", R"({"rows": 100000, "columns": 100000})", R"({"pattern": "no such"})",
        R"({"pattern": {"id": "own"}})", R"({"kind": "tumbling"})", R"({"kind": 3, "pattern": "square"})",
        R"({"block": "none"})", R"({"block": 0})", R"([])", "rows"}) {
    EXPECT_NE(refused(world.try_edit({"reshape", {}, 0, "", wish})), "") << wish;
  }
  EXPECT_EQ(world.file(), before);
}

}  // namespace
}  // namespace farflung::job
