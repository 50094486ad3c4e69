#include "base/length_text.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "base/rng.hpp"

namespace farflung {
namespace {

std::optional<Length> in_inches(std::string_view text) { return length_from_text(text, LengthUnit::inches); }

TEST(LengthText, ReadsWhatARulerSays) {
  EXPECT_EQ(in_inches("2 1/2"), Length::inches(2.5));
  EXPECT_EQ(in_inches("2-1/2"), Length::inches(2.5));
  EXPECT_EQ(in_inches("3/8"), Length::inches(0.375));
  EXPECT_EQ(in_inches("12"), Length::inches(12));
  EXPECT_EQ(in_inches("2.5"), Length::inches(2.5));
  EXPECT_EQ(in_inches(".25"), Length::inches(0.25));
  EXPECT_EQ(in_inches("2."), Length::inches(2));
  EXPECT_EQ(in_inches("  2   1/2  "), Length::inches(2.5));
  EXPECT_EQ(in_inches("2½"), Length::inches(2.5));
  EXPECT_EQ(in_inches("2 ⅜"), Length::inches(2.375));
  EXPECT_EQ(in_inches("¼"), Length::inches(0.25));
  EXPECT_EQ(in_inches("-1/2"), Length::inches(-0.5));
  EXPECT_EQ(in_inches("+1"), Length::inches(1));
}

TEST(LengthText, TakesTheUnitThatIsWritten) {
  EXPECT_EQ(in_inches("8,9 cm"), Length::millimetres(89));
  EXPECT_EQ(in_inches("8.9cm"), Length::millimetres(89));
  EXPECT_EQ(in_inches("90 mm"), Length::millimetres(90));
  EXPECT_EQ(in_inches("1.5 m"), Length::millimetres(1500));
  EXPECT_EQ(in_inches("1/2 yd"), Length::inches(18));
  EXPECT_EQ(in_inches("2 ft"), Length::inches(24));
  for (const char* text : {"3 1/2\"", "3.5 in", "3.5in.", "3½ inches", "3 1/2 inch", "3 1/2″", "3 1/2”"}) {
    EXPECT_EQ(length_from_text(text, LengthUnit::millimetres), Length::inches(3.5)) << text;
  }
}

TEST(LengthText, WithoutAUnitItIsInTheOneAskedFor) {
  EXPECT_EQ(length_from_text("2.5", LengthUnit::centimetres), Length::millimetres(25));
  EXPECT_EQ(length_from_text("2,5", LengthUnit::millimetres), Length::millimetres(2.5));
  EXPECT_EQ(length_from_text("1/2", LengthUnit::yards), Length::inches(18));
}

TEST(LengthText, RefusesWhatIsNotALength) {
  for (const char* text :
       {"",      " ",      "-",         "a",  "2 1",     "2 1/",    "1/0",         "1/2/3",       "2..5", "2.5.1",
        "1,000", "12,345", "2 1/2 1/2", "cm", "2 cm cm", "2 pt",    "1e3",         "0x10",        "nan",  "inf",
        "--1",   "2-",     "/2",        ".",  ",",       "2 - 1/2", "99999999999", "1.0000000001"}) {
    EXPECT_FALSE(in_inches(text)) << text;
  }
  EXPECT_FALSE(length_from_text("20000", LengthUnit::metres));
}

TEST(LengthText, EverySixtyFourthComesBackAsItWasWritten) {
  for (int count = -640; count <= 640; ++count) {
    const Length length = Length::inches(count / 64.0);
    EXPECT_EQ(in_inches(ruler_text(length, 64)), length) << ruler_text(length, 64);
  }
}

TEST(LengthText, SaysLengthsAsTheyAreSaid) {
  EXPECT_EQ(ruler_text(Length::inches(2.5)), "2 1/2");
  EXPECT_EQ(ruler_text(Length::inches(0.375)), "3/8");
  EXPECT_EQ(ruler_text(Length::inches(0)), "0");
  EXPECT_EQ(ruler_text(Length::inches(-0.001)), "0");
  EXPECT_EQ(ruler_text(Length::inches(2.99)), "3");
  EXPECT_EQ(ruler_text(Length::inches(-1.5)), "-1 1/2");
  EXPECT_EQ(metric_text(Length::millimetres(89)), "8.9 cm");
  EXPECT_EQ(metric_text(Length::millimetres(90)), "9 cm");
  EXPECT_EQ(metric_text(Length::millimetres(6.4)), "6 mm");
  EXPECT_EQ(metric_text(Length::millimetres(-0.1)), "0 mm");
}

TEST(LengthText, NoiseNeverReadsAsMoreThanItCould) {
  Rng rng(Seed{7});
  const std::string letters = "0123456789 ./,-½incm\"yd";
  for (int i = 0; i < 20'000; ++i) {
    std::string text;
    for (std::uint32_t n = rng.below(12); n > 0; --n)
      text += letters[rng.below(static_cast<std::uint32_t>(letters.size()))];
    const auto length = in_inches(text);
    if (length) {
      EXPECT_LE(std::abs(length->millimetres()), 1e7) << text;
    }
  }
}

}  // namespace
}  // namespace farflung
