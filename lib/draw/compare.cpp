#include "draw/compare.hpp"

#include <algorithm>

#include "draw/text.hpp"

namespace farflung::draw {
namespace {

constexpr double kLead = 1.3;  ///< from line to line, ems

struct Grid {
  int columns = 1, rows = 1;
  double scale = 0;  ///< units of the sheet for one of the exhibits'
};

double words_height(const std::vector<Exhibit>& exhibits, double size) {
  std::size_t notes = 0;
  for (const Exhibit& exhibit : exhibits) notes = std::max(notes, exhibit.notes.size());
  return size * (1.6 + 0.85 * kLead * static_cast<double>(notes) + 0.6);
}

/// The number of columns at which the pictures come out largest.
Grid grid_for(const std::vector<Exhibit>& exhibits, double width, double height, double words, double gap) {
  double widest = 0, highest = 0;
  for (const Exhibit& exhibit : exhibits) {
    widest = std::max(widest, exhibit.display.width);
    highest = std::max(highest, exhibit.display.height);
  }
  Grid best;
  const int count = static_cast<int>(exhibits.size());
  for (int columns = 1; columns <= count; ++columns) {
    const int rows = (count + columns - 1) / columns;
    const double scale = std::min((width / columns - gap) / widest, (height / rows - gap - words) / highest);
    if (scale > best.scale + 1e-12) best = {columns, rows, scale};
  }
  return best;
}

void add_words(Display& sheet, const Exhibit& exhibit, Vec at, double width, double size) {
  double base = at.y + 1.3 * size;
  sheet.add(
      Text{shortened(exhibit.caption, size, width, true), {at.x, base}, size, Anchor::left, true, kInk, Role::heading});
  const double small = 0.85 * size;
  for (const std::string& note : exhibit.notes) {
    base += kLead * small;
    sheet.add(Text{shortened(note, small, width), {at.x, base}, small, Anchor::left, false, kFaint, Role::caption});
  }
}

}  // namespace

Display side_by_side(const std::vector<Exhibit>& exhibits, double width, double height, double size) {
  Display sheet;
  sheet.width = width;
  sheet.height = height;
  if (exhibits.empty()) return sheet;
  const double gap = 1.6 * size;
  const double words = words_height(exhibits, size);
  const Grid grid = grid_for(exhibits, width, height, words, gap);
  const double cell_width = width / grid.columns;
  double highest = 0;
  for (const Exhibit& exhibit : exhibits) highest = std::max(highest, grid.scale * exhibit.display.height);
  const double cell_height = std::min(height / grid.rows, highest + words + gap);
  for (std::size_t i = 0; i < exhibits.size(); ++i) {
    const Exhibit& exhibit = exhibits[i];
    const int row = static_cast<int>(i) / grid.columns;
    const int column = static_cast<int>(i) % grid.columns;
    const double wide = grid.scale * exhibit.display.width;
    const Vec at = {column * cell_width + (cell_width - wide) / 2,
                    row * cell_height + gap / 2 + highest - grid.scale * exhibit.display.height};
    sheet.add(Opening{Opening::Kind::figure, exhibit.says.empty() ? exhibit.caption : exhibit.says});
    place(sheet, exhibit.display, at, grid.scale);
    sheet.add(Closing{});
    // Words may be a little wider than a narrow picture, never wider than its cell.
    add_words(sheet, exhibit, {at.x, row * cell_height + gap / 2 + highest},
              column * cell_width + cell_width - gap / 2 - at.x, size);
  }
  return sheet;
}

}  // namespace farflung::draw
