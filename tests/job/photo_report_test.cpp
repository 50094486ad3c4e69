#include "job/photo_report.hpp"

#include <gtest/gtest.h>

#include "job/made_by_screen.hpp"

namespace farflung::job {
namespace {

quilt::Quilt with_prints(const std::vector<std::string>& codes) {
  quilt::Quilt quilt;
  for (const std::string& code : codes) {
    print::Print print;
    print.code = code, print.name = "Print " + code;
    quilt.prints.push_back(print);
  }
  return quilt;
}

TEST(PhotoReport, SaysOnceWhatMakesSeveralOutlinesDoubtful) {
  const std::string why = "no whole outline is seen", other = "the cloth reaches beyond the photograph";
  const std::string words =
      prints_words(with_prints({"K", "G", "B", "M"}),
                   {{0, "k.jpg", why}, {1, "g.jpg", ""}, {2, "b.jpg", other}, {3, "m.jpg", why}}, {});
  EXPECT_NE(words.find("  Not sure of K and M: " + why + ".\n"), std::string::npos) << words;
  EXPECT_EQ(words.find(why), words.rfind(why));
  EXPECT_NE(words.find("  Not sure of B: " + other + ".\n"), std::string::npos);
}

TEST(PhotoReport, ClothThatFillsItsPhotographIsNoDoubtButToldToBeSo) {
  const std::vector<Seen> seen = {{0, "k.jpg", "no whole outline is seen", true}, {1, "g.jpg", ""}};
  const std::string words = prints_words(with_prints({"K", "G"}), seen, {});
  EXPECT_EQ(words.find("ot sure"), std::string::npos) << words;
  EXPECT_NE(words.find("  K fills its photograph from edge to edge: if so, all is well; if more"), std::string::npos);
}

TEST(PhotoReport, WhereNearlyAllFillTheirPhotographsTheOthersAreNamed) {
  std::vector<Seen> seen;
  for (std::size_t i = 0; i < 8; ++i) seen.push_back({i, "a.jpg", "no whole outline is seen", true});
  const quilt::Quilt quilt = with_prints({"A", "B", "C", "D", "E", "F", "G", "H"});
  EXPECT_NE(prints_words(quilt, seen, {}).find("  All fill their photographs"), std::string::npos);
  seen[2] = {2, "c.jpg", ""};
  EXPECT_NE(prints_words(quilt, seen, {}).find("  All but C fill their photographs"), std::string::npos);
}

TEST(PhotoReport, PrintsThatWereTakenToBeGreyTogetherAreNamedWithWhatMayBeWrong) {
  const quilt::Quilt quilt = with_prints({"A", "B", "C"});
  std::vector<Seen> seen = {{0, "a.jpg", ""}, {1, "b.jpg", ""}, {2, "b.jpg", ""}};
  EXPECT_EQ(prints_words(quilt, seen, {}).find("grey"), std::string::npos);
  seen[1].grey_together = seen[2].grey_together = true;
  const std::string words = prints_words(quilt, seen, {});
  EXPECT_NE(words.find("  B and C were photographed with nothing of known colour"), std::string::npos) << words;
  EXPECT_NE(words.find("taken to be nearly grey"), std::string::npos);
}

TEST(PhotoReport, PrintsThatAreAllAlikeAreToldInOneLine) {
  const quilt::Quilt quilt = with_prints({"A", "B", "C", "D", "E"});
  constexpr auto kAlike = print::Pair::Kind::alike, kSame = print::Pair::Kind::same;
  const std::vector<print::Pair> pairs = {{kAlike, 0, 1, 1}, {kAlike, 0, 2, 1}, {kAlike, 1, 2, 1}, {kSame, 3, 4, 1}};
  const std::vector<std::string> told = remarks(quilt, {{2, "c.jpg", ""}}, pairs);
  ASSERT_EQ(told.size(), 1U) << "that the fourth and the fifth are alike is no news";
  EXPECT_EQ(told.front(), "Print A, Print B and Print C will read alike in the quilt");
  EXPECT_EQ(pairs_json(quilt, {{2, "c.jpg", ""}}, pairs).size(), 2U);
  const std::vector<print::Pair> once_more = {{kSame, 0, 1, 1}, {kSame, 0, 2, 1}, {kSame, 1, 2, 1}};
  EXPECT_EQ(remarks(quilt, {{0, "a.jpg", ""}}, once_more).front(),
            "Print A, Print B and Print C may be one fabric photographed 3 times: keep one of them if so");
}

TEST(PhotoReport, APictureOfAScreenIsToldFromAPhotographOfCloth) {
  photo::Picture screen, wall;
  screen.columns = wall.columns = 320, screen.rows = wall.rows = 240;
  for (int row = 0; row < 240; ++row) {
    for (int column = 0; column < 320; ++column) {
      const bool page = column < 160;
      for (const int channel : {0, 1, 2}) {
        screen.rgb.push_back(static_cast<std::uint8_t>(page ? 240 - 5 * channel : (row * 7 + column * 13) % 200));
        // A bare wall saved with few bytes: even blocks of eight pixels, darker toward its corner.
        wall.rgb.push_back(static_cast<std::uint8_t>(200 - (row / 8 + column / 8) / 2 - 4 * channel));
      }
    }
  }
  EXPECT_TRUE(made_by_screen(screen));
  EXPECT_FALSE(made_by_screen(wall));
  std::fill(screen.rgb.begin(), screen.rgb.end(), std::uint8_t{255});
  EXPECT_FALSE(made_by_screen(screen)) << "too much light is no screen";
}

}  // namespace
}  // namespace farflung::job
