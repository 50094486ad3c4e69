// Layouts in strips: the way a quilter cuts. Each strip runs right across the sheet and is filled with columns of equal
// pieces; which strip comes next is tried in several orders.
#include <algorithm>
#include <functional>
#include <set>

#include "cloth/builds.hpp"

namespace farflung::cloth {
namespace {

/// A column of a strip: equal pieces one above the other.
struct Column {
  int wanted = 0;
  bool turned = false;
  int stack = 1;
};

struct Strip {
  int height = 0;
  std::vector<Column> columns;
  std::int64_t worth = 0;
};

enum class Order {
  fullest,        ///< the strip that wastes the smallest share of itself
  tallest_first,  ///< the tallest piece left must be in it
  most_worth,     ///< the strip that is worth most
};

class StripCutter {
 public:
  StripCutter(int width, int height, const std::vector<Wanted>& wanted)
      : width_(width), height_(height), wanted_(wanted), left_(wanted.size()) {
    for (std::size_t i = 0; i < wanted.size(); ++i) left_[i] = wanted[i].count;
  }

  /// The strips from the top down.
  std::vector<Strip> run(Order order) {
    std::vector<Strip> strips;
    int room = height_;
    for (;;) {
      Strip best;
      for (int height : heights(room)) {
        if (order == Order::tallest_first && height != tallest(room)) continue;
        Strip strip = filled(height);
        if (strip.worth > 0 && (best.worth == 0 || better(strip, best, order))) best = std::move(strip);
      }
      if (best.worth == 0) return strips;
      do {
        for (const Column& column : best.columns) left_[column.wanted] -= column.stack;
        room -= best.height;
        strips.push_back(best);
      } while (best.height <= room && again(best));
    }
  }

 private:
  /// Whether the same strip can be cut once more from what is left.
  bool again(const Strip& strip) const {
    std::vector<int> left = left_;
    for (const Column& column : strip.columns) {
      left[column.wanted] -= column.stack;
      if (left[column.wanted] < 0) return false;
    }
    return true;
  }

  bool better(const Strip& a, const Strip& b, Order order) const {
    if (order == Order::most_worth && a.worth != b.worth) return a.worth > b.worth;
    const auto first = a.worth * b.height;
    const auto second = b.worth * a.height;
    return first != second ? first > second : a.height > b.height;
  }

  template <typename Use>
  void each_lie(int room, Use use) const {
    for (int i = 0; i < static_cast<int>(wanted_.size()); ++i) {
      if (left_[i] == 0) continue;
      const Wanted& item = wanted_[i];
      if (item.width <= width_ && item.height <= room) use(i, false, item.width, item.height);
      if (item.turnable && item.width != item.height && item.height <= width_ && item.width <= room) {
        use(i, true, item.height, item.width);
      }
    }
  }

  std::set<int> heights(int room) const {
    std::set<int> result;
    each_lie(room, [&](int, bool, int, int height) { result.insert(height); });
    return result;
  }

  /// The greatest height that a piece needs at least, lying as flat as it may.
  int tallest(int room) const {
    std::vector<int> flat(wanted_.size(), 0);
    each_lie(room, [&](int i, bool, int, int height) { flat[i] = flat[i] == 0 ? height : std::min(flat[i], height); });
    return *std::max_element(flat.begin(), flat.end());
  }

  /// A strip of this height, filled by a bounded knapsack over its length: one kind after another, each in stacks as
  /// high as the strip allows, the last stack perhaps lower.
  Strip filled(int height) const {
    std::vector<std::int64_t> worth(width_ + 1, -1);
    worth[0] = 0;
    std::vector<std::vector<Mix>> mixes;
    std::vector<std::vector<int>> chosen;  // by kind and length reached: the mix, or -1
    for (int i = 0; i < static_cast<int>(wanted_.size()); ++i) {
      if (left_[i] == 0) continue;
      mixes.push_back(mixes_of(i, height));
      chosen.emplace_back(width_ + 1, -1);
      for (int from = width_; from >= 0; --from) {
        if (worth[from] < 0) continue;
        for (int m = 0; m < static_cast<int>(mixes.back().size()); ++m) {
          const Mix& mix = mixes.back()[m];
          const int to = from + mix.length;
          if (to > width_ || worth[from] + mix.worth <= worth[to]) continue;
          worth[to] = worth[from] + mix.worth;
          chosen.back()[to] = m;
        }
      }
    }
    Strip strip;
    strip.height = height;
    int at = static_cast<int>(std::max_element(worth.begin(), worth.end()) - worth.begin());
    strip.worth = worth[at];
    for (int kind = static_cast<int>(mixes.size()) - 1; kind >= 0; --kind) {
      if (chosen[kind][at] < 0) continue;
      const Mix& mix = mixes[kind][chosen[kind][at]];
      strip.columns.insert(strip.columns.begin(), mix.columns.begin(), mix.columns.end());
      at -= mix.length;
    }
    return strip;
  }

