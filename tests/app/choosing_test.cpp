// Deciding before the first cut: which prints, how big, which border, which thread, how much cloth.
#include <algorithm>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "app/run.hpp"

namespace farflung::app {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::StartsWith;

/// Six prints in thirty blocks, arranged, with a border; made once, each test has a copy.
class Choosing : public ::testing::Test {
 protected:
  static void SetUpTestSuite() {
    model = new Bench;
    ASSERT_EQ(model->run("new harbour --pattern nine-patch --size 45x54").status, 0);
    ASSERT_EQ(model->run("photo harbour '" + kDemoPhotographs + "/01-table.jpg'").status, 0);
    ASSERT_EQ(model->run("set harbour /setting/borders '[{\"width\": 4, \"print\": \"P01\"}]'").status, 0);
    ASSERT_EQ(model->run("arrange harbour --effort 0.03").status, 0);
  }
  static void TearDownTestSuite() {
    delete model;
    model = nullptr;
  }

  void SetUp() override {
    fs::copy(model->folder() / "harbour", bench.folder() / "harbour", fs::copy_options::recursive);
  }

  json report(const std::string& words) {
    const auto ran = bench.run(words + " --json");
    EXPECT_EQ(ran.status, 0) << words << ": " << ran.err;
    const json parsed = json::parse(ran.out, nullptr, false);
    EXPECT_EQ(parsed.value("schema_version", 0), 1) << words;
    return parsed;
  }

