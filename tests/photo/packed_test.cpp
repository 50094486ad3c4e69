// Many cloths in one picture, and what one picture of a sitting says for the others.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "photo/encode.hpp"
#include "photo/mat.hpp"
#include "photo/scratch.hpp"
#include "photo/take.hpp"
#include "simulator/demo.hpp"
#include "simulator/trials.hpp"

namespace farflung::photo {
namespace {

double worst_corner(const Corners& found, const std::array<cv::Point2d, 4>& truth) {
  double worst = 0, around = 0;
  for (int i = 0; i < 4; ++i) {
    worst = std::max(worst, std::hypot(found[i][0] - 0.5 - truth[i].x, found[i][1] - 0.5 - truth[i].y));
    around += cv::norm(truth[i] - truth[(i + 1) % 4]);
  }
  return worst / (around / 4);
}

/// How many of the swatches lie on a cloth, to 12 % of its side; the rest are false.
struct Count {
  std::size_t found = 0, wrong = 0;
};

Count counted(const simulator::Photograph& truth, const Take& take_of) {
  Count count;
  for (const Swatch& swatch : take_of.swatches) {
    const bool there = std::any_of(truth.cloths.begin(), truth.cloths.end(), [&](const simulator::Seen& seen) {
      return worst_corner(swatch.corners, seen.corners) < 0.12;
    });
    ++(there ? count.found : count.wrong);
  }
  return count;
}

Result<Take> taken(const simulator::Photograph& photograph, const TakeOptions& options = {}) {
  const Scratch scratch;
  const std::string file = scratch.file("a.png");
  EXPECT_TRUE(save(picture_from(photograph.srgb), file).ok());
  return take(file, options);
}

simulator::Shot shot_at(double slant) {
  simulator::Shot shot;
  shot.camera.pixels = {1500, 1125};
  shot.camera.slant = slant;
  shot.light.kelvin = 3600;
  shot.light.fall_off = 0.25;
  shot.develop.balance = 0.75;
  shot.develop.blur = 1.1;
  shot.develop.noise = 0.008;
  shot.develop.tone = 0.6;
  return shot;
}

std::vector<simulator::Fabric> some(int first, int count) {
  const auto all = simulator::demo_fabrics();
  return {all.begin() + first, all.begin() + first + count};
}

/// Folded fat quarters in rows of `across`, a few millimetres apart.
simulator::Scene packed(int count, int across, double gap) {
  simulator::Scene scene = simulator::in_rows(some(0, count), across, 6, 6.5, gap, 0.5, Seed{11});
  for (simulator::Placed& cloth : scene.cloths) {
    cloth.width = 6, cloth.height = 6.5;
    cloth.edge = simulator::Placed::Edge::folded;
    cloth.thickness = 0.08;
  }
  return scene;
}

TEST(Packed, EveryFoldedClothIsFoundAtAnySlantAndNothingElse) {
  for (const double slant : {5.0, 30.0}) {
    const simulator::Photograph photograph = simulator::photographed(packed(18, 5, 0.25), shot_at(slant), Seed{3});
    const Result<Take> take_of = taken(photograph);
    ASSERT_TRUE(take_of.ok());
    const Count count = counted(photograph, *take_of);
    EXPECT_EQ(count.found, 18U) << slant;
    EXPECT_EQ(count.wrong, 0U) << slant;
  }
}

TEST(Packed, ClothsThatHideTheirGapsAreToldApartByTheirCommonSize) {
  const simulator::Photograph photograph = simulator::photographed(packed(16, 4, 0.11), shot_at(24), Seed{8});
  const Result<Take> take_of = taken(photograph);
  ASSERT_TRUE(take_of.ok());
  const Count count = counted(photograph, *take_of);
  EXPECT_GE(count.found, 15U);
  EXPECT_EQ(count.wrong, 0U);
}

/// The reference sheet as a home printer makes it.
simulator::Paper printed_sheet() {
  std::vector<cv::Rect2d> black;
  for (const SheetBox& box : sheet_plan().black()) black.emplace_back(box.left, box.top, box.width, box.height);
  return simulator::page_of_boxes(black, {}, 8.5, 11);
}

double colours_off(const simulator::Photograph& truth, const Take& take_of) {
  std::vector<double> off;
  for (std::size_t i = 0; i < std::min(truth.cloths.size(), take_of.swatches.size()); ++i) {
    double r = 0, g = 0, b = 0;
    const Picture& swatch = take_of.swatches[i].picture;
    for (int row = 0; row < swatch.rows; ++row) {
      for (int column = 0; column < swatch.columns; ++column) {
        const colour::Light light = colour::light_from_srgb(swatch.at(column, row));
        r += light.r, g += light.g, b += light.b;
      }
    }
    const double all = static_cast<double>(swatch.rows) * swatch.columns;
    off.push_back(colour::delta_e_2000(colour::lab_from_light({r / all, g / all, b / all}), truth.cloths[i].lab));
  }
  std::nth_element(off.begin(), off.begin() + off.size() / 2, off.end());
  return off[off.size() / 2];
}

TEST(Sitting, OnePhotographWithTheSheetMakesTheOthersTrueByTheirTable) {
  simulator::Scene with_sheet = simulator::in_rows(some(0, 2), 2, 6, 7, 0.8, 2, Seed{4});
  with_sheet.surface.ink = 0x9a9488;  // no pale table: alone it says nothing of the light
  simulator::lay_beside(with_sheet, printed_sheet(), 0.8);
  simulator::Scene without = simulator::in_rows(some(4, 6), 3, 6, 7, 0.8, 2, Seed{5});
  without.surface = with_sheet.surface;
  simulator::Shot shot = shot_at(10);
  shot.light.fall_off = 0.1;

  const Scratch scratch;
  const std::string file = scratch.file("sheet.png");
  ASSERT_TRUE(save(picture_from(simulator::photographed(with_sheet, shot, Seed{6}).srgb), file).ok());
  TakeOptions options;
  options.table = table_told_by(file);
  ASSERT_TRUE(options.table.has_value());

  const simulator::Photograph photograph = simulator::photographed(without, shot, Seed{7});
  const Result<Take> alone = taken(photograph), together = taken(photograph, options);
  ASSERT_TRUE(alone.ok() && together.ok());
  ASSERT_EQ(together->swatches.size(), 6U);
  EXPECT_EQ(together->swatches[0].reference, "surface");
  EXPECT_LT(colours_off(photograph, *together), 0.6 * colours_off(photograph, *alone));
  EXPECT_LT(colours_off(photograph, *together), 4);
}

}  // namespace
}  // namespace farflung::photo
