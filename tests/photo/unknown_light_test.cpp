// What is made of the light's colour and strength where no sheet and no chart tells it.
#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "photo/lamp.hpp"
#include "photo/reference.hpp"

namespace farflung::photo {
namespace {

constexpr int kColumns = 600, kRows = 400;

SurfaceSeen surface_of(const std::array<float, 3>& encoded, bool pale) {
  return {{2, 2, {encoded, encoded, encoded, encoded}}, pale};
}

colour::Lab corrected(const Reference& reference, colour::Srgb seen) {
  const Balance& balance = *reference.balance;
  return colour::lab_from_light(balance.corrected({seen.r / 255.0, seen.g / 255.0, seen.b / 255.0}, 0, 0));
}

/// Six plain cloths of one colour in a row.
struct Row {
  explicit Row(colour::Srgb colour) : picture(kColumns, kRows, colour) {
    for (int i = 0; i < 6; ++i) {
      const double x = 100.0 * i + 10;
      cloths.push_back({{{{x, 100}, {x + 80, 100}, {x + 80, 300}, {x, 300}}}, 0, 1, "", false});
    }
  }

  Picture picture;
  std::vector<Found> cloths;
};

TEST(UnknownLight, GreenClothsOnAGreyTableStayGreen) {
  const Row row({120, 200, 90});
  Reference reference;
  add_surface(reference, row.picture, surface_of({0.3F, 0.3F, 0.3F}, false), {}, {}, row.cloths);
  ASSERT_TRUE(reference.balance.has_value());
  const colour::Lab lab = corrected(reference, {120, 200, 90});
  EXPECT_EQ(reference.kind, "none");
  EXPECT_LT(lab.a, -35);
  EXPECT_GT(lab.b, 30);
}

TEST(UnknownLight, ThePalestClothSaysHowBrightTheLightWas) {
  const Row row({150, 148, 140});
  Reference reference;
  add_surface(reference, row.picture, surface_of({0.2F, 0.2F, 0.2F}, false), {}, {}, row.cloths);
  ASSERT_TRUE(reference.balance.has_value());
  EXPECT_NEAR(corrected(reference, {150, 148, 140}).L, 90.5, 0.5);
}

/// Under a lamp that a camera left yellow.
colour::Srgb yellowed(double r, double g, double b) { return colour::srgb_from_light({1.12 * r, g, 0.7 * b}); }

TEST(UnknownLight, PrintsOfManyHuesSayTogetherWhatALampLeft) {
  Row row(yellowed(0.3, 0.3, 0.3));
  const std::array<std::array<double, 3>, 6> cloths = {
      {{0.6, 0.2, 0.2}, {0.2, 0.5, 0.25}, {0.15, 0.25, 0.6}, {0.6, 0.5, 0.15}, {0.3, 0.15, 0.45}, {0.3, 0.55, 0.5}}};
  for (int i = 0; i < 6; ++i) {
    const colour::Srgb seen = yellowed(cloths[i][0], cloths[i][1], cloths[i][2]);
    for (int y = 100; y < 300; ++y) {
      for (int x = 100 * i + 10; x < 100 * i + 90; ++x) row.picture.set(x, y, seen);
    }
  }
  const colour::Srgb table = yellowed(0.7, 0.71, 0.76);  // bluer than such tables are
  const SurfaceSeen surface = surface_of(
      {static_cast<float>(table.r / 255.0), static_cast<float>(table.g / 255.0), static_cast<float>(table.b / 255.0)},
      true);
  std::vector<Found> many;  // each four times over: the more there are, the more their mean says
  for (int i = 0; i < 4; ++i) many.insert(many.end(), row.cloths.begin(), row.cloths.end());
  Reference alone, together;
  add_surface(alone, row.picture, surface, {}, {}, {});
  add_surface(together, row.picture, surface, {}, {}, many);
  EXPECT_FALSE(alone.grey_together);
  EXPECT_TRUE(together.grey_together);
  // However bright the light was: b* and L* + 16 grow alike with it.
  const auto yellow = [&](const Reference& reference) {
    const colour::Lab grey = corrected(reference, yellowed(0.3, 0.3, 0.3));
    return grey.b / (grey.L + 16);
  };
  EXPECT_GT(yellow(alone), 0.05);
  EXPECT_LT(yellow(together), 0.9 * yellow(alone));
  EXPECT_GT(yellow(together), 0);
}

TEST(UnknownLight, ThePalestClothAndAPaleTableAreHeardBoth) {
  const Row row({235, 234, 230});
  Reference reference;
  // The table lies as light as the cloth: neither can be all that it usually is.
  add_surface(reference, row.picture, surface_of({0.92F, 0.918F, 0.9F}, true), {}, {}, row.cloths);
  ASSERT_TRUE(reference.balance.has_value());
  EXPECT_EQ(reference.kind, "surface");
  const double lightness = corrected(reference, {235, 234, 230}).L;
  EXPECT_GT(lightness, 88);
  EXPECT_LT(lightness, 90.5);
}

TEST(UnknownLight, ACuttingMatsGreenIsItsOwn) {
  const Picture picture(kColumns, kRows, {200, 200, 200});
  Reference reference;
  add_surface(reference, picture, surface_of({0.2F, 0.42F, 0.33F}, false), {}, {}, {});
  ASSERT_TRUE(reference.balance.has_value());
  EXPECT_LT(std::abs(corrected(reference, {200, 200, 200}).a), 4);
}

TEST(UnknownLight, ALampsYellowIsTakenOffAGreyTable) {
  const Picture picture(kColumns, kRows, {200, 200, 200});
  Reference reference;
  add_surface(reference, picture, surface_of({0.42F, 0.38F, 0.3F}, false), {}, {}, {});
  ASSERT_TRUE(reference.balance.has_value());
  EXPECT_LT(corrected(reference, {107, 97, 77}).b, 0.65 * colour::lab_from_srgb({107, 97, 77}).b);
  // How bright the light was nothing tells.
  EXPECT_NEAR(corrected(reference, {145, 145, 145}).L, colour::lab_from_srgb({145, 145, 145}).L, 1);
}

TEST(Lamp, LeavesYellowOftenerThanGreen) {
  const LightLeft& left = light_left();
  const auto far = [&](double red, double blue) {
    const auto [u, v] = left.off(red, blue);
    return std::hypot(u, v);
  };
  EXPECT_NEAR(far(left.mean[0], left.mean[1]), 0, 1e-9);
  EXPECT_LT(far(0.15, -0.25), 2);
  EXPECT_GT(far(-0.25, -0.25), 4);
}

}  // namespace
}  // namespace farflung::photo
