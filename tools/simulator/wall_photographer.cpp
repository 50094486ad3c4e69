#include "simulator/wall_photographer.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "simulator/block_cloth.hpp"
#include "simulator/field.hpp"
#include "simulator/lay.hpp"
#include "simulator/shapes.hpp"
#include "simulator/surface.hpp"

namespace farflung::simulator {
namespace {

using setting::Cell;
using setting::Plan;
using State = Hanging::State;

/// A flat piece of work and where it hangs.
struct Hung {
  Pieced cloth;
  std::array<cv::Point2d, 4> corners;  ///< on the wall, inches, of the picture's corners
  double thickness = 0.03;
};

cv::Point2d inches(Point p) { return {p.x.inches(), p.y.inches()}; }

Point point(cv::Point2d p) { return {Length::inches(p.x), Length::inches(p.y)}; }

// Inches between neighbouring centres on the wall, over those on the finished top.
cv::Point2d spread_of(const quilt::Quilt& quilt, const Plan& plan, const Hanging& hanging) {
  if (hanging.state == State::sewn_top) return {1, 1};
  const double sash = quilt.setting.sashing ? quilt.setting.sashing->width.inches() : 0;
  const double more = 2 * hanging.raw_edge + hanging.gap;
  const double width = plan.block_width.inches(), height = plan.block_height.inches();
  return {(width + more) / (width + sash), (height + more) / (height + sash)};
}

bool on_wall(const Cell& cell, const Hanging& hanging) {
  return cell.row >= hanging.from_row && cell.row < hanging.to_row && cell.column >= hanging.from_column &&
         cell.column < hanging.to_column;
}

// How the cloth of a patch lies in its unturned block: an upright print stands upright at the turn the block was cut
// for.
int grain_of(const quilt::Quilt& quilt, const block::Block& block, int print, double turned_grain, Rng& rng) {
  if (quilt.prints[static_cast<std::size_t>(print)].upright) return block.cut_turn.back().quarters();
  const bool across = rng.uniform() < turned_grain;
  return 2 * static_cast<int>(rng.below(2)) + (across ? 1 : 0);
}

// The block's outermost edges moved outward by what shows of its seam allowance; patches that are not sewn shrink and
// stray.
Polygon outline_of(const block::Patch& patch, const block::Pattern& pattern, const Hanging& hanging, Rng& rng) {
  const double width = pattern.width.inches(), height = pattern.height.inches();
  const double edge = hanging.state == State::sewn_top ? 0 : hanging.raw_edge;
  const auto outward = [edge](double place, double far_side) {
    if (place < 1e-3) return 0.0;
    return place > far_side - 1e-3 ? place + 2 * edge : place + edge;
  };
  std::vector<cv::Point2d> corners;
  cv::Point2d middle;
  for (const Point& p : patch.polygon) {
    corners.emplace_back(outward(p.x.inches(), width), outward(p.y.inches(), height));
    middle += corners.back() * (1.0 / static_cast<double>(patch.polygon.size()));
  }
  const bool loose = hanging.state == State::patches;
  const double angle = loose ? rng.between(-1, 1) * CV_PI / 180 : 0, c = std::cos(angle), s = std::sin(angle);
  const double down = loose ? rng.normal() : 0, right = loose ? rng.normal() : 0;
  const cv::Point2d stray = cv::Point2d(right, down) * (0.4 * hanging.patch_gap);
  Polygon outline;
  for (const cv::Point2d corner : corners) {
    cv::Point2d d = corner - middle;
    if (loose) {
      d -= cv::Point2d(std::clamp(d.x, -0.5, 0.5), std::clamp(d.y, -0.5, 0.5)) * hanging.patch_gap;
      d = {c * d.x - s * d.y, s * d.x + c * d.y};
    }
    outline.push_back(point(middle + d + stray));
  }
  return outline;
}

// Creases and hollows: broad ones, and a few soft folds that run through.
void wrinkle(Pieced& cloth, const Bolts& bolts, double depth, Rng& rng) {
  if (depth <= 0) return;
  const Tile tile{cloth.light.cols / bolts.pixels_per_inch, cloth.light.rows / bolts.pixels_per_inch,
                  bolts.pixels_per_inch};
  cv::Mat shade = 1 + depth * 0.5 * drawn_out(deviates({4, 4}, rng), cloth.light.size());
  const cv::Mat folds = clouds(tile, 0.6 * std::max(tile.width, tile.height), 2, 0.5, rng);
  shade += depth * 0.8 * (1 - stepped(cv::abs(folds - 0.5), 0, 0.09)) - depth * 0.15;
  cv::Mat three;
  cv::merge(std::vector<cv::Mat>{shade, shade, shade}, three);
  cloth.light = cloth.light.mul(three);
}

/// A cell's place on the wall.
struct Nail {
  int cell = 0;
  cv::Point2d centre;
  bool on_point = false;
};

Hung hung_block(const quilt::Quilt& quilt, int index, Turn turn, const Nail& nail, const Bolts& bolts,
                const Hanging& hanging, Seed seed) {
  const block::Block& block = quilt.blocks[static_cast<std::size_t>(index)];
  const block::Pattern& pattern = quilt.patterns[static_cast<std::size_t>(block.pattern)];
  const Seed own = derived(seed, static_cast<std::uint64_t>(index));
  Rng rng(own);
  std::vector<PieceCut> pieces;
  for (std::size_t k = 0; k < pattern.patches.size(); ++k) {
    const int print = quilt::print_of_slot(quilt, block, pattern.patches[k].slot);
    const Polygon outline = outline_of(pattern.patches[k], pattern, hanging, rng);
    if (print == block::kNone) continue;
    pieces.push_back({outline, print, grain_of(quilt, block, print, hanging.turned_grain, rng), derived(own, k + 1)});
  }
  const double edge = hanging.state == State::sewn_top ? 0 : hanging.raw_edge;
  const double width = pattern.width.inches() + 2 * edge, height = pattern.height.inches() + 2 * edge;
  Hung hung;
  hung.cloth = pieced(pieces, width, height, bolts, hanging.state == State::patches ? 0.15 : 0.4);
  wrinkle(hung.cloth, bolts, hanging.wrinkles, rng);

  Rng hand(derived(seed, 2'000'000 + static_cast<std::uint64_t>(nail.cell)));
  cv::Point2d centre = nail.centre;
  const bool sewn = hanging.state == State::sewn_top;
  const double lean = sewn ? 0 : hand.between(-hanging.askew, hanging.askew);
  const double angle = turn.quarters() * CV_PI / 2 + (nail.on_point ? CV_PI / 4 : 0) + lean * CV_PI / 180;
  const cv::Point2d right = toward(angle) * (width / 2), down = toward(angle + CV_PI / 2) * (height / 2);
  if (!sewn) centre += cv::Point2d(hand.between(-1, 1), hand.between(-1, 1)) * hanging.astray;
  hung.corners = {centre - right - down, centre + right - down, centre + right + down, centre - right + down};
  if (!sewn) {
    for (cv::Point2d& corner : hung.corners) corner += cv::Point2d(hand.normal(), hand.normal()) * hanging.pulled;
  }
  return hung;
}

Hung hung_frame_patch(const setting::FramePatch& patch, std::size_t index, const Bolts& bolts, const Hanging& hanging,
                      Seed seed) {
  double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
  for (const Point& p : patch.polygon) {
    left = std::min(left, p.x.inches());
    right = std::max(right, p.x.inches());
    top = std::min(top, p.y.inches());
    bottom = std::max(bottom, p.y.inches());
  }
  const Seed own = derived(seed, 1'000'000 + index);
  Rng rng(own);
  const Polygon outline = shifted(patch.polygon, point({-left, -top}));
  Hung hung;
  hung.cloth = pieced({{outline, patch.print, 0, own}}, right - left, bottom - top, bolts, 0.4);
  wrinkle(hung.cloth, bolts, 0.4 * hanging.wrinkles, rng);
  hung.corners = {cv::Point2d(left, top), {right, top}, {right, bottom}, {left, bottom}};
  return hung;
}

cv::Matx33d wall_from_picture(const Hung& hung) {
  const auto width = static_cast<float>(hung.cloth.light.cols), height = static_cast<float>(hung.cloth.light.rows);
  const std::vector<cv::Point2f> from = {
      {-0.5f, -0.5f}, {width - 0.5f, -0.5f}, {width - 0.5f, height - 0.5f}, {-0.5f, height - 0.5f}};
  const std::vector<cv::Point2f> to(hung.corners.begin(), hung.corners.end());
  return cv::Matx33d(cv::getPerspectiveTransform(from, to));
}

// The finished square of a block as it hangs, from the cell's top left whatever the block's turn.
std::array<cv::Point2d, 4> finished_corners(const std::array<cv::Point2d, 4>& corners, double edge, double width,
                                            double height, Turn turn) {
  std::array<cv::Point2d, 4> finished;
  for (std::size_t k = 0; k < 4; ++k) {
    const cv::Point2d here = corners[k], before = corners[(k + 3) % 4], after = corners[(k + 1) % 4];
    const double along = k % 2 == 0 ? width : height, aside = k % 2 == 0 ? height : width;
    finished[(k + static_cast<std::size_t>(turn.quarters())) % 4] =
        here + (after - here) * (edge / (along + 2 * edge)) + (before - here) * (edge / (aside + 2 * edge));
  }
  return finished;
}

struct Layout {
  const quilt::Quilt& quilt;
  const Plan plan;
  const Hanging& hanging;
  const cv::Point2d spread;

