// Several quilts drawn side by side. For the sources of this module only.
#pragma once

#include <string>
#include <vector>

#include "draw/compare.hpp"
#include "draw/picture.hpp"
#include "job/open_quilt.hpp"

namespace farflung::job {

/// Swatches this long are sharp enough for a sheet of several tops.
constexpr int kExhibitPixels = 700;

/// Gathers drawings whose quilts have prints of their own, so that all can be painted with one list of swatches.
class Exhibits {
 public:
  /// Draws a quilt whose prints' swatches are `swatches`.
  void add(const quilt::Quilt& quilt, const draw::Swatches& swatches, const std::string& caption,
           const std::vector<std::string>& notes = {});

  /// The same with a line of stitches over it, in inches of the top.
  void add_quilted(const quilt::Quilt& quilt, const draw::Swatches& swatches, const std::vector<Point>& path,
                   const draw::Colour& thread, const std::string& caption, const std::vector<std::string>& notes);

  /// Writes them on one sheet, .png or .svg by the file's ending.
  Result<Done> write(const std::string& file, bool force) const;

 private:
  void add_display(draw::Display display, const draw::Swatches& swatches, const std::string& caption,
                   const std::vector<std::string>& notes);

  std::vector<draw::Exhibit> exhibits_;
  draw::Swatches swatches_;
};

}  // namespace farflung::job
