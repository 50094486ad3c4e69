// The middle of many numbers.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace farflung {

/// The upper of the two middle ones where there is an even number of them; 0 of none.
template <typename Number>
Number median(std::vector<Number> values) {
  if (values.empty()) return 0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

}  // namespace farflung
