// Prints that a quilter might take for one another, or took in twice.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "print/print.hpp"

namespace farflung::print {

/// How well one print's swatch lies over another's, at the best place and zoom.
struct Overlay {
  double likeness = 0;  ///< 1 where both show the same piece of cloth, about 0.3 where they show nothing in common
  double next = 0;      ///< likeness of the next best place: as large where the print repeats
  double octaves = 0;   ///< doublings by which the second had to be enlarged to lie so, its inches against the first's
};

/// Lays the swatches of two prints, by their index, over each other; none where one has no swatch.
using LayOver = std::function<std::optional<Overlay>(std::size_t, std::size_t)>;

/// Two prints of a quilt that a quilter should know of.
struct Pair {
  enum class Kind { same, alike } kind = Kind::alike;
  std::size_t first = 0, second = 0;  ///< first < second
  /// As `distance` has it.
  double distance = 0;
};

/// Pairs that may be one fabric photographed twice (`same`) and others that will read alike in the quilt (`alike`),
/// nearest first. Swatches are laid over each other only where colours are near enough for one fabric; without them the
/// features alone decide. Where a second photograph shows most of the fabrics of a first one, each helps to tell the
/// others (retaken).
std::vector<Pair> pairs_alike(const std::vector<Print>& prints, const LayOver& lay_over = {});

}  // namespace farflung::print
