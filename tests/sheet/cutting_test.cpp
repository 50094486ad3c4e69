// The pages of cutting, buying and sewing.
#include "sheet/cutting.hpp"

#include <algorithm>
#include <map>

#include <gtest/gtest.h>

#include "base/counted.hpp"
#include "sheet/finishing.hpp"
#include "sheet/flow.hpp"
#include "sheet/piecing.hpp"
#include "sheet/reading.hpp"
#include "sheet/rows.hpp"
#include "sheet/shopping.hpp"
#include "support/patterns.hpp"

namespace farflung::sheet {
namespace {

print::Cloth fat_quarters(int count) {
  return {"fat quarter", Length::inches(20), Length::inches(17.5), count, "", std::nullopt};
}

/// Rails in a straight setting, fat quarters of every print, a border and a binding.
quilt::Quilt rails(int quarters = 2) {
  support::Wanted wanted;
  wanted.patterns = {support::uneven_rails()};
  wanted.borders = true;
  quilt::Quilt quilt = dressed(Seed{8}, wanted);
  quilt.title = "Harbour raffle";
  if (quarters > 0) {
    for (print::Print& print : quilt.prints) print.cloth = {fat_quarters(quarters)};
  }
  return quilt;
}

std::string all_words(const std::vector<Page>& pages) {
  std::string all;
  for (const Page& page : pages) {
    for (const std::string& words : words_on(page)) all += words + "\n";
    for (const Figure& figure : figures_on(page)) all += figure.says + "\n";
  }
  return all;
}

int times(const std::string& text, const std::string& words) {
  int count = 0;
  for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + words.size())) ++count;
  return count;
}

TEST(CuttingPages, ListEveryRowOfTheCutListWithABoxToTick) {
  const quilt::Quilt quilt = rails();
  const Book book = work_book(quilt, letter());
  std::vector<std::string> counts;
  for (const Page& page : cutting(book)) {
    if (page.part != "cut list, seam allowances included") continue;
    for (const std::string& words : words_on(page)) counts.push_back(words);
  }
  for (const auto& [row, gives] : cloth::cut_together(book.workroom->cut)) {
    EXPECT_GE(std::count(counts.begin(), counts.end(), std::to_string(row.count)), 1) << row.slot;
    EXPECT_GE(std::count(counts.begin(), counts.end(), gives), 1) << gives;
  }
}

TEST(CuttingPages, ALongSizeIsListedInFull) {
  quilt::Quilt quilt = rails(0);
  quilt.setting.borders = {{Length::inches(29.125), 0}};
  quilt.backing = quilt::Backing{1};
  const Book book = work_book(quilt, letter());
  std::vector<std::string> listed;
  for (const Page& page : cutting(book)) {
    for (const std::string& words : words_on(page)) listed.push_back(words);
  }
  for (const auto& [row, gives] : cloth::cut_together(book.workroom->cut)) {
    const std::string size = cloth::said(quilt::from_units(row.width, quilt.units),
                                         quilt::from_units(row.height, quilt.units), book.workroom->list.ruler);
    EXPECT_EQ(std::count(listed.begin(), listed.end(), size) > 0, true) << size;
  }
}

TEST(CuttingPages, AShapeIsListedInFull) {
  support::Wanted wanted;
  wanted.kind = setting::Setting::Kind::on_point;
  quilt::Quilt quilt = dressed(Seed{3}, wanted);
  quilt.setting.filler = 0;
  const std::string words = all_words(cutting(work_book(quilt, letter())));
  EXPECT_GE(times(words, "quarter-square triangle\n"), 1) << "the setting triangles";
}

TEST(CuttingPages, TheListCutsNoWordsShortThatTwoLinesHold) {
  quilt::Quilt quilt = dressed(support::log_cabin());
  quilt.title = "Harbour raffle";
  name_all(quilt, "Harbour wall at dawn, colour ");
  quilt.backing = quilt::Backing{0};
  for (const Paper& paper : {letter(), a4()}) {
    for (const Page& page : cutting(work_book(quilt, paper))) {
      if (page.part != "cut list, seam allowances included") continue;
      for (const std::string& words : words_on(page)) EXPECT_EQ(words.find("\u2026"), std::string::npos) << words;
    }
  }
}

