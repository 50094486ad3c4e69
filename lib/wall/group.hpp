// Blocks of which there is no record at all, not even of their prints: like is grouped with like.
#pragma once

#include "wall/read.hpp"

namespace farflung::wall {

/// A print that only the wall shows.
struct PrintSeen {
  photo::Picture swatch;  ///< cut from the piece that shows it best
  double inches = 0;      ///< that the swatch spans
  int patches = 0;        ///< how many slots of blocks it fills
};

/// What the wall shows, sorted into prints and blocks.
struct Grouped {
  std::vector<PrintSeen> prints;        ///< those that fill most first
  std::vector<BlockLearnt> blocks;      ///< their prints index `prints`
  std::vector<int> empty;               ///< cells in which nothing lies
  std::vector<photo::Corners> corners;  ///< by photograph
  std::vector<int> cards;               ///< by photograph, as in WallRead
};

/// Sorts what fills the slots of all cells into prints, by colour and texture, under a light that falls off smoothly
/// over each photograph; then says what fills each slot of each cell. `prints`: how many there are; 0: as many as look
/// different, which splits a print whose parts differ much and joins prints that hardly do. Patterns as for learn_wall.
Result<Grouped> group_wall(const std::vector<Section>& sections, const quilt::Quilt& quilt, int pattern, int prints);

}  // namespace farflung::wall
