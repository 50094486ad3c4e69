#include "draw/text.hpp"

#include <gtest/gtest.h>

namespace farflung::draw {
namespace {

const char* const kNoText =
    "bad\xff\xfe"
    "bytes";
const char* const kManyScripts[] = {"Harbour raffle", "シロカツオドリの海", "Ålesund – Ærø", "Θαλασσινό",
                                    "Маяк на мысе",   "中国海棉布料",       kNoText};

TEST(Text, WidthGrowsWithSizeExactly) {
  for (const char* words : kManyScripts) {
    EXPECT_GT(width_of(words, 10), 0);
    EXPECT_NEAR(width_of(words, 25), 2.5 * width_of(words, 10), 1e-6) << words;
  }
}

TEST(Text, ShortenedWordsFitAndAreWholeCharacters) {
  for (const char* words : kManyScripts) {
    for (const double width : {15.0, 40.0, 70.0, 400.0}) {
      const std::string cut = shortened(words, 10, width);
      EXPECT_LE(width_of(cut, 10), width + 1e-6) << words << " in " << width;
      EXPECT_EQ(width_of(words, 10) <= width, cut == words);
    }
  }
}

TEST(Text, BrokenLinesFitAndLoseNoWord) {
  const std::string words = "Press each seam toward the darker of its two prints, and let it cool before you move it.";
  std::string joined;
  for (const std::string& line : broken(words, 9, 120)) {
    EXPECT_LE(width_of(line, 9), 120 + 1e-6);
    joined += (joined.empty() ? "" : " ") + line;
  }
  EXPECT_EQ(joined, words);
}

TEST(Text, CapitalsOfThePinnedFontAreAsHighAsTheyAreTakenToBe) {
  // Held against the font's own table: a wrong font would make codes smaller than they are promised to be.
  const Box line = box_of({"H", {0, 0}, 100, Anchor::left});
  EXPECT_NEAR(-line.top, 92.8, 0.6);   // DejaVu Sans' ascent
  EXPECT_NEAR(line.width, 75.2, 0.3);  // and the advance of its H
}

TEST(Text, AQuarterTurnTurnsTheBoxToo) {
  const Box flat = box_of({"Kelp", {50, 50}, 10, Anchor::middle});
  const Box turned = box_of({"Kelp", {50, 50}, 10, Anchor::middle, false, kInk, Role::body, 90});
  EXPECT_NEAR(flat.width, turned.height, 1e-9);
  EXPECT_NEAR(flat.height, turned.width, 1e-9);
}

}  // namespace
}  // namespace farflung::draw
