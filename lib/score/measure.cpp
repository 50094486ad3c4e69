#include "score/measure.hpp"

#include <algorithm>
#include <cmath>

#include "print/distance.hpp"

namespace farflung::score {
namespace {

std::vector<bool> occupied_cells(const setting::Arrangement& arrangement) {
  std::vector<bool> occupied;
  for (const int block : arrangement.block) occupied.push_back(block != kNone);
  return occupied;
}

bool differ(double a, double b) { return std::abs(a - b) > 1e-9 * std::max({1.0, std::abs(a), std::abs(b)}); }

}  // namespace

bool better(const Score& a, const Score& b) {
  if (a.terms.touches != b.terms.touches) return a.terms.touches < b.terms.touches;
  if (differ(a.terms.touch_length, b.terms.touch_length)) return a.terms.touch_length < b.terms.touch_length;
  if (a.broken != b.broken) return a.broken < b.broken;
  return differ(a.F, b.F) && a.F < b.F;
}

Measure::Measure(const quilt::Quilt& quilt)
    : quilt_(quilt),
      plan_(quilt::plan_of(quilt)),
      places_(places_of(quilt.setting, plan_, occupied_cells(quilt.layout))),
      meetings_(quilt, plan_),
      inverse_square_(Kernel::inverse_square(places_)),
      coverage_(Kernel::windows(places_, kCoverageScales)),
      evenness_(Kernel::windows(places_, kEvennessScales)),
      streaks_(Kernel::streaks(places_)),
      coverage_shares_(window_shares(places_, kCoverageScales)) {
  read_prints();
  find_classes();
  lattice_ = PlaceLattice(places_);
  if (asks_nesting()) ends_ = EndTables(quilt_, plan_, meetings_.contacts());
  read_blocks();
}

Measure Measure::dealt_anew(const quilt::Quilt& quilt) const {
  Measure other = *this;
  other.quilt_ = quilt;
  other.read_blocks();
  return other;
}

void Measure::read_prints() {
  for (const block::Pattern& pattern : quilt_.patterns) facts_.push_back(slot_facts(pattern));
  for (const print::Print& print : quilt_.prints) readings_.push_back(reading_of(print));
  for (const print::Print& p : quilt_.prints) {
    for (const print::Print& q : quilt_.prints) {
      delta_e_.push_back(quilt_.goals.likeness_by_print ? print::distance(p.features, q.features)
                                                        : colour::delta_e_2000(p.features.lab, q.features.lab));
    }
  }
}

void Measure::read_blocks() {
  const std::size_t prints = quilt_.prints.size();
  prints_.clear();
  shares_.clear();
  casts_.clear();
  mean_reading_ = {};
  means_ = {};
  spread_means_.assign(prints, 0.0);
  const double each = 1.0 / std::max<double>(1, static_cast<double>(quilt_.blocks.size()));
  mean_shares_.assign(prints, 0.0);
  for (const block::Block& block : quilt_.blocks) {
    prints_.push_back(prints_of(quilt_, block));
    shares_.push_back(shares_of(facts_[block.pattern], prints_.back()));
    casts_.push_back(score::mean_reading(facts_[block.pattern], prints_.back(), readings_));
    for (const Share& share : shares_.back()) mean_shares_[share.print] += each * share.share;
    for (std::size_t k = 0; k < mean_reading_.size(); ++k) mean_reading_[k] += each * casts_.back()[k];
  }
  for (Reading& cast : casts_) {
    cast = minus(cast, mean_reading_);
    if (graded()) cast[0] = 0;  // the gradation says where light and dark belong
    for (double& value : cast) value = std::abs(value) < 1e-9 ? 0 : value;  // all blocks alike: no cast, not rounding
  }
  if (graded()) gradation_ = GradationGoal(quilt_, plan_, places_);
  if (places_.count() >= 2) find_means();
}

void Measure::find_classes() {
  std::map<int, int> class_of_key;
  for (const int key : places_.klass) class_of_key.try_emplace(key, 0);
  for (auto& [key, index] : class_of_key) {
    index = static_cast<int>(classes_.size());
    classes_.emplace_back();
  }
  for (int i = 0; i < places_.count(); ++i) {
    places_.klass[i] = class_of_key.at(places_.klass[i]);
    classes_[places_.klass[i]].places.push_back(i);
  }
  for (int b = 0; b < static_cast<int>(quilt_.blocks.size()); ++b) {
    const auto found = class_of_key.find(quilt_.setting.alternate.empty() ? 0 : quilt_.blocks[b].pattern);
    if (found != class_of_key.end()) classes_[found->second].blocks.push_back(b);
  }
}

double Measure::delta_e(int p, int q) const { return delta_e_[static_cast<std::size_t>(p) * quilt_.prints.size() + q]; }

int Measure::spread_prints() const {
  return static_cast<int>(std::count_if(spread_means_.begin(), spread_means_.end(), [](double e) { return e > 0; }));
}

namespace {

/// Counts the meetings of one block with what lies there: `print_there` gives the print of Meeting::other.
template <typename PrintThere>
void count_meetings(const Measure& measure, std::span<const Meeting> meetings, const std::vector<int>& prints,
                    PrintThere print_there, Terms& terms) {
  for (const Meeting& meeting : meetings) {
    const int here = prints[meeting.slot];
    const int there = print_there(meeting.other);
    if (here == kNone || there == kNone) continue;
    if (here != there) {
      terms.likeness += meeting.length * likeness_of(measure.delta_e(here, there));
      terms.contrast += meeting.length * merging_of(measure.delta_L(here, there));
    } else if (!meeting.free) {
      terms.touches += meeting.seams;
      terms.touch_length += meeting.length;
      terms.corners += meeting.points;
    }
  }
}

}  // namespace

void Measure::count_contacts(const setting::Arrangement& arrangement, Terms& terms) const {
  for (const setting::CellPair& pair : meetings_.contacts().pairs()) {
    const int a = arrangement.block[pair.first];
    const int b = arrangement.block[pair.second];
    if (a == kNone || b == kNone) continue;
    const auto met = meetings_.between(pair.relation, quilt_.blocks[a].pattern, arrangement.turn[pair.first],
                                       quilt_.blocks[b].pattern, arrangement.turn[pair.second]);
    count_meetings(
        *this, met, prints_[a], [&](int slot) { return prints_[b][slot]; }, terms);
  }
  for (const int cell : places_.cell) {
    const int a = arrangement.block[cell];
    const auto met = meetings_.with_frame(cell, quilt_.blocks[a].pattern, arrangement.turn[cell]);
    count_meetings(
        *this, met, prints_[a], [](int print) { return print; }, terms);
  }
}

namespace {

/// Where each print lies and how much of the block there it fills.
struct Copy {
  int place = 0;
  double share = 0;
};

std::vector<std::vector<Copy>> copies_of_prints(const Measure& measure, const setting::Arrangement& arrangement) {
  std::vector<std::vector<Copy>> copies(measure.quilt().prints.size());
  for (int i = 0; i < measure.places().count(); ++i) {
    for (const Share& share : measure.shares()[arrangement.block[measure.places().cell[i]]]) {
      copies[share.print].push_back({i, share.share});
    }
  }
  return copies;
}

CopiesOfPrints places_of_copies(const Measure& measure, const setting::Arrangement& arrangement) {
  CopiesOfPrints places;
  for (const std::vector<Copy>& copies : copies_of_prints(measure, arrangement)) {
    places.emplace_back();
    for (const Copy& copy : copies) places.back().push_back(copy.place);
  }
  return places;
}

double pair_sum(const Kernel& kernel, const std::vector<Copy>& copies) {
  double sum = 0;
  for (std::size_t a = 0; a < copies.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      sum += copies[a].share * copies[b].share * kernel.at(copies[a].place, copies[b].place);
    }
  }
  return sum;
}

}  // namespace

