// Photographs the demo's prints into a folder, with the truth beside them: make_demo data/demo
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include <nlohmann/json.hpp>

#include "simulator/demo.hpp"

namespace {

using namespace farflung;
using namespace farflung::simulator;
using Json = nlohmann::ordered_json;

double rounded(double value) { return std::round(value * 100) / 100; }

Json truth_about(const Seen& cloth, const Fabric& fabric) {
  Json corners = Json::array();
  for (const cv::Point2d corner : cloth.corners) corners.push_back({rounded(corner.x), rounded(corner.y)});
  const Truth truth = truth_of(fabric);
  return {{"name", cloth.name},
          {"corners", corners},
          {"fills_frame", cloth.fills_frame},
          {"lab", {rounded(cloth.lab.L), rounded(cloth.lab.a), rounded(cloth.lab.b)}},
          {"cloth_lab", {rounded(truth.lab.L), rounded(truth.lab.a), rounded(truth.lab.b)}},
          {"motif", fabric.motif}};
}

bool write_json(const std::filesystem::path& file, const Json& value) {
  std::ofstream out(file);
  out << value.dump(1) << '\n';
  return static_cast<bool>(out.flush());
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) {
    std::fprintf(stderr, "make_demo DIR: writes DIR/photographs, DIR/truth.json and DIR/names.json\n");
    return 2;
  }
  const std::filesystem::path folder = words[1];
  std::error_code failed;
  std::filesystem::create_directories(folder / "photographs", failed);

  Json truth = Json::array(), names = Json::array();
  for (const DemoPhotograph& one : demo_photographs()) {
    const Photograph photograph = photographed(one.scene, one.shot, one.seed);
    const auto bytes = jpeg_of(photograph.srgb, one.shot.develop.jpeg_quality);
    const bool good = written((folder / "photographs" / one.file).string(), bytes);
    Json cloths = Json::array();
    for (std::size_t i = 0; i < photograph.cloths.size(); ++i) {
      cloths.push_back(truth_about(photograph.cloths[i], one.scene.cloths[i].fabric));
      names.push_back(photograph.cloths[i].name);
    }
    truth.push_back({{"file", one.file}, {"cloths", cloths}});
    if (!good) {
      std::fprintf(stderr, "make_demo: cannot write %s\n", one.file.c_str());
      return 1;
    }
    std::printf("%s  %zu bytes\n", one.file.c_str(), bytes.size());
  }
  return write_json(folder / "truth.json", truth) && write_json(folder / "names.json", names) ? 0 : 1;
}
