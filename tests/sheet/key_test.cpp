#include "sheet/key.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/counted.hpp"
#include "sheet/reading.hpp"
#include "support/patterns.hpp"

namespace farflung::sheet {
namespace {

TEST(Key, EveryPrintIsListedWithCodeAndCopies) {
  for (const support::World& world : support::worlds()) {
    const quilt::Quilt quilt = dressed(Seed{5}, world.wanted);
    std::vector<int> pieces(quilt.prints.size());
    for (const block::Block& block : quilt.blocks) {
      for (const block::Patch& patch : quilt.patterns[block.pattern].patches) {
        ++pieces[quilt::print_of_slot(quilt, block, patch.slot)];
      }
    }
    std::vector<Figure> entries;
    const auto pages = pages_of(quilt, {letter(), {"key"}});
    for (const Page& page : *pages) {
      for (const Figure& figure : figures_on(page)) entries.push_back(figure);
    }
    ASSERT_EQ(entries.size(), quilt.prints.size());
    for (std::size_t i = 0; i < entries.size(); ++i) {
      EXPECT_TRUE(begins_with(entries[i].says, quilt.prints[i].code + ": " + quilt.prints[i].name + ", "));
      if (pieces[i] == 0) continue;
      EXPECT_NE(entries[i].says.find(" " + counted(pieces[i], "piece") + " in "), std::string::npos) << entries[i].says;
      EXPECT_EQ(entries[i].words.front().words, quilt.prints[i].code);
    }
  }
}

TEST(Key, ALongNameIsToldWhole) {
  quilt::Quilt quilt = dressed(Seed{5}, {});
  const std::string name = "Harbour stripe with small anchors, the colourway of dusk, 12";
  for (print::Print& print : quilt.prints) print.name = name;
  const Result<std::vector<Page>> pages = pages_of(quilt, {letter(), {"key"}});
  for (const Figure& figure : figures_on(pages->front())) {
    std::string told;
    for (const draw::Text& text : figure.words) {
      if (text.role != draw::Role::name) continue;
      EXPECT_GE(text.size, 8);
      told += (told.empty() ? "" : " ") + text.words;
    }
    EXPECT_EQ(told, name);
  }
}

TEST(Key, FrameBindingAndBackingCountAsUses) {
  support::Wanted wanted;
  wanted.borders = wanted.sashing = true;
  quilt::Quilt quilt = dressed(Seed{5}, wanted);
  quilt.setting.sashing->print = 1;
  quilt.binding->print = 2;
  quilt.backing = quilt::Backing{2};
  const auto uses = uses_of({quilt, quilt::plan_of(quilt), letter()});
  EXPECT_EQ(std::count(uses[1].frame.begin(), uses[1].frame.end(), "sashing"), 1);
  EXPECT_EQ(std::count(uses[2].frame.begin(), uses[2].frame.end(), "binding"), 1);
  EXPECT_EQ(std::count(uses[2].frame.begin(), uses[2].frame.end(), "backing"), 1);
}

TEST(Key, BordersAreToldApartByTheirNumbersFromTheInside) {
  support::Wanted wanted;
  quilt::Quilt quilt = dressed(Seed{5}, wanted);
  const auto border_of = [](int print) {
    setting::Border border;
    border.width = Length::inches(2);
    border.print = print;
    return border;
  };
  quilt.setting.borders = {border_of(1)};
  EXPECT_THAT(uses_of({quilt, quilt::plan_of(quilt), letter()})[1].frame, testing::Contains("border"));
  quilt.setting.borders = {border_of(0), border_of(1)};
  EXPECT_THAT(uses_of({quilt, quilt::plan_of(quilt), letter()})[1].frame, testing::Contains("border 2"));
}

TEST(Key, TheCautionsStandOnItsLastPage) {
  support::Wanted wanted;
  wanted.prints = 60;
  const auto pages = *pages_of(dressed(Seed{5}, wanted), {letter(), {"key"}});
  ASSERT_GT(pages.size(), 1U);
  const auto warns = [](const Page& page) {
    const auto words = words_on(page);
    return std::any_of(words.begin(), words.end(),
                       [](const std::string& w) { return begins_with(w, "Rotary cutters"); });
  };
  EXPECT_FALSE(warns(pages.front()));
  EXPECT_TRUE(warns(pages.back()));
}

}  // namespace
}  // namespace farflung::sheet