double Measure::spread(const setting::Arrangement& arrangement) const {
  const auto copies = copies_of_prints(*this, arrangement);
  double sum = 0;
  for (std::size_t p = 0; p < copies.size(); ++p) {
    if (spread_means_[p] > 0) sum += pair_sum(inverse_square_, copies[p]) / spread_means_[p];
  }
  return sum / std::max(1, spread_prints());
}

double Measure::coverage(const setting::Arrangement& arrangement) const {
  const auto copies = copies_of_prints(*this, arrangement);
  double sum = 0;
  for (std::size_t p = 0; p < copies.size(); ++p) {
    if (mean_shares_[p] <= 0) continue;
    double squares = 2 * pair_sum(coverage_, copies[p]);
    double linear = 0;
    for (const Copy& copy : copies[p]) {
      squares += copy.share * copy.share * coverage_.at(copy.place, copy.place);
      linear += copy.share * coverage_shares_[copy.place];
    }
    sum += squares / mean_shares_[p] - 2 * linear + mean_shares_[p];
  }
  return std::max(0.0, sum);
}

double Measure::of_casts(const Kernel& kernel, const setting::Arrangement& arrangement) const {
  const int n = places_.count();
  std::vector<double> potential(n);
  double sum = 0;
  for (std::size_t k = 0; k < std::tuple_size_v<Reading>; ++k) {
    std::fill(potential.begin(), potential.end(), 0.0);
    for (int j = 0; j < n; ++j) {
      kernel.add_column(j, casts_[arrangement.block[places_.cell[j]]][k], potential);
    }
    for (int i = 0; i < n; ++i) sum += casts_[arrangement.block[places_.cell[i]]][k] * potential[i];
  }
  return std::max(0.0, sum);
}

