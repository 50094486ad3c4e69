#include "choice/top.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace farflung::choice {
namespace {

struct Box {
  Length left, top, right, bottom;
};

Box box_of(const Polygon& polygon) {
  Box box{polygon[0].x, polygon[0].y, polygon[0].x, polygon[0].y};
  for (const Point& point : polygon) {
    box.left = std::min(box.left, point.x);
    box.top = std::min(box.top, point.y);
    box.right = std::max(box.right, point.x);
    box.bottom = std::max(box.bottom, point.y);
  }
  return box;
}

bool both_at(Length a, Length b, Length line) {
  const auto near = [&](Length x) { return x <= line + kSnap && line <= x + kSnap; };
  return near(a) && near(b);
}

}  // namespace

std::vector<TopPatch> top_patches(const quilt::Quilt& quilt, const setting::Plan& plan) {
  std::vector<TopPatch> patches;
  for (std::size_t cell = 0; cell < quilt.layout.block.size(); ++cell) {
    if (quilt.layout.block[cell] == kNone) continue;
    const block::Block& block = quilt.blocks[quilt.layout.block[cell]];
    for (const block::Patch& patch : quilt.patterns[block.pattern].patches) {
      const int at = static_cast<int>(cell);
      patches.push_back({plan.top_from_block(patch.polygon, at, quilt.layout.turn[cell]),
                         quilt::print_of_slot(quilt, block, patch.slot), block.pattern, patch.slot, at, kNone});
    }
  }
  patches.reserve(patches.size() + plan.frame.size());
  for (std::size_t i = 0; i < plan.frame.size(); ++i) {
    const setting::FramePatch& patch = plan.frame[i];
    patches.push_back({patch.polygon, patch.print, kNone, kNone, kNone, static_cast<int>(i)});
  }
  return patches;
}

std::vector<double> print_shares(const std::vector<TopPatch>& patches, std::size_t prints) {
  std::vector<double> shares(prints, 0.0);
  for (const TopPatch& patch : patches) {
    if (patch.print != kNone) shares[patch.print] += area(patch.polygon);
  }
  const double whole = std::accumulate(shares.begin(), shares.end(), 0.0);
  for (double& share : shares) share = whole > 0 ? share / whole : 0;
  return shares;
}

// Swept from left to right: only patches whose boxes reach each other are held together.
std::vector<double> seams_by_print(const std::vector<TopPatch>& patches, const std::vector<bool>& mine,
                                   std::size_t prints) {
  std::vector<Box> boxes;
  boxes.reserve(patches.size());
  for (const TopPatch& patch : patches) boxes.push_back(box_of(patch.polygon));
  std::vector<int> order(patches.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return boxes[a].left < boxes[b].left; });
  std::vector<double> seams(prints, 0.0);
  for (std::size_t a = 0; a < order.size(); ++a) {
    const int i = order[a];
    for (std::size_t b = a + 1; b < order.size() && boxes[order[b]].left <= boxes[i].right + kSnap; ++b) {
      const int j = order[b];
      if (mine[i] == mine[j]) continue;
      const int print = patches[mine[i] ? j : i].print;
      if (print == kNone) continue;
      if (boxes[i].top > boxes[j].bottom + kSnap || boxes[j].top > boxes[i].bottom + kSnap) continue;
      seams[print] += meeting(patches[i].polygon, patches[j].polygon).seam.inches();
    }
  }
  return seams;
}

std::vector<double> edge_by_print(const std::vector<TopPatch>& patches, const setting::Plan& plan, std::size_t prints) {
  std::vector<double> edge(prints, 0.0);
  for (const TopPatch& patch : patches) {
    if (patch.print == kNone) continue;
    for (std::size_t i = 0; i < patch.polygon.size(); ++i) {
      const Point a = patch.polygon[i], b = patch.polygon[(i + 1) % patch.polygon.size()];
      const bool outer = both_at(a.x, b.x, Length()) || both_at(a.x, b.x, plan.width) || both_at(a.y, b.y, Length()) ||
                         both_at(a.y, b.y, plan.height);
      if (outer) edge[patch.print] += std::hypot((a.x - b.x).inches(), (a.y - b.y).inches());
    }
  }
  return edge;
}

}  // namespace farflung::choice
