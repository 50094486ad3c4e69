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

/// To which side of its row a setting triangle's square corner lies, as the row is drawn, laid level.
enum class SquareCorner { above, below };

/// Whether the triangle is as long as a block and the row of sashes above it, or the one below it. With sashing all
/// around, its square corner lies at the blocks and its sharp point at the end of the sashes; else the other way about.
const char* sashes_beside(SquareCorner corner, bool outer) {
  return (corner == SquareCorner::below) == outer ? "above" : "below";
}

/// Steps along and across the diagonal rows from cell R1 C1, whose row is 0.
std::pair<double, double> on_lattice(const Plan& plan, Point point) {
  const Point from = point - plan.cells.front().centre;
  const double step = plan.pitch * std::sqrt(2.0);
  return {(from.x.inches() + from.y.inches()) / step, (from.y.inches() - from.x.inches()) / step};
}

SquareCorner square_corner(const Plan& plan, const RowPlace& triangle) {
  const double across = on_lattice(plan, middle_of(plan.frame[triangle.frame_patch].polygon)).second;
  return across > std::round(across) ? SquareCorner::below : SquareCorner::above;
}

/// Whether a row's triangles ask for a row of sashes each, one above the row and one below it.
bool has_opposed_triangles(const Plan& plan, const SewingRow& row) {
  const RowPlace &first = row.places.front(), &last = row.places.back();
  return row.places.size() > 1 && first.name == "setting triangle" && last.name == "setting triangle" &&
         square_corner(plan, first) != square_corner(plan, last);
}

bool has_sashes(const Plan& plan) {
  return std::any_of(plan.frame.begin(), plan.frame.end(),
                     [](const FramePatch& patch) { return patch.role == FramePatch::Role::sashing; });
}

/// In a sentence: "R1 C3", "the setting triangle".
std::string said(const RowPlace& place) { return (place.kind == RowPlace::Kind::filler ? "the " : "") + place.name; }

