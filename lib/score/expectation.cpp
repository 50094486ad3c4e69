#include "score/expectation.hpp"

namespace farflung::score {

ClassSums class_sums(const Kernel& kernel, const std::vector<std::vector<int>>& places_of_class) {
  const std::size_t classes = places_of_class.size();
  ClassSums sums{std::vector<double>(classes, 0.0), std::vector<double>(classes * classes, 0.0)};
  std::vector<double> column(kernel.places());
  for (std::size_t a = 0; a < classes; ++a) {
    std::fill(column.begin(), column.end(), 0.0);
    for (const int j : places_of_class[a]) {
      kernel.add_column(j, 1, column);
      sums.diagonal[a] += kernel.at(j, j);
    }
    for (std::size_t b = 0; b < classes; ++b) {
      for (const int i : places_of_class[b]) sums.pairs[a * classes + b] += column[i];
    }
    sums.pairs[a * classes + a] -= sums.diagonal[a];
  }
  return sums;
}

double expected_form(const ClassSums& kernel, std::span<const Moments> moments) {
  const std::size_t classes = moments.size();
  double expected = 0;
  for (std::size_t a = 0; a < classes; ++a) {
    const Moments& here = moments[a];
    if (here.blocks == 0) continue;
    expected += kernel.diagonal[a] * here.squares / here.blocks;
    for (std::size_t b = 0; b < classes; ++b) {
      const Moments& there = moments[b];
      if (there.blocks == 0) continue;
      if (a != b) {
        expected += kernel.pairs[a * classes + b] * (here.sum / here.blocks) * (there.sum / there.blocks);
      } else if (here.blocks > 1) {
        expected +=
            kernel.pairs[a * classes + a] * (here.sum * here.sum - here.squares) / (here.blocks * (here.blocks - 1));
      }
    }
  }
  return expected;
}

}  // namespace farflung::score
