#include "score/gradation.hpp"

#include <algorithm>
#include <cmath>

namespace farflung::score {
namespace {

struct Box {
  double left = 1e300, top = 1e300, right = -1e300, bottom = -1e300;
};

/// Inches; the blocks alone, without borders.
Box box_of_blocks(const setting::Plan& plan, const Places& places) {
  Box box;
  const double half = plan.pitch / 2;
  for (const int cell : places.cell) {
    const double x = plan.cells[cell].centre.x.inches();
    const double y = plan.cells[cell].centre.y.inches();
    box.left = std::min(box.left, x - half);
    box.right = std::max(box.right, x + half);
    box.top = std::min(box.top, y - half);
    box.bottom = std::max(box.bottom, y + half);
  }
  return box;
}

/// How light a point of the top is to be, in any unit that grows with lightness.
double wanted_at(const quilt::Gradation& gradation, const Box& box, double x, double y) {
  using Way = quilt::Gradation::Way;
  const double across = std::clamp((x - box.left) / (box.right - box.left), 0.0, 1.0);
  const double down = std::clamp((y - box.top) / (box.bottom - box.top), 0.0, 1.0);
  double dark = 0;
  switch (gradation.way) {
    case Way::across:
      dark = across;
      break;
    case Way::down:
      dark = down;
      break;
    case Way::diagonal:
      dark = (x - box.left) + (y - box.top);
      break;
    case Way::outward:
      dark = std::hypot(x - (box.left + box.right) / 2, y - (box.top + box.bottom) / 2);
      break;
    case Way::picture: {
      if (gradation.picture_columns <= 0 || gradation.picture.empty()) return 0;
      const int columns = gradation.picture_columns;
      const int rows = static_cast<int>(gradation.picture.size()) / columns;
      const int column = std::min(columns - 1, static_cast<int>(across * columns));
      const int row = std::min(rows - 1, static_cast<int>(down * rows));
      dark = -gradation.picture[static_cast<std::size_t>(row) * columns + column];
      break;
    }
  }
  return gradation.dark_first ? dark : -dark;
}

/// The share of `sorted` below a value, those equal to it counting half.
double rank_in(const std::vector<double>& sorted, double value) {
  const double slack = 1e-9 * std::max(1.0, std::abs(value));
  const auto low = std::lower_bound(sorted.begin(), sorted.end(), value - slack);
  const auto high = std::upper_bound(sorted.begin(), sorted.end(), value + slack);
  return (static_cast<double>(low - sorted.begin()) + static_cast<double>(high - sorted.begin())) / 2 /
         static_cast<double>(sorted.size());
}

Point centre_of(const Polygon& polygon) {
  double twice = 0, x = 0, y = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const double px = polygon[i].x.inches(), py = polygon[i].y.inches();
    const double qx = polygon[(i + 1) % polygon.size()].x.inches(), qy = polygon[(i + 1) % polygon.size()].y.inches();
    const double each = px * qy - qx * py;
    twice += each;
    x += each * (px + qx);
    y += each * (py + qy);
  }
  return {Length::inches(x / (3 * twice)), Length::inches(y / (3 * twice))};
}

}  // namespace

std::size_t GradationGoal::index(int place, int pattern, Turn turn, int slot) const {
  return ((static_cast<std::size_t>(place) * patterns_ + pattern) * Turn::kCount + turn.quarters()) * slots_ + slot;
}

void GradationGoal::rank_prints(const quilt::Quilt& quilt) {
  std::vector<double> patches(quilt.prints.size(), 0.0);  // how many each print fills
  double all = 0;
  for (const block::Block& block : quilt.blocks) {
    for (const block::Patch& patch : quilt.patterns[block.pattern].patches) {
      const int print = quilt::print_of_slot(quilt, block, patch.slot);
      if (print == kNone) continue;
      patches[print] += 1;
      all += 1;
    }
  }
  for (const print::Print& print : quilt.prints) {
    double below = 0;
    for (std::size_t q = 0; q < quilt.prints.size(); ++q) {
      const double L = quilt.prints[q].features.lab.L;
      below += L < print.features.lab.L ? patches[q] : (L == print.features.lab.L ? patches[q] / 2 : 0);
    }
    rank_.push_back(all > 0 ? below / all : 0.5);
  }
}

GradationGoal::GradationGoal(const quilt::Quilt& quilt, const setting::Plan& plan, const Places& places)
    : patterns_(static_cast<int>(quilt.patterns.size())) {
  rank_prints(quilt);
  for (const block::Pattern& pattern : quilt.patterns) {
    slots_ = std::max(slots_, static_cast<int>(pattern.slots.size()));
  }
  const Box box = box_of_blocks(plan, places);
  std::vector<double> samples;  // sixteen to a cell: what all parts of the top ask for
  for (const int cell : places.cell) {
    for (int k = 0; k < 16; ++k) {
      const int column = k % 4, row = k / 4;
      const double dx = plan.pitch * (column - 1.5) / 4, dy = plan.pitch * (row - 1.5) / 4;
      const Point centre = plan.cells[cell].centre;
      samples.push_back(wanted_at(quilt.gradation, box, centre.x.inches() + dx, centre.y.inches() + dy));
    }
  }
  std::sort(samples.begin(), samples.end());
  asked_.resize(static_cast<std::size_t>(places.count()) * patterns_ * Turn::kCount * slots_);
  for (int i = 0; i < places.count(); ++i) {
    for (int p = 0; p < patterns_; ++p) {
      const block::Pattern& pattern = quilt.patterns[p];
      const double each = 1.0 / (static_cast<double>(pattern.patches.size()) * places.count());
      for (const Turn turn : pattern.turns) {
        for (const block::Patch& patch : pattern.patches) {
          const Point at = centre_of(plan.top_from_block(patch.polygon, places.cell[i], turn));
          const double asked = rank_in(samples, wanted_at(quilt.gradation, box, at.x.inches(), at.y.inches()));
          Asked& sums = asked_[index(i, p, turn, patch.slot)];
          sums.count += each;
          sums.sum += each * asked;
          sums.squares += each * asked * asked;
        }
      }
    }
  }
}

double GradationGoal::cost(int place, int pattern, Turn turn, int slot, int print) const {
  if (print == kNone) return 0;
  const Asked& asked = asked_[index(place, pattern, turn, slot)];
  const double rank = rank_[print];
  return asked.count * rank * rank - 2 * rank * asked.sum + asked.squares;
}

double GradationGoal::cost(int place, int pattern, Turn turn, const std::vector<int>& prints) const {
  double sum = 0;
  for (int slot = 0; slot < static_cast<int>(prints.size()); ++slot)
    sum += cost(place, pattern, turn, slot, prints[slot]);
  return sum;
}

}  // namespace farflung::score
