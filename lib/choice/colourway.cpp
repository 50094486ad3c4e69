#include "choice/colourway.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "base/assignment.hpp"
#include "choice/words.hpp"

namespace farflung::choice {
namespace {

/// Every place of the quilt that names a print, whether it holds one or not.
void for_each_use(quilt::Quilt& quilt, const std::function<void(int&)>& visit) {
  for (block::Pattern& pattern : quilt.patterns) {
    for (block::Slot& slot : pattern.slots) visit(slot.print);
  }
  for (block::Block& block : quilt.blocks) {
    for (int& print : block.prints) visit(print);
  }
  if (quilt.setting.sashing) {
    visit(quilt.setting.sashing->print);
    visit(quilt.setting.sashing->cornerstone);
  }
  visit(quilt.setting.filler);
  for (setting::Border& border : quilt.setting.borders) {
    visit(border.print);
    visit(border.cornerstone);
  }
  if (quilt.binding) visit(quilt.binding->print);
  if (quilt.backing) visit(quilt.backing->print);
}

void put_in_stead(quilt::Quilt& quilt, int index, const print::Print& by) {
  const std::string old_id = quilt.prints[index].id;
  const int holder = by.id.empty() ? kNone : quilt.print_with_id(by.id);
  quilt.prints[index] = by;
  quilt.prints[index].code.clear();
  if (by.id.empty() || (holder != kNone && holder != index)) quilt.prints[index].id = old_id;
}

std::string match_in_words(const print::Print& with, const print::Print& print) {
  return name_of(with) + " (value " + rounded(with.features.lab.L, 0) + ") for " + name_of(print) + " (value " +
         rounded(print.features.lab.L, 0) + ")";
}

std::vector<double> costs(const quilt::Quilt& quilt, const std::vector<int>& used,
                          const std::vector<print::Print>& bundle) {
  constexpr double kTieBreaker = 1e-3;  // far below any difference in L* that is measured
  std::vector<double> cost;
  cost.reserve(used.size() * bundle.size());
  for (int i : used) {
    for (const print::Print& print : bundle) {
      const double value = print.features.lab.L - quilt.prints[i].features.lab.L;
      const double busy = print.features.busyness - quilt.prints[i].features.busyness;
      cost.push_back(value * value + kTieBreaker * busy * busy);
    }
  }
  return cost;
}

}  // namespace

std::vector<int> prints_in_use(const quilt::Quilt& quilt) {
  std::set<int> used;
  quilt::Quilt copy = quilt;
  for_each_use(copy, [&](int& print) {
    if (print != kNone) used.insert(print);
  });
  return {used.begin(), used.end()};
}

quilt::Quilt replaced(const quilt::Quilt& quilt, int print, const Candidate& by) {
  quilt::Quilt changed = quilt;
  if (by.own != kNone) {
    for_each_use(changed, [&](int& use) {
      if (use == print) use = by.own;
    });
    return changed;
  }
  put_in_stead(changed, print, by.print);
  print::give_codes(changed.prints);
  return changed;
}

Result<Colourway> matched_by_value(const quilt::Quilt& quilt, const std::vector<print::Print>& bundle) {
  const std::vector<int> used = prints_in_use(quilt);
  if (used.size() > bundle.size()) {
    return input_problem("--bundle",
                         "the quilt is made of " + std::to_string(used.size()) + " prints, this bundle has " +
                             std::to_string(bundle.size()),
                         "add prints to the bundle, or take fewer in the quilt first");
  }
  const Assignment cheapest =
      cheapest_assignment(static_cast<int>(used.size()), static_cast<int>(bundle.size()), costs(quilt, used, bundle));
  const std::vector<int>& with = cheapest.column;
  Colourway colourway{quilt, {}, 0, {}};
  std::vector<bool> taken(bundle.size(), false);
  for (std::size_t i = 0; i < used.size(); ++i) {
    const print::Print& old = quilt.prints[used[i]];
    const print::Print& fresh = bundle[with[i]];
    const double difference = fresh.features.lab.L - old.features.lab.L;
    colourway.matches.push_back({used[i], with[i], difference, match_in_words(fresh, old)});
    colourway.mean_difference += std::abs(difference) / static_cast<double>(used.size());
    taken[with[i]] = true;
  }
  for (std::size_t i = 0; i < taken.size(); ++i) {
    if (!taken[i]) colourway.left_over.push_back(static_cast<int>(i));
  }
  // All ids of the old prints go first, so that a new print keeps its own wherever no print that stays has it.
  for (std::size_t i = 0; i < used.size(); ++i) colourway.quilt.prints[used[i]].id.clear();
  for (std::size_t i = 0; i < used.size(); ++i) {
    print::Print fresh = bundle[with[i]];
    if (fresh.id.empty() || colourway.quilt.print_with_id(fresh.id) != kNone) fresh.id = quilt.prints[used[i]].id;
    put_in_stead(colourway.quilt, used[i], fresh);
  }
  print::give_codes(colourway.quilt.prints);
  std::stable_sort(colourway.matches.begin(), colourway.matches.end(), [&](const ValueMatch& a, const ValueMatch& b) {
    return quilt.prints[a.print].features.lab.L > quilt.prints[b.print].features.lab.L;
  });
  return colourway;
}

}  // namespace farflung::choice
