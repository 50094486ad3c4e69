#include "cloth/builds.hpp"

#include <algorithm>

namespace farflung::cloth {
namespace {

/// Cuts a region into the parts of a build, chains of parallel cuts first.
class Cutting {
 public:
  Cutting(const Builds& builds, const std::vector<Wanted>& wanted, Layout& layout)
      : builds_(builds), wanted_(wanted), taken_(wanted.size(), 0), layout_(layout) {}

  void whole(int build, Rect region) {
    // The larger leftover in one piece: cut it off first.
    const Build& top = builds_[build];
    const auto right = static_cast<std::int64_t>(region.width - top.width) * region.height;
    const auto below = static_cast<std::int64_t>(region.height - top.height) * region.width;
    if (top.kind == Build::Kind::above && right > below) region = trimmed(region, true, top.width);
    if (top.kind == Build::Kind::beside && below > right) region = trimmed(region, false, top.height);
    make(build, region);
  }

 private:
  void make(int build, Rect region) {
    const Build& top = builds_[build];
    if (top.kind == Build::Kind::piece) return piece(top, region);
    const bool upright = top.kind == Build::Kind::beside;
    std::vector<int> parts;
    flatten(build, top.kind, parts);
    std::vector<Rect> regions;
    for (int part : parts) {
      Rect mine = region;
      const int size = upright ? builds_[part].width : builds_[part].height;
      (upright ? mine.width : mine.height) = size;
      if (mine != region) {
        layout_.cuts.push_back({region, upright, (upright ? region.x : region.y) + size});
        (upright ? region.x : region.y) += size;
        (upright ? region.width : region.height) -= size;
      } else {
        region.width = region.height = 0;
      }
      regions.push_back(mine);
    }
    if (region.width > 0 && region.height > 0) layout_.left.push_back(region);
    for (std::size_t i = 0; i < parts.size(); ++i) make(parts[i], regions[i]);
  }

  void piece(const Build& build, Rect region) {
    region = trimmed(region, true, build.width);
    region = trimmed(region, false, build.height);
    if (taken_[build.a] >= wanted_[build.a].count) {
      layout_.left.push_back(region);
      return;
    }
    ++taken_[build.a];
    layout_.placed.push_back({region, build.a, build.b == 1});
    layout_.value += wanted_[build.a].worth();
  }

  /// The region's first part of this size; the rest is left over.
  Rect trimmed(Rect region, bool upright, int size) {
    Rect rest = region;
    int& whole = upright ? region.width : region.height;
    if (whole == size) return region;
    layout_.cuts.push_back({region, upright, (upright ? region.x : region.y) + size});
    (upright ? rest.x : rest.y) += size;
    (upright ? rest.width : rest.height) -= size;
    whole = size;
    layout_.left.push_back(rest);
    return region;
  }

  void flatten(int build, Build::Kind kind, std::vector<int>& parts) const {
    std::vector<int> open = {build};
    while (!open.empty()) {
      const int next = open.back();
      open.pop_back();
      if (builds_[next].kind != kind) {
        parts.push_back(next);
        continue;
      }
      open.push_back(builds_[next].b);
      open.push_back(builds_[next].a);
    }
  }

  const Builds& builds_;
  const std::vector<Wanted>& wanted_;
  std::vector<int> taken_;
  Layout& layout_;
};

}  // namespace

int Builds::piece(const std::vector<Wanted>& wanted, int index, bool turned) {
  const Wanted& item = wanted[index];
  builds_.push_back({Build::Kind::piece, index, turned ? 1 : 0, turned ? item.height : item.width,
                     turned ? item.width : item.height});
  return static_cast<int>(builds_.size()) - 1;
}

int Builds::beside(int a, int b) {
  builds_.push_back(
      {Build::Kind::beside, a, b, builds_[a].width + builds_[b].width, std::max(builds_[a].height, builds_[b].height)});
  return static_cast<int>(builds_.size()) - 1;
}

int Builds::above(int a, int b) {
  builds_.push_back(
      {Build::Kind::above, a, b, std::max(builds_[a].width, builds_[b].width), builds_[a].height + builds_[b].height});
  return static_cast<int>(builds_.size()) - 1;
}

Layout Builds::layout(int build, int width, int height, const std::vector<Wanted>& wanted) const {
  Layout layout;
  if (build == kNoBuild) {
    layout.left.push_back({0, 0, width, height});
    return layout;
  }
  Cutting(*this, wanted, layout).whole(build, {0, 0, width, height});
  return layout;
}

bool replays(int width, int height, const std::vector<Wanted>& wanted, const Layout& layout) {
  std::vector<Rect> lying = {{0, 0, width, height}};
  for (const Cut& cut : layout.cuts) {
    const auto piece = std::find(lying.begin(), lying.end(), cut.of);
    if (piece == lying.end()) return false;
    Rect first = cut.of;
    Rect second = cut.of;
    int& size = cut.upright ? first.width : first.height;
    const int start = cut.upright ? first.x : first.y;
    if (cut.at <= start || cut.at >= start + size) return false;
    size = cut.at - start;
    (cut.upright ? second.x : second.y) = cut.at;
    (cut.upright ? second.width : second.height) -= size;
    *piece = first;
    lying.push_back(second);
  }
  std::vector<int> counts(wanted.size(), 0);
  std::vector<Rect> result = layout.left;
  for (const Placed& placed : layout.placed) {
    const Wanted& item = wanted[placed.wanted];
    const bool sized = placed.turned ? placed.rect.width == item.height && placed.rect.height == item.width
                                     : placed.rect.width == item.width && placed.rect.height == item.height;
    if (!sized || (placed.turned && !item.turnable) || ++counts[placed.wanted] > item.count) return false;
    result.push_back(placed.rect);
  }
  const auto order = [](const Rect& a, const Rect& b) {
    return a.x != b.x           ? a.x < b.x
           : a.y != b.y         ? a.y < b.y
           : a.width != b.width ? a.width < b.width
                                : a.height < b.height;
  };
  std::sort(lying.begin(), lying.end(), order);
  std::sort(result.begin(), result.end(), order);
  return lying == result;
}

std::vector<int> Layout::counts(std::size_t wanted) const {
  std::vector<int> counts(wanted, 0);
  for (const Placed& piece : placed) ++counts[piece.wanted];
  return counts;
}

}  // namespace farflung::cloth
