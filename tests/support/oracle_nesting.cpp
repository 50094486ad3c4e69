// Seam ends by geometry alone: where allowances lie on the top, not by the words left and right.
#include <algorithm>
#include <cmath>

#include "support/oracle.hpp"

namespace farflung::support {
namespace {

using Vertex = Oracle::Vertex;

double across(Vertex p, Vertex from, Vertex to) {
  return ((to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x)) /
         std::hypot(to.x - from.x, to.y - from.y);
}
double along(Vertex p, Vertex from, Vertex to) {
  return ((to.x - from.x) * (p.x - from.x) + (to.y - from.y) * (p.y - from.y)) /
         std::hypot(to.x - from.x, to.y - from.y);
}

/// The stretches of two outlines' edges that lie on each other.
std::vector<std::pair<Vertex, Vertex>> shared(const Oracle::Outline& a, const Oracle::Outline& b) {
  std::vector<std::pair<Vertex, Vertex>> stretches;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const Vertex from = a[i];
    const Vertex to = a[(i + 1) % a.size()];
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const auto point = [&](double t) {
      return Vertex{from.x + (to.x - from.x) * t / length, from.y + (to.y - from.y) * t / length};
    };
    for (std::size_t j = 0; j < b.size(); ++j) {
      const Vertex p = b[j];
      const Vertex q = b[(j + 1) % b.size()];
      if (std::abs(across(p, from, to)) > kNear || std::abs(across(q, from, to)) > kNear) continue;
      const double low = std::max(0.0, std::min(along(p, from, to), along(q, from, to)));
      const double high = std::min(length, std::max(along(p, from, to), along(q, from, to)));
      if (high - low > kNear) stretches.emplace_back(point(low), point(high));
    }
  }
  return stretches;
}

bool lies_on(Vertex p, Vertex from, Vertex to) {
  return std::abs(across(p, from, to)) < kNear && along(p, from, to) > -kNear &&
         along(p, from, to) < std::hypot(to.x - from.x, to.y - from.y) + kNear;
}

/// The patches that a unit of a pattern's steps is made of.
std::vector<int> patches_in(const block::Pattern& pattern, const block::Unit& unit) {
  if (unit.kind == block::Unit::Kind::patch) return {unit.index};
  std::vector<int> all;
  for (const block::Unit& part : pattern.piecing[unit.index].join) {
    for (const int patch : patches_in(pattern, part)) all.push_back(patch);
  }
  return all;
}

bool has(const std::vector<int>& list, int item) { return std::find(list.begin(), list.end(), item) != list.end(); }

}  // namespace

Oracle::Outline Oracle::outline_of_block(int cell, int pattern) const {
  const double w = patterns_[pattern].width.inches() / 2;
  const double h = patterns_[pattern].height.inches() / 2;
  const double angle = plan_.on_point ? std::acos(-1.0) / 4 : 0;
  Outline corners;
  for (const Vertex v : {Vertex{-w, -h}, Vertex{w, -h}, Vertex{w, h}, Vertex{-w, h}}) {
    corners.push_back({plan_.cells[cell].centre.x.inches() + v.x * std::cos(angle) - v.y * std::sin(angle),
                       plan_.cells[cell].centre.y.inches() + v.x * std::sin(angle) + v.y * std::cos(angle)});
  }
  return corners;
}

const std::vector<Oracle::End>& Oracle::ends_of(int cell, int pattern, int turn) {
  const auto [known, is_new] = known_ends_.try_emplace({cell, pattern, turn});
  if (is_new) known->second = found_ends(cell, pattern, turn);
  return known->second;
}

std::vector<Oracle::End> Oracle::found_ends(int cell, int index, int turn) const {
  const block::Pattern& pattern = patterns_[index];
  const Outline edge = outline_of_block(cell, index);
  std::vector<End> ends;
  for (int a = 0; a < static_cast<int>(pattern.patches.size()); ++a) {
    for (int b = a + 1; b < static_cast<int>(pattern.patches.size()); ++b) {
      // The first step that has both sews them together; it is pressed toward the side that holds one of the two.
      bool open = true;
      int toward = a;
      for (int k = 0; k < static_cast<int>(pattern.piecing.size()); ++k) {
        const std::vector<int> made = patches_in(pattern, {block::Unit::Kind::step, k});
        if (!has(made, a) || !has(made, b)) continue;
        const block::Pressing& press = pattern.piecing[k].press;
        open = press.kind != block::Pressing::Kind::toward;
        if (!open) toward = has(patches_in(pattern, press.toward), a) ? a : b;
        break;
      }
      const Outline first = outline({cell, a, index, turn});
      const Outline second = outline({cell, b, index, turn});
      for (const auto& [from, to] : shared(first, second)) {
        double side = 0;  // of the seam, on which the patch lies that the allowance is pressed to
        for (const Vertex corner : toward == a ? first : second) side += across(corner, from, to);
        const double length = std::hypot(to.x - from.x, to.y - from.y);
        const double sign = side > 0 ? 1 : -1;
        const Vertex lies{-sign * (to.y - from.y) / length, sign * (to.x - from.x) / length};
        for (const Vertex at : {from, to}) {
          bool at_edge = false;
          for (std::size_t e = 0; e < edge.size(); ++e) at_edge |= lies_on(at, edge[e], edge[(e + 1) % edge.size()]);
          if (at_edge) ends.push_back({at, lies, open});
        }
      }
    }
  }
  return ends;
}

std::vector<bool> Oracle::nest_alike(const std::vector<End>& a, int cell_a, const std::vector<End>& b,
                                     int cell_b) const {
  std::vector<bool> nest;
  for (const auto& [from, to] : shared(outline_of_block(cell_a, 0), outline_of_block(cell_b, 0))) {
    const Vertex along{to.x - from.x, to.y - from.y};
    const auto way = [&along](const End& end) { return end.lies.x * along.x + end.lies.y * along.y; };
    for (const End& end_a : a) {
      for (const End& end_b : b) {
        if (end_a.open || end_b.open || std::hypot(end_a.at.x - end_b.at.x, end_a.at.y - end_b.at.y) > kNear) continue;
        if (!lies_on(end_a.at, from, to)) continue;
        nest.push_back(way(end_a) * way(end_b) < 0);
      }
    }
  }
  return nest;
}

void Oracle::count_ends(const quilt::Quilt& quilt, OracleTerms& terms) {
  const auto block_in = [&](int cell) -> const block::Block& { return quilt.blocks[quilt.layout.block[cell]]; };
  const auto ends = [&](int cell) -> const std::vector<End>& {
    return ends_of(cell, block_in(cell).pattern, quilt.layout.turn[cell].quarters());
  };
  for (int a = 0; a < static_cast<int>(plan_.cells.size()); ++a) {
    for (int b = a + 1; b < static_cast<int>(plan_.cells.size()); ++b) {
      if (quilt.layout.block[a] < 0 || quilt.layout.block[b] < 0) continue;
      const bool alike = *block_in(a).press == *block_in(b).press;
      for (const bool nests : nest_alike(ends(a), a, ends(b), b)) {
        terms.ends += 1;
        terms.unnested += nests == alike ? 0 : 1;
      }
    }
  }
}

}  // namespace farflung::support