TEST(CuttingPages, ALongLengthLiesOnThePageOfItsNamesAndPieces) {
  quilt::Quilt quilt = rails();
  quilt.backing = quilt::Backing{0};
  quilt.setting.borders = {{Length::inches(6), 0}};
  const Book book = work_book(quilt, letter());
  for (const Page& page : cutting(book)) {
    if (page.part == "cut list, seam allowances included") continue;
    EXPECT_FALSE(figures_on(page).empty()) << "a page of names without a plan, or of nothing";
  }
}

TEST(CuttingPages, NoPageHoldsARuleAloneWhereverTheLastPlanEnds) {
  // A square from each of two scraps, the second drawn a little longer each time: past the foot of the page of both.
  support::Wanted wanted;
  wanted.patterns = {support::square()};
  wanted.rows = 1;
  wanted.columns = 2;
  wanted.prints = 1;
  quilt::Quilt quilt = dressed(Seed{8}, wanted);
  quilt.binding.reset();
  const auto scrap = [](double length) {
    return print::Cloth{"scrap", Length::inches(12.5), Length::inches(length), 1, "", std::nullopt};
  };
  double lowest = 0;  // of the words of a page, its foot left out
  for (double length = 6.5; length < 12; length += 0.125) {
    quilt.prints[0].cloth = {scrap(11.2), scrap(length)};
    const std::vector<Page> pages = cutting(work_book(quilt, letter()));
    for (const Page& page : pages) EXPECT_TRUE(holds_words(page, letter())) << page.part << ", " << length << " in";
    for (const draw::Text& text : draw::words_of(pages.back().display)) {
      if (text.at.y <= room_of(letter()).bottom()) lowest = std::max(lowest, text.at.y);
    }
  }
  EXPECT_GT(lowest, room_of(letter()).bottom() - 25) << "no plan came to lie at the foot of a page";
}

TEST(CuttingPages, EveryPlanIsDrawnWithItsPiecesAndItsFirstCut) {
  const quilt::Quilt quilt = rails();
  const Book book = work_book(quilt, letter());
  std::size_t plans = 0;
  for (const cloth::CuttingGroup& group : book.workroom->plans.groups) {
    const cloth::PrintPlan& plan = book.workroom->plans.plans[group.plans.front()];
    plans += plan.sheets.size() + (plan.bought ? 1 : 0);
  }
  std::size_t drawn = 0;
  for (const Page& page : cutting(book)) {
    for (const Figure& figure : figures_on(page)) {
      if (!begins_with(figure.says, "Cutting plan on ")) continue;
      ++drawn;
      EXPECT_TRUE(std::any_of(figure.words.begin(), figure.words.end(), [](const draw::Text& text) {
        return text.words == "1";
      })) << figure.says;
    }
  }
  EXPECT_EQ(drawn, plans);
  EXPECT_GT(drawn, 0U);
}

TEST(CuttingPages, SayWhetherThereIsEnoughAndHowMuchMore) {
  EXPECT_NE(all_words(cutting(work_book(rails(4), letter()))).find("nough"), std::string::npos);
  const std::string none = all_words(cutting(work_book(rails(0), letter())));
  EXPECT_NE(none.find("None in hand: buy "), std::string::npos);
  EXPECT_EQ(none.find("Enough: "), std::string::npos);
}

TEST(CuttingPages, AStackHoldsNoMoreThanItsLayersAndEveryPrintOnce) {
  const quilt::Quilt quilt = rails();
  const Book book = work_book(quilt, letter());
  for (const cloth::CuttingGroup& group : book.workroom->plans.groups) {
    int sum = 0;
    for (const int layers : group.stacks) {
      EXPECT_LE(layers, 4);
      sum += layers;
    }
    EXPECT_EQ(sum, static_cast<int>(group.plans.size()));
  }
}

TEST(CuttingPages, TheLeftHandedDrawingSaysSo) {
  const quilt::Quilt quilt = rails();
  Book book = work_book(quilt, letter());
  EXPECT_EQ(all_words(cutting(book)).find("the right edge"), std::string::npos);
  book.left_handed = true;
  EXPECT_NE(all_words(cutting(book)).find("the right edge"), std::string::npos);
}

TEST(CuttingPages, APrintThatMustStandIsCutRightSideUp) {
  quilt::Quilt quilt = rails();
  for (print::Print& print : quilt.prints) print.upright = true;
  EXPECT_NE(all_words(cutting(work_book(quilt, letter()))).find("right side up"), std::string::npos);
}

