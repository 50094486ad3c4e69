#include "draw/compare.hpp"

#include <gtest/gtest.h>

#include "draw/text.hpp"

namespace farflung::draw {
namespace {

Exhibit exhibit(double width, double height, const std::string& caption) {
  Display display{width, height, {}};
  display.add(Area{outline_of({0, 0, width, height}), kInk});
  return {display,
          caption,
          {"first note", "second note that is so long that it runs on over a line or two where its cell ends"},
          ""};
}

std::vector<Box> pictures(const Display& sheet) {
  std::vector<Box> boxes;
  for (const Item& item : sheet.items) {
    if (const auto* shape = std::get_if<Area>(&item)) boxes.push_back(box_of(shape->outline));
  }
  return boxes;
}

TEST(Compare, PicturesAndWordsStayOnTheSheetAndApart) {
  for (int count = 1; count <= 8; ++count) {
    std::vector<Exhibit> exhibits;
    for (int i = 0; i < count; ++i) exhibits.push_back(exhibit(60 + 5 * i, 80, "Number " + std::to_string(i + 1)));
    const Display sheet = side_by_side(exhibits, 900, 700, 12);
    std::vector<Box> boxes = pictures(sheet);
    ASSERT_EQ(boxes.size(), static_cast<std::size_t>(count));
    for (const Text& text : words_of(sheet)) {
      const Box line = box_of(text);
      boxes.push_back({line.left, text.at.y - 0.78 * text.size, line.width, 0.98 * text.size});
    }
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      EXPECT_TRUE(Box({0, 0, 900, 700}).holds(boxes[i])) << count;
      for (std::size_t j = i + 1; j < boxes.size(); ++j) EXPECT_FALSE(boxes[i].overlaps(boxes[j], 0.01)) << count;
    }
  }
}

TEST(Compare, NotesRunOnUntilTheyAreSaid) {
  for (int count = 1; count <= 6; ++count) {
    const Display sheet = side_by_side(std::vector<Exhibit>(count, exhibit(60, 80, "lap")), 900, 700, 12);
    std::string said;
    for (const Text& text : words_of(sheet)) said += text.words + " ";
    EXPECT_EQ(said.find("\u2026"), std::string::npos) << count << ": " << said;
  }
}

TEST(Compare, ALargerQuiltLooksLarger) {
  const Display sheet = side_by_side({exhibit(40, 50, "lap"), exhibit(80, 100, "double")}, 900, 700, 12);
  const std::vector<Box> boxes = pictures(sheet);
  EXPECT_NEAR(boxes[1].width, 2 * boxes[0].width, 1e-9);
}

TEST(Compare, NothingToCompareIsAnEmptySheet) { EXPECT_TRUE(side_by_side({}, 100, 100, 10).items.empty()); }

}  // namespace
}  // namespace farflung::draw
