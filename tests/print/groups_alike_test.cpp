#include "print/groups_alike.hpp"

#include <gmock/gmock.h>

namespace farflung::print {
namespace {

using testing::ElementsAre;

constexpr Pair::Kind kSame = Pair::Kind::same, kAlike = Pair::Kind::alike;

std::vector<Pair> every_pair(std::size_t first, std::size_t end, Pair::Kind kind) {
  std::vector<Pair> pairs;
  for (std::size_t i = first; i < end; ++i) {
    for (std::size_t j = i + 1; j < end; ++j) pairs.push_back({kind, i, j, 1});
  }
  return pairs;
}

TEST(GroupsAlike, PrintsThatAllReadAlikeAreOneGroup) {
  const std::vector<Group> groups = groups_of(every_pair(2, 8, kAlike));
  ASSERT_EQ(groups.size(), 1U);
  EXPECT_THAT(groups.front().prints, ElementsAre(2, 3, 4, 5, 6, 7));
  EXPECT_EQ(groups.front().kind, kAlike);
}

TEST(GroupsAlike, AChainOfLikenessIsNoGroup) {
  const std::vector<Group> groups = groups_of({{kAlike, 0, 1, 1}, {kAlike, 1, 2, 2}});
  ASSERT_EQ(groups.size(), 2U) << "nobody says that the first is like the third";
  EXPECT_THAT(groups[0].prints, ElementsAre(0, 1));
  EXPECT_THAT(groups[1].prints, ElementsAre(1, 2));
}

TEST(GroupsAlike, WhatMayBeOneFabricComesFirstAndReadsLikeWhatEitherReadsLike) {
  const std::vector<Group> groups = groups_of({{kAlike, 0, 1, 1}, {kSame, 0, 2, 2}, {kAlike, 1, 2, 3}});
  ASSERT_EQ(groups.size(), 2U);
  EXPECT_EQ(groups[0].kind, kSame);
  EXPECT_THAT(groups[0].prints, ElementsAre(0, 2));
  EXPECT_EQ(groups[1].kind, kAlike);
  EXPECT_THAT(groups[1].prints, ElementsAre(0, 1, 2));
}

TEST(GroupsAlike, OneFabricIsSaidOnlyOfThoseThatAllMayBe) {
  std::vector<Pair> pairs = every_pair(0, 3, kSame);
  pairs.push_back({kAlike, 2, 3, 4});
  const std::vector<Group> groups = groups_of(pairs);
  ASSERT_EQ(groups.size(), 2U);
  EXPECT_THAT(groups[0].prints, ElementsAre(0, 1, 2));
  EXPECT_THAT(groups[1].prints, ElementsAre(2, 3));
}

}  // namespace
}  // namespace farflung::print
