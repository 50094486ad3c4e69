// Cards, labels, log and slip.
#include <algorithm>
#include <sstream>

#include <gtest/gtest.h>

#include "sheet/cards.hpp"
#include "sheet/cover.hpp"
#include "sheet/log.hpp"
#include "sheet/marks.hpp"
#include "sheet/reading.hpp"
#include "sheet/slip.hpp"
#include "support/patterns.hpp"

namespace farflung::sheet {
namespace {

std::vector<Figure> figures_of(const std::vector<Page>& pages) {
  std::vector<Figure> all;
  for (const Page& page : pages) {
    for (const Figure& figure : figures_on(page)) all.push_back(figure);
  }
  return all;
}

bool has_words(const std::vector<Page>& pages, const std::string& words) {
  return std::any_of(pages.begin(), pages.end(), [&](const Page& page) {
    const auto all = words_on(page);
    return std::any_of(all.begin(), all.end(),
                       [&](const std::string& w) { return w.find(words) != std::string::npos; });
  });
}

TEST(Labels, EveryBlockHasOneWithItsPlaceItsPrintsAndTheWarning) {
  for (const support::World& world : support::worlds()) {
    const quilt::Quilt quilt = dressed(Seed{8}, world.wanted);
    const Book book{quilt, quilt::plan_of(quilt), letter()};
    const auto labels = figures_of(block_labels(book));
    ASSERT_EQ(labels.size(), quilt.blocks.size()) << world.name;
    std::size_t next = 0;
    for (std::size_t cell = 0; cell < book.plan.cells.size(); ++cell) {
      const int block = quilt.layout.block[cell];
      if (block == quilt::kNone) continue;
      const std::string head = setting::cell_name(book.plan.cells[cell]) + ", block " + quilt.blocks[block].id + ", ";
      EXPECT_TRUE(begins_with(labels[next].says, head)) << labels[next].says;
      for (const int print : prints_dealt(quilt, block)) {
        EXPECT_NE(labels[next].says.find(quilt.prints[print].code), std::string::npos);
      }
      EXPECT_TRUE(std::any_of(labels[next].words.begin(), labels[next].words.end(),
                              [](const draw::Text& text) { return text.words == "remove before ironing"; }));
      ++next;
    }
    for (; next < labels.size(); ++next) EXPECT_TRUE(begins_with(labels[next].says, "spare, block "));
  }
}

TEST(Labels, AreSmallerWhereTheLargestPatchIs) {
  const auto count_on_first = [](const block::Pattern& pattern) {
    support::Wanted wanted;
    wanted.patterns = {pattern};
    wanted.rows = wanted.columns = 9;
    const quilt::Quilt quilt = dressed(Seed{8}, wanted);
    return figures_on(block_labels({quilt, quilt::plan_of(quilt), letter()}).front()).size();
  };
  EXPECT_GT(count_on_first(support::nine_patch()), count_on_first(support::square()));
}

TEST(WallCards, ThereIsOneForEachRowAndPlace) {
  support::Wanted wanted;
  wanted.rows = 5;
  wanted.columns = 4;
  const quilt::Quilt quilt = dressed(Seed{8}, wanted);
  const auto cards = figures_of(wall_cards({quilt, quilt::plan_of(quilt), a4()}));
  ASSERT_EQ(cards.size(), 9U);
  EXPECT_TRUE(begins_with(cards[0].says, "R1: row 1 from the top"));
  EXPECT_TRUE(begins_with(cards[8].says, "C4: place 4 from the left"));
}

TEST(WallCards, OffsetRowsHaveTheirPlacesAboveAndBelow) {
  support::Wanted wanted;
  wanted.kind = setting::Setting::Kind::brick;
  wanted.rows = 3;
  wanted.columns = 4;
  const quilt::Quilt quilt = dressed(Seed{8}, wanted);
  const auto cards = figures_of(wall_cards({quilt, quilt::plan_of(quilt), a4()}));
  EXPECT_EQ(cards.size(), 3U + 4U + 3U);
  EXPECT_NE(cards.back().says.find("hang below"), std::string::npos);
}

TEST(CodeCards, EveryPrintHasOne) {
  const quilt::Quilt quilt = dressed(Seed{8}, {});
  EXPECT_EQ(figures_of(snip_cards({quilt, quilt::plan_of(quilt), letter()})).size(), quilt.prints.size());
}

TEST(CodeCards, ALongNameTakesTwoLines) {
  quilt::Quilt quilt = dressed(Seed{8}, {});
  for (print::Print& print : quilt.prints) print.name = "Harbour stripe with small anchors, no. 12";
  const std::vector<Page> pages = snip_cards({quilt, quilt::plan_of(quilt), letter()});
  EXPECT_TRUE(has_words(pages, "no. 12"));
}

TEST(Log, ListsEveryBlockAndEveryRowOnce) {
  support::Wanted wanted;
  wanted.rows = 12;
  wanted.columns = 9;
  wanted.spares = 3;
  const quilt::Quilt quilt = dressed(Seed{8}, wanted);
  std::vector<std::string> names;
  for (const Page& page : work_log({quilt, quilt::plan_of(quilt), letter()})) {
    for (const std::string& words : words_on(page)) names.push_back(words);
  }
  for (const block::Block& block : quilt.blocks) EXPECT_EQ(std::count(names.begin(), names.end(), block.id), 1);
  for (int row = 0; row < 12; ++row) EXPECT_EQ(std::count(names.begin(), names.end(), row_name(row)), 1);
}

TEST(Log, AFewBlocksTooManyForAPageAreWrittenCloserOnIt) {
  const auto pages_of_blocks = [](int rows) {
    support::Wanted wanted;
    wanted.rows = rows;
    wanted.columns = 8;
    const quilt::Quilt quilt = dressed(Seed{5}, wanted);
    const std::vector<Page> pages = work_log({quilt, quilt::plan_of(quilt), a4()});
    return std::count_if(pages.begin(), pages.end(), [](const Page& page) { return page.part == "the blocks"; });
  };
  EXPECT_EQ(pages_of_blocks(10), 1) << "eighty blocks";
  EXPECT_EQ(pages_of_blocks(14), 2);
}

TEST(Log, ALongRowOfCodesIsBrokenAndStaysLegible) {
  support::Wanted wanted;
  wanted.rows = 9;
  wanted.columns = 6;
  quilt::Quilt quilt = dressed(Seed{8}, wanted);
  for (print::Print& print : quilt.prints) print.code = "WW" + print.code;
  const std::vector<Page> pages = work_log({quilt, quilt::plan_of(quilt), letter()});
  std::vector<std::string> codes;
  for (const Page& page : pages) {
    for (const draw::Text& text : draw::words_of(page.display)) {
      if (text.role != draw::Role::body || text.words.find("WW") == std::string::npos) continue;
      EXPECT_GE(text.size, 8) << text.words;
      std::istringstream words(text.words);
      for (std::string code; words >> code;) codes.push_back(code);
    }
  }
  std::vector<std::string> dealt;
  for (std::size_t block = 0; block < quilt.blocks.size(); ++block) {
    for (const int print : prints_dealt(quilt, static_cast<int>(block))) dealt.push_back(quilt.prints[print].code);
  }
  EXPECT_EQ(codes, dealt) << "none is cut short, none is lost";
}

TEST(Slip, SaysWhatTopBackingAndBattingMeasure) {
  // 4 x 4 blocks of 6 in; the backing 4 in over on each side, the batting 3.
  quilt::Quilt quilt = dressed(Seed{8}, {});
  const auto pages = quilting_slip(work_book(quilt, letter()));
  EXPECT_TRUE(has_words(pages, "24 in wide, 24 in long"));
  EXPECT_TRUE(has_words(pages, "32 in wide, 32 in long"));
  EXPECT_TRUE(has_words(pages, "30 in wide, 30 in long"));
  EXPECT_TRUE(has_words(pages, "No print has an up"));
  quilt.prints[2].upright = true;
  EXPECT_TRUE(has_words(quilting_slip(work_book(quilt, letter())), "Some prints have an up"));
}

TEST(Slip, ALongTitleTakesTwoLines) {
  quilt::Quilt quilt = dressed(Seed{8}, {});
  quilt.title =
      "Raffle quilt for the hundred and fiftieth year of the lifeboat station and all of its crews, past and present";
  const std::vector<Page> pages = quilting_slip(work_book(quilt, letter()));
  const std::vector<std::string> words = words_on(pages.front());
  EXPECT_TRUE(std::any_of(words.begin(), words.end(), [](const std::string& line) {
    return line.size() > 7 && line.substr(line.size() - 7) == "present";
  }));
}

TEST(Slip, MeasuresAreThoseOfTheOtherSheets) {
  // The test block came out 1/4 in narrow: four of them make a top 1 in narrower. A backing 2 in over leaves the
  // batting halfway.
  quilt::Quilt quilt = dressed(Seed{8}, {});
  const block::Pattern& pattern = quilt.patterns[0];
  quilt.test_block = quilt::TestBlock{0, pattern.width + Length::inches(0.25), pattern.height + Length::inches(0.5)};
  quilt.backing = quilt::Backing{0, Length::inches(2)};
  const auto pages = quilting_slip(work_book(quilt, letter()));
  EXPECT_TRUE(has_words(pages, "23 in wide, 24 in long"));
  EXPECT_TRUE(has_words(pages, "27 in wide, 28 in long"));
  EXPECT_TRUE(has_words(pages, "25 in wide, 26 in long"));
}

TEST(Cover, NamesTheQuiltItsSizeAndWhatItIsMadeOf) {
  support::Wanted wanted;
  wanted.patterns = {support::uneven_rails()};
  wanted.borders = wanted.sashing = true;
  wanted.spares = 2;
  quilt::Quilt quilt = dressed(Seed{8}, wanted);
  quilt.title = "Harbour raffle";
  const auto pages = cover({quilt, quilt::plan_of(quilt), letter()});
  ASSERT_EQ(pages.size(), 1U);
  EXPECT_TRUE(has_words(pages, "Harbour raffle"));
  EXPECT_TRUE(has_words(pages, "18 of 6 × 6 in: uneven rails; 2 spare"));
  EXPECT_TRUE(has_words(pages, "straight, 4 rows of 4"));
}

}  // namespace
}  // namespace farflung::sheet
