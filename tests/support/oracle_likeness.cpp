// How alike two prints are, by definition: palettes are laid out as eight equal parts, and of all ways to pair the
// parts of two the cheapest is found by trying them all.
#include <algorithm>
#include <cassert>
#include <cmath>
#include <vector>

#include "support/oracle.hpp"

namespace farflung::support {
namespace {

constexpr int kParts = 8;

std::vector<colour::Lab> parts(const print::Features& features) {
  std::vector<colour::Lab> list;
  for (const print::PaletteColour& colour : features.palette) {
    list.insert(list.end(), static_cast<std::size_t>(std::lround(kParts * colour.share)), colour.lab);
  }
  if (features.palette.empty()) list.assign(kParts, features.lab);
  assert(list.size() == kParts && "the oracle's palettes have shares of eighths");
  return list;
}

double cheapest_pairing(const std::vector<colour::Lab>& a, const std::vector<colour::Lab>& b) {
  // By the set of b's parts that the first parts of a are paired with.
  double between[kParts][kParts];
  for (int i = 0; i < kParts; ++i) {
    for (int j = 0; j < kParts; ++j) between[i][j] = colour::delta_e_2000(a[i], b[j]);
  }
  std::vector<double> least(1 << kParts, 1e300);
  least[0] = 0;
  for (unsigned taken = 0; taken + 1 < least.size(); ++taken) {
    int next = 0;
    for (int j = 0; j < kParts; ++j) next += (taken >> j) & 1U;
    for (int j = 0; j < kParts; ++j) {
      if ((taken >> j) & 1U) continue;
      double& with = least[taken | (1U << j)];
      with = std::min(with, least[taken] + between[next][j] / kParts);
    }
  }
  return least.back();
}

}  // namespace

double oracle_apart(const quilt::Quilt& quilt, int p, int q) {
  const print::Features &a = quilt.prints[p].features, &b = quilt.prints[q].features;
  if (!quilt.goals.likeness_by_print) return colour::delta_e_2000(a.lab, b.lab);
  double doublings = 0;
  if (a.scale && b.scale) doublings = std::min(2.0, std::abs(std::log2(*a.scale) - std::log2(*b.scale)));
  return cheapest_pairing(parts(a), parts(b)) + 4 * doublings + 12 * std::abs(a.busyness - b.busyness);
}

}  // namespace farflung::support
