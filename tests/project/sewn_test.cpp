// Stages that are done, and the measured test block, in the file.
#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "project/world.hpp"

namespace farflung::project {
namespace {

/// The harbour quilt with its first row sewn together.
std::string with_row_sewn() {
  std::string text = harbour_text();
  replace(text, "\"kept\":", "\"sewn\": [{\"stage\": \"row\", \"cells\": [[0, 0], [0, 1]]}],\n    \"kept\":");
  return text;
}

TEST(SewnStages, ASewnRowStaysAsItLiesAndItsBlocksAreSewn) {
  const Document read = must(document_from_text(with_row_sewn()));
  ASSERT_EQ(read.quilt.sewn_units.size(), 1U);
  EXPECT_EQ(read.quilt.sewn_units[0].stage, quilt::SewnUnit::Stage::row);
  EXPECT_EQ(read.quilt.sewn_units[0].cells, (std::vector<int>{0, 1}));
  EXPECT_TRUE(read.quilt.layout.kept[0]);
  EXPECT_TRUE(read.quilt.layout.kept[1]);
  EXPECT_FALSE(read.quilt.layout.kept[2]);
  EXPECT_TRUE(read.quilt.blocks[0].sewn);
  // B002 lies turned by one quarter: its upright prints stand so.
  EXPECT_EQ(read.quilt.blocks[1].cut_turn, Turn::quarters(1));
}

TEST(SewnStages, TakenOutAgainFreeTheirCellsButNotThoseKeptByHand) {
  const Document read = must(document_from_text(with_row_sewn()));
  std::string text = text_of(read);
  Document again = must(document_from_text(text));
  EXPECT_EQ(text_of(again), text);
  again.quilt.sewn_units.clear();
  again.quilt.layout.kept[0] = false;
  const Document freed = must(document_from_text(text_of(again)));
  EXPECT_FALSE(freed.quilt.layout.kept[0]);
  EXPECT_TRUE(freed.quilt.layout.kept[1]);
}

TEST(SewnStages, KeptByHandAreToldFromThoseThatOnlyTheirUnitKeeps) {
  const Document read = must(document_from_text(with_row_sewn()));
  EXPECT_EQ(read.quilt.sewn_units[0].kept_by_hand, std::vector<int>{1});
  Document moved = must(document_from_text(text_of(read)));
  moved.quilt.sewn_units[0].kept_by_hand.clear();
  const Document again = must(document_from_text(text_of(moved)));
  EXPECT_THAT(again.quilt.sewn_units[0].kept_by_hand, testing::IsEmpty());
  EXPECT_TRUE(again.quilt.layout.kept[1]);
}

TEST(SewnStages, OnlyBlocksCanBeSewn) {
  for (const char* cells : {"[[0, 0], [1, 1]]", "[[0, 0], [0, 0]]"}) {
    std::string text = with_row_sewn();
    replace(text, "[[0, 0], [0, 1]]", cells);
    const auto read = document_from_text(text);
    ASSERT_FALSE(read) << cells;
    const auto at = places(read);
    EXPECT_NE(std::find(at.begin(), at.end(), "quilt.json#/layout/sewn/0/cells"), at.end()) << cells;
  }
  std::string text = with_row_sewn();
  replace(text, "[0, 1]]}]", "[7, 1]]}]");
  EXPECT_EQ(places(document_from_text(text)).front(), "quilt.json#/layout/sewn/0/cells/1");
}

TEST(MeasuredTestBlock, IsReadAndMustBePossible) {
  std::string text = harbour_text();
  replace(text, "\"layout\":",
          "\"test_block\": {\"pattern\": \"rails\", \"width\": \"9 3/8\", \"height\": 9.5},\n  \"layout\":");
  const Document read = must(document_from_text(text));
  ASSERT_TRUE(read.quilt.test_block);
  EXPECT_EQ(read.quilt.test_block->width, Length::inches(9.375));
  EXPECT_EQ(read.quilt.test_block->pattern, read.quilt.pattern_with_id("rails"));
  replace(text, "\"9 3/8\"", "93.8");
  EXPECT_EQ(places(document_from_text(text)), std::vector<std::string>{"quilt.json#/test_block"});
}

TEST(SewnStages, AndTheTestBlockAreSetByTheirPointers) {
  const Document measured =
      must(set(harbour(), "/test_block", R"({"pattern": "rails", "width": "9 3/8", "height": "9 1/2"})"));
  ASSERT_TRUE(measured.quilt.test_block);
  EXPECT_EQ(measured.quilt.test_block->height, Length::inches(9.5));
  const Document sewn = must(set(measured, "/layout/sewn", R"([{"stage": "pair", "cells": [[0, 0], [1, 0]]}])"));
  ASSERT_EQ(sewn.quilt.sewn_units.size(), 1U);
  EXPECT_EQ(sewn.quilt.sewn_units[0].cells, (std::vector<int>{0, 2}));
  EXPECT_FALSE(set(sewn, "/layout/sewn/0/stage", "patch"));
}

}  // namespace
}  // namespace farflung::project
