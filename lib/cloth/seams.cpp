#include "cloth/seams.hpp"

#include <algorithm>
#include <cmath>

#include "cloth/extent.hpp"

namespace farflung::cloth {
namespace {

Spot operator-(Spot a, Spot b) { return {a.x - b.x, a.y - b.y}; }
double cross(Spot a, Spot b) { return a.x * b.y - a.y * b.x; }
double dot(Spot a, Spot b) { return a.x * b.x + a.y * b.y; }
double length(Spot a) { return std::hypot(a.x, a.y); }
Spot spot(Point p) { return {p.x.inches(), p.y.inches()}; }

/// The part of edge a0-a1 that edge b0-b1 lies along.
std::optional<Stretch> overlap(Spot a0, Spot a1, Spot b0, Spot b1) {
  const Spot along = a1 - a0;
  const double size = length(along);
  if (size <= kNear) return std::nullopt;
  const Spot unit{along.x / size, along.y / size};
  if (std::abs(cross(unit, b0 - a0)) > kNear || std::abs(cross(unit, b1 - a0)) > kNear) return std::nullopt;
  const double t0 = dot(unit, b0 - a0);
  const double t1 = dot(unit, b1 - a0);
  const double from = std::max(0.0, std::min(t0, t1));
  const double to = std::min(size, std::max(t0, t1));
  if (to - from <= kNear) return std::nullopt;
  return Stretch{{a0.x + from * unit.x, a0.y + from * unit.y}, {a0.x + to * unit.x, a0.y + to * unit.y}, 0, 0};
}

/// Which side of the line through `at` along `unit` a patch lies on: -1, 1, or 0 where the line crosses it.
int side_of(const Polygon& polygon, Spot at, Spot unit) {
  double low = 0;
  double high = 0;
  for (const Point& corner : polygon) {
    const double off = cross(unit, spot(corner) - at);
    low = std::min(low, off);
    high = std::max(high, off);
  }
  if (low < -kNear && high > kNear) return 0;
  return high > kNear ? 1 : -1;
}

}  // namespace

std::vector<Stretch> shared_boundary(const block::Pattern& pattern, const std::vector<int>& a,
                                     const std::vector<int>& b) {
  std::vector<Stretch> result;
  for (int p : a) {
    const Polygon& first = pattern.patches[p].polygon;
    for (int q : b) {
      const Polygon& second = pattern.patches[q].polygon;
      for (std::size_t i = 0; i < first.size(); ++i) {
        for (std::size_t j = 0; j < second.size(); ++j) {
          auto shared = overlap(spot(first[i]), spot(first[(i + 1) % first.size()]), spot(second[j]),
                                spot(second[(j + 1) % second.size()]));
          if (!shared) continue;
          shared->patch_a = p;
          shared->patch_b = q;
          result.push_back(*shared);
        }
      }
    }
  }
  return result;
}

std::optional<Stretch> straight_line(const std::vector<Stretch>& stretches) {
  if (stretches.empty()) return std::nullopt;
  const Spot at = stretches[0].from;
  const Spot along = stretches[0].to - at;
  const Spot unit{along.x / length(along), along.y / length(along)};
  double low = 0;
  double high = 0;
  for (const Stretch& one : stretches) {
    for (Spot end : {one.from, one.to}) {
      if (std::abs(cross(unit, end - at)) > 3 * kNear) return std::nullopt;
      low = std::min(low, dot(unit, end - at));
      high = std::max(high, dot(unit, end - at));
    }
  }
  return Stretch{{at.x + low * unit.x, at.y + low * unit.y}, {at.x + high * unit.x, at.y + high * unit.y}, 0, 0};
}

bool parted(const block::Pattern& pattern, const std::vector<int>& patches, std::vector<int>& first,
            std::vector<int>& second) {
  struct Choice {
    bool slanting = true;
    double difference = 0;
    bool upright = false;
    std::vector<int> first, second;
  };
  std::optional<Choice> best;
  const auto better = [](const Choice& a, const Choice& b) {
    if (a.slanting != b.slanting) return !a.slanting;
    if (std::abs(a.difference - b.difference) > 1e-6) return a.difference < b.difference;
    return !a.upright && b.upright;
  };
  for (int p : patches) {
    const Polygon& polygon = pattern.patches[p].polygon;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Spot at = spot(polygon[i]);
      const Spot along = spot(polygon[(i + 1) % polygon.size()]) - at;
      const double size = length(along);
      if (size <= kNear) continue;
      const Spot unit{along.x / size, along.y / size};
      Choice choice;
      choice.slanting = std::abs(along.x) > kNear && std::abs(along.y) > kNear;
      choice.upright = std::abs(along.x) <= kNear;
      double areas = 0;
      bool crossed = false;
      for (int q : patches) {
        const int side = side_of(pattern.patches[q].polygon, at, unit);
        if (side == 0) {
          crossed = true;
          break;
        }
        areas += side * area(pattern.patches[q].polygon);
        (side > 0 ? choice.first : choice.second).push_back(q);
      }
      if (crossed || choice.first.empty() || choice.second.empty()) continue;
      // The side that holds the lower-numbered patch comes first, whichever way the edge ran.
      if (choice.second.front() < choice.first.front()) std::swap(choice.first, choice.second);
      choice.difference = std::abs(areas);
      if (!best || better(choice, *best)) best = std::move(choice);
    }
  }
  if (!best) return false;
  first = std::move(best->first);
  second = std::move(best->second);
  return true;
}

}  // namespace farflung::cloth
