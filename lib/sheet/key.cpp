#include "sheet/key.hpp"

#include <algorithm>

#include "base/counted.hpp"
#include "draw/text.hpp"
#include "sheet/marks.hpp"

namespace farflung::sheet {
namespace {

using block::kNone;
using draw::Anchor;
using draw::Role;
using draw::Text;

constexpr double kEntryHeight = 54;
constexpr double kCautionsHeight = 96;

constexpr const char* kCautions[] = {
    "Rotary cutters and irons: close the blade each time you lay the cutter down, cut away from your body, keep hand "
    "and cloth flat behind the ruler; an iron and freshly pressed cloth burn. Keep both out of children's reach.",
    "Babies: a quilt does not belong in the bed or cot of an infant who sleeps unwatched. Follow the advice on safe "
    "sleep where you live; leave off buttons and beads that can be swallowed.",
    "For sale or raffle: textiles that change hands must usually be labelled with their fibres, care and maker, and "
    "meet the rules on flammability and children's goods of the place where they are sold. Ask before you sell."};

void note(std::vector<std::string>& frame, const std::string& what) {
  if (std::find(frame.begin(), frame.end(), what) == frame.end()) frame.push_back(what);
}

const char* name_of(setting::FramePatch::Role role) {
  switch (role) {
    case setting::FramePatch::Role::sashing:
      return "sashing";
    case setting::FramePatch::Role::cornerstone:
      return "cornerstones";
    case setting::FramePatch::Role::filler:
      return "setting pieces";
    case setting::FramePatch::Role::border:
      return "border";
    case setting::FramePatch::Role::border_corner:
      break;
  }
  return "border corners";
}

std::string words_of(const Use& use) {
  std::string words;
  if (use.blocks > 0) words = counted(use.pieces, "piece") + " in " + counted(use.blocks, "block");
  for (const std::string& part : use.frame) words += (words.empty() ? "" : ", ") + part;
  return words.empty() ? "not used" : words;
}

/// Names are whole if they can be: here they are looked up.
struct EntryName {
  double size = 11, lead = 11;
  double above = 6;  ///< from the middle of the entry up to the first line's base
  std::vector<std::string> lines;
};

EntryName entry_name(const std::string& name, double width) {
  EntryName found = {11, 11, 6, draw::broken(name, 11, width, true)};
  if (found.lines.size() > 1) found = {9.5, 11, 14, draw::broken(name, 9.5, width, true)};
  if (found.lines.size() > 2) found = {8.5, 10, 16, lines_of(name, 8.5, width, 3, true)};
  return found;
}

void add_entry(draw::Display& display, const Book& book, int print, const Use& use, print::ValueClass value,
               const draw::Box& box) {
  const quilt::Quilt& quilt = book.quilt;
  const std::string says =
      code_of(quilt, print) + ": " + print_name(quilt, print) + ", " + name_of(value) + ", " + words_of(use);
  display.add(draw::Opening{draw::Opening::Kind::figure, says});
  const draw::Box chip = {box.left, box.top + 4, 66, box.height - 10};
  add_chip(display, quilt, print, chip, 20);
  const double middle = chip.centre().y;
  const double code_left = chip.right() + 10;
  add_code(display, code_of(quilt, print), {code_left, middle}, kCodeSize, Anchor::left);
  const double left = code_left + 40;
  const double width = box.right() - left - 4;
  const EntryName name = entry_name(print_name(quilt, print), width);
  double base = middle - name.above;
  for (const std::string& line : name.lines) {
    display.add(Text{line, {left, base}, name.size, Anchor::left, true, draw::kInk, Role::name});
    base += name.lead;
  }
  base += 12.5 - name.lead;
  const std::size_t rest = name.lines.size() > 2 ? 1 : 2;
  for (const std::string& line : lines_of(std::string(name_of(value)) + " \u00b7 " + words_of(use), 8, width, rest)) {
    display.add(Text{line, {left, base}, 8, Anchor::left, false, draw::kFaint, Role::caption});
    base += 10.5;
  }
  display.add(draw::Closing{});
}

void add_cautions(draw::Display& display, const draw::Box& box) {
  display.add(draw::Line{{{box.left, box.top}, {box.right(), box.top}}, 0.5, draw::kHair});
  double top = box.top + 6;
  for (const char* words : kCautions) top = add_paragraph(display, words, {box.left, top}, box.width, 8, draw::kFaint);
}

}  // namespace

std::vector<Use> uses_of(const Book& book) {
  const quilt::Quilt& quilt = book.quilt;
  std::vector<Use> uses(quilt.prints.size());
  for (const block::Block& block : quilt.blocks) {
    std::vector<bool> seen(quilt.prints.size(), false);
    for (const block::Patch& patch : quilt.patterns[block.pattern].patches) {
      const int print = quilt::print_of_slot(quilt, block, patch.slot);
      if (print == kNone) continue;
      ++uses[print].pieces;
      if (!seen[print]) ++uses[print].blocks;
      seen[print] = true;
    }
  }
  for (const setting::FramePatch& patch : book.plan.frame) {
    if (patch.print == kNone) continue;
    const bool one_of_several = patch.role == setting::FramePatch::Role::border && quilt.setting.borders.size() > 1;
    const std::string which = one_of_several ? " " + std::to_string(patch.part + 1) : "";
    note(uses[patch.print].frame, name_of(patch.role) + which);
  }
  if (quilt.binding && quilt.binding->print != kNone) note(uses[quilt.binding->print].frame, "binding");
  if (quilt.backing && quilt.backing->print != kNone) note(uses[quilt.backing->print].frame, "backing");
  return uses;
}

std::vector<Page> key_of_prints(const Book& book) {
  const std::vector<Use> uses = uses_of(book);
  const std::vector<print::ValueClass> values = print::value_classes(book.quilt.prints);
  const draw::Box room = room_of(book.paper);
  const int in_column = static_cast<int>((room.height - kCautionsHeight - 10) / kEntryHeight);
  const int on_page = 2 * in_column;
  const int prints = static_cast<int>(book.quilt.prints.size());
  std::vector<Page> pages;
  for (int first = 0; first == 0 || first < prints; first += on_page) {
    const int count = std::min(on_page, prints - first);
    Page page = blank_page(book, "Key of prints", counted(prints, "print"));
    const int tall = (count + 1) / 2;
    for (int i = 0; i < count; ++i) {
      const int column = i / tall;
      const double left = room.left + column * (room.width / 2 + 6);
      const draw::Box box = {left, room.top + (i % tall) * kEntryHeight, room.width / 2 - 6, kEntryHeight};
      add_entry(page.display, book, first + i, uses[first + i], values[first + i], box);
    }
    if (first + on_page >= prints) {
      add_cautions(page.display, {room.left, room.bottom() - kCautionsHeight, room.width, kCautionsHeight});
    }
    pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace farflung::sheet
