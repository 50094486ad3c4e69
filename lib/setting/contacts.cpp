#include "setting/contacts.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace farflung::setting {
namespace {

/// The box around a polygon, grown by the snap; inches.
struct Box {
  double left = 1e300, top = 1e300, right = -1e300, bottom = -1e300;

  explicit Box(const Polygon& polygon) {
    for (const Point& point : polygon) {
      left = std::min(left, point.x.inches() - kSnap.inches());
      right = std::max(right, point.x.inches() + kSnap.inches());
      top = std::min(top, point.y.inches() - kSnap.inches());
      bottom = std::max(bottom, point.y.inches() + kSnap.inches());
    }
  }

  bool meets(const Box& other) const {
    return left <= other.right && other.left <= right && top <= other.bottom && other.top <= bottom;
  }
};

bool meets(const Meeting& met) { return met.seam > Length() || met.point; }

/// Things by the square of the plane in which they lie, so that only near ones are compared.
class Neighbourhood {
 public:
  explicit Neighbourhood(double side) : side_(side) {}

  void add(const Box& box, int thing) {
    for_each_square(box, [&](std::pair<int, int> square) { things_[square].push_back(thing); });
  }

  /// Ascending, each once.
  std::vector<int> near(const Box& box) const {
    std::vector<int> found;
    for_each_square(box, [&](std::pair<int, int> square) {
      const auto here = things_.find(square);
      if (here != things_.end()) found.insert(found.end(), here->second.begin(), here->second.end());
    });
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
  }

 private:
  template <typename Use>
  void for_each_square(const Box& box, Use use) const {
    const auto square = [&](double x) { return static_cast<int>(std::floor(x / side_)); };
    for (int x = square(box.left); x <= square(box.right); ++x) {
      for (int y = square(box.top); y <= square(box.bottom); ++y) use({x, y});
    }
  }

  double side_;
  std::map<std::pair<int, int>, std::vector<int>> things_;
};

Polygon whole_block(const Plan& plan) { return rectangle(Length(), Length(), plan.block_width, plan.block_height); }

std::vector<Polygon> patches_on_top(const Plan& plan, const block::Pattern& pattern, int cell, Turn turn) {
  std::vector<Polygon> polygons;
  for (const block::Patch& patch : pattern.patches) polygons.push_back(plan.top_from_block(patch.polygon, cell, turn));
  return polygons;
}

/// Adds every contact between the two lists; `name_b` gives the index by which a second polygon is listed.
template <typename NameB>
void add_contacts(const std::vector<Polygon>& first, const std::vector<Polygon>& second, NameB name_b,
                  std::vector<PatchContact>& contacts) {
  std::vector<Box> second_boxes(second.begin(), second.end());
  for (std::size_t a = 0; a < first.size(); ++a) {
    const Box box(first[a]);
    for (std::size_t b = 0; b < second.size(); ++b) {
      if (!box.meets(second_boxes[b])) continue;
      const Meeting met = meeting(first[a], second[b]);
      if (meets(met)) contacts.push_back({static_cast<int>(a), name_b(b), met.seam});
    }
  }
}

}  // namespace

Contacts::Contacts(const Plan& plan, const std::vector<block::Pattern>& patterns)
    : patterns_(static_cast<int>(patterns.size())) {
  find_pairs(plan);
  find_between(plan, patterns);
  find_with_frame(plan, patterns);
}

std::span<const PatchContact> Contacts::listed(Range range) const {
  return {contacts_.data() + range.begin, static_cast<std::size_t>(range.end - range.begin)};
}

std::size_t Contacts::between_index(int relation, int pattern_a, Turn turn_a, int pattern_b, Turn turn_b) const {
  const auto whole = [](int number) { return static_cast<std::size_t>(number); };
  const std::size_t first = whole(pattern_a * Turn::kCount + turn_a.quarters());
  const std::size_t second = whole(pattern_b * Turn::kCount + turn_b.quarters());
  const std::size_t states = whole(patterns_ * Turn::kCount);
  return (whole(relation) * states + first) * states + second;
}

std::span<const PatchContact> Contacts::between(int relation, int pattern_a, Turn turn_a, int pattern_b,
                                                Turn turn_b) const {
  return listed(between_[between_index(relation, pattern_a, turn_a, pattern_b, turn_b)]);
}

