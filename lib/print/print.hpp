// One fabric design: what the quilter calls it, what cloth she has of it, how it looks.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "colour/lab.hpp"

namespace farflung::print {

/// A colour of a print and how much of its swatch it covers.
struct PaletteColour {
  colour::Lab lab;
  double share = 0;  ///< 0..1; a palette's shares sum to 1
};

/// Whether a print runs one way: a stripe reads alike from both ends, a one-way print has a top.
struct Direction {
  enum class Kind { none, stripe, one_way } kind = Kind::none;
  double degrees = 0;  ///< clockwise from "along x"; a stripe's is in [0, 180)
};

/// How a print reads: measured on its swatch, or told by hand.
struct Features {
  colour::Lab lab;                     ///< of the swatch's mean linear light: what the eye blends it to across the room
  std::vector<PaletteColour> palette;  ///< up to six, most first, of pixels
  double value_range = 0;              ///< L* between the 5th and 95th percentile of pixels
  /// Inches: the side of the square of cloth that each motif has to itself (the root of the cloth's area over the
  /// motifs on it), whether they stand in rows, in a half drop or are tossed, and whatever their inks; of a stripe, its
  /// period.
  std::optional<double> scale;
  std::optional<double> scale_share;  ///< the same over the swatch's width, inches known or not
  double busyness = 0;                ///< 0 plain .. 1 loud
  Direction direction;
  std::vector<std::string> by_hand;  ///< the features that were told, never measured again: "lab", "scale" ...
};

/// A cut of cloth in hand; sizes are usable sizes.
struct Cloth {
  std::string kind;  ///< "fat quarter", "yardage" ...
  Length width, length;
  /// Pieces alike.
  int count = 1;
  /// Dye lot, as noted on the bolt: two lots of one print may differ in shade.
  std::string lot;
  /// What one piece cost, in the quilter's own money; none where that is not known.
  std::optional<double> price;
};

/// Where a print was seen: the outer corners of the cloth in the upright photograph, clockwise from its top left.
struct Sighting {
  std::string file;
  std::array<std::array<double, 2>, 4> corners{};  ///< x, y in pixels
  std::string reference = "none";                  ///< "sheet", "chart", "surface" or "none"
};

/// One fabric design. Everything else names it by its index in the quilt's list; the id names it in the file.
struct Print {
  std::string id;
  std::string code;  ///< one or two characters, never O or I
  std::string name;
  std::string swatch;                  ///< the swatch's file within the quilt's folder; empty where there is none
  std::optional<Length> swatch_width;  ///< what the swatch picture spans on the cloth
  /// It has an up: its patches are cut so that they stand upright in the layout.
  bool upright = false;
  std::vector<Cloth> cloth;
  std::optional<Sighting> photo;
  Features features;
};

/// What a person calls a print: its name, else its id.
inline const std::string& name_of(const Print& print) { return print.name.empty() ? print.id : print.name; }

/// How a print reads beside the others of its bundle.
enum class ValueClass { light, medium, dark };
const char* name_of(ValueClass value);  ///< "light", "medium", "dark"

/// By L*: the bundle is cut where its values part most widely into three runs, none empty from three prints on
/// (Jenks' natural breaks, 1967). Bundles that span less than 10 L* are all medium. One class per print, in order.
std::vector<ValueClass> value_classes(const std::vector<Print>& prints);

/// One or two characters for each print, from its name where that can be, all different, never O or I (nor digits 0
/// and 1). Codes that are given (not empty) are kept.
void give_codes(std::vector<Print>& prints);

}  // namespace farflung::print
