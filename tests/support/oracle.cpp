#include "support/oracle.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace farflung::support {
namespace {

using quilt::kNone;

double shoelace(const Polygon& polygon) {
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point& p = polygon[i];
    const Point& q = polygon[(i + 1) % polygon.size()];
    twice += p.x.inches() * q.y.inches() - q.x.inches() * p.y.inches();
  }
  return std::abs(twice) / 2;
}

int print_in(const quilt::Quilt& quilt, const block::Block& block, int slot) {
  const int own = quilt.patterns[block.pattern].slots[slot].print;
  return own >= 0 ? own : block.prints[slot];
}

}  // namespace

std::vector<double> oracle_weights(const quilt::Quilt& quilt, const block::Block& block) {
  const block::Pattern& pattern = quilt.patterns[block.pattern];
  std::vector<double> weights(quilt.prints.size(), 0.0);
  for (const block::Patch& patch : pattern.patches) {
    if (pattern.slots[patch.slot].may_touch) continue;
    weights[print_in(quilt, block, patch.slot)] +=
        shoelace(patch.polygon) / (pattern.width.inches() * pattern.height.inches());
  }
  return weights;
}

std::vector<double> oracle_reading(const quilt::Quilt& quilt, const block::Block& block) {
  const block::Pattern& pattern = quilt.patterns[block.pattern];
  std::vector<double> sum(4, 0.0);
  for (const block::Patch& patch : pattern.patches) {
    const print::Features& f = quilt.prints[print_in(quilt, block, patch.slot)].features;
    const double share = shoelace(patch.polygon) / (pattern.width.inches() * pattern.height.inches());
    const double value = quilt.goals.gradation > 0 ? 0 : 1.5 * f.lab.L;
    const double values[] = {value, f.lab.a, f.lab.b, 20 * f.busyness};
    for (int k = 0; k < 4; ++k) sum[k] += share * values[k];
  }
  return sum;
}

Oracle::Oracle(const quilt::Quilt& quilt) : patterns_(quilt.patterns), plan_(quilt::plan_of(quilt)) {
  const int count = static_cast<int>(quilt.prints.size());
  for (int p = 0; p < count; ++p) {
    for (int q = 0; q < count; ++q) apart_.push_back(oracle_apart(quilt, p, q));
  }
}

std::vector<Oracle::Laid> Oracle::laid(const quilt::Quilt& quilt) const {
  std::vector<Laid> all;
  for (int cell = 0; cell < static_cast<int>(plan_.cells.size()); ++cell) {
    if (quilt.layout.block[cell] < 0) continue;
    const block::Block& block = quilt.blocks[quilt.layout.block[cell]];
    const block::Pattern& pattern = patterns_[block.pattern];
    for (int k = 0; k < static_cast<int>(pattern.patches.size()); ++k) {
      const int slot = pattern.patches[k].slot;
      all.push_back({cell, k, block.pattern, quilt.layout.turn[cell].quarters(), print_in(quilt, block, slot),
                     pattern.slots[slot].may_touch});
    }
  }
  for (int k = 0; k < static_cast<int>(plan_.frame.size()); ++k) {
    all.push_back({-1, k, 0, 0, plan_.frame[k].print, true});
  }
  return all;
}

Oracle::Outline Oracle::outline(const Laid& patch) const {
  Outline corners;
  if (patch.cell < 0) {
    for (const Point& p : plan_.frame[patch.patch].polygon) corners.push_back({p.x.inches(), p.y.inches()});
    return corners;
  }
  const block::Pattern& pattern = patterns_[patch.pattern];
  const Point centre = plan_.cells[patch.cell].centre;
  // Turned about the block's middle; on point the block stands on corner (0, 0) turned up: an eighth of a turn more.
  const double angle = std::acos(-1.0) * (patch.turn / 2.0 + (plan_.on_point ? 0.25 : 0.0));
  for (const Point& p : pattern.patches[patch.patch].polygon) {
    const double x = p.x.inches() - pattern.width.inches() / 2;
    const double y = p.y.inches() - pattern.height.inches() / 2;
    corners.push_back({centre.x.inches() + x * std::cos(angle) - y * std::sin(angle),
                       centre.y.inches() + x * std::sin(angle) + y * std::cos(angle)});
  }
  return corners;
}