double Measure::gradation_term(const setting::Arrangement& arrangement) const {
  double sum = 0;
  for (int i = 0; i < places_.count(); ++i) {
    const int block = arrangement.block[places_.cell[i]];
    sum += gradation_.cost(i, quilt_.blocks[block].pattern, arrangement.turn[places_.cell[i]], prints_[block]);
  }
  return sum;
}

Terms Measure::terms(const setting::Arrangement& arrangement) const {
  Terms terms;
  count_contacts(arrangement, terms);  // a block alone may still touch the frame
  if (places_.count() < 2) return terms;
  terms.spread = spread(arrangement);
  terms.coverage = coverage(arrangement);
  terms.evenness = of_casts(evenness_, arrangement);
  terms.streak = of_casts(streaks_, arrangement);
  if (graded()) terms.gradation = gradation_term(arrangement);
  const quilt::Goals& goals = quilt_.goals;
  if (goals.lines > 0) terms.lines = equal_triples(lattice_, places_of_copies(*this, arrangement));
  if (goals.closest > 0) terms.closest = closest_copies(lattice_, places_of_copies(*this, arrangement));
  if (asks_nesting()) terms.unnested = unnested(arrangement);
  return terms;
}

double Measure::F(const Terms& terms) const {
  const quilt::Goals& goals = quilt_.goals;
  const auto over = [](double raw, double mean) { return tells(mean) ? raw / mean : 0.0; };
  return goals.spread * terms.spread + goals.coverage * over(terms.coverage, means_.coverage) +
         goals.evenness * over(terms.evenness, means_.evenness) + goals.streak * over(terms.streak, means_.streak) +
         goals.likeness * over(terms.likeness, means_.likeness) + goals.corner * over(terms.corners, means_.corners) +
         goals.gradation * over(terms.gradation, means_.gradation) +
         goals.contrast * over(terms.contrast, means_.contrast) + goals.lines * terms.lines -
         goals.closest * terms.closest + goals.nest * over(terms.unnested, means_.ends);
}

Score Measure::score(const setting::Arrangement& arrangement) const {
  const Terms found = terms(arrangement);
  return {found, F(found), quilt_.goals.nest_rule ? found.unnested : 0};
}

std::vector<Touch> Measure::meetings_of_one_print(const setting::Arrangement& arrangement, bool seams) const {
  std::vector<Touch> found;
  const auto pattern_of = [&](int cell) -> const block::Pattern& {
    return quilt_.patterns[quilt_.blocks[arrangement.block[cell]].pattern];
  };
  const auto print_at = [&](int cell, int patch) {
    return prints_[arrangement.block[cell]][pattern_of(cell).patches[patch].slot];
  };
  const auto may_touch = [&](int cell, int patch) {
    const block::Pattern& pattern = pattern_of(cell);
    return pattern.slots[pattern.patches[patch].slot].may_touch;
  };
  for (const setting::CellPair& pair : meetings_.contacts().pairs()) {
    const int a = arrangement.block[pair.first];
    const int b = arrangement.block[pair.second];
    if (a == kNone || b == kNone) continue;
    for (const setting::PatchContact& contact :
         meetings_.contacts().between(pair.relation, quilt_.blocks[a].pattern, arrangement.turn[pair.first],
                                      quilt_.blocks[b].pattern, arrangement.turn[pair.second])) {
      const int print = print_at(pair.first, contact.patch_a);
      if (print == kNone || print != print_at(pair.second, contact.patch_b)) continue;
      if (may_touch(pair.first, contact.patch_a) && may_touch(pair.second, contact.patch_b)) continue;
      if ((contact.seam > Length()) != seams) continue;
      found.push_back({pair.first, contact.patch_a, pair.second, contact.patch_b, print, contact.seam});
    }
  }
  for (const int cell : places_.cell) {
    const int a = arrangement.block[cell];
    for (const setting::PatchContact& contact :
         meetings_.contacts().with_frame(cell, quilt_.blocks[a].pattern, arrangement.turn[cell])) {
      const int print = print_at(cell, contact.patch_a);
      if (print == kNone || print != plan_.frame[contact.patch_b].print || may_touch(cell, contact.patch_a)) continue;
      if ((contact.seam > Length()) != seams) continue;
      found.push_back({cell, contact.patch_a, kNone, contact.patch_b, print, contact.seam});
    }
  }
  return found;
}

std::vector<Touch> Measure::touches(const setting::Arrangement& arrangement) const {
  return meetings_of_one_print(arrangement, true);
}

std::vector<Touch> Measure::corners(const setting::Arrangement& arrangement) const {
  return meetings_of_one_print(arrangement, false);
}

Score score_of(const quilt::Quilt& quilt) { return Measure(quilt).score(quilt.layout); }

}  // namespace farflung::score
