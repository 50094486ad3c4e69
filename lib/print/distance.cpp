#include "print/distance.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace farflung::print {
namespace {

constexpr double kOctave = 4, kMostOctaves = 2, kBusyness = 12;
constexpr double kSameDistance = 4;   ///< what light and noise leave between two photographs of one fabric
constexpr double kSameOctaves = 0.2;  ///< and how far its measured scale may differ
constexpr double kSameDegrees = 8;
constexpr double kAlike = 7;

/// Flow from sources to sinks at least cost, by shortest ways (Bellman and Ford) one after another. Palettes have six
/// colours at most, so that nothing cleverer is worth its lines.
class Transport {
 public:
  Transport(const std::vector<PaletteColour>& from, const std::vector<PaletteColour>& to)
      : from_(shares(from)), to_(shares(to)), moved_(from.size(), std::vector<double>(to.size())) {
    for (const PaletteColour& a : from) {
      cost_.emplace_back();
      for (const PaletteColour& b : to) cost_.back().push_back(colour::delta_e_2000(a.lab, b.lab));
    }
  }

  double least() {
    while (push()) {
    }
    double sum = 0;
    for (std::size_t i = 0; i < from_.size(); ++i) {
      for (std::size_t j = 0; j < to_.size(); ++j) sum += moved_[i][j] * cost_[i][j];
    }
    return sum;
  }

 private:
  static constexpr double kNothing = 1e-12;

  static std::vector<double> shares(const std::vector<PaletteColour>& palette) {
    double all = 0;
    for (const PaletteColour& colour : palette) all += colour.share;
    std::vector<double> list;
    for (const PaletteColour& colour : palette) {
      list.push_back(all > 0 ? colour.share / all : 1.0 / static_cast<double>(palette.size()));
    }
    return list;
  }

  /// Sends what fits along the cheapest way from any source with something left to any sink with room.
  bool push() {
    const std::size_t n = from_.size(), m = to_.size();
    constexpr double kFar = std::numeric_limits<double>::infinity();
    std::vector<double> at_source(n, kFar), at_sink(m, kFar);
    std::vector<std::optional<std::size_t>> into_source(n), into_sink(m);
    for (std::size_t i = 0; i < n; ++i) {
      if (from_[i] > kNothing) at_source[i] = 0;
    }
    for (std::size_t round = 0; round < n + m; ++round) {
      for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < m; ++j) {
          if (at_source[i] + cost_[i][j] < at_sink[j] - 1e-12)
            at_sink[j] = at_source[i] + cost_[i][j], into_sink[j] = i;
          if (moved_[i][j] > kNothing && at_sink[j] - cost_[i][j] < at_source[i] - 1e-12)
            at_source[i] = at_sink[j] - cost_[i][j], into_source[i] = j;
        }
      }
    }
    std::optional<std::size_t> end;
    for (std::size_t j = 0; j < m; ++j) {
      if (to_[j] > kNothing && at_sink[j] < kFar && (!end || at_sink[j] < at_sink[*end])) end = j;
    }
    if (!end) return false;
    double most = to_[*end];
    std::size_t sink = *end, source = *into_sink[sink];
    while (into_source[source]) {
      most = std::min(most, moved_[source][*into_source[source]]);
      sink = *into_source[source], source = *into_sink[sink];
    }
    most = std::min(most, from_[source]);
    from_[source] -= most;
    to_[*end] -= most;
    for (sink = *end;;) {
      source = *into_sink[sink];
      moved_[source][sink] += most;
      if (!into_source[source]) break;
      moved_[source][*into_source[source]] -= most;
      sink = *into_source[source];
    }
    return true;
  }

  std::vector<double> from_, to_;
  std::vector<std::vector<double>> cost_, moved_;
};

std::vector<PaletteColour> palette(const Features& features) {
  if (!features.palette.empty()) return features.palette;
  return {{features.lab, 1}};
}

/// Doublings between two scales, in inches where both are known so, else as shares of their swatches; 0 where one is
/// unknown.
double octaves(const Features& a, const Features& b) {
  const auto between = [](std::optional<double> first, std::optional<double> second) {
    return first && second && *first > 0 && *second > 0 ? std::abs(std::log2(*first / *second)) : 0;
  };
  return a.scale && b.scale ? between(a.scale, b.scale) : between(a.scale_share, b.scale_share);
}

bool may_be_same(const Features& a, const Features& b, double apart) {
  if (apart > kSameDistance || octaves(a, b) > kSameOctaves || a.direction.kind != b.direction.kind) return false;
  if (a.direction.kind == Direction::Kind::none) return true;
  // Turned by a quarter or more in one of the photographs it is the same stripe.
  const double turn = std::fmod(std::abs(a.direction.degrees - b.direction.degrees), 90);
  return std::min(turn, 90 - turn) < kSameDegrees;
}

}  // namespace

double transport(const std::vector<PaletteColour>& first, const std::vector<PaletteColour>& second) {
  if (first.empty() || second.empty()) return 0;
  return Transport(first, second).least();
}

double distance(const Features& first, const Features& second) {
  return transport(palette(first), palette(second)) + kOctave * std::min(kMostOctaves, octaves(first, second)) +
         kBusyness * std::abs(first.busyness - second.busyness);
}

std::vector<Pair> pairs_alike(const std::vector<Print>& prints) {
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < prints.size(); ++i) {
    for (std::size_t j = i + 1; j < prints.size(); ++j) {
      const Features &a = prints[i].features, &b = prints[j].features;
      const double apart = distance(a, b);
      if (apart > kAlike) continue;
      // Only what a photograph showed can be one fabric shown twice.
      const bool seen = prints[i].photo && prints[j].photo;
      pairs.push_back({seen && may_be_same(a, b, apart) ? Pair::Kind::same : Pair::Kind::alike, i, j, apart});
    }
  }
  std::stable_sort(pairs.begin(), pairs.end(), [](const Pair& a, const Pair& b) { return a.distance < b.distance; });
  return pairs;
}

}  // namespace farflung::print
