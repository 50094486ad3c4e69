// Random numbers that are the same on every machine: nothing here depends on the standard library's distributions.
#pragma once

#include <cstdint>
#include <span>
#include <utility>

namespace farflung {

/// What a run of chance starts from; the same seed gives the same run everywhere.
struct Seed {
  std::uint64_t value = 1;
  friend bool operator==(Seed, Seed) = default;
};

/// A seed of its own for part `part` of a run that was given `seed` (chain, shuffle, picture ...).
Seed derived(Seed seed, std::uint64_t part);

/// xoshiro256** 1.0 (Blackman and Vigna, 2018, doi:10.1145/3460772), its state filled by splitmix64.
/// Period 2^256 - 1; not for secrets.
class Rng {
 public:
  explicit Rng(Seed seed);

  std::uint64_t next() {
    const std::uint64_t result = rotated_left(state_[1] * 5, 7) * 9;
    const std::uint64_t t = state_[1] << 17;
    state_[2] ^= state_[0];
    state_[3] ^= state_[1];
    state_[1] ^= state_[2];
    state_[0] ^= state_[3];
    state_[2] ^= t;
    state_[3] = rotated_left(state_[3], 45);
    return result;
  }

  /// A whole number in [0, bound), bound > 0; the bias is below bound / 2^32.
  std::uint32_t below(std::uint32_t bound) {
    return static_cast<std::uint32_t>(((next() >> 32) * static_cast<std::uint64_t>(bound)) >> 32);
  }

  /// A number in [0, 1), a multiple of 2^-53.
  double uniform() { return static_cast<double>(next() >> 11) * 0x1.0p-53; }

  /// A number in [low, high).
  double between(double low, double high) { return low + (high - low) * uniform(); }

  /// A standard normal deviate (Marsaglia's polar method).
  double normal();

  /// Every order equally likely (Fisher and Yates).
  template <typename T>
  void shuffle(std::span<T> items) {
    for (std::size_t left = items.size(); left > 1; --left) {
      std::swap(items[left - 1], items[below(static_cast<std::uint32_t>(left))]);
    }
  }

 private:
  static std::uint64_t rotated_left(std::uint64_t x, int k) { return (x << k) | (x >> (64 - k)); }

  std::uint64_t state_[4];
};

}  // namespace farflung
