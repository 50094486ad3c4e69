#include <algorithm>
#include <numeric>

#include "cloth/builds.hpp"

namespace farflung::cloth {
namespace {

/// More than this many states are not begun upon.
constexpr std::int64_t kMostStates = 100'000;

int fitting(const Wanted& item, int width, int height) {
  const bool lies = item.width <= width && item.height <= height;
  const bool turned = item.turnable && item.height <= width && item.width <= height;
  if (!lies && !turned) return 0;
  const std::int64_t area = static_cast<std::int64_t>(width) * height;
  const std::int64_t each = static_cast<std::int64_t>(item.width) * item.height;
  return static_cast<int>(std::min<std::int64_t>(item.count, area / each));
}

}  // namespace

Fronts::Fronts(int width, int height, const std::vector<Wanted>& wanted, std::int64_t limit)
    : width_(width), height_(height), wanted_(wanted) {
  std::int64_t states = 1;
  for (const Wanted& item : wanted) {
    most_.push_back(fitting(item, width, height));
    stride_.push_back(static_cast<int>(states));
    states *= most_.back() + 1;
    if (states > kMostStates) return;
  }
  fronts_.resize(states);
  const std::int64_t room = static_cast<std::int64_t>(width) * height;
  std::int64_t left = limit;
  for (int state = 1; state < static_cast<int>(states); ++state) {
    const std::vector<int> mine = counts(state);
    std::int64_t area = 0;
    for (std::size_t i = 0; i < mine.size(); ++i) {
      area += static_cast<std::int64_t>(mine[i]) * wanted_[i].width * wanted_[i].height;
    }
    if (area > room) continue;
    left -= width_ / 4;
    join(state, left);
    if (left < 0) {
      fronts_.clear();
      return;
    }
  }
  complete_ = true;
}

std::vector<int> Fronts::counts(int state) const {
  std::vector<int> result;
  for (int most : most_) {
    result.push_back(state % (most + 1));
    state /= most + 1;
  }
  return result;
}

int Fronts::state(const std::vector<int>& counts) const {
  int result = 0;
  for (std::size_t i = 0; i < counts.size(); ++i) result += std::min(counts[i], most_[i]) * stride_[i];
  return result;
}

std::int64_t Fronts::value(int state) const {
  const std::vector<int> mine = counts(state);
  std::int64_t sum = 0;
  for (std::size_t i = 0; i < mine.size(); ++i) sum += mine[i] * wanted_[i].worth();
  return sum;
}

/// Fills the front of a state from every split of it into two smaller states; `left` counts down the pairs.
void Fronts::join(int state, std::int64_t& left) {
  struct Candidate {
    int height = 0, a = kNoBuild, b = kNoBuild;
    Build::Kind kind = Build::Kind::piece;
  };
  std::vector<Candidate> lowest(width_ + 1, Candidate{height_ + 1});  // by width
  const auto offer = [&](int w, int h, Build::Kind kind, int a, int b) {
    if (w <= width_ && h < lowest[w].height) lowest[w] = {h, a, b, kind};
  };
  const std::vector<int> mine = counts(state);
  const int pieces = std::accumulate(mine.begin(), mine.end(), 0);
  if (pieces == 1) {
    const int item = static_cast<int>(std::find(mine.begin(), mine.end(), 1) - mine.begin());
    offer(wanted_[item].width, wanted_[item].height, Build::Kind::piece, item, 0);
    if (wanted_[item].turnable) offer(wanted_[item].height, wanted_[item].width, Build::Kind::piece, item, 1);
  }
  std::vector<int> part(mine.size(), 0);
  for (int first = 0;;) {
    // The next smaller state that is contained in this one.
    std::size_t digit = 0;
    while (digit < part.size() && part[digit] == mine[digit]) {
      first -= part[digit] * stride_[digit];
      part[digit++] = 0;
    }
    if (digit == part.size()) break;
    ++part[digit];
    first += stride_[digit];
    const int second = state - first;
    if (first > second) continue;
    --left;
    for (const Box& a : fronts_[first]) {
      for (const Box& b : fronts_[second]) {
        offer(a.width + b.width, std::max(a.height, b.height), Build::Kind::beside, a.build, b.build);
        offer(std::max(a.width, b.width), a.height + b.height, Build::Kind::above, a.build, b.build);
      }
      left -= static_cast<std::int64_t>(fronts_[second].size());
    }
    if (left < 0) return;
  }
  int height = height_ + 1;
  for (int w = 0; w <= width_; ++w) {
    const Candidate& best = lowest[w];
    if (best.height >= height) continue;
    height = best.height;
    const int build = best.kind == Build::Kind::piece ? builds_.piece(wanted_, best.a, best.b == 1)
                                                      : builds_.joined(best.kind, best.a, best.b);
    fronts_[state].push_back({w, best.height, build});
  }
}

int Fronts::roomiest(int state) const {
  int best = kNoBuild;
  std::int64_t most = -1;
  for (const Box& box : fronts_[state]) {
    const auto right = static_cast<std::int64_t>(width_ - box.width) * height_;
    const auto below = static_cast<std::int64_t>(height_ - box.height) * width_;
    if (std::max(right, below) > most) {
      most = std::max(right, below);
      best = box.build;
    }
  }
  return best;
}

int Fronts::shortest(int state) const { return fronts_[state].empty() ? kNoBuild : fronts_[state].back().build; }

}  // namespace farflung::cloth