std::span<const PatchContact> Contacts::with_frame(int cell, int pattern, Turn turn) const {
  return listed(with_frame_[(cell * patterns_ + pattern) * Turn::kCount + turn.quarters()]);
}

void Contacts::find_pairs(const Plan& plan) {
  const Polygon block = whole_block(plan);
  std::vector<Polygon> blocks;
  Neighbourhood neighbourhood(plan.pitch);
  for (std::size_t cell = 0; cell < plan.cells.size(); ++cell) {
    blocks.push_back(plan.top_from_block(block, static_cast<int>(cell), Turn()));
    neighbourhood.add(Box(blocks.back()), static_cast<int>(cell));
  }

  using Offset = std::pair<long, long>;  // from centre to centre, in snaps
  const auto snaps = [](Length length) { return std::lround(length.inches() / (4 * kSnap.inches())); };
  std::map<Offset, int> relation_of;  // kNone: they do not meet
  for (int first = 0; first < static_cast<int>(blocks.size()); ++first) {
    for (int second : neighbourhood.near(Box(blocks[first]))) {
      if (second <= first) continue;
      const Point apart = plan.cells[second].centre - plan.cells[first].centre;
      const auto [known, is_new] = relation_of.try_emplace({snaps(apart.x), snaps(apart.y)}, kNone);
      if (is_new && meets(meeting(blocks[first], blocks[second]))) known->second = relations_++;
      if (known->second != kNone) pairs_.push_back({first, second, known->second});
    }
  }
}

void Contacts::find_between(const Plan& plan, const std::vector<block::Pattern>& patterns) {
  const int states = patterns_ * Turn::kCount;
  between_.resize(static_cast<std::size_t>(relations_) * states * states);
  std::vector<bool> done(relations_, false);
  for (const CellPair& pair : pairs_) {
    if (done[pair.relation]) continue;
    done[pair.relation] = true;
    for (int a = 0; a < patterns_; ++a) {
      for (Turn turn_a : patterns[a].turns) {
        const auto first = patches_on_top(plan, patterns[a], pair.first, turn_a);
        for (int b = 0; b < patterns_; ++b) {
          for (Turn turn_b : patterns[b].turns) {
            const auto second = patches_on_top(plan, patterns[b], pair.second, turn_b);
            Range range{static_cast<int>(contacts_.size()), 0};
            add_contacts(
                first, second, [](std::size_t i) { return static_cast<int>(i); }, contacts_);
            range.end = static_cast<int>(contacts_.size());
            between_[between_index(pair.relation, a, turn_a, b, turn_b)] = range;
          }
        }
      }
    }
  }
}

void Contacts::find_with_frame(const Plan& plan, const std::vector<block::Pattern>& patterns) {
  Neighbourhood neighbourhood(plan.pitch);
  for (std::size_t i = 0; i < plan.frame.size(); ++i) {
    neighbourhood.add(Box(plan.frame[i].polygon), static_cast<int>(i));
  }
  with_frame_.resize(plan.cells.size() * patterns_ * Turn::kCount);
  const Polygon block = whole_block(plan);
  for (int cell = 0; cell < static_cast<int>(plan.cells.size()); ++cell) {
    const Polygon here = plan.top_from_block(block, cell, Turn());
    std::vector<int> pieces;
    std::vector<Polygon> polygons;
    for (int piece : neighbourhood.near(Box(here))) {
      if (!meets(meeting(here, plan.frame[piece].polygon))) continue;
      pieces.push_back(piece);
      polygons.push_back(plan.frame[piece].polygon);
    }
    for (int p = 0; p < patterns_; ++p) {
      if (plan.cells[cell].pattern != kNone && plan.cells[cell].pattern != p) continue;
      for (Turn turn : patterns[p].turns) {
        Range range{static_cast<int>(contacts_.size()), 0};
        add_contacts(
            patches_on_top(plan, patterns[p], cell, turn), polygons, [&](std::size_t i) { return pieces[i]; },
            contacts_);
        range.end = static_cast<int>(contacts_.size());
        with_frame_[(cell * patterns_ + p) * Turn::kCount + turn.quarters()] = range;
      }
    }
  }
}

}  // namespace farflung::setting
