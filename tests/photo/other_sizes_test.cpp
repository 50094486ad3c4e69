#include "photo/other_sizes.hpp"

#include <gtest/gtest.h>

namespace farflung::photo {
namespace {

constexpr double kUsual = 100;

Piece piece_at(double x, double y, double width, double height, double support = 0.95) {
  return {{{cv::Point2d(x, y), {x + width, y}, {x + width, y + height}, {x, y + height}}, support}, 1, false};
}

/// Usual cloths in a row, seen from straight above.
std::vector<Piece> usual(int count) {
  std::vector<Piece> pieces;
  for (int i = 0; i < count; ++i) pieces.push_back(piece_at(120.0 * i, 0, kUsual, kUsual));
  return pieces;
}

Plane from_above() {
  Plane plane;
  plane.width = plane.height = kUsual;
  return plane;
}

/// How many of another size there are among so many usual ones and this.
std::size_t others(int count, const Piece& piece) {
  std::vector<Piece> pieces = usual(count);
  pieces.push_back(piece);
  return of_other_sizes(pieces, from_above()).size();
}

TEST(OtherSizes, AreThoseOfPlainlySeenPiecesThatAreNotOfTheUsualSize) {
  EXPECT_EQ(others(3, piece_at(0, 200, 140, 150)), 1U);
  EXPECT_EQ(others(3, piece_at(0, 200, 140, 150, 0.5)), 0U);
  EXPECT_EQ(others(3, piece_at(0, 200, 101, 99)), 0U);
}

TEST(OtherSizes, NeitherAStripeNorABlockOfUsualClothsNorWhatOverlapsOneIsASizeOfItsOwn) {
  EXPECT_EQ(others(3, piece_at(0, 200, 20, 150)), 0U);
  EXPECT_EQ(others(3, piece_at(0, 200, 205, 100)), 0U);
  EXPECT_EQ(others(3, piece_at(0, 200, 206, 310)), 0U);
  EXPECT_EQ(others(3, piece_at(50, 0, 140, 150)), 0U);
}

TEST(OtherSizes, PiecesThatMakeUpAUsualClothEdgeToEdgeAreNone) {
  std::vector<Piece> pieces = usual(3);
  pieces.push_back(piece_at(0, 200, 66, 100));
  pieces.push_back(piece_at(67, 200, 32, 100));
  EXPECT_TRUE(of_other_sizes(pieces, from_above()).empty());
  pieces.back() = piece_at(80, 200, 32, 100);
  EXPECT_EQ(of_other_sizes(pieces, from_above()).size(), 2U);
}

/// The last stripe of a print may be of the table's own colour.
TEST(OtherSizes, WhereAllAreFoldedAlikeWhatIsShorterAlongOneSideMayBeAUsualOneInPart) {
  EXPECT_EQ(others(5, piece_at(0, 200, 100, 80)), 0U);
  EXPECT_EQ(others(5, piece_at(0, 200, 70, 80)), 1U);
  EXPECT_EQ(others(5, piece_at(0, 200, 100, 130)), 1U);
  EXPECT_EQ(others(2, piece_at(0, 200, 100, 80)), 1U);
}

TEST(OtherSizes, WhereManyAreFoldedAlikeOneThatIsALittleWiderShowsAStripeOfItsNeighbour) {
  EXPECT_EQ(others(9, piece_at(0, 200, 112, 100)), 0U);
  EXPECT_EQ(others(9, piece_at(0, 200, 112, 90)), 1U);
  EXPECT_EQ(others(9, piece_at(0, 200, 135, 100)), 1U);
}

TEST(OtherSizes, LeaveNoSharedSizeWhereTheyAreMany) {
  const std::vector<Piece> pieces = usual(6), some = usual(2), many = usual(3);
  EXPECT_TRUE(share_a_size(pieces, some, from_above()));
  EXPECT_FALSE(share_a_size(pieces, many, from_above()));
}

TEST(OtherSizes, OneThatIsSureTellsThatTwoAreAlikeByChance) {
  const auto shared = [](int count, const Piece& another) {
    std::vector<Piece> pieces = usual(count);
    pieces.push_back(another);
    return share_a_size(pieces, {}, from_above());
  };
  EXPECT_FALSE(shared(2, piece_at(0, 200, 140, 150, 0.75)));
  EXPECT_TRUE(shared(3, piece_at(0, 200, 140, 150, 0.75)));
  EXPECT_TRUE(shared(2, piece_at(0, 200, 140, 150, 0.6)));
  EXPECT_TRUE(shared(2, piece_at(0, 200, 205, 100, 0.75))) << "two that are seen as one";
}

}  // namespace
}  // namespace farflung::photo
