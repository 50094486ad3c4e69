// Reading a photograph of the blocks as they hang on the wall or lie on the floor.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "photo/picture.hpp"
#include "quilt/quilt.hpp"

namespace farflung::wall {

using quilt::kNone;

/// How the blocks lie.
enum class Laid {
  blocks,  ///< side by side or a little apart, their seam allowances showing; no sashing, no borders
  top,     ///< one sewn top, sashing and borders included
};

/// What is told of one photograph of the wall.
struct ReadOptions {
  Laid laid = Laid::blocks;
  /// Of the box about all the blocks (Laid::blocks) or about the cells of the top: pixels of the photograph, clockwise
  /// from the quilt's own top left. None: they are looked for, printed corner cards first (of a top, at its outer
  /// edge).
  std::optional<photo::Corners> corners;
  /// The rows and columns of the setting that the photograph shows, the last one included; -1: to the end.
  int first_row = 0, last_row = -1, first_column = 0, last_column = -1;
  std::string name = "the photograph";  ///< what it is called where it is told what is wrong
  double sure = 0.95;                   ///< a cell is called sure from this confidence up
};

/// What a cell holds, as far as the photograph tells.
struct CellRead {
  enum class State {
    block,    ///< one of the quilt's blocks
    missing,  ///< nothing lies there
    foreign,  ///< something that is none of the quilt's blocks
  };

  int cell = 0;  ///< of the plan
  /// Where the finished block lies within the photograph's corners: shares of the box about all the blocks, across and
  /// down, clockwise from the block's top left (on point: its top).
  photo::Corners outline{};
  State state = State::block;
  int block = kNone;  ///< of the quilt; of blocks of equal make-up the one that the plan has here, else the first left
  Turn turn;
  bool turn_told = true;  ///< false: the block looks the same in other turns; then `turn` is the plan's where it may be
  double confidence = 0;  ///< 0..1: of the make-up and the turn
  bool sure = false;
};

/// A cell that is not as planned.
struct Difference {
  /// swapped: another block than planned; turned: the planned one in another turn.
  enum class Kind { swapped, turned, missing, foreign } kind = Kind::swapped;
  int cell = 0;
  int planned = kNone, found = kNone;  ///< blocks
};

/// A whole wall as it was read, from one photograph or several.
struct WallRead {
  std::vector<photo::Corners> corners;  ///< by photograph: as given or found
  std::vector<int> cards;               ///< by photograph: how many printed cards said where the corners are
  std::vector<CellRead> cells;
  std::vector<Difference> differs;
  setting::Arrangement layout;  ///< quilt.layout with what was read in its place; what was not photographed stays
};

/// One photograph of a wall, or of a part of it.
struct Section {
  photo::Picture photograph;
  ReadOptions options;
};

/// Reads which block hangs in each cell, and in which turn. `swatches` are pictures of the prints, one for each of
/// quilt.prints (empty where there is none: then its colours alone are known). Each block is there once: all cells are
/// assigned together. The light is judged by the prints themselves, so neither its colour nor its falling off matters.
///
/// A quilt larger than the wall is read in sections, which join by their rows and columns; each has its own light.
/// Problems: no grid found where none was given ("give the four corners"), a quilt without blocks, a cell in two
/// sections.
Result<WallRead> read_wall(const std::vector<Section>& sections, const quilt::Quilt& quilt,
                           const std::vector<photo::Picture>& swatches);
Result<WallRead> read_wall(const photo::Picture& photograph, const quilt::Quilt& quilt,
                           const std::vector<photo::Picture>& swatches, const ReadOptions& options = {});

/// A block made from what a cell shows.
struct BlockLearnt {
  int cell = 0;
  std::vector<int> prints;  ///< by slot of the pattern
  Turn turn;
  double confidence = 0;
  bool sure = false;
};

/// Blocks made from one photograph of a wall of which no plan was kept.
struct Learnt {
  photo::Corners corners{};
  int cards = 0;  ///< as in WallRead
  std::vector<BlockLearnt> blocks;
  std::vector<int> empty;  ///< cells of the plan in which nothing lies
};

/// Which print fills each slot in each cell: the pattern of each cell is known (`pattern`, or the setting's own where
/// patterns alternate), the blocks are not. Of turns that only rename the slots the smallest is given.
Result<Learnt> learn_wall(const photo::Picture& photograph, const quilt::Quilt& quilt, int pattern,
                          const std::vector<photo::Picture>& swatches, const ReadOptions& options = {});

}  // namespace farflung::wall
