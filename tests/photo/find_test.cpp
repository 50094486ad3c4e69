#include "photo/find.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "photo/mat.hpp"

namespace farflung::photo {
namespace {

cv::Mat table_with_squares() {
  cv::Mat rgb(600, 800, CV_8UC3, cv::Scalar(205, 200, 190));
  rgb(cv::Rect(90, 80, 200, 200)).setTo(cv::Scalar(60, 45, 90));
  rgb(cv::Rect(420, 90, 200, 200)).setTo(cv::Scalar(150, 60, 50));
  cv::Mat grain(rgb.size(), CV_8UC3);
  cv::RNG(7).fill(grain, cv::RNG::UNIFORM, 0, 6);
  return rgb + grain;
}

std::size_t cloths_in(const cv::Mat& rgb) { return find_cloths(picture_from(rgb)).cloths.size(); }

TEST(FindCloths, WhatTapersToAPointIsNoCutOfCloth) {
  cv::Mat rgb = table_with_squares();
  ASSERT_EQ(cloths_in(rgb), 2U);
  const std::vector<cv::Point> wedge = {{180, 340}, {188, 340}, {260, 540}, {120, 540}};
  cv::fillConvexPoly(rgb, wedge, cv::Scalar(40, 90, 60), cv::LINE_AA);
  EXPECT_EQ(cloths_in(rgb), 2U);
  const std::vector<cv::Point> slanted = {{430, 380}, {570, 380}, {610, 560}, {400, 560}};
  cv::fillConvexPoly(rgb, slanted, cv::Scalar(40, 90, 60), cv::LINE_AA);
  EXPECT_EQ(cloths_in(rgb), 3U);
}

TEST(FindCloths, ASliverBetweenTheGrainOfABoardIsNoCloth) {
  cv::Mat rgb = table_with_squares();
  rgb(cv::Rect(150, 400, 300, 18)).setTo(cv::Scalar(90, 70, 40));
  EXPECT_EQ(cloths_in(rgb), 2U);
}

TEST(FindCloths, AClothThatALineOnTheTableIsTiedToIsFoundWithoutIt) {
  cv::Mat rgb = table_with_squares();
  const std::vector<cv::Point> line = {{280, 180}, {340, 330}, {420, 470}, {700, 500}};
  cv::polylines(rgb, line, false, cv::Scalar(70, 50, 60), 7, cv::LINE_AA);
  const std::vector<Found> cloths = find_cloths(picture_from(rgb)).cloths;
  ASSERT_EQ(cloths.size(), 2U);
  EXPECT_NEAR(cloths[0].corners[1][0], 290, 3);
  EXPECT_NEAR(cloths[0].corners[2][1], 280, 3);
}

/// A board's grain, broad and only darker than the rest of it.
void darken(cv::Mat rgb) { rgb.setTo(cv::Scalar(168, 163, 155)); }

TEST(FindCloths, BroadDarkerGrainOfABoardIsNoCloth) {
  cv::Mat rgb = table_with_squares();
  darken(rgb(cv::Rect(180, 400, 90, 60)));
  darken(rgb(cv::Rect(420, 380, 130, 50)));
  EXPECT_EQ(cloths_in(rgb), 2U);
}

TEST(FindCloths, ASquareRuledOnATableIsNoCloth) {
  cv::Mat rgb = table_with_squares();
  for (const int x : {430, 520}) cv::line(rgb, {x, 330}, {x + 4, 520}, cv::Scalar(90, 85, 80), 7, cv::LINE_AA);
  for (const int y : {370, 460}) cv::line(rgb, {390, y}, {560, y + 3}, cv::Scalar(90, 85, 80), 7, cv::LINE_AA);
  EXPECT_EQ(cloths_in(rgb), 2U);
}

TEST(FindCloths, AClothThatBroadGrainIsTiedToIsFoundWithoutIt) {
  for (const cv::Rect& grain : {cv::Rect(30, 150, 330, 70), cv::Rect(30, 205, 70, 75)}) {
    cv::Mat rgb = table_with_squares();
    const cv::Mat cloth = rgb(cv::Rect(90, 80, 200, 200)).clone();
    darken(rgb(grain));
    cloth.copyTo(rgb(cv::Rect(90, 80, 200, 200)));
    const std::vector<Found> cloths = find_cloths(picture_from(rgb)).cloths;
    ASSERT_EQ(cloths.size(), 2U);
    EXPECT_NEAR(cloths[0].corners[1][0], 290, 3);
    EXPECT_NEAR(cloths[0].corners[2][1], 280, 3);
    EXPECT_NEAR(cloths[0].corners[3][0], 90, 3);
  }
}

TEST(FindCloths, SquaresThatAreRuledBesideAClothAreNoPartOfIt) {
  cv::Mat rgb = table_with_squares();
  const cv::Rect box(420, 90, 200, 200);
  const cv::Mat cloth = rgb(box).clone();
  const cv::Scalar ink(90, 85, 80);
  for (const int y : {95, 285}) cv::line(rgb, {550, y}, {690, y}, ink, 3, cv::LINE_AA);
  cv::line(rgb, {680, 80}, {680, 300}, ink, 3, cv::LINE_AA);
  cloth.copyTo(rgb(box));
  const std::vector<Found> cloths = find_cloths(picture_from(rgb)).cloths;
  ASSERT_EQ(cloths.size(), 2U);
  EXPECT_NEAR(cloths[1].corners[1][0], 620, 3);
  EXPECT_NEAR(cloths[1].corners[2][0], 620, 3);
}

/// One of them is open to the table at its end.
TEST(FindCloths, AStripeBetweenThoseOfTheTablesColourIsNotTheCloth) {
  cv::Mat rgb(600, 800, CV_8UC3, cv::Scalar(205, 200, 190));
  const cv::Scalar bare(201, 196, 186), dye(60, 45, 90);
  rgb(cv::Rect(90, 80, 200, 200)).setTo(dye);
  const cv::Rect box(420, 90, 300, 300);
  cv::Mat cloth = rgb(box);
  cloth.setTo(bare);
  for (int column = 0; column < box.width; column += 50) cloth.colRange(column, column + 32).setTo(dye);
  cloth.rowRange(0, 5).setTo(dye), cloth.rowRange(295, 300).setTo(dye), cloth.colRange(295, 300).setTo(dye);
  cloth(cv::Rect(32, 290, 18, 10)).setTo(bare);
  cv::Mat grain(rgb.size(), CV_8UC3);
  cv::RNG(7).fill(grain, cv::RNG::UNIFORM, 0, 6);
  const std::vector<Found> cloths = find_cloths(picture_from(rgb + grain)).cloths;
  ASSERT_EQ(cloths.size(), 2U);
  EXPECT_NEAR(cloths[1].corners[0][0], 420, 3);
  EXPECT_NEAR(cloths[1].corners[2][0], 720, 3);
}

/// The same box as the finder has it, to a pixel.
bool is_found(const cv::Rect& box, const Findings& findings) {
  const std::array<cv::Point2d, 4> corners = {cv::Point2d(box.x, box.y), cv::Point2d(box.br().x, box.y),
                                              cv::Point2d(box.br()), cv::Point2d(box.x, box.br().y)};
  return std::any_of(findings.cloths.begin(), findings.cloths.end(), [&](const Found& found) {
    for (std::size_t i = 0; i < corners.size(); ++i) {
      if (std::hypot(found.corners[i][0] - corners[i].x, found.corners[i][1] - corners[i].y) > 1) return false;
    }
    return true;
  });
}

/// Remnants lie in rows, yet no two of them are of one size: five that nearly are do not say how large the others are.
TEST(FindCloths, EveryPieceOfABundleOfRemnantsKeepsItsOwnSize) {
  cv::Mat rgb(900, 1200, CV_8UC3, cv::Scalar(140, 140, 142));
  const std::vector<cv::Size> sizes = {{200, 200}, {204, 198}, {140, 210}, {240, 150}, {198, 203}, {190, 120},
                                       {201, 196}, {230, 230}, {150, 150}, {203, 201}, {120, 200}, {220, 170}};
  std::vector<cv::Rect> boxes;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    const auto at = static_cast<int>(i);
    boxes.emplace_back(cv::Point(60 + at % 4 * 280, 60 + at / 4 * 270), sizes[i]);
    rgb(boxes.back()).setTo(cv::Scalar(30 + 17 * at, 90 - 6 * at, 60 + 9 * at));
  }
  cv::Mat grain(rgb.size(), CV_8UC3);
  cv::RNG(7).fill(grain, cv::RNG::UNIFORM, 0, 6);
  const Findings findings = find_cloths(picture_from(rgb + grain));
  EXPECT_EQ(findings.cloths.size(), boxes.size());
  for (const cv::Rect& box : boxes) EXPECT_TRUE(is_found(box, findings)) << box;
  for (const Found& found : findings.cloths) EXPECT_GT(found.sureness, 0.7);
}

TEST(FindCloths, TheFloorBeyondTheTableIsNotWhatClothLiesOn) {
  cv::Mat rgb(900, 1200, CV_8UC3, cv::Scalar(40, 42, 48));
  rgb(cv::Rect(60, 0, 1140, 840)).setTo(cv::Scalar(228, 222, 210));
  const std::vector<cv::Rect> boxes = {{120, 180, 460, 470}, {620, 190, 480, 460}};
  rgb(boxes[0]).setTo(cv::Scalar(110, 60, 70));
  rgb(boxes[1]).setTo(cv::Scalar(60, 110, 70));
  cv::Mat grain(rgb.size(), CV_8UC3);
  cv::RNG(7).fill(grain, cv::RNG::UNIFORM, 0, 6);
  const Findings findings = find_cloths(picture_from(rgb + grain));
  EXPECT_EQ(findings.cloths.size(), boxes.size());
  for (const cv::Rect& box : boxes) EXPECT_TRUE(is_found(box, findings)) << box;
}

/// The second row has one cloth fewer, and what is next to the gap is turned into it.
TEST(FindCloths, BareTableBesideATurnedClothIsNoCloth) {
  cv::Mat rgb(900, 1200, CV_8UC3, cv::Scalar(42, 40, 37));
  const auto lay = [&](cv::Point2f centre, float turn, const cv::Scalar& ink) {
    cv::Point2f corners[4];
    cv::RotatedRect(centre, {220, 280}, turn).points(corners);
    cv::fillConvexPoly(rgb, std::vector<cv::Point>{corners[0], corners[1], corners[2], corners[3]}, ink, cv::LINE_AA);
  };
  lay({350, 250}, 5, {150, 100, 140}), lay({830, 250}, -4, {60, 150, 120});
  lay({350, 600}, 0, {225, 215, 200}), lay({830, 600}, -6, {90, 70, 140});
  cv::Mat grain(rgb.size(), CV_8UC3);
  cv::RNG(7).fill(grain, cv::RNG::UNIFORM, 0, 6);
  EXPECT_EQ(cloths_in(rgb + grain), 4U);
}

/// Its corner checks are of the table's white.
TEST(FindCloths, AGinghamOnATableOfItsOwnWhiteIsFoundByWhereItsStripesEnd) {
  const cv::Scalar white(245, 243, 238);
  cv::Mat rgb(900, 1200, CV_8UC3, white);
  const cv::Rect box(320, 180, 540, 540);
  constexpr int kCheck = 60;
  for (int i = 0; i < 81; ++i) {
    const int across = i % 9, down = i / 9, dyed = across % 2 + down % 2;
    const cv::Rect check(box.x + across * kCheck, box.y + down * kCheck, kCheck, kCheck);
    rgb(check).setTo(dyed == 0 ? white : dyed == 1 ? cv::Scalar(125, 170, 145) : cv::Scalar(10, 95, 55));
  }
  cv::Mat grain(rgb.size(), CV_8UC3);
  cv::RNG(7).fill(grain, cv::RNG::UNIFORM, 0, 6);
  const Findings findings = find_cloths(picture_from(rgb + grain));
  ASSERT_EQ(findings.cloths.size(), 1U);
  EXPECT_TRUE(is_found(box, findings));
  EXPECT_LT(findings.cloths[0].sureness, 0.7);
}

/// The one below it is dark along its rim too, but ends nowhere clearly.
TEST(FindCloths, AClothThatIsClearAllTheWayRoundDoesNotGoOnInItsNeighbour) {
  cv::Mat rgb(900, 1200, CV_8UC3, cv::Scalar(205, 200, 190));
  const cv::Rect box(420, 100, 320, 330), other(424, 446, 312, 320);
  const cv::Scalar dark(60, 45, 90);
  rgb(box).setTo(dark);
  rgb(other).setTo(cv::Scalar(200, 194, 186));
  for (int row = 0; row < other.height; ++row) {
    for (int column = 0; column < other.width; ++column) {
      if (row < 70 + 40 * std::sin(0.05 * column)) rgb(other).at<cv::Vec3b>(row, column) = {60, 45, 90};
    }
  }
  cv::Mat grain(rgb.size(), CV_8UC3);
  cv::RNG(7).fill(grain, cv::RNG::UNIFORM, 0, 6);
  EXPECT_TRUE(is_found(box, find_cloths(picture_from(rgb + grain))));
}

TEST(FindCloths, ACuttingMatsLinesAreNoEdgesOfCloth) {
  cv::Mat rgb(900, 1200, CV_8UC3, cv::Scalar(40, 95, 75));
  for (int x = 20; x < rgb.cols; x += 48) cv::line(rgb, {x, 0}, {x, rgb.rows}, cv::Scalar(170, 190, 150), 2);
  for (int y = 30; y < rgb.rows; y += 48) cv::line(rgb, {0, y}, {rgb.cols, y}, cv::Scalar(170, 190, 150), 2);
  const std::vector<cv::Rect> boxes = {{100, 110, 300, 260}, {520, 130, 260, 250}, {120, 500, 250, 300}};
  const std::array<cv::Scalar, 3> inks = {cv::Scalar(120, 40, 60), {225, 220, 210}, {40, 50, 120}};
  for (std::size_t i = 0; i < boxes.size(); ++i) rgb(boxes[i]).setTo(inks[i]);
  cv::Mat grain(rgb.size(), CV_8UC3);
  cv::RNG(7).fill(grain, cv::RNG::UNIFORM, 0, 6);
  const Findings findings = find_cloths(picture_from(rgb + grain));
  EXPECT_EQ(findings.cloths.size(), boxes.size());
  for (const cv::Rect& box : boxes) EXPECT_TRUE(is_found(box, findings)) << box;
}

}  // namespace
}  // namespace farflung::photo
