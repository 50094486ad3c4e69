// The colours in a picture that a balance has to explain.
#pragma once

#include <algorithm>
#include <array>
#include <vector>

#include "colour/lab.hpp"
#include "photo/balance_fit.hpp"
#include "photo/values.hpp"

namespace farflung::photo {

/// One colour to be explained.
struct Spot {
  std::array<double, 3> seen{};            ///< encoded, 0..1
  double x = 0, y = 0;                     ///< -1..1 across the picture
  std::array<double, 3> backdrop{};        ///< encoded, at this place
  colour::Lab truth;                       ///< of a screen: of the paper it is printed on
  double black = 0, pitch = 1;             ///< of a screen: share that is line; inches from line to line
  std::array<double, 3> paper{};           ///< of a screen, encoded: it lies in the same light
  std::array<double, 3> good = {1, 1, 1};  ///< what its L*, a* and b* are good to
  std::array<Values, 3> values{};          ///< of a screen; empty: all of it is as `seen`
  double sharpened = 1;                    ///< of a screen: how much of the sharpening its lines take
  bool perhaps = false;                    ///< its hue is bounded in what it says
  std::array<double, 3> full{};            ///< what its L*, a* and b* are good to for a sensor that is full there

  double brightest() const { return *std::max_element(seen.begin(), seen.end()); }
  bool is_white() const { return truth == kPaperWhite || truth == kSomethingWhite; }
};

/// Of all known colours and screens. What is burnt out is left out, unless there is nothing else.
std::vector<Spot> spots_of(const Evidence& evidence);

}  // namespace farflung::photo
