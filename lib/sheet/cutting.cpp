#include "sheet/cutting.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "draw/text.hpp"
#include "sheet/flow.hpp"
#include "sheet/lettering.hpp"
#include "sheet/marks.hpp"
#include "sheet/print_line.hpp"
#include "sheet/wanted.hpp"

namespace farflung::sheet {
namespace {

using cloth::CutRow;
using cloth::CuttingGroup;
using cloth::PrintPlan;
using cloth::SheetPlan;
using draw::Anchor;
using draw::Role;
using draw::Text;

constexpr double kLine = 15;
constexpr double kNumbers = 50;  ///< the column of cut numbers beside a plan

constexpr const char* kCare =
    "Close the rotary cutter each time you lay it down, cut away from yourself, fingers flat behind the ruler.";

// The list.

struct Columns {
  double print, tick, count, size, shape, makes;
};

Columns columns_in(const draw::Box& box) {
  return {box.left, box.left + 136, box.left + 154, box.left + 182, box.left + 292, box.left + 412};
}

void add_head(Flow& flow) {
  const draw::Box box = flow.take(kLine);
  const Columns at = columns_in(box);
  const double base = box.bottom() - 5;
  const auto word = [&](const char* words, double left) {
    flow.display().add(Text{words, {left, base}, kSmallSize, Anchor::left, false, draw::kFaint, Role::caption});
  };
  word("print", at.print);
  word("cut", at.count);
  word("size", at.size);
  word("what it is", at.shape);
  word("gives", at.makes);
  flow.display().add(draw::Line{{{box.left, box.bottom()}, {box.right(), box.bottom()}}, 0.7, draw::kFaint});
}

/// What a row says that may need more than one line.
struct RowWords {
  std::vector<std::string> name;  ///< of the print; empty where it stands beside an earlier row
  std::vector<std::string> gives;
  double gives_size = kBodySize;

