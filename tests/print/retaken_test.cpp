#include "print/retaken.hpp"

#include <gtest/gtest.h>

namespace farflung::print {
namespace {

/// `count` prints of one photograph, then as many of another.
std::vector<Print> two_photographs(std::size_t count) {
  std::vector<Print> prints(2 * count);
  for (std::size_t i = 0; i < prints.size(); ++i)
    prints[i].photo = Sighting{i < count ? "photos/a.jpg" : "photos/b.jpg", {}, "surface"};
  return prints;
}

/// Each print over the one at its place in the other photograph, all zoomed alike.
std::vector<Laid> all_zoomed_alike(std::size_t count) {
  std::vector<Laid> laid;
  for (std::size_t i = 0; i < count; ++i) laid.push_back({i, i + count, {0.9, 0.9, -0.6}});
  return laid;
}

TEST(Retaken, ASetPhotographedAnewIsKnownByItsCommonZoom) {
  std::vector<Laid> laid = all_zoomed_alike(8);
  laid[1].overlay.likeness = 0.5;  // dim, but in its place
  laid[2].overlay.octaves = -0.3;  // a sister of another scale
  laid[3].overlay.likeness = 0.3;  // a stranger
  const std::vector<bool> fits = retaken(two_photographs(8), laid);
  EXPECT_EQ(fits, (std::vector<bool>{true, true, false, false, true, true, true, true}));
}

TEST(Retaken, PrintsInEitherOrderAreTheSame) {
  std::vector<Laid> laid = all_zoomed_alike(6);
  std::vector<Print> prints = two_photographs(6);
  std::swap(prints[0], prints[6]);
  laid[0].overlay.octaves = 0.6;
  EXPECT_EQ(retaken(prints, laid), std::vector<bool>(6, true));
}

TEST(Retaken, SistersOfEveryScaleAreNoSet) {
  std::vector<Laid> laid = all_zoomed_alike(8);
  for (std::size_t i = 0; i < laid.size(); ++i) laid[i].overlay.octaves = i % 2 == 0 ? -0.4 + 0.02 * i : 0.3 + 0.02 * i;
  EXPECT_EQ(retaken(two_photographs(8), laid), std::vector<bool>(8, false));
}

TEST(Retaken, AFewPrintsOrOneLikeManyAreNoSet) {
  EXPECT_EQ(retaken(two_photographs(3), all_zoomed_alike(3)), std::vector<bool>(3, false));
  std::vector<Laid> laid;
  for (std::size_t i = 0; i < 6; ++i) laid.push_back({i, 6, {0.9, 0.9, -0.6}});
  EXPECT_EQ(retaken(two_photographs(6), laid), std::vector<bool>(6, false));
}

TEST(Retaken, PrintsOfOnePhotographSayNothing) {
  std::vector<Print> prints = two_photographs(6);
  for (Print& print : prints) print.photo->file = "photos/a.jpg";
  EXPECT_EQ(retaken(prints, all_zoomed_alike(6)), std::vector<bool>(6, false));
}

}  // namespace
}  // namespace farflung::print
