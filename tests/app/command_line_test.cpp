#include <algorithm>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

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

TEST(CommandLine, HelpAndVersionGoToStandardOutput) {
  const Bench bench;
  for (const char* words : {"--help", "-h", "arrange --help", "set -h"}) {
    const auto ran = bench.run(words);
    EXPECT_EQ(ran.status, 0) << words;
    EXPECT_THAT(ran.out, HasSubstr("--json")) << words;
    EXPECT_THAT(ran.err, IsEmpty()) << words;
  }
  EXPECT_THAT(bench.run("--version").out, StartsWith("farflung 0."));
}

TEST(CommandLine, NoLineOfHelpIsLongerThanATerminal) {
  const Bench bench;
  std::vector<std::string> pages = bench.commands();
  ASSERT_GE(pages.size(), 30U);
  pages.insert(pages.begin(), "");
  for (const std::string& page : pages) {
    std::istringstream lines(bench.run(page + " --help").out);
    for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 80U) << page << ": " << line;
  }
}

TEST(CommandLine, EveryCommandShowsLinesToTypeThatItTakes) {
  const Bench bench;
  for (const std::string& command : bench.commands()) {
    std::istringstream lines(bench.run(command + " --help").out);
    int shown = 0;
    for (std::string line; std::getline(lines, line);) {
      if (line.rfind("  farflung " + command, 0) != 0) continue;
      ++shown;
      if (command == "serve" || command == "demo") continue;  // they would begin
      EXPECT_THAT(bench.run(line.substr(11)).err, Not(HasSubstr("--help says what it takes"))) << line;
    }
    EXPECT_GE(shown, 1) << command;
  }
}

TEST(CommandLine, TheHelpOfSheetsNamesEachOfThem) {
  const std::string help = std::regex_replace(Bench().run("sheets --help").out, std::regex("\\s+"), " ");
  for (const char* sheet : {"cover - ", "shopping - ", "map - ", "corners - ", "log - "}) {
    EXPECT_THAT(help, HasSubstr(sheet));
  }
}

TEST(CommandLine, LinesAreBrokenForATerminalAndWholeForAPipe) {
  const Bench bench;
  ASSERT_EQ(bench.run("new harbour --size 20x20").status, 0);
  const std::string words = bench.run("cloth harbour").out;
  const auto longest = [](const std::string& text) {
    std::size_t most = 0;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) most = std::max(most, line.size());
    return most;
  };
  EXPECT_GT(longest(words), 80U);
  const std::string seen = bench.shell("script -qec \"stty cols 60; " + kProgram + " cloth harbour\" /dev/null").out;
  EXPECT_LE(longest(seen), 61U) << "with the terminal's carriage return";
  EXPECT_THAT(seen, HasSubstr("Cautions:"));
}

TEST(CommandLine, WithoutACommandAnExampleIsGivenWithStatusTwo) {
  const auto ran = Bench().run("");
  EXPECT_EQ(ran.status, 2);
  EXPECT_THAT(ran.out, IsEmpty());
  EXPECT_THAT(ran.err, HasSubstr("For example:"));
}

TEST(CommandLine, AMistypedCommandIsAnsweredWithASuggestion) {
  const auto ran = Bench().run("arange quilt");
  EXPECT_EQ(ran.status, 2);
  EXPECT_THAT(ran.err, HasSubstr("did you mean arrange?"));
}

TEST(CommandLine, AnotherWordForACommandIsAnsweredWithTheCommand) {
  EXPECT_THAT(Bench().run("remove quilt Kelp").err, HasSubstr("no command remove: farflung drop does that"));
  EXPECT_THAT(Bench().run("yardage quilt").err, HasSubstr("farflung cloth does that"));
  EXPECT_THAT(Bench().run("knit quilt").err, Not(HasSubstr("did you mean")));
}

TEST(CommandLine, AValueThatDoesNotFitIsToldWithWhatWould) {
  EXPECT_THAT(Bench().run("arrange quilt --effort 0").err, HasSubstr("--effort 0: not from 0.001 to 1000:"));
  EXPECT_THAT(Bench().run("arrange quilt --seed seven").err,
              HasSubstr("--seed seven: not a number of the right kind:"));
  EXPECT_THAT(Bench().run("sheets quilt -o a.pdf --paper a5").err, HasSubstr("--paper a5: none of letter, a4:"));
}