TEST(Shopping, ShowsEveryPurchaseWithItsWorking) {
  const quilt::Quilt quilt = rails(0);
  const Book book = work_book(quilt, letter());
  const std::string words = all_words(shopping_list(book));
  EXPECT_NE(words.find("Binding"), std::string::npos);
  EXPECT_NE(words.find("Backing"), std::string::npos);
  EXPECT_NE(words.find("Batting"), std::string::npos);
  EXPECT_NE(words.find("rounded up to 1/8 yd"), std::string::npos);
  EXPECT_GE(times(words, "Straightening"), 3);
}

TEST(Piecing, EveryUnitIsDrawnWithWhatItIsTrimmedTo) {
  const quilt::Quilt quilt = rails();
  const Book book = work_book(quilt, letter());
  const std::string words = all_words(piecing(book));
  const auto kinds = cloth::unit_kinds(quilt.patterns[0], book.workroom->piecing[0]);
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    EXPECT_GE(times(words, "Unit " + std::to_string(k + 1) + ", make "), 1);
  }
  EXPECT_NE(words.find("A test block first"), std::string::npos);
  EXPECT_NE(words.find("Trim to"), std::string::npos);
}

TEST(Pressing, EachBlockStandsInThePileOfItsPressing) {
  quilt::Quilt quilt = rails();
  for (std::size_t i = 0; i < quilt.blocks.size(); ++i) {
    quilt.blocks[i].press = i % 3 == 0 ? block::Block::Press::other : block::Block::Press::drawn;
  }
  const Book book = work_book(quilt, a4());
  const std::string words = all_words(pressing(book));
  const auto drawn = counted(static_cast<int>(book.workroom->piles.drawn.size()), "block");
  const auto other = counted(static_cast<int>(book.workroom->piles.other.size()), "block");
  EXPECT_NE(words.find("As drawn: " + drawn), std::string::npos);
  EXPECT_NE(words.find("The other way: " + other), std::string::npos);
}

TEST(Pressing, NoBlocksCodesAreCutShortInAPile) {
  quilt::Quilt quilt = dressed(support::four_patch());
  for (block::Block& block : quilt.blocks) block.press = block::Block::Press::drawn;
  for (print::Print& print : quilt.prints) print.code = "WWW" + print.code;
  cloth::WorkroomOptions options;
  options.plan.effort.strips_only = true;
  const std::vector<Page> pages = pressing(work_book(quilt, letter(), options));
  ASSERT_FALSE(pages.empty());
  EXPECT_EQ(all_words(pages).find("\u2026"), std::string::npos);
}

TEST(Pressing, EveryPlaceOfALargeWallIsNamedLegibly) {
  for (const auto& [rows, columns] : {std::pair(4, 4), std::pair(15, 12), std::pair(30, 24)}) {
    support::Wanted wanted;
    wanted.patterns = {support::uneven_rails()};
    wanted.rows = rows;
    wanted.columns = columns;
    quilt::Quilt quilt = dressed(Seed{8}, wanted);
    for (block::Block& block : quilt.blocks) block.press = block::Block::Press::drawn;
    cloth::WorkroomOptions options;
    options.plan.effort.strips_only = true;
    int names = 0;
    for (const Page& page : pressing(work_book(quilt, letter(), options))) {
      for (const Figure& figure : figures_on(page)) {
        if (!begins_with(figure.says, "The wall")) continue;
        for (const draw::Text& text : figure.words) {
          EXPECT_GE(text.size, 6.5) << text.words;
          names += text.words.find('R') != std::string::npos;
        }
      }
    }
    EXPECT_EQ(names, rows * columns);
  }
}

TEST(Rows, EveryRowHasItsStackWithTheFirstBlockOnTop) {
  for (const support::World& world : support::worlds()) {
    const quilt::Quilt quilt = dressed(Seed{8}, world.wanted);
    const Book book = work_book(quilt, letter());
    const std::string words = all_words(sewing_rows(book));
    for (const cloth::SewingRow& row : book.workroom->sewing.rows) {
      if (!row.stack.empty()) {
        EXPECT_NE(words.find(row.stack), std::string::npos) << world.name;
      }
    }
  }
}

