#include "setting/frame.hpp"

#include <cmath>

namespace farflung::setting {
namespace {

const double kHalfRoot = std::sqrt(0.5);

Length in(double inches) { return Length::inches(inches); }

/// A point of a side's own frame: `along` the side from its start, `inward` from the edge; then placed on the top.
struct Side {
  double x = 0, y = 0;                ///< where the side starts
  double along_x = 0, along_y = 0;    ///< unit vector along it
  double inward_x = 0, inward_y = 0;  ///< unit vector into the top

  Point at(double along, double inward) const {
    return {in(x + along * along_x + inward * inward_x), in(y + along * along_y + inward * inward_y)};
  }
};

Polygon without_repeats(const Polygon& polygon) {
  Polygon result;
  const auto same = [](Point a, Point b) {
    return std::abs((a.x - b.x).inches()) <= kSnap.inches() && std::abs((a.y - b.y).inches()) <= kSnap.inches();
  };
  for (const Point& point : polygon) {
    if (result.empty() || !same(result.back(), point)) result.push_back(point);
  }
  while (result.size() > 1 && same(result.front(), result.back())) result.pop_back();
  return result;
}

/// The setting triangle between blocks k and k + 1 of one side. With sashing that does not run around the outside its
/// square corner lies between two ends of sashes at the corner of the block below, where there is one, so that every
/// seam is straight.
Polygon side_triangle(const Side& side, int k, const Lattice& lattice, bool outer, bool block_below) {
  const double d = lattice.diagonal();
  const double h = lattice.sash() * kHalfRoot;
  const double from = (k + 0.5) * d;
  const double middle = (k + 1) * d;
  const double to = (k + 1.5) * d;
  if (outer) return {side.at(from, -h), side.at(to, -h), side.at(middle, d / 2 - h)};
  Polygon polygon = {side.at(from, 0), side.at(to, 0), side.at(to, h)};
  if (block_below) {
    polygon.push_back(side.at(middle, d / 2 + h));
  } else {
    polygon.push_back(side.at(middle + h, d / 2));
    polygon.push_back(side.at(middle - h, d / 2));
  }
  polygon.push_back(side.at(from, h));
  return without_repeats(polygon);
}

Polygon corner_triangle(const Side& side, const Lattice& lattice, bool outer) {
  const double half = lattice.diagonal() / 2;
  const double h = lattice.sash() * kHalfRoot;
  if (outer) return {side.at(-h, -h), side.at(half, -h), side.at(-h, half)};
  return without_repeats({side.at(0, 0), side.at(half, 0), side.at(half, h), side.at(h, half), side.at(0, half)});
}

void add_setting_triangles(Plan& plan, const Setting& setting, const Lattice& lattice) {
  const bool outer = setting.sashing && setting.sashing->outer;
  const bool block_below = setting.rows > 1 && setting.columns > 1;
  const double m = lattice.margin();
  const double right = lattice.width().inches() - m;
  const double bottom = lattice.height().inches() - m;
  const auto add = [&](Polygon polygon) {
    plan.frame.push_back({FramePatch::Role::filler, 0, setting.filler, std::move(polygon)});
  };
  const Side top{m, m, 1, 0, 0, 1};
  const Side foot{m, bottom, 1, 0, 0, -1};
  const Side left{m, m, 0, 1, 1, 0};
  const Side far{right, m, 0, 1, -1, 0};
  for (int k = 0; k + 1 < setting.columns; ++k) {
    add(side_triangle(top, k, lattice, outer, block_below));
    add(side_triangle(foot, k, lattice, outer, block_below));
  }
  for (int k = 0; k + 1 < setting.rows; ++k) {
    add(side_triangle(left, k, lattice, outer, block_below));
    add(side_triangle(far, k, lattice, outer, block_below));
  }
  add(corner_triangle(top, lattice, outer));
  add(corner_triangle({right, m, -1, 0, 0, 1}, lattice, outer));
  add(corner_triangle({right, bottom, -1, 0, 0, -1}, lattice, outer));
  add(corner_triangle(foot, lattice, outer));
}

void add_half_blocks(Plan& plan, const Setting& setting, const Lattice& lattice) {
  const double width = (lattice.block_width() - lattice.sash()) / 2;
  const double m = lattice.margin();
  for (int row = 1; row < setting.rows; row += 2) {
    const Length top = in(m + row * (lattice.block_height() + lattice.sash()));
    for (const double left : {m, lattice.width().inches() - m - width}) {
      plan.frame.push_back({FramePatch::Role::filler, 0, setting.filler,
                            rectangle(in(left), top, in(width), in(lattice.block_height()))});
    }
  }
}

/// Adds the border's pieces around the box that the top is so far, whose top left corner is (offset, offset).
void add_border(Plan& plan, const Border& border, int part, Length offset, Length width, Length height) {
  const Length w = border.width;
  const Length left = offset - w;
  const Length right = offset + width;
  const Length below = offset + height;
  const auto add = [&](FramePatch::Role role, int print, Polygon polygon) {
    plan.frame.push_back({role, part, print, std::move(polygon)});
  };
  const auto strip = [&](Polygon polygon) { add(FramePatch::Role::border, border.print, std::move(polygon)); };
  if (border.corners == Border::Corners::mitred) {
    strip({{left, left}, {offset, offset}, {offset, below}, {left, below + w}});
    strip({{right, offset}, {right + w, left}, {right + w, below + w}, {right, below}});
    strip({{left, left}, {right + w, left}, {right, offset}, {offset, offset}});
    strip({{offset, below}, {right, below}, {right + w, below + w}, {left, below + w}});
    return;
  }
  strip(rectangle(left, offset, w, height));
  strip(rectangle(right, offset, w, height));
  const bool squares = border.corners == Border::Corners::cornerstone;
  const Length across_left = squares ? offset : left;
  const Length across_width = squares ? width : width + 2 * w;
  strip(rectangle(across_left, left, across_width, w));
  strip(rectangle(across_left, below, across_width, w));
  if (!squares) return;
  for (const Point corner : {Point{left, left}, {right, left}, {right, below}, {left, below}}) {
    add(FramePatch::Role::border_corner, border.cornerstone, rectangle(corner.x, corner.y, w, w));
  }
}

}  // namespace

Lattice::Lattice(const Setting& setting, Length block_width, Length block_height)
    : kind_(setting.kind),
      block_width_(block_width.inches()),
      block_height_(block_height.inches()),
      sash_(setting.sashing ? setting.sashing->width.inches() : 0) {
  const bool outer = setting.sashing && setting.sashing->outer;
  if (kind_ == Setting::Kind::on_point) {
    diagonal_ = (block_width_ + sash_) / kHalfRoot;
    margin_ = outer ? sash_ * kHalfRoot : 0;
    width_ = in(setting.columns * diagonal_ + 2 * margin_);
    height_ = in(setting.rows * diagonal_ + 2 * margin_);
    return;
  }
  margin_ = outer ? sash_ : 0;
  width_ = in(setting.columns * (block_width_ + sash_) - sash_ + 2 * margin_);
  height_ = in(setting.rows * (block_height_ + sash_) - sash_ + 2 * margin_);
}

Point Lattice::at(double along, double across, double inches_along, double inches_across) const {
  const double u = along * (block_width_ + sash_) + inches_along;
  const double v = across * (block_height_ + sash_) + inches_across;
  if (kind_ == Setting::Kind::on_point) {
    return {in(margin_ + diagonal_ / 2 + (u - v) * kHalfRoot), in(margin_ + diagonal_ / 2 + (u + v) * kHalfRoot)};
  }
  return {in(margin_ + block_width_ / 2 + u), in(margin_ + block_height_ / 2 + v)};
}

Point Lattice::centre(int row, int column) const {
  switch (kind_) {
    case Setting::Kind::on_point:
      return {in(margin_ + (column + (row % 2 == 1 ? 1.0 : 0.5)) * diagonal_), in(margin_ + (row + 1) * diagonal_ / 2)};
    case Setting::Kind::brick:
      return at(column + (row % 2 == 1 ? 0.5 : 0.0), row);
    default:
      return at(column, row);
  }
}

void add_fillers(Plan& plan, const Setting& setting, const Lattice& lattice) {
  if (setting.kind == Setting::Kind::on_point) add_setting_triangles(plan, setting, lattice);
  if (setting.kind == Setting::Kind::brick) add_half_blocks(plan, setting, lattice);
}

void add_borders(Plan& plan, const Setting& setting) {
  Length all;
  for (const Border& border : setting.borders) all = all + border.width;
  for (Cell& cell : plan.cells) cell.centre = cell.centre + Point{all, all};
  for (FramePatch& patch : plan.frame) patch.polygon = shifted(patch.polygon, {all, all});

  Length offset = all;
  for (std::size_t i = 0; i < setting.borders.size(); ++i) {
    add_border(plan, setting.borders[i], static_cast<int>(i), offset, plan.width, plan.height);
    const Length w = setting.borders[i].width;
    plan.width = plan.width + 2 * w;
    plan.height = plan.height + 2 * w;
    offset = offset - w;
  }
}

}  // namespace farflung::setting
