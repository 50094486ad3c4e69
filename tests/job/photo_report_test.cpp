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
  EXPECT_NE(words.find("  Not sure of K, M: " + why + ".\n"), std::string::npos) << words;
  EXPECT_EQ(words.find(why), words.rfind(why));
  EXPECT_NE(words.find("  Not sure of B: " + other + ".\n"), std::string::npos);
}

TEST(PhotoReport, ClothThatFillsItsPhotographIsNoDoubtButToldToBeSo) {
  const std::vector<Seen> seen = {{0, "k.jpg", "no whole outline is seen", true}, {1, "g.jpg", ""}};
  const std::string words = prints_words(with_prints({"K", "G"}), seen, {});
  EXPECT_EQ(words.find("ot sure"), std::string::npos) << words;
  EXPECT_NE(words.find("  K fills its photograph from edge to edge: if so, all is well; if more"), std::string::npos);
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
