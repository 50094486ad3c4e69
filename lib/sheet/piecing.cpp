#include "sheet/piecing.hpp"

#include <algorithm>
#include <map>

#include "draw/text.hpp"
#include "sheet/flow.hpp"
#include "sheet/marks.hpp"
#include "sheet/unit_drawing.hpp"

namespace farflung::sheet {
namespace {

using cloth::Called;
using cloth::ChainLine;
using cloth::Piecing;
using cloth::UnitKind;
using draw::Anchor;
using draw::Role;
using draw::Text;

constexpr int kColumns = 4;
constexpr double kPicture = 92;

bool in_use(const quilt::Quilt& quilt, int pattern) {
  return std::any_of(quilt.blocks.begin(), quilt.blocks.end(),
                     [&](const block::Block& block) { return block.pattern == pattern && !block.sewn; });
}

/// "trim to 4 1/2 x 9 1/2 in"; "" for units that are no rectangle.
std::string trim_words(const cloth::Step& step, cloth::Ruler ruler) {
  if (!step.fills_box) return {};
  return "trim to " + cloth::said(step.trim_width, step.trim_height, ruler);
}

void add_test_block(Flow& flow, int index) {
  const quilt::Quilt& quilt = flow.book().quilt;
  const block::Pattern& pattern = quilt.patterns[index];
  const cloth::Ruler ruler = flow.book().workroom->list.ruler;
  const Length seams = 2 * quilt.seam_allowance;
  const auto& measured = flow.book().workroom->test_block;
  if (measured && quilt.test_block->pattern == index) {
    std::string says = "Test block, as measured: ";
    for (const std::string& one : measured->says) says += one + " ";
    flow.paragraph(says);
    return;
  }
  flow.tick(
      "A test block first: sewn, pressed and not trimmed it should measure " +
      cloth::said(cloth::trimmed(pattern.width + seams, ruler), cloth::trimmed(pattern.height + seams, ruler), ruler) +
      ". Yours: _______ by _______ . Enter it, and sashing, setting triangles and borders follow.");
}

void add_kind(draw::Display& display, const Book& book, int pattern, const UnitKind& kind, int number,
              const draw::Box& box) {
  const Piecing& piecing = book.workroom->piecing[pattern];
  const cloth::Step& step = piecing.steps[kind.steps.front()];
  const draw::Display drawing =
      unit_drawing(book.quilt.patterns[pattern], piecing, kind.steps.front(), box.width - 10, kPicture);
  const std::string title = "Unit " + std::to_string(number);
  const std::string make = "make " + std::to_string(kind.steps.size()) + " a block";
  const std::string trim = trim_words(step, book.workroom->list.ruler);
  const std::string says =
      title + ", " + make + ": " + kind.says + (trim.empty() ? std::string() : " Then " + trim + ".");
  double y = box.top + 10;
  display.add(Text{title, {box.left, y}, kBodySize, Anchor::left, true, draw::kInk, Role::heading});
  display.add(Text{make,
                   {box.left + draw::width_of(title, kBodySize, true) + 6, y},
                   kSmallSize,
                   Anchor::left,
                   false,
                   draw::kFaint,
                   Role::caption});
  add_figure(display, says, drawing, {box.left, y + 4}, 1);
  y += 4 + drawing.height + 3;
  y = add_paragraph(display, kind.says, {box.left, y}, box.width - 10, kSmallSize) + 2;
  if (!trim.empty()) {
    for (const std::string& line : draw::broken(draw::capital(trim), kSmallSize, box.width - 10, true)) {
      display.add(Text{line, {box.left, y + kSmallSize + 2}, kSmallSize, Anchor::left, true, draw::kInk, Role::body});
      y += 1.3 * kSmallSize;
    }
  }
}

double height_of_kind(const Book& book, int pattern, const UnitKind& kind, double width) {
  const Piecing& piecing = book.workroom->piecing[pattern];
  const int step = kind.steps.front();
  const draw::Display drawing = unit_drawing(book.quilt.patterns[pattern], piecing, step, width - 10, kPicture);
  const std::string trim = trim_words(piecing.steps[step], book.workroom->list.ruler);
  const auto lines = static_cast<double>(draw::broken(trim, kSmallSize, width - 10, true).size());
  return 20 + drawing.height + height_of(kind.says, kSmallSize, width - 10) + 1.3 * kSmallSize * lines + 12;
}

void add_units(Flow& flow, int pattern, const std::vector<UnitKind>& kinds) {
  const double width = flow.width() / kColumns;
  for (std::size_t first = 0; first < kinds.size(); first += kColumns) {
    const std::size_t count = std::min<std::size_t>(kColumns, kinds.size() - first);
    double tall = 0;
    for (std::size_t i = 0; i < count; ++i) {
      tall = std::max(tall, height_of_kind(flow.book(), pattern, kinds[first + i], width));
    }
    const draw::Box row = flow.take(tall);
    for (std::size_t i = 0; i < count; ++i) {
      add_kind(flow.display(), flow.book(), pattern, kinds[first + i], static_cast<int>(first + i) + 1,
               {row.left + static_cast<double>(i) * width, row.top, width, tall});
    }
  }
}

/// "BG is background, L1 light 1": of slots whose names are longer than their codes.
std::string codes_said(const block::Pattern& pattern) {
  std::string words;
  for (std::size_t slot = 0; slot < pattern.slots.size(); ++slot) {
    const std::string code = slot_code(pattern, static_cast<int>(slot));
    if (code == pattern.slots[slot].name) continue;
    words += (words.empty() ? "" : ", ") + code + (words.empty() ? " is " : " ") + pattern.slots[slot].name;
  }
  return words;
}

void add_pattern(Flow& flow, int index) {
  const Book& book = flow.book();
  const block::Pattern& pattern = book.quilt.patterns[index];
  const Piecing& piecing = book.workroom->piecing[index];
  flow.gap(8);
  flow.heading(name_of(pattern), 180);
  add_test_block(flow, index);
  if (piecing.steps.empty() && pattern.patches.size() == 1) flow.paragraph("One piece of cloth: nothing to sew.");
  for (const std::string& remark : piecing.remarks) flow.paragraph(remark);
  if (!piecing.straight) flow.paragraph("Not every seam of this block is straight from edge to edge.");
  const std::string codes = codes_said(pattern);
  if (!codes.empty()) flow.paragraph("In small patches " + codes + ".", kSmallSize);
  flow.gap(4);
  add_units(flow, index, cloth::unit_kinds(pattern, piecing));
}

// The chains.

/// A chain's line: what is sewn to what, and how its blocks are pressed, most of them first.
struct Chain {
  const ChainLine* line = nullptr;
  std::string sides, press;
};

std::string codes_of(const quilt::Quilt& quilt, const std::vector<int>& prints) {
  std::string words;
  for (const int print : prints) words += (words.empty() ? "" : "+") + code_of(quilt, print);
  return words;
}

/// What a line says: whole, or with less where it would not fit.
struct Told {
  Called called = Called::name;
  std::size_t ways = 1000;  ///< of pressing, the rest of the blocks together
};

/// "3 toward Kelp, 2 toward Trawl": so many blocks each, most first.
std::string press_of(const Book& book, const ChainLine& line, const Told& told) {
  std::vector<std::pair<std::string, int>> ways;
  for (const int index : line.blocks) {
    const block::Block& block = book.quilt.blocks[index];
    const std::string way = cloth::press_said(
        book.quilt, block, book.workroom->piecing[line.pattern],
        std::min(line.step, static_cast<int>(book.workroom->piecing[line.pattern].steps.size()) - 1), told.called);
    const auto known = std::find_if(ways.begin(), ways.end(), [&](const auto& w) { return w.first == way; });
    if (known != ways.end()) {
      ++known->second;
    } else {
      ways.emplace_back(way, 1);
    }
  }
  if (ways.size() == 1) return ways.front().first;
  std::stable_sort(ways.begin(), ways.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
  std::string words;
  int others = 0;
  for (std::size_t i = 0; i < ways.size(); ++i) {
    const auto& [way, count] = ways[i];
    if (i < told.ways) {
      words += (words.empty() ? "" : ", ") + std::to_string(count) + " " + way;
    } else {
      others += count;
    }
  }
  return others > 0 ? words + ", " + std::to_string(others) + " as their blocks are pressed" : words;
}

/// "K Kelp  with  F Foghorn"; several prints of one side by their codes.
std::string sides_of(const quilt::Quilt& quilt, const ChainLine& line, Called called) {
  std::string words;
  for (const std::vector<int>& side : line.sides) {
    words += (words.empty() ? "" : "  with  ") + codes_of(quilt, side);
    if (side.size() == 1 && called == Called::name) words += " " + print_name(quilt, side[0]);
  }
  return words;
}

Chain chain_of(const Book& book, const ChainLine& line, const Told& told) {
  return {&line, sides_of(book.quilt, line, told.called), press_of(book, line, told)};
}

constexpr double kBeforeSides = 40, kAfterSides = 4;
constexpr double kSidesSize = 9, kPressSize = 8;

/// How wide the words on pressing are, of all lines.
double widest_press(const std::vector<Chain>& chains) {
  double most = 0;
  for (const Chain& chain : chains) {
    if (!chain.press.empty()) most = std::max(most, draw::width_of(chain.press, kPressSize) + 4);
  }
  return most;
}

/// Whether every line of chains can be read to its end.
bool fit(const std::vector<Chain>& chains, double width) {
  double sides = 0;
  for (const Chain& chain : chains) sides = std::max(sides, draw::width_of(chain.sides, kSidesSize));
  return kBeforeSides + sides + kAfterSides + widest_press(chains) <= width;
}

/// How wide the words on pressing stand, of a line that is `width` wide: whole where all of it fits.
double press_width(const std::vector<Chain>& chains, double width) {
  const double most = widest_press(chains);
  return fit(chains, width) ? most : std::min(most, 0.55 * width);
}

/// `press` is how wide the words on pressing stand, at the line's end.
void add_chain(draw::Display& display, const Chain& chain, const draw::Box& box, double press) {
  const double base = box.bottom() - 4.5;
  const auto word = [&](const std::string& words, double left, double width, double size, bool bold) {
    add_word(display, words, {box.left + left, base}, width, size, bold);
  };
  add_tick(display, box.left + 1, base + 0.5, 8.5);
  word(std::to_string(chain.line->count), 15, 25, 9, true);
  word(chain.sides, kBeforeSides, box.width - kBeforeSides - press - kAfterSides, kSidesSize, false);
  if (!chain.press.empty()) word(chain.press, box.width - press, press, kPressSize, false);
  display.add(draw::Line{{{box.left, box.bottom()}, {box.right(), box.bottom()}}, 0.35, draw::kHair});
}

/// Lines two to a row where their words are short enough to stand side by side; each row `tall`. Prints whose names are
/// too long for that list go by their codes, rather than lose the ends of their names; then the fewest ways of pressing
/// are told together.
void add_chains(Flow& flow, std::vector<Chain> chains, double tall) {
  const bool one_way = std::all_of(chains.begin(), chains.end(),
                                   [&](const Chain& chain) { return chain.press == chains.front().press; });
  if (one_way && chains.size() > 1) {
    flow.paragraph("Press every one of them " + chains.front().press + ".", 9);
    for (Chain& chain : chains) chain.press.clear();
  }
  for (const std::size_t ways : {1000, 3, 2, 1}) {
    if (fit(chains, flow.width())) break;
    for (Chain& chain : chains) {
      const bool said = chain.press.empty();
      chain = chain_of(flow.book(), *chain.line, {Called::code, ways});
      if (said) chain.press.clear();
    }
  }
  constexpr double kGap = 14;
  const double half = (flow.width() - kGap) / 2;
  const bool two = fit(chains, half);
  const double width = two ? half : flow.width();
  const double press = press_width(chains, width);
  const std::size_t in_row = two ? 2 : 1;
  const std::size_t rows = (chains.size() + in_row - 1) / in_row;
  for (std::size_t r = 0; r < rows; ++r) {
    if (r + 2 == rows) flow.keep(2 * tall);  // no page begins with a lone last line
    const draw::Box row = flow.take(tall);
    for (std::size_t c = 0; c < in_row && in_row * r + c < chains.size(); ++c) {
      const double left = row.left + static_cast<double>(c) * (width + kGap);
      add_chain(flow.display(), chains[in_row * r + c], {left, row.top, width, tall}, press);
    }
  }
}

/// Which kind of unit a line makes; lines are listed kind by kind.
int kind_of(const std::vector<UnitKind>& kinds, int step) {
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    if (std::find(kinds[k].steps.begin(), kinds[k].steps.end(), step) != kinds[k].steps.end()) {
      return static_cast<int>(k);
    }
  }
  return 0;
}

/// The chains of each kind of unit, by pattern and kind.
using ChainsByKind = std::map<std::pair<int, int>, std::vector<Chain>>;

ChainsByKind chains_by_kind(const Book& book) {
  ChainsByKind by_kind;
  for (const ChainLine& line : book.workroom->chains) {
    const auto kinds = cloth::unit_kinds(book.quilt.patterns[line.pattern], book.workroom->piecing[line.pattern]);
    by_kind[{line.pattern, kind_of(kinds, line.step)}].push_back(chain_of(book, line, {}));
  }
  return by_kind;
}

/// Late units are each block's own: they come in the order of the blocks, nothing is to be paired any more.
bool is_each_blocks_own(const std::vector<Chain>& chains) {
  std::size_t blocks = 0;
  for (const Chain& chain : chains) blocks += chain.line->blocks.size();
  return chains.size() > 12 && 10 * chains.size() > 9 * blocks;
}

constexpr const char* kOwn = "Each block's own: keep its parts and its label together, and chain block after block.";

/// "Unit 2", "Units 2 to 5"
std::string units_said(int first, int last) {
  return first == last ? "Unit " + std::to_string(first + 1)
                       : "Units " + std::to_string(first + 1) + " to " + std::to_string(last + 1);
}

void add_all_chains(Flow& flow, const ChainsByKind& by_kind, double tall) {
  for (auto at = by_kind.begin(); at != by_kind.end();) {
    const auto [pattern, first] = at->first;
    const bool own = is_each_blocks_own(at->second);
    int count = 0, last = first;
    for (const Chain& chain : at->second) count += chain.line->count;
    const std::vector<Chain>& chains = at->second;
    // Units that are each block's own and follow one another are told together.
    for (++at; own && at != by_kind.end() && at->first.first == pattern && is_each_blocks_own(at->second); ++at) {
      last = at->first.second;
    }
    flow.gap(6);
    flow.heading(units_said(first, last) + " of " + name_of(flow.book().quilt.patterns[pattern]) +
                     (first == last ? ": " + std::to_string(count) + " in all" : ""),
                 17 + 2 * tall);
    if (own) {
      flow.tick(kOwn);
    } else {
      add_chains(flow, chains, tall);
    }
  }
}

/// In rows that are easy to tick, or a little closer where that saves a page.
std::vector<Page> chain_pages(const Book& book, const ChainsByKind& by_kind) {
  constexpr double kRow = 15, kCloser = 13.5;
  // Of each page closer rows save a tenth, and as much again at most that stood empty at its end.
  constexpr double kSaved = 2 * (1 - kCloser / kRow);
  const auto begun = [&] { return Flow(book, "Piecing", "chains: pairs of prints, how many"); };
  Flow flow = begun();
  add_all_chains(flow, by_kind, kRow);
  const double last = flow.height() - flow.left_on_page();
  const double height = flow.height();
  std::vector<Page> pages = std::move(flow).pages();
  if (pages.size() < 2 || last > kSaved * height * static_cast<double>(pages.size() - 1)) return pages;
  Flow closer = begun();
  add_all_chains(closer, by_kind, kCloser);
  std::vector<Page> fewer = std::move(closer).pages();
  return fewer.size() < pages.size() ? fewer : pages;
}

}  // namespace

std::vector<Page> piecing(const Book& book) {
  Flow flow(book, "Piecing", "units, trimming, pressing");
  bool any = false;
  for (std::size_t i = 0; i < book.quilt.patterns.size(); ++i) {
    // A block of one patch is cut, not pieced.
    if (!in_use(book.quilt, static_cast<int>(i)) || book.quilt.patterns[i].patches.size() == 1) continue;
    if (!any) {
      flow.paragraph(
          "Arrows show which way a seam allowance is pressed; two arrows: open; a ring: spun. An iron burns "
          "and scalds: keep fingers clear of steam.",
          kSmallSize, draw::kFaint);
    }
    any = true;
    add_pattern(flow, static_cast<int>(i));
  }
  if (!any) return {};
  if (book.workroom->spares && !book.workroom->spares->says.empty()) flow.paragraph(book.workroom->spares->says);
  const ChainsByKind chains = chains_by_kind(book);
  const bool paired =
      std::any_of(chains.begin(), chains.end(), [](const auto& kind) { return !is_each_blocks_own(kind.second); });
  if (!chains.empty() && !paired) add_all_chains(flow, chains, 0);  // too little for a page of its own
  std::vector<Page> pages = std::move(flow).pages();
  if (!paired) return pages;
  for (Page& page : chain_pages(book, chains)) pages.push_back(std::move(page));
  return pages;
}

}  // namespace farflung::sheet