TEST(CommandLine, ANumberIsReadToItsEndAndIsOfItsKind) {
  EXPECT_THAT(Bench().run("choose quilt --take 0").err, HasSubstr("--take 0: not 1 or more:"));
  EXPECT_THAT(Bench().run("choose quilt --take 2.5").err, HasSubstr("--take 2.5: not a number of the right kind:"));
  EXPECT_THAT(Bench().run("arrange quilt --seed -1").err, HasSubstr("--seed -1: not a number of the right kind:"));
  EXPECT_THAT(Bench().run("arrange quilt --effort nan").err, HasSubstr("--effort nan: not from 0.001 to 1000:"));
  EXPECT_THAT(Bench().run("arrange quilt --effort 1x").err, HasSubstr("--effort 1x: not from 0.001 to 1000:"));
  EXPECT_THAT(Bench().run("preview quilt -o a.png --width 20001").err,
              HasSubstr("--width 20001: not from 16 to 20000:"));
  EXPECT_THAT(Bench().run("arrange quilt --triangles 3").err, HasSubstr("--triangles 3: none of 2, 4, 8:"));
  EXPECT_THAT(Bench().run("arrange quilt --effort +1e-2 --seed 7").err, HasSubstr("quilt: "))
      << "as far as the quilt, which is not there";
}

TEST(CommandLine, WhatIsLeftOutOrTooMuchIsNamed) {
  const auto says = [](const std::string& words) { return Bench().run(words).err; };
  EXPECT_THAT(says("arrange"), HasSubstr("QUILT is required: farflung arrange --help"));
  EXPECT_THAT(says("sheets quilt"), HasSubstr("--output is required:"));
  EXPECT_THAT(says("set quilt /title"), HasSubstr("VALUE is required:"));
  EXPECT_THAT(says("arrange quilt --seed"), HasSubstr("--seed: its value is missing:"));
  EXPECT_THAT(says("sheets quilt --only key -o"), HasSubstr("--output: its value is missing:"));
  EXPECT_THAT(says("preview quilt -o a.png --width 100 --width 200"), HasSubstr("--width is given more than once:"));
  EXPECT_THAT(says("arrange quilt --dry-run=maybe"), HasSubstr("--dry-run takes no value:"));
  EXPECT_THAT(says("arrange quilt other third"), HasSubstr("not expected: other, third:"));
  EXPECT_THAT(says("arrange quilt -x"), HasSubstr("there is no option -x:"));
  EXPECT_THAT(says("--quiet"), HasSubstr("no command is given: farflung --help"));
}

TEST(CommandLine, AMistypedOptionIsAnsweredWithASuggestion) {
  const auto ran = Bench().run("arrange quilt --efort 2");
  EXPECT_EQ(ran.status, 2);
  EXPECT_THAT(ran.err, HasSubstr("there is no option --efort: did you mean --effort?"));
}

TEST(CommandLine, ErrorsAreJsonToo) {
  const Bench bench;
  for (const char* words : {"check nowhere --json", "arange --json", "preview nowhere -o a.png --json"}) {
    const auto ran = bench.run(words);
    EXPECT_EQ(ran.status, 2) << words;
    const auto report = nlohmann::json::parse(ran.out + ran.err, nullptr, false);
    ASSERT_TRUE(report.is_object()) << words << ": " << ran.out << ran.err;
    EXPECT_EQ(report["schema_version"], 1);
    EXPECT_FALSE(report["problems"].empty());
  }
}

TEST(CommandLine, InJsonAProblemOfTheFileIsAtItsPointer) {
  const Bench bench;
  ASSERT_EQ(bench.run("new harbour --size 20x20").status, 0);
  ASSERT_EQ(bench.shell("sed -i 's/\"rows\": 3/\"rows\": 0/' harbour/quilt.json").status, 0);
  for (const char* words : {"check harbour --json", "preview harbour -o top.png --json"}) {
    const auto ran = bench.run(words);
    EXPECT_EQ(ran.status, 2) << words;
    const auto report = nlohmann::json::parse(ran.out + ran.err, nullptr, false);
    ASSERT_EQ(report["problems"].size(), 1u) << words << ": " << ran.out << ran.err;
    EXPECT_EQ(report["problems"][0]["at"], "/setting/rows") << words;
    EXPECT_EQ(report["problems"][0]["file"], "harbour/quilt.json") << words;
  }
  EXPECT_THAT(bench.run("check harbour").err, HasSubstr("harbour/quilt.json#/setting/rows: is 0"));
}

TEST(CommandLine, BeforeThereArePrintsTheNextStepIsSaidAsItIsTyped) {
  const Bench bench;
  ASSERT_EQ(bench.run("new 'harbour raffle' --size 20x20").status, 0);
  EXPECT_THAT(bench.run("check 'harbour raffle'").out, HasSubstr("farflung photo 'harbour raffle' *.jpg"));
  const auto listed = bench.run("supplies 'harbour raffle'");
  EXPECT_EQ(listed.status, 2);
  EXPECT_THAT(listed.err, HasSubstr("no block has its prints yet: deal them: farflung arrange 'harbour raffle'"));
}

