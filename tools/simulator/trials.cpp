#include "simulator/trials.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "simulator/light.hpp"

namespace farflung::simulator {
namespace {

constexpr std::array<Ink, 8> kTables = {0xf1eee8, 0xe3ddd0, 0xd9cfc0, 0xb9b4aa, 0x8c8f92, 0x6b5f55, 0x3c3f45, 0x26282c};
constexpr double kMillimetre = 1 / 25.4;

colour::Lab lab_of_ink(Ink ink) {
  return lab_of(
      {linear_from_srgb(ink.red / 255.0), linear_from_srgb(ink.green / 255.0), linear_from_srgb(ink.blue / 255.0)});
}

double apart(const colour::Lab& a, const colour::Lab& b) { return std::hypot(a.L - b.L, a.a - b.a, a.b - b.b); }

int cloths_drawn(const Range& range, Rng& rng) {
  constexpr std::array<std::array<int, 2>, 3> kBands = {{{1, 1}, {2, 9}, {10, 30}}};
  std::vector<std::array<int, 2>> open;
  for (const auto& band : kBands) {
    const int low = std::max(band[0], range.fewest), high = std::min(band[1], range.most);
    if (low <= high) open.push_back({low, high});
  }
  const auto band = open[rng.below(static_cast<std::uint32_t>(open.size()))];
  return band[0] + static_cast<int>(rng.below(static_cast<std::uint32_t>(band[1] - band[0] + 1)));
}

// A table of another colour than every ink on it; over half of them pale, as tables are.
Surface table_for(const std::vector<Fabric>& fabrics, Rng& rng) {
  Surface surface;
  double best = -1;
  for (int tries = 0; tries < 12 && best < 5; ++tries) {
    const Ink ink = kTables[rng.below(2) == 0 ? rng.below(3) : rng.below(kTables.size())];
    const double share = rng.between(0, 0.06);
    const Ink shade = mixed(ink, rng.below(2) == 0 ? 0x000000 : 0xffffff, share);
    double nearest = 1e9;
    for (const Fabric& fabric : fabrics) {
      for (const Ink dye : fabric.inks) nearest = std::min(nearest, apart(lab_of_ink(dye), lab_of_ink(shade)));
    }
    if (nearest > best) {
      best = nearest;
      surface.ink = shade;
    }
  }
  surface.unevenness = rng.between(0.005, 0.03);
  return surface;
}

Scene laid(const std::vector<Fabric>& fabrics, Seed seed) {
  Rng rng(seed);
  const int count = static_cast<int>(fabrics.size());
  const double shape = rng.between(0.75, 1.35), width = rng.between(5, 9);
  const int across = std::max(1, static_cast<int>(std::ceil(std::sqrt(count * rng.between(1.0, 1.7)))));
  const bool fat_quarters = count >= 10;
  const double longer = width * std::max(1.0, shape);
  const double gap = fat_quarters ? rng.between(4, 10) * kMillimetre : longer * rng.between(0.1, 0.25);
  // Neighbours that turn towards each other still leave some of the gap.
  const double most_askew = std::asin(fat_quarters ? 0.3 * gap / longer : 0.45 * gap / longer) * 180 / CV_PI;
  const double askew = fat_quarters ? most_askew : std::min(most_askew, rng.between(1, 8));
  Scene scene = in_rows(fabrics, std::min(across, count), width, width * shape, gap, askew, seed);
  const auto edge = fat_quarters ? Placed::Edge::folded : static_cast<Placed::Edge>(rng.below(3));
  for (Placed& cloth : scene.cloths) {
    if (fat_quarters) {
      cloth.width = width * rng.between(0.998, 1.002);
      cloth.height = width * shape * rng.between(0.998, 1.002);
    }
    cloth.edge = edge;
    cloth.thickness = edge == Placed::Edge::folded ? rng.between(0.05, 0.12) : rng.between(0.01, 0.03);
    cloth.creased = edge != Placed::Edge::folded && rng.below(3) == 0;
    cloth.ripples = rng.between(0.005, 0.025);
    cloth.waviness = rng.between(0, 0.002) * width;
  }
  scene.surface = table_for(fabrics, rng);
  return scene;
}

Shot shot_drawn(const Range& range, const Scene& scene, Rng& rng) {
  Shot shot;
  const double longest = range.longest_side;
  shot.camera.slant = range.slant * std::sqrt(rng.uniform());
  shot.camera.azimuth = 90 + rng.between(-60, 60);
  shot.camera.roll = rng.between(-6, 6);
  shot.camera.view = rng.between(42, 66);
  shot.camera.margin = scene.strays.empty() ? rng.between(0.03, 0.09) : 0.15;
  const bool wide = scene.cloths.size() > 1 || rng.below(2) == 0;
  shot.camera.pixels =
      wide ? cv::Size(cvRound(longest), cvRound(longest * 0.75)) : cv::Size(cvRound(longest * 0.75), cvRound(longest));
  // Mireds, in which warm and cold lamps are as far apart as they look.
  shot.light.kelvin = 1e6 / rng.between(1e6 / range.coldest, 1e6 / range.warmest);
  shot.light.fall_off = rng.between(0, range.fall_off);
  shot.light.fall_off_toward = rng.between(0, 360);
  shot.light.shadow_toward = shot.light.fall_off_toward + rng.between(-30, 30);
  shot.light.shadow_depth = rng.between(0.25, 0.6);
  if (range.cast > 0 && rng.below(4) == 0) {
    shot.light.cast_depth = rng.between(0.1, range.cast);
    shot.light.cast_reach = rng.between(0.15, 0.6);
    shot.light.cast_from = rng.between(0, 360);
    shot.light.cast_softness = rng.between(0.04, 0.25);
  }
  shot.develop.balance = rng.between(0.6, 0.97);
  shot.develop.tint = rng.between(-0.03, 0.03);
  shot.develop.metered = true;
  shot.develop.exposure = rng.between(-range.exposure, range.exposure);
  shot.develop.vignette = rng.between(0, 0.2);
  shot.develop.blur = rng.between(0.4, range.blur) * longest / 1600;
  shot.develop.noise = rng.between(0.002, range.noise);
  shot.develop.tone = rng.between(0, range.tone);
  shot.develop.sharpening = rng.between(0, 0.5);
  shot.develop.jpeg_quality =
      range.worst_jpeg +
      static_cast<int>(rng.below(static_cast<std::uint32_t>(range.best_jpeg - range.worst_jpeg + 1)));
  return shot;
}

Stray stray_drawn(Rng& rng) {
  constexpr std::array<Ink, 4> kSkins = {0xe2b79b, 0xc99a7c, 0x9a6b4c, 0x5f4030};
  Stray stray;
  stray.kind = rng.below(2) == 0 ? Stray::Kind::hand : Stray::Kind::scissors;
  stray.skin =
      stray.kind == Stray::Kind::hand ? kSkins[rng.below(4)] : (rng.below(2) == 0 ? Ink(0xd9622b) : Ink(0x2a2a2e));
  stray.side = static_cast<int>(rng.below(4));
  stray.length = rng.between(0.22, 0.42);
  stray.place = rng.between(0.15, 0.85);
  stray.reach = rng.between(0.04, 0.12);
  stray.lean = rng.between(-25, 25);
  return stray;
}

/// What lies on the table is remnants, each of its own size, and the table of any kind, where the range says so.
void vary(Scene& scene, const Range& range, Rng rng) {
  if (range.any_table) scene.surface.kind = static_cast<Surface::Kind>(rng.below(3));
  if (range.smaller == 0) return;
  for (Placed& cloth : scene.cloths) {
    cloth.width *= rng.between(1 - range.smaller, 1);
    cloth.height *= rng.between(1 - range.smaller, 1);
  }
}

Trial with(const std::vector<Fabric>& fabrics, Seed seed, const Range& range) {
  Rng rng(derived(seed, 2));
  Trial trial{laid(fabrics, derived(seed, 3)), {}, seed};
  vary(trial.scene, range, Rng(derived(seed, 5)));
  if (range.strays && rng.below(5) == 0) trial.scene.strays.push_back(stray_drawn(rng));
  trial.shot = shot_drawn(range, trial.scene, rng);
  return trial;
}

}  // namespace

Seed trial_seed(Purpose purpose, int number) {
  return derived(Seed{purpose == Purpose::tuning ? 0x7475u : 0x7465u}, static_cast<std::uint64_t>(number));
}

Trial trial(Seed seed, const Range& range) {
  Rng rng(derived(seed, 1));
  const int count = cloths_drawn(range, rng);
  std::vector<Fabric> fabrics = bundle(std::max(count, 24), derived(seed, 4));
  rng.shuffle(std::span(fabrics));
  fabrics.resize(static_cast<std::size_t>(count));
  return with(fabrics, seed, range);
}

Trial retaken(const Trial& trial, Seed seed, const Range& range) {
  std::vector<Fabric> fabrics;
  for (const Placed& cloth : trial.scene.cloths) fabrics.push_back(cloth.fabric);
  return with(fabrics, seed, range);
}

Fabric sister_of(const Fabric& fabric, Seed seed) {
  Rng rng(seed);
  Fabric sister = fabric;
  sister.seed = seed;
  sister.motif *= rng.below(2) == 0 ? rng.between(0.72, 0.82) : rng.between(1.22, 1.4);
  const Ink toward_ink =
      rng.below(2) == 0 ? Ink(rng.below(2) == 0 ? 0xff9060 : 0x5080ff) : Ink(rng.below(2) == 0 ? 0x60c080 : 0xc060c0);
  for (Ink& ink : sister.inks) ink = mixed(ink, toward_ink, 0.10);
  return sister;
}

Photograph photographed(const Trial& trial) { return photographed(trial.scene, trial.shot, trial.seed); }

}  // namespace farflung::simulator