  double height() const {
    const std::size_t lines = std::max(name.size(), gives.size());
    return kLine + kPitch * static_cast<double>(std::max<std::size_t>(lines, 1) - 1);
  }
  static constexpr double kPitch = 11;
};

/// `more` where a row of the same print follows, beside which a long name goes on.
RowWords words_of_row(const Book& book, const cloth::CutTogether& together, double width, bool first, bool more) {
  const Columns at = columns_in({0, 0, width, 0});
  RowWords words;
  const double room = width - at.makes;
  words.gives_size = draw::size_within(together.gives, kBodySize, kLeastSize, room, false);
  words.gives = draw::width_of(together.gives, words.gives_size) <= room + 1e-6
                    ? std::vector<std::string>{together.gives}
                    : draw::broken(together.gives, words.gives_size = kBodySize, room);
  if (first && !more) words.name = print_lines(book.quilt, together.row.print, kBodySize, at.tick - at.print - 6, 2);
  return words;
}

void add_row(Flow& flow, const cloth::CutTogether& together, const RowWords& words, bool first) {
  const CutRow& row = together.row;
  const quilt::Quilt& quilt = flow.book().quilt;
  const cloth::Ruler ruler = flow.book().workroom->list.ruler;
  const draw::Box box = flow.take(words.height());
  const Columns at = columns_in(box);
  const double base = box.top + kLine - 4.5;
  draw::Display& display = flow.display();
  if (first) {
    const double pitch = words.name.empty() ? kLine : RowWords::kPitch;
    add_print(display, quilt, row.print, {at.print, base}, kBodySize, at.tick - at.print - 6, 2, pitch);
  }
  if (row.count > 0) add_tick(display, at.tick, base + 0.5);
  // Sizes and shapes are never cut short: smaller letters sooner.
  const auto fitted = [&](const std::string& what, double left, double right, bool bold) {
    const double room = right - left - 5;
    add_word(display, what, {left, base}, room, draw::size_within(what, kBodySize, kLeastSize, room, bold), bold);
  };
  // Patches that share the rectangles of another line have none of their own to cut.
  const bool shared = row.count == 0;
  fitted(shared ? "" : std::to_string(row.count), at.count, at.size, true);
  const std::string measures =
      cloth::said(quilt::from_units(row.width, quilt.units), quilt::from_units(row.height, quilt.units), ruler);
  fitted(measures, at.size, at.shape, true);
  fitted(shared ? "from those of this size" : row.shape, at.shape, at.makes, false);
  for (std::size_t i = 0; i < words.gives.size(); ++i) {
    const draw::Vec where = {at.makes, base + RowWords::kPitch * static_cast<double>(i)};
    add_word(display, words.gives[i], where, box.right() - at.makes + 1, words.gives_size);
  }
  display.add(draw::Line{{{first ? box.left : at.tick, box.top}, {box.right(), box.top}}, 0.35, draw::kHair});
}

std::vector<Page> cut_list(const Book& book) {
  const std::vector<cloth::CutTogether> rows = cloth::cut_together(book.workroom->cut);
  Flow flow(book, "Cutting", "cut list, seam allowances included");
  flow.paragraph(kCare, kSmallSize, draw::kFaint);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const bool goes_on = i + 1 < rows.size() && rows[i + 1].row.print == rows[i].row.print;
    const bool opens = i == 0 || rows[i].row.print != rows[i - 1].row.print;
    const auto words = [&](bool first) {
      const double tall = words_of_row(book, rows[i], flow.width(), first, true).height();
      return words_of_row(book, rows[i], flow.width(), first, goes_on && flow.left_on_page() >= tall + kLine);
    };
    if (i > 0 && flow.left_on_page() >= words(opens).height()) {
      add_row(flow, rows[i], words(opens), opens);
      continue;
    }
    flow.keep(kLine + words_of_row(book, rows[i], flow.width(), true, false).height());
    add_head(flow);
    add_row(flow, rows[i], words(true), true);
  }
  for (const cloth::Remark& remark : book.workroom->list.remarks) {
    flow.gap(6);
    flow.paragraph(remark.says, kSmallSize);
  }
  return std::move(flow).pages();
}

// The plans.

constexpr double kPrintLine = 19, kPrintSize = 11, kUnderPrints = 3;

double width_in_line(const Flow& flow, int print) {
  return std::min(flow.width(), width_of_print(flow.book().quilt, print, kPrintSize) + 18);
}

/// The group's prints, as many to a line as go into it.
std::vector<std::vector<int>> lines_of_prints(const Flow& flow, const CuttingGroup& group) {
  std::vector<std::vector<int>> lines;
  double x = flow.width();
  for (const int index : group.plans) {
    const int print = flow.book().workroom->plans.plans[index].print;
    const double wide = width_in_line(flow, print);
    if (x + wide > flow.width() + 1e-6) {
      lines.emplace_back();
      x = 0;
    }
    lines.back().push_back(print);
    x += wide;
  }
  return lines;
}

void add_prints(Flow& flow, const CuttingGroup& group) {
  for (const std::vector<int>& line : lines_of_prints(flow, group)) {
    const draw::Box box = flow.take(kPrintLine);
    double x = box.left;
    for (const int print : line) {
      const double wide = width_in_line(flow, print);
      add_print(flow.display(), flow.book().quilt, print, {x, box.bottom() - 5}, kPrintSize, wide - 14);
      x += wide;
    }
  }
}

/// One line on whether there is enough for all prints of the group.
std::string enough_said(const Book& book, const CuttingGroup& group) {
  const PrintPlan& first = book.workroom->plans.plans[group.plans.front()];
  const auto many = group.plans.size();
  if (first.enough) {
    return many == 1 ? first.says : "Enough: the cloth in hand gives every piece of each of these prints.";
  }
  if (!first.more) return first.says;
  const std::string amount = cloth::amount_text(first.more->amount, first.more->unit);
  std::string says = first.has_cloth ? "Not enough in hand: buy " + amount + " more" : "None in hand: buy " + amount;
  if (many > 1) {
    says +=
        " of each, " + cloth::amount_text(first.more->amount * static_cast<double>(many), first.more->unit) + " in all";
  }
  if (first.more_pieces > 0) {
    says += ", or " + cloth::more_pieces_said(first, book.quilt.prints[first.print]) + (many > 1 ? " of each" : "");
  }
  if (first.has_cloth && !first.proven) says += ". No plan was found that fits; none was proven impossible";
  return says + ".";
}

/// Who lies on whom; "" where one print is cut by itself and may lie either way.
std::string stacks_said(const Book& book, const CuttingGroup& group) {
  if (group.plans.size() < 2) {
    return group.right_sides_up ? "Cut right side up: a shape or the print is not its own mirror." : "";
  }
  std::string says;
  std::size_t next = 0;
  for (std::size_t s = 0; s < group.stacks.size(); ++s) {
    says += (s == 0 ? "Stack " : "; stack ") + std::to_string(s + 1) + ": ";
    for (int layer = 0; layer < group.stacks[s] && next < group.plans.size(); ++layer, ++next) {
      const print::Print& print = book.quilt.prints[book.workroom->plans.plans[group.plans[next]].print];
      says += (layer == 0 ? "" : " + ") + (print.code.empty() ? print.id : print.code);
    }
  }
  return says + (group.right_sides_up ? ". Every layer right side up: a shape or a print is not its own mirror."
                                      : ". Layers may lie face to face; edges together, the straightest on top.");
}

/// What stands over the first drawing of a group.
double head_height(const Flow& flow, const CuttingGroup& group) {
  double tall = kPrintLine * static_cast<double>(lines_of_prints(flow, group).size()) + kUnderPrints;
  for (const std::string& says : {enough_said(flow.book(), group), stacks_said(flow.book(), group)}) {
    if (!says.empty()) tall += flow.paragraph_height(says);
  }
  return tall + wanted_height(flow, group);
}

double steps_height(const std::vector<cloth::CutStep>& steps, double width) {
  double tall = 0;
  for (const cloth::CutStep& step : steps) tall += height_of(step.says, kSmallSize + 0.5, width) + 3;
  return tall;
}

/// In two columns, below a drawing.
constexpr double kBetween = 16;
double step_column(double width) { return (width - kBetween) / 2; }

/// The heights of its rows.
std::vector<double> step_rows(const std::vector<cloth::CutStep>& steps, double width) {
  std::vector<double> rows;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const double tall = height_of(steps[i].says, kSmallSize + 0.5, step_column(width) - kNumbers) + 3;
    if (i % 2 == 0) rows.push_back(0);
    rows.back() = std::max(rows.back(), tall);
  }
  return rows;
}

