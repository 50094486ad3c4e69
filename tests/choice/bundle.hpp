// Bundles for the tests of choice to choose from.
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "base/rng.hpp"
#include "print/print.hpp"

namespace farflung::choice {

inline print::Print print_of(const std::string& name, colour::Lab lab, double busyness = 0) {
  print::Print print;
  print.id = name;
  print.name = name;
  print.features.lab = lab;
  print.features.busyness = busyness;
  return print;
}

/// Prints of every value and hue, four in five with a known scale.
inline std::vector<print::Print> random_bundle(int count, Seed seed) {
  Rng rng(seed);
  std::vector<print::Print> prints;
  for (int i = 0; i < count; ++i) {
    const double hue = rng.between(0, 6.283185307179586), chroma = rng.between(0, 45);
    prints.push_back(print_of("P" + std::to_string(i + 1),
                              {rng.between(20, 90), chroma * std::cos(hue), chroma * std::sin(hue)}, rng.uniform()));
    if (rng.uniform() < 0.8) prints.back().features.scale = 0.2 * std::exp2(rng.between(0, 5));
  }
  return prints;
}

}  // namespace farflung::choice