  cv::Point2d centre(const Cell& cell) const {
    const cv::Point2d c = inches(cell.centre);
    return {c.x * spread.x, c.y * spread.y};
  }

  /// Where a cell's block would hang if it hung straight, its seam allowance included.
  std::array<cv::Point2d, 4> straight(const Cell& cell) const {
    const double edge = hanging.state == State::sewn_top ? 0 : hanging.raw_edge;
    const double angle = plan.on_point ? CV_PI / 4 : 0;
    const cv::Point2d right = toward(angle) * (plan.block_width.inches() / 2 + edge);
    const cv::Point2d down = toward(angle + CV_PI / 2) * (plan.block_height.inches() / 2 + edge), c = centre(cell);
    return {c - right - down, c + right - down, c + right + down, c - right + down};
  }
};

std::array<cv::Point2d, 4> box_about(const std::vector<cv::Point2d>& points) {
  cv::Point2d low(1e9, 1e9), high(-1e9, -1e9);
  for (const cv::Point2d p : points) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  return {low, cv::Point2d(high.x, low.y), high, cv::Point2d(low.x, high.y)};
}

std::vector<Paper> pinned(const Hanging& hanging, const std::array<cv::Point2d, 4>& box, Seed seed) {
  std::vector<Paper> papers;
  Rng hand(derived(seed, 3'000'000));
  for (const auto& [corner, card] : hanging.cards) {
    Paper paper = card.paper;
    paper.degrees = hand.between(-1, 1) * hanging.card_askew;
    const double angle = paper.degrees * CV_PI / 180, c = std::cos(angle), s = std::sin(angle);
    const cv::Point2d tip(c * card.tip.x - s * card.tip.y, s * card.tip.x + c * card.tip.y);
    const cv::Point2d stray = cv::Point2d(hand.between(-1, 1), hand.between(-1, 1)) * hanging.card_astray;
    paper.centre = box[static_cast<std::size_t>(corner)] - tip + stray;
    papers.push_back(paper);
  }
  return papers;
}

double pixels_per_inch(const cv::Matx33d& photo_from_wall, const std::array<cv::Point2d, 4>& box) {
  double most = 0;
  for (const cv::Point2d corner : box) most = std::max(most, scale_at(photo_from_wall, corner));
  return std::clamp(most, 8.0, 60.0);
}

}  // namespace

WallPhotograph photographed(const quilt::Quilt& quilt, const std::vector<Fabric>& fabrics, const Hanging& hanging,
                            const Shot& shot, Seed seed) {
  const Plan plan = quilt::plan_of(quilt);
  const Layout layout{quilt, plan, hanging, spread_of(quilt, plan, hanging)};
  std::vector<cv::Point2d> seen;
  for (const Cell& cell : plan.cells) {
    if (!on_wall(cell, hanging)) continue;
    for (const cv::Point2d corner : layout.straight(cell)) seen.push_back(corner);
  }
  const std::array<cv::Point2d, 4> box = box_about(seen);
  const bool whole = hanging.state == State::sewn_top;
  const double top_width = plan.width.inches(), top_height = plan.height.inches();
  std::vector<cv::Point2d> frame =
      whole ? std::vector<cv::Point2d>{{0, 0}, {top_width, 0}, {top_width, top_height}, {0, top_height}}
            : std::vector<cv::Point2d>(box.begin(), box.end());
  const std::vector<Paper> papers = pinned(hanging, {frame[0], frame[1], frame[2], frame[3]}, seed);
  for (const Paper& paper : papers) {
    for (const cv::Point2d corner : corners_of(paper)) frame.push_back(corner);
  }

  WallPhotograph photograph;
  photograph.photo_from_wall = photo_from_table(shot.camera, frame);
  photograph.layout = setting::empty_arrangement(quilt.setting);
  for (std::size_t k = 0; k < 4; ++k) photograph.corners[k] = projected(photograph.photo_from_wall, box[k]);
  const Bolts bolts = bolts_of(fabrics, pixels_per_inch(photograph.photo_from_wall, box));

  cv::Mat picture = surface_seen(hanging.wall, photograph.photo_from_wall, shot.camera.pixels, derived(seed, 1));
  const auto hang = [&](const Hung& hung) {
    const LaidCloth cloth{hung.cloth.light, hung.cloth.shape, photograph.photo_from_wall * wall_from_picture(hung),
                          whole ? 0 : hung.thickness * bolts.pixels_per_inch};
    lay(picture, cloth, shot.light);
  };
  if (whole) {
    for (std::size_t k = 0; k < plan.frame.size(); ++k) {
      if (plan.frame[k].print != block::kNone) hang(hung_frame_patch(plan.frame[k], k, bolts, hanging, seed));
    }
  }
  const double edge = whole ? 0 : hanging.raw_edge;
  for (std::size_t k = 0; k < plan.cells.size(); ++k) {
    if (!on_wall(plan.cells[k], hanging)) continue;
    const int index = quilt.layout.block[k];
    const Turn turn = quilt.layout.turn[k];
    std::array<cv::Point2d, 4> corners = layout.straight(plan.cells[k]);
    Turn corners_turned;
    if (index != block::kNone) {
      photograph.layout.block[k] = index;
      photograph.layout.turn[k] = turn;
      const Nail nail{static_cast<int>(k), layout.centre(plan.cells[k]), plan.on_point};
      const Hung hung = hung_block(quilt, index, turn, nail, bolts, hanging, seed);
      hang(hung);
      corners = hung.corners;
      corners_turned = turn;
    }
    CellSeen cell{static_cast<int>(k), {}};
    const std::array<cv::Point2d, 4> finished =
        finished_corners(corners, edge, plan.block_width.inches(), plan.block_height.inches(), corners_turned);
    for (std::size_t i = 0; i < 4; ++i) cell.corners[i] = projected(photograph.photo_from_wall, finished[i]);
    photograph.cells.push_back(cell);
  }
  for (const Paper& paper : papers) lay_paper(picture, paper, photograph.photo_from_wall, shot.light);
  photograph.srgb =
      developed(picture, exposed(picture, light_over(shot.light, picture.size()), shot.light, shot.develop),
                shot.develop, derived(seed, 2));
  return photograph;
}

Shot wall_shot(Seed seed, cv::Size pixels) {
  Rng rng(seed);
  Shot shot;
  shot.camera.pixels = pixels;
  shot.camera.slant = 30 * std::sqrt(rng.uniform());
  shot.camera.azimuth = rng.between(0, 360);
  shot.camera.roll = rng.between(-5, 5);
  shot.camera.view = rng.between(45, 66);
  shot.camera.margin = rng.between(0.02, 0.07);
  shot.light.kelvin = 1e6 / rng.between(1e6 / 7500, 1e6 / 2700);
  shot.light.fall_off = rng.between(0, 0.4);
  shot.light.fall_off_toward = rng.between(0, 360);
  shot.light.shadow_toward = shot.light.fall_off_toward + rng.between(-30, 30);
  shot.light.shadow_depth = rng.between(0.2, 0.5);
  if (rng.below(3) == 0) {
    shot.light.cast_depth = rng.between(0.1, 0.3);
    shot.light.cast_reach = rng.between(0.15, 0.5);
    shot.light.cast_from = rng.between(0, 360);
    shot.light.cast_softness = rng.between(0.06, 0.25);
  }
  const double size = pixels.width / 4000.0;
  shot.develop.metered = true;
  shot.develop.exposure = rng.between(-0.6, 0.6);
  shot.develop.balance = rng.between(0.65, 0.97);
  shot.develop.tint = rng.between(-0.03, 0.03);
  shot.develop.vignette = rng.between(0, 0.2);
  shot.develop.blur = rng.between(0.5, 0.5 + 1.2 * size);
  shot.develop.noise = rng.between(0.003, 0.02);
  shot.develop.tone = rng.between(0, 1);
  shot.develop.sharpening = rng.between(0, 0.5);
  shot.develop.jpeg_quality = 75 + static_cast<int>(rng.below(21));
  return shot;
}

Hanging wall_hanging(Seed seed) {
  Rng rng(seed);
  Hanging hanging;
  hanging.state = rng.below(4) == 0 ? State::patches : State::blocks;
  hanging.gap = rng.between(-0.1, 0.8);
  hanging.patch_gap = rng.between(0.02, 0.12);
  hanging.askew = rng.between(0.3, 2);
  hanging.astray = rng.between(0.03, 0.25);
  hanging.wrinkles = rng.between(0.02, 0.12);
  hanging.pulled = rng.between(0.02, 0.12);
  constexpr std::array<Ink, 5> kWalls = {0xefece6, 0xd9d6d0, 0x9a9c9e, 0x4a4d52, 0xc8bfae};
  hanging.wall.ink = kWalls[rng.below(kWalls.size())];
  hanging.wall.unevenness = rng.between(0.01, 0.05);
  if (rng.below(4) == 0) hanging.wall = {Surface::Kind::wood, rng.below(2) == 0 ? Ink(0xa9794f) : Ink(0x6b4a35), 0.02};
  return hanging;
}

}  // namespace farflung::simulator
