#include "cloth/guillotine.hpp"

#include <algorithm>
#include <numeric>

#include "cloth/builds.hpp"

namespace farflung::cloth {
namespace {

std::int64_t largest_left(const Layout& layout) {
  std::int64_t most = 0;
  for (const Rect& rect : layout.left) most = std::max(most, rect.area());
  return most;
}

/// More value; then the larger leftover in one piece; then fewer cuts.
bool better(const Layout& a, const Layout& b) {
  if (a.value != b.value) return a.value > b.value;
  const std::int64_t left_a = largest_left(a);
  const std::int64_t left_b = largest_left(b);
  if (left_a != left_b) return left_a > left_b;
  return a.cuts.size() < b.cuts.size();
}

std::int64_t worth_of_all(const std::vector<Wanted>& wanted) {
  std::int64_t sum = 0;
  for (const Wanted& item : wanted) sum += item.count * item.worth();
  return sum;
}

/// The least that can be missing is what fits on no such sheet at all.
std::vector<Wanted> those_that_fit(int width, int height, std::vector<Wanted> wanted) {
  for (Wanted& item : wanted) {
    const bool lies = item.width <= width && item.height <= height;
    const bool turned = item.turnable && item.height <= width && item.width <= height;
    if (!lies && !turned) item.count = 0;
  }
  return wanted;
}

/// Cuts what is still wanted from the pieces left over, largest first, and from what they leave.
void fill_leftovers(Layout& layout, std::vector<Wanted> wanted) {
  for (const Placed& placed : layout.placed) --wanted[placed.wanted].count;
  std::vector<Rect> open = layout.left;
  std::vector<Rect> done;
  while (!open.empty()) {
    std::stable_sort(open.begin(), open.end(), [](const Rect& a, const Rect& b) { return a.area() < b.area(); });
    const Rect region = open.back();
    open.pop_back();
    Layout best;
    for (Layout& filled : strip_layouts(region.width, region.height, wanted)) {
      if (filled.value > best.value) best = std::move(filled);
    }
    if (best.placed.empty()) {
      done.push_back(region);
      continue;
    }
    const auto moved = [&](Rect rect) { return Rect{rect.x + region.x, rect.y + region.y, rect.width, rect.height}; };
    for (const Cut& cut : best.cuts) {
      layout.cuts.push_back({moved(cut.of), cut.upright, cut.at + (cut.upright ? region.x : region.y)});
    }
    for (const Placed& placed : best.placed) {
      layout.placed.push_back({moved(placed.rect), placed.wanted, placed.turned});
      --wanted[placed.wanted].count;
    }
    for (const Rect& rect : best.left) open.push_back(moved(rect));
    layout.value += best.value;
  }
  layout.left = std::move(done);
}

Layout best_of_strips(int width, int height, const std::vector<Wanted>& wanted) {
  Layout best;
  bool first = true;
  const std::int64_t whole = worth_of_all(wanted);
  for (Layout& layout : strip_layouts(width, height, wanted)) {
    if (layout.value < whole) fill_leftovers(layout, wanted);
    if (first || better(layout, best)) best = std::move(layout);
    first = false;
  }
  return best;
}

int length_of(const Layout& layout) {
  int length = 0;
  for (const Placed& piece : layout.placed) length = std::max(length, piece.rect.y + piece.rect.height);
  return length;
}

}  // namespace

Layout best_layout(int width, int height, const std::vector<Wanted>& all, const Effort& effort) {
  if (width <= 0 || height <= 0) return {};
  const std::vector<Wanted> wanted = those_that_fit(width, height, all);
  Layout best = best_of_strips(width, height, wanted);
  const std::int64_t whole = worth_of_all(wanted);
  if (best.value == whole) best.best = true;
  if (best.best || effort.strips_only) return best;

  const Fronts fronts(width, height, wanted, effort.exact);
  if (fronts.complete()) {
    int richest = 0;
    std::int64_t value = 0;
    for (int state = 1; state < fronts.states(); ++state) {
      if (!fronts.fits(state) || fronts.value(state) <= value) continue;
      value = fronts.value(state);
      richest = state;
    }
    Layout exact = fronts.builds().layout(richest == 0 ? kNoBuild : fronts.roomiest(richest), width, height, wanted);
    if (exact.value > best.value) best = std::move(exact);
    best.best = true;
    return best;
  }
  Layout grid = grid_layout(width, height, wanted, effort.grid);
  if (grid.value > best.value) best = std::move(grid);
  best.best = best.value == whole;
  return best;
}

Layout least_length(int width, const std::vector<Wanted>& all, const Effort& effort) {
  std::int64_t longest = 0;
  for (const Wanted& item : all) longest += static_cast<std::int64_t>(item.count) * std::max(item.width, item.height);
  if (longest <= 0) return {};
  // Longer than all of it end to end: what is bought is longer than what is cut, and its end is cut off too.
  const int height = static_cast<int>(std::min<std::int64_t>(longest + width, 1'000'000));
  const std::vector<Wanted> wanted = those_that_fit(width, height, all);
  Layout best;
  bool first = true;
  for (Layout& layout : strip_layouts(width, height, wanted, true)) {
    if (first || layout.value > best.value || (layout.value == best.value && length_of(layout) < length_of(best))) {
      best = std::move(layout);
    }
    first = false;
  }
  // A small set: every way there is, on a sheet just as long as the best so far.
  const int length = length_of(best);
  if (length > 0 && !effort.strips_only) {
    const Fronts fronts(width, length, wanted, effort.exact);
    if (fronts.complete() && fronts.fits(fronts.full())) {
      Layout exact = fronts.builds().layout(fronts.shortest(fronts.full()), width, height, wanted);
      if (exact.value >= best.value && length_of(exact) < length) best = std::move(exact);
      best.best = best.value == worth_of_all(wanted);
    }
  }
  return best;
}

namespace {

/// Fills one sheet after another with the best of what is left.
Sheets one_after_another(int width, int height, std::vector<Wanted> wanted, int most, const Effort& effort) {
  Sheets sheets;
  const auto left = [&] {
    return std::accumulate(wanted.begin(), wanted.end(), 0,
                           [](int sum, const Wanted& item) { return sum + item.count; });
  };
  while (left() > 0 && static_cast<int>(sheets.layouts.size()) < most) {
    Layout layout = best_layout(width, height, wanted, effort);
    if (layout.placed.empty()) break;
    for (const Placed& piece : layout.placed) --wanted[piece.wanted].count;
    sheets.layouts.push_back(std::move(layout));
  }
  for (const Wanted& item : wanted) sheets.missing.push_back(item.count);
  return sheets;
}

/// The least number of sheets for every state, by taking away what one sheet can hold. Only for small sets.
Sheets exact_sheets(int width, int height, const std::vector<Wanted>& wanted, const Effort& effort) {
  // States here count what is wanted in all; what one sheet holds is read from its own fronts.
  const Fronts fronts(width, height, wanted, effort.exact / 4);
  if (!fronts.complete()) return {};
  std::vector<std::vector<int>> fulls;  // what one sheet can hold, none contained in another
  for (int state = fronts.states() - 1; state > 0; --state) {
    if (!fronts.fits(state)) continue;
    const std::vector<int> mine = fronts.counts(state);
    const bool inside = std::any_of(fulls.begin(), fulls.end(), [&](const std::vector<int>& other) {
      return std::equal(mine.begin(), mine.end(), other.begin(), [](int a, int b) { return a <= b; });
    });
    if (!inside) fulls.push_back(mine);
    if (fulls.size() > 300) return {};
  }
  std::vector<std::int64_t> stride;
  std::int64_t states = 1;
  for (const Wanted& item : wanted) {
    stride.push_back(states);
    states *= item.count + 1;
    if (states > 20'000) return {};
  }
  if (states * static_cast<std::int64_t>(fulls.size()) > effort.exact) return {};
  constexpr int kNever = 1'000'000;
  std::vector<int> least(states, kNever);
  std::vector<int> by(states, -1);
  least[0] = 0;
  const auto after = [&](std::int64_t state, const std::vector<int>& full) {
    std::int64_t rest = 0;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      const int mine = static_cast<int>(state / stride[i] % (wanted[i].count + 1));
      rest += std::max(0, mine - full[i]) * stride[i];
    }
    return rest;
  };
  for (std::int64_t state = 1; state < states; ++state) {
    for (std::size_t f = 0; f < fulls.size(); ++f) {
      const std::int64_t rest = after(state, fulls[f]);
      if (rest < state && least[rest] + 1 < least[state]) {
        least[state] = least[rest] + 1;
        by[state] = static_cast<int>(f);
      }
    }
  }
  Sheets sheets;
  sheets.missing.assign(wanted.size(), 0);
  std::int64_t state = states - 1;
  if (least[state] >= kNever) return {};
  while (state > 0) {
    const std::vector<int>& full = fulls[by[state]];
    std::vector<Wanted> mine = wanted;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      const int left = static_cast<int>(state / stride[i] % (wanted[i].count + 1));
      mine[i].count = std::min(left, full[i]);
    }
    Layout layout = best_layout(width, height, mine, effort);
    if (layout.value < worth_of_all(mine)) {
      std::vector<int> counts;
      counts.reserve(mine.size());
      for (const Wanted& item : mine) counts.push_back(item.count);
      layout = fronts.builds().layout(fronts.roomiest(fronts.state(counts)), width, height, mine);
    }
    sheets.layouts.push_back(std::move(layout));
    state = after(state, full);
  }
  sheets.proven = true;
  return sheets;
}

}  // namespace

