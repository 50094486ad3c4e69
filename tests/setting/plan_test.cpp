#include "setting/plan.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "setting/sized.hpp"

namespace farflung::setting {
namespace {

/// Blocks and frame together, square inches: equal to the top's area where nothing is left out or lies twice.
double covered(const Plan& plan) {
  double sum = static_cast<double>(plan.cells.size()) * plan.block_width.inches() * plan.block_height.inches();
  for (const FramePatch& patch : plan.frame) sum += area(patch.polygon);
  return sum;
}

/// Every setting, sashed or not, with and without cornerstones, outer or not, with each kind of border.
std::vector<Setting> every_setting() {
  std::vector<Setting> settings;
  for (auto kind : {Setting::Kind::straight, Setting::Kind::brick, Setting::Kind::on_point}) {
    for (int rows : {1, 2, 5}) {
      for (int variant = 0; variant < 15; ++variant) {
        Setting setting = sized(kind, rows, 4);
        const int sash = variant % 5;
        if (sash > 0) setting.sashing = Sashing{in(1.5), 0, sash % 2 == 0 ? kNone : 1, sash > 2};
        if (variant / 5 >= 1) setting.borders.push_back({in(2), 0, Border::Corners::butted, kNone});
        if (variant / 5 >= 1) setting.borders.push_back({in(3), 0, Border::Corners::mitred, kNone});
        if (variant / 5 >= 2) setting.borders.push_back({in(1), 0, Border::Corners::cornerstone, 1});
        settings.push_back(setting);
      }
    }
  }
  return settings;
}

TEST(Plan, BlocksAndFrameCoverTheTopExactly) {
  for (const Setting& setting : every_setting()) {
    const Plan plan = plan_of(setting, in(8), in(8));
    EXPECT_NEAR(covered(plan), plan.width.inches() * plan.height.inches(), 1e-3)
        << static_cast<int>(setting.kind) << " rows " << setting.rows << " sash " << setting.sashing.has_value()
        << " borders " << setting.borders.size();
  }
}

TEST(Plan, NoTwoPiecesShareMoreThanTheirBoundary) {
  // Points spread over the top lie in one piece each: piece by piece, counted by winding.
  const auto inside = [](const Polygon& polygon, double x, double y) {
    bool odd = false;
    for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
      const double xi = polygon[i].x.inches(), yi = polygon[i].y.inches();
      const double xj = polygon[j].x.inches(), yj = polygon[j].y.inches();
      if ((yi > y) != (yj > y) && x < (xj - xi) * (y - yi) / (yj - yi) + xi) odd = !odd;
    }
    return odd;
  };
  for (const Setting& setting : every_setting()) {
    const Plan plan = plan_of(setting, in(8), in(8));
    std::vector<Polygon> pieces;
    const Polygon whole = rectangle(in(0), in(0), in(8), in(8));
    for (std::size_t i = 0; i < plan.cells.size(); ++i)
      pieces.push_back(plan.top_from_block(whole, static_cast<int>(i), Turn()));
    for (const FramePatch& patch : plan.frame) pieces.push_back(patch.polygon);
    for (double x = 0.317; x < plan.width.inches(); x += 1.931) {
      for (double y = 0.271; y < plan.height.inches(); y += 1.873) {
        int within = 0;
        for (const Polygon& piece : pieces) within += inside(piece, x, y);
        ASSERT_EQ(within, 1) << x << ", " << y << " kind " << static_cast<int>(setting.kind) << " rows "
                             << setting.rows;
      }
    }
  }
}

TEST(Plan, AStraightTopMeasuresItsBlocksSashesAndBorders) {
  Setting setting = sized(Setting::Kind::straight, 7, 6);
  setting.sashing = Sashing{in(1), 0, 1, false};
  setting.borders.push_back({in(4), 0, Border::Corners::butted, kNone});
  const Plan plan = plan_of(setting, in(9), in(9));
  EXPECT_EQ(plan.width, in(6 * 9 + 5 + 8));
  EXPECT_EQ(plan.height, in(7 * 9 + 6 + 8));
  EXPECT_DOUBLE_EQ(plan.pitch, 10);
  EXPECT_EQ(plan.cells[0].centre, (Point{in(8.5), in(8.5)}));
  EXPECT_EQ(plan.cells[7].centre, (Point{in(18.5), in(18.5)}));
}

TEST(Plan, OnPointCentresLieAsTheFormatSays) {
  const Plan plan = plan_of(sized(Setting::Kind::on_point, 3, 2), in(6), in(6));
  const double d = 6 * std::sqrt(2.0);
  ASSERT_EQ(plan.cells.size(), 3U * 2 + 2 * 1);
  EXPECT_NEAR(plan.cells[0].centre.x.inches(), d / 2, 1e-6);
  EXPECT_NEAR(plan.cells[0].centre.y.inches(), d / 2, 1e-6);
  EXPECT_NEAR(plan.cells[2].centre.x.inches(), d, 1e-6);
  EXPECT_NEAR(plan.cells[2].centre.y.inches(), d, 1e-6);
  const Polygon corner = plan.top_from_block({{in(0), in(0)}}, 0, Turn());
  EXPECT_NEAR(corner[0].x.inches(), d / 2, 1e-6) << "corner (0, 0) of a block points up";
  EXPECT_NEAR(corner[0].y.inches(), 0, 1e-6);
}

/// Whether all of the polygon's corners point outward.
bool is_convex(const Polygon& polygon) {
  const std::size_t n = polygon.size();
  int left = 0, right = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = polygon[i], b = polygon[(i + 1) % n], c = polygon[(i + 2) % n];
    const double turn = (b.x - a.x).inches() * (c.y - b.y).inches() - (b.y - a.y).inches() * (c.x - b.x).inches();
    left += turn < -1e-6;
    right += turn > 1e-6;
  }
  return left == 0 || right == 0;
}

