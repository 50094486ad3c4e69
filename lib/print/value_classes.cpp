#include <algorithm>
#include <limits>
#include <numeric>

#include "print/print.hpp"

namespace farflung::print {
namespace {

/// Sum of squared distances from the mean of sorted[begin, end).
double scatter(const std::vector<double>& sorted, std::size_t begin, std::size_t end) {
  if (begin == end) return 0;
  const double mean =
      std::accumulate(sorted.begin() + begin, sorted.begin() + end, 0.0) / static_cast<double>(end - begin);
  double sum = 0;
  for (std::size_t i = begin; i < end; ++i) sum += (sorted[i] - mean) * (sorted[i] - mean);
  return sum;
}

/// Where the dark run ends and the light run begins, as lightnesses.
struct Breaks {
  double medium_from = 0, light_from = 0;
};

Breaks natural_breaks(const std::vector<double>& sorted) {
  const std::size_t n = sorted.size();
  if (n == 2) return {sorted[1], sorted[1]};
  Breaks best;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 1; i + 1 < n; ++i) {
    for (std::size_t j = i + 1; j < n; ++j) {
      const double sum = scatter(sorted, 0, i) + scatter(sorted, i, j) + scatter(sorted, j, n);
      if (sum < least) {
        least = sum;
        best = {sorted[i], sorted[j]};
      }
    }
  }
  return best;
}

}  // namespace

const char* name_of(ValueClass value) {
  switch (value) {
    case ValueClass::light:
      return "light";
    case ValueClass::medium:
      return "medium";
    case ValueClass::dark:
      break;
  }
  return "dark";
}

std::vector<ValueClass> value_classes(const std::vector<Print>& prints) {
  constexpr double kLeastSpan = 10;
  std::vector<ValueClass> classes(prints.size(), ValueClass::medium);
  std::vector<double> sorted;
  sorted.reserve(prints.size());
  for (const Print& print : prints) sorted.push_back(print.features.lab.L);
  std::sort(sorted.begin(), sorted.end());
  if (sorted.size() < 2 || sorted.back() - sorted.front() < kLeastSpan) return classes;

  const Breaks breaks = natural_breaks(sorted);
  for (std::size_t i = 0; i < prints.size(); ++i) {
    const double L = prints[i].features.lab.L;
    classes[i] = L >= breaks.light_from    ? ValueClass::light
                 : L >= breaks.medium_from ? ValueClass::medium
                                           : ValueClass::dark;
  }
  return classes;
}

}  // namespace farflung::print
