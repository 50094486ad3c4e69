// A display list put on a Cairo surface: the one painter behind pictures and printed pages.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <utility>

#include "draw/display.hpp"
#include "draw/picture.hpp"

// Cairo's own names, so that its header stays out of this one.
typedef struct _cairo cairo_t;                  // NOLINT(bugprone-reserved-identifier)
typedef struct _cairo_surface cairo_surface_t;  // NOLINT(bugprone-reserved-identifier)

namespace farflung::draw {

/// Gives the surface back to Cairo.
struct SurfaceRelease {
  void operator()(cairo_surface_t* surface) const;
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceRelease>;

/// The swatches made ready to paint with, each at the sizes asked of it, and kept for the next page.
class Bolts {
 public:
  /// By how many pixels tiles are laid over each other where a reader, not we, joins them: no hairline shows.
  static constexpr int kLap = 2;

  /// Encodes a picture as a JPEG file to be carried in the PDF as it is; may be null.
  using Encode = std::string (*)(const Picture&);

  explicit Bolts(const Swatches& swatches, Encode encode = nullptr) : swatches_(swatches), encode_(encode) {}

  /// One print at one size; what of it is never asked for is never made.
  struct Bolt {
    Picture whole;  ///< the swatch as it is
    Picture tile;   ///< repeats without a visible join
    Surface whole_surface, tile_surface, lapping_surface;
  };

  /// Whether the print has a swatch; where it has none Cloth::plain is drawn.
  bool has(int print) const;

  /// `print` with its swatch `pixels` wide, or as wide as it came if that is less.
  Bolt& at(int print, int pixels);

  /// Each made on first use and kept with the bolt.
  const Picture& tile(Bolt& bolt);
  cairo_surface_t* whole_surface(Bolt& bolt);
  cairo_surface_t* tile_surface(Bolt& bolt);
  cairo_surface_t* lapping_surface(Bolt& bolt);  ///< the tile and its first pixels again, kLap beyond its far edges

 private:
  const Swatches& swatches_;
  Encode encode_;
  std::map<std::pair<int, int>, Bolt> made_;
};

/// What the surface is.
struct Medium {
  enum class Kind {
    pixels,  ///< swatches are reduced to exactly one pixel a pixel
    vector,  ///< swatches are carried at `pixels_per_unit` and scaled by the reader
  } kind = Kind::pixels;
  double pixels_per_unit = 1;  ///< of the surface
  bool tags = false;           ///< openings and closings become the structure of a tagged PDF
};

/// Draws the display with its top left corner at the surface's origin. One unit of the display is one unit of the
/// context as it stands.
void paint(cairo_t* context, const Display& display, Bolts& bolts, const Medium& medium);

}  // namespace farflung::draw
