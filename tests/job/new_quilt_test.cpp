// What a quilt begins with where nobody says.
#include "job/world.hpp"

namespace farflung::job {
namespace {

NewQuilt wish(const char* pattern, const char* units, const char* block = "") {
  NewQuilt asked;
  asked.patterns = {pattern};
  asked.units = units;
  asked.block = block;
  return asked;
}

double width_of(const NewQuilt& asked) { return World(asked).file()["patterns"][0]["width"].get<double>(); }

TEST(ANewQuilt, InCentimetresHasBlocksOfWholeCentimetresWhosePatchesMeetTheRuler) {
  EXPECT_EQ(width_of(wish("sawtooth-star", "cm")), 20) << "drawn at 8 in; quarters of it are 5 cm";
  EXPECT_EQ(width_of(wish("rails", "cm")), 24) << "drawn at 9 in; thirds of 23 cm lie between the marks";
  EXPECT_EQ(width_of(wish("rails", "mm")), 240);
}

TEST(ANewQuilt, IsSewnByTheQuarterInchWhateverItsUnits) {
  EXPECT_DOUBLE_EQ(World(wish("rails", "cm")).file()["seam_allowance"].get<double>(), 0.635);
  EXPECT_EQ(World(wish("rails", "in")).file()["seam_allowance"].get<double>(), 0.25);
}

TEST(ANewQuilt, KeepsTheBlockThatIsAskedForAndInInchesTheOneThatIsDrawn) {
  EXPECT_EQ(width_of(wish("rails", "cm", "23")), 23);
  EXPECT_EQ(width_of(wish("rails", "in")), 9);
}

TEST(ANewQuilt, OfSeveralPatternsHasThemInTurnAllAsWideAsTheFirst) {
  NewQuilt asked;
  asked.patterns = {"Nine patch", "sawtooth-star"};  // drawn at 9 and at 8 in
  asked.size = "LAP";
  const Json file = World(asked).file();
  EXPECT_EQ(file["patterns"][1]["width"], 9);
  EXPECT_EQ(file["setting"]["alternate"],
            Json::parse(R"([["nine-patch", "sawtooth-star"], ["sawtooth-star", "nine-patch"]])"));
  EXPECT_EQ(file["blocks"][0]["pattern"], "nine-patch");
  EXPECT_EQ(file["blocks"][1]["pattern"], "sawtooth-star");
  asked.units = "cm";
  EXPECT_EQ(World(asked).file()["patterns"][0]["width"], 24) << "thirds and quarters are whole centimetres";
}

TEST(ANewQuilt, TakesNoPatternTwice) {
  NewQuilt asked;
  asked.folder = "nowhere";
  asked.patterns = {"rails", "Rails"};
  EXPECT_NE(refused(new_quilt(asked)).find("named twice"), std::string::npos);
}

TEST(ANewQuilt, NeedsAName) { EXPECT_NE(refused(new_quilt({})).find("no name"), std::string::npos); }

TEST(ATypedName, IsQuotedWhereAShellWouldTakeItApart) {
  EXPECT_EQ(typed("quilts/harbour-2"), "quilts/harbour-2");
  EXPECT_EQ(typed("M\u00f6we"), "M\u00f6we");
  EXPECT_EQ(typed("harbour raffle"), "'harbour raffle'");
  EXPECT_EQ(typed("it's"), "'it'\\''s'");
  EXPECT_EQ(typed(""), "''");
}

}  // namespace
}  // namespace farflung::job
