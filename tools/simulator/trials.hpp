// Photographs drawn by lot over everything that a kitchen table and a telephone can do, for trying readers on.
#pragma once

#include <vector>

#include "simulator/photographer.hpp"

namespace farflung::simulator {

/// Seeds are never shared: what a reader was tuned on says nothing about how good it is.
enum class Purpose { tuning, test };
Seed trial_seed(Purpose purpose, int number);

/// How much may lie in a trial's picture and how far its shot may go; the defaults are the whole range.
struct Range {
  int fewest = 1, most = 30;              ///< cloths to a picture
  double slant = 35;                      ///< degrees, at most
  double coldest = 7500, warmest = 2700;  ///< kelvin
  double fall_off = 0.4;                  ///< at most
  double exposure = 1;                    ///< EV either way, at most
  double noise = 0.02;                    ///< at most
  double blur = 1.6;                      ///< pixels, at most
  int worst_jpeg = 70, best_jpeg = 95;
  double tone = 1;          ///< telephone curve, at most
  double cast = 0.35;       ///< depth of a shadow that someone casts, in one picture of four, at most
  bool strays = true;       ///< a hand or scissors at the rim, in one picture of five
  double smaller = 0;       ///< of a side, by which each cloth may be smaller than the largest; 0 for fat quarters
  bool any_table = false;   ///< also boards and ruled cutting mats
  int longest_side = 1600;  ///< pixels
};

struct Trial {
  Scene scene;
  Shot shot;
  Seed seed;
};

/// One cloth alone in a third of the pictures, two to nine in a third, ten to thirty folded fat quarters with gaps of a
/// few millimetres in a third (as the range allows). Tables are pale, middling or dark whatever the cloth, so that some
/// pale prints lie on pale and some dark on dark, never printed with the very ink of the table (dE 5 at least, where a
/// dozen tables have one).
Trial trial(Seed seed, const Range& range = {});

/// The same fabrics in another picture: laid, cut, lit and photographed anew.
Trial retaken(const Trial& trial, Seed seed, const Range& range = {});

/// A print that a quilter would tell from `fabric` only side by side: the same design, its inks and its scale a little
Fabric sister_of(const Fabric& fabric, Seed seed);

Photograph photographed(const Trial& trial);

}  // namespace farflung::simulator
