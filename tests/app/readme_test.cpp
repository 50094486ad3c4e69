// Every command that README.md and the guide show is run, in the order in which they show them.
#include <regex>
#include <sstream>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/run.hpp"

namespace farflung::app {
namespace {

/// Lines set in by four spaces that call the program.
std::vector<std::string> commands_in(const fs::path& page) {
  std::vector<std::string> commands;
  std::istringstream lines(bytes_of(page));
  const std::regex called("^    (build/release/)?farflung (.*)$");
  for (std::string line; std::getline(lines, line);) {
    std::smatch match;
    if (std::regex_match(line, match, called)) commands.push_back(match[2]);
  }
  return commands;
}

std::string with(std::string text, const std::string& word, const std::string& meant) {
  for (std::size_t at = 0; (at = text.find(word, at)) != std::string::npos; at += meant.size()) {
    text.replace(at, word.size(), meant);
  }
  return text;
}

/// A folder in which what the pages take for granted is there: photographs, a wall.
class Reader {
 public:
  explicit Reader(const std::string& photographs) : photographs_(photographs) {}

  void follow(const std::vector<std::string>& commands) {
    for (const std::string& command : commands) {
      if (command.find("wall.jpg") != std::string::npos && !fs::exists(bench_.folder() / "wall.jpg")) {
        // The plan itself, seen from straight ahead: as good a photograph of the wall as can be.
        ASSERT_EQ(bench_.run("preview harbour -o wall.png").status, 0);
        fs::rename(bench_.folder() / "wall.png", bench_.folder() / "wall.jpg");
      }
      std::string words = with(with(command, "~/photographs/*.jpg", photographs_), " *.jpg", " " + photographs_);
      const bool serves = words.starts_with("serve");
      words = with(words, "~/quilts", "quilts");
      const auto ran = serves ? bench_.shell("timeout 3 " + kProgram + " " + words) : bench_.run(words);
      if (serves) {
        EXPECT_THAT(ran.out, ::testing::StartsWith("http://127.0.0.1:")) << command;
        continue;
      }
      EXPECT_TRUE(ran.status == 0 || ran.status == 3) << command << "\n" << ran.out << ran.err;
    }
  }

  const Bench& bench() const { return bench_; }

 private:
  Bench bench_;
  std::string photographs_;
};

const std::string kTwo = "'" + kDemoPhotographs + "/01-table.jpg' '" + kDemoPhotographs + "/02-table.jpg'";

TEST(Readme, EveryCommandThatItShowsDoesWhatItSays) {
  const auto commands = commands_in(FARFLUNG_SOURCE "/README.md");
  EXPECT_GE(commands.size(), 15U);
  Reader(kTwo).follow(commands);
}

TEST(Guide, EveryCommandThatItShowsDoesWhatItSays) {
  std::vector<fs::path> pages;
  for (const auto& page : fs::directory_iterator(FARFLUNG_SOURCE "/data/guide")) pages.push_back(page.path());
  std::sort(pages.begin(), pages.end());
  std::vector<std::string> commands;
  for (const fs::path& page : pages) {
    for (const std::string& command : commands_in(page)) commands.push_back(command);
  }
  EXPECT_GE(commands.size(), 8U);
  Reader(kTwo).follow(commands);
}

TEST(Guide, IsListedByTopicAndEachTopicIsSaid) {
  const Bench bench;
  const auto topics = bench.run("help");
  ASSERT_EQ(topics.status, 0) << topics.err;
  std::istringstream lines(topics.out);
  int told = 0;
  for (std::string name, title; lines >> name && std::getline(lines, title); ++told) {
    const auto topic = bench.run("help " + name);
    EXPECT_EQ(topic.status, 0) << name;
    EXPECT_GT(topic.out.size(), 400U) << name;
    EXPECT_THAT(topic.out, ::testing::HasSubstr(title.substr(title.find_first_not_of(' ')))) << name;
  }
  EXPECT_GE(told, 8);
}

TEST(Guide, SaysOfACommandWhatItsHelpSays) {
  const Bench bench;
  EXPECT_EQ(bench.run("help arrange").out, bench.run("arrange --help").out);
  const auto unknown = bench.run("help knitting");
  EXPECT_EQ(unknown.status, 2);
  EXPECT_THAT(unknown.err, ::testing::HasSubstr("colours"));
}

}  // namespace
}  // namespace farflung::app
