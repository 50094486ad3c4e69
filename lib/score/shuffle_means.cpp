// The exact mean of every term over all shuffles.
#include <algorithm>
#include <map>
#include <tuple>

#include "score/expectation.hpp"
#include "score/measure.hpp"

namespace farflung::score {
namespace {

std::vector<std::vector<int>> places_by_class(const std::vector<Class>& classes) {
  std::vector<std::vector<int>> places;
  places.reserve(classes.size());
  for (const Class& each : classes) places.push_back(each.places);
  return places;
}

/// By class: the moments of `of(block)`.
template <typename Of>
std::vector<Moments> moments_of(const std::vector<Class>& classes, Of of) {
  std::vector<Moments> moments;
  for (const Class& each : classes) {
    Moments sums;
    for (const int block : each.blocks) {
      const double u = of(block);
      sums.blocks += 1;
      sums.sum += u;
      sums.squares += u * u;
    }
    moments.push_back(sums);
  }
  return moments;
}

/// What one place's chance contact with another is worth: the chance that the prints are the same, and that they differ
/// but are alike.
struct Chance {
  double same = 0, alike = 0, merging = 0;
};

/// Which prints the slots of a class's blocks hold, and the chances that follow.
class SlotChances {
 public:
  explicit SlotChances(const Measure& measure) : measure_(measure) {
    const std::size_t prints = measure.quilt().prints.size();
    for (int c = 0; c < static_cast<int>(measure.classes().size()); ++c) {
      for (const int block : measure.classes()[c].blocks) {
        const int pattern = measure.quilt().blocks[block].pattern;
        blocks_[{c, pattern}].push_back(block);
        for (int slot = 0; slot < static_cast<int>(measure.prints()[block].size()); ++slot) {
          std::vector<double>& counts = counts_[{c, pattern, slot}];
          counts.resize(prints, 0.0);
          if (measure.prints()[block][slot] != kNone) counts[measure.prints()[block][slot]] += 1;
        }
      }
    }
  }

  const std::map<std::pair<int, int>, std::vector<int>>& blocks() const { return blocks_; }

  /// Two different places, the first of class a holding pattern A, the second of class b holding pattern B.
  Chance between(int a, int A, int slot_a, int b, int B, int slot_b) {
    const auto [known, is_new] = known_.try_emplace({a, A, slot_a, b, B, slot_b});
    if (is_new) known->second = worked_out(a, A, slot_a, b, B, slot_b);
    return known->second;
  }

  Chance with_frame(int a, int A, int slot, int print) const {
    const std::vector<double>& counts = counts_.at({a, A, slot});
    Chance chance;
    for (int p = 0; p < static_cast<int>(counts.size()); ++p) add(counts[p], p, print, chance);
    return scaled(chance, static_cast<double>(measure_.classes()[a].blocks.size()));
  }

 private:
  void add(double times, int p, int q, Chance& chance) const {
    if (p == q) {
      chance.same += times;
      return;
    }
    if (measure_.delta_e(p, q) < kAlike) chance.alike += times;
    chance.merging += times * merging_of(measure_.delta_L(p, q));
  }

  static Chance scaled(Chance chance, double ways) {
    return ways > 0 ? Chance{chance.same / ways, chance.alike / ways, chance.merging / ways} : Chance{};
  }

  Chance worked_out(int a, int A, int slot_a, int b, int B, int slot_b) const {
    const std::vector<double>& here = counts_.at({a, A, slot_a});
    const std::vector<double>& there = counts_.at({b, B, slot_b});
    Chance chance;
    for (int p = 0; p < static_cast<int>(here.size()); ++p) {
      if (here[p] == 0) continue;
      for (int q = 0; q < static_cast<int>(there.size()); ++q) {
        if (there[q] > 0) add(here[p] * there[q], p, q, chance);
      }
    }
    if (a == b && A == B) {  // no block lies in two places
      for (const int block : blocks_.at({a, A})) {
        const std::vector<int>& prints = measure_.prints()[block];
        if (prints[slot_a] != kNone && prints[slot_b] != kNone) add(-1, prints[slot_a], prints[slot_b], chance);
      }
    }
    const double n_a = static_cast<double>(measure_.classes()[a].blocks.size());
    const double n_b = static_cast<double>(measure_.classes()[b].blocks.size());
    return scaled(chance, a == b ? n_a * (n_a - 1) : n_a * n_b);
  }