TEST(Rows, HowTheyAreJoinedStandsOnOnePage) {
  cloth::WorkroomOptions options;
  options.plan.effort.strips_only = true;
  int joined = 0;
  for (const auto kind : {setting::Setting::Kind::straight, setting::Setting::Kind::on_point}) {
    for (int rows = 3; rows < 10; ++rows) {
      support::Wanted wanted;
      wanted.kind = kind;
      wanted.rows = rows;
      wanted.patterns = {support::uneven_rails()};
      const quilt::Quilt quilt = dressed(Seed{8}, wanted);
      for (const Page& page : sewing_rows(work_book(quilt, letter(), options))) {
        const std::vector<std::string> words = words_on(page);
        const auto begins = [&](const char* head) {
          return std::any_of(words.begin(), words.end(),
                             [&](const std::string& line) { return begins_with(line, head); });
        };
        EXPECT_EQ(begins("Join rows in twos"), begins("Joining")) << rows << " rows";
        joined += begins("Joining");
      }
    }
  }
  EXPECT_EQ(joined, 14);
}

TEST(Finishing, BordersAreMeasuredThroughTheMiddleFirst) {
  const quilt::Quilt quilt = rails();
  const std::string words = all_words(finishing(work_book(quilt, letter())));
  EXPECT_NE(words.find("through its middle"), std::string::npos);
  EXPECT_NE(words.find("Backing"), std::string::npos);
  EXPECT_NE(words.find("Binding"), std::string::npos);
}

TEST(Finishing, BordersFollowAMeasuredTestBlock) {
  // 4 x 4 blocks of 6 in that come out 1/8 in wide: the top grows by 1/2 in, and the borders across with it.
  quilt::Quilt quilt = rails();
  const Length before = work_book(quilt, letter()).workroom->top.width;
  const block::Pattern& pattern = quilt.patterns[0];
  quilt.test_block = quilt::TestBlock{0, pattern.width + Length::inches(0.625), pattern.height + Length::inches(0.5)};
  EXPECT_EQ(work_book(quilt, letter()).workroom->top.width, before + Length::inches(0.5));
}

TEST(Finishing, AMitredStripIsPlannedAsLongAsItIsBought) {
  // 24 in of blocks, 3 in of border on each side, two seam allowances and 2 in for the mitres: 32 1/2 in.
  quilt::Quilt quilt = rails();
  quilt.setting.borders = {{Length::inches(3), 0, setting::Border::Corners::mitred, quilt::kNone}};
  const Book book = work_book(quilt, letter());
  std::string words = all_words(finishing(book));
  std::replace(words.begin(), words.end(), '\n', ' ');
  EXPECT_EQ(times(words, "planned 32 1/2 in"), 2) << words;
  const cloth::CutList& list = book.workroom->list;
  const auto bought = [](const auto& of_part) { return of_part.part == "border 1"; };
  const auto line = std::find_if(list.lines.begin(), list.lines.end(), bought);
  ASSERT_NE(line, list.lines.end());
  EXPECT_EQ(std::max(line->shape.width.cut, line->shape.height.cut), Length::inches(32.5));
}

TEST(Rows, EverySectionIsNamedHoweverManyThereAre) {
  support::Wanted wanted;
  wanted.rows = 40;
  wanted.columns = 30;
  const quilt::Quilt quilt = dressed(Seed{8}, wanted);
  const Book book = work_book(quilt, letter());
  std::vector<std::string> names;
  for (const Page& page : sewing_rows(book)) {
    for (const std::string& words : words_on(page)) names.push_back(words);
  }
  ASSERT_GT(book.workroom->sewing.sections.size(), 40U);
  for (const cloth::Section& section : book.workroom->sewing.sections) {
    EXPECT_EQ(std::count(names.begin(), names.end(), section.name), 1) << section.name;
  }
}

TEST(Kits, HaveALabelForEachBagOnlyWhereTheyAreAskedFor) {
  const quilt::Quilt quilt = rails(0);
  EXPECT_TRUE(kit_pages(work_book(quilt, letter())).empty());
  cloth::WorkroomOptions options;
  options.kits = 5;
  const std::string words = all_words(kit_pages(work_book(quilt, letter(), options)));
  for (int kit = 1; kit <= 5; ++kit) {
    EXPECT_NE(words.find("Kit " + std::to_string(kit) + " of 5"), std::string::npos);
  }
}

TEST(Cautions, NameBladesIronsInfantsAndSelling) {
  const quilt::Quilt quilt = rails();
  const std::string words = all_words(cautions_page(work_book(quilt, letter())));
  for (const char* danger : {"rotary cutter", "iron", "infant", "Sold"}) {
    EXPECT_NE(words.find(danger), std::string::npos) << danger;
  }
}

