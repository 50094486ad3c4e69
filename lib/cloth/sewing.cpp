#include "cloth/sewing.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace farflung::cloth {
namespace {

using setting::FramePatch;
using setting::Plan;
using setting::Setting;

Point middle_of(const Polygon& polygon) {
  double x = 0;
  double y = 0;
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point& a = polygon[i];
    const Point& b = polygon[(i + 1) % polygon.size()];
    const double part = a.x.inches() * b.y.inches() - b.x.inches() * a.y.inches();
    twice += part;
    x += (a.x.inches() + b.x.inches()) * part;
    y += (a.y.inches() + b.y.inches()) * part;
  }
  return {Length::inches(x / (3 * twice)), Length::inches(y / (3 * twice))};
}

std::string filler_name(const Polygon& polygon, bool on_point) {
  if (!on_point) return "half block";
  double left = 1e300, right = -1e300, top = 1e300, bottom = -1e300;
  for (const Point& p : polygon) {
    left = std::min(left, p.x.inches());
    right = std::max(right, p.x.inches());
    top = std::min(top, p.y.inches());
    bottom = std::max(bottom, p.y.inches());
  }
  const double ratio = (right - left) / (bottom - top);
  return ratio > 0.75 && ratio < 1.34 ? "setting corner" : "setting triangle";
}

/// Where a place lies in its row, and which row that is.
struct Standing {
  int row = 0;
  double along = 0;
  RowPlace place;
};

class Rows {
 public:
  Rows(const quilt::Quilt& quilt, const Plan& plan) : quilt_(quilt), plan_(plan) {
    for (std::size_t cell = 0; cell < plan.cells.size(); ++cell) add_cell(static_cast<int>(cell));
    for (std::size_t i = 0; i < plan.frame.size(); ++i) {
      if (plan.frame[i].role == FramePatch::Role::filler) add_filler(static_cast<int>(i));
    }
  }

  std::vector<SewingRow> take() {
    std::stable_sort(standings_.begin(), standings_.end(), [](const Standing& a, const Standing& b) {
      return a.row != b.row ? a.row < b.row : a.along < b.along;
    });
    std::vector<SewingRow> rows, corners;
    for (std::size_t i = 0; i < standings_.size();) {
      SewingRow row;
      bool blocks = false;
      const int number = standings_[i].row;
      for (; i < standings_.size() && standings_[i].row == number; ++i) {
        blocks = blocks || standings_[i].place.kind != RowPlace::Kind::filler;
        row.places.push_back(standings_[i].place);
      }
      (blocks ? rows : corners).push_back(std::move(row));
    }
    for (std::size_t i = 0; i < rows.size(); ++i) {
      rows[i].name = (plan_.on_point ? "diagonal row " : "row ") + std::to_string(i + 1);
      finish(rows[i], i);
    }
    for (SewingRow& corner : corners) {
      corner.name = "corner";
      rows.push_back(std::move(corner));
    }
    return rows;
  }

 private:
  void add_cell(int cell) {
    const setting::Cell& here = plan_.cells[cell];
    const bool empty = quilt_.layout.block[cell] == block::kNone;
    RowPlace place{empty ? RowPlace::Kind::empty : RowPlace::Kind::block, cell, -1, cell_name(here)};
    if (!plan_.on_point) {
      standings_.push_back({here.row, here.centre.x.inches(), std::move(place)});
      return;
    }
    const auto [along, across] = on_lattice(here.centre);
    standings_.push_back({static_cast<int>(std::lround(across)), along, std::move(place)});
  }

  void add_filler(int index) {
    const Polygon& polygon = plan_.frame[index].polygon;
    RowPlace place{RowPlace::Kind::filler, -1, index, filler_name(polygon, plan_.on_point)};
    const Point middle = middle_of(polygon);
    if (plan_.on_point) {
      const auto [along, across] = on_lattice(middle);
      standings_.push_back({static_cast<int>(std::lround(across)), along, std::move(place)});
      return;
    }
    int row = 0;
    double nearest = 1e300;
    for (const setting::Cell& cell : plan_.cells) {
      const double off = std::abs((cell.centre.y - middle.y).inches());
      if (off < nearest - 1e-6) {
        nearest = off;
        row = cell.row;
      }
    }
    standings_.push_back({row, middle.x.inches(), std::move(place)});
  }

