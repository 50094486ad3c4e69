#include "sheet/map_cut.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "draw/pieces.hpp"
#include "draw/text.hpp"
#include "sheet/marks.hpp"

namespace farflung::sheet {
namespace {

using block::kNone;
using draw::Vec;

constexpr double kLeastCell = 1.5 * kPointsPerInch;    ///< the width of a cell on paper
constexpr double kLeastOfOne = 1.12 * kPointsPerInch;  ///< where each block is one patch: its code and names, no more
constexpr double kMostCell = 3.5 * kPointsPerInch;
constexpr double kEntry = 21;      ///< the pitch of a list with names, two lines of which stand beside a code
constexpr double kCodeEntry = 18;  ///< of a list of codes

/// Whether every block is one piece of cloth, as in a postage stamp quilt.
bool is_of_single_patches(const quilt::Quilt& quilt) {
  return std::all_of(quilt.patterns.begin(), quilt.patterns.end(),
                     [](const block::Pattern& pattern) { return pattern.patches.size() == 1; });
}

/// Where the pages begin, and one past the last: no part larger than `most`, the larger ones first.
std::vector<int> parts(int all, int most) {
  const int count = std::max(1, (all + most - 1) / most);
  std::vector<int> begins = {0};
  for (int i = 0; i < count; ++i) begins.push_back(begins.back() + all / count + (i < all % count ? 1 : 0));
  return begins;
}

double widest_code(const quilt::Quilt& quilt) {
  double widest = 0;
  for (std::size_t i = 0; i < quilt.prints.size(); ++i) {
    widest = std::max(widest, draw::width_of(code_of(quilt, static_cast<int>(i)), kCodeSize, true));
  }
  return widest;
}

/// Of a block as it is drawn, its height over its width.
double proportion(const Book& book) {
  return book.plan.on_point ? 1 : book.plan.block_height.inches() / book.plan.block_width.inches();
}

/// The height of a cell so wide whose block is as wide as the cell lets it be.
double height_needed(const Book& book, double cell_width) {
  const double block = (cell_width - 2 * (kArrow + kCellMargin)) * std::min(proportion(book), 1.5);
  return 2 * kCellMargin + kCaption + 2 * kArrow + block + list_within(book.quilt, cell_width).height();
}

/// Points on paper for an inch of cloth in a cell.
double block_scale(const Book& book, const CellGrid& grid) {
  const draw::Box lies = draw::box_of(draw::outline_of_cell(book.plan, 0));
  const double list = list_within(book.quilt, grid.width).height();
  const draw::Box room = block_room({0, 0, grid.width, grid.height}, list);
  return std::min(room.width / lies.width, room.height / lies.height);
}

/// The largest patch of a slot as it lies on the wall, turned so.
draw::Outline largest_patch(const Book& book, const block::Pattern& pattern, int slot, Turn turn) {
  draw::Outline largest;
  for (const block::Patch& patch : pattern.patches) {
    if (patch.slot != slot) continue;
    draw::Outline outline = draw::inches(book.plan.top_from_block(patch.polygon, 0, turn));
    if (draw::area(outline) > draw::area(largest) + 1e-6) largest = std::move(outline);
  }
  return largest;
}

/// Whether every slot of the pattern has, however turned, a patch that takes a plate of this size.
bool plates_fit(const Book& book, const block::Pattern& pattern, const draw::Box& plate, double scale) {
  for (std::size_t slot = 0; slot < pattern.slots.size(); ++slot) {
    if (pattern.slots[slot].print != kNone) continue;
    for (const Turn turn : pattern.turns) {
      draw::Outline patch = largest_patch(book, pattern, static_cast<int>(slot), turn);
      for (Vec& p : patch) p = scale * p;
      if (!patch.empty() && !draw::spot_within(patch, plate.width + 2, plate.height + 2).fits) return false;
    }
  }
  return true;
}

/// The same of every pattern, for the widest code in the bundle.
bool plates_fit(const Book& book, const CellGrid& grid) {
  draw::Box widest;
  for (std::size_t i = 0; i < book.quilt.prints.size(); ++i) {
    const draw::Box plate = plate_around(code_of(book.quilt, static_cast<int>(i)), {0, 0});
    if (plate.width > widest.width) widest = plate;
  }
  const double scale = block_scale(book, grid);
  return std::all_of(book.quilt.patterns.begin(), book.quilt.patterns.end(),
                     [&](const block::Pattern& pattern) { return plates_fit(book, pattern, widest, scale); });
}

bool is_offset(const Book& book) { return book.quilt.setting.kind != setting::Setting::Kind::straight; }

/// Rows to a page that holds so many columns, no block less than `share` as tall as its cell is wide for. A block that
/// is wide and low, or holds few prints, leaves room for a fourth row; many prints for two only. Those of one patch lie
/// as closely down the page as across it.
int most_rows(const Book& book, int columns, double share) {
  const double height = room_of(book.paper).height - kColumnNames - kLegend;
  const double needed = height_needed(book, grid_of(book, columns, 1).width);
  return std::clamp(static_cast<int>(height / (share * needed)), 1, is_of_single_patches(book.quilt) ? 6 : 4);
}

int largest(const std::vector<int>& begins) { return begins[1] - begins[0]; }
int last(const std::vector<int>& begins) { return begins.back() - begins[begins.size() - 2]; }

/// Takes a last column that would stand alone on its pages, beside as much air, out of the parts.
void gather_last_column(const Book& book, MapCut& cut) {
  if (largest(cut.columns) != 2 || last(cut.columns) != 1) return;
  cut.at_once = 2 * static_cast<std::size_t>(largest(cut.rows));
  cut.columns.pop_back();
  for (std::size_t i = 0; i < book.plan.cells.size(); ++i) {
    if (book.plan.cells[i].column == cut.columns.back()) cut.gathered.push_back(static_cast<int>(i));
  }
}

/// How many parts of the last rows find room on one page, every patch with its code as on the others.
int bands_of(const Book& book, const MapCut& cut) {
  const int bands = std::min(largest(cut.rows) / last(cut.rows), static_cast<int>(cut.columns.size()) - 1);
  const CellGrid grid = grid_of(book, largest(cut.columns), bands * last(cut.rows), bands);
  return bands > 1 && plates_fit(book, grid) ? bands : 1;
}

/// A map of more pages is no help at the wall. Where so many are needed for every patch to bear its code, it bears
/// those that there is room for: the list under each block names them all.
constexpr std::size_t kMostPages = 24;

struct Choice {
  MapCut cut;
  double scale = 0;
};

/// Fewer pages first, then larger blocks; up to `enough` pages count alike.
bool has_fewer_pages(const Choice& a, const Choice& b, std::size_t enough = 0) {
  const auto pages = [enough](const Choice& choice) { return std::max(choice.cut.pages(), enough); };
  return pages(a) < pages(b) || (pages(a) == pages(b) && a.scale > b.scale + 1e-6);
}

}  // namespace

EntryList list_within(const quilt::Quilt& quilt, double cell_width) {
  std::size_t most = 1;
  for (std::size_t i = 0; i < quilt.blocks.size(); ++i) {
    most = std::max(most, prints_dealt(quilt, static_cast<int>(i)).size());
  }
  const int prints = static_cast<int>(most);
  if (prints <= 3) return {prints, 1, kEntry};
  const double entry = kCodeHeight + 3 + widest_code(quilt) + 5;
  const int columns = std::clamp(static_cast<int>((cell_width - 2 * kCellMargin) / entry), 1, prints <= 6 ? 2 : 3);
  return {(prints + columns - 1) / columns, columns, columns == 1 ? kEntry : kCodeEntry};
}

draw::Box block_room(const draw::Box& cell, double list) {
  const draw::Box box = cell.inset(kCellMargin);
  return {box.left + kArrow, box.top + kCaption + kArrow, box.width - 2 * kArrow,
          box.height - kCaption - list - 2 * kArrow};
}

std::size_t MapCut::pages() const {
  const std::size_t across = columns.size() - 1;
  const std::size_t of_last_rows = (across + static_cast<std::size_t>(bands) - 1) / static_cast<std::size_t>(bands);
  return (rows.size() - 2) * across + of_last_rows + (gathered.size() + at_once - 1) / at_once;
}

CellGrid grid_of(const Book& book, int columns, int rows, int bands) {
  const draw::Box room = room_of(book.paper);
  CellGrid grid;
  grid.width = std::min((room.width - kRowNames) / (columns + (is_offset(book) ? 0.5 : 0)), kMostCell);
  grid.indent = is_offset(book) ? grid.width / 2 : 0;
  grid.height = std::min((room.height - bands * kColumnNames - kLegend) / rows, 1.25 * height_needed(book, grid.width));
  return grid;
}

MapCut cut_of(const Book& book) {
  int rows = 0, columns = 0;
  for (const setting::Cell& cell : book.plan.cells) {
    rows = std::max(rows, cell.row + 1);
    columns = std::max(columns, cell.column + 1);
  }
  const double least = is_of_single_patches(book.quilt) ? kLeastOfOne : kLeastCell;
  const double width = room_of(book.paper).width - kRowNames - (is_offset(book) ? least / 2 : 0);
  const int most = std::max(1, static_cast<int>(width / least));
  const auto cut_with = [&](int across, int down) { return MapCut{parts(rows, down), parts(columns, across)}; };
  const auto rows_beside = [&](int across, double share) {
    return most_rows(book, largest(parts(columns, across)), share);
  };
  std::optional<Choice> best, shorter;
  for (int across = most; across >= 2; --across) {
    const int down_at_most = rows_beside(across, 0.75);
    for (int down = down_at_most; down >= std::min(2, down_at_most); --down) {
      MapCut cut = cut_with(across, down);
      const CellGrid grid = grid_of(book, largest(cut.columns), largest(cut.rows));
      const bool fit = plates_fit(book, grid);
      if (fit) gather_last_column(book, cut);
      if (fit) cut.bands = bands_of(book, cut);
      const Choice choice = {cut, block_scale(book, grid)};
      if (fit && (!best || has_fewer_pages(choice, *best))) best = choice;
      if (!shorter || has_fewer_pages(choice, *shorter, kMostPages)) shorter = choice;
    }
  }
  const std::size_t pages = best ? best->cut.pages() : 0;
  if (best && (pages <= kMostPages || 2 * shorter->cut.pages() > pages)) return best->cut;
  return best ? shorter->cut : cut_with(most, rows_beside(most, 0.88));
}

}  // namespace farflung::sheet
