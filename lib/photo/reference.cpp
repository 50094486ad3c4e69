#include "photo/reference.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/core.hpp>

#include "photo/chart.hpp"
#include "photo/sides.hpp"

namespace farflung::photo {
namespace {

/// What pale tables and cutting mats are, white to cream, when nothing tells this one. Its L* is taken as it is for the
/// colour's sake, and then weighed against what the cloths say.
constexpr colour::Lab kPaleSurface = {89, 0, 5};
constexpr std::array<double, 3> kPaleGood = {1.4, 1.5, 4};
constexpr double kPaleLightness = 87.5, kPaleLightnessGood = 5;

/// As light as most cloth is, encoded.
constexpr double kMiddleGrey = 0.57;

/// Other surfaces are greys, slates and woods of any lightness; or cutting mats, greener or bluer than lamps make grey:
/// those say nothing.
constexpr double kOtherYellow = 3, kGreenest = -9, kPinkest = 9, kBluest = -12;
constexpr std::array<double, 3> kOtherGood = {1.4, 1.5, 8}, kNoGood = {1.4, 100, 100};

Corners outline_of(const SheetSeen& sheet) {
  // Letter or A4: the wider and the longer of both.
  constexpr double kHalfWidth = 4.25, kHalfHeight = 5.85;
  return {sheet.picture(-kHalfWidth, -kHalfHeight), sheet.picture(kHalfWidth, -kHalfHeight),
          sheet.picture(kHalfWidth, kHalfHeight), sheet.picture(-kHalfWidth, kHalfHeight)};
}

/// A chart's frame reaches a little beyond its patches.
Corners widened(const Corners& corners, double by) {
  double x = 0, y = 0;
  for (const auto& p : corners) x += p[0] / 4, y += p[1] / 4;
  Corners wide = corners;
  for (auto& p : wide) p = {x + (p[0] - x) * by, y + (p[1] - y) * by};
  return wide;
}

std::vector<KnownColour> pointed_at(const Picture& picture, const std::array<double, 2>& white) {
  const double radius = 0.006 * std::max(picture.columns, picture.rows);
  std::array<double, 3> sum{};
  int count = 0;
  for (int row = static_cast<int>(white[1] - radius); row <= white[1] + radius; ++row) {
    for (int column = static_cast<int>(white[0] - radius); column <= white[0] + radius; ++column) {
      if (row < 0 || column < 0 || row >= picture.rows || column >= picture.columns) continue;
      const colour::Light light = colour::light_from_srgb(picture.at(column, row));
      sum[0] += light.r, sum[1] += light.g, sum[2] += light.b;
      ++count;
    }
  }
  if (count == 0) return {};
  KnownColour known;
  for (std::size_t c = 0; c < 3; ++c) known.seen[c] = colour::encoded(sum[c] / count);
  known.x = 2 * white[0] / picture.columns - 1, known.y = 2 * white[1] / picture.rows - 1;
  known.truth = kSomethingWhite;
  return {known};
}

/// Of so many prints together one has a ground or a motif that is nearly white: so light, and good to so much where
/// there are twenty; the fewer there are, the less surely.
constexpr std::size_t kManyCloths = 6;
constexpr double kPalestLightness = 90.5, kPalestGood = 2.5, kTwenty = 20;

/// What so many prints together come to is nearly grey, in b* and to so much in a* and b*; but some are all of one hue.
constexpr double kSetYellow = 2, kSetGood = 5;

/// What all cloths of a picture show together: encoded, the fall of light over the surface taken off.
struct Set {
  std::array<double, 3> palest{};  ///< the palest twentieth, by the darkest of red, green and blue: yellow is not white
  std::array<double, 3> mean{};
  double fewness = 1;  ///< 1 where there are twenty cloths; the fewer, the less surely all this is known
};

std::optional<Set> set_of(const Picture& picture, const std::vector<Found>& cloths, const Backdrop& backdrop) {
  if (cloths.size() < kManyCloths) return {};
  struct Sample {
    double pale;
    cv::Vec3d light;
  };
  constexpr int kSteps = 16;
  constexpr double kRim = 0.06;
  std::vector<Sample> samples;
  const Balance fall = fitted_balance({{}, {}, backdrop});
  for (const Found& cloth : cloths) {
    Quad quad;
    for (std::size_t k = 0; k < quad.size(); ++k) quad[k] = {cloth.corners[k][0], cloth.corners[k][1]};
    for (const cv::Point2d& p : spread_over(quad, kSteps, kRim)) {
      const int column = std::clamp(static_cast<int>(p.x), 0, picture.columns - 1),
                row = std::clamp(static_cast<int>(p.y), 0, picture.rows - 1);
      const double lit = fall.light_at(2 * p.x / picture.columns - 1, 2 * p.y / picture.rows - 1);
      const colour::Light light = colour::light_from_srgb(picture.at(column, row));
      samples.push_back({std::min({light.r, light.g, light.b}) / lit, cv::Vec3d(light.r, light.g, light.b) / lit});
    }
  }
  Set set;
  set.fewness = std::max(1.0, std::sqrt(kTwenty / static_cast<double>(cloths.size())));
  const auto mean_of = [&](std::size_t so_many) {
    cv::Vec3d sum;
    for (std::size_t i = 0; i < so_many; ++i) sum += samples[i].light;
    std::array<double, 3> mean{};
    for (int c = 0; c < 3; ++c) mean[c] = std::min(1.0, colour::encoded(sum[c] / static_cast<double>(so_many)));
    return mean;
  };
  set.mean = mean_of(samples.size());
  const std::size_t few = samples.size() / 20;
  std::nth_element(samples.begin(), samples.begin() + static_cast<std::ptrdiff_t>(few), samples.end(),
                   [](const Sample& a, const Sample& b) { return a.pale > b.pale; });
  set.palest = mean_of(few);
  return set;
}

/// The surface as it usually is, where it is pale; of any other no more is thought than that it has little colour.
KnownColour usual(const SurfaceSeen& surface) {
  const std::array<double, 3> seen = seen_at(surface.backdrop, 0, 0);
  if (surface.pale) return {seen, 0, 0, kPaleSurface, kPaleGood};
  const colour::Lab as_seen =
      colour::lab_from_light({colour::decoded(seen[0]), colour::decoded(seen[1]), colour::decoded(seen[2])});
  const bool is_coloured = as_seen.a < kGreenest || as_seen.a > kPinkest || as_seen.b < kBluest;
  return {seen, 0, 0, {as_seen.L, 0, kOtherYellow}, is_coloured ? kNoGood : kOtherGood};
}

/// Makes all lighter or darker until the cloths' palest colour, where there is one, and the surface, where that is
/// pale, are as light as they usually are, each by how well that is known. With neither, a middle grey stays as light
/// as it is seen.
void expose(Balance& balance, const SurfaceSeen& surface, const std::optional<Set>& set) {
  struct Aim {
    colour::Light light;
    double lightness, good;
  };
  std::vector<Aim> aims;
  if (set) {
    aims.push_back({balance.corrected(set->palest, 0, 0), kPalestLightness, kPalestGood * set->fewness});
  }
  if (surface.pale) {
    const colour::Light bare = balance.corrected(seen_at(surface.backdrop, 0, 0), 0, 0);
    aims.push_back({bare, kPaleLightness, kPaleLightnessGood});
  }
  if (aims.empty()) {
    const double grey = colour::decoded(kMiddleGrey);
    aims.push_back({balance.corrected({kMiddleGrey, kMiddleGrey, kMiddleGrey}, 0, 0),
                    colour::lab_from_light({grey, grey, grey}).L, 1});
  }
  constexpr int kSteps = 250;
  double least = 1e18, best = 1;
  for (int step = -kSteps; step <= kSteps; ++step) {
    const double gain = std::exp(0.01 * step);
    double sum = 0;
    for (const auto& [light, lightness, good] : aims) {
      const double L = colour::lab_from_light({light.r * gain, light.g * gain, light.b * gain}).L;
      sum += (L - lightness) * (L - lightness) / (good * good);
    }
    if (sum < least) least = sum, best = gain;
  }
  for (double& gain : balance.gain) gain *= best;
}

/// Whether a surface seen in one light can be the table that another photograph showed: both pale, or neither.
bool may_be(const SurfaceSeen& surface, const colour::Lab& table) {
  return surface.pale == (table.L > 66 && std::hypot(table.a, table.b) < 22);
}

}  // namespace

Reference find_reference(const Picture& picture) {
  Reference reference;
  reference.sheet = find_sheet(picture);
  if (reference.sheet) {
    reference.kind = "sheet";
    reference.taken_up = outline_of(*reference.sheet);
  }
  if (const auto chart = find_chart(picture)) {
    reference.kind = "chart";
    reference.balance = fitted_balance({chart->patches, {}, {}});
    if (!reference.taken_up) reference.taken_up = widened(chart->corners, 1.15);
  }
  return reference;
}

void look_for_sheet(Reference& reference, const Picture& picture, const Findings& findings) {
  if (reference.sheet) return;
  std::vector<Corners> pieces = findings.pieces;
  for (const Found& found : findings.cloths) {
    if (!found.whole) pieces.push_back(found.corners);
  }
  for (const Corners& corners : pieces) {
    reference.sheet = sheet_within(picture, corners);
    if (!reference.sheet) continue;
    if (reference.kind != "chart") reference.kind = "sheet";
    reference.taken_up = outline_of(*reference.sheet);
    return;
  }
}

void add_surface(Reference& reference, const Picture& picture, const std::optional<SurfaceSeen>& surface,
                 const std::optional<std::array<double, 2>>& white, const std::optional<colour::Lab>& table,
                 const std::vector<Found>& cloths) {
  if (reference.kind == "chart") return;
  Evidence evidence;
  if (reference.sheet) evidence = sheet_colours(picture, *reference.sheet);
  std::vector<KnownColour>& known = evidence.known;
  const bool from_sheet = !known.empty();
  if (known.empty() && white) known = pointed_at(picture, *white);
  if (surface && known.empty() && table && may_be(*surface, *table))
    known = {{seen_at(surface->backdrop, 0, 0), 0, 0, *table}};
  const bool told = !known.empty();
  if (!from_sheet && (told || (surface && surface->pale))) reference.kind = "surface";
  if (surface) {
    evidence.backdrop = surface->backdrop;
    evidence.usual = !told;
    if (!told) known = {usual(*surface)};
  }
  std::optional<Set> set;
  if (!told && surface) set = set_of(picture, cloths, surface->backdrop);
  if (set) {
    constexpr double kAnyLightness = 1e3;
    const double good = kSetGood * set->fewness;
    known.push_back({set->mean, 0, 0, {50, 0, kSetYellow}, {kAnyLightness, good, good}});
    known.back().perhaps = true;
    reference.grey_together = true;
  }
  if (known.empty()) return;
  reference.balance = fitted_balance(evidence);
  if (!told) expose(*reference.balance, *surface, set);
}

std::optional<colour::Lab> table_colour(const Reference& reference, const std::optional<SurfaceSeen>& surface) {
  if (!surface || !reference.balance || (reference.kind != "sheet" && reference.kind != "chart")) return {};
  return colour::lab_from_light(reference.balance->corrected(seen_at(surface->backdrop, 0, 0), 0, 0));
}

}  // namespace farflung::photo