  /// Steps along and across the diagonal rows from cell R1 C1, whose row is 0.
  std::pair<double, double> on_lattice(Point point) const {
    const Point from = point - plan_.cells.front().centre;
    const double step = plan_.pitch * std::sqrt(2.0);
    return {(from.x.inches() + from.y.inches()) / step, (from.y.inches() - from.x.inches()) / step};
  }

  /// Odd rows are pressed one way, even rows the other, so that they nest; with sashing all to the sash.
  void finish(SewingRow& row, std::size_t index) const {
    const char* before = plan_.on_point ? "lower right edge of " : "right edge of ";
    const char* after = plan_.on_point ? " to the upper left edge of " : " to the left edge of ";
    const bool sash = quilt_.setting.sashing.has_value();
    for (std::size_t i = 0; i + 1 < row.places.size(); ++i) {
      row.seams.push_back(before + row.places[i].name + after + row.places[i + 1].name +
                          (sash ? ", a sash between" : ""));
    }
    if (row.places.empty()) return;
    row.press = sash             ? "press toward the sashes"
                : index % 2 == 0 ? "press the seams to the right"
                                 : "press the seams to the left";
    row.stack = "Pick up from the far end, so that " + row.places.front().name + " lies on top and " +
                row.places.back().name + " at the bottom; one clip at the top edge of " + row.places.front().name +
                " keeps the stack as it hung. Back on the wall: from the top of the stack, left to right.";
  }

  const quilt::Quilt& quilt_;
  const Plan& plan_;
  std::vector<Standing> standings_;
};

std::vector<Section> sections_of(const Plan& plan, const Setting& setting, int side) {
  std::vector<Section> sections;
  if (setting.kind != Setting::Kind::straight || side < 1) return sections;
  const auto bounds = [&](int count) {
    const int parts = (count + side - 1) / side;
    std::vector<std::pair<int, int>> result;
    result.reserve(static_cast<std::size_t>(parts));
    for (int i = 0; i < parts; ++i) result.emplace_back(i * count / parts, (i + 1) * count / parts - 1);
    return result;
  };
  for (const auto& [top, bottom] : bounds(setting.rows)) {
    for (const auto& [left, right] : bounds(setting.columns)) {
      Section section;
      section.first_row = top;
      section.last_row = bottom;
      section.first_column = left;
      section.last_column = right;
      for (std::size_t cell = 0; cell < plan.cells.size(); ++cell) {
        const setting::Cell& here = plan.cells[cell];
        if (here.row >= top && here.row <= bottom && here.column >= left && here.column <= right) {
          section.cells.push_back(static_cast<int>(cell));
        }
      }
      section.name = "section " + std::to_string(sections.size() + 1) + " (R" + std::to_string(top + 1) + " C" +
                     std::to_string(left + 1) + " to R" + std::to_string(bottom + 1) + " C" +
                     std::to_string(right + 1) + ")";
      sections.push_back(std::move(section));
    }
  }
  return sections;
}

std::vector<std::string> steps_of(const SewingOrder& order, const Setting& setting) {
  std::vector<std::string> steps;
  steps.emplace_back(
      order.diagonal ? "Sew each diagonal row, its setting triangles at the ends; line their square corners up with "
                       "the blocks and let the sharp points run over."
                     : "Sew the blocks of each row to one another, from C1 on.");
  if (setting.sashing) {
    steps.emplace_back("Press every seam toward the sash.");
    steps.emplace_back(setting.sashing->cornerstone == block::kNone
                           ? "Sew a long sash along each row but the last; mark on it where the next row's seams fall."
                           : "Sew each row of sashes and cornerstones; its seams meet those of the rows and nest.");
  } else {
    steps.emplace_back("Press the seams between blocks one way in odd rows and the other way in even rows.");
  }
  steps.emplace_back("Join rows in twos, the twos in fours, and so on; pin at every crossing.");
  if (order.diagonal)
    steps.emplace_back("Sew on the corners that are left; trim the edge a seam allowance outside the points.");
  if (!setting.borders.empty()) {
    steps.emplace_back(
        "Measure the top through its middle, both ways, before a border is cut: cut to that, not to the edge.");
  }
  return steps;
}

}  // namespace

SewingOrder sewing_order(const quilt::Quilt& quilt, int section_side) {
  SewingOrder order;
  const Plan plan = quilt::plan_of(quilt);
  order.diagonal = plan.on_point;
  if (plan.cells.empty()) return order;
  order.rows = Rows(quilt, plan).take();
  order.sections = sections_of(plan, quilt.setting, section_side);
  order.steps = steps_of(order, quilt.setting);
  return order;
}

}  // namespace farflung::cloth
