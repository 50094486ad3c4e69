// The lines that best part a cloth's colours from its surface's. Internal to photo.
#pragma once

#include <array>
#include <vector>

#include <opencv2/core.hpp>

#include "photo/sides.hpp"
#include "photo/surface.hpp"

namespace farflung::photo {

/// An outline and how well its sides part two kinds of colours.
struct Parted {
  Quad quad{};
  std::array<double, 4> clear{};  ///< from quad[i] to quad[i + 1]: mean log likelihood ratio of a pixel beside the side
};

/// What the pixels about a rough outline say of where its sides run: those just outside are likeliest the surface's, in
/// sun or shade, those just inside the cloth's, whose colours are counted within the outline. Good to about a pixel; it
/// needs no edge that is clear at any one place. Teeth it parts at their roots.
class Parting {
 public:
  /// Sides are looked for within `reach` pixels of `rough`. `rgb` is CV_8UC3 (R, G, B); `surface` is stretched over it.
  Parting(const Quad& rough, const cv::Mat& rgb, const Surface& surface, double reach);
  Parting(const Parting&) = delete;
  Parting& operator=(const Parting&) = delete;
  ~Parting();

  /// Each side moved, both ends on their own, to where it parts best: far only where that parts clearly. Where the two
  /// are hardly told apart, it stays.
  Parted best() const;

  /// Which sides of `quad` part hardly worse than those of `parted` and run near them.
  std::array<bool, 4> hardly_worse(const Quad& quad, const Parted& parted) const;

 private:
  class Search;
  std::array<Side, 4> sides_;
  std::vector<Search> searches_;
};

}  // namespace farflung::photo
