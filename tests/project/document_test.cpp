#include "project/document.hpp"

#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "project/world.hpp"

namespace farflung::project {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::UnorderedElementsAre;

TEST(Document, ReadsEveryKeyOfTheExample) {
  const Document document = harbour();
  const quilt::Quilt& quilt = document.quilt;
  EXPECT_EQ(quilt.title, "Harbour raffle");
  EXPECT_EQ(quilt.units, quilt::Units::inches);
  EXPECT_EQ(quilt.seam_allowance, Length::inches(0.25));

  ASSERT_EQ(quilt.prints.size(), 6U);
  const print::Print& kelp = quilt.prints[0];
  EXPECT_EQ(kelp.id, "P01");
  EXPECT_EQ(kelp.code, "K");
  EXPECT_EQ(kelp.name, "Kelp");
  EXPECT_EQ(kelp.swatch, "swatches/P01.png");
  EXPECT_EQ(kelp.swatch_width, Length::inches(8.5));
  EXPECT_FALSE(kelp.upright);
  ASSERT_EQ(kelp.cloth.size(), 1U);
  EXPECT_EQ(kelp.cloth[0].kind, "fat quarter");
  EXPECT_EQ(kelp.cloth[0].width, Length::inches(20));
  EXPECT_EQ(kelp.cloth[0].length, Length::inches(17.5));
  EXPECT_EQ(kelp.cloth[0].count, 1);
  EXPECT_FALSE(kelp.cloth[0].price);
  ASSERT_TRUE(kelp.photo);
  EXPECT_EQ(kelp.photo->file, "photos/a.jpg");
  EXPECT_EQ(kelp.photo->corners[2][0], 890);
  EXPECT_EQ(kelp.photo->reference, "sheet");
  EXPECT_EQ(kelp.features.lab, (colour::Lab{52.1, -14, 8.2}));
  EXPECT_THAT(kelp.features.by_hand, ElementsAre("lab"));
  ASSERT_EQ(kelp.features.palette.size(), 2U);
  EXPECT_EQ(kelp.features.palette[1].share, 0.39);
  EXPECT_EQ(kelp.features.value_range, 23);
  EXPECT_EQ(kelp.features.scale, 1.4);
  EXPECT_EQ(kelp.features.busyness, 0.35);
  EXPECT_EQ(kelp.features.direction.kind, print::Direction::Kind::stripe);
  EXPECT_EQ(kelp.features.direction.degrees, 90);

  ASSERT_EQ(quilt.patterns.size(), 1U);
  const block::Pattern& rails = quilt.patterns[0];
  EXPECT_EQ(rails.width, Length::inches(9));
  EXPECT_EQ(rails.turns.size(), 4U);
  ASSERT_EQ(rails.slots.size(), 3U);
  EXPECT_EQ(rails.slots[2].name, "background");
  EXPECT_EQ(rails.slots[2].print, 5);
  EXPECT_TRUE(rails.slots[2].may_touch);
  ASSERT_EQ(rails.patches.size(), 3U);
  EXPECT_EQ(rails.patches[1].polygon, rectangle(Length(), Length::inches(4), Length::inches(9), Length::inches(1)));
  ASSERT_EQ(rails.piecing.size(), 2U);
  EXPECT_EQ(rails.piecing[1].join[0], (block::Unit{block::Unit::Kind::step, 0}));
  EXPECT_EQ(rails.piecing[1].press.toward, (block::Unit{block::Unit::Kind::patch, 2}));

  EXPECT_EQ(quilt.setting.rows, 2);
  EXPECT_EQ(quilt.setting.columns, 2);
  EXPECT_THAT(quilt.setting.alternate, ElementsAre(ElementsAre(0)));
  ASSERT_TRUE(quilt.setting.sashing);
  EXPECT_EQ(quilt.setting.sashing->cornerstone, 2);
  EXPECT_EQ(quilt.setting.filler, 5);
  ASSERT_EQ(quilt.setting.borders.size(), 1U);
  EXPECT_EQ(quilt.setting.borders[0].width, Length::inches(2.5));
  EXPECT_EQ(quilt.binding->print, 4);
  EXPECT_EQ(quilt.backing->over, Length::inches(4));

  ASSERT_EQ(quilt.blocks.size(), 3U);
  EXPECT_THAT(quilt.blocks[0].prints, ElementsAre(0, 1, block::kNone));
  EXPECT_FALSE(quilt.blocks[0].press);
  EXPECT_EQ(quilt.blocks[1].press, block::Block::Press::drawn);
  EXPECT_TRUE(quilt.blocks[2].sewn);
  EXPECT_EQ(quilt.blocks[2].cut_turn, Turn::quarters(1));
  EXPECT_THAT(quilt.layout.block, ElementsAre(0, 1, 2, setting::kNone));
  EXPECT_EQ(quilt.layout.turn[1], Turn::quarters(1));
  EXPECT_THAT(quilt.layout.kept, ElementsAre(false, true, false, false));
}

TEST(Document, SavedAgainItHoldsWhatItHeldAndOnlyCodesAreAdded) {
  const Document document = harbour();
  const std::string once = text_of(document);
  const Document again = must(document_from_text(once));
  EXPECT_EQ(text_of(again), once);
  EXPECT_THAT(once, HasSubstr("\"width\": \"2 1/2\""));
  EXPECT_THAT(once, HasSubstr("-14.0"));
  EXPECT_THAT(once, HasSubstr("\"code\": \"F\""));
}

TEST(Document, LaysBlocksOneToALineAndRowsOfCellsTogether) {
  const std::string text = text_of(harbour());
  EXPECT_THAT(
      text, HasSubstr("\n    {\"id\": \"B002\", \"pattern\": \"rails\", \"prints\": {\"A\": \"P02\", \"B\": \"P03\"}"));
  EXPECT_THAT(text, HasSubstr("\"cells\": [[\"B001\", \"B002\"], [\"B003\", null]]"));
  EXPECT_EQ(text.back(), '\n');
}

TEST(Document, KeepsKeysThatAreNotOurs) {
  std::string text = harbour_text();
  replace(text, "\"title\": \"Harbour raffle\"", "\"title\": \"Harbour raffle\", \"made_for\": {\"who\": [\"crew\"]}");
  replace(text, "\"id\": \"P02\"", "\"bought\": \"Whitby\", \"id\": \"P02\"");
  replace(text, "\"id\": \"B002\"", "\"sewist\": \"Ada\", \"id\": \"B002\"");
  replace(text, "\"A\": {}", "\"A\": {\"hint\": \"dark\"}");
  replace(text, "\"kind\": \"straight\"", "\"kind\": \"straight\", \"fold\": 3");
  Document document = must(document_from_text(text));
  std::swap(document.quilt.blocks[0], document.quilt.blocks[1]);
  document.quilt.layout.block = {1, 0, 2, setting::kNone};
  const std::string saved = text_of(document);
  EXPECT_THAT(saved, HasSubstr("\"made_for\": {\"who\": [\"crew\"]}"));
  EXPECT_THAT(saved, HasSubstr("\"bought\": \"Whitby\""));
  EXPECT_THAT(saved, HasSubstr("\"sewist\": \"Ada\""));
  EXPECT_THAT(saved, HasSubstr("{\"hint\": \"dark\"}"));
  EXPECT_THAT(saved, HasSubstr("\"fold\": 3"));
  EXPECT_LT(saved.find("\"id\": \"B002\""), saved.find("\"sewist\""));
  EXPECT_LT(saved.find("\"sewist\""), saved.find("\"id\": \"B001\""));
}

TEST(Document, WritesALengthAnewOnlyWhereItChanged) {
  Document document = harbour();
  EXPECT_THAT(text_of(document), HasSubstr("\"2 1/2\""));
  document.quilt.setting.borders[0].width = Length::inches(3);
  EXPECT_THAT(text_of(document), Not(HasSubstr("\"2 1/2\"")));
  EXPECT_THAT(text_of(document), HasSubstr("\"borders\": [{\"width\": 3, "));
}

TEST(Document, ReportsEveryProblemWithItsPointer) {
  std::string text = harbour_text();
  replace(text, "\"prints\": {\"A\": \"P01\", \"B\": \"P02\"}", "\"prints\": {\"A\": \"P99\", \"B\": \"P02\"}");
  replace(text, "\"rows\": 2", "\"rows\": 0");
  replace(text, "\"press\": \"other\"", "\"press\": \"sideways\"");
  replace(text, "\"width\": \"2 1/2\"", "\"width\": \"two\"");
  EXPECT_THAT(places(document_from_text(text)),
              UnorderedElementsAre("quilt.json#/blocks/0/prints/A", "quilt.json#/setting/rows",
                                   "quilt.json#/blocks/2/press", "quilt.json#/setting/borders/0/width"));
}

struct Wrong {
  const char* what;
  const char* before;
  const char* after;
  const char* pointer;
  const char* says;
};

void PrintTo(const Wrong& wrong, std::ostream* out) { *out << wrong.what; }

class WrongInput : public ::testing::TestWithParam<Wrong> {};

TEST_P(WrongInput, IsReportedAtItsPlace) {
  std::string text = harbour_text();
  replace(text, GetParam().before, GetParam().after);
  const Result<Document> read = document_from_text(text);
  ASSERT_FALSE(read.ok());
  bool found = false;
  for (const Problem& problem : read.problems()) {
    EXPECT_EQ(problem.kind, Problem::Kind::input);
    found = found ||
            (pointer_of(problem) == GetParam().pointer && problem.cause.find(GetParam().says) != std::string::npos);
  }
  EXPECT_TRUE(found) << texts(read.problems());
}

INSTANTIATE_TEST_SUITE_P(
    Document, WrongInput,
    ::testing::Values(
        Wrong{"format", "farflung-quilt", "shopping-list", "/format", "must be \"farflung-quilt\""},
        Wrong{"newer", "\"version\": 1", "\"version\": 2", "/version", "this program knows versions up to 1"},
        Wrong{"far_newer", "\"version\": 1", "\"version\": 18446744073709551615", "/version", "versions up to 1"},
        Wrong{"version_zero", "\"version\": 1", "\"version\": 0", "/version", "must be at least 1"},
        Wrong{"version_missing", "\"version\": 1,", "", "/version", "is missing, must be a whole number"},
        Wrong{"units", "\"units\": \"in\"", "\"units\": \"ell\"", "/units", "must be \"in\", \"cm\" or \"mm\""},
        Wrong{"seam", "\"seam_allowance\": 0.25", "\"seam_allowance\": \"a quarter\"", "/seam_allowance",
              "is not a length"},
        Wrong{"seam_negative", "\"seam_allowance\": 0.25", "\"seam_allowance\": -1", "/seam_allowance",
              "seam allowance"},
        Wrong{"title", "\"title\": \"Harbour raffle\"", "\"title\": 7", "/title", "is the number 7, must be a text"},
        Wrong{"lab", "[31, 2, -20]", "[31, 2]", "/prints/1/features/lab",
              "has 2 entries, must have at least 3 entries"},
        Wrong{"lab_text", "[31, 2, -20]", "[31, 2, \"x\"]", "/prints/1/features/lab/2",
              "is the text \"x\", must be a number"},
        Wrong{"no_lab", "\"features\": {\"lab\": [31, 2, -20]}", "\"features\": {}", "/prints/1/features/lab",
              "is missing, must be a list"},
        Wrong{"print_twice", "\"id\": \"P02\"", "\"id\": \"P01\"", "/prints/1/id", "a print P01 already"},
        Wrong{"code_twice", "\"code\": \"B\"", "\"code\": \"K\"", "/prints/2/code", "taken"},
        Wrong{"code_o", "\"code\": \"B\"", "\"code\": \"O\"", "/prints/2/code", "misread"},
        Wrong{"swatch_width", "\"swatch_width\": 8.5", "\"swatch_width\": 0", "/prints/0/swatch_width", "more than 0"},
        Wrong{"cloth", "\"length\": 17.5", "\"length\": null", "/prints/0/cloth/0/length",
              "is null, must be a number or a text"},
        Wrong{"cloth_count", "\"count\": 1", "\"count\": -1", "/prints/0/cloth/0/count", "must be at least 0"},
        Wrong{"corner", "[10, 12], ", "", "/prints/0/photo/corners", "has 3 entries"},
        Wrong{"reference", "\"reference\": \"sheet\"", "\"reference\": \"moon\"", "/prints/0/photo/reference",
              "must be"},
        Wrong{"share", "\"share\": 0.61", "\"share\": 61", "/prints/0/features/palette/0/share", "must be at most 1"},
        Wrong{"direction", "\"kind\": \"stripe\"", "\"kind\": \"up\"", "/prints/0/features/direction/kind", "must be"},
        Wrong{"turn", "\"turns\": [0, 1, 2, 3]", "\"turns\": [0, 1, 2, 4]", "/patterns/0/turns/3", "must be at most 3"},
        Wrong{"slot_print", "{\"print\": \"P16\", \"may_touch\": true}", "{\"print\": \"P17\", \"may_touch\": true}",
              "/patterns/0/slots/background/print", "there is no print P17"},
        Wrong{"slot_value", "\"slots\": {\"A\": {}", "\"slots\": {\"A\": {\"value\": \"pale\"}",
              "/patterns/0/slots/A/value", "must be"},
        Wrong{"patch_slot", "{\"slot\": \"A\", \"polygon\"", "{\"slot\": \"Z\", \"polygon\"",
              "/patterns/0/patches/0/slot", "no slot Z"},
        Wrong{"gap", "[9, 4], [0, 4]]}", "[9, 3], [0, 3]]}", "/patterns/0/patches", "gap"},
        Wrong{"overlap", "[9, 4], [0, 4]]}", "[9, 6], [0, 6]]}", "/patterns/0/patches",
              "an overlap of 9 x 1 in at 0, 4"},
        Wrong{"join", "{\"join\": [0, 1], \"press\": 0}", "{\"join\": [0, 9], \"press\": 0}",
              "/patterns/0/piecing/0/join", "9"},
        Wrong{"join_text", "{\"join\": [\"#0\", 2]", "{\"join\": [\"zero\", 2]", "/patterns/0/piecing/1/join/0",
              "neither a patch nor a step"},
        Wrong{"press", "\"press\": 2}", "\"press\": \"hard\"}", "/patterns/0/piecing/1/press", "no way to press"},
        Wrong{"kind", "\"kind\": \"straight\"", "\"kind\": \"bent\"", "/setting/kind", "must be"},
        Wrong{"many_cells", "\"rows\": 2", "\"rows\": 1000000000", "/setting", "more than 40000 cells"},
        Wrong{"more_cells", "\"rows\": 2", "\"rows\": 9223372036854775807", "/setting", "more than 40000 cells"},
        Wrong{"alternate", "[[\"rails\"]]", "[[\"rail\"]]", "/setting/alternate/0/0", "there is no pattern rail"},
        Wrong{"sashing_width", "\"sashing\": {\"width\": 1", "\"sashing\": {\"width\": 0", "/setting/sashing/width",
              "more than 0"},
        Wrong{"sashing_print", "\"cornerstone\": \"P03\"", "\"cornerstone\": \"P04\"", "/setting/sashing/cornerstone",
              "there is no print P04"},
        Wrong{"filler", "\"filler\": \"P16\"", "\"filler\": \"\"", "/setting/filler", "there is no print"},
        Wrong{"border", "\"corners\": \"butted\"", "\"corners\": \"round\"", "/setting/borders/0/corners", "must be"},
        Wrong{"binding", "\"binding\": {\"print\": \"P15\"", "\"binding\": {\"print\": \"P55\"", "/binding/print",
              "no print P55"},
        Wrong{"backing", "\"over\": 4", "\"over\": \"-4\"", "/backing/over", "less than 0"},
        Wrong{"block_twice", "\"id\": \"B002\"", "\"id\": \"B001\"", "/blocks/1/id", "a block B001 already"},
        Wrong{"block_pattern", "{\"id\": \"B001\", \"pattern\": \"rails\"", "{\"id\": \"B001\", \"pattern\": \"none\"",
              "/blocks/0/pattern", "there is no pattern none"},
        Wrong{"block_slot", "\"prints\": {\"A\": \"P01\", \"B\": \"P02\"}",
              "\"prints\": {\"A\": \"P01\", \"C\": \"P02\"}", "/blocks/0/prints/C", "has no slot C"},
        Wrong{"cut_turn", "\"cut_turn\": 1", "\"cut_turn\": 7", "/blocks/2/cut_turn", "must be at most 3"},
        Wrong{"cell_block", "[\"B001\", \"B002\"]", "[\"B001\", \"B009\"]", "/layout/cells/0/1",
              "there is no block B009"},
        Wrong{"cell_twice", "[\"B003\", null]", "[\"B003\", \"B001\"]", "/layout/cells/1/1", "already"},
        Wrong{"row_short", "[\"B003\", null]", "[\"B003\"]", "/layout/cells/1", "has 1 entries, the row has 2 cells"},
        Wrong{"row_missing", ", [\"B003\", null]", "", "/layout/cells", "has 1 lists, the setting has 2 rows"},
        Wrong{"turns_short", "[[0, 1], [0, 0]]", "[[0, 1], [0]]", "/layout/turns/1", "has 1 entries"},
        Wrong{"kept", "\"kept\": [[0, 1]]", "\"kept\": [[0, 2]]", "/layout/kept/0", "no such cell"},
        Wrong{"swatch_outside", "swatches/P01.png", "../../secret.png", "/prints/0/swatch",
              "outside the quilt's folder"},
        Wrong{"photo_outside", "photos/a.jpg", "/etc/hostname", "/prints/0/photo/file", "outside the quilt's folder"},
        Wrong{"photo_nul", "photos/a.jpg", "photos/a\\u0000.jpg", "/prints/0/photo/file", "outside the quilt's folder"},
        Wrong{"goal", "\"spread\": 1", "\"spread\": -1", "/goals/spread", "must be at least 0"}),
    [](const auto& param) { return std::string(param.param.what); });

TEST(Document, ABrokenTextIsToldByLineAndColumn) {
  EXPECT_THAT(places(document_from_text("{\n  \"format\": \"farflung-quilt\",\n  \"version\": }\n")),
              ElementsAre("quilt.json:3:14"));
  EXPECT_THAT(places(document_from_text("")), ElementsAre("quilt.json:1:1"));
  EXPECT_THAT(places(document_from_text("{\"a\": 1e999}")), ElementsAre(HasSubstr("quilt.json:1:")));
  EXPECT_THAT(places(document_from_text("{\"a\": \"\xff\"}")), ElementsAre(HasSubstr("quilt.json:1:")));
}

TEST(Document, AKeyThatStandsTwiceIsRefused) {
  std::string text = harbour_text();
  replace(text, "\"bias\": false", "\"bias\": false, \"print\": \"P01\"");
  EXPECT_THAT(places(document_from_text(text)), ElementsAre("quilt.json#/binding"));
}

TEST(Document, APrintIsAPrintWithOnlyAnIdAndALab) {
  const Document document = must(document_from_text(
      R"({"format": "farflung-quilt", "version": 1, "prints": [{"id": "P01", "features": {"lab": [50, 0, 0]}}],
          "patterns": [{"id": "square", "width": 4, "height": 4, "slots": {"A": {}},
                        "patches": [{"slot": "A", "polygon": [[0, 0], [4, 0], [4, 4], [0, 4]]}]}],
          "setting": {"rows": 1, "columns": 2}})"));
  EXPECT_EQ(document.quilt.prints.size(), 1U);
  EXPECT_EQ(document.quilt.layout.block, std::vector<int>(2, setting::kNone));
  EXPECT_EQ(text_of(must(document_from_text(text_of(document)))), text_of(document));
}

/// A quilt of one square whose only print has this cloth, in these units.
std::string text_with_cloth(const std::string& cloth, const std::string& units) {
  return R"({"format": "farflung-quilt", "version": 1, "units": ")" + units +
         R"(", "prints": [{"id": "P01", "features": {"lab": [50, 0, 0]}, "cloth": [)" + cloth + R"(]}],
          "patterns": [{"id": "square", "width": 4, "height": 4, "slots": {"A": {}},
                        "patches": [{"slot": "A", "polygon": [[0, 0], [4, 0], [4, 4], [0, 4]]}]}],
          "setting": {"rows": 1, "columns": 2}})";
}

