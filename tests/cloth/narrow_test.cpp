#include "cloth/narrow.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cloth/pieces.hpp"
#include "cloth/world.hpp"

namespace farflung::cloth {
namespace {

using testing::HasSubstr;

TEST(Narrow, NamesThePatternWhosePatchIsNarrowerThanItsSeamAllowance) {
  quilt::Quilt quilt = quilt_of(uneven_rails(), 2, 2, 3);  // its background is an inch wide
  EXPECT_EQ(narrow_said(quilt), "");
  quilt.seam_allowance = in(1);
  EXPECT_EQ(narrow_said(quilt), "") << "as wide as the patch: it just fits";
  quilt.seam_allowance = in(1.25);
  EXPECT_THAT(narrow_said(quilt), HasSubstr("of 1 1/4 in is wider than the narrowest patch of rails, 1 in:"));
  EXPECT_EQ(cut_list(quilt).remarks.front().at, "/seam_allowance");
}

TEST(Narrow, ATriangleIsAsWideAsItsHeightOverItsLongestSide) {
  quilt::Quilt quilt = quilt_of(half_squares(4), 2, 2, 3);  // 4 / root 2 = 2.83
  quilt.seam_allowance = in(2.75);
  EXPECT_EQ(narrow_said(quilt), "");
  quilt.seam_allowance = in(2.875);
  EXPECT_THAT(narrow_said(quilt), HasSubstr("the narrowest patch of half"));
}

TEST(Narrow, SashesAndBordersCountToo) {
  quilt::Quilt quilt = quilt_of(plain_square(6), 2, 2, 2);
  quilt.setting.borders = {{in(0.5), 0}};
  quilt.seam_allowance = in(0.75);
  EXPECT_THAT(narrow_said(quilt), HasSubstr("wider than the narrowest border, 1/2 in"));
  quilt.setting.sashing = setting::Sashing{};
  quilt.setting.sashing->width = in(0.25);
  EXPECT_THAT(narrow_said(quilt), HasSubstr("wider than the sashing, 1/4 in"));
}

}  // namespace
}  // namespace farflung::cloth
