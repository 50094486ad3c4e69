#include "simulator/demo.hpp"

#include <algorithm>
#include <cassert>

namespace farflung::simulator {
namespace {

constexpr Ink kPaleTable = 0xe9e5dd;
constexpr Ink kSlate = 0x3a3d42;

std::vector<Fabric> named(const std::vector<std::string>& names) {
  const std::vector<Fabric> all = demo_fabrics();
  std::vector<Fabric> found;
  for (const std::string& name : names) {
    const auto one = std::find_if(all.begin(), all.end(), [&](const Fabric& fabric) { return fabric.name == name; });
    assert(one != all.end());
    found.push_back(*one);
  }
  return found;
}

/// A telephone held by hand in a hall.
Develop telephone() {
  Develop develop;
  develop.balance = 0.85;
  develop.tone = 0.3;
  develop.exposure = 0.2;
  develop.vignette = 0.06;
  develop.blur = 0.7;
  develop.noise = 0.008;
  develop.sharpening = 0.25;
  develop.jpeg_quality = 84;
  return develop;
}

void lit(DemoPhotograph& photograph, double kelvin, double fall_off, double fall_off_toward, double shadow_toward) {
  Light& light = photograph.shot.light;
  light.kelvin = kelvin;
  light.fall_off = fall_off;
  light.fall_off_toward = fall_off_toward;
  light.shadow_toward = shadow_toward;
}

DemoPhotograph table_of_six(const std::string& file, const std::vector<std::string>& names, std::uint64_t seed) {
  DemoPhotograph photograph{file, in_rows(named(names), 3, 8.5, 7.5, 1.3, 3.5, Seed{seed}), {}, Seed{seed}};
  photograph.scene.surface.ink = kPaleTable;
  for (Placed& cloth : photograph.scene.cloths) {
    cloth.edge = Placed::Edge::folded;
    cloth.thickness = 0.07;
    cloth.creased = false;
  }
  photograph.shot.camera.pixels = {2200, 1440};
  photograph.shot.develop = telephone();
  return photograph;
}

DemoPhotograph one_alone(const std::string& file, const std::string& name, Placed::Edge edge, std::uint64_t seed) {
  DemoPhotograph photograph{file, in_rows(named({name}), 1, 8, 10, 1, 4, Seed{seed}), {}, Seed{seed}};
  photograph.scene.surface.ink = kPaleTable;
  Placed& cloth = photograph.scene.cloths[0];
  cloth.edge = edge;
  cloth.creased = edge == Placed::Edge::pinked;
  if (edge == Placed::Edge::folded) cloth.thickness = 0.08;
  photograph.shot.camera.pixels = {1200, 1440};
  photograph.shot.camera.margin = 0.09;
  photograph.shot.develop = telephone();
  return photograph;
}

}  // namespace

std::vector<Fabric> demo_fabrics() {
  return {
      {"Kelp", "kelp", {0x0d2b33, 0x17424a, 0x24594f, 0x4c7f66, 0x9db068}, 1.7, {11}},
      {"Foghorn", "scrolls", {0x939fa8, 0xb0bac0}, 1.1, {12}},
      {"Buoy", "dots", {0xca3e29, 0xf4e6d2}, 0.75, {13}},
      {"Gannet", "gannets", {0xd5e5e9, 0xfcf9f2, 0x2c3a48, 0xd9a441, 0xb5cbd2}, 1.5, {14}},
      {"Slipway", "awning", {0xf0e6d2, 0x3f6f86, 0xc9573c}, 0.9, {15}},
      {"Oilskin", "foliage", {0xd69e2c, 0xe8bb57, 0xdfab3f}, 0.9, {16}},
      {"Lantern", "batik leaves", {0x8c3a1c, 0xb9601f, 0xd98a2b, 0xf3d089}, 1.3, {17}},
      {"Breaker", "breakers", {0x15294a, 0x3a6a94, 0xb9cfd8}, 0.9, {18}},
      {"Sailcloth", "sailcloth", {0xf0ebe1, 0xfcf9f2}, 1.2, {19}},
      {"Logbook", "log book", {0xeee2c9, 0x4a535d, 0xb4513a}, 1.2, {20}},
      {"Thrift", "thrift", {0xcfe0d6, 0xc9647f, 0xf0b7c0, 0x5d8a6b}, 1.0, {21}},
      {"Samphire", "sprig", {0x6d9280, 0xf2ecd9, 0xd9a441, 0x2f5a49, 0xdfe7c9}, 0.8, {22}},
      {"Shingle", "shingle", {0x53575d, 0x858a8f, 0xb3ac9f, 0x998776, 0xcfcabf, 0x6d7a85}, 0.7, {23}},
      {"Nightwatch", "hand dyed", {0x2c4272, 0x1b2b52, 0x101d3a, 0x1d3a5c}, 1.6, {24}},
      {"Cockle", "cockles", {0xf3d8c7, 0xe59f88, 0xbd6a58, 0xfaf1e6}, 0.95, {25}},
      {"Galley", "gingham", {0xf4efe4, 0x2f8b8b}, 0.5, {26}},
      {"Tiller", "plaid", {0xab8a5e, 0x7a2c25, 0x1b2f4a, 0xe6d7b8}, 2.2, {27}},
      {"Compass", "compass", {0x183a52, 0xf0e2bd, 0x7ea9b0, 0xd9a441}, 1.2, {28}},
      {"Trawl", "net", {0x1f6e76, 0xcfe6dc, 0xf2d08a}, 0.9, {29}},
      {"Quayside", "meadow", {0x111c36, 0xbd4a38, 0xe08c72, 0xe8c15d, 0x3f7268, 0xf6e7d5}, 1.6, {30}},
  };
}

std::vector<DemoPhotograph> demo_photographs() {
  using Edge = Placed::Edge;
  std::vector<DemoPhotograph> all;
  all.push_back(table_of_six("01-table.jpg", {"Kelp", "Buoy", "Gannet", "Slipway", "Oilskin", "Trawl"}, 101));
  all.back().shot.camera.slant = 12;
  all.back().shot.camera.azimuth = 80;
  lit(all.back(), 5200, 0.14, 25, 35);

  all.push_back(table_of_six("02-table.jpg", {"Foghorn", "Lantern", "Breaker", "Thrift", "Logbook", "Tiller"}, 102));
  all.back().shot.camera.slant = 21;
  all.back().shot.camera.azimuth = 104;
  lit(all.back(), 3600, 0.24, 200, 220);

  all.push_back(one_alone("03-samphire.jpg", "Samphire", Edge::pinked, 103));
  lit(all.back(), 5600, 0.1, 60, 50);
  all.push_back(one_alone("04-shingle.jpg", "Shingle", Edge::folded, 104));
  all.back().shot.camera.slant = 16;
  lit(all.back(), 4300, 0.2, 140, 120);
  all.push_back(one_alone("05-nightwatch.jpg", "Nightwatch", Edge::folded, 105));
  lit(all.back(), 6800, 0.15, 20, 30);
  all.push_back(one_alone("06-cockle.jpg", "Cockle", Edge::pinked, 106));
  all.back().scene.surface.ink = kSlate;
  lit(all.back(), 5400, 0.1, 300, 310);
  all.push_back(one_alone("07-galley.jpg", "Galley", Edge::pinked, 107));
  all.back().shot.camera.slant = 9;
  all.back().shot.camera.azimuth = 200;
  lit(all.back(), 3900, 0.18, 90, 70);
  all.push_back(one_alone("08-compass.jpg", "Compass", Edge::folded, 108));
  all.back().shot.camera.slant = 14;
  lit(all.back(), 6200, 0.12, 170, 190);
  all.push_back(one_alone("09-sailcloth.jpg", "Sailcloth", Edge::folded, 109));
  all.back().scene.surface.ink = kSlate;
  lit(all.back(), 6000, 0.08, 240, 230);

  all.push_back(one_alone("10-quayside.jpg", "Quayside", Edge::cut, 110));
  all.back().shot.camera.margin = -0.07;
  all.back().shot.camera.pixels = {1440, 1440};
  lit(all.back(), 5800, 0.1, 45, 45);
  return all;
}

}  // namespace farflung::simulator