double steps_below(const std::vector<cloth::CutStep>& steps, double width) {
  const std::vector<double> rows = step_rows(steps, width);
  return std::accumulate(rows.begin(), rows.end(), 0.0);
}

std::string number_of(const cloth::CutStep& step) {
  return step.first == step.last ? std::to_string(step.first)
                                 : std::to_string(step.first) + "\u2013" + std::to_string(step.last);
}

void add_step(draw::Display& display, const cloth::CutStep& step, draw::Vec at, double width) {
  constexpr double kSize = kSmallSize + 0.5;
  display.add(Text{number_of(step), {at.x, at.y + kSize}, kSize, Anchor::left, true, draw::kInk, Role::body});
  add_paragraph(display, step.says, {at.x + kNumbers, at.y}, width - kNumbers, kSize);
}

/// A plan as it comes to lie on the page: its drawing, its steps beside it where they fit, else below.
struct SheetBand {
  SheetPlan sheet;
  std::vector<cloth::CutStep> steps;
  PlanDrawing drawing;
  double room = 0;  ///< beside the drawing
  bool beside = false;
  double tall = 0;
};

constexpr double kTitle = 20;      ///< over a drawing
constexpr double kAboveTitle = 4;  ///< over that

void lay(SheetBand& band, PlanDrawing drawing, double width) {
  band.drawing = std::move(drawing);
  const double drawn = band.drawing.display.height;
  band.room = width - band.drawing.display.width - 14;
  const double steps = steps_height(band.steps, band.room - kNumbers);
  band.beside = steps <= std::max(drawn, 240.0);
  band.tall = kTitle + (band.beside ? std::max(drawn, steps + 8) : drawn);
}

/// With its steps, beside it or below.
double whole_height(const SheetBand& band, double width) {
  return band.tall + (band.beside ? 0 : steps_below(band.steps, width));
}

