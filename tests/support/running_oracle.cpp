#include "support/running_oracle.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace farflung::support {
namespace {

constexpr double kScales[] = {1, 2, 4};

}  // namespace

RunningOracle::RunningOracle(const quilt::Quilt& quilt)
    : oracle_(quilt), gradation_(quilt, oracle_.plan_), prints_(quilt.prints), goals_(quilt.goals) {
  const setting::Plan& plan = oracle_.plan_;
  const int n = static_cast<int>(plan.cells.size());
  delta_e_ = oracle_.apart_;
  share_.assign(prints_.size(), 0.0);
  for (const block::Block& block : quilt.blocks) {
    const double each = 1.0 / static_cast<double>(quilt.blocks.size());
    const auto weights = oracle_weights(quilt, block);
    const auto reading = oracle_reading(quilt, block);
    for (std::size_t p = 0; p < share_.size(); ++p) share_[p] += each * weights[p];
    for (int k = 0; k < 4; ++k) mean_[k] += each * reading[k];
  }
  for (int cell = 0; cell < n; ++cell) {
    cells_.push_back(read(quilt, cell));
    if (cells_[cell].pattern >= 0) places_.push_back(cell);
  }
  const auto x = [&](int cell) { return plan.cells[cell].centre.x.inches() / plan.pitch; };
  const auto y = [&](int cell) { return plan.cells[cell].centre.y.inches() / plan.pitch; };
  const int forms = static_cast<int>(quilt.patterns.size()) * 4;
  pairs_of_.resize(n);
  inverse_square_.assign(static_cast<std::size_t>(n) * n, 0.0);
  distance_.assign(static_cast<std::size_t>(n) * n, 0.0);
  for (const int a : places_) {
    for (const int b : places_) {
      if (a == b) continue;
      const double apart = std::hypot(x(a) - x(b), y(a) - y(b));
      distance_[static_cast<std::size_t>(a) * n + b] = apart;
      inverse_square_[static_cast<std::size_t>(a) * n + b] = 1 / (apart * apart);
      farthest_ = std::max(farthest_, apart);
      if (b <= a || apart > 1.6) continue;
      pairs_of_[a].push_back(static_cast<int>(pairs_.size()));
      pairs_of_[b].push_back(static_cast<int>(pairs_.size()));
      pairs_.push_back({a, b, std::vector<Join>(static_cast<std::size_t>(forms) * forms)});
    }
  }
  frame_joins_.assign(n, std::vector<Join>(forms));
  for (int s = 0; s < 3; ++s) {
    weights_[s].assign(static_cast<std::size_t>(n) * n, 0.0);
    for (const int i : places_) {
      double sum = 0;
      for (const int j : places_) {
        const double squared = std::pow(x(i) - x(j), 2) + std::pow(y(i) - y(j), 2);
        sum += weights_[s][static_cast<std::size_t>(i) * n + j] = std::exp(-squared / (2 * kScales[s] * kScales[s]));
      }
      for (const int j : places_) weights_[s][static_cast<std::size_t>(i) * n + j] /= sum;
    }
    regional_[s].assign(n, std::vector<double>(prints_.size(), 0.0));
    cast_[s].assign(n, {});
  }
  std::map<std::pair<int, int>, std::vector<int>> lines;
  for (const int cell : places_) {
    const bool straight = quilt.setting.kind == setting::Setting::Kind::straight;
    const int row = plan.cells[cell].row;
    const int across = straight ? plan.cells[cell].column : 2 * plan.cells[cell].column + row % 2;
    lines[{0, row}].push_back(cell);
    lines[{1, across}].push_back(cell);
    if (quilt.setting.kind == setting::Setting::Kind::brick) continue;
    lines[{2, across + row}].push_back(cell);
    lines[{3, across - row}].push_back(cell);
  }
  lines_of_.resize(n);
  for (const auto& [name, line] : lines) {
    if (line.size() < 3) continue;
    for (const int cell : line) lines_of_[cell].push_back(static_cast<int>(lines_.size()));
    lines_.push_back(line);
  }
  line_sum_.assign(lines_.size(), {});
  for (const int i : places_) {
    for (const int k : places_) {
      for (const int j : places_) {
        if (k > i && std::hypot(2 * x(j) - x(i) - x(k), 2 * y(j) - y(i) - y(k)) < 1e-4) triples_.push_back({i, j, k});
      }
    }
  }
  now_.spread_sums.assign(prints_.size(), 0.0);
  add_windows(places_, 1);
  count_pairs(places_, 1);
}

