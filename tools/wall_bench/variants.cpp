#include "wall_bench/variants.hpp"

namespace farflung::wall_bench {
namespace {

using simulator::Hanging;
using simulator::Shot;
using simulator::Surface;

void tidy(Hanging&, Shot& shot) {
  shot.camera.slant = 6;
  shot.light.kelvin = 5000;
  shot.light.fall_off = 0.08;
  shot.develop.metered = true;
  shot.develop.balance = 0.9;
  shot.develop.tone = 0.5;
  shot.develop.blur = 0.6;
  shot.develop.noise = 0.005;
  shot.develop.jpeg_quality = 92;
}

}  // namespace

const std::vector<Variant>& variants() {
  static const std::vector<Variant> all = {
      {"tidy", tidy},
      {"gaps of 0.8 in", [](Hanging& hanging, Shot&) { hanging.gap = 0.8; }},
      {"edges overlapping", [](Hanging& hanging, Shot&) { hanging.gap = -0.2; }},
      {"hung askew", [](Hanging& hanging, Shot&) { hanging.askew = 3, hanging.astray = 0.3, hanging.pulled = 0.12; }},
      {"unsewn patches", [](Hanging& hanging, Shot&) { hanging.state = Hanging::State::patches; }},
      {"wrinkles", [](Hanging& hanging, Shot&) { hanging.wrinkles = 0.15; }},
      {"a shadow across", [](Hanging&, Shot& shot) { shot.light.cast_depth = 0.35; }},
      {"slant of 30 degrees", [](Hanging&, Shot& shot) { shot.camera.slant = 30; }},
      {"a corner cut off",
       [](Hanging&, Shot& shot) {
         shot.camera.roll = 10, shot.camera.margin = 0.01, shot.camera.shift = {0.03, 0};
       }},
      {"pale wall", [](Hanging& hanging, Shot&) { hanging.wall.ink = 0xf4f2ee; }},
      {"patterned floor",
       [](Hanging& hanging, Shot&) {
         hanging.wall = {Surface::Kind::wood, 0x6b4a35, 0.02};
       }},
      {"floor, corner cards",
       [](Hanging& hanging, Shot&) {
         hanging.wall = {Surface::Kind::wood, 0x6b4a35, 0.02};
         pin_cards(hanging);
       }},
      {"slant, three cards",
       [](Hanging& hanging, Shot& shot) {
         shot.camera.slant = 30;
         pin_cards(hanging, {0, 1, 2});
       }},
      {"fall-off of 40 %", [](Hanging&, Shot& shot) { shot.light.fall_off = 0.4; }},
      {"lamp light, 2700 K", [](Hanging&, Shot& shot) { shot.light.kelvin = 2700, shot.develop.balance = 0.65; }},
      {"noise", [](Hanging&, Shot& shot) { shot.develop.noise = 0.03; }},
      {"JPEG of 50", [](Hanging&, Shot& shot) { shot.develop.jpeg_quality = 50; }},
      {"blur", [](Hanging&, Shot& shot) { shot.develop.blur = 2.5; }},
  };
  return all;
}

Wall wall_so(const Variant& variant, const Wanted& wanted, Seed seed) {
  Hanging hanging;
  Shot shot;
  shot.camera.pixels = wanted.pixels;
  tidy(hanging, shot);
  variant.make(hanging, shot);
  return wall_of(wanted, hanging, shot, seed);
}

}  // namespace farflung::wall_bench
