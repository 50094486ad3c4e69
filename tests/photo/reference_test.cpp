#include "photo/reference.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>
#include <opencv2/imgproc.hpp>

#include "photo/chart.hpp"
#include "photo/encode.hpp"
#include "photo/mat.hpp"
#include "photo/scratch.hpp"
#include "photo/take.hpp"
#include "simulator/demo.hpp"
#include "simulator/photographer.hpp"

namespace farflung::photo {
namespace {

/// The sheet as it comes out of a printer, Letter; its words as short strokes where they are wanted.
simulator::Paper printed_sheet(bool worded = false) {
  std::vector<cv::Rect2d> black;
  for (const SheetBox& box : sheet_plan().black()) black.emplace_back(box.left, box.top, box.width, box.height);
  const SheetBox& words = sheet_plan().words;
  for (double down = 0.4; worded && down < words.height - 0.2; down += 0.17) {
    for (double across = 0.3; across < words.width - 0.3; across += 0.05) {
      black.emplace_back(words.left + across, words.top + down, 0.022, 0.08);
    }
  }
  return simulator::page_of_boxes(black, {}, 8.5, 11);
}

simulator::Shot lamp(double slant) {
  simulator::Shot shot;
  shot.camera.pixels = {1600, 1200};
  shot.camera.slant = slant;
  shot.light.kelvin = 3000;
  shot.light.fall_off = 0.2;
  shot.develop.balance = 0.7;
  shot.develop.blur = 0.8;
  shot.develop.noise = 0.005;
  shot.develop.tone = 0.5;
  return shot;
}

/// So many cloths of about 6 x 7 inches.
simulator::Photograph beside(int cloths, int across, double slant, bool worded = false) {
  const auto all = simulator::demo_fabrics();
  simulator::Scene scene =
      simulator::in_rows({all.begin() + 1, all.begin() + 1 + cloths}, across, 6, 7, 0.7, 2, Seed{3});
  simulator::lay_beside(scene, printed_sheet(worded), 1);
  return simulator::photographed(scene, lamp(slant), Seed{8});
}

simulator::Photograph beside_four(double slant) { return beside(4, 2, slant); }

TEST(ReferenceSheet, ItsMarksLieClearOfEachOtherAndOfTheWindowAndFitBothPapers) {
  const SheetPlan& plan = sheet_plan();
  const auto apart = [](const SheetBox& a, const SheetBox& b, double by) {
    return a.left + a.width + by <= b.left || b.left + b.width + by <= a.left || a.top + a.height + by <= b.top ||
           b.top + b.height + by <= a.top;
  };
  for (std::size_t i = 0; i < plan.marks.size(); ++i) {
    const SheetBox& box = plan.marks[i].box;
    EXPECT_TRUE(apart(box, plan.window, box.width / 6)) << i;
    EXPECT_LE(std::max(-box.left, box.left + box.width), plan.least_width / 2);
    EXPECT_LE(std::max(-box.top, box.top + box.height), plan.least_height / 2);
    for (std::size_t j = 0; j < i; ++j) EXPECT_TRUE(apart(box, plan.marks[j].box, box.width / 6)) << i << ' ' << j;
  }
  EXPECT_DOUBLE_EQ(plan.inch.width, 1);
  EXPECT_NEAR(plan.five_centimetres.width * 2.54, 5, 1e-12);
}

/// The light of the darkest field of a sheet seen from above at 50 pixels an inch, so blurred.
double darkest_field(double blur) {
  constexpr double kFine = 200, kInch = 50;  // pixels an inch, as drawn and as seen
  cv::Mat paper(cvRound(11 * kFine), cvRound(8.5 * kFine), CV_32F, cv::Scalar(0.85)), light;
  for (const SheetBox& box : sheet_plan().black()) {
    const cv::Point from(cvRound((box.left + 4.25) * kFine), cvRound((box.top + 5.5) * kFine)),
        to(cvRound((box.left + box.width + 4.25) * kFine), cvRound((box.top + box.height + 5.5) * kFine));
    paper(cv::Rect(from, to)).setTo(0.04);
  }
  cv::resize(paper, light, {}, kInch / kFine, kInch / kFine, cv::INTER_AREA);
  if (blur > 0) cv::GaussianBlur(light, light, {}, blur);
  Picture picture(light.cols, light.rows);
  for (int i = 0; i < light.cols * light.rows; ++i) {
    const int row = i / light.cols, column = i % light.cols;
    const auto grey = static_cast<std::uint8_t>(std::lround(255 * colour::encoded(light.at<float>(row, column))));
    picture.set(column, row, {grey, grey, grey});
  }
  const SheetSeen sheet{{kInch, 0, 4.25 * kInch, 0, kInch, 5.5 * kInch, 0, 0, 1}, 10};
  double darkest = 1;
  for (const ScreenSeen& screen : sheet_colours(picture, sheet).screens) {
    if (screen.black < 1) darkest = std::min(darkest, colour::decoded(screen.seen[1]));
  }
  return darkest;
}

TEST(ReferenceSheet, ItsDarkFieldsAreReadClearOfTheLightThatBlurBringsFromThePaper) {
  const double sharp = darkest_field(0);
  EXPECT_NEAR(sharp, 0.0625 * 0.85 + 0.9375 * 0.04, 0.01);
  EXPECT_NEAR(darkest_field(2), sharp, 0.003);
}

TEST(ReferenceSheet, GivesInchesAtEverySlant) {
  for (const double slant : {0.0, 20.0, 33.0}) {
    const simulator::Photograph photograph = beside_four(slant);
    const auto sheet = find_sheet(picture_from(photograph.srgb));
    ASSERT_TRUE(sheet.has_value()) << slant;
    for (const SheetMark& mark : sheet_plan().marks) {
      const auto seen = sheet->picture(mark.box.left, mark.box.top);
      const cv::Point2d truth =
          simulator::projected(photograph.papers[0].photo_from_page, {4.25 + mark.box.left, 5.5 + mark.box.top});
      EXPECT_LT(std::hypot(seen[0] - 0.5 - truth.x, seen[1] - 0.5 - truth.y), 1.5) << slant;
    }
    const auto& c = photograph.cloths[0].corners;
    const auto a = sheet->sheet(c[0].x + 0.5, c[0].y + 0.5), b = sheet->sheet(c[1].x + 0.5, c[1].y + 0.5);
    EXPECT_NEAR(std::hypot(a[0] - b[0], a[1] - b[1]), 6, 0.12) << slant;
  }
}

TEST(ReferenceSheet, GivesTheInchesOfClothsFarFromIt) {
  for (const double slant : {0.0, 20.0, 33.0}) {
    const simulator::Photograph photograph = beside(12, 6, slant);
    const auto sheet = find_sheet(picture_from(photograph.srgb));
    ASSERT_TRUE(sheet.has_value()) << slant;
    const cv::Matx33d table_from_photo = photograph.photo_from_table.inv();
    double farthest = 0;
    for (const simulator::Seen& cloth : photograph.cloths) {
      const auto a = sheet->sheet(cloth.corners[0].x + 0.5, cloth.corners[0].y + 0.5),
                 b = sheet->sheet(cloth.corners[1].x + 0.5, cloth.corners[1].y + 0.5);
      const cv::Point2d side = simulator::projected(table_from_photo, cloth.corners[0]) -
                               simulator::projected(table_from_photo, cloth.corners[1]);
      EXPECT_NEAR(std::hypot(a[0] - b[0], a[1] - b[1]), cv::norm(side), 0.05) << slant << ' ' << cloth.name;
      farthest = std::max(farthest, std::hypot(a[0], a[1]));
    }
    EXPECT_GT(farthest, 30) << slant;
  }
}

TEST(ReferenceSheet, ItsOwnWordsInAWindowThatIsNotCutOutAreNoCloth) {
  const Scratch scratch;
  const std::string file = scratch.file("sheet.jpg");
  for (const bool worded : {false, true}) {
    ASSERT_TRUE(save(picture_from(beside(4, 2, 15, worded).srgb), file).ok());
    const Result<Take> taken = take(file);
    ASSERT_TRUE(taken.ok());
    EXPECT_EQ(taken->reference.kind, "sheet");
    EXPECT_EQ(taken->swatches.size(), 4U) << worded;
  }
}

TEST(ReferenceSheet, IsNotSeenWhereThereIsNone) {
  const auto all = simulator::demo_fabrics();
  const simulator::Scene scene = simulator::in_rows({all.begin() + 8, all.begin() + 14}, 3, 6, 7, 0.7, 2, Seed{3});
  const Picture picture = picture_from(simulator::photographed(scene, lamp(12), Seed{8}).srgb);
  const Reference reference = find_reference(picture);
  EXPECT_EQ(reference.kind, "none");
  EXPECT_FALSE(reference.balance.has_value());
}

/// Cloths side by side on a dark surface, underexposed, the last of them nearly white.
Reference dark_table_with(int cloths) {
  constexpr int kSide = 40;
  Picture picture(kSide * cloths, kSide, {40, 40, 44});
  std::vector<Found> found;
  for (int i = 0; i < cloths; ++i) {
    const colour::Srgb print = i + 1 == cloths ? colour::Srgb{150, 148, 140} : colour::Srgb{90, 60, 70};
    for (int row = 0; row < kSide; ++row) {
      for (int column = i * kSide; column < (i + 1) * kSide; ++column) picture.set(column, row, print);
    }
    const double left = i * kSide, right = left + kSide;
    found.push_back({{{{left, 0}, {right, 0}, {right, kSide}, {left, kSide}}}, 0, 1, "", false, false});
  }
  SurfaceSeen surface;
  surface.backdrop = {
      2, 2, {{0.16F, 0.16F, 0.17F}, {0.16F, 0.16F, 0.17F}, {0.16F, 0.16F, 0.17F}, {0.16F, 0.16F, 0.17F}}};
  Reference reference;
  add_surface(reference, picture, surface, {}, {}, found);
  return reference;
}

TEST(Reference, ManyClothsTogetherTellTheExposureByTheirPalest) {
  const std::array<double, 3> palest = {150 / 255.0, 148 / 255.0, 140 / 255.0};
  const auto lightness = [&](const Reference& reference) {
    return colour::lab_from_light(reference.balance->corrected(palest, 0, 0)).L;
  };
  const Reference many = dark_table_with(8);
  ASSERT_TRUE(many.balance.has_value());
  EXPECT_EQ(many.kind, "none");
  EXPECT_NEAR(lightness(many), 92, 1.5);
  const Reference few = dark_table_with(4);
  ASSERT_TRUE(few.balance.has_value());
  EXPECT_NEAR(lightness(few), colour::lab_from_srgb({150, 148, 140}).L, 0.5);
}

TEST(Chart, ItsValuesAreThePublishedOnesInDaylight) {
  const auto& colours = chart_colours();
  // White keeps its place under any white; the neutral patches stay neutral; blue is blue.
  EXPECT_NEAR(colours[18].L, 95.19, 0.05);
  EXPECT_NEAR(colours[18].a, -1.03, 0.4);
  EXPECT_NEAR(colours[18].b, 2.93, 0.4);
  for (int i = 19; i < 24; ++i) EXPECT_LT(std::hypot(colours[i].a, colours[i].b), 1.5) << i;
  EXPECT_LT(colours[12].b, -40);
  EXPECT_GT(colours[14].a, 40);
}

TEST(Balance, UndoesACameraItWasShownAChartWith) {
  // A camera of another kind than the model's: plain gamma, filters that leak, light from one side.
  std::vector<KnownColour> known;
  for (int i = 0; i < kChartPatches; ++i) {
    const double x = -0.5 + 0.2 * (i % 6), y = -0.3 + 0.2 * (i / 6);
    const colour::Light light = colour::light_from_lab(chart_colours()[i]);
    const double fall = std::exp(0.3 * x - 0.1 * y);
    const double r = 0.9 * light.r + 0.1 * light.g, g = 0.06 * light.r + 0.9 * light.g + 0.04 * light.b,
                 b = 0.1 * light.g + 0.9 * light.b;
    const auto seen = [&](double channel, double gain) {
      return std::clamp(std::pow(std::max(0.0, gain * fall * channel), 1 / 2.0), 0.0, 1.0);
    };
    known.push_back({{seen(r, 1.0), seen(g, 0.85), seen(b, 0.6)}, x, y, chart_colours()[i]});
  }
  const Balance balance = fitted_balance({known, {}, {}});
  std::vector<double> off;
  for (const KnownColour& k : known) {
    off.push_back(colour::delta_e_2000(colour::lab_from_light(balance.corrected(k.seen, k.x, k.y)), k.truth));
  }
  std::sort(off.begin(), off.end());
  EXPECT_LT(off[12], 1.2);
  EXPECT_LT(off[22], 3.5);
}

TEST(Balance, OneWhiteGivesGainsAndLeavesGreysGrey) {
  const Balance balance = fitted_balance({{{{0.8, 0.7, 0.5}, 0, 0, kPaperWhite}}, {}, {}});
  const colour::Lab white = colour::lab_from_light(balance.corrected({0.8, 0.7, 0.5}, 0, 0));
  EXPECT_LT(colour::delta_e_2000(white, kPaperWhite), 0.5);
  // It says nothing of the camera's filters, and what it says of the lamp leans hues alone.
  for (std::size_t row = 0; row < 3; ++row) {
    const auto* m = &balance.matrix[6 * row];
    EXPECT_NEAR(m[0] + m[1] + m[2], 1, 1e-9);
    for (std::size_t i = 3; i < 6; ++i) EXPECT_EQ(m[i], 0);
  }
  // Under a light that is white already, every grey stays grey.
  const Balance plain = fitted_balance({{{{0.8, 0.8, 0.8}, 0, 0, {90, 0, 0}}}, {}, {}});
  for (const double v : {0.1, 0.3, 0.5, 0.9}) {
    const colour::Lab grey = colour::lab_from_light(plain.corrected({v, v, v}, 0, 0));
    EXPECT_LT(std::hypot(grey.a, grey.b), 0.3) << v;
  }
}

}  // namespace
}  // namespace farflung::photo
