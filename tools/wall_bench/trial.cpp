#include "wall_bench/trial.hpp"

#include <algorithm>
#include <mutex>

#include <opencv2/imgproc.hpp>

#include "photo/corner_cards.hpp"
#include "photo/mat.hpp"
#include "simulator/demo.hpp"
#include "simulator/jpeg.hpp"
#include "simulator/light.hpp"

namespace farflung::wall_bench {
namespace {

Polygon patch(double left, double top, double width, double height) {
  return rectangle(Length::inches(left), Length::inches(top), Length::inches(width), Length::inches(height));
}

block::Pattern pattern_of(int which) {
  block::Pattern pattern;
  pattern.id = "trial";
  pattern.width = pattern.height = Length::inches(which == 3 ? 9 : 6);
  pattern.slots = {{"A", block::kNone, false}};
  const auto at = [](double x, double y) { return Point{Length::inches(x), Length::inches(y)}; };
  const std::vector<Turn> all = {Turn(), Turn::quarters(1), Turn::quarters(2), Turn::quarters(3)};
  if (which == 0) pattern.patches = {{0, patch(0, 0, 6, 6)}};
  if (which == 1) {
    pattern.turns = all;
    pattern.slots.push_back({"B", block::kNone, false});
    pattern.patches = {{0, {at(0, 0), at(6, 0), at(0, 6)}}, {1, {at(6, 0), at(6, 6), at(0, 6)}}};
  }
  if (which == 2) {
    pattern.turns = all;
    pattern.slots.push_back({"B", block::kNone, false});
    pattern.slots.push_back({"C", block::kNone, false});
    pattern.patches = {{0, patch(0, 0, 6, 2.5)}, {1, patch(0, 2.5, 6, 1)}, {2, patch(0, 3.5, 6, 2.5)}};
  }
  if (which == 3) {
    pattern.slots.push_back({"B", block::kNone, false});
    pattern.patches = {{1, patch(3, 3, 3, 3)}};
    for (int k = 0; k < 4; ++k) {
      const auto add = [&](int slot, const Polygon& polygon) {
        pattern.patches.push_back({slot, farflung::turned(polygon, pattern.width, pattern.height, Turn::quarters(k))});
      };
      add(0, {at(0, 0), at(3, 0), at(0, 3)});
      add(1, {at(3, 0), at(3, 3), at(0, 3)});
      add(1, patch(3, 0, 3, 1.5));
      add(0, patch(3, 1.5, 3, 1.5));
    }
  }
  return pattern;
}

/// The print at a grid of places of a block so turned.
std::vector<int> picture_of(const block::Pattern& pattern, const std::vector<int>& prints, Turn turn) {
  constexpr int kSide = 19;
  std::vector<int> picture(kSide * kSide, block::kNone);
  for (const block::Patch& each : pattern.patches) {
    const Polygon polygon = farflung::turned(each.polygon, pattern.width, pattern.height, turn);
    std::vector<cv::Point2f> outline;
    for (const Point& p : polygon) outline.emplace_back(p.x.inches(), p.y.inches());
    for (int k = 0; k < kSide * kSide; ++k) {
      const cv::Point2f place((k % kSide + 0.47F) / kSide * static_cast<float>(pattern.width.inches()),
                              (k / kSide + 0.43F) / kSide * static_cast<float>(pattern.height.inches()));
      if (cv::pointPolygonTest(outline, place, false) >= 0) picture[k] = prints[each.slot];
    }
  }
  return picture;
}

void disturb(quilt::Quilt& quilt, const Wanted& wanted, Rng& rng) {
  setting::Arrangement& layout = quilt.layout;
  const auto any = [&] { return rng.below(static_cast<std::uint32_t>(layout.block.size())); };
  std::vector<std::size_t> cells;
  while (static_cast<int>(cells.size()) < wanted.swapped) {
    const std::size_t cell = any();
    if (std::find(cells.begin(), cells.end(), cell) == cells.end()) cells.push_back(cell);
  }
  for (std::size_t k = 1; k < cells.size(); ++k) {
    std::swap(layout.block[cells[k - 1]], layout.block[cells[k]]);
    std::swap(layout.turn[cells[k - 1]], layout.turn[cells[k]]);
  }
  const std::vector<Turn>& turns = quilt.patterns[0].turns;
  for (int k = 0; k < wanted.turned && turns.size() > 1; ++k) {
    Turn& turn = layout.turn[any()];
    turn = turn + Turn::quarters(1);
  }
}

/// A fabric as a print of the quilt, with its swatch.
struct Cloth {
  print::Print print;
  photo::Picture swatch;
};

Cloth cloth_of(const simulator::Fabric& fabric) {
  print::Print print;
  print.id = print.name = fabric.name;
  const simulator::Truth truth = simulator::truth_of(fabric);
  print.features.lab = truth.lab;
  print.features.palette = truth.palette;
  print.swatch_width = Length::inches(9);
  return {print, photo::picture_from(simulator::srgb_picture(simulator::cut(fabric, {1.3, 0.7, 9, 9}, 50)))};
}

/// Of the demo's fabrics so many, the same for every wall: made when they are first asked for.
std::vector<Cloth> demo_cloth(const std::vector<simulator::Fabric>& fabrics) {
  static std::mutex mutex;
  static std::vector<Cloth> made;
  const std::lock_guard lock(mutex);
  while (made.size() < fabrics.size()) made.push_back(cloth_of(fabrics[made.size()]));
  return {made.begin(), made.begin() + static_cast<std::ptrdiff_t>(fabrics.size())};
}

}  // namespace

Made quilt_of(const Wanted& wanted, Seed seed) {
  Made wall;
  std::vector<simulator::Fabric>& fabrics = wall.fabrics;
  fabrics = simulator::demo_fabrics();
  fabrics.resize(std::min<std::size_t>(fabrics.size(), static_cast<std::size_t>(wanted.prints)));
  for (Cloth& cloth : demo_cloth(fabrics)) {
    wall.quilt.prints.push_back(std::move(cloth.print));
    wall.swatches.push_back(std::move(cloth.swatch));
  }
  wall.quilt.patterns = {pattern_of(wanted.pattern)};
  wall.quilt.setting.rows = wanted.rows;
  wall.quilt.setting.columns = wanted.columns;
  wall.quilt.layout = setting::empty_arrangement(wall.quilt.setting);
  Rng rng(derived(seed, 77));
  const block::Pattern& pattern = wall.quilt.patterns[0];
  for (int i = 0; i < wanted.rows * wanted.columns; ++i) {
    block::Block block;
    block.id = "B" + std::to_string(i + 1);
    for (std::size_t slot = 0; slot < pattern.slots.size(); ++slot) {
      int print = static_cast<int>(rng.below(static_cast<std::uint32_t>(fabrics.size())));
      while (std::find(block.prints.begin(), block.prints.end(), print) != block.prints.end()) {
        print = static_cast<int>(rng.below(static_cast<std::uint32_t>(fabrics.size())));
      }
      block.prints.push_back(print);
    }
    wall.quilt.blocks.push_back(block);
    wall.quilt.layout.block[i] = i;
    wall.quilt.layout.turn[i] = pattern.turns[rng.below(static_cast<std::uint32_t>(pattern.turns.size()))];
  }
  return wall;
}

Wall wall_of(const Wanted& wanted, const simulator::Hanging& hanging, const simulator::Shot& shot, Seed seed) {
  Made made = quilt_of(wanted, seed);
  Wall wall;
  wall.quilt = std::move(made.quilt);
  wall.swatches = std::move(made.swatches);
  quilt::Quilt hung = wall.quilt;
  Rng rng(derived(seed, 78));
  disturb(hung, wanted, rng);
  wall.photograph = simulator::photographed(hung, made.fabrics, hanging, shot, seed);
  wall.picture = photo::picture_from(simulator::through_jpeg(wall.photograph.srgb, shot.develop.jpeg_quality));
  for (std::size_t k = 0; k < 4; ++k) {
    // The simulator counts from the first pixel's middle, photo from its outer corner.
    wall.corners[k] = {wall.photograph.corners[k].x + 0.5, wall.photograph.corners[k].y + 0.5};
  }
  return wall;
}

Wall wall_by_lot(const Wanted& wanted, Seed seed) {
  return wall_of(wanted, simulator::wall_hanging(seed), simulator::wall_shot(seed, wanted.pixels), seed);
}

void pin_cards(simulator::Hanging& hanging, const std::vector<int>& corners) {
  constexpr double kWidth = 3.4, kHeight = 4.1;  // of a card as the sheet prints it
  for (const int corner : corners) {
    const photo::CornerCard& card = photo::corner_cards()[static_cast<std::size_t>(corner)];
    const cv::Point2d tip((card.left < 0 ? 0.5 : -0.5) * kWidth, (card.top < 0 ? 0.5 : -0.5) * kHeight);
    const double cell = photo::kCornerMark / static_cast<double>(card.black.size());
    std::vector<cv::Rect2d> black;
    for (std::size_t row = 0; row < card.black.size(); ++row) {
      for (std::size_t column = 0; column < card.black.size(); ++column) {
        if (!card.black[row][column]) continue;
        black.emplace_back(tip.x + card.left + static_cast<double>(column) * cell,
                           tip.y + card.top + static_cast<double>(row) * cell, cell, cell);
      }
    }
    hanging.cards.push_back({corner, {simulator::page_of_boxes(black, {}, kWidth, kHeight), tip}});
  }
}

void Tally::operator+=(const Tally& other) {
  cells += other.cells, right += other.right, turns += other.turns, turns_right += other.turns_right;
  sure += other.sure, sure_right += other.sure_right;
}

Tally tally_of(const Wall& wall, const wall::WallRead& read) {
  Tally tally;
  const setting::Arrangement& truth = wall.photograph.layout;
  const block::Pattern& pattern = wall.quilt.patterns[0];
  for (const wall::CellRead& cell : read.cells) {
    const int block = truth.block[cell.cell];
    bool right = block == cell.block, turn_right = right && block == block::kNone;
    if (block != block::kNone && cell.block != block::kNone) {
      // Of blocks that look alike in some turn, none is the wrong one.
      const std::vector<int> hangs = picture_of(pattern, wall.quilt.blocks[block].prints, truth.turn[cell.cell]);
      const std::vector<int>& prints = wall.quilt.blocks[cell.block].prints;
      turn_right = picture_of(pattern, prints, cell.turn) == hangs;
      for (const Turn turn : pattern.turns) right |= picture_of(pattern, prints, turn) == hangs;
    }
    ++tally.cells;
    tally.right += right;
    if (right && cell.turn_told) ++tally.turns, tally.turns_right += turn_right;
    if (cell.sure) ++tally.sure, tally.sure_right += right && turn_right;
  }
  return tally;
}

Tally tally_of(const Wall& wall, const wall::Learnt& learnt) {
  Tally tally;
  const setting::Arrangement& truth = wall.photograph.layout;
  const block::Pattern& pattern = wall.quilt.patterns[0];
  for (const wall::BlockLearnt& cell : learnt.blocks) {
    const int block = truth.block[cell.cell];
    if (block == block::kNone) continue;
    const bool right = picture_of(pattern, cell.prints, cell.turn) ==
                       picture_of(pattern, wall.quilt.blocks[block].prints, truth.turn[cell.cell]);
    ++tally.cells;
    tally.right += right;
    if (cell.sure) ++tally.sure, tally.sure_right += right;
  }
  // A block that was taken for an empty place is wrong.
  for (const int cell : learnt.empty) tally.cells += truth.block[cell] != block::kNone;
  return tally;
}

Tally tally_of(const Wall& wall, const wall::Grouped& grouped) {
  const setting::Arrangement& truth = wall.photograph.layout;
  const block::Pattern& pattern = wall.quilt.patterns[0];
  // Place by place, which true print each group lies on.
  std::vector<std::vector<int>> meets(grouped.prints.size(), std::vector<int>(wall.quilt.prints.size(), 0));
  for (const wall::BlockLearnt& cell : grouped.blocks) {
    const int block = truth.block[cell.cell];
    if (block == block::kNone) continue;
    const auto read = picture_of(pattern, cell.prints, cell.turn);
    const auto hangs = picture_of(pattern, wall.quilt.blocks[block].prints, truth.turn[cell.cell]);
    for (std::size_t k = 0; k < read.size(); ++k) {
      if (read[k] != block::kNone && hangs[k] != block::kNone) ++meets[read[k]][hangs[k]];
    }
  }
  wall::Learnt learnt;
  learnt.empty = grouped.empty;
  for (wall::BlockLearnt cell : grouped.blocks) {
    for (int& print : cell.prints) {
      if (print == block::kNone) continue;
      print = static_cast<int>(std::max_element(meets[print].begin(), meets[print].end()) - meets[print].begin());
    }
    learnt.blocks.push_back(cell);
  }
  return tally_of(wall, learnt);
}

}  // namespace farflung::wall_bench