TEST(Plan, OnPointNoPieceHasACornerToSetIn) {
  for (const Setting& setting : every_setting()) {
    if (setting.kind != Setting::Kind::on_point) continue;
    for (const FramePatch& patch : plan_of(setting, in(8), in(8)).frame) {
      EXPECT_TRUE(is_convex(patch.polygon)) << "rows " << setting.rows << " role " << static_cast<int>(patch.role);
    }
  }
}

TEST(Plan, OnPointCornerstonesLieWhereFourSashesMeetAndAroundAnOuterSashing) {
  Setting setting = sized(Setting::Kind::on_point, 4, 3);  // 18 blocks: 24 sashes between them, 48 with those around
  const auto count = [&](bool outer, FramePatch::Role role) {
    setting.sashing = Sashing{in(1), 0, 1, outer};
    const Plan plan = plan_of(setting, in(8), in(8));
    return std::count_if(plan.frame.begin(), plan.frame.end(), [&](const FramePatch& p) { return p.role == role; });
  };
  EXPECT_EQ(count(false, FramePatch::Role::sashing), 24);
  EXPECT_EQ(count(false, FramePatch::Role::cornerstone), 7);
  EXPECT_EQ(count(true, FramePatch::Role::sashing), 48);
  EXPECT_EQ(count(true, FramePatch::Role::cornerstone), 31);
}

TEST(Plan, BrickRowsAreShorterInTurnAndEndInHalfBlocks) {
  const Plan plan = plan_of(sized(Setting::Kind::brick, 3, 4), in(8), in(5));
  EXPECT_EQ(plan.cells.size(), 4U + 3 + 4);
  EXPECT_EQ(plan.cells[4].centre.x, in(8));
  ASSERT_EQ(plan.frame.size(), 2U);
  EXPECT_NEAR(area(plan.frame[0].polygon), 20, 1e-9);
}

TEST(Plan, WithoutCornerstonesTheCrosswiseStripsRunThrough) {
  Setting setting = sized(Setting::Kind::straight, 3, 4);
  setting.sashing = Sashing{in(1), 0, kNone, false};
  const Plan plan = plan_of(setting, in(8), in(8));
  EXPECT_EQ(plan.frame.size(), 3U * 3 + 2);
  setting.sashing->cornerstone = 1;
  EXPECT_EQ(plan_of(setting, in(8), in(8)).frame.size(), 3U * 3 + 2 * 4 + 2 * 3);
}

TEST(Plan, AlternatingPatternsAreTiledOverTheCells) {
  Setting setting = sized(Setting::Kind::straight, 2, 3);
  setting.alternate = {{0, 1}, {1, 0}};
  const Plan plan = plan_of(setting, in(8), in(8));
  std::vector<int> patterns;
  for (const Cell& cell : plan.cells) patterns.push_back(cell.pattern);
  EXPECT_EQ(patterns, (std::vector<int>{0, 1, 0, 1, 0, 1}));
}

}  // namespace
}  // namespace farflung::setting