Oracle::Met Oracle::met(const Laid& a, const Laid& b) {
  std::uint64_t key = 0;
  for (const int part : {a.cell + 1, a.patch, a.pattern, a.turn, b.cell + 1, b.patch, b.pattern, b.turn}) {
    key = key * 251 + static_cast<std::uint64_t>(part);  // worlds of the oracle are small: no two keys are the same
  }
  const auto found = known_.find(key);
  if (found != known_.end()) return found->second;
  const Outline first = outline(a);
  const Outline second = outline(b);
  Met met;
  const auto line_distance = [](Vertex p, Vertex from, Vertex to) {
    return ((to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x)) /
           std::hypot(to.x - from.x, to.y - from.y);
  };
  const auto along = [](Vertex p, Vertex from, Vertex to) {
    return ((to.x - from.x) * (p.x - from.x) + (to.y - from.y) * (p.y - from.y)) /
           std::hypot(to.x - from.x, to.y - from.y);
  };
  for (std::size_t i = 0; i < first.size(); ++i) {
    const Vertex from = first[i];
    const Vertex to = first[(i + 1) % first.size()];
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    for (std::size_t j = 0; j < second.size(); ++j) {
      const Vertex p = second[j];
      const Vertex q = second[(j + 1) % second.size()];
      if (std::abs(line_distance(p, from, to)) < kNear && std::abs(line_distance(q, from, to)) < kNear) {
        const double low = std::max(0.0, std::min(along(p, from, to), along(q, from, to)));
        const double high = std::min(length, std::max(along(p, from, to), along(q, from, to)));
        if (high - low > kNear) met.seam += high - low;
      }
      // A corner of either on an edge of the other.
      if (std::abs(line_distance(p, from, to)) < kNear && along(p, from, to) > -kNear &&
          along(p, from, to) < length + kNear) {
        met.point = true;
      }
      if (std::abs(line_distance(from, p, q)) < kNear && along(from, p, q) > -kNear &&
          along(from, p, q) < std::hypot(q.x - p.x, q.y - p.y) + kNear) {
        met.point = true;
      }
    }
  }
  known_[key] = met;
  return met;
}

void Oracle::count_contacts(const quilt::Quilt& quilt, OracleTerms& terms) {
  const std::vector<Laid> all = laid(quilt);
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      const Laid& a = all[i];
      const Laid& b = all[j];
      if (a.cell == b.cell || a.print < 0 || b.print < 0) continue;
      if (a.cell >= 0 && b.cell >= 0) {
        const Point apart = plan_.cells[a.cell].centre - plan_.cells[b.cell].centre;
        if (std::hypot(apart.x.inches(), apart.y.inches()) > 1.6 * plan_.pitch) continue;
      }
      const Met how = met(a, b);
      const double seam = how.seam / plan_.pitch;
      if (a.print == b.print) {
        if (a.may_touch && b.may_touch) continue;
        if (seam > 0) {
          terms.touches += 1;
          terms.touch_length += seam;
        } else if (how.point) {
          terms.corners += 1;
        }
      } else if (seam > 0) {
        const double apart = apart_[static_cast<std::size_t>(a.print) * quilt.prints.size() + b.print];
        terms.likeness += seam * std::pow(std::max(0.0, 1 - apart / 10), 2);
        if (apart < 10) terms.alike_length += seam;
        const double merging =
            1 - std::abs(quilt.prints[a.print].features.lab.L - quilt.prints[b.print].features.lab.L) / 8;
        terms.contrast += seam * std::max(0.0, merging);
      }
    }
  }
}

