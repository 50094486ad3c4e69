#include "sheet/map.hpp"

#include <map>
#include <numeric>
#include <set>

#include <gtest/gtest.h>

#include "sheet/map_cut.hpp"
#include "sheet/marks.hpp"
#include "sheet/print_line.hpp"
#include "sheet/reading.hpp"
#include "support/patterns.hpp"

namespace farflung::sheet {
namespace {

std::vector<Page> map_of(const quilt::Quilt& quilt, const Paper& paper) { return *pages_of(quilt, {paper, {"map"}}); }

/// The cells' figures over all pages but the first, by their name.
std::map<std::string, Figure> cells_of(const std::vector<Page>& pages) {
  std::map<std::string, Figure> cells;
  for (std::size_t i = 1; i < pages.size(); ++i) {
    for (const Figure& figure : figures_on(pages[i])) {
      const std::string name = figure.says.substr(0, figure.says.find(':'));
      EXPECT_TRUE(cells.emplace(name, figure).second) << name << " is drawn twice";
    }
  }
  return cells;
}

bool shows(const Figure& figure, const std::string& words) {
  return std::any_of(figure.words.begin(), figure.words.end(),
                     [&](const draw::Text& text) { return text.words == words; });
}

TEST(Map, EveryCellIsDrawnOnceWithItsNameItsBlockAndItsPrints) {
  for (const support::World& world : support::worlds()) {
    const quilt::Quilt quilt = dressed(Seed{8}, world.wanted);
    const setting::Plan plan = quilt::plan_of(quilt);
    const auto cells = cells_of(map_of(quilt, letter()));
    ASSERT_EQ(cells.size(), plan.cells.size()) << world.name;
    for (std::size_t i = 0; i < plan.cells.size(); ++i) {
      const std::string name = setting::cell_name(plan.cells[i]);
      const Figure& figure = cells.at(name);
      EXPECT_TRUE(shows(figure, name));
      const int block = quilt.layout.block[i];
      EXPECT_TRUE(shows(figure, block == quilt::kNone ? "empty" : quilt.blocks[block].id)) << name;
      EXPECT_EQ(shows(figure, "kept"), static_cast<bool>(quilt.layout.kept[i]));
      if (block == quilt::kNone) continue;
      for (int print : prints_dealt(quilt, block)) EXPECT_TRUE(shows(figure, quilt.prints[print].code)) << name;
    }
  }
}

TEST(Map, EveryPrintOfACellHasItsCodeFiveMillimetresHigh) {
  for (const support::World& world : support::worlds()) {
    const quilt::Quilt quilt = dressed(Seed{8}, world.wanted);
    for (const auto& [name, figure] : cells_of(map_of(quilt, a4()))) {
      std::map<std::string, double> tallest;
      for (const draw::Text& text : figure.words) {
        if (text.role != draw::Role::code) continue;
        tallest[text.words] = std::max(tallest[text.words], text.size * draw::kCapHeight / kPointsPerMillimetre);
      }
      for (const auto& [code, millimetres] : tallest) EXPECT_GE(millimetres, 5) << world.name << " " << name << code;
    }
  }
}

TEST(Map, PatchesOfTheCommonBlocksCarryTheirCodesAtFullSize) {
  for (const block::Pattern& pattern : {support::square(), support::uneven_rails(), support::half_square(),
                                        support::four_patch(), support::nine_patch(), support::plain_rails()}) {
    support::Wanted wanted;
    wanted.patterns = {pattern};
    wanted.rows = 9;
    wanted.columns = 7;
    wanted.background = 0;
    quilt::Quilt quilt = dressed(Seed{8}, wanted);
    const setting::Plan plan = quilt::plan_of(quilt);
    const auto cells = cells_of(map_of(quilt, letter()));
    for (std::size_t i = 0; i < plan.cells.size(); ++i) {
      const Figure& figure = cells.at(setting::cell_name(plan.cells[i]));
      std::map<std::string, int> full;
      for (const draw::Text& text : figure.words) {
        if (text.role == draw::Role::code && text.size * draw::kCapHeight >= 5 * kPointsPerMillimetre)
          ++full[text.words];
      }
      // Once on the block, once in its list.
      for (const auto& [code, times] : full) EXPECT_EQ(times, 2) << pattern.id << " " << figure.says;
    }
  }
}

TEST(Map, ThreeRowsOrSoToAPageAndAsManyPlacesAsFit) {
  support::Wanted wanted;
  wanted.patterns = {support::uneven_rails()};
  wanted.rows = 9;
  wanted.columns = 7;
  const auto pages = map_of(dressed(Seed{8}, wanted), letter());
  EXPECT_EQ(pages.size(), 7U);
  EXPECT_EQ(pages[1].part, "rows 1 to 3, places 1 to 4");
  EXPECT_EQ(pages[6].part, "rows 7 to 9, places 5 to 7");
}

TEST(Map, OfALargeQuiltOfSmallPatchesIsNoBookAndListsEveryCode) {
  support::Wanted wanted;
  wanted.patterns = {support::pinwheel()};
  wanted.rows = wanted.columns = 20;
  wanted.prints = 16;
  quilt::Quilt quilt = dressed(Seed{8}, wanted);
  for (std::size_t i = 0; i < quilt.prints.size(); ++i) quilt.prints[i].code = "M" + std::string(1, char('A' + i));
  const setting::Plan plan = quilt::plan_of(quilt);
  const auto pages = map_of(quilt, letter());
  EXPECT_LE(pages.size(), 30U);
  const auto cells = cells_of(pages);
  ASSERT_EQ(cells.size(), 400U);
  for (std::size_t i = 0; i < plan.cells.size(); ++i) {
    const Figure& figure = cells.at(setting::cell_name(plan.cells[i]));
    for (const int print : prints_dealt(quilt, quilt.layout.block[i])) {
      EXPECT_TRUE(shows(figure, quilt.prints[print].code)) << figure.says;
    }
  }
}

TEST(Map, TheLastRowOfManyPagesOfTwoStandsInBandsOnOnePage) {
  support::Wanted wanted;
  wanted.patterns = {support::plain_rails()};
  wanted.rows = 11;
  wanted.columns = 6;
  wanted.prints = 16;
  quilt::Quilt quilt = dressed(Seed{8}, wanted);
  for (std::size_t i = 0; i < quilt.prints.size(); ++i) quilt.prints[i].code = "C" + std::string(1, char('A' + i));
  const auto pages = map_of(quilt, letter());
  ASSERT_EQ(pages[1].part, "rows 1 to 2, places 1 to 3");
  EXPECT_EQ(pages.size(), 12U);
  EXPECT_EQ(pages.back().part, "row 11, places 1 to 6");
  EXPECT_EQ(figures_on(pages.back()).size(), 6U);
  const auto words = words_on(pages.back());
  EXPECT_EQ(std::count(words.begin(), words.end(), row_name(10)), 2);
  for (int column = 0; column < 6; ++column) EXPECT_EQ(std::count(words.begin(), words.end(), column_name(column)), 1);
}

TEST(Map, ALastColumnAloneIsGatheredTwoAbreast) {
  for (const auto kind : {setting::Setting::Kind::straight, setting::Setting::Kind::brick}) {
    support::Wanted wanted;
    wanted.kind = kind;
    wanted.patterns = {support::plain_rails()};
    wanted.rows = 9;
    wanted.columns = 7;
    wanted.prints = 16;
    quilt::Quilt quilt = dressed(Seed{8}, wanted);
    for (std::size_t i = 0; i < quilt.prints.size(); ++i) quilt.prints[i].code = "W" + std::string(1, char('A' + i));
    const auto pages = map_of(quilt, letter());
    ASSERT_EQ(pages[1].part.substr(pages[1].part.find("place")), "places 1 to 2");
    EXPECT_EQ(cells_of(pages).size(), quilt.layout.block.size()) << "each is drawn once";
    std::vector<std::size_t> gathered;
    for (const Page& page : pages) {
      if (page.part.find(", place 7") != std::string::npos) gathered.push_back(figures_on(page).size());
    }
    const std::size_t full = figures_on(pages[1]).size();
    const std::size_t all = kind == setting::Setting::Kind::straight ? 9 : 5;
    EXPECT_EQ(std::accumulate(gathered.begin(), gathered.end(), std::size_t{0}), all);
    EXPECT_EQ(gathered.size(), (all + full - 1) / full) << "no page but the last has room left";
  }
}

TEST(Map, PagesAreAboutEquallyFull) {
  support::Wanted wanted;
  wanted.kind = setting::Setting::Kind::brick;
  wanted.rows = 8;
  wanted.columns = 7;
  std::vector<std::size_t> cells;
  for (const Page& page : map_of(dressed(Seed{8}, wanted), letter())) cells.push_back(figures_on(page).size());
  cells.erase(cells.begin());
  EXPECT_GE(2 * *std::min_element(cells.begin(), cells.end()), *std::max_element(cells.begin(), cells.end()));
}

/// One line under another.
std::string told(const quilt::Quilt& quilt, int print, double width, std::size_t most) {
  std::string words;
  for (const std::string& line : name_within(quilt, print, 8, width, most)) words += (words.empty() ? "" : "/") + line;
  return words;
}

TEST(APrintsName, TakesAsManyLinesAsThereAreBeforeItIsCutShort) {
  quilt::Quilt quilt = dressed(Seed{8}, {});
  quilt.prints[0].name = "Harbour wall, first light";
  EXPECT_EQ(told(quilt, 0, 90, 2), "Harbour wall, first/light");
  EXPECT_EQ(told(quilt, 0, 200, 2), "Harbour wall, first light");
  EXPECT_NE(told(quilt, 0, 60, 1).find("\u2026"), std::string::npos);
}

TEST(APrintsName, CutShortReadsUnlikeTheOthers) {
  quilt::Quilt quilt = dressed(Seed{8}, {});
  quilt.prints[0].name = "Harbour wall with very many gulls at noon, and one puffin";
  quilt.prints[1].name = "Harbour wall with very many gulls at dusk, and one puffin";
  for (const std::size_t most : {1, 2}) {
    EXPECT_NE(told(quilt, 0, 70, most), told(quilt, 1, 70, most));
    EXPECT_NE(told(quilt, 0, 70, most).find("\u2026noon"), std::string::npos) << told(quilt, 0, 70, most);
  }
}

TEST(Map, NamesUnderABlockStandInTwoLines) {
  support::Wanted wanted;
  wanted.prints = 3;
  quilt::Quilt quilt = dressed(Seed{8}, wanted);
  name_all(quilt, "Harbour wall before dawn, ");
  for (const auto& [name, figure] : cells_of(map_of(quilt, letter()))) {
    for (const draw::Text& text : figure.words) EXPECT_EQ(text.words.find("\u2026"), std::string::npos) << text.words;
  }
}

TEST(Map, CodesOfManyPrintsStandClearOfEachOthersSnips) {
  support::Wanted wanted;
  wanted.patterns = {support::log_cabin()};
  wanted.prints = 30;
  wanted.dealt_evenly = true;
  quilt::Quilt quilt = dressed(Seed{8}, wanted);
  for (const Paper& paper : {letter(), a4()}) {
    const Book book{quilt, quilt::plan_of(quilt), paper};
    for (int columns = 2; columns <= 4; ++columns) {
      const CellGrid grid = grid_of(book, columns, 2);
      const EntryList list = list_within(quilt, grid.width);
      EXPECT_GE(list.lines * list.columns, 7);
      for (const print::Print& print : quilt.prints) {
        const double entry = kCodeHeight + 3 + draw::width_of(print.code, kCodeSize, true);
        EXPECT_LT(entry, (grid.width - 2 * kCellMargin) / list.columns) << print.code;
      }
    }
  }
}

TEST(Map, TheFirstPageNamesEveryRowAndPlace) {
  support::Wanted wanted;
  wanted.rows = 14;
  wanted.columns = 12;
  const Page first = map_of(dressed(Seed{8}, wanted), a4()).front();
  const auto words = words_on(first);
  for (int row = 0; row < 14; ++row) EXPECT_EQ(std::count(words.begin(), words.end(), row_name(row)), 2);
  for (int column = 0; column < 12; ++column) EXPECT_EQ(std::count(words.begin(), words.end(), column_name(column)), 2);
}

TEST(Map, ATurnIsToldByAnArrowOnTheBlocksOwnTopEdge) {
  quilt::Quilt quilt = dressed(Seed{8}, {});
  const Book book{quilt, quilt::plan_of(quilt), letter()};
  EXPECT_FALSE(turn_matters(quilt, 0));
  quilt.layout.turn[0] = Turn::quarters(1);
  EXPECT_TRUE(turn_matters(quilt, 0));
  EXPECT_EQ(degrees_of_cell(book, 0), 90);
  draw::Display display;
  add_top_arrow(display, {0, 0}, 50, 90, 6);
  const draw::Box arrow = draw::box_of(std::get<draw::Area>(display.items.front()).outline);
  EXPECT_NEAR(arrow.left, 50, 1e-9);
  EXPECT_NEAR(arrow.right(), 56, 1e-9);
  EXPECT_NEAR(arrow.centre().y, 0, 1e-9);
}

TEST(Map, SomeoneWhoCannotSeeItIsToldTheSame) {
  quilt::Quilt quilt = dressed(support::half_square());
  quilt.blocks[quilt.layout.block[0]].prints = {0, 4};
  quilt.layout.turn[0] = Turn::quarters(2);
  const Book book{quilt, quilt::plan_of(quilt), letter()};
  EXPECT_EQ(says_of_cell(book, 0), "R1 C1: block " + quilt.blocks[quilt.layout.block[0]].id + ", Kelp (" +
                                       quilt.prints[0].code + ") and Маяк (" + quilt.prints[4].code +
                                       "), upside down, kept");
}

}  // namespace
}  // namespace farflung::sheet
