// A photograph taken in: from a file to flat swatches.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "photo/decode.hpp"
#include "photo/find.hpp"
#include "photo/picture.hpp"
#include "photo/reference.hpp"

namespace farflung::photo {

/// What the user told of one photograph beforehand; what she did not is looked for.
struct TakeOptions {
  DecodeOptions decode;
  std::vector<Corners> corners;  ///< told by hand, pixels of the upright photograph: nothing is looked for then
  bool whole = false;            ///< the cloth fills the frame: nothing is looked for
  std::optional<std::array<double, 2>> white;  ///< a place that is white, pixels of the upright photograph
  std::optional<colour::Lab> table;  ///< true colour of the plain surface, told by another photograph of the sitting
  int longest_swatch = 900;          ///< pixels
};

/// One print's swatch as it came out of a photograph.
struct Swatch {
  Corners corners{};               ///< pixels of the full-size upright photograph, clockwise from the top left
  Picture picture;                 ///< flat, trimmed, corrected for colour where the reference allows it
  std::string reference = "none";  ///< what its colour rests on: "sheet", "chart", "surface" or "none"
  std::optional<double> inches;    ///< what the swatch picture spans from left to right, where the sheet tells
  double sureness = 1;             ///< 0..1
  std::string doubt;               ///< why the outline is not sure; empty where it is
};

/// All that one photograph gave.
struct Take {
  Photograph photograph;
  Reference reference;               ///< in pixels of photograph.picture
  std::vector<Swatch> swatches;      ///< in reading order, at least one
  std::optional<colour::Lab> table;  ///< true colour of the plain surface, where the sheet or a chart told it
};

/// Decodes `file`, finds the reference and the cloth in it, lays each piece flat, trims it and corrects its colours.
/// The reference sheet may lie beside the cloth, over it (its window is the swatch) or under it. A photograph in which
/// nothing is found is a problem that says what to do.
///
///   const Result<Take> take = photo::take("photos/a.jpg");
///   for (const Swatch& swatch : take->swatches) features_of(swatch.picture);
Result<Take> take(const std::string& file, const TakeOptions& options = {});

/// The true colour of the plain surface, where `file` shows it beside the sheet or a chart; nothing where it does not,
/// or cannot be read. Other photographs of the sitting, on the same surface, are then true to colour too.
std::optional<colour::Lab> table_told_by(const std::string& file, const DecodeOptions& options = {});

/// The photograph with every swatch outlined; `codes` in the order of the swatches.
Picture overview_of(const Take& take, const std::vector<std::string>& codes);

}  // namespace farflung::photo
