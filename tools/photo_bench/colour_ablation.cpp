// colour_ablation FIRST COUNT [test]: where the colour error of simulated photographs comes from. The program's
// curve, light and colour of the light are put in the place of the true ones, one at a time; prints dE00 of each
// cloth's mean colour, median and 95th percentile.
#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include <unistd.h>

#include "photo/take.hpp"
#include "photo_bench/printed_sheet.hpp"
#include "simulator/trials.hpp"

namespace {

using namespace farflung;

struct Case {
  const char* what;
  bool true_curve, true_light, true_colour;
  std::vector<double> dE;
};

/// The parts of a balance that can be changed for the true ones.
class Undoing {
 public:
  Undoing(const simulator::Photograph& truth, double tone, const photo::Balance& fitted, const Case& how)
      : truth_(truth), fitted_(fitted), how_(how), inverse_(truth.exposure.colour.inv()) {
    for (int v = 0; v < 256; ++v) {
      const double seen = v / 255.0;
      curve_[v] = how.true_curve ? simulator::sensor_light(seen, tone) : fitted.curve.light(seen);
    }
  }

  /// Light in daylight but for one factor for all.
  cv::Vec3d at(cv::Point2d p) const {
    const cv::Mat& srgb = truth_.srgb;
    const cv::Point pixel(std::clamp(cvRound(p.x), 0, srgb.cols - 1), std::clamp(cvRound(p.y), 0, srgb.rows - 1));
    const cv::Vec3b seen = srgb.at<cv::Vec3b>(pixel);
    cv::Vec3d light(curve_[seen[0]], curve_[seen[1]], curve_[seen[2]]);
    light *= 1 / (how_.true_light ? truth_.exposure.lit.at<float>(pixel) : fitted_light(pixel));
    if (how_.true_colour) return inverse_ * light;
    return light;
  }

 private:
  double fitted_light(cv::Point pixel) const {
    const double x = 2 * (pixel.x + 0.5) / truth_.srgb.cols - 1, y = 2 * (pixel.y + 0.5) / truth_.srgb.rows - 1;
    return fitted_.light_at(x, y);
  }

  const simulator::Photograph& truth_;
  const photo::Balance& fitted_;
  const Case& how_;
  cv::Matx33d inverse_;
  std::array<double, 256> curve_{};
};

cv::Vec3d mean_of(const Undoing& undoing, const std::array<cv::Point2d, 4>& corners, double inset) {
  constexpr int kSteps = 60;
  cv::Vec3d sum(0, 0, 0);
  for (int i = 0; i < kSteps * kSteps; ++i) {
    const double u = inset + (1 - 2 * inset) * (i % kSteps + 0.5) / kSteps,
                 v = inset + (1 - 2 * inset) * (i / kSteps + 0.5) / kSteps;
    const cv::Point2d top = corners[0] + (corners[1] - corners[0]) * u,
                      low = corners[3] + (corners[2] - corners[3]) * u;
    sum += undoing.at(top + (low - top) * v);
  }
  return sum * (1.0 / (kSteps * kSteps));
}

/// Makes the sheet's paper what office paper is: gains of the channels and the program's leaning of hues, or one factor
/// where the colour is true.
cv::Matx33d whitened(const Undoing& undoing, const photo::SheetSeen& sheet, const photo::Balance& fitted,
                     bool true_colour) {
  cv::Vec3d seen(0, 0, 0);
  for (const double x : {-3.03, 3.03}) {
    for (const double y : {-2.9, 2.9}) {
      const auto p = sheet.picture(x, y);
      const std::array<cv::Point2d, 4> spot = {
          cv::Point2d(p[0] - 4, p[1] - 4), {p[0] + 4, p[1] - 4}, {p[0] + 4, p[1] + 4}, {p[0] - 4, p[1] + 4}};
      seen += mean_of(undoing, spot, 0) * 0.25;
    }
  }
  const colour::Light paper = colour::light_from_lab(photo::kPaperWhite);
  if (true_colour) return cv::Matx33d::eye() * (paper.g / seen[1]);
  cv::Matx33d hues;
  for (int i = 0; i < 9; ++i) hues.val[i] = fitted.matrix[i / 3 * 6 + i % 3];
  const cv::Vec3d neutral = hues.inv() * cv::Vec3d(paper.r, paper.g, paper.b);
  return hues * cv::Matx33d::diag({neutral[0] / seen[0], neutral[1] / seen[1], neutral[2] / seen[2]});
}

void print_case(const Case& how) {
  std::vector<double> sorted = how.dE;
  std::sort(sorted.begin(), sorted.end());
  if (sorted.empty()) return;
  std::printf("%-45s %6.2f %6.2f\n", how.what, sorted[sorted.size() / 2], sorted[sorted.size() * 95 / 100]);
}

}  // namespace

int main(int count, char** words) {
  if (count < 3) {
    std::fputs("usage: colour_ablation FIRST COUNT [test]\n", stderr);
    return 2;
  }
  const int first = std::atoi(words[1]), last = first + std::atoi(words[2]);
  const auto purpose =
      count > 3 && std::string(words[3]) == "test" ? simulator::Purpose::test : simulator::Purpose::tuning;
  std::vector<Case> cases = {{"as it is", false, false, false, {}},
                             {"true curve", true, false, false, {}},
                             {"true light", false, true, false, {}},
                             {"true colour of the light", false, false, true, {}},
                             {"true curve and light", true, true, false, {}},
                             {"true curve and colour", true, false, true, {}},
                             {"all true: clipping and noise are left", true, true, true, {}}};
  const std::string file = std::filesystem::temp_directory_path() / ("ablation_" + std::to_string(getpid()) + ".jpg");
  for (int number = first; number < last; ++number) {
    const Seed seed = simulator::trial_seed(purpose, number);
    simulator::Trial trial = simulator::trial(seed);
    simulator::lay_beside(trial.scene, photo_bench::printed_sheet(derived(seed, 9)), 0.8);
    const simulator::Photograph photograph = simulator::photographed(trial);
    if (!simulator::written(file, simulator::jpeg_of(photograph.srgb, trial.shot.develop.jpeg_quality))) return 1;
    const auto taken = photo::take(file);
    if (!taken || !taken->reference.sheet || !taken->reference.balance) continue;
    for (Case& how : cases) {
      const Undoing undoing(photograph, trial.shot.develop.tone, *taken->reference.balance, how);
      const cv::Matx33d white = whitened(undoing, *taken->reference.sheet, *taken->reference.balance, how.true_colour);
      for (const simulator::Seen& cloth : photograph.cloths) {
        const cv::Vec3d light = white * mean_of(undoing, cloth.corners, 0.06);
        const colour::Lab lab = colour::lab_from_light({light[0], light[1], light[2]});
        how.dE.push_back(colour::delta_e_2000(lab, cloth.lab));
      }
    }
  }
  std::printf("%-45s %6s %6s\n", "dE00 of the mean colour", "median", "95th");
  for (const Case& how : cases) print_case(how);
  std::filesystem::remove(file);
  return 0;
}
