// The demo's photographs, whose truth was written down when they were made, taken in as a user would.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <unistd.h>

#include "job/new_quilt.hpp"
#include "job/photo.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

const fs::path kDemo = fs::path(FARFLUNG_SOURCE) / "data" / "demo";

/// One cloth, as it was and as it was found.
struct Cloth {
  std::string name;
  double corner_error = 0;  ///< the worst corner's, as a share of the cloth's side
  double true_lightness = 0, lightness = 0;
};

double apart(const json& a, const json& b) {
  return std::hypot(a[0].get<double>() - b[0].get<double>(), a[1].get<double>() - b[1].get<double>());
}

/// The truth counts pixels from the middle of the first, the program from its outer corner.
json from_outer_corner(const json& corner) { return {corner[0].get<double>() + 0.5, corner[1].get<double>() + 0.5}; }

Cloth compared(const json& truth, const json& found) {
  Cloth cloth{truth["name"], 0, truth["cloth_lab"][0], found["lab"][0]};
  if (truth["fills_frame"]) return cloth;
  double side = 1e9;
  for (int i = 0; i < 4; ++i) side = std::min(side, apart(truth["corners"][i], truth["corners"][(i + 1) % 4]));
  for (int i = 0; i < 4; ++i) {
    const double error = apart(from_outer_corner(truth["corners"][i]), found["corners"][i]);
    cloth.corner_error = std::max(cloth.corner_error, error / side);
  }
  return cloth;
}

std::vector<Cloth> all_cloths() {
  const fs::path folder = fs::temp_directory_path() / ("farflung-demo-truth-" + std::to_string(::getpid()));
  fs::remove_all(folder);
  NewQuilt quilt;
  quilt.folder = folder.string();
  EXPECT_TRUE(new_quilt(quilt).ok());

  std::vector<Cloth> cloths;
  for (const json& photograph : json::parse(std::ifstream(kDemo / "truth.json"))) {
    TakePhotographs options;
    options.folder = quilt.folder;
    options.files = {(kDemo / "photographs" / photograph["file"].get<std::string>()).string()};
    const Outcome taken = take_photographs(options, [](const Progress&) { return true; });
    if (!taken) {
      ADD_FAILURE() << taken.problems().front().text();
      continue;
    }
    const json found = json::parse(taken->json)["prints"];
    EXPECT_EQ(found.size(), photograph["cloths"].size()) << photograph["file"];
    for (std::size_t i = 0; i < std::min(found.size(), photograph["cloths"].size()); ++i) {
      cloths.push_back(compared(photograph["cloths"][i], found[i]));
    }
  }
  fs::remove_all(folder);
  return cloths;
}

TEST(DemoPhotographs, GiveEverySwatchItsCornersAndTheBundleItsOrderOfLightness) {
  const std::vector<Cloth> cloths = all_cloths();
  ASSERT_EQ(cloths.size(), 20U);
  for (const Cloth& cloth : cloths) EXPECT_LT(cloth.corner_error, 0.01) << cloth.name;

  // Kendall's tau; and whatever differs by more than 3 L* stands the right way round.
  int agree = 0;
  int pairs = 0;
  for (std::size_t i = 0; i < cloths.size(); ++i) {
    for (std::size_t j = i + 1; j < cloths.size(); ++j) {
      const double truly = cloths[i].true_lightness - cloths[j].true_lightness;
      const bool same = truly * (cloths[i].lightness - cloths[j].lightness) > 0;
      agree += same ? 1 : -1;
      ++pairs;
      EXPECT_TRUE(same || std::abs(truly) < 3) << cloths[i].name << " and " << cloths[j].name;
    }
  }
  EXPECT_GE(static_cast<double>(agree) / pairs, 0.97);
}

}  // namespace
}  // namespace farflung::job