class Rows {
 public:
  Rows(const quilt::Quilt& quilt, const Plan& plan) : quilt_(quilt), plan_(plan) {
    for (std::size_t cell = 0; cell < plan.cells.size(); ++cell) add_cell(static_cast<int>(cell));
    for (std::size_t i = 0; i < plan.frame.size(); ++i) {
      if (plan.frame[i].role == FramePatch::Role::filler) add_filler(static_cast<int>(i));
      if (plan.frame[i].role == FramePatch::Role::sashing) add_sash(static_cast<int>(i));
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
      if (const auto sashes = sashes_.find(number); sashes != sashes_.end()) row.sashes = sashes->second;
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
    const auto [along, across] = on_lattice(plan_, here.centre);
    standings_.push_back({static_cast<int>(std::lround(across)), along, std::move(place)});
  }

  void add_filler(int index) {
    const Polygon& polygon = plan_.frame[index].polygon;
    RowPlace place{RowPlace::Kind::filler, -1, index, filler_name(polygon, plan_.on_point)};
    const Point middle = middle_of(polygon);
    if (plan_.on_point) {
      const auto [along, across] = on_lattice(plan_, middle);
      standings_.push_back({static_cast<int>(std::lround(across)), along, std::move(place)});
      return;
    }
    standings_.push_back({cell_beside(middle).row, middle.x.inches(), std::move(place)});
  }

  /// A sash that lies in a row; those between rows lie half a step off.
  void add_sash(int index) {
    const Point middle = middle_of(plan_.frame[index].polygon);
    if (plan_.on_point) {
      const double across = on_lattice(plan_, middle).second;
      if (std::abs(across - std::round(across)) < 0.25) sashes_[static_cast<int>(std::lround(across))].push_back(index);
      return;
    }
    const setting::Cell& cell = cell_beside(middle);
    if (std::abs((cell.centre.y - middle.y).inches()) < plan_.block_height.inches() / 4) {
      sashes_[cell.row].push_back(index);
    }
  }

  /// The first cell of the row that lies nearest to this height.
  const setting::Cell& cell_beside(Point middle) const {
    const auto off = [&](const setting::Cell& cell) { return std::abs((cell.centre.y - middle.y).inches()); };
    const setting::Cell* nearest = &plan_.cells.front();
    for (const setting::Cell& cell : plan_.cells) {
      if (off(cell) < off(*nearest) - 1e-6) nearest = &cell;
    }
    return *nearest;
  }

  /// Odd rows are pressed one way, even rows the other, so that they nest; with sashing all to the sash.
  void finish(SewingRow& row, std::size_t index) const {
    const char* before = plan_.on_point ? "lower right edge of " : "right edge of ";
    const char* after = plan_.on_point ? " to the upper left edge of " : " to the left edge of ";
    const bool sash = has_sashes(plan_);
    for (std::size_t i = 0; i + 1 < row.places.size(); ++i) {
      row.seams.push_back(before + said(row.places[i]) + after + said(row.places[i + 1]) +
                          (sash ? sash_between(row, i) : ""));
    }
    if (row.places.empty()) return;
    row.press = sash             ? "press toward the sashes"
                : index % 2 == 0 ? "press the seams to the right"
                                 : "press the seams to the left";
    const RowPlace &first = row.places.front(), &last = row.places.back();
    row.stack =
        "Pick up from the far end, so that " + said(first) + " lies on top and " +
        (last.kind == RowPlace::Kind::filler && last.name == first.name ? "the other " + last.name : said(last)) +
        " at the bottom; one clip at the " + "top edge of " + said(first) +
        " keeps the stack as it hung. Back on the wall: from the top of the stack, left to right.";
  }

  /// What the words of a row's k-th seam add where there is sashing: on point, what has to be sewn on before a
  /// triangle.
  std::string sash_between(const SewingRow& row, std::size_t k) const {
    const bool outer = quilt_.setting.sashing->outer;
    if (!plan_.on_point) {
      return ", a sash between" + (outer ? end_sashes(k == 0, k + 2 == row.places.size()) : std::string());
    }
    const RowPlace& place = row.places[row.places[k].kind == RowPlace::Kind::filler ? k : k + 1];
    if (place.kind != RowPlace::Kind::filler) return ", a sash between";
    const std::string words = outer ? ", a sash between" : "";
    if (place.name == "setting corner") return words + ", last of all, when the rows are joined";
    return words + ", once the row of sashes " + sashes_beside(square_corner(plan_, place), outer) +
           " is sewn to this row";
  }

  static std::string end_sashes(bool first, bool last) {
    if (first && last) return ", and one at each end";
    return first ? ", and one at the left end" : last ? ", and one at the right end" : "";
  }

  const quilt::Quilt& quilt_;
  const Plan& plan_;
  std::vector<Standing> standings_;
  std::map<int, std::vector<int>> sashes_;  ///< by row
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

/// The rows of sashes, between rows of blocks and, where it runs around them, outside.
std::string sash_rows_step(const setting::Sashing& sashing) {
  const bool running = sashing.cornerstone == block::kNone;
  if (running && sashing.outer) {
    return "Sew a long sash above the first row and one below every row; mark on it where the next row's seams fall.";
  }
  if (running) return "Sew a long sash along each row but the last; mark on it where the next row's seams fall.";
  return std::string("Sew each row of sashes and cornerstones") +
         (sashing.outer ? ", those above the first row and below the last too" : "") +
         "; its seams meet those of the rows and nest.";
}

/// On point with sashing: a triangle is as long as a block and a row of sashes, so these are sewn together first.
void add_sashed_diagonal_steps(std::vector<std::string>& steps, const SewingOrder& order, const Plan& plan,
                               const setting::Sashing& sashing) {
  const bool outer = sashing.outer;
  steps.push_back(std::string("Sew the blocks of each diagonal row to one another, a sash between") +
                  (outer ? " and at both ends." : "."));
  steps.emplace_back("Press every seam toward the sash.");
  steps.push_back((sashing.cornerstone == block::kNone ? std::string("Take a long sash")
                                                       : std::string("Sew a row of sashes and cornerstones")) +
                  " for between every two rows" + (outer ? ", and one for outside the first and the last" : "") +
                  "; sew each to the " + (outer ? "longer" : "shorter") +
                  " of the rows beside it, or where these are equally long to either.");
  steps.push_back(
      std::string("Now sew the setting triangles on, each across the end of a row and its sashes; line its ") +
      (outer ? "square corner up with the blocks: its sharp point reaches to the end of the sashes."
             : "square corner up with the sashes and let its sharp point run over."));
  if (std::any_of(order.rows.begin(), order.rows.end(),
                  [&](const SewingRow& row) { return has_opposed_triangles(plan, row); })) {
    steps.emplace_back(
        "A row whose two triangles point opposite ways has a row of sashes on either side: leave the last hand's "
        "breadth of one of these seams open until the triangle at that end is on, then close it.");
  }
  steps.emplace_back("Join rows in twos, the twos in fours, and so on; pin at every crossing.");
  steps.emplace_back("Sew on the four corners last; trim the edge a seam allowance outside the points.");
}

void add_level_steps(std::vector<std::string>& steps, const Setting& setting) {
  steps.push_back(std::string("Sew the blocks of each row to one another, ") +
                  (!setting.sashing         ? "from C1 on."
                   : setting.sashing->outer ? "from C1 on, a sash between and at both ends."
                                            : "from C1 on, a sash between."));
  if (setting.sashing) {
    steps.emplace_back("Press every seam toward the sash.");
    steps.push_back(sash_rows_step(*setting.sashing));
  } else {
    steps.emplace_back("Press the seams between blocks one way in odd rows and the other way in even rows.");
  }
  steps.emplace_back("Join rows in twos, the twos in fours, and so on; pin at every crossing.");
}

void add_diagonal_steps(std::vector<std::string>& steps) {
  steps.emplace_back(
      "Sew each diagonal row, its setting triangles at the ends; line their square corners up with the blocks and let "
      "the sharp points run over.");
  steps.emplace_back("Press the seams between blocks one way in odd rows and the other way in even rows.");
  steps.emplace_back("Join rows in twos, the twos in fours, and so on; pin at every crossing.");
  steps.emplace_back("Sew on the corners that are left; trim the edge a seam allowance outside the points.");
}

std::vector<std::string> steps_of(const SewingOrder& order, const Plan& plan, const Setting& setting) {
  std::vector<std::string> steps;
  if (!order.diagonal) {
    add_level_steps(steps, setting);
  } else if (has_sashes(plan)) {
    add_sashed_diagonal_steps(steps, order, plan, *setting.sashing);
  } else {
    add_diagonal_steps(steps);
  }
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
  order.steps = steps_of(order, plan, quilt.setting);
  return order;
}

}  // namespace farflung::cloth
