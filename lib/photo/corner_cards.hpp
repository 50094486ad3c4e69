// Four printed cards that say in a photograph of the wall where the corners of the blocks are: what is on them, and
// finding them again.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "photo/picture.hpp"

namespace farflung::photo {

/// A card is pinned outside the blocks, upright as the quilt is, its tip at their outer corner. Clockwise from the top
/// left; each has a mark of its own, so that a photograph on its side is known to be so.
struct CornerCard {
  /// Of the mark, within the dictionary below.
  int id = 0;
  double left = 0, top = 0;              ///< of the mark, inches from the tip, x right, y down
  std::vector<std::vector<bool>> black;  ///< the mark's cells, row by row; the outer ones are black
};

constexpr double kCornerMark = 2.4;  ///< inches, the side of a mark
constexpr double kCornerWhite =
    0.4;  ///< inches of white round a mark that must stay empty, as wide as one of its cells

/// The marks are of OpenCV's dictionary of 5 x 5 bits, which shares none with the reference sheet's.
const std::array<CornerCard, 4>& corner_cards();

/// A card as it is in a picture.
struct CardSeen {
  std::array<double, 2> tip{};  ///< pixels
  Corners card{};               ///< of the mark with its white, clockwise from its own top left
};

/// By card; those that are covered, cut off or blurred are missing, and all are where fewer than three are seen or they
/// do not lie as four corners do. A mark is read from some 20 pixels across; its tip is within a tenth of an inch where
/// the card hangs within 3 degrees of upright.
std::array<std::optional<CardSeen>, 4> find_corner_cards(const Picture& picture);

}  // namespace farflung::photo
