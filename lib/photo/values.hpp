// How the pixels of one patch differ. Internal to photo.
#pragma once

#include <array>
#include <cstddef>

namespace farflung::photo {

/// How a patch's encoded values are spread in one channel: shares of its pixels at even steps from 0 to 1, each pixel's
/// share parted between the two steps that it lies between, the sum 1. All zeros: nothing is known of it.
class Values {
 public:
  static constexpr std::size_t kSteps = 64;
  using Table = std::array<double, kSteps + 1>;  ///< of a function of an encoded value: what it is at each step

  /// So large a share of the pixels has the value `encoded`, cut to 0..1.
  void add(double encoded, double share);

  bool empty() const { return share_ == Table{}; }

  /// The mean over the pixels of the function of which `of` is the table, straight between its steps, once the pixels'
  /// deviations from their own mean are `deviation` times as large.
  double mean(const Table& of, double deviation = 1) const;

 private:
  Table share_{};
};

}  // namespace farflung::photo
