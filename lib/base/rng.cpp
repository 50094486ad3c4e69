#include "base/rng.hpp"

#include <cmath>

namespace farflung {
namespace {

/// Steele, Lea and Flood 2014, doi:10.1145/2660193.2660195.
std::uint64_t splitmix64(std::uint64_t& state) {
  std::uint64_t z = (state += 0x9e3779b97f4a7c15ULL);
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31);
}

}  // namespace

Seed derived(Seed seed, std::uint64_t part) {
  std::uint64_t state = seed.value;
  state = splitmix64(state) ^ (part * 0xd1342543de82ef95ULL);
  return {splitmix64(state)};
}

Rng::Rng(Seed seed) {
  std::uint64_t state = seed.value;
  for (std::uint64_t& word : state_) word = splitmix64(state);
}

double Rng::normal() {
  double u = 0;
  double s = 0;
  do {
    u = between(-1, 1);
    const double v = between(-1, 1);
    s = u * u + v * v;
  } while (s >= 1 || s == 0);
  return u * std::sqrt(-2 * std::log(s) / s);
}

}  // namespace farflung
