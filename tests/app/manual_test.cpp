// The manual page and the completion say what the program takes, no less.
#include <regex>
#include <set>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/run.hpp"

namespace farflung::app {
namespace {

using ::testing::HasSubstr;

/// Every option that a help text lists: "--paper", "-o".
std::set<std::string> options_in(const std::string& help) {
  std::set<std::string> found;
  const std::regex one("^  (-[a-z])?,?(--[a-z-]+)?");
  std::istringstream lines(help);
  for (std::string line; std::getline(lines, line);) {
    std::smatch match;
    if (!std::regex_search(line, match, one)) continue;
    for (int i : {1, 2}) {
      if (match[i].matched) found.insert(match[i]);
    }
  }
  return found;
}

/// The part of the manual between a command's heading and the next.
std::string section_of(const std::string& manual, const std::string& command) {
  const std::size_t from = manual.find("\n.Ss " + command + "\n");
  if (from == std::string::npos) return "";
  return manual.substr(from, manual.find("\n.S", from + 4) - from);
}

TEST(Manual, ListsEveryCommandAndEachOfItsOptions) {
  const Bench bench;
  const std::string manual = bench.run("--manual").out;
  const std::set<std::string> everywhere = options_in(bench.run("--help").out);
  for (const std::string& option : everywhere) EXPECT_THAT(manual, HasSubstr("Fl " + option.substr(1))) << option;
  const std::vector<std::string> commands = bench.commands();
  EXPECT_GE(commands.size(), 25U);
  for (const std::string& command : commands) {
    const std::string section = section_of(manual, command);
    EXPECT_FALSE(section.empty()) << command;
    for (const std::string& option : options_in(bench.run(command + " --help").out)) {
      if (everywhere.count(option) > 0) continue;
      EXPECT_THAT(section, HasSubstr("Fl " + option.substr(1))) << command;
    }
  }
}

TEST(Manual, IsCleanMdoc) {
  const Bench bench;
  if (bench.shell("command -v mandoc").status != 0) GTEST_SKIP() << "mandoc is not installed";
  const auto lint = bench.shell(kProgram + " --manual >farflung.1 && mandoc -Tlint farflung.1");
  EXPECT_EQ(lint.status, 0);
  EXPECT_EQ(lint.out + lint.err, "");
}

TEST(Manual, IsTheSameEachTimeAndDatesNothingByTheClock) {
  const Bench bench;
  EXPECT_EQ(bench.run("--manual").out, bench.run("--manual").out);
  EXPECT_EQ(bench.shell("TZ=Asia/Tokyo LC_ALL=C " + kProgram + " --manual").out, bench.run("--manual").out);
}

/// What bash offers after these words, the last of them being typed.
std::string offered(const Bench& bench, const std::string& words, int at) {
  const std::string script = "bash -c 'source comp.bash; COMP_WORDS=(farflung " + words +
                             "); COMP_CWORD=" + std::to_string(at) +
                             "; _farflung; printf \"%s\\n\" \"${COMPREPLY[@]}\"'";
  return bench.shell(script).out;
}

TEST(Completion, OffersCommandsThenTheirOptionsThenFiles) {
  const Bench bench;
  ASSERT_EQ(bench.shell(kProgram + " --completion >comp.bash && bash -n comp.bash").status, 0);
  fs::create_directory(bench.folder() / "harbour");
  EXPECT_EQ(offered(bench, "arr", 1), "arrange\n");
  EXPECT_EQ(offered(bench, "sw", 1), "swaps\nswap\n");
  EXPECT_EQ(offered(bench, "arrange harbour --eff", 3), "--effort\n");
  EXPECT_EQ(offered(bench, "preview har", 2), "harbour\n");
  EXPECT_EQ(offered(bench, "arrange harbour --take", 3), "\n") << "an option of another command";
}

}  // namespace
}  // namespace farflung::app
