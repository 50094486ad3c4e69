#include "photo/region.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

namespace farflung::photo {
namespace {

double farthest(const Quad& one, const Quad& other) {
  double most = 0;
  for (std::size_t i = 0; i < one.size(); ++i)
    most = std::max(most, std::hypot(one[i].x - other[i].x, one[i].y - other[i].y));
  return most;
}

constexpr int kOff = 40;  // of each side, that is not seen at a corner

TEST(Circumscribed, RunsAlongTheSidesOfAClothOfWhoseCornersNoneIsSeen) {
  const std::vector<cv::Point> seen = {{100 + kOff, 100}, {400 - kOff, 100}, {400, 100 + kOff}, {400, 300 - kOff},
                                       {400 - kOff, 300}, {100 + kOff, 300}, {100, 300 - kOff}, {100, 100 + kOff}};
  EXPECT_LT(farthest(circumscribed(seen), {{{100, 100}, {400, 100}, {400, 300}, {100, 300}}}), 1e-9);
}

TEST(Circumscribed, KeepsFourCornersThatAreSeen) {
  const std::vector<cv::Point> seen = {{80, 90}, {420, 120}, {400, 310}, {110, 290}, {200, 200}};
  EXPECT_LT(farthest(circumscribed(seen), {{{80, 90}, {420, 120}, {400, 310}, {110, 290}}}), 1e-9);
}

TEST(Circumscribed, IsABoxWhereThereAreNoFourSides) {
  EXPECT_GT(area(circumscribed({{0, 0}, {100, 0}, {50, 80}})), 4000);
}

}  // namespace
}  // namespace farflung::photo