TEST(Document, AKindOfClothSaysItsOwnSizeWhereTheFileDoesNot) {
  const auto cloth = [](const char* text, const char* units) {
    return must(document_from_text(text_with_cloth(text, units))).quilt.prints[0].cloth.at(0);
  };
  const print::Cloth quarter = cloth(R"({"kind": "fat quarter", "count": 2})", "in");
  EXPECT_EQ(quarter.width, Length::inches(20));
  EXPECT_EQ(quarter.length, Length::inches(17.5));
  EXPECT_EQ(quarter.count, 2);
  EXPECT_EQ(cloth(R"({"kind": "fat quarter"})", "cm").length, Length::millimetres(485));
  EXPECT_EQ(cloth(R"({"kind": "fat quarter", "length": 16})", "in").length, Length::inches(16))
      << "what is said counts";
  const print::Cloth bolt = cloth(R"({"kind": "yardage", "length": "1 1/2 yd"})", "in");
  EXPECT_EQ(bolt.width, Length::inches(40));
  EXPECT_EQ(bolt.length, Length::inches(54));
}

TEST(Document, ClothOfNoKnownSizeIsAskedForIt) {
  EXPECT_THAT(places(document_from_text(text_with_cloth(R"({"kind": "yardage"})", "in"))),
              ElementsAre("quilt.json#/prints/0/cloth/0/length"));
  const Result<Document> scrap = document_from_text(text_with_cloth(R"({"kind": "scrap"})", "in"));
  EXPECT_THAT(places(scrap), ElementsAre("quilt.json#/prints/0/cloth/0/width", "quilt.json#/prints/0/cloth/0/length"));
  EXPECT_THAT(scrap.problems().front().remedy, HasSubstr("fat quarter, fat eighth"));
}

TEST(Document, AGradationThatIsWrittenOutStays) {
  std::string text = harbour_text();
  replace(text, "\"goals\": {", "\"gradation\": {\"way\": \"across\"}, \"goals\": {\"gradation\": 0, ");
  const Document document = must(document_from_text(text));
  EXPECT_THAT(text_of(document), HasSubstr("\"gradation\": {\"way\": \"across\"}"));
  EXPECT_EQ(text_of(must(document_from_text(text_of(document)))), text_of(document));
}

TEST(Document, NumbersAreInTheFilesUnits) {
  std::string text = harbour_text();
  replace(text, "\"units\": \"in\"", "\"units\": \"cm\"");
  replace(text, "\"seam_allowance\": 0.25", "\"seam_allowance\": \"1/4 in\"");
  const Document document = must(document_from_text(text));
  EXPECT_EQ(document.quilt.patterns[0].width, Length::millimetres(90));
  EXPECT_EQ(document.quilt.setting.borders[0].width, Length::millimetres(25));
  EXPECT_EQ(document.quilt.seam_allowance, Length::inches(0.25));
  EXPECT_THAT(text_of(document), HasSubstr("\"1/4 in\""));
}

}  // namespace
}  // namespace farflung::project