  /// Columns of one kind that may go into a strip together.
  struct Mix {
    int length = 0;
    std::int64_t worth = 0;
    std::vector<Column> columns;
  };

  /// The mixes of a kind's two ways to lie; of each length the one that is worth most, none that a shorter one equals.
  std::vector<Mix> mixes_of(int index, int height) const {
    const Wanted& item = wanted_[index];
    std::vector<Mix> mixes = {{}};
    const auto add_way = [&](bool turned, int w, int h) {
      if (w > width_ || h > height) return;
      const std::vector<Mix> before = mixes;
      for (const Mix& mix : before) {
        Mix grown = mix;
        int used = 0;
        for (const Column& column : mix.columns) used += column.stack;
        while (used < left_[index] && grown.length + w <= width_) {
          const int stack = std::min(height / h, left_[index] - used);
          grown.columns.push_back({index, turned, stack});
          grown.length += w;
          grown.worth += stack * item.worth();
          used += stack;
          mixes.push_back(grown);
        }
      }
    };
    add_way(false, item.width, item.height);
    if (item.turnable && item.width != item.height) add_way(true, item.height, item.width);
    std::stable_sort(mixes.begin(), mixes.end(), [](const Mix& a, const Mix& b) {
      return a.length != b.length ? a.length < b.length : a.worth > b.worth;
    });
    std::vector<Mix> kept;
    for (Mix& mix : mixes) {
      if (mix.worth > (kept.empty() ? 0 : kept.back().worth)) kept.push_back(std::move(mix));
    }
    return kept;
  }

  int width_, height_;
  const std::vector<Wanted>& wanted_;
  std::vector<int> left_;
};

/// `across`: strips lie along x, one above the other; else along y, side by side.
Layout layout_of(const std::vector<Strip>& strips, bool across, int width, int height,
                 const std::vector<Wanted>& wanted) {
  Builds builds;
  int all = kNoBuild;
  const auto chain = [&](int& so_far, Build::Kind kind, int next) {
    so_far = so_far == kNoBuild ? next : builds.joined(kind, so_far, next);
  };
  const auto along = across ? Build::Kind::beside : Build::Kind::above;
  const auto upward = across ? Build::Kind::above : Build::Kind::beside;
  for (const Strip& strip : strips) {
    int row = kNoBuild;
    for (const Column& column : strip.columns) {
      int stack = kNoBuild;
      for (int i = 0; i < column.stack; ++i) {
        chain(stack, upward, builds.piece(wanted, column.wanted, column.turned));
      }
      chain(row, along, stack);
    }
    chain(all, upward, row);
  }
  return builds.layout(all, width, height, wanted);
}

}  // namespace

std::vector<Layout> strip_layouts(int width, int height, const std::vector<Wanted>& wanted, bool across_only) {
  std::vector<Layout> layouts;
  for (bool across : {true, false}) {
    if (across_only && !across) continue;
    // Strips along y are strips along x of the sheet on its side, with every piece on its side.
    std::vector<Wanted> lying = wanted;
    if (!across) {
      for (Wanted& item : lying) std::swap(item.width, item.height);
    }
    for (Order order : {Order::fullest, Order::tallest_first, Order::most_worth}) {
      StripCutter cutter(across ? width : height, across ? height : width, lying);
      layouts.push_back(layout_of(cutter.run(order), across, width, height, wanted));
    }
  }
  return layouts;
}

}  // namespace farflung::cloth