RunningOracle::InCell RunningOracle::read(const quilt::Quilt& quilt, int cell) const {
  InCell in;
  if (quilt.layout.block[cell] < 0) return in;
  const block::Block& block = quilt.blocks[quilt.layout.block[cell]];
  const block::Pattern& pattern = quilt.patterns[block.pattern];
  in.pattern = block.pattern;
  in.turn = quilt.layout.turn[cell].quarters();
  in.other = block.press == block::Block::Press::other;
  for (const block::Patch& patch : pattern.patches) {
    const int own = pattern.slots[patch.slot].print;
    in.prints.push_back(own >= 0 ? own : block.prints[patch.slot]);
    in.may_touch.push_back(pattern.slots[patch.slot].may_touch ? 1 : 0);
  }
  in.w = oracle_weights(quilt, block);
  const auto reading = oracle_reading(quilt, block);
  for (int k = 0; k < 4; ++k) in.g[k] = reading[k] - mean_[k];
  for (std::size_t p = 0; p < in.w.size(); ++p) in.holds |= in.w[p] > 0 ? std::uint64_t{1} << p : 0;
  return in;
}

std::vector<RunningOracle::Contact> RunningOracle::contacts_between(int a, int b) {
  std::vector<Contact> contacts;
  const InCell& in_a = cells_[a];
  const int patches_b =
      b < 0 ? static_cast<int>(oracle_.plan_.frame.size()) : static_cast<int>(cells_[b].prints.size());
  for (int i = 0; i < static_cast<int>(in_a.prints.size()); ++i) {
    for (int j = 0; j < patches_b; ++j) {
      const Oracle::Laid first{a, i, in_a.pattern, in_a.turn};
      const Oracle::Laid second = b < 0 ? Oracle::Laid{-1, j} : Oracle::Laid{b, j, cells_[b].pattern, cells_[b].turn};
      const Oracle::Met met = oracle_.met(first, second);
      if (met.seam > 0 || met.point) contacts.push_back({i, j, met.seam / oracle_.plan_.pitch});
    }
  }
  return contacts;
}

const RunningOracle::Join& RunningOracle::join_of(Pair& pair) {
  const InCell& a = cells_[pair.a];
  const InCell& b = cells_[pair.b];
  const std::size_t forms = frame_joins_.front().size();
  Join& join = pair.joins[static_cast<std::size_t>(form(a)) * forms + form(b)];
  if (join.known) return join;
  join.known = true;
  join.contacts = contacts_between(pair.a, pair.b);
  join.nest_alike = oracle_.nest_alike(oracle_.ends_of(pair.a, a.pattern, a.turn), pair.a,
                                       oracle_.ends_of(pair.b, b.pattern, b.turn), pair.b);
  return join;
}

const RunningOracle::Join& RunningOracle::frame_join(int cell) {
  Join& join = frame_joins_[cell][form(cells_[cell])];
  if (!join.known) join = {true, contacts_between(cell, -1), {}};
  return join;
}

void RunningOracle::count(const Contact& contact, int print_a, int print_b, bool both_may_touch, int sign) {
  if (print_a < 0 || print_b < 0) return;
  if (print_a == print_b) {
    if (both_may_touch) return;
    if (contact.seam > 0) {
      now_.touches += sign;
      now_.touch_length += sign * contact.seam;
    } else {
      now_.corners += sign;
    }
    return;
  }
  if (contact.seam <= 0) return;
  const double apart = delta_e_[static_cast<std::size_t>(print_a) * prints_.size() + print_b];
  const double merging = 1 - std::abs(prints_[print_a].features.lab.L - prints_[print_b].features.lab.L) / 8;
  if (apart < 10) now_.likeness += sign * contact.seam * (1 - apart / 10) * (1 - apart / 10);
  if (apart < 10) now_.alike_length += sign * contact.seam;
  if (merging > 0) now_.contrast += sign * contact.seam * merging;
}

double RunningOracle::gradation(int cell) const {
  const InCell& in = cells_[cell];
  const double patches = static_cast<double>(in.prints.size());
  double sum = 0;
  for (int patch = 0; patch < static_cast<int>(in.prints.size()); ++patch) {
    const double middle = Oracle::middle(oracle_.outline({cell, patch, in.pattern, in.turn}));
    const double off = gradation_.has(in.prints[patch]) - gradation_.asked(middle);
    sum += off * off / patches / static_cast<double>(places_.size());
  }
  return sum;
}

