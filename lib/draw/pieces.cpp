#include "draw/pieces.hpp"

#include <cmath>
#include <functional>
#include <numbers>

#include "base/rng.hpp"

namespace farflung::draw {
namespace {

using block::kNone;

constexpr Colour kNotDealt = {0.93, 0.93, 0.92, 1};

std::uint64_t crop_of(std::uint64_t kind, std::uint64_t first, std::uint64_t second) {
  return derived(derived(Seed{kind}, first), second).value;
}

/// How far the cloth of a patch is turned on the top. A sewn block's upright prints were cut to stand at its cut turn.
double degrees_of(const quilt::Quilt& quilt, const block::Block& block, int print, Turn turn, double setting_degrees) {
  if (print == kNone || !quilt.prints[print].upright) return 90.0 * turn.quarters() + setting_degrees;
  return block.sewn ? 90.0 * (turn + block.cut_turn.back()).quarters() : 0;
}

std::vector<Piece> pieces(const quilt::Quilt& quilt, int index, Turn turn, double setting_degrees,
                          const std::function<Polygon(const Polygon&)>& top_from_block) {
  const block::Block& block = quilt.blocks[index];
  const block::Pattern& pattern = quilt.patterns[block.pattern];
  std::vector<Piece> result;
  for (std::size_t i = 0; i < pattern.patches.size(); ++i) {
    const block::Patch& patch = pattern.patches[i];
    const int print = quilt::print_of_slot(quilt, block, patch.slot);
    const double degrees = degrees_of(quilt, block, print, turn, setting_degrees);
    result.push_back({static_cast<int>(i), patch.slot, print, inches(top_from_block(patch.polygon)),
                      cloth_of(quilt, print, degrees, crop_of(1, index, i))});
  }
  return result;
}

/// The way of the longest edge, degrees from the x axis in (-90, 90].
double way_of(const Outline& outline) {
  double longest = -1;
  double degrees = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec edge = outline[(i + 1) % outline.size()] - outline[i];
    if (length(edge) <= longest + 1e-6) continue;
    longest = length(edge);
    degrees = std::atan2(edge.y, edge.x) * 180 / std::numbers::pi;
  }
  degrees = std::remainder(degrees, 180);
  return std::abs(degrees + 90) < 1e-6 ? 90 : degrees;
}

}  // namespace

Paint cloth_of(const quilt::Quilt& quilt, int print, double degrees, std::uint64_t crop) {
  if (print == kNone) return kNotDealt;
  const print::Print& cloth = quilt.prints[print];
  Rng chance{Seed{crop}};
  const double across = chance.uniform();
  const double down = chance.uniform();
  return Cloth{print,   cloth.swatch_width.value_or(kAssumedSwatchWidth).inches(),
               degrees, across,
               down,    colour_of(cloth.features.lab)};
}

std::vector<Piece> pieces_in_cell(const quilt::Quilt& quilt, const setting::Plan& plan, int cell) {
  const int block = quilt.layout.block[cell];
  if (block == kNone) return {};
  const Turn turn = quilt.layout.turn[cell];
  return pieces(quilt, block, turn, plan.on_point ? 45 : 0,
                [&](const Polygon& polygon) { return plan.top_from_block(polygon, cell, turn); });
}

std::vector<Piece> pieces_of_block(const quilt::Quilt& quilt, int block, Turn turn) {
  const block::Pattern& pattern = quilt.patterns[quilt.blocks[block].pattern];
  return pieces(quilt, block, turn, 0,
                [&](const Polygon& polygon) { return turned(polygon, pattern.width, pattern.height, turn); });
}

Paint paint_of_frame(const quilt::Quilt& quilt, const setting::Plan& plan, int frame_patch) {
  const setting::FramePatch& patch = plan.frame[frame_patch];
  const bool upright = patch.print != kNone && quilt.prints[patch.print].upright;
  return cloth_of(quilt, patch.print, upright ? 0 : way_of(inches(patch.polygon)), crop_of(2, frame_patch, 0));
}

Outline outline_of_cell(const setting::Plan& plan, int cell) {
  return inches(plan.top_from_block(rectangle(Length(), Length(), plan.block_width, plan.block_height), cell, Turn()));
}

}  // namespace farflung::draw