  const Measure& measure_;
  std::map<std::pair<int, int>, std::vector<int>> blocks_;
  std::map<std::tuple<int, int, int>, std::vector<double>> counts_;
  std::map<std::tuple<int, int, int, int, int, int>, Chance> known_;
};

void add_meeting(const Meeting& meeting, Chance chance, double times, ShuffleMeans& means) {
  means.likeness += times * meeting.length * chance.alike;
  means.contrast += times * meeting.length * chance.merging;
  if (meeting.free) return;
  means.touches += times * meeting.seams * chance.same;
  means.touch_length += times * meeting.length * chance.same;
  means.corners += times * meeting.points * chance.same;
}

}  // namespace

void Measure::find_means() {
  const auto by_class = places_by_class(classes_);
  const ClassSums inverse_square = class_sums(inverse_square_, by_class);
  const ClassSums coverage = class_sums(coverage_, by_class);
  std::vector<std::vector<double>> share(quilt_.prints.size());  // by print, by block
  for (auto& by_block : share) by_block.assign(quilt_.blocks.size(), 0.0);
  for (std::size_t b = 0; b < shares_.size(); ++b) {
    for (const Share& each : shares_[b]) share[each.print][b] = each.share;
  }
  for (std::size_t p = 0; p < share.size(); ++p) {
    const auto holders = std::count_if(share[p].begin(), share[p].end(), [](double w) { return w > 0; });
    const auto moments = moments_of(classes_, [&](int b) { return share[p][b]; });
    const double mean = expected_form(inverse_square, moments) / 2;
    if (holders >= 2 && mean > 1e-12) spread_means_[p] = mean;
    if (mean_shares_[p] <= 0) continue;
    means_.coverage +=
        expected_form(coverage, moments_of(classes_, [&](int b) { return share[p][b] - mean_shares_[p]; })) /
        mean_shares_[p];
  }
  const ClassSums evenness = class_sums(evenness_, by_class);
  const ClassSums streak = class_sums(streaks_, by_class);
  for (std::size_t k = 0; k < std::tuple_size_v<Reading>; ++k) {
    const auto moments = moments_of(classes_, [&](int b) { return casts_[b][k]; });
    means_.evenness += expected_form(evenness, moments);
    means_.streak += expected_form(streak, moments);
  }
  find_contact_means();
  if (graded()) find_gradation_mean();
  if (asks_nesting()) find_end_mean();
}

void Measure::find_gradation_mean() {
  for (int i = 0; i < places_.count(); ++i) {
    const std::vector<int>& blocks = classes_[places_.klass[i]].blocks;
    for (const int block : blocks) {
      const int pattern = quilt_.blocks[block].pattern;
      const std::vector<Turn>& turns = quilt_.patterns[pattern].turns;
      for (const Turn turn : turns) {
        means_.gradation +=
            gradation_.cost(i, pattern, turn, prints_[block]) / static_cast<double>(turns.size() * blocks.size());
      }
    }
  }
}

void Measure::find_end_mean() {
  // Of each class, how many blocks of each pattern.
  std::vector<std::map<int, double>> blocks(classes_.size());
  for (std::size_t c = 0; c < classes_.size(); ++c) {
    for (const int block : classes_[c].blocks) blocks[c][quilt_.blocks[block].pattern] += 1;
  }
  for (const setting::CellPair& pair : meetings_.contacts().pairs()) {
    const int first = places_.of_cell[pair.first];
    const int second = places_.of_cell[pair.second];
    if (first == kNone || second == kNone) continue;
    const int a = places_.klass[first];
    const int b = places_.klass[second];
    const double all_a = static_cast<double>(classes_[a].blocks.size());
    const double all_b = static_cast<double>(classes_[b].blocks.size()) - (a == b ? 1 : 0);
    for (const auto& [of_a, count_a] : blocks[a]) {
      for (const auto& [of_b, count_b] : blocks[b]) {
        const double others = count_b - (a == b && of_a == of_b ? 1 : 0);
        const auto& turns_a = quilt_.patterns[of_a].turns;
        const auto& turns_b = quilt_.patterns[of_b].turns;
        const double chance = count_a * others / (all_a * all_b * static_cast<double>(turns_a.size() * turns_b.size()));
        for (const Turn turn_a : turns_a) {
          for (const Turn turn_b : turns_b) {
            means_.ends += chance * ends_.between(pair.relation, of_a, turn_a, of_b, turn_b).asked();
          }
        }
      }
    }
  }
}

void Measure::find_contact_means() {
  SlotChances chances(*this);
  std::map<std::tuple<int, int, int>, double> pairs;  // by relation and classes
  for (const setting::CellPair& pair : meetings_.contacts().pairs()) {
    const int first = places_.of_cell[pair.first];
    const int second = places_.of_cell[pair.second];
    if (first == kNone || second == kNone) continue;
    pairs[{pair.relation, places_.klass[first], places_.klass[second]}] += 1;
  }
  for (const auto& [key, times] : pairs) {
    const auto [relation, a, b] = key;
    for (const auto& [of_a, blocks_a] : chances.blocks()) {
      if (of_a.first != a) continue;
      for (const auto& [of_b, blocks_b] : chances.blocks()) {
        if (of_b.first != b) continue;
        const std::vector<Turn>& turns_a = quilt_.patterns[of_a.second].turns;
        const std::vector<Turn>& turns_b = quilt_.patterns[of_b.second].turns;
        const double each = times / static_cast<double>(turns_a.size() * turns_b.size());
        for (const Turn turn_a : turns_a) {
          for (const Turn turn_b : turns_b) {
            for (const Meeting& meeting : meetings_.between(relation, of_a.second, turn_a, of_b.second, turn_b)) {
              add_meeting(meeting, chances.between(a, of_a.second, meeting.slot, b, of_b.second, meeting.other), each,
                          means_);
            }
          }
        }
      }
    }
  }
  for (int i = 0; i < places_.count(); ++i) {
    for (const auto& [of, blocks] : chances.blocks()) {
      if (of.first != places_.klass[i]) continue;
      const std::vector<Turn>& turns = quilt_.patterns[of.second].turns;
      for (const Turn turn : turns) {
        for (const Meeting& meeting : meetings_.with_frame(places_.cell[i], of.second, turn)) {
          add_meeting(meeting, chances.with_frame(of.first, of.second, meeting.slot, meeting.other),
                      1.0 / static_cast<double>(turns.size()), means_);
        }
      }
    }
  }
}

}  // namespace farflung::score
