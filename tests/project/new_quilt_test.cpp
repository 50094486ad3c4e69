#include "project/new_quilt.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "project/patterns.hpp"
#include "project/sizes.hpp"
#include "project/world.hpp"

namespace farflung::project {
namespace {

using ::testing::ContainsRegex;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

NewQuilt wish(const char* pattern, double width, double height) {
  return {.title = "Raffle",
          .patterns = {must(pattern_named(pattern))},
          .width = Length::inches(width),
          .height = Length::inches(height)};
}

TEST(NewQuilt, TakesTheRowsAndColumnsThatComeNearest) {
  const quilt::Quilt quilt = must(new_quilt(wish("rails", 60, 72)));
  EXPECT_EQ(quilt.setting.columns, 7);  // 63 in, where six would be 54
  EXPECT_EQ(quilt.setting.rows, 8);
  EXPECT_EQ(quilt::plan_of(quilt).width, Length::inches(63));
  EXPECT_EQ(quilt.blocks.size(), 56U);
  EXPECT_EQ(quilt.blocks.front().id, "B001");
  EXPECT_EQ(quilt.blocks.back().id, "B056");
}

TEST(NewQuilt, CountsSashingAndBorders) {
  NewQuilt with = wish("square", 60, 72);
  with.sashing = Length::inches(1);
  with.borders = {Length::inches(1), Length::inches(4)};
  const quilt::Quilt quilt = must(new_quilt(with));
  EXPECT_EQ(quilt.setting.columns, 7);  // 7 x 6 + 6 x 1 + 10 = 58, eight would be 65
  EXPECT_EQ(quilt.setting.rows, 9);     // 9 x 6 + 8 x 1 + 10 = 72
  EXPECT_EQ(quilt::plan_of(quilt).width, Length::inches(58));
  EXPECT_EQ(quilt::plan_of(quilt).height, Length::inches(72));
}

TEST(NewQuilt, NoOtherCountComesNearerInAnySetting) {
  for (const auto kind :
       {setting::Setting::Kind::straight, setting::Setting::Kind::brick, setting::Setting::Kind::on_point}) {
    for (double width = 20; width < 100; width += 7.3) {
      NewQuilt asked = wish("snowball", width, 1.3 * width);
      asked.kind = kind;
      if (width > 50) asked.sashing = Length::inches(1.5);
      const quilt::Quilt quilt = must(new_quilt(asked));
      const double off = std::abs(quilt::plan_of(quilt).width.inches() - width);
      for (const int step : {-1, 1}) {
        quilt::Quilt other = quilt;
        other.setting.columns += step;
        if (other.setting.columns < 1) continue;
        EXPECT_LE(off, std::abs(quilt::plan_of(other).width.inches() - width) + 1e-6) << width << " " << step;
      }
    }
  }
}

TEST(NewQuilt, ABlockSizeOfOnesOwnScalesThePattern) {
  NewQuilt asked = wish("rails-strip", 60, 60);
  asked.block = Length::inches(12);
  const quilt::Quilt quilt = must(new_quilt(asked));
  EXPECT_EQ(quilt.setting.columns, 5);
  EXPECT_EQ(quilt.patterns[0].width, Length::inches(12));
  EXPECT_EQ(block::problems_of(quilt.patterns[0], ""), Problems{});
}

TEST(NewQuilt, PatternsAlternateLikeAChequerboard) {
  NewQuilt asked = wish("nine-patch", 27, 27);
  asked.patterns.push_back(must(pattern_named("snowball")));
  const quilt::Quilt quilt = must(new_quilt(asked));
  EXPECT_THAT(quilt.setting.alternate, ElementsAre(ElementsAre(0, 1), ElementsAre(1, 0)));
  EXPECT_EQ(quilt.blocks[0].pattern, 0);
  EXPECT_EQ(quilt.blocks[1].pattern, 1);
  asked.patterns.push_back(must(pattern_named("square")));
  EXPECT_FALSE(new_quilt(asked).ok());
}

TEST(NewQuilt, OnPointNoBlockLiesAgainstOneOfItsOwnPattern) {
  NewQuilt asked = wish("nine-patch", 60, 60);
  asked.patterns.push_back(must(pattern_named("snowball")));
  asked.kind = setting::Setting::Kind::on_point;
  const quilt::Quilt quilt = must(new_quilt(asked));
  const setting::Plan plan = quilt::plan_of(quilt);
  for (const setting::Cell& cell : plan.cells) {
    EXPECT_EQ(cell.pattern, cell.row % 2) << "blocks touch those of the lists beside their own alone";
  }
}

TEST(NewQuilt, IsAValidFileWithoutPrints) {
  const Document document{must(new_quilt(wish("churn-dash", 36, 45))), nullptr};
  const std::string text = text_of(document);
  EXPECT_EQ(text_of(must(document_from_text(text))), text);
}

TEST(NewQuilt, SparesLieOutside) {
  NewQuilt asked = wish("rails", 27, 27);
  asked.spares = 2;
  const quilt::Quilt quilt = must(new_quilt(asked));
  EXPECT_THAT(quilt::spares(quilt), ElementsAre(9, 10));
}

TEST(NewQuilt, RefusesWhatMakesNoQuilt) {
  EXPECT_FALSE(new_quilt(wish("rails", 0, 60)).ok());
  EXPECT_FALSE(new_quilt(wish("rails", 60, -1)).ok());
  EXPECT_FALSE(new_quilt(wish("rails", 9000, 9000)).ok());
  EXPECT_FALSE(new_quilt(wish("rails", 1e8, 60)).ok());
  NewQuilt asked = wish("rails", 60, 60);
  asked.block = Length::inches(0.001);
  EXPECT_FALSE(new_quilt(asked).ok());
  asked = wish("rails", 60, 60);
  asked.spares = 1'000'000;
  EXPECT_FALSE(new_quilt(asked).ok());
  asked = wish("rails", 60, 60);
  asked.borders = {Length()};
  EXPECT_FALSE(new_quilt(asked).ok());
  asked.patterns.clear();
  EXPECT_FALSE(new_quilt(asked).ok());
}

TEST(Sizes, AreKnownByNameAndRiseInOrder) {
  const std::vector<Size> sizes = must(common_sizes());
  for (std::size_t i = 1; i < sizes.size(); ++i) {
    EXPECT_LE(sizes[i - 1].width.inches() * sizes[i - 1].height.inches(),
              sizes[i].width.inches() * sizes[i].height.inches());
  }
  EXPECT_EQ(must(size_named("lap")).name, "lap");
  for (const Size& size : sizes) {
    EXPECT_EQ(must(size_named(size.name)).width, size.width);
    EXPECT_FALSE(size.note.empty());
  }
}

TEST(Sizes, AreToldInCentimetresToWhoMeasuresSo) {
  for (const Size& size : must(common_sizes())) {
    EXPECT_THAT(note_of(size, quilt::Units::centimetres), Not(ContainsRegex("[0-9] in|foot|inch"))) << size.name;
    EXPECT_EQ(note_of(size, quilt::Units::millimetres), note_of(size, quilt::Units::centimetres));
    EXPECT_EQ(note_of(size, quilt::Units::inches), size.note);
  }
  EXPECT_THAT(note_of(must(size_named("twin")), quilt::Units::centimetres), HasSubstr("99 x 191 cm"));
}

TEST(Sizes, ThoseForInfantsCarryTheirCaution) {
  for (const char* name : {"baby", "crib"}) EXPECT_THAT(must(size_named(name)).caution, HasSubstr("Not for sleep"));
}

TEST(Sizes, AreReadAsTyped) {
  const auto sized = [](const std::string& text) {
    const Size size = must(size_named(text));
    return std::pair(size.width, size.height);
  };
  const std::pair<Length, Length> inches(Length::inches(60), Length::inches(72));
  EXPECT_EQ(sized("60x72"), inches);
  EXPECT_EQ(sized(" Lap"), sized("lap"));
  EXPECT_EQ(sized("60 x 72 in"), inches);
  EXPECT_EQ(sized("60 by 72"), inches);
  EXPECT_EQ(sized("60×72"), inches);
  EXPECT_EQ(sized("60 X 72\""), inches);
  const std::pair<Length, Length> metric(Length::millimetres(1500), Length::millimetres(2000));
  EXPECT_EQ(sized("150x200cm"), metric);
  EXPECT_EQ(sized("150 cm x 2 m"), metric);
  EXPECT_EQ(must(size_named("150x200", quilt::Units::centimetres)).height, Length::millimetres(2000));
}

TEST(Sizes, WhatIsNoSizeIsRefusedWithThoseThatAre) {
  for (const char* text : {"", "large", "60", "x", "60x", "0x10", "-5x10", "60x72x3", "1e9x4"}) {
    const Result<Size> size = size_named(text);
    ASSERT_FALSE(size.ok()) << text;
    EXPECT_THAT(size.problems().front().remedy, HasSubstr("lap, throw"));
  }
}

}  // namespace
}  // namespace farflung::project
