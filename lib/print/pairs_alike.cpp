#include "print/pairs_alike.hpp"

#include <algorithm>
#include <cmath>

#include "print/distance.hpp"
#include "print/retaken.hpp"

namespace farflung::print {
namespace {

constexpr double kAlike = 7;
// What light, noise and a second outline leave between two photographs of one fabric. Where both scales are known in
// inches they tell a sister print apart, and the colours may stray farther the nearer the scales are. A print without
// motifs has but its mean colour and how much lighter and darker it is in places; colours that no sheet or chart has
// set right must agree more nearly.
constexpr double kSameDistance = 5.75, kSameOctaves = 0.3;
constexpr double kSameMean = 3.6, kSameRange = 2, kLeastRange = 4;
constexpr double kSameUnsure = 2.6, kBusynessUnsure = 8;
constexpr double kSameDegrees = 8;
// Colours and scale in inches that agree as nearly as this have no need to be laid over each other: two cloths may show
// parts of a print that have nothing in common.
constexpr double kVeryNear = 4, kVeryNearOctaves = 0.12;
// One swatch laid over the other, both in inches: what likeness, zoom and colour may stray by, each alone.
constexpr double kUnlike = 0.7, kZoomed = 0.15, kRecoloured = 7.5;
// The same where no inches tell a sister of another scale: a likeness at one place alone is of the very same cloth,
// whatever the light; a print that repeats lies over its sister too, and colours must tell.
constexpr double kLikeCloth = 0.6, kAlone = 0.12, kLikePrint = 0.5, kSameColours = 2.8;
constexpr double kOtherLight = 14;  ///< dE00 that lamps alone can make
constexpr double kBusier = 0.2;     ///< busyness that blur and light change at most
constexpr double kFaint = 7;        ///< L*: of a print with less range little but noise can be laid over another

bool true_to_colour(const Print& print) {
  return print.photo && (print.photo->reference == "sheet" || print.photo->reference == "chart");
}

double mean_apart(const Print& first, const Print& second) {
  return colour::delta_e_2000(first.features.lab, second.features.lab);
}

/// Whether colours and scales are as near as those of one fabric in two photographs.
bool colours_may_be_same(const Print& first, const Print& second) {
  const Features &a = first.features, &b = second.features;
  const double apart = transport(palette_of(a), palette_of(b)), mean = mean_apart(first, second);
  if (a.scale && b.scale) return std::hypot(apart / kSameDistance, std::log2(*a.scale / *b.scale) / kSameOctaves) < 1;
  if (true_to_colour(first) && true_to_colour(second)) {
    const double range = std::max(kLeastRange, (a.value_range + b.value_range) / 2);
    return mean + kSameRange * std::abs(a.value_range - b.value_range) / range < kSameMean;
  }
  return (apart + mean) / 2 + kBusynessUnsure * std::abs(a.busyness - b.busyness) < kSameUnsure;
}

/// By their features alone.
bool may_be_same(const Print& first, const Print& second) {
  const Direction &a = first.features.direction, &b = second.features.direction;
  const bool striped = a.kind == Direction::Kind::stripe;
  if (striped != (b.kind == Direction::Kind::stripe) || !colours_may_be_same(first, second)) return false;
  // That motifs all stand one way may show in one of two photographs alone.
  if (!striped) return true;
  // Turned by a quarter or more in one of the photographs it is the same stripe.
  const double turn = std::fmod(std::abs(a.degrees - b.degrees), 90);
  return std::min(turn, 90 - turn) < kSameDegrees;
}

bool true_to_inches(const Print& first, const Print& second) { return first.swatch_width && second.swatch_width; }

/// Whether one had to be enlarged to lie over the other, and lies over it well: as a sister print does.
bool of_another_scale(const Print& first, const Print& second, const Overlay& overlay) {
  return true_to_inches(first, second) && overlay.likeness > kLikePrint && std::abs(overlay.octaves) > kZoomed;
}

/// Whether true colours and a scale in inches agree beyond what a sister print's do.
bool agree_nearly(const Features& a, const Features& b) {
  if (!a.scale || !b.scale) return false;
  const double apart = transport(palette_of(a), palette_of(b));
  return std::hypot(apart / kVeryNear, std::log2(*a.scale / *b.scale) / kVeryNearOctaves) < 1;
}

/// By how one swatch lies over the other, and their colours.
bool may_be_same(const Print& first, const Print& second, const Overlay& overlay) {
  const Features &a = first.features, &b = second.features;
  const double mean = mean_apart(first, second);
  const bool true_colours = true_to_colour(first) && true_to_colour(second);
  if (true_to_inches(first, second)) {
    if (true_colours && agree_nearly(a, b)) return true;
    const double recoloured = mean / (true_colours ? kRecoloured : kOtherLight);
    return std::hypot((1 - overlay.likeness) / kUnlike, overlay.octaves / kZoomed, recoloured) < 1;
  }
  if (overlay.likeness > kLikeCloth && overlay.likeness - overlay.next > kAlone) return mean < kOtherLight;
  const double colours = (transport(palette_of(a), palette_of(b)) + mean) / 2;
  return overlay.likeness > kLikePrint && colours + kBusynessUnsure * std::abs(a.busyness - b.busyness) < kSameColours;
}

/// Whether any light could make one fabric look like both.
bool worth_laying(const Print& first, const Print& second) {
  const Features &a = first.features, &b = second.features;
  const bool one_light = (true_to_colour(first) && true_to_colour(second)) || first.photo->file == second.photo->file;
  return mean_apart(first, second) < (one_light ? kRecoloured : kOtherLight) &&
         std::abs(a.busyness - b.busyness) < kBusier;
}

/// Whether two prints are one fabric as far as these two alone can tell.
bool same(const Print& first, const Print& second, const std::optional<Overlay>& overlay) {
  if (!overlay) return may_be_same(first, second);
  if (of_another_scale(first, second, *overlay)) return false;
  if (may_be_same(first, second, *overlay)) return true;
  const bool faint = std::max(first.features.value_range, second.features.value_range) < kFaint;
  return faint && may_be_same(first, second);
}

}  // namespace

std::vector<Pair> pairs_alike(const std::vector<Print>& prints, const LayOver& lay_over) {
  std::vector<Pair> pairs;
  std::vector<Laid> laid;
  std::vector<std::size_t> pair_of;
  for (std::size_t i = 0; i < prints.size(); ++i) {
    for (std::size_t j = i + 1; j < prints.size(); ++j) {
      const Print &first = prints[i], &second = prints[j];
      Pair pair{Pair::Kind::alike, i, j, distance(first.features, second.features)};
      if (first.photo && second.photo && worth_laying(first, second)) {
        const std::optional<Overlay> overlay = lay_over ? lay_over(i, j) : std::nullopt;
        if (same(first, second, overlay)) pair.kind = Pair::Kind::same;
        if (overlay) laid.push_back({i, j, *overlay}), pair_of.push_back(pairs.size());
      }
      pairs.push_back(pair);
    }
  }
  const std::vector<bool> fits = retaken(prints, laid);
  for (std::size_t k = 0; k < laid.size(); ++k) {
    if (fits[k]) pairs[pair_of[k]].kind = Pair::Kind::same;
  }
  std::erase_if(pairs, [](const Pair& pair) { return pair.kind != Pair::Kind::same && pair.distance > kAlike; });
  std::stable_sort(pairs.begin(), pairs.end(), [](const Pair& a, const Pair& b) { return a.distance < b.distance; });
  return pairs;
}

}  // namespace farflung::print