void Oracle::sum_windows(const quilt::Quilt& quilt, OracleTerms& terms) const {
  std::vector<std::vector<double>> w, g;  // by cell that holds a block
  std::vector<double> x, y;
  std::vector<double> share(quilt.prints.size(), 0.0);
  std::vector<double> mean(4, 0.0);
  const double all = static_cast<double>(quilt.blocks.size());
  for (const block::Block& block : quilt.blocks) {
    const auto weights = oracle_weights(quilt, block);
    for (std::size_t p = 0; p < share.size(); ++p) share[p] += weights[p] / all;
    for (int k = 0; k < 4; ++k) mean[k] += oracle_reading(quilt, block)[k] / all;
  }
  for (std::size_t cell = 0; cell < plan_.cells.size(); ++cell) {
    if (quilt.layout.block[cell] < 0) continue;
    const block::Block& block = quilt.blocks[quilt.layout.block[cell]];
    w.push_back(oracle_weights(quilt, block));
    g.push_back(oracle_reading(quilt, block));
    for (int k = 0; k < 4; ++k) g.back()[k] -= mean[k];
    x.push_back(plan_.cells[cell].centre.x.inches() / plan_.pitch);
    y.push_back(plan_.cells[cell].centre.y.inches() / plan_.pitch);
  }
  const std::size_t n = w.size();
  terms.spread_sums.assign(share.size(), 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i + 1; j < n; ++j) {
      const double squared = (x[i] - x[j]) * (x[i] - x[j]) + (y[i] - y[j]) * (y[i] - y[j]);
      for (std::size_t p = 0; p < share.size(); ++p) terms.spread_sums[p] += w[i][p] * w[j][p] / squared;
    }
  }
  for (const double s : {1.0, 2.0, 4.0}) {
    for (std::size_t i = 0; i < n; ++i) {
      double sum = 0;
      std::vector<double> regional(share.size(), 0.0);
      std::vector<double> cast(4, 0.0);
      for (std::size_t j = 0; j < n; ++j) {
        const double squared = (x[i] - x[j]) * (x[i] - x[j]) + (y[i] - y[j]) * (y[i] - y[j]);
        const double weight = std::exp(-squared / (2 * s * s));
        sum += weight;
        for (std::size_t p = 0; p < share.size(); ++p) regional[p] += weight * w[j][p];
        for (int k = 0; k < 4; ++k) cast[k] += weight * g[j][k];
      }
      for (int k = 0; k < 4; ++k) terms.evenness += cast[k] / sum * cast[k] / sum / static_cast<double>(n) / 3;
      if (s == 1.0) continue;
      for (std::size_t p = 0; p < share.size(); ++p) {
        if (share[p] > 0) {
          terms.coverage += std::pow(regional[p] / sum - share[p], 2) / share[p] / static_cast<double>(n) / 2;
        }
      }
    }
  }
  sum_streaks(quilt, g, terms);
}

void Oracle::sum_streaks(const quilt::Quilt& quilt, const std::vector<std::vector<double>>& casts,
                         OracleTerms& terms) const {
  std::vector<int> cells;
  for (int cell = 0; cell < static_cast<int>(plan_.cells.size()); ++cell) {
    if (quilt.layout.block[cell] >= 0) cells.push_back(cell);
  }
  const bool straight = quilt.setting.kind == setting::Setting::Kind::straight;
  const bool brick = quilt.setting.kind == setting::Setting::Kind::brick;
  std::map<std::pair<int, int>, std::vector<std::size_t>> lines;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const setting::Cell& cell = plan_.cells[cells[i]];
    const int across = straight ? cell.column : 2 * cell.column + (cell.row % 2);
    lines[{0, cell.row}].push_back(i);
    lines[{1, across}].push_back(i);
    if (brick) continue;
    lines[{2, across + cell.row}].push_back(i);
    lines[{3, across - cell.row}].push_back(i);
  }
  int count = 0;
  double sum = 0;
  for (const auto& [name, line] : lines) {
    if (line.size() < 3) continue;
    ++count;
    for (int k = 0; k < 4; ++k) {
      double total = 0;
      for (const std::size_t i : line) total += casts[i][k];
      sum += total * total / static_cast<double>(line.size());
    }
  }
  if (count > 0) terms.streak = sum / count;
}

namespace {

double rank_among(const std::vector<double>& all, double value) {
  double below = 0;
  for (const double each : all) below += std::abs(each - value) < 1e-7 ? 0.5 : (each < value ? 1 : 0);
  return below / static_cast<double>(all.size());
}

}  // namespace