/// Everything that is a sum over pairs of blocks, or a block and the frame, or blocks: those of which one has changed.
void RunningOracle::count_pairs(const std::vector<int>& changed, int sign) {
  const auto is_changed = [&](int cell) { return std::find(changed.begin(), changed.end(), cell) != changed.end(); };
  for (const int cell : changed) {
    const InCell& in = cells_[cell];
    for (const int index : pairs_of_[cell]) {
      Pair& pair = pairs_[index];
      const int there = pair.a == cell ? pair.b : pair.a;
      if (there < cell && is_changed(there)) continue;  // once
      const InCell& a = cells_[pair.a];
      const InCell& b = cells_[pair.b];
      const Join& join = join_of(pair);
      for (const Contact& contact : join.contacts) {
        count(contact, a.prints[contact.patch_a], b.prints[contact.patch_b],
              a.may_touch[contact.patch_a] != 0 && b.may_touch[contact.patch_b] != 0, sign);
      }
      now_.ends += sign * static_cast<int>(join.nest_alike.size());
      for (const bool nests : join.nest_alike) now_.unnested += nests == (a.other == b.other) ? 0 : sign;
    }
    for (const Contact& contact : frame_join(cell).contacts) {
      count(contact, in.prints[contact.patch_a], oracle_.plan_.frame[contact.patch_b].print,
            in.may_touch[contact.patch_a] != 0, sign);
    }
    for (const int there : places_) {
      if (there == cell || (there < cell && is_changed(there)) || (in.holds & cells_[there].holds) == 0) continue;
      const double near = inverse_square_[static_cast<std::size_t>(cell) * cells_.size() + there];
      for (std::size_t p = 0; p < prints_.size(); ++p) {
        now_.spread_sums[p] += sign * in.w[p] * cells_[there].w[p] * near;
      }
    }
    if (goals_.gradation > 0) now_.gradation += sign * gradation(cell);
  }
}

void RunningOracle::add_windows(const std::vector<int>& changed, int sign) {
  for (const int cell : changed) {
    const InCell& in = cells_[cell];
    for (int s = 0; s < 3; ++s) {
      for (const int window : places_) {
        const double weight = sign * weights_[s][static_cast<std::size_t>(window) * cells_.size() + cell];
        for (int k = 0; k < 4; ++k) cast_[s][window][k] += weight * in.g[k];
        if (s == 0) continue;
        for (std::size_t p = 0; p < prints_.size(); ++p) regional_[s][window][p] += weight * in.w[p];
      }
    }
    for (const int line : lines_of_[cell]) {
      for (int k = 0; k < 4; ++k) line_sum_[line][k] += sign * in.g[k];
    }
  }
}

void RunningOracle::sum_windows(OracleTerms& terms) const {
  const double n = static_cast<double>(places_.size());
  for (int s = 0; s < 3; ++s) {
    for (const int window : places_) {
      for (const double m : cast_[s][window]) terms.evenness += m * m / n / 3;
      if (s == 0) continue;
      for (std::size_t p = 0; p < prints_.size(); ++p) {
        const double off = regional_[s][window][p] - share_[p];
        if (share_[p] > 0) terms.coverage += off * off / share_[p] / n / 2;
      }
    }
  }
  for (std::size_t line = 0; line < lines_.size(); ++line) {
    for (const double sum : line_sum_[line]) {
      terms.streak += sum * sum / static_cast<double>(lines_[line].size()) / static_cast<double>(lines_.size());
    }
  }
}

void RunningOracle::count_copies(OracleTerms& terms) const {
  for (const auto& [i, j, k] : triples_) {
    std::uint64_t all = cells_[i].holds & cells_[j].holds & cells_[k].holds;
    for (; all != 0; all &= all - 1) ++terms.lines;
  }
  terms.closest = farthest_;
  for (const int a : places_) {
    for (const int b : places_) {
      if (a < b && (cells_[a].holds & cells_[b].holds) != 0) {
        terms.closest = std::min(terms.closest, distance_[static_cast<std::size_t>(a) * cells_.size() + b]);
      }
    }
  }
}

OracleTerms RunningOracle::after(const quilt::Quilt& quilt, const std::vector<int>& changed) {
  count_pairs(changed, -1);
  add_windows(changed, -1);
  for (const int cell : changed) cells_[cell] = read(quilt, cell);
  add_windows(changed, 1);
  count_pairs(changed, 1);
  OracleTerms terms = now_;
  sum_windows(terms);
  if (goals_.lines > 0 || goals_.closest > 0) count_copies(terms);
  return terms;
}

}  // namespace farflung::support