/// A wide length that is drawn less high, its marks as large as before, soon comes to nothing.
constexpr double kLeastShareOfWidth = 0.55;

/// The same drawn smaller, so that all its steps stand beside it within so high a room; none where that is too small.
std::optional<SheetBand> smaller_within(const Flow& flow, const PrintPlan& plan, const SheetBand& band, double room,
                                        double least_share) {
  for (const double share : {0.9, 0.8, 0.7, 0.6}) {
    if (share < least_share) break;
    SheetBand smaller = band;
    const double most = share * band.drawing.display.height;
    lay(smaller, drawing_of(flow.book(), plan, band.sheet, flow.width(), most), flow.width());
    if (smaller.drawing.display.width < kLeastShareOfWidth * band.drawing.display.width) break;
    const double steps = kTitle + steps_height(band.steps, smaller.room - kNumbers) + 8;
    if (steps > room) continue;
    smaller.beside = true;
    smaller.tall = std::max(kTitle + smaller.drawing.display.height, steps);
    return smaller;
  }
  return std::nullopt;
}

/// `head` is what stands over the first drawing of a group and stays with it. A plan and its steps stand on one page
/// where they can: on this one, on the next, or drawn smaller.
SheetBand band_of(const Flow& flow, const PrintPlan& plan, const SheetPlan& right, double head) {
  const Book& book = flow.book();
  constexpr double kStepWidth = 190;
  SheetBand band;
  band.sheet = book.left_handed ? cloth::left_handed(right) : right;
  band.steps = cloth::cut_steps(band.sheet, book.workroom->list.ruler, book.left_handed);
  const double ratio = band.sheet.length.inches() / band.sheet.width.inches();
  const bool wide = ratio < 1 / 1.6;
  // A long length takes the page that its names and pieces stand on, the cautions of the first one too; where that
  // would draw it too small to be read, a page of its own.
  constexpr double kLeast = 400, kOwnPage = 590, kTall = 270, kCautions = 34;
  const bool first = flow.left_on_page() > flow.height() - 2 * kCautions;
  const double page = flow.height() - (first ? kCautions : 0) - head - kAboveTitle;
  const double here = flow.left_on_page() - head - kAboveTitle;
  const double beside_head = page - kTitle;
  const double most = ratio <= 1.3 ? kTall : beside_head < kLeast ? kOwnPage : std::min(beside_head, kOwnPage);
  lay(band, drawing_of(book, plan, band.sheet, wide ? 345 : flow.width() - kStepWidth - 16, most), flow.width());
  const double whole = whole_height(band, flow.width());
  if (whole <= here) return band;
  if (const auto smaller = smaller_within(flow, plan, band, here, 0.7)) return *smaller;
  if (whole <= page) return band;
  return smaller_within(flow, plan, band, page, 0.6).value_or(band);
}

/// "K + B + G: ", for a drawing that stands on another page than the names.
std::string codes_before(const Book& book, const CuttingGroup& group) {
  std::string words;
  for (const int plan : group.plans) {
    words += (words.empty() ? "" : " + ") + code_of(book.quilt, book.workroom->plans.plans[plan].print);
  }
  return words + ": ";
}

/// In two columns; on a page that they run on to, under a line that tells whose they are.
void add_steps_below(Flow& flow, const CuttingGroup& group, const std::vector<cloth::CutStep>& steps) {
  const double column = step_column(flow.width());
  const std::vector<double> rows = step_rows(steps, flow.width());
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const std::size_t i = 2 * r;
    if (flow.left_on_page() < rows[r]) {
      flow.keep(kTitle + rows[r]);
      const draw::Box line = flow.take(kTitle);
      const std::string words =
          codes_before(flow.book(), group) + "cuts from " + std::to_string(steps[i].first) + " on";
      add_word(flow.display(), words, {line.left, line.top + 12}, line.width, kBodySize, true);
    }
    const draw::Box row = flow.take(rows[r]);
    add_step(flow.display(), steps[i], {row.left, row.top}, column);
    if (i + 1 < steps.size()) add_step(flow.display(), steps[i + 1], {row.left + column + kBetween, row.top}, column);
  }
}

