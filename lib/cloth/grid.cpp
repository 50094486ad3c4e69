// Layouts grown over every size that sums of sides can reach: at each size the best few partial layouts are kept, with
// how many of each piece they hold, so that no piece is counted more often than it is wanted.
#include <algorithm>
#include <map>

#include "cloth/builds.hpp"

namespace farflung::cloth {
namespace {

struct Partial {
  std::int64_t value = 0;
  std::vector<std::uint16_t> counts;
  int build = kNoBuild;
};

class Grid {
 public:
  Grid(int width, int height, const std::vector<Wanted>& wanted) : wanted_(wanted) {
    xs_ = sums(width, true);
    ys_ = sums(height, false);
  }

  /// Pairs of sizes to be joined.
  std::int64_t joins() const {
    const auto nx = static_cast<std::int64_t>(xs_.size());
    const auto ny = static_cast<std::int64_t>(ys_.size());
    return nx * ny * (nx + ny) / 2;
  }

  int best(int keep) {
    const int nx = static_cast<int>(xs_.size());
    const int ny = static_cast<int>(ys_.size());
    kept_.assign(static_cast<std::size_t>(nx) * ny, {});
    for (int i = 0; i < nx; ++i) {
      for (int j = 0; j < ny; ++j) fill(i, j, keep);
    }
    const auto& whole = at(nx - 1, ny - 1);
    return whole.empty() ? kNoBuild : whole.front().build;
  }

  const Builds& builds() const { return builds_; }

 private:
  /// Every sum of sides up to `room`, and `room` itself.
  std::vector<int> sums(int room, bool across) const {
    std::vector<int> used(room + 1, -1);
    std::vector<bool> reached(room + 1, false);
    reached[0] = true;
    for (const Wanted& item : wanted_) {
      std::vector<int> sides = {across ? item.width : item.height};
      if (item.turnable && item.width != item.height) sides.push_back(across ? item.height : item.width);
      for (int side : sides) {
        std::fill(used.begin(), used.end(), -1);
        for (int x = 0; x <= room; ++x) {
          if (reached[x]) {
            used[x] = 0;
          } else if (x >= side && reached[x - side] && used[x - side] < item.count) {
            reached[x] = true;
            used[x] = used[x - side] + 1;
          }
        }
      }
    }
    std::vector<int> result;
    for (int x = 1; x <= room; ++x) {
      if (reached[x] || x == room) result.push_back(x);
    }
    return result;
  }

  std::vector<Partial>& at(int i, int j) { return kept_[static_cast<std::size_t>(i) * ys_.size() + j]; }

  void fill(int i, int j, int keep) {
    best_.clear();
    const int w = xs_[i];
    const int h = ys_[j];
    if (i > 0) inherit(at(i - 1, j), keep);
    if (j > 0) inherit(at(i, j - 1), keep);
    for (int p = 0; p < static_cast<int>(wanted_.size()); ++p) {
      const Wanted& item = wanted_[p];
      if (item.count == 0) continue;
      if (item.width == w && item.height == h) offer_piece(p, false, keep);
      if (item.turnable && item.width != item.height && item.height == w && item.width == h) offer_piece(p, true, keep);
    }
    for (int a = 0; a < i && 2 * xs_[a] <= w; ++a) {
      const int b = index_of(xs_, w - xs_[a]);
      if (b >= 0) join(at(a, j), at(b, j), Build::Kind::beside, keep);
    }
    for (int a = 0; a < j && 2 * ys_[a] <= h; ++a) {
      const int b = index_of(ys_, h - ys_[a]);
      if (b >= 0) join(at(i, a), at(i, b), Build::Kind::above, keep);
    }
    at(i, j) = best_;
  }

  /// The largest size that is no greater.
  static int index_of(const std::vector<int>& sizes, int size) {
    return static_cast<int>(std::upper_bound(sizes.begin(), sizes.end(), size) - sizes.begin()) - 1;
  }

  void inherit(const std::vector<Partial>& from, int keep) {
    for (const Partial& partial : from) {
      if (wants(partial.value, partial.counts, keep)) insert(partial, keep);
    }
  }

  void offer_piece(int item, bool turned, int keep) {
    Partial partial{wanted_[item].worth(), std::vector<std::uint16_t>(wanted_.size(), 0), kNoBuild};
    partial.counts[item] = 1;
    if (!wants(partial.value, partial.counts, keep)) return;
    partial.build = builds_.piece(wanted_, item, turned);
    insert(std::move(partial), keep);
  }

  void join(const std::vector<Partial>& first, const std::vector<Partial>& second, Build::Kind kind, int keep) {
    for (const Partial& a : first) {
      for (const Partial& b : second) {
        if (static_cast<int>(best_.size()) == keep && a.value + b.value <= best_.back().value) break;
        sum_.counts.resize(wanted_.size());
        sum_.value = 0;
        for (std::size_t p = 0; p < wanted_.size(); ++p) {
          const int both = std::min<int>(a.counts[p] + b.counts[p], wanted_[p].count);
          sum_.counts[p] = static_cast<std::uint16_t>(both);
          sum_.value += both * wanted_[p].worth();
        }
        if (sum_.value == a.value || sum_.value == b.value || !wants(sum_.value, sum_.counts, keep)) continue;
        sum_.build = builds_.joined(kind, a.build, b.build);
        insert(sum_, keep);
      }
    }
  }

  bool wants(std::int64_t value, const std::vector<std::uint16_t>& counts, int keep) const {
    if (static_cast<int>(best_.size()) == keep && value <= best_.back().value) return false;
    return std::none_of(best_.begin(), best_.end(), [&](const Partial& known) { return known.counts == counts; });
  }

  void insert(Partial partial, int keep) {
    const auto place = std::upper_bound(best_.begin(), best_.end(), partial,
                                        [](const Partial& a, const Partial& b) { return a.value > b.value; });
    best_.insert(place, std::move(partial));
    if (static_cast<int>(best_.size()) > keep) best_.pop_back();
  }

  const std::vector<Wanted>& wanted_;
  std::vector<int> xs_, ys_;
  std::vector<std::vector<Partial>> kept_;
  std::vector<Partial> best_;
  Partial sum_;
  Builds builds_;
};

}  // namespace

Layout grid_layout(int width, int height, const std::vector<Wanted>& wanted, std::int64_t limit) {
  Grid grid(width, height, wanted);
  int keep = 0;
  while (keep < 24 && grid.joins() * (keep + 1) * (keep + 1) <= limit) ++keep;
  if (keep == 0) return Builds().layout(kNoBuild, width, height, wanted);
  const int build = grid.best(keep);
  return grid.builds().layout(build, width, height, wanted);
}

}  // namespace farflung::cloth