/// Where the rows of a page of chains stand, headings parting them: for each run of rows how many, 0 for a heading.
std::vector<int> runs_of_rows(const Page& page) {
  std::map<double, bool> heading_at;
  for (const draw::Text& text : draw::words_of(page.display)) {
    if (text.role == draw::Role::heading && text.size == 12) heading_at[text.at.y] = true;
    if (text.bold && text.size == 9) heading_at[text.at.y] = false;
  }
  std::vector<int> runs = {0};
  for (const auto& [y, heading] : heading_at) {
    if (heading) {
      runs.push_back(0);
    } else {
      ++runs.back();
    }
  }
  return runs;
}

TEST(PiecingPages, PrintsOfLongNamesGoByTheirCodesInChains) {
  quilt::Quilt quilt = dressed(support::four_patch());
  cloth::WorkroomOptions options;
  options.plan.effort.strips_only = true;
  const std::string longest = "Harbour stripe with small anchors, number ";
  for (std::size_t length = 0; length <= longest.size(); length += 3) {
    name_all(quilt, longest.substr(0, length));
    for (const Page& page : piecing(work_book(quilt, letter(), options))) {
      if (!begins_with(page.part, "chains")) continue;
      for (const draw::Text& text : draw::words_of(page.display)) {
        EXPECT_EQ(text.words.find("\u2026"), std::string::npos) << text.words;
        const bool named = text.words.find("Harbour stripe") != std::string::npos;
        EXPECT_FALSE(named && length == longest.size()) << text.words;
      }
    }
  }
}

TEST(CuttingPages, APlanOnAPageAfterItsNamesTellsWhoseItIs) {
  support::Wanted wanted;
  wanted.patterns = {support::uneven_rails()};
  wanted.rows = 15;
  wanted.columns = 24;
  wanted.prints = 12;
  quilt::Quilt quilt = dressed(Seed{8}, wanted);
  name_all(quilt, "Harbour stripe with small anchors, no. ");
  quilt.prints[0].cloth = {fat_quarters(1)};
  quilt.backing = quilt::Backing{0};  // cut from a length that is drawn on a page of its own
  cloth::WorkroomOptions options;
  options.plan.effort.strips_only = true;
  int parted = 0;
  for (const Page& page : cutting(work_book(quilt, letter(), options))) {
    if (!begins_with(page.part, "plans")) continue;
    const std::vector<Figure> figures = figures_on(page);
    const std::vector<std::string> words = words_on(page);
    const auto title = std::find_if(words.begin(), words.end(),
                                    [](const std::string& line) { return line.find(" usable") != std::string::npos; });
    if (figures.empty() || title == words.end() || title != words.begin()) continue;
    ++parted;
    EXPECT_NE(title->find(": "), std::string::npos) << *title;
  }
  EXPECT_GT(parted, 0) << "the test meets what it is about";
}

/// A log cabin of many prints: eight sizes and thirty cuts to a fat quarter.
quilt::Quilt many_cuts() {
  support::Wanted wanted;
  wanted.patterns = {support::log_cabin()};
  wanted.prints = 14;
  wanted.rows = 5;
  wanted.columns = 4;
  wanted.dealt_evenly = true;
  quilt::Quilt quilt = dressed(Seed{8}, wanted);
  quilt.binding.reset();
  for (print::Print& print : quilt.prints) print.cloth = {fat_quarters(1)};
  return quilt;
}

TEST(CuttingPages, ManyStepsStandOnThePageOfTheirPlanBesideASmallerDrawing) {
  for (const Paper& paper : {letter(), a4()}) {
    const quilt::Quilt quilt = many_cuts();
    const Book book = work_book(quilt, paper);
    std::size_t pages = 0, most_steps = 0;
    for (const Page& page : cutting(book)) {
      if (!begins_with(page.part, "plans")) continue;
      ++pages;
      EXPECT_FALSE(figures_on(page).empty()) << "a page of steps alone";
    }
    for (const cloth::PrintPlan& plan : book.workroom->plans.plans) {
      for (const cloth::SheetPlan& sheet : plan.sheets) {
        most_steps = std::max(most_steps, cloth::cut_steps(sheet, book.workroom->list.ruler).size());
      }
    }
    EXPECT_GT(most_steps, 9U) << "the test meets what it is about";
    EXPECT_LE(pages, book.workroom->plans.groups.size());
  }
}

