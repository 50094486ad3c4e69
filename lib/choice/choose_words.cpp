#include "choice/choose_words.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "choice/words.hpp"

namespace farflung::choice {
namespace {

constexpr double kBusy = 0.6;
constexpr double kSmall = 0.75, kLarge = 2;  // inches

std::string grouped(double number) {
  std::string digits = rounded(number, 0);
  if (digits.size() > 15) {
    char text[32];
    std::snprintf(text, sizeof text, "%.1e", number);
    return text;
  }
  for (int place = static_cast<int>(digits.size()) - 3; place > 0; place -= 3) digits.insert(place, ",");
  return digits;
}

}  // namespace

std::string apart_in_words(const std::vector<print::Print>& prints, const Measure& measure,
                           const std::vector<int>& take) {
  int first = take[0], second = take[1];
  for (std::size_t a = 0; a < take.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      if (measure.delta_e(take[a], take[b]) < measure.delta_e(first, second)) first = take[b], second = take[a];
    }
  }
  const double nearest = measure.delta_e(first, second);
  const char* reads = nearest >= kToldApart ? "all are told apart easily"
                      : nearest >= 10       ? "all are told apart"
                                            : "not all are told apart at a distance";
  return std::string(reads) + ": the nearest two, " + name_of(prints[first]) + " and " + name_of(prints[second]) +
         ", differ in colour by " + rounded(nearest, 1);
}

std::string values_in_words(const std::vector<print::Print>& prints, const std::vector<int>& take) {
  const auto L = [&](int i) { return prints[i].features.lab.L; };
  std::size_t widest = 0;
  for (std::size_t i = 0; i + 1 < take.size(); ++i) {
    if (L(take[i]) - L(take[i + 1]) > L(take[widest]) - L(take[widest + 1])) widest = i;
  }
  return "values run from " + name_of(prints[take.front()]) + " (value " + rounded(L(take.front()), 0) + ") to " +
         name_of(prints[take.back()]) + " (value " + rounded(L(take.back()), 0) + "), the widest step " +
         rounded(L(take[widest]) - L(take[widest + 1]), 0) + " between " + name_of(prints[take[widest]]) + " and " +
         name_of(prints[take[widest + 1]]);
}

std::string hues_in_words(const std::vector<print::Print>& prints, const std::vector<int>& take) {
  std::vector<std::pair<std::string, int>> families;
  for (int i : take) {
    const std::string hue = hue_name(prints[i].features.lab);
    const auto known = std::find_if(families.begin(), families.end(), [&](const auto& f) { return f.first == hue; });
    if (known == families.end()) {
      families.emplace_back(hue, 1);
    } else {
      ++known->second;
    }
  }
  std::stable_sort(families.begin(), families.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
  std::vector<std::string> words;
  words.reserve(families.size());
  for (const auto& [hue, count] : families) words.push_back(std::to_string(count) + " " + hue);
  return "hues: " + listed(words);
}

std::string scales_in_words(const std::vector<print::Print>& prints, const std::vector<int>& take) {
  int small = 0, middling = 0, large = 0, unknown = 0, busy = 0;
  for (int i : take) {
    const print::Features& features = prints[i].features;
    if (features.busyness >= kBusy) ++busy;
    if (!features.scale) {
      ++unknown;
    } else {
      ++(*features.scale < kSmall ? small : *features.scale <= kLarge ? middling : large);
    }
  }
  std::vector<std::string> words;
  if (small > 0) words.push_back(std::to_string(small) + " small");
  if (middling > 0) words.push_back(std::to_string(middling) + " middling");
  if (large > 0) words.push_back(std::to_string(large) + " large");
  if (unknown > 0) words.push_back(std::to_string(unknown) + " not known");
  return "motifs: " + listed(words) + "; " +
         (busy == 0 ? "none" : std::to_string(busy) + " of " + std::to_string(take.size())) +
         (busy == 1   ? " is busy"
          : busy == 0 ? " is busy"
                      : " are busy");
}

std::string difference_in_words(const Terms& other, const Terms& best, const Taste& taste) {
  struct Change {
    double weighted;
    const char *worse, *better;
  };
  std::vector<Change> changes = {
      {taste.apart * (other.alike - best.alike), "told apart less well", "told apart better"},
      {taste.values * (other.uneven - best.uneven), "values less even", "values more even"},
      {taste.scales * (other.same_scale - best.same_scale), "motifs more of one size", "motifs more mixed"},
      {taste.quiet * (other.busy_together - best.busy_together), "busier", "quieter"}};
  const double hue_weight = taste.hues * (1 - 2 * taste.lively);
  const double hue_change = hue_weight * (other.hue_spread - best.hue_spread);
  if (hue_weight > 0) changes.push_back({hue_change, "hues less held together", "hues held together better"});
  if (hue_weight < 0) changes.push_back({hue_change, "hues less spread", "hues spread more"});
  std::stable_sort(changes.begin(), changes.end(),
                   [](const Change& a, const Change& b) { return std::abs(a.weighted) > std::abs(b.weighted); });
  std::vector<std::string> words;
  for (const Change& change : changes) {
    if (std::abs(change.weighted) < 5e-4 || words.size() == 2) break;
    words.emplace_back(change.weighted > 0 ? change.worse : change.better);
  }
  return words.empty() ? "much the same" : listed(words);
}

std::string proof_in_words(const ChooseReport& report) {
  const std::string sets = grouped(report.sets) + (report.sets == 1 ? " set" : " sets");
  if (report.optimal) {
    return "proven the best of " + sets + " (" + grouped(static_cast<double>(report.branches)) + " branches opened)";
  }
  return "the best found by annealing among " + sets + ", cost " + rounded(report.best.terms.cost, 4) +
         "; not proven: no set can cost less than " + rounded(report.bound, 4);
}

}  // namespace farflung::choice
