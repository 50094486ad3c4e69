#include "cloth/precut.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cloth/world.hpp"

namespace farflung::cloth {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

quilt::Quilt with_cloth(quilt::Quilt quilt, const print::Cloth& cloth) {
  for (print::Print& print : quilt.prints) print.cloth = {cloth};
  return quilt;
}

print::Cloth forty_charms() { return {"charm square", in(5), in(5), 40, "", std::nullopt}; }

TEST(Precut, ACharmSquareTakenForItsFinishedSizeIsSaid) {
  const quilt::Quilt quilt = with_cloth(quilt_of(plain_square(5), 3, 3, 3), forty_charms());
  const CutList list = cut_list(quilt);
  const char* says =
      "A charm square is cut 5 in wide, seam allowances and all: what it gives finishes at 4 1/2 in, not at 5 in.";
  EXPECT_THAT(precuts_said(quilt, list), ElementsAre(says)) << "once for all prints";
  EXPECT_EQ(list.remarks.back().says, says);
}

TEST(Precut, NothingIsSaidOfWhatFitsOrIsMuchLarger) {
  for (const double finished : {4.5, 4.0, 6.0}) {
    const quilt::Quilt quilt = with_cloth(quilt_of(plain_square(finished), 3, 3, 3), forty_charms());
    EXPECT_THAT(precuts_said(quilt, cut_list(quilt)), IsEmpty()) << finished;
  }
}

TEST(Precut, NothingIsSaidWhereThereIsOtherClothOfThePrint) {
  quilt::Quilt quilt = with_cloth(quilt_of(plain_square(5), 3, 3, 3), forty_charms());
  for (print::Print& print : quilt.prints) {
    print.cloth.push_back({"fat quarter", in(20), in(17.5), 1, "", std::nullopt});
  }
  EXPECT_THAT(precuts_said(quilt, cut_list(quilt)), IsEmpty());
}

TEST(Precut, AStripGivesPatchesNarrowerByItsAllowances) {
  const print::Cloth strip = {"2 1/2 in strip", in(40), in(2.5), 9, "", std::nullopt};
  const quilt::Quilt quilt = with_cloth(quilt_of(plain_square(2.5), 4, 4, 3), strip);
  EXPECT_THAT(precuts_said(quilt, cut_list(quilt)),
              ElementsAre("A 2 1/2 in strip is cut 2 1/2 in wide, seam allowances and all: what it gives finishes at "
                          "2 in, not at 2 1/2 in."));
}

}  // namespace
}  // namespace farflung::cloth
