#include "print/pairs_alike.hpp"

#include <gtest/gtest.h>

#include "print/distance.hpp"

namespace farflung::print {
namespace {

Print photographed(colour::Lab lab, double scale) {
  Print print;
  print.features.lab = lab;
  print.features.palette = {{lab, 0.7}, {{lab.L + 20, lab.a, lab.b}, 0.3}};
  print.features.scale = scale;
  print.features.value_range = 20;
  print.photo = Sighting{};
  return print;
}

/// Two swatches of 6 in beside the sheet.
std::vector<Print> measured(colour::Lab first, colour::Lab second) {
  std::vector<Print> prints = {photographed(first, 1), photographed(second, 1)};
  for (Print& print : prints) print.swatch_width = Length::inches(6), print.photo->reference = "sheet";
  prints[0].photo->file = "photos/a.jpg", prints[1].photo->file = "photos/b.jpg";
  return prints;
}

LayOver lies(double likeness, double next, double octaves) {
  return [=](std::size_t, std::size_t) { return Overlay{likeness, next, octaves}; };
}

Pair::Kind kind(const std::vector<Print>& prints, const LayOver& lay_over) {
  return pairs_alike(prints, lay_over).at(0).kind;
}

TEST(PairsAlike, TakesNoPrintOfAnotherScaleForTheSameFabric) {
  const std::vector<Pair> pairs = pairs_alike({photographed({50, 10, 10}, 0.5), photographed({50, 10, 10}, 0.62)});
  ASSERT_EQ(pairs.size(), 1U);
  EXPECT_EQ(pairs[0].kind, Pair::Kind::alike);
}

TEST(PairsAlike, LetsColoursStrayFartherWhereTheScaleIsKnown) {
  std::vector<Print> prints = {photographed({50, 10, 10}, 0.5), photographed({54.5, 10, 10}, 0.5)};
  EXPECT_EQ(pairs_alike(prints).at(0).kind, Pair::Kind::same);
  prints[1].features.scale.reset();
  EXPECT_EQ(pairs_alike(prints).at(0).kind, Pair::Kind::alike);
}

TEST(PairsAlike, TakesLessForTheSameFabricWhereNothingHasSetTheColoursRight) {
  std::vector<Print> prints = {photographed({50, 10, 10}, 0.5), photographed({53, 10, 10}, 0.5)};
  for (Print& print : prints) print.features.scale.reset(), print.photo->reference = "sheet";
  EXPECT_EQ(pairs_alike(prints).at(0).kind, Pair::Kind::same);
  prints[1].photo->reference = "surface";
  EXPECT_EQ(pairs_alike(prints).at(0).kind, Pair::Kind::alike);
}

TEST(PairsAlike, TellsOneFabricTwiceFromTwoThatReadAlike) {
  const std::vector<Print> prints = {photographed({50, 10, 10}, 0.5), photographed({51, 10, 10}, 0.51),
                                     photographed({54, 10, 10}, 0.7), photographed({20, 0, -30}, 0.5)};
  const std::vector<Pair> pairs = pairs_alike(prints);
  ASSERT_FALSE(pairs.empty());
  EXPECT_EQ(pairs[0].kind, Pair::Kind::same);
  EXPECT_EQ(pairs[0].first, 0U);
  EXPECT_EQ(pairs[0].second, 1U);
  for (std::size_t i = 1; i < pairs.size(); ++i) EXPECT_EQ(pairs[i].kind, Pair::Kind::alike);
  for (const Pair& pair : pairs) EXPECT_NE(pair.second, 3U);
}

TEST(PairsAlike, SwatchesThatLieOverEachOtherAreOneFabricThoughTheirColoursStray) {
  const std::vector<Print> prints = measured({50, 10, 10}, {54, 13, 10});
  EXPECT_EQ(kind(prints, lies(0.9, 0.8, 0.05)), Pair::Kind::same);
  EXPECT_EQ(kind(prints, lies(0.3, 0.3, 0.05)), Pair::Kind::alike);
}

TEST(PairsAlike, APrintThatHadToBeEnlargedToLieOverAnotherIsItsSister) {
  EXPECT_EQ(kind(measured({50, 10, 10}, {51, 10, 10}), lies(0.95, 0.95, 0.3)), Pair::Kind::alike);
}

TEST(PairsAlike, PartsOfAPrintThatHaveNothingInCommonAreOneFabricByTheirColoursAndScale) {
  std::vector<Print> prints = measured({50, 10, 10}, {52, 10, 10});
  prints[1].features.scale = 1.02;
  EXPECT_EQ(kind(prints, lies(0.3, 0.3, -0.25)), Pair::Kind::same);
  prints[1].features.scale = 1.15;
  EXPECT_EQ(kind(prints, lies(0.3, 0.3, -0.25)), Pair::Kind::alike);
}

TEST(PairsAlike, WithoutInchesAPrintThatRepeatsMustAgreeInItsColours) {
  std::vector<Print> prints = measured({50, 10, 10}, {54, 13, 10});
  for (Print& print : prints) print.swatch_width.reset(), print.photo->reference = "surface";
  EXPECT_EQ(kind(prints, lies(0.9, 0.9, 0.5)), Pair::Kind::alike);
  EXPECT_EQ(kind(prints, lies(0.9, 0.3, 0.5)), Pair::Kind::same);  // in one place alone: the very same cloth
}

TEST(PairsAlike, FaintPrintsAreJudgedByTheirColours) {
  std::vector<Print> prints = measured({50, 10, 10}, {51, 10, 10});
  for (Print& print : prints) print.features.value_range = 4;
  EXPECT_EQ(kind(prints, lies(0.2, 0.2, 0)), Pair::Kind::same);
  EXPECT_EQ(kind(prints, lies(0.6, 0.6, 0.4)), Pair::Kind::alike);  // what shows of them lies over a larger one
}

TEST(PairsAlike, LaysOnlyWhatOneLightOrAnotherCouldMakeOfOneFabric) {
  int laid = 0;
  pairs_alike(measured({50, 10, 10}, {20, 0, -30}), [&](std::size_t, std::size_t) {
    ++laid;
    return Overlay{1, 0, 0};
  });
  EXPECT_EQ(laid, 0);
}

}  // namespace
}  // namespace farflung::print
