// How the program behaves among other programs: pipes, scripts, terminals, odd names.
#include <memory>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "app/run.hpp"

namespace farflung::app {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::StartsWith;

/// Four squares of four colours, laid out once; each test has a copy.
class Manners : public ::testing::Test {
 protected:
  static void SetUpTestSuite() {
    model_ = std::make_unique<Bench>();
    ASSERT_EQ(model_->run("new harbour --size 8x8 --block 4").status, 0);
    for (const char* print : {"Kelp --colour '#28503c'", "Foghorn --colour '#b03028'", "Buoy --colour '#e0a020'"}) {
      ASSERT_EQ(model_->run(std::string("photo harbour --name ") + print).status, 0);
    }
    ASSERT_EQ(model_->run("arrange harbour --effort 0.02").status, 0);
  }
  static void TearDownTestSuite() { model_.reset(); }

  void SetUp() override {
    fs::copy(model_->folder() / "harbour", bench_.folder() / "harbour", fs::copy_options::recursive);
  }

  static std::unique_ptr<Bench> model_;
  Bench bench_;
};
std::unique_ptr<Bench> Manners::model_;

TEST_F(Manners, StandardOutputCarriesResultsOnlyAndThoseUnderJsonAreOneObject) {
  for (const char* words :
       {"check harbour", "cloth harbour", "sizes harbour", "swaps harbour --max 1", "arrange harbour --effort 0.02",
        "keep harbour R1C1", "free harbour R1C1", "undo harbour", "redo harbour", "try harbour --as thread", "help",
        "help check", "preview harbour -o top.png --force", "sheets harbour -o top.pdf --force"}) {
    const auto ran = bench_.run(std::string(words) + " --json");
    EXPECT_TRUE(ran.status == 0 || ran.status == 3) << words << ": " << ran.err;
    EXPECT_THAT(ran.err, IsEmpty()) << words;
    const auto report = nlohmann::json::parse(ran.out, nullptr, false);
    ASSERT_TRUE(report.is_object()) << words << ": " << ran.out;
    EXPECT_EQ(report.value("schema_version", 0), 1) << words;
  }
}

TEST_F(Manners, AReaderThatWantsNoMoreEndsItQuietly) {
  const auto ran = bench_.shell(kProgram + " --manual | head -1");
  EXPECT_EQ(ran.out, ".Dd November 26, 2026\n");
  EXPECT_THAT(ran.err, IsEmpty());
}

TEST_F(Manners, ADashIsStandardOutput) {
  EXPECT_THAT(bench_.run("preview harbour -o -").out, StartsWith("\x89PNG"));
  EXPECT_THAT(bench_.run("sheets harbour -o -").out, StartsWith("%PDF"));
  EXPECT_THAT(bench_.run("reference -o -").out, StartsWith("%PDF"));
}

TEST_F(Manners, ADashIsStandardInputAndAPackedQuiltGoesThroughAPipe) {
  ASSERT_EQ(bench_.shell(kProgram + " pack harbour - | " + kProgram + " unpack moved -").status, 0);
  EXPECT_EQ(bench_.everything().at("moved/quilt.json"), bench_.everything().at("harbour/quilt.json"));
  EXPECT_EQ(bench_.everything().count("-"), 0u);
  const std::string laid = R"({"cells": [["B2", "B1"], ["B3", "B4"]]})";
  const auto ways = bench_.shell("echo '" + laid + "' | " + kProgram + " swaps harbour --to -");
  EXPECT_THAT(ways.err, Not(HasSubstr("no such file"))) << ways.out;
  const auto taken = bench_.shell(kProgram + " photo harbour --whole - < '" + kDemoPhotographs + "/03-samphire.jpg'");
  EXPECT_THAT(taken.out, HasSubstr("1 print from 1 photograph")) << taken.err;
  const auto again = bench_.shell(kProgram + " photo harbour --whole - < '" + kDemoPhotographs + "/03-samphire.jpg'");
  EXPECT_THAT(again.err, HasSubstr("farflung: standard input: this photograph is in the quilt already"));
  EXPECT_THAT(bench_.run("photo harbour -").err, HasSubstr("standard input: nothing came"));
}

TEST_F(Manners, WhatIsWrongWithStandardInputIsSaidOfItByThatName) {
  for (const char* words : {" unpack moved -", " swaps harbour --to -", " wall harbour -", " photo harbour -"}) {
    const auto ran = bench_.shell("echo nonsense | " + kProgram + words);
    EXPECT_EQ(ran.status, 2) << words;
    EXPECT_THAT(ran.err, AllOf(HasSubstr("standard input"), Not(HasSubstr("/tmp")))) << words;
  }
}

TEST_F(Manners, HelpThatCannotBeWrittenIsAnErrorThatIsSaid) {
  for (const char* words : {"--help", "--version", "check --help", "--manual", "help"}) {
    const auto ran = bench_.shell(kProgram + " " + words + " >/dev/full");
    EXPECT_EQ(ran.status, 1) << words;
    EXPECT_THAT(ran.err, HasSubstr("standard output: ")) << words;
  }
}

TEST_F(Manners, NamesInAnyScriptAndNamesThatLookLikeOptionsWork) {
  ASSERT_EQ(bench_.run("new 'Håfen 港 quilt' --size 8x8 --block 4").status, 0);
  EXPECT_EQ(bench_.run("check 'Håfen 港 quilt'").status, 0);
  ASSERT_EQ(bench_.run("new --size 8x8 --block 4 -- --harbour").status, 0);
  EXPECT_EQ(bench_.run("check -- --harbour").status, 0);
}

TEST_F(Manners, ALostSwatchIsDrawnInItsColourAndToldAndWhatWasDoneIsDone) {
  ASSERT_EQ(bench_.run("set harbour /prints/0/swatch swatches/lost.png").status, 0);
  for (const char* words :
       {"preview harbour -o top.png --force", "sheets harbour -o top.pdf --only key --force",
        "compare harbour lap -o side.png --force", "try harbour --as border -o border.png --force",
        "choose harbour --take 2 -o chosen.png --force", "try harbour --as thread -o thread.png --force",
        "colourway harbour --replace Kelp -o other.png --force"}) {
    const auto ran = bench_.run(words);
    EXPECT_EQ(ran.status, 0) << words << ": " << ran.err;
    EXPECT_THAT(ran.err, HasSubstr("lost.png")) << words;
    EXPECT_EQ(ran.err.find("lost.png"), ran.err.rfind("lost.png")) << "told once";
    const auto listed = bench_.run(std::string(words) + " --json");
    EXPECT_EQ(listed.status, 0) << words;
    EXPECT_THAT(listed.err, IsEmpty()) << words;
    EXPECT_EQ(nlohmann::json::parse(listed.out)["problems"].size(), 1u) << words;
  }
  EXPECT_THAT(bench_.run("preview harbour -o top.png --force -q").err, IsEmpty());
}

TEST_F(Manners, AFolderOfQuiltsThatIsNotThereIsMadeAndTold) {
  const auto made = bench_.shell("timeout 2 " + kProgram + " serve workroom");
  EXPECT_THAT(made.out, StartsWith("http://")) << made.err;
  EXPECT_THAT(made.err, HasSubstr("workroom was not there: it is a new folder"));
  EXPECT_THAT(bench_.shell("timeout 2 " + kProgram + " serve workroom --port 0").err, IsEmpty());
  for (const char* folder : {"mistyped/quilts", "harbour/quilt.json"}) {
    const auto refused = bench_.run(std::string("serve ") + folder);
    EXPECT_EQ(refused.status, 2) << folder;
    EXPECT_THAT(refused.err, HasSubstr(folder));
  }
  EXPECT_FALSE(fs::exists(bench_.folder() / "mistyped"));
}

TEST_F(Manners, ANameTooLongForTheDiskIsAWrongCommandLine) {
  const std::string letters(300, 'a');
  for (const std::string& words :
       {"new " + letters, "preview harbour -o " + letters + ".png", "pack harbour " + letters, "demo " + letters,
        "serve " + letters, "swaps harbour --to " + letters, "check " + letters}) {
    const auto refused = bench_.run(words);
    EXPECT_EQ(refused.status, 2) << words << ": " << refused.err;
  }
}

TEST_F(Manners, ADryRunWritesNothing) {
  const auto before = bench_.everything();
  for (const char* words :
       {"new other --dry-run", "arrange harbour --blocks open --seed 9 --effort 0.02 --dry-run",
        "photo harbour --name Trawl --colour '#101010' --dry-run", "set harbour /title Raffle --dry-run",
        "swap harbour R1C1 R2C2 --dry-run", "keep harbour R1C1 --dry-run", "free harbour R1C1 --dry-run"}) {
    const auto tried = bench_.run(words);
    EXPECT_EQ(tried.status, 0) << words;
    EXPECT_THAT(tried.out, HasSubstr("nothing was written")) << words;
    EXPECT_EQ(bench_.everything(), before) << words;
  }
}

TEST_F(Manners, MoreIsSaidWhereAskedAndNotOnStandardOutput) {
  const auto plain = bench_.run("check harbour"), more = bench_.run("check harbour -v");
  EXPECT_EQ(more.out, plain.out);
  EXPECT_THAT(more.err, HasSubstr(" MB of memory"));
  EXPECT_THAT(bench_.run("arrange harbour --effort 0.02 -v").err, HasSubstr("farflung: "));
}

/// What a person at a terminal sees; `script` plays the terminal.
std::string seen(const Bench& bench, const std::string& settings, const std::string& words) {
  return bench.shell(settings + " script -qec \"" + kProgram + " " + words + "\" /dev/null").out;
}

TEST_F(Manners, AProgressLineMovesOnATerminalAlone) {
  const std::string words = "arrange harbour --effort 0.05 --seed 3";
  EXPECT_THAT(seen(bench_, "TERM=xterm", words), HasSubstr("\r\033[K"));
  EXPECT_THAT(seen(bench_, "TERM=xterm", "wall harbour nowhere.jpg"), HasSubstr("0 %\r\033[K\033[1mfarflung:"))
      << "what goes wrong is said on a line of its own";
  EXPECT_THAT(seen(bench_, "TERM=dumb", words), Not(HasSubstr("\033")));
  EXPECT_THAT(seen(bench_, "TERM=xterm", words + " --no-color"), Not(HasSubstr("\033")));
  const auto ran = bench_.run(words);
  EXPECT_THAT(ran.out + ran.err, Not(HasSubstr("\033")));
  EXPECT_THAT(ran.out + ran.err, Not(HasSubstr("\r")));
}

TEST_F(Manners, ColourIsLeftOutWhereAsked) {
  EXPECT_THAT(seen(bench_, "TERM=xterm", "check nowhere"), HasSubstr("\033[1m"));
  EXPECT_THAT(seen(bench_, "TERM=xterm NO_COLOR=1", "check nowhere"), Not(HasSubstr("\033")));
  EXPECT_THAT(seen(bench_, "TERM=dumb", "check nowhere"), Not(HasSubstr("\033")));
  EXPECT_THAT(seen(bench_, "TERM=xterm", "check nowhere --no-color"), Not(HasSubstr("\033")));
}

TEST(Installed, FindsItsDataFromItsOwnPlaceWhereverThatIs) {
  const Bench bench;
  const fs::path share = bench.folder() / "some where" / "share";
  fs::create_directories(bench.folder() / "some where" / "bin");
  fs::create_directories(share / "farflung");
  fs::copy(FARFLUNG_BINARY "/farflung", bench.folder() / "some where" / "bin" / "farflung");
  for (const char* part : {"patterns", "guide", "quilt.schema.json", "sizes.json", "thread_colours.csv"}) {
    fs::copy(fs::path(FARFLUNG_SOURCE "/data") / part, share / "farflung" / part, fs::copy_options::recursive);
  }
  const std::string program = "env -u FARFLUNG_DATA 'some where/bin/farflung' ";
  EXPECT_EQ(bench.shell(program + "new harbour --pattern snowball --size lap").status, 0);
  EXPECT_EQ(bench.shell(program + "help cautions").status, 0);
  fs::rename(share, bench.folder() / "elsewhere");
  const auto lost = bench.shell(program + "help");
  EXPECT_EQ(lost.status, 1);
  EXPECT_THAT(lost.err, HasSubstr("install Farflung again"));
}

}  // namespace
}  // namespace farflung::app
