#include "block/cover.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace farflung::block {
namespace {

// The block is cut into upright slabs at every corner and every crossing of two edges, so that within a slab no edge
// begins, ends or crosses another: the middle of each slab then tells the whole of it.

struct Edge {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;  ///< inches, x0 < x1
  int patch = 0;

  double y_at(double x) const { return y0 + (y1 - y0) * (x - x0) / (x1 - x0); }
};

/// A stretch of a slab's middle line.
struct Span {
  double top = 0, bottom = 0;
};

/// A part of the block that no patch covers, or that two cover; inches.
struct Fault {
  bool gap = true;
  double left = 0, top = 0, right = 0, bottom = 0;
};

const double kThin = kSnap.inches();

std::vector<Edge> edges_of(const Pattern& pattern) {
  std::vector<Edge> edges;
  for (std::size_t p = 0; p < pattern.patches.size(); ++p) {
    const Polygon& polygon = pattern.patches[p].polygon;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      Point from = polygon[i];
      Point to = polygon[(i + 1) % polygon.size()];
      if (from.x == to.x) continue;
      if (to.x < from.x) std::swap(from, to);
      edges.push_back({from.x.inches(), from.y.inches(), to.x.inches(), to.y.inches(), static_cast<int>(p)});
    }
  }
  return edges;
}

/// Where two edges cross, as an x; false where they do not.
bool crossing(const Edge& a, const Edge& b, double& x) {
  const double left = std::max(a.x0, b.x0);
  const double right = std::min(a.x1, b.x1);
  if (right - left <= kThin) return false;
  const double before = a.y_at(left) - b.y_at(left);
  const double after = a.y_at(right) - b.y_at(right);
  if (before * after >= 0) return false;
  x = left + (right - left) * before / (before - after);
  return true;
}

std::vector<double> slab_bounds(const Pattern& pattern, const std::vector<Edge>& edges) {
  std::vector<double> bounds = {0, pattern.width.inches()};
  for (const Edge& edge : edges) {
    bounds.push_back(edge.x0);
    bounds.push_back(edge.x1);
  }
  double x = 0;
  for (std::size_t i = 0; i < edges.size(); ++i) {
    for (std::size_t j = i + 1; j < edges.size(); ++j) {
      if (crossing(edges[i], edges[j], x)) bounds.push_back(x);
    }
  }
  std::sort(bounds.begin(), bounds.end());
  std::vector<double> distinct;
  for (double bound : bounds) {
    if (distinct.empty() || bound - distinct.back() > kThin) distinct.push_back(bound);
  }
  return distinct;
}

/// What the patches cover of the upright line at x, from the top down.
std::vector<Span> spans_at(const std::vector<Edge>& edges, int patches, double x) {
  std::vector<Span> spans;
  std::vector<double> crossings;
  for (int patch = 0; patch < patches; ++patch) {
    crossings.clear();
    for (const Edge& edge : edges) {
      if (edge.patch == patch && edge.x0 < x && x < edge.x1) crossings.push_back(edge.y_at(x));
    }
    std::sort(crossings.begin(), crossings.end());
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) spans.push_back({crossings[i], crossings[i + 1]});
  }
  std::sort(spans.begin(), spans.end(), [](const Span& a, const Span& b) { return a.top < b.top; });
  return spans;
}

/// Joins a fault to one that it continues from the slab before, else lists it.
void add_fault(std::vector<Fault>& faults, const Fault& fault) {
  for (Fault& known : faults) {
    const bool continues = known.gap == fault.gap && std::abs(known.right - fault.left) <= 2 * kThin &&
                           known.top < fault.bottom && fault.top < known.bottom;
    if (!continues) continue;
    known.right = fault.right;
    known.top = std::min(known.top, fault.top);
    known.bottom = std::max(known.bottom, fault.bottom);
    return;
  }
  faults.push_back(fault);
}

std::vector<Fault> faults_of(const Pattern& pattern) {
  const std::vector<Edge> edges = edges_of(pattern);
  const std::vector<double> bounds = slab_bounds(pattern, edges);
  const double height = pattern.height.inches();
  std::vector<Fault> faults;
  for (std::size_t i = 0; i + 1 < bounds.size(); ++i) {
    const double left = bounds[i];
    const double right = bounds[i + 1];
    double covered = 0;
    for (const Span& span : spans_at(edges, static_cast<int>(pattern.patches.size()), (left + right) / 2)) {
      if (span.top - covered > kThin) add_fault(faults, {true, left, covered, right, span.top});
      const double twice = std::min(covered, span.bottom);
      if (twice - span.top > kThin) add_fault(faults, {false, left, span.top, right, twice});
      covered = std::max(covered, span.bottom);
    }
    if (height - covered > kThin) add_fault(faults, {true, left, covered, right, height});
  }
  return faults;
}

std::string number(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.4g", std::abs(value) < 1e-9 ? 0.0 : value);
  return text;
}

bool patch_is_sound(const Pattern& pattern, std::size_t index, const std::string& at, Problems& problems) {
  const Patch& patch = pattern.patches[index];
  const std::string here = at + "/patches/" + std::to_string(index);
  if (patch.slot < 0 || patch.slot >= static_cast<int>(pattern.slots.size())) {
    problems.push_back(input_problem(here + "/slot", "there is no such slot", "name one of the pattern's slots"));
    return false;
  }
  if (patch.polygon.size() < 3 || area(patch.polygon) <= kThin * kThin) {
    problems.push_back(
        input_problem(here + "/polygon", "these corners enclose no cloth", "give three corners or more"));
    return false;
  }
  for (const Point& corner : patch.polygon) {
    if (corner.x + kSnap < Length() || corner.y + kSnap < Length() || pattern.width + kSnap < corner.x ||
        pattern.height + kSnap < corner.y) {
      problems.push_back(input_problem(
          here + "/polygon",
          "the corner at " + number(corner.x.inches()) + ", " + number(corner.y.inches()) + " lies outside the block",
          "keep every corner within the block's width and height"));
      return false;
    }
  }
  return true;
}

}  // namespace

void check_cover(const Pattern& pattern, const std::string& at, Problems& problems) {
  bool sound = true;
  for (std::size_t i = 0; i < pattern.patches.size(); ++i) sound = patch_is_sound(pattern, i, at, problems) && sound;
  if (!sound) return;
  for (const Fault& fault : faults_of(pattern)) {
    const std::string size = number(fault.right - fault.left) + " x " + number(fault.bottom - fault.top) + " in at " +
                             number(fault.left) + ", " + number(fault.top);
    problems.push_back(input_problem(at + "/patches", (fault.gap ? "a gap of " : "an overlap of ") + size,
                                     "the patches must cover the block exactly, each place once"));
  }
}

}  // namespace farflung::block
