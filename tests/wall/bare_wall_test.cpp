#include "wall/bare_wall.hpp"

#include <utility>
#include <vector>

#include <gtest/gtest.h>

namespace farflung::wall {
namespace {

/// A wall on which the light falls off downwards, a little uneven, with one stretch behind which something stands.
std::vector<Stretch> band() {
  std::vector<Stretch> band;
  for (int k = 0; k < 5; ++k) {
    const double at = -0.8 + 0.4 * k, uneven = k % 2 == 0 ? 0.02 : -0.02;
    for (const auto& [x, y] : {std::pair(at, -1.1), {at, 1.1}, {-1.1, at}, {1.1, at}}) {
      band.push_back({x, y, {-0.4 - 0.2 * y + uneven, 0.05, -0.1, 0.03, 0.01, 0.01}});
    }
  }
  band[3].look[0] = -2.5;
  return band;
}

/// One cell of one patch.
Evidence showing(double x, double y, const Look& look) {
  Evidence evidence;
  evidence.patches = 1;
  evidence.x = {x};
  evidence.y = {y};
  evidence.looks = {look};
  return evidence;
}

TEST(BareWall, IsKnownByTheBandRoundTheBlocksAsTheLightFallsOnIt) {
  const auto wall = BareWall::from(band());
  ASSERT_TRUE(wall);
  EXPECT_LT(wall->misfit(showing(0, 0.9, {-0.58, 0.05, -0.1, 0.03, 0.01, 0.01}), 0, 0), 1);
  EXPECT_LT(wall->misfit(showing(0, -0.9, {-0.22, 0.05, -0.1, 0.03, 0.01, 0.01}), 0, 0), 1);
  // The same pale cloth, above and below; and one with a print.
  EXPECT_GT(wall->misfit(showing(0, 0.9, {-0.22, 0.05, -0.1, 0.03, 0.01, 0.01}), 0, 0), 6);
  EXPECT_GT(wall->misfit(showing(0, 0, {-0.4, 0.05, -0.1, 0.3, 0.01, 0.01}), 0, 0), 6);
}

TEST(BareWall, IsNotKnownWhereLittleOfItIsSeenOrWhereItIsAsUnevenAsCloth) {
  std::vector<Stretch> few = band();
  few.resize(4);
  EXPECT_FALSE(BareWall::from(few));
  std::vector<Stretch> uneven = band();
  for (std::size_t k = 0; k < uneven.size(); ++k) uneven[k].look[0] += k % 3 == 0 ? 1.2 : k % 3 == 1 ? -1.0 : 0.1;
  EXPECT_FALSE(BareWall::from(uneven));
}

}  // namespace
}  // namespace farflung::wall
