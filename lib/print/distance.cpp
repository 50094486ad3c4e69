#include "print/distance.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace farflung::print {
namespace {

constexpr double kOctave = 4, kOctaveOfShares = 2, kMostOctaves = 2, kBusyness = 12;

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
    list.reserve(palette.size());
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

/// Doublings between two scales; none where one is unknown.
std::optional<double> octaves(std::optional<double> a, std::optional<double> b) {
  if (!a || !b || *a <= 0 || *b <= 0) return {};
  return std::abs(std::log2(*a / *b));
}

/// Of the colours and the busyness, whatever the scale.
double distance_of_colours(const Features& a, const Features& b) {
  return transport(palette_of(a), palette_of(b)) + kBusyness * std::abs(a.busyness - b.busyness);
}

double distance_of_scales(const Features& a, const Features& b) {
  if (const auto in_inches = octaves(a.scale, b.scale)) return kOctave * std::min(kMostOctaves, *in_inches);
  return kOctaveOfShares * std::min(kMostOctaves, octaves(a.scale_share, b.scale_share).value_or(0));
}

}  // namespace

double transport(const std::vector<PaletteColour>& first, const std::vector<PaletteColour>& second) {
  if (first.empty() || second.empty()) return 0;
  return Transport(first, second).least();
}

std::vector<PaletteColour> palette_of(const Features& features) {
  if (!features.palette.empty()) return features.palette;
  return {{features.lab, 1}};
}

double distance(const Features& first, const Features& second) {
  return distance_of_colours(first, second) + distance_of_scales(first, second);
}

}  // namespace farflung::print
