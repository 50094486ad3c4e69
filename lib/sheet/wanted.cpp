#include "sheet/wanted.hpp"

#include <algorithm>
#include <numeric>

#include "draw/text.hpp"
#include "sheet/hatch.hpp"
#include "sheet/marks.hpp"

namespace farflung::sheet {
namespace {

using cloth::CuttingGroup;
using cloth::PrintPlan;
using draw::Anchor;
using draw::Role;
using draw::Text;

/// "A, B": the parts that a letter stands for, over all prints of the group.
std::string parts_of(const Book& book, const CuttingGroup& group, std::size_t wanted) {
  const cloth::CuttingPlans& plans = book.workroom->plans;
  std::vector<std::string> names;
  const auto note = [&](const std::string& name) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  };
  for (const int index : group.plans) {
    const cloth::WantedPiece& piece = plans.plans[index].wanted[wanted];
    for (const int line : piece.lines) note(book.workroom->list.lines[line].part);
    const std::string::size_type colon = piece.says.find(": ");
    if (piece.lines.empty() && colon != std::string::npos) note(piece.says.substr(colon + 2));
  }
  std::string words;
  for (const std::string& name : names) words += (words.empty() ? "" : ", ") + name;
  return words;
}

/// How the rectangle becomes patches: "square for two ..., cut once on the diagonal"; "" for rectangles.
std::string working_of(const Book& book, const cloth::WantedPiece& piece) {
  std::string says = piece.lines.empty() ? std::string() : book.workroom->list.lines[piece.lines.front()].shape.working;
  says += cloth::diagonal_said(piece.diagonal);
  for (const int line : piece.lines) {
    const std::string& note = book.workroom->list.lines[line].note;
    if (!note.empty() && says.find(note) == std::string::npos) says += "; " + note;
  }
  return says;
}

constexpr double kWantedLeft = 30;  ///< of the words beside a sample of a piece's hatching
constexpr double kAfterSize = 10;   ///< between how many there are and what they are for

constexpr double kColumnGap = 16;  ///< columns

/// The width of each of so many columns.
double column_width(const Flow& flow, int columns) { return (flow.width() - (columns - 1) * kColumnGap) / columns; }

/// Many pieces stand in two columns, so that two prints find room on a page.
int columns_of(const PrintPlan& plan) { return plan.wanted.size() < 4 ? 1 : 2; }

/// What is said of a piece: how many, beside it what it is for, below it how it is worked out.
struct WantedWords {
  std::string size, beside, below;
  double below_size = kSmallSize;
};

WantedWords wanted_words(const Flow& flow, const CuttingGroup& group, std::size_t i) {
  const Book& book = flow.book();
  const PrintPlan& plan = book.workroom->plans.plans[group.plans.front()];
  const cloth::WantedPiece& piece = plan.wanted[i];
  WantedWords words;
  words.size = std::to_string(piece.count) + " of " + cloth::said(piece.width, piece.height, book.workroom->list.ruler);
  words.beside = parts_of(book, group, i);
  if (!piece.lines.empty()) words.beside += std::string(": ") + cloth::name_of(piece.shape);
  words.below = working_of(book, piece);
  const double beside = kWantedLeft + draw::width_of(words.size, kBodySize, true) + kAfterSize;
  const double needed = beside + draw::width_of(words.beside, kBodySize, false);
  const double width = column_width(flow, columns_of(plan));
  if (columns_of(plan) > 1 && needed > width) {
    words.below = words.beside + (words.below.empty() ? "" : "; ") + words.below;
    words.beside.clear();
  }
  // A little smaller, where that spares a line for one word.
  constexpr double kLeast = 7.2;
  const double room = width - kWantedLeft;
  const double on_a_line = draw::size_within(words.below, kSmallSize, kLeast, room, false);
  if (draw::width_of(words.below, on_a_line, false) <= room) words.below_size = on_a_line;
  return words;
}

double height_of_words(const WantedWords& words, double width) {
  return 19 + (words.below.empty() ? 0 : height_of(words.below, words.below_size, width - kWantedLeft));
}

void add_piece(draw::Display& display, const std::string& letter, const WantedWords& words, std::size_t i,
               const draw::Box& box) {
  const draw::Box sample = {box.left, box.top + 1, 22, 14};
  add_hatched(display, draw::outline_of(sample), static_cast<int>(i));
  display.add(draw::Line{draw::outline_of(sample), 0.6, draw::kInk, true});
  const double wide = draw::width_of(letter, kBodySize, true) + 4;
  display.add(draw::Area{draw::outline_of({sample.centre().x - wide / 2, sample.top + 2, wide, 10}), draw::kWhite});
  display.add(
      Text{letter, {sample.centre().x, sample.top + 10.6}, kBodySize, Anchor::middle, true, draw::kInk, Role::code});
  const double base = box.top + 11.5;
  display.add(Text{words.size, {box.left + kWantedLeft, base}, kBodySize, Anchor::left, true, draw::kInk, Role::body});
  const double after = kWantedLeft + draw::width_of(words.size, kBodySize, true) + kAfterSize;
  if (!words.beside.empty()) add_word(display, words.beside, {box.left + after, base}, box.width - after, kBodySize);
  if (words.below.empty()) return;
  add_paragraph(display, words.below, {box.left + kWantedLeft, box.top + 14.5}, box.width - kWantedLeft,
                words.below_size, draw::kFaint);
}

/// All pieces of a group, row by row, in as many columns as they take.
struct WantedRows {
  int columns = 1;
  double width = 0;  ///< of a column
  std::vector<WantedWords> words;
  std::vector<double> heights;  ///< by row
};

WantedRows wanted_rows(const Flow& flow, const CuttingGroup& group) {
  const PrintPlan& plan = flow.book().workroom->plans.plans[group.plans.front()];
  WantedRows rows;
  rows.columns = columns_of(plan);
  rows.width = column_width(flow, rows.columns);
  for (std::size_t i = 0; i < plan.wanted.size(); ++i) {
    rows.words.push_back(wanted_words(flow, group, i));
    if (i % static_cast<std::size_t>(rows.columns) == 0) rows.heights.push_back(0);
    rows.heights.back() = std::max(rows.heights.back(), height_of_words(rows.words.back(), rows.width));
  }
  return rows;
}

}  // namespace

void add_wanted(Flow& flow, const CuttingGroup& group) {
  const PrintPlan& plan = flow.book().workroom->plans.plans[group.plans.front()];
  const WantedRows rows = wanted_rows(flow, group);
  const auto columns = static_cast<std::size_t>(rows.columns);
  for (std::size_t row = 0; row < rows.heights.size(); ++row) {
    const draw::Box line = flow.take(rows.heights[row]);
    for (std::size_t i = row * columns; i < std::min((row + 1) * columns, rows.words.size()); ++i) {
      const double left = line.left + static_cast<double>(i % columns) * (rows.width + kColumnGap);
      add_piece(flow.display(), plan.wanted[i].letter, rows.words[i], i, {left, line.top, rows.width, line.height});
    }
  }
}

double wanted_height(const Flow& flow, const CuttingGroup& group) {
  const std::vector<double> rows = wanted_rows(flow, group).heights;
  return std::accumulate(rows.begin(), rows.end(), 0.0);
}

}  // namespace farflung::sheet
