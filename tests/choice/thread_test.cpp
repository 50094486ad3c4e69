#include "choice/thread.hpp"

#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/limits.hpp"
#include "small_quilt.hpp"

namespace farflung::choice {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

std::vector<std::string> order(const std::vector<RankedThread>& ranked, const std::vector<ThreadColour>& threads) {
  std::vector<std::string> names;
  for (const RankedThread& thread : ranked) names.push_back(threads[thread.thread].name);
  return names;
}

const std::vector<ThreadColour> kThreads = {{"red", {45, 55, 30}}, {"grey", {50, 0, 0}}, {"navy", {20, 0, -25}}};

TEST(Thread, ThatMatchesHalfTheTopShowsOnTheOtherHalf) {
  quilt::Quilt quilt = squares_quilt({print_of("Shingle", {52, 0, 0}), print_of("Foam", {92, 0, 3})}, 2, {0, 1, 1, 0});
  quilt.backing = quilt::Backing{0, Length::inches(4)};
  const ThreadReport report = rank_threads(quilt, kThreads, ThreadAim::blend);
  EXPECT_THAT(order(report.top, kThreads), ElementsAre("grey", "red", "navy"));
  EXPECT_NEAR(report.top[0].showing.share, 0.5, 1e-12);
  EXPECT_EQ(report.top[0].showing.worst, 1);
  EXPECT_THAT(report.top[0].says, HasSubstr("shows on 50 % of the top, most on Foam (colour difference "));
  EXPECT_NEAR(report.top[1].showing.share, 1, 1e-12);
  EXPECT_THAT(order(report.back, kThreads), ElementsAre("grey", "red", "navy"));
  EXPECT_NEAR(report.back[0].showing.share, 0, 1e-12);
  EXPECT_THAT(report.back[0].says, HasSubstr("shows on 0 % of the back"));
}

TEST(Thread, ToShowIsRankedTheOtherWayRoundAndNamesWhereItHides) {
  const quilt::Quilt quilt =
      squares_quilt({print_of("Shingle", {52, 0, 0}), print_of("Foam", {92, 0, 3})}, 2, {0, 1, 1, 0});
  const ThreadReport report = rank_threads(quilt, kThreads, ThreadAim::show);
  EXPECT_THAT(order(report.top, kThreads), ElementsAre("navy", "red", "grey"));
  EXPECT_EQ(report.top[2].showing.worst, 0);
  EXPECT_THAT(report.top[2].says, HasSubstr("least on Shingle"));
  EXPECT_TRUE(report.back.empty());
}

TEST(Thread, IsWeighedByAreaFrameIncluded) {
  // Blocks fill 12 x 12 of 18 x 18; the border of three inches the rest.
  quilt::Quilt quilt = squares_quilt({print_of("Shingle", {52, 0, 0}), print_of("Foam", {92, 0, 3})}, 2, {0, 0, 0, 0});
  quilt.setting.borders = {{Length::inches(3), 1, setting::Border::Corners::butted, setting::kNone}};
  const ThreadReport report = rank_threads(quilt, kThreads, ThreadAim::blend);
  EXPECT_NEAR(report.top[0].showing.share, 1 - 144.0 / 324, 1e-9);
}

TEST(Thread, ShowsOnTheColoursOfAPrintNotOnTheirMean) {
  quilt::Quilt quilt = squares_quilt({print_of("Pennant", {50, 0, 0})}, 2, {0, 0, 0, 0});
  quilt.prints[0].features.palette = {{{20, 0, 0}, 0.75}, {{90, 0, 0}, 0.25}};
  const std::vector<ThreadColour> threads = {{"grey", {50, 0, 0}}, {"black", {18, 0, 0}}};
  const ThreadReport report = rank_threads(quilt, threads, ThreadAim::blend);
  EXPECT_THAT(order(report.top, threads), ElementsAre("black", "grey"));
  EXPECT_NEAR(report.top[0].showing.share, 0.25, 1e-12);
  EXPECT_NEAR(report.top[1].showing.share, 1, 1e-12);
}

TEST(ThreadTable, ReadsHexAndLabQuotedOrInFieldsOfTheirOwn) {
  const auto threads = threads_from_csv(
      "\xEF\xBB\xBF# ours\r\nname,colour\r\nred,#c4222c\r\n\r\n\"grey, \"\"mid\"\"\",\"50, 0, 0\"\r\nnavy,20,0,-25",
      "threads.csv");
  ASSERT_TRUE(threads.ok());
  ASSERT_EQ(threads->size(), 3U);
  EXPECT_EQ((*threads)[1].name, "grey, \"mid\"");
  EXPECT_EQ((*threads)[1].lab, (colour::Lab{50, 0, 0}));
  EXPECT_EQ((*threads)[2].lab, (colour::Lab{20, 0, -25}));
}

TEST(ThreadTable, TellsEveryProblemByItsLine) {
  const auto threads = threads_from_csv(
      "red,#c4222c\nred,#c4222d\n,#000000\nblue,skyish\ngrey,50,0\nwhite,120,0,0\n\"open,#000000\nbad\xff,#000000\n",
      "threads.csv");
  ASSERT_FALSE(threads.ok());
  std::vector<std::string> at;
  for (const Problem& problem : threads.problems()) at.push_back(problem.at);
  EXPECT_THAT(at, ElementsAre("threads.csv:2", "threads.csv:3", "threads.csv:4", "threads.csv:5", "threads.csv:6",
                              "threads.csv:7", "threads.csv:8"));
  EXPECT_THAT(threads.problems()[2].cause, HasSubstr("skyish"));
  EXPECT_FALSE(threads_from_csv("", "threads.csv").ok());
  EXPECT_FALSE(threads_from_csv("name,colour\n", "threads.csv").ok());
  EXPECT_FALSE(threads_from_csv(std::string(1'000'001, 'x'), "threads.csv").ok());
}

TEST(ThreadTable, IsBoundedInThreadsAndInBytes) {
  std::string most;
  for (std::size_t i = 0; i < limits::kThreads; ++i) most += std::to_string(i) + ",#fff\n";
  EXPECT_TRUE(threads_from_csv(most, "threads.csv").ok());
  EXPECT_FALSE(threads_from_csv(most + "one more,#fff\n", "threads.csv").ok());
  const std::string padded = "white,#fff\n#" + std::string(limits::kThreadListBytes - 12, ' ');
  EXPECT_TRUE(threads_from_csv(padded, "threads.csv").ok());
  EXPECT_THAT(threads_from_csv(padded + " ", "threads.csv").problems().front().cause, HasSubstr("larger than 1 MB"));
}

TEST(ThreadTable, OursHoldsFortyThreadsThatAreToldApart) {
  std::ifstream file(FARFLUNG_SOURCE "/data/thread_colours.csv");
  std::ostringstream text;
  text << file.rdbuf();
  const auto threads = threads_from_csv(text.str(), "thread_colours.csv");
  ASSERT_TRUE(threads.ok());
  ASSERT_EQ(threads->size(), 40U);
  for (std::size_t i = 0; i < 40; ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      EXPECT_GT(colour::delta_e_2000((*threads)[i].lab, (*threads)[j].lab), 3)
          << (*threads)[i].name << " and " << (*threads)[j].name;
    }
  }
}

}  // namespace
}  // namespace farflung::choice