TEST(CommandLine, WithoutAPatternNothingIsDrawnOrCutAndThatIsSaid) {
  const Bench bench;
  ASSERT_EQ(bench
                .shell("mkdir harbour && echo '{\"format\": \"farflung-quilt\", \"version\": 1, "
                       "\"setting\": {\"rows\": 1, \"columns\": 1}}' > harbour/quilt.json")
                .status,
            0);
  for (const char* words : {"preview harbour -o top.png", "sheets harbour -o top.pdf", "cloth harbour"}) {
    const auto ran = bench.run(words);
    EXPECT_EQ(ran.status, 2) << words;
    EXPECT_THAT(ran.err, HasSubstr("/patterns: the quilt has no pattern: add one first")) << words;
    EXPECT_THAT(ran.out, IsEmpty()) << words;
  }
  EXPECT_FALSE(fs::exists(bench.folder() / "top.pdf"));
}

TEST(CommandLine, AFullDeviceIsAnError) {
  const Bench bench;
  ASSERT_EQ(bench.run("new harbour --size 20x20").status, 0);
  EXPECT_EQ(bench.shell(kProgram + " check harbour --json >/dev/full; echo $?").out, "1\n");
}

TEST(CommandLine, NoEscapesGoToAFile) {
  const Bench bench;
  ASSERT_EQ(bench.run("new harbour --size 20x20").status, 0);
  const auto ran = bench.run("check nowhere");
  EXPECT_THAT(ran.err, Not(HasSubstr("\033")));
  EXPECT_THAT(ran.err, Not(HasSubstr("\r")));
}

TEST(CommandLine, QuietSaysNothingOnSuccess) {
  const auto ran = Bench().run("new harbour --size 20x20 -q");
  EXPECT_EQ(ran.status, 0);
  EXPECT_THAT(ran.out, IsEmpty());
  EXPECT_THAT(ran.err, IsEmpty());
}

/// Runs that must be refused with status 2, naming the file, the cause and a remedy, and change nothing.
class WrongInput : public ::testing::TestWithParam<std::pair<const char*, const char*>> {};

TEST_P(WrongInput, IsRefusedWithItsReasonAndChangesNothing) {
  const Bench bench;
  ASSERT_EQ(bench.run("new harbour --size 30x30").status, 0);
  bench.write("broken/quilt.json", "{\"format\": \"farflung-quilt\", ");
  bench.write("note.jpg", "This is a letter, not a photograph.\n");
  bench.write("gap.json", R"({"id": "gap", "name": "Gap", "width": 9, "height": 9, "turns": [0], "slots": {"A": {}},
                              "patches": [{"slot": "A", "polygon": [[0, 0], [9, 0], [9, 8], [0, 8]]}]})");
  const auto before = bench.everything();
  const auto [words, says] = GetParam();
  const auto ran = bench.run(words);
  EXPECT_EQ(ran.status, 2) << ran.out << ran.err;
  EXPECT_THAT(ran.out + ran.err, HasSubstr(says));
  EXPECT_EQ(bench.everything(), before);
}

INSTANTIATE_TEST_SUITE_P(
    Refused, WrongInput,
    ::testing::Values(std::pair{"check nowhere", "nowhere"}, std::pair{"check broken", "quilt.json"},
                      std::pair{"new gapped --pattern gap.json", "a gap of 9 x 1 in at 0, 8"},
                      std::pair{"new other --pattern no-such-block", "no-such-block"},
                      std::pair{"new other --size enormous", "enormous"}, std::pair{"new harbour", "harbour"},
                      std::pair{"photo harbour note.jpg", "note.jpg"},
                      std::pair{"photo harbour nothing.jpg", "nothing.jpg"},
                      std::pair{"set harbour /setting/rows 0", "/setting/rows"},
                      std::pair{"set harbour /blocks/0/prints/A '\"P99\"'", "P99"},
                      std::pair{"set harbour /prints/99/name Kelp", "/prints/99"},
                      std::pair{"swap harbour R1C1 R99C1", "R99C1"}, std::pair{"keep harbour sofa", "sofa"},
                      std::pair{"undo nowhere", "nowhere"}, std::pair{"arrange nowhere", "nowhere"},
                      std::pair{"sheets harbour -o a.pdf --paper tabloid", "tabloid"},
                      std::pair{"preview harbour -o picture.bmp", "picture.bmp"}));

}  // namespace
}  // namespace farflung::app
