#include "cloth/demand.hpp"

#include <algorithm>

namespace farflung::cloth {
namespace {

std::string letter_of(int index) {
  std::string name;
  for (int left = index; left >= 0; left = left / 26 - 1) {
    name.insert(name.begin(), static_cast<char>('A' + left % 26));
  }
  return name;
}

/// Lays the demand on the sheets in the order given, each as full as can be.
Attempt laid_in_order(Demand demand, const std::vector<Sheet>& sheets, const Effort& effort) {
  Attempt attempt;
  std::vector<Wanted> left = demand.wanted;
  for (const Sheet& sheet : sheets) {
    if (std::all_of(left.begin(), left.end(), [](const Wanted& item) { return item.count == 0; })) break;
    Layout layout = best_layout(sheet.width, sheet.height, left, effort);
    for (const Placed& placed : layout.placed) --left[placed.wanted].count;
    if (!layout.placed.empty()) attempt.sheets.emplace_back(sheet, std::move(layout));
  }
  for (const Wanted& item : left) attempt.missing.push_back(item.count);
  attempt.demand = std::move(demand);
  return attempt;
}

bool all_alike(const std::vector<Sheet>& sheets) {
  return std::all_of(sheets.begin(), sheets.end(), [&](const Sheet& sheet) {
    return sheet.width == sheets.front().width && sheet.height == sheets.front().height;
  });
}

/// True where there cannot be enough, whatever the plan: more area wanted than there is, or a piece larger than any.
bool plainly_short(const Demand& demand, const std::vector<Sheet>& sheets) {
  std::int64_t room = 0;
  for (const Sheet& sheet : sheets) room += static_cast<std::int64_t>(sheet.width) * sheet.height;
  for (const Wanted& item : demand.wanted) {
    room -= static_cast<std::int64_t>(item.count) * item.width * item.height;
    const bool fits = std::any_of(sheets.begin(), sheets.end(), [&](const Sheet& sheet) {
      return (item.width <= sheet.width && item.height <= sheet.height) ||
             (item.turnable && item.height <= sheet.width && item.width <= sheet.height);
    });
    if (!fits) return true;
  }
  return room < 0;
}

}  // namespace

void DemandMaker::add_line(int index) {
  const CutLine& line = list_.lines[index];
  WantedPiece piece;
  piece.width = line.shape.width.cut, piece.height = line.shape.height.cut;
  piece.count = line.rectangles, piece.turnable = line.turnable;
  piece.shape = line.shape.shape, piece.lines = {index};
  piece.diagonal = diagonal_of(line);
  add(std::move(piece), line.part);
}

void DemandMaker::add_run(const Run& run, Length strip) {
  for (const Strips& strips : run.cut_from(strip, list_.ruler)) add_strips(run, strips.length, strips.count);
}

Demand DemandMaker::take() {
  const auto before = [&](int a, int b) { return list_.lines[a].part < list_.lines[b].part; };
  for (std::size_t i = 0; i < demand_.pieces.size(); ++i) {
    WantedPiece& piece = demand_.pieces[i];
    piece.letter = letter_of(static_cast<int>(i));
    std::stable_sort(piece.lines.begin(), piece.lines.end(), before);
    std::string names;
    for (const std::string& name : names_[i]) names += (names.empty() ? "" : ", ") + name;
    piece.says = said(piece.width, piece.height, list_.ruler) + ": " + names + diagonal_said(piece.diagonal);
    demand_.wanted.push_back(
        {steps_up(piece.width, list_.ruler), steps_up(piece.height, list_.ruler), piece.count, piece.turnable, 0});
  }
  return std::move(demand_);
}

void DemandMaker::add_strips(const Run& run, Length length, int count) {
  WantedPiece piece;
  piece.width = length, piece.height = run.width;
  piece.count = count, piece.turnable = run.turnable;
  piece.shape = Shape::rectangle;
  add(std::move(piece), run.part + ", to be joined");
}

void DemandMaker::add(WantedPiece piece, const std::string& name) {
  if (piece.count == 0) return;
  for (std::size_t i = 0; i < demand_.pieces.size(); ++i) {
    WantedPiece& known = demand_.pieces[i];
    const bool alike = known.width == piece.width && known.height == piece.height && known.turnable == piece.turnable &&
                       known.shape == piece.shape && known.diagonal == piece.diagonal && piece.shape != Shape::odd;
    if (!alike) continue;
    known.count += piece.count;
    known.lines.insert(known.lines.end(), piece.lines.begin(), piece.lines.end());
    names_[i].insert(name);
    return;
  }
  names_.push_back({name});
  demand_.pieces.push_back(std::move(piece));
}

std::vector<Sheet> sheets_of(const print::Print& print, Ruler ruler, int more_of_first) {
  std::vector<Sheet> sheets;
  for (std::size_t i = 0; i < print.cloth.size(); ++i) {
    const print::Cloth& cloth = print.cloth[i];
    for (int k = 0; k < cloth.count + (i == 0 ? more_of_first : 0); ++k) {
      const int width = steps_down(cloth.width, ruler);
      const int height = steps_down(cloth.length, ruler);
      if (width > 0 && height > 0) sheets.push_back({static_cast<int>(i), width, height});
    }
  }
  return sheets;
}

Attempt best_attempt(const Demand& demand, std::vector<Sheet> sheets, const Effort& effort) {
  Attempt best;
  if (sheets.empty()) {
    best.demand = demand;
    for (const Wanted& item : demand.wanted) best.missing.push_back(item.count);
    best.proven = true;
    return best;
  }
  if (all_alike(sheets)) {
    Sheets found = fewest_sheets(sheets.front().width, sheets.front().height, demand.wanted,
                                 static_cast<int>(sheets.size()), effort);
    best.demand = demand;
    best.missing = found.missing;
    for (std::size_t i = 0; i < found.layouts.size(); ++i) {
      best.sheets.emplace_back(sheets[i], std::move(found.layouts[i]));
    }
    best.proven = found.proven || total(best.missing) == 0 || plainly_short(demand, sheets);
    return best;
  }
  const auto by_area = [](const Sheet& a, const Sheet& b) {
    return static_cast<std::int64_t>(a.width) * a.height < static_cast<std::int64_t>(b.width) * b.height;
  };
  std::stable_sort(sheets.begin(), sheets.end(), by_area);
  best = laid_in_order(demand, sheets, effort);
  if (total(best.missing) > 0) {
    std::reverse(sheets.begin(), sheets.end());
    Attempt other = laid_in_order(demand, sheets, effort);
    if (other.missing_area() < best.missing_area()) best = std::move(other);
  }
  best.proven = total(best.missing) == 0 || plainly_short(demand, sheets);
  return best;
}

}  // namespace farflung::cloth