void add_sheet(Flow& flow, const CuttingGroup& group, const SheetBand& band, int copies) {
  const SheetPlan& sheet = band.sheet;
  const std::vector<cloth::CutStep>& steps = band.steps;
  flow.gap(kAboveTitle);
  const double whole = whole_height(band, flow.width());
  const double together = whole <= flow.height() ? whole : band.tall;
  const bool parted = flow.left_on_page() < together;
  flow.keep(together);
  const draw::Box box = flow.take(band.tall);
  draw::Display& display = flow.display();
  std::string title = draw::capital(sheet.kind.empty() ? "cloth" : sheet.kind);
  title += ", " + cloth::said(sheet.width, sheet.length, flow.book().workroom->list.ruler) + " usable";
  if (copies > 1) title += ": cut " + std::to_string(copies) + " so";
  title += ", " + std::to_string(static_cast<int>(100 * sheet.used)) + " % used";
  const std::string codes = parted ? codes_before(flow.book(), group) : std::string();
  const double room = box.width - draw::width_of(title, kBodySize, true);
  title = draw::shortened(codes, kBodySize, room, true) + title;
  display.add(Text{title, {box.left, box.top + 12}, kBodySize, Anchor::left, true, draw::kInk, Role::body});
  add_figure(display, band.drawing.says, band.drawing.display, {box.left, box.top + kTitle}, 1);
  if (band.beside) {
    double y = box.top + 30;
    for (const cloth::CutStep& step : steps) {
      add_step(display, step, {box.left + band.drawing.display.width + 14, y}, band.room);
      y += height_of(step.says, kSmallSize + 0.5, band.room - kNumbers) + 3;
    }
    return;
  }
  add_steps_below(flow, group, steps);
}

void add_group(Flow& flow, const CuttingGroup& group) {
  const PrintPlan& plan = flow.book().workroom->plans.plans[group.plans.front()];
  // Names and pieces stay with the first drawing.
  const double head = head_height(flow, group);
  std::vector<std::pair<const SheetPlan*, int>> sheets;
  for (const SheetPlan& sheet : plan.sheets) sheets.emplace_back(&sheet, sheet.copies);
  if (plan.bought) sheets.emplace_back(&*plan.bought, 1);
  std::optional<SheetBand> first;
  if (!sheets.empty()) first = band_of(flow, plan, *sheets.front().first, head);
  const double tall = head + (first ? kAboveTitle + first->tall : 0);
  const double whole = head + (first ? kAboveTitle + whole_height(*first, flow.width()) : 0);
  flow.keep(whole <= flow.height() ? whole : tall);
  add_prints(flow, group);
  flow.gap(kUnderPrints);
  flow.paragraph(enough_said(flow.book(), group));
  if (const std::string says = stacks_said(flow.book(), group); !says.empty()) flow.paragraph(says);
  add_wanted(flow, group);
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const auto& [sheet, copies] = sheets[i];
    add_sheet(flow, group, i == 0 ? *first : band_of(flow, plan, *sheet, 0), copies);
  }
  constexpr double kRule = 9;
  flow.gap(8);
  if (flow.left_on_page() < kRule) return;  // the page's end parts it from the next as well
  const draw::Box rule = flow.take(kRule);
  flow.display().add(draw::Line{{{rule.left, rule.top}, {rule.right(), rule.top}}, 0.7, draw::kFaint});
}

}  // namespace

std::vector<Page> cutting(const Book& book) {
  if (book.workroom->cut.empty()) return {};
  std::vector<Page> pages = cut_list(book);
  Flow flow(book, "Cutting",
            book.left_handed ? "plans, cut from the right edge, left-handed" : "plans, cut from the left edge");
  flow.paragraph(std::string(kCare) +
                     " Cuts are numbered in their order; each goes right through the piece that lies there. Grey is "
                     "left over. Broken lines: cut on the diagonal, once or twice.",
                 kSmallSize, draw::kFaint);
  for (const CuttingGroup& group : book.workroom->plans.groups) add_group(flow, group);
  if (book.workroom->plans.groups.empty()) return pages;
  for (Page& page : std::move(flow).pages()) pages.push_back(std::move(page));
  return pages;
}

}  // namespace farflung::sheet