Sheets fewest_sheets(int width, int height, const std::vector<Wanted>& wanted, int most, const Effort& effort) {
  Sheets sheets = one_after_another(width, height, wanted, most, effort);
  std::vector<Wanted> fitting = those_that_fit(width, height, wanted);
  std::int64_t area = 0;
  for (const Wanted& item : fitting) area += static_cast<std::int64_t>(item.count) * item.width * item.height;
  const std::int64_t each = static_cast<std::int64_t>(width) * height;
  const auto used = static_cast<std::int64_t>(sheets.layouts.size());
  if (total(sheets.missing) == 0) sheets.proven = used <= (area + each - 1) / each;
  if (most == 1) sheets.proven = sheets.proven || sheets.layouts.empty() || sheets.layouts.front().best;
  if (sheets.proven || effort.strips_only) return sheets;
  Sheets exact = exact_sheets(width, height, fitting, effort);
  if (!exact.proven) return sheets;
  if (static_cast<int>(exact.layouts.size()) > most) {
    sheets.proven = true;  // not enough sheets, whatever is done
    return sheets;
  }
  for (std::size_t i = 0; i < wanted.size(); ++i) exact.missing[i] = wanted[i].count - fitting[i].count;
  const bool fewer = exact.layouts.size() < sheets.layouts.size() || total(exact.missing) < total(sheets.missing);
  if (!fewer) {
    sheets.proven = true;
    return sheets;
  }
  return exact;
}

}  // namespace farflung::cloth
