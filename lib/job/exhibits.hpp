// Several quilts drawn side by side. For the sources of this module only.
#pragma once

#include <string>
#include <vector>

#include "draw/compare.hpp"
#include "draw/picture.hpp"
#include "job/answer.hpp"
#include "job/open_quilt.hpp"

namespace farflung::job {

/// Swatches this long are sharp enough for a sheet of several tops.
constexpr int kExhibitPixels = 700;

/// Where a sheet of pictures goes, as the user said.
struct Drawing {
  std::string file;   ///< .png, .svg or .pdf; "-" is a PNG on standard output
  std::string paper;  ///< of a PDF: "letter" or "a4"; empty: as the quilt is measured
  bool force = false;
};

/// What is wrong with it before any work is done; nothing where no drawing is wanted.
Problems problems_of_drawing(const Drawing& drawing);

/// The last words of an answer that drew: where it lies. No words at all where the picture itself is the output.
void tell_drawing(const Drawing& drawing, Answer& answer);

/// Gathers drawings whose quilts have prints of their own, so that all can be painted with one list of swatches.
class Exhibits {
 public:
  /// Draws a quilt whose prints' swatches are `swatches`.
  void add(const quilt::Quilt& quilt, const draw::Swatches& swatches, const std::string& caption,
           const std::vector<std::string>& notes = {});

  /// The same with a line of stitches over it, in inches of the top.
  void add_quilted(const quilt::Quilt& quilt, const draw::Swatches& swatches, const std::vector<Point>& path,
                   const draw::Colour& thread, const std::string& caption, const std::vector<std::string>& notes);

  /// A picture of some other kind, its cloth numbered as `swatches` are.
  void add_display(draw::Display display, const draw::Swatches& swatches, const std::string& caption,
                   const std::vector<std::string>& notes);

  /// Writes them on one sheet, or six to a page of a PDF, whose header names `quilt`.
  Result<Done> write(const quilt::Quilt& quilt, const std::string& title, const Drawing& drawing) const;

 private:
  Result<std::string> bytes(const quilt::Quilt& quilt, const std::string& title, const Drawing& drawing) const;

  std::vector<draw::Exhibit> exhibits_;
  draw::Swatches swatches_;
};

}  // namespace farflung::job