TEST(CuttingPages, ManyPiecesStandInTwoColumnsAndNoPlanIsDrawnTooSmallToBeRead) {
  quilt::Quilt quilt = many_cuts();
  for (print::Print& print : quilt.prints) print.cloth.clear();  // low lengths off the bolt
  const Book book = work_book(quilt, a4());
  const cloth::PrintPlan& first = book.workroom->plans.plans[book.workroom->plans.groups.front().plans.front()];
  ASSERT_GE(first.wanted.size(), 4U);
  const std::vector<Page> pages = cutting(book);
  const auto plans =
      std::find_if(pages.begin(), pages.end(), [](const Page& page) { return begins_with(page.part, "plans"); });
  ASSERT_NE(plans, pages.end());
  const auto height_of_letter = [&](const std::string& letter) {
    for (const draw::Text& text : draw::words_of(plans->display)) {
      if (text.words == letter && text.role == draw::Role::code && text.size == kBodySize) return text.at.y;
    }
    return 0.0;
  };
  EXPECT_GT(height_of_letter("A"), 0);
  EXPECT_EQ(height_of_letter("A"), height_of_letter("B"));
  EXPECT_GT(height_of_letter("C"), height_of_letter("B"));
  for (const Page& page : pages) {
    for (const Figure& figure : figures_on(page)) {
      const auto [left, right] = std::minmax_element(figure.words.begin(), figure.words.end(),
                                                     [](const auto& a, const auto& b) { return a.at.x < b.at.x; });
      EXPECT_GT(right->at.x - left->at.x, 150) << figure.says;
    }
  }
}

TEST(CuttingPages, StepsThatRunOnToAPageTellWhoseTheyAre) {
  quilt::Quilt quilt = many_cuts();
  quilt.prints.resize(1);
  for (block::Block& block : quilt.blocks) std::fill(block.prints.begin(), block.prints.end(), 0);
  quilt.prints[0].cloth = {{"scrap", Length::inches(60), Length::inches(90), 1, "", std::nullopt}};
  const std::vector<Page> pages = cutting(work_book(quilt, letter()));
  const std::vector<std::string> words = words_on(pages.back());
  ASSERT_TRUE(figures_on(pages.back()).empty()) << "the test meets what it is about";
  EXPECT_TRUE(begins_with(words.front(), quilt.prints[0].code + ": cuts from ")) << words.front();
}

TEST(PiecingPages, UnitsThatAreAllEachBlocksOwnAreToldTogetherBesideTheirDrawings) {
  support::Wanted wanted;
  wanted.patterns = {support::log_cabin()};
  wanted.prints = 30;
  wanted.rows = wanted.columns = 6;
  quilt::Quilt quilt = dressed(Seed{8}, wanted);
  cloth::WorkroomOptions options;
  options.plan.effort.strips_only = true;
  const std::vector<Page> pages = piecing(work_book(quilt, letter(), options));
  for (const Page& page : pages) EXPECT_FALSE(begins_with(page.part, "chains")) << page.part;
  const std::string words = all_words(pages);
  EXPECT_EQ(times(words, "Each block's own"), 1);
  EXPECT_EQ(times(words, "Units 1 to 12 of log cabin"), 1);
}

TEST(PiecingPages, NoPageOfChainsBeginsWithALoneLine) {
  cloth::WorkroomOptions options;
  options.plan.effort.strips_only = true;  // how cloth is cut makes no odds to the chains
  int carried_over = 0;
  for (int columns = 4; columns < 24; ++columns) {
    support::Wanted wanted;
    wanted.patterns = {support::uneven_rails()};
    wanted.rows = 8;
    wanted.columns = columns;
    wanted.prints = 16;
    const quilt::Quilt quilt = dressed(Seed{static_cast<std::uint64_t>(columns)}, wanted);
    const Book book = work_book(quilt, letter(), options);
    bool first = true;
    for (const Page& page : piecing(book)) {
      if (!begins_with(page.part, "chains")) continue;
      const std::vector<int> runs = runs_of_rows(page);
      if (!first && runs[0] > 0) {
        ++carried_over;
        EXPECT_GE(runs[0], 2) << columns << " columns";
      }
      first = false;
    }
  }
  EXPECT_GT(carried_over, 3) << "the test meets what it is about";
}

}  // namespace
}  // namespace farflung::sheet
