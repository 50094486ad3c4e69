#include "simulator/demo.hpp"

#include <filesystem>
#include <fstream>
#include <set>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace farflung::simulator {
namespace {

const std::filesystem::path kFolder = std::filesystem::path(FARFLUNG_SOURCE) / "data" / "demo";

nlohmann::json read(const std::string& file) {
  std::ifstream in(kFolder / file);
  return nlohmann::json::parse(in);
}

TEST(Demo, ThePhotographsKeptAreThoseTheGeneratorMakes) {
  const nlohmann::json truth = read("truth.json"), names = read("names.json");
  const std::vector<DemoPhotograph> photographs = demo_photographs();
  ASSERT_EQ(truth.size(), photographs.size());
  std::size_t print = 0;
  for (std::size_t i = 0; i < photographs.size(); ++i) {
    const DemoPhotograph& one = photographs[i];
    EXPECT_EQ(truth[i]["file"], one.file);
    EXPECT_TRUE(std::filesystem::exists(kFolder / "photographs" / one.file)) << one.file;
    std::vector<cv::Point2d> frame;
    for (const Placed& cloth : one.scene.cloths) {
      for (const cv::Point2d corner : corners_of(cloth)) frame.push_back(corner);
    }
    const cv::Matx33d seen = photo_from_table(one.shot.camera, frame);
    for (std::size_t k = 0; k < one.scene.cloths.size(); ++k) {
      const nlohmann::json& cloth = truth[i]["cloths"][k];
      EXPECT_EQ(cloth["name"], one.scene.cloths[k].fabric.name);
      EXPECT_EQ(names[print++], one.scene.cloths[k].fabric.name);
      if (cloth["fills_frame"]) continue;
      const cv::Point2d corner = projected(seen, corners_of(one.scene.cloths[k])[0]);
      EXPECT_NEAR(cloth["corners"][0][0], corner.x, 0.01);
      EXPECT_NEAR(cloth["corners"][0][1], corner.y, 0.01);
    }
  }
}

TEST(Demo, EveryPrintIsPhotographedOnce) {
  std::multiset<std::string> seen, all;
  for (const Fabric& fabric : demo_fabrics()) all.insert(fabric.name);
  for (const DemoPhotograph& one : demo_photographs()) {
    for (const Placed& cloth : one.scene.cloths) seen.insert(cloth.fabric.name);
  }
  EXPECT_EQ(seen, all);
}

TEST(Demo, ThePhotographsAreSmallEnoughToKeep) {
  std::uintmax_t bytes = 0;
  for (const auto& file : std::filesystem::directory_iterator(kFolder / "photographs")) bytes += file.file_size();
  EXPECT_LT(bytes, 5'000'000u);
}

}  // namespace
}  // namespace farflung::simulator
