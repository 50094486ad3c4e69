#include "sheet/pdf.hpp"

#include <gtest/gtest.h>

#include "sheet/read_pdf.hpp"
#include "sheet/reading.hpp"
#include "support/patterns.hpp"

namespace farflung::sheet {
namespace {

draw::Swatches plain_swatches(const quilt::Quilt& quilt) {
  draw::Swatches swatches;
  for (std::size_t i = 0; i < quilt.prints.size(); ++i) {
    draw::Picture swatch = draw::blank(300, 200);
    for (std::size_t b = 0; b < swatch.rgb.size(); ++b) swatch.rgb[b] = static_cast<std::uint8_t>((b * (i + 3)) % 251);
    swatches.push_back(std::move(swatch));
  }
  return swatches;
}

quilt::Quilt rails_quilt(int rows, int columns) {
  support::Wanted wanted;
  wanted.patterns = {support::uneven_rails()};
  wanted.rows = rows;
  wanted.columns = columns;
  wanted.borders = true;
  return dressed(Seed{6}, wanted);
}

TEST(Pdf, TheSameQuiltIsTheSameBytes) {
  const quilt::Quilt quilt = rails_quilt(4, 4);
  const draw::Swatches swatches = plain_swatches(quilt);
  const auto first = pdf_of(quilt, swatches, {});
  const auto again = pdf_of(quilt, swatches, {});
  ASSERT_TRUE(first && again);
  EXPECT_EQ(*first, *again);
}

TEST(Pdf, IsSoundTaggedAndInAStatedLanguage) {
  const quilt::Quilt quilt = rails_quilt(4, 4);
  const auto pages = pages_of(quilt, {});
  const auto bytes = pdf(*pages, plain_swatches(quilt), quilt.title);
  ASSERT_TRUE(bytes);
  const PdfAsRead file = read_pdf(*bytes);
  EXPECT_TRUE(file.sound);
  EXPECT_EQ(file.pages, pages->size());
  EXPECT_EQ(file.language, "en");
  EXPECT_TRUE(file.tagged);
  EXPECT_EQ(file.title, quilt.title);
  EXPECT_FALSE(file.dated);

  std::vector<std::string> wanted;
  for (const Page& page : *pages) {
    for (const Figure& figure : figures_on(page)) wanted.push_back(figure.says);
  }
  EXPECT_EQ(file.figures, wanted);
}

TEST(Pdf, ALargeQuiltStaysSmall) {
  const quilt::Quilt quilt = rails_quilt(14, 12);
  const auto bytes = pdf_of(quilt, plain_swatches(quilt), {});
  ASSERT_TRUE(bytes);
  EXPECT_LT(bytes->size(), 10'000'000U);
}

TEST(Pdf, PagesOfAMapAreDrawnOneAtATimeAndAreTheSame) {
  const quilt::Quilt quilt = rails_quilt(9, 9);
  const draw::Swatches swatches = plain_swatches(quilt);
  const auto late = sheaf_of(quilt, {letter(), {"map"}});
  const auto drawn = pages_of(quilt, {letter(), {"map"}});
  ASSERT_TRUE(late && drawn);
  ASSERT_EQ(late->size(), drawn->size());
  for (std::size_t i = 1; i < late->size(); ++i) {
    EXPECT_TRUE((*late)[i].display.items.empty()) << "page " << i << " is held drawn";
    EXPECT_FALSE((*drawn)[i].display.items.empty());
  }
  EXPECT_EQ(*pdf(*late, swatches, quilt.title), *pdf(*drawn, swatches, quilt.title));
}

TEST(Paper, IsWhatLiesInThePrintersOfWhoMeasuresSoWhereNothingIsSaid) {
  EXPECT_EQ(paper_named("", quilt::Units::inches)->name, "letter");
  EXPECT_EQ(paper_named("", quilt::Units::centimetres)->name, "a4");
  EXPECT_EQ(paper_named("", quilt::Units::millimetres)->name, "a4");
  EXPECT_EQ(paper_named("Letter", quilt::Units::millimetres)->name, "letter");
  EXPECT_FALSE(paper_named("tabloid", quilt::Units::inches));
}

TEST(Pdf, NoPagesIsAProblem) { EXPECT_FALSE(pdf({}, {}, "empty")); }

}  // namespace
}  // namespace farflung::sheet