  static Bench* model;
  Bench bench;
};

Bench* Choosing::model = nullptr;

TEST_F(Choosing, ChooseTakesAsManyPrintsAsAskedAndKeepsThoseItMust) {
  const json chosen = report("choose harbour --take 3 --keep P02 --drop P05");
  ASSERT_EQ(chosen["take"].size(), 3U);
  EXPECT_THAT(chosen["take"], ::testing::Contains(json("P02")));
  EXPECT_THAT(chosen["take"], ::testing::Not(::testing::Contains(json("P05"))));
  EXPECT_EQ(chosen["proven"], true);
  EXPECT_EQ(bench.run("choose harbour --take 9").status, 2);
  EXPECT_EQ(bench.run("choose harbour --take 2 --keep Seagull").status, 2);
}

TEST_F(Choosing, TheSetsOfChooseAreDrawnAndOneThatIsSoldOutHasItsStandIn) {
  const json chosen = report("choose harbour --take 3 -o sets.png");
  EXPECT_THAT(bytes_of(bench.folder() / "sets.png"), StartsWith("\x89PNG"));
  EXPECT_EQ(chosen["others"].size(), 5U);
  ASSERT_EQ(chosen["substitutes"].size(), 3U);
  EXPECT_THAT(chosen["substitutes"][0]["says"].get<std::string>(), StartsWith("if you drop "));
  const auto help = bench.run("choose --help");
  for (const char* part : {"told apart", "lightest to the darkest", "calm", "lively", "motifs mix", "busy"}) {
    EXPECT_THAT(help.out, HasSubstr(part));
  }
}

TEST_F(Choosing, SizesTableTheCommonOnes) {
  const json sizes = report("sizes harbour");
  EXPECT_GE(sizes["sizes"].size(), 6U);
  for (const json& size : sizes["sizes"]) {
    EXPECT_EQ(size["blocks"], size["rows"].get<int>() * size["columns"].get<int>());
    EXPECT_GE(size["fat_quarters"], size["prints"]) << "each print takes one at least";
    EXPECT_TRUE(size["prints_short"].is_null()) << "no cloth is recorded";
  }
  EXPECT_THAT(bench.run("sizes harbour").out, HasSubstr("Beds differ"));
}

TEST_F(Choosing, SizesSayWhatTheClothInHandAllows) {
  for (int i = 0; i < 6; ++i) {
    const std::string at = "/prints/" + std::to_string(i) + "/cloth";
    const std::string cloth = "[{\"kind\": \"fat quarter\", \"width\": 20, \"length\": 17.5, \"count\": 1}]";
    ASSERT_EQ(bench.run("set harbour " + at + " '" + cloth + "'").status, 0);
  }
  const json sizes = report("sizes harbour");
  EXPECT_EQ(sizes["sizes"].front()["prints_short"], 0) << "a wall hanging";
  EXPECT_GT(sizes["sizes"].back()["prints_short"], 0) << "a king's bed";
  EXPECT_THAT(bench.run("sizes harbour").out, HasSubstr("The cloth in hand is enough for the blocks of: wall"));
}

TEST_F(Choosing, ANewQuiltSaysHowNearItComesToTheSizeAskedFor) {
  const auto near = bench.run("new other --pattern nine-patch --size lap --dry-run");
  EXPECT_EQ(near.status, 0);
  EXPECT_THAT(near.out, HasSubstr("asked for was 52 in \u00d7 68 in (lap): it is "));
  EXPECT_THAT(bench.run("new other --pattern square --block 6 --size 60x72 --dry-run").out,
              HasSubstr(": exactly that"));
}

TEST_F(Choosing, ABundleMatchedValueForValueCanBeTakenAndTakenBack) {
  ASSERT_EQ(bench.run("new shelf --pattern nine-patch --size 45x54").status, 0);
  for (int i = 1; i <= 7; ++i) {
    const std::string level = std::to_string(12 * i) + ",0,-10";
    ASSERT_EQ(bench.run("photo shelf --name Blue" + std::to_string(i) + " --colour " + level).status, 0);
  }
  const std::string before = bytes_of(bench.folder() / "harbour/quilt.json");
  const json shown = report("colourway harbour --bundle shelf -o other.png");
  EXPECT_EQ(shown["matches"].size(), 6U);
  EXPECT_EQ(shown["accepted"], false);
  EXPECT_EQ(bytes_of(bench.folder() / "harbour/quilt.json"), before) << "nothing is decided behind her back";
  EXPECT_EQ(report("colourway harbour --bundle shelf --accept 1")["accepted"], true);
  const json taken = json::parse(bytes_of(bench.folder() / "harbour/quilt.json"));
  for (const json& print : taken["prints"]) EXPECT_THAT(print["name"].get<std::string>(), StartsWith("Blue"));
  EXPECT_EQ(report("check harbour")["touch"]["count"], 0) << "the layout is as it was";
  ASSERT_EQ(bench.run("undo harbour").status, 0);
  EXPECT_EQ(bytes_of(bench.folder() / "harbour/quilt.json"), before);
}

TEST_F(Choosing, StandInsForAPrintAreRankedAndAPhotographComesInWithItsSwatch) {
  const json ranked = report("colourway harbour --replace P02 -o instead.pdf");
  EXPECT_EQ(ranked["ranked"].size(), 5U);
  EXPECT_THAT(bytes_of(bench.folder() / "instead.pdf"), StartsWith("%PDF"));
  ASSERT_EQ(
      bench.run("colourway harbour --replace P02 --bundle '" + kDemoPhotographs + "/06-cockle.jpg' --accept 1").status,
      0);
  const json taken = json::parse(bytes_of(bench.folder() / "harbour/quilt.json"));
  EXPECT_EQ(taken["prints"][1]["id"], "P02");
  EXPECT_EQ(taken["prints"][1]["name"], "06-cockle");
  const std::string swatch = taken["prints"][1]["swatch"];
  EXPECT_NE(swatch, "swatches/P02.png") << "the swatch that went stays for undo";
  EXPECT_TRUE(fs::exists(bench.folder() / "harbour" / swatch));
  EXPECT_TRUE(fs::exists(bench.folder() / "harbour" / taken["prints"][1]["photo"]["file"].get<std::string>()));
  EXPECT_EQ(bench.run("colourway harbour --replace P02 --accept 9").status, 2);
  EXPECT_EQ(bench.run("colourway harbour").status, 2);
}

TEST_F(Choosing, BordersReachASizeAndAreTakenOnlyWhenAccepted) {
  const json ways = report("borders harbour --size 54x63");
  ASSERT_FALSE(ways["ways"].empty());
  const std::string before = bytes_of(bench.folder() / "harbour/quilt.json");
  const json taken = report("borders harbour --size 54x63 --accept 1 -o ways.svg");
  EXPECT_NE(bytes_of(bench.folder() / "harbour/quilt.json"), before);
  const json quilt = json::parse(bytes_of(bench.folder() / "harbour/quilt.json"));
  EXPECT_EQ(quilt["setting"]["borders"][0]["width"], taken["ways"][0]["widths"][0]);
  EXPECT_EQ(bench.run("borders harbour --size 10x10").status, 2) << "the blocks alone are larger";
}

TEST_F(Choosing, SuppliesListWhatAClassBringsByPart) {
  const json list = report("supplies harbour");
  EXPECT_THAT(list["says"].get<std::string>(), HasSubstr("one border print"));
  std::set<std::string> named;
  for (const json& supply : list["supplies"]) {
    EXPECT_EQ(supply["count"], supply["prints"].size());
    named.insert(supply["prints"].begin(), supply["prints"].end());
  }
  EXPECT_EQ(named.size(), 6U) << "every print plays a part";
}

TEST_F(Choosing, ClothSaysWhatToCutAndBuyWithTheWorking) {
  const json cloth = report("cloth harbour");
  ASSERT_FALSE(cloth["cut"].empty());
  ASSERT_FALSE(cloth["buy"].empty());
  for (const json& row : cloth["cut"]) EXPECT_GT(row["count"], 0);
  for (const json& row : cloth["buy"]) EXPECT_FALSE(row["says"].get<std::string>().empty());
  std::size_t of_prints = 0;
  for (const json& line : cloth["list"]) of_prints += std::max<std::size_t>(1, line["prints"].size());
  EXPECT_EQ(of_prints, cloth["buy"].size()) << "what is bought stands in the list, each once";
  EXPECT_THAT(bench.run("cloth harbour").out, HasSubstr("Cautions:"));
}

TEST_F(Choosing, CandidatesAreRankedAndDrawn) {
  const json border = report("try harbour --as border -o border.png");
  EXPECT_EQ(border["ranked"].size(), 6U);
  EXPECT_THAT(bytes_of(bench.folder() / "border.png"), StartsWith("\x89PNG"));
  const json thread = report("try harbour --as thread --style waves --spacing 3 -o thread.svg");
  EXPECT_EQ(thread["top"].size(), 40U);
  EXPECT_NEAR(thread["quilting"]["top_inches"].get<double>(), 1.4 * thread["quilting"]["path_inches"].get<double>(),
              1e-6);
  EXPECT_EQ(bench.run("try harbour --as sofa").status, 2);
}

TEST_F(Choosing, CandidatesMayBeAFolderOfPhotographsAndTheirSheetAPdf) {
  fs::create_directory(bench.folder() / "shelf");
  fs::copy_file(kDemoPhotographs + "/06-cockle.jpg", bench.folder() / "shelf/cockle.jpg");
  fs::copy_file(kDemoPhotographs + "/10-quayside.jpg", bench.folder() / "shelf/quayside.jpg");
  bench.write("shelf/readme.txt", "no photograph");
  const json ranked = report("try harbour --as binding --photo shelf -o shelf.pdf --paper a4");
  ASSERT_EQ(ranked["ranked"].size(), 2U);
  EXPECT_TRUE(ranked["ranked"][0]["print"].is_null());
  EXPECT_THAT(bytes_of(bench.folder() / "shelf.pdf"), StartsWith("%PDF"));
  EXPECT_EQ(bench.run("try harbour --as binding --left-over").status, 2) << "every print lies in the quilt";
  EXPECT_EQ(bench.run("try harbour --as border --border 3").status, 2) << "there is one border";
}

TEST_F(Choosing, AThreadsLengthFollowsItsFactorAndATableOfHerOwnIsRead) {
  bench.write("threads.csv", "name,colour\nFoam,#f4f1e8\nDeep,\"20, 2, -15\"\n");
  const json thread = report("try harbour --as thread --from threads.csv --factor 2 --style lines --spacing 4");
  ASSERT_EQ(thread["top"].size(), 2U);
  EXPECT_NEAR(thread["quilting"]["bobbin_inches"].get<double>(), 2 * thread["quilting"]["path_inches"].get<double>(),
              1e-6);
  bench.write("broken.csv", "Foam,#f4f1e8\nDeep,ink\n");
  const auto refused = bench.run("try harbour --as thread --from broken.csv");
  EXPECT_EQ(refused.status, 2);
  EXPECT_THAT(refused.err, HasSubstr("broken.csv:2"));
}

TEST_F(Choosing, SeveralAreComparedSideBySide) {
  const json compared = report("compare harbour 60x60 border=P03 'on point' -o side.png");
  EXPECT_EQ(compared["compared"].size(), 4U);
  EXPECT_EQ(bench.run("compare harbour border=Nothing -o other.png").status, 2);
}

TEST_F(Choosing, APackedQuiltComesBackWhole) {
  ASSERT_EQ(bench.run("pack harbour harbour.quilt").status, 0);
  EXPECT_EQ(bench.run("pack harbour harbour.quilt").status, 2) << "it is there already";
  ASSERT_EQ(bench.run("unpack again harbour.quilt").status, 0);
  EXPECT_EQ(bytes_of(bench.folder() / "again/quilt.json"), bytes_of(bench.folder() / "harbour/quilt.json"));
  EXPECT_EQ(report("check again")["touch"], report("check harbour")["touch"]);
}

}  // namespace
}  // namespace farflung::app