OracleGradation::OracleGradation(const quilt::Quilt& quilt, const setting::Plan& plan) {
  // Every patch of every block, spares included: what a print's lightness is ranked among.
  std::vector<double> lightness;
  for (const block::Block& block : quilt.blocks) {
    for (const block::Patch& patch : quilt.patterns[block.pattern].patches) {
      lightness.push_back(quilt.prints[print_in(quilt, block, patch.slot)].features.lab.L);
    }
  }
  for (const print::Print& print : quilt.prints) has_.push_back(rank_among(lightness, print.features.lab.L));
  // Four columns of samples to a cell, each standing for four: what a place is ranked among, the left the lightest.
  for (std::size_t cell = 0; cell < plan.cells.size(); ++cell) {
    if (quilt.layout.block[cell] < 0) continue;
    const double x = plan.cells[cell].centre.x.inches();
    for (const double part : {-0.375, -0.125, 0.125, 0.375}) samples_.push_back(x + part * plan.pitch);
    left_ = std::min(left_, x - plan.pitch / 2);
    right_ = std::max(right_, x + plan.pitch / 2);
  }
}

double OracleGradation::asked(double x) const { return 1 - rank_among(samples_, std::min(right_, std::max(left_, x))); }

double Oracle::middle(const Outline& corners) {
  double twice = 0, moment = 0;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Vertex p = corners[i];
    const Vertex q = corners[(i + 1) % corners.size()];
    twice += p.x * q.y - q.x * p.y;
    moment += (p.x * q.y - q.x * p.y) * (p.x + q.x);
  }
  return moment / (3 * twice);
}

void Oracle::sum_gradation(const quilt::Quilt& quilt, OracleTerms& terms) const {
  const OracleGradation gradation(quilt, plan_);
  double blocks = 0;
  for (const int block : quilt.layout.block) blocks += block >= 0 ? 1 : 0;
  for (const Laid& patch : laid(quilt)) {
    if (patch.cell < 0) continue;
    const double off = gradation.has(patch.print) - gradation.asked(middle(outline(patch)));
    terms.gradation += off * off / static_cast<double>(patterns_[patch.pattern].patches.size()) / blocks;
  }
}

void Oracle::count_copies(const quilt::Quilt& quilt, OracleTerms& terms) const {
  std::vector<std::vector<double>> w;
  std::vector<double> x, y;
  for (std::size_t cell = 0; cell < plan_.cells.size(); ++cell) {
    if (quilt.layout.block[cell] < 0) continue;
    w.push_back(oracle_weights(quilt, quilt.blocks[quilt.layout.block[cell]]));
    x.push_back(plan_.cells[cell].centre.x.inches() / plan_.pitch);
    y.push_back(plan_.cells[cell].centre.y.inches() / plan_.pitch);
  }
  double closest = 1e300, farthest = 0;
  for (std::size_t i = 0; i < w.size(); ++i) {
    for (std::size_t k = i + 1; k < w.size(); ++k) {
      const double apart = std::hypot(x[i] - x[k], y[i] - y[k]);
      farthest = std::max(farthest, apart);
      for (std::size_t p = 0; p < quilt.prints.size(); ++p) {
        if (w[i][p] <= 0 || w[k][p] <= 0) continue;
        closest = std::min(closest, apart);
        for (std::size_t j = 0; j < w.size(); ++j) {
          const double off = std::hypot(2 * x[j] - x[i] - x[k], 2 * y[j] - y[i] - y[k]);
          if (w[j][p] > 0 && off < 1e-4) terms.lines += 1;
        }
      }
    }
  }
  terms.closest = std::min(closest, farthest);
}

OracleTerms Oracle::terms(const quilt::Quilt& quilt) {
  OracleTerms terms;
  terms.spread_sums.assign(quilt.prints.size(), 0.0);
  count_contacts(quilt, terms);
  sum_windows(quilt, terms);
  if (quilt.goals.gradation > 0) sum_gradation(quilt, terms);
  if (quilt.goals.lines > 0 || quilt.goals.closest > 0) count_copies(quilt, terms);
  if (quilt.goals.nest > 0 || quilt.goals.nest_rule) count_ends(quilt, terms);
  return terms;
}

}  // namespace farflung::support
