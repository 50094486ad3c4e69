// What must hold for every sheet, whatever the quilt.
#include <map>

#include <gtest/gtest.h>

#include "sheet/lettering.hpp"
#include "sheet/reading.hpp"

namespace farflung::sheet {
namespace {

/// Every sheet of a world on one paper. Made once for all that is asked of them.
const std::vector<Page>& pages_in(const support::World& world, const Paper& paper) {
  static std::map<std::string, std::vector<Page>> known;
  const std::string key = world.name + ", " + paper.name;
  const auto found = known.find(key);
  if (found != known.end()) return found->second;
  const auto pages = pages_of(dressed(Seed{21}, world.wanted), {paper, {}});
  EXPECT_TRUE(pages) << key;
  return known[key] = pages ? *pages : std::vector<Page>();
}

class EveryWorld : public testing::TestWithParam<support::World> {
 protected:
  /// Runs over all pages of both papers.
  template <typename See>
  void see_pages(See see) {
    for (const Paper& paper : {letter(), a4()}) {
      const std::vector<Page>& pages = pages_in(GetParam(), paper);
      EXPECT_FALSE(pages.empty());
      for (const Page& page : pages) see(paper, page);
    }
  }
};

TEST_P(EveryWorld, WordsStayWithinTheMargins) {
  see_pages([](const Paper& paper, const Page& page) {
    const draw::Box within = draw::Box{0, 0, paper.width, paper.height}.inset(kMargin - 1);
    for (const draw::Text& text : draw::words_of(page.display)) {
      EXPECT_TRUE(within.holds(inked(text))) << page.section << ", " << page.part << ": " << text.words;
    }
  });
}

TEST_P(EveryWorld, WordsNeverRunIntoOneAnother) {
  see_pages([](const Paper&, const Page& page) {
    const std::vector<draw::Text> words = draw::words_of(page.display);
    std::vector<draw::Box> ink;
    for (const draw::Text& text : words) ink.push_back(inked(text));
    for (std::size_t i = 0; i < words.size(); ++i) {
      for (std::size_t j = i + 1; j < words.size(); ++j) {
        if (!ink[i].overlaps(ink[j], 0.5)) continue;
        ADD_FAILURE() << page.section << ", " << page.part << ": " << words[i].words << " and " << words[j].words;
      }
    }
  });
}

TEST_P(EveryWorld, NothingIsSmallAtTheCuttingTableOrTheMachine) {
  see_pages([](const Paper&, const Page& page) {
    if (page.section != "Cutting" && page.section != "Templates" && page.section != "Piecing") return;
    for (const draw::Text& text : draw::words_of(page.display)) {
      EXPECT_GE(text.size, kLeastSize) << page.section << ", " << page.part << ": " << text.words;
    }
  });
}

TEST_P(EveryWorld, NoPageIsEmpty) {
  see_pages([](const Paper& paper, const Page& page) {
    EXPECT_TRUE(holds_words(page, paper)) << page.section << ", " << page.part;
  });
}

TEST_P(EveryWorld, TheLogCutsNoBlocksCodesShort) {
  see_pages([](const Paper& paper, const Page& page) {
    if (page.section != "Log") return;
    for (const draw::Text& text : draw::words_of(page.display)) {
      if (text.at.y < room_of(paper).top) continue;  // a quilt's title may be long
      EXPECT_EQ(text.words.find("\u2026"), std::string::npos) << page.part << ": " << text.words;
    }
  });
}

TEST_P(EveryWorld, FiguresSayWhatTheyShowAndOpeningsAreClosed) {
  see_pages([](const Paper&, const Page& page) {
    int open = 0;
    for (const draw::Item& item : page.display.items) {
      if (std::holds_alternative<draw::Opening>(item)) ++open;
      if (std::holds_alternative<draw::Closing>(item)) --open;
      ASSERT_GE(open, 0);
    }
    EXPECT_EQ(open, 0) << page.section;
    for (const Figure& figure : figures_on(page)) EXPECT_FALSE(figure.says.empty()) << page.section;
  });
}

TEST_P(EveryWorld, PagesAreThePapersSizeAndNumbered) {
  const std::vector<Page>& pages = pages_in(GetParam(), a4());
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const Page& page = pages[i];
    EXPECT_NEAR(page.display.width, 595.28, 0.01);
    EXPECT_NEAR(page.display.height, 841.89, 0.01);
    if (page.bare) continue;
    const auto words = words_on(page);
    const std::string number = "page " + std::to_string(i + 1) + " of " + std::to_string(pages.size());
    EXPECT_EQ(std::count(words.begin(), words.end(), number), 1);
  }
}

INSTANTIATE_TEST_SUITE_P(Worlds, EveryWorld, testing::ValuesIn(support::worlds()),
                         [](const auto& world) { return "W" + std::to_string(world.index); });

TEST(Sheets, OnlyWhatIsAskedForIsMade) {
  const quilt::Quilt quilt = dressed(Seed{1}, {});
  const auto pages = pages_of(quilt, {letter(), {"key"}});
  ASSERT_TRUE(pages);
  for (const Page& page : *pages) EXPECT_EQ(page.section, "Key of prints");
}

TEST(Sheets, AnUnknownSheetIsNamedWithThoseThereAre) {
  const auto pages = pages_of(dressed(Seed{1}, {}), {letter(), {"map", "poem"}});
  ASSERT_FALSE(pages);
  EXPECT_EQ(pages.problems().size(), 1U);
  EXPECT_NE(pages.problems()[0].cause.find("poem"), std::string::npos);
  EXPECT_NE(pages.problems()[0].remedy.find("map"), std::string::npos);
}

TEST(Sheets, PapersAreKnownByTheirNamesHoweverWritten) {
  EXPECT_TRUE(paper_named("Letter"));
  EXPECT_NEAR(paper_named("A4")->height, 841.89, 0.01);
  EXPECT_FALSE(paper_named("foolscap"));
}

}  // namespace
}  // namespace farflung::sheet
