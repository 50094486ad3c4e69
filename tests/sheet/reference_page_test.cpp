#include "sheet/reference_page.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "photo/reference_sheet.hpp"

namespace farflung::sheet {
namespace {

/// Whether ink lies at a place, in inches from the page's middle.
bool inked(const Page& page, double x, double y) {
  const double px = page.display.width / 2 + x * kPointsPerInch, py = page.display.height / 2 + y * kPointsPerInch;
  return std::any_of(page.display.items.begin(), page.display.items.end(), [&](const draw::Item& item) {
    const auto* area = std::get_if<draw::Area>(&item);
    if (area == nullptr) return false;
    double left = 1e9, right = -1e9, top = 1e9, below = -1e9;
    for (const draw::Vec& p : area->outline) {
      left = std::min(left, p.x), right = std::max(right, p.x), top = std::min(top, p.y), below = std::max(below, p.y);
    }
    return left <= px && px <= right && top <= py && py <= below;
  });
}

TEST(ReferencePage, EveryMarkAndGreyFieldIsPrintedWhereThePhotographLooksForIt) {
  for (const Paper& paper : {letter(), a4()}) {
    const Page page = reference_page(paper);
    for (const photo::SheetBox& box : photo::sheet_plan().black()) {
      EXPECT_TRUE(inked(page, box.left + box.width / 2, box.top + box.height / 2)) << box.left << ' ' << box.top;
    }
    for (const photo::SheetScreen& screen : photo::sheet_plan().screens) {
      const double gap = screen.box.left + screen.pitch * (1 + screen.black) / 2;
      EXPECT_FALSE(inked(page, gap, screen.box.top + screen.box.height / 2)) << screen.black << ' ' << screen.pitch;
    }
  }
}

TEST(ReferencePage, ItsWordsStandWhereThePhotographExpectsThem) {
  for (const Paper& paper : {letter(), a4()}) {
    const photo::SheetBox& words = photo::sheet_plan().words;
    const Page page = reference_page(paper);
    for (const draw::Item& item : page.display.items) {
      const auto* text = std::get_if<draw::Text>(&item);
      if (text == nullptr || text->role == draw::Role::caption) continue;
      const double down = (text->at.y - page.display.height / 2) / kPointsPerInch;
      EXPECT_GT(down, words.top) << text->words;
      EXPECT_LT(down, words.top + words.height - 0.1) << text->words;
    }
  }
}

}  // namespace
}  // namespace farflung::sheet
