#include "draw/compare.hpp"

#include <algorithm>

#include "draw/text.hpp"

namespace farflung::draw {
namespace {

constexpr double kLead = 1.3;      ///< from line to line, ems
constexpr double kSmaller = 0.85;  ///< notes beside the caption

/// What stands below one exhibit, in lines as they are drawn.
struct Words {
  std::string caption;
  std::vector<std::string> notes;
};

struct Grid {
  int columns = 1, rows = 1;
  double scale = 0;  ///< units of the sheet for one of the exhibits'
  double words = 0;  ///< height of the highest words
  std::vector<Words> below;
};

std::vector<Words> words_within(const std::vector<Exhibit>& exhibits, double width, double size) {
  std::vector<Words> words;
  for (const Exhibit& exhibit : exhibits) {
    words.push_back({shortened(exhibit.caption, size, width, true), {}});
    for (const std::string& note : exhibit.notes) {
      for (std::string& line : broken(note, kSmaller * size, width)) {
        words.back().notes.push_back(shortened(line, kSmaller * size, width));
      }
    }
  }
  return words;
}

double words_height(const std::vector<Words>& words, double size) {
  std::size_t notes = 0;
  for (const Words& one : words) notes = std::max(notes, one.notes.size());
  return size * (1.6 + kSmaller * kLead * static_cast<double>(notes) + 0.6);
}

/// The number of columns at which the pictures come out largest.
Grid grid_for(const std::vector<Exhibit>& exhibits, double width, double height, double size) {
  const double gap = 1.6 * size;
  double widest = 0, highest = 0;
  for (const Exhibit& exhibit : exhibits) {
    widest = std::max(widest, exhibit.display.width);
    highest = std::max(highest, exhibit.display.height);
  }
  Grid best;
  const int count = static_cast<int>(exhibits.size());
  for (int columns = 1; columns <= count; ++columns) {
    const int rows = (count + columns - 1) / columns;
    const std::vector<Words> below = words_within(exhibits, width / columns - gap, size);
    const double words = words_height(below, size);
    const double scale = std::min((width / columns - gap) / widest, (height / rows - gap - words) / highest);
    if (scale > best.scale + 1e-12) best = {columns, rows, scale, words, below};
  }
  return best;
}

void add_words(Display& sheet, const Words& words, Vec at, double size) {
  double base = at.y + 1.3 * size;
  sheet.add(Text{words.caption, {at.x, base}, size, Anchor::left, true, kInk, Role::heading});
  const double small = kSmaller * size;
  for (const std::string& note : words.notes) {
    base += kLead * small;
    sheet.add(Text{note, {at.x, base}, small, Anchor::left, false, kFaint, Role::caption});
  }
}

}  // namespace

Display side_by_side(const std::vector<Exhibit>& exhibits, double width, double height, double size) {
  Display sheet;
  sheet.width = width;
  sheet.height = height;
  if (exhibits.empty()) return sheet;
  const double gap = 1.6 * size;
  const Grid grid = grid_for(exhibits, width, height, size);
  const double cell_width = width / grid.columns;
  double highest = 0;
  for (const Exhibit& exhibit : exhibits) highest = std::max(highest, grid.scale * exhibit.display.height);
  const double cell_height = std::min(height / grid.rows, highest + grid.words + gap);
  sheet.height = grid.rows * cell_height;
  for (std::size_t i = 0; i < exhibits.size() && i < grid.below.size(); ++i) {
    const Exhibit& exhibit = exhibits[i];
    const int row = static_cast<int>(i) / grid.columns;
    const int column = static_cast<int>(i) % grid.columns;
    const double left = column * cell_width + gap / 2;
    const Vec at = {left, row * cell_height + gap / 2 + highest - grid.scale * exhibit.display.height};
    sheet.add(Opening{Opening::Kind::figure, exhibit.says.empty() ? exhibit.caption : exhibit.says});
    place(sheet, exhibit.display, at, grid.scale);
    sheet.add(Closing{});
    add_words(sheet, grid.below[i], {left, row * cell_height + gap / 2 + highest}, size);
  }
  return sheet;
}

}  // namespace farflung::draw
