// Photographs of blocks on a design wall, whose layout is known.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include <opencv2/core.hpp>

#include "quilt/quilt.hpp"
#include "simulator/photographer.hpp"

namespace farflung::simulator {

/// A printed card pinned at a corner of the box about the cells on the wall.
struct PinnedCard {
  Paper paper;      ///< its centre and degrees are set where it is pinned
  cv::Point2d tip;  ///< the point of the card that is to touch the corner, inches from the card's centre
};

/// How blocks hang on the wall.
struct Hanging {
  enum class State {
    sewn_top,  ///< one piece: sashing and borders are there, seams are finished
    blocks,    ///< sewn blocks side by side, their raw edges showing; no sashing, no borders
    patches,   ///< not sewn yet: each block's patches laid edge to edge
  };

  State state = State::blocks;
  double raw_edge = 0.25;      ///< inches of seam allowance that show around a block (blocks, patches)
  double gap = 0.25;           ///< inches between blocks (blocks, patches); below 0 they overlap
  double patch_gap = 0.05;     ///< inches between patches (patches)
  double askew = 1.0;          ///< degrees by which a block hangs askew, at most
  double astray = 0.1;         ///< inches by which a block hangs out of line, at most
  double wrinkles = 0.06;      ///< light and shade of a block's not lying flat, about its mean
  double pulled = 0.06;        ///< inches by which a block's corners are pulled out of square, standard deviation
  double turned_grain = 0.25;  ///< share of patches cut across the grain
  Surface wall{Surface::Kind::plain, 0xe6e3dc, 0.02};

  std::vector<std::pair<int, PinnedCard>> cards;  ///< each with its corner, 0 to 3 clockwise from the top left
  double card_askew = 1.5;                        ///< degrees by which a card is pinned askew, at most
  double card_astray = 0.08;                      ///< inches by which its tip misses the corner, at most

  /// Which cells are on the wall: rows [from_row, to_row) and columns likewise; beyond the last one means to the last.
  int from_row = 0, to_row = 1 << 20, from_column = 0, to_column = 1 << 20;
};

struct CellSeen {
  int cell = 0;                          ///< of the plan
  std::array<cv::Point2d, 4> corners{};  ///< of its block's finished size as it hangs: pixels, clockwise from the
                                         ///< cell's top left (on point: from its top corner), whatever the block's turn
};

struct WallPhotograph {
  cv::Mat srgb;                          ///< CV_8UC3, red first, before any JPEG
  setting::Arrangement layout;           ///< the truth: what hangs where; cells off the wall are empty
  std::vector<CellSeen> cells;           ///< those on the wall, empty ones too, in the plan's order
  std::array<cv::Point2d, 4> corners{};  ///< of the box about all the cells on the wall, clockwise from its top left
  cv::Matx33d photo_from_wall;           ///< pixels from inches on the wall
};

/// Photographs the quilt as it is laid out; `fabrics[p]` is the cloth of quilt.prints[p], at true scale. Every patch
/// shows a piece of cloth of its own, which stays with its block wherever the block goes. The same arguments give the
/// same pixels. Costs about 0.5 s for each 4 megapixels at -O2.
WallPhotograph photographed(const quilt::Quilt& quilt, const std::vector<Fabric>& fabrics, const Hanging& hanging,
                            const Shot& shot, Seed seed);

/// A shot drawn by lot: slant to 30 degrees, fall-off to 40 %, 2,700 to 7,500 K, noise, blur, JPEG 75 to 95.
Shot wall_shot(Seed seed, cv::Size pixels);
/// A way of hanging drawn by lot: blocks or patches, gaps, wrinkles; pale, grey or dark walls and wooden floors.
Hanging wall_hanging(Seed seed);

}  // namespace farflung::simulator
