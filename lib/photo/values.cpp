#include "photo/values.hpp"

#include <algorithm>

namespace farflung::photo {

void Values::add(double encoded, double share) {
  const double at = std::clamp(encoded, 0.0, 1.0) * kSteps;
  const std::size_t below = std::min(static_cast<std::size_t>(at), kSteps - 1);
  const double above = at - static_cast<double>(below);
  share_[below] += (1 - above) * share, share_[below + 1] += above * share;
}

double Values::mean(const Table& of, double deviation) const {
  double middle = 0, sum = 0;
  for (std::size_t i = 0; i < of.size(); ++i) middle += share_[i] * static_cast<double>(i);
  for (std::size_t i = 0; i < of.size(); ++i) {
    if (share_[i] == 0) continue;
    const double at = std::clamp(middle + (static_cast<double>(i) - middle) * deviation, 0.0, 1.0 * kSteps);
    const std::size_t below = std::min(static_cast<std::size_t>(at), kSteps - 1);
    sum += share_[i] * (of[below] + (at - static_cast<double>(below)) * (of[below + 1] - of[below]));
  }
  return sum;
}

}  // namespace farflung::photo
