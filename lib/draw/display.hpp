// The display list: what is on a picture or a page, as a plain value. Pixels, SVG and printed pages are all made from
// it.
#pragma once

#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "draw/shapes.hpp"

namespace farflung::draw {

/// A crop of a print's cloth, at the size it has on the display. Holds no pixels: whoever paints brings the swatches.
struct Cloth {
  int print = 0;
  double width = 0;             ///< of the whole swatch, in units of the display
  double degrees = 0;           ///< of the swatch's x axis, clockwise
  double across = 0, down = 0;  ///< 0..1: where in the cloth the piece was cut
  Colour plain;                 ///< where there is no swatch
  friend bool operator==(const Cloth&, const Cloth&) = default;
};

/// What fills a shape: one colour, or a print's cloth.
using Paint = std::variant<Colour, Cloth>;

/// A filled shape.
struct Area {
  Outline outline;
  Paint paint;
};

/// A stroke.
struct Line {
  Outline points;
  /// In the units of the display.
  double width = 1;
  Colour colour = kInk;
  bool closed = false;
  std::vector<double> dashes;  ///< lengths on and off; empty: unbroken
};

/// The soft shading inside a patch's edges that makes it look sewn, lit from the top left.
struct Relief {
  Outline outline;
  double width = 0;  ///< how far in it reaches
  double depth = 1;  ///< 0 none .. 1 as sewn and pressed
};

/// Which end of a line of words lies at its point.
enum class Anchor { left, middle, right };

/// What a line of words is for; sheets are read aloud and tested by it.
enum class Role { title, heading, body, caption, name, code, furniture };

/// One line of words. Sizes are of the em square; DejaVu Sans' capitals are kCapHeight of it.
struct Text {
  std::string words;
  Vec at;  ///< the anchor, on the base line
  double size = 10;
  Anchor anchor = Anchor::left;
  bool bold = false;
  Colour colour = kInk;
  Role role = Role::body;
  double degrees = 0;  ///< clockwise about `at`
};

constexpr double kCapHeight = 0.729;  ///< of DejaVu Sans, in ems

/// What lies between an Opening and its Closing is one thing to someone who has the page read out.
struct Opening {
  enum class Kind { figure, heading, paragraph, table, row, cell } kind = Kind::figure;
  std::string says;  ///< alternative text; meant for figures
};
/// Ends what was opened last; openings may lie within each other.
struct Closing {};

/// All that can be drawn, and the marks that group it for a reader.
using Item = std::variant<Area, Line, Relief, Text, Opening, Closing>;

/// A picture or page as a list. Its unit is the maker's: inches for tops, points for pages; x runs right, y down.
struct Display {
  double width = 0, height = 0;
  std::vector<Item> items;  ///< drawn in this order

  void add(Item item) { items.push_back(std::move(item)); }
};

/// `part` drawn onto `whole`, its top left corner at `at`, every length times `scale`.
void place(Display& whole, const Display& part, Vec at, double scale);

/// `part` as large as the room allows, centred in it; returns where it came to lie.
Box place_fitted(Display& whole, const Display& part, const Box& room);

/// Every line of words, in order.
std::vector<Text> words_of(const Display& display);

}  // namespace farflung::draw
