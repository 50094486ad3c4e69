#include "sheet/book.hpp"

#include "draw/text.hpp"
#include "draw/top.hpp"

namespace farflung::sheet {
namespace {

using draw::Anchor;
using draw::Role;
using draw::Text;

/// What stands on every page.
struct Furniture {
  Paper paper;
  std::string title, size;
  std::size_t pages = 0;
};

void add_header(const Page& page, const Paper& paper, const std::string& title, draw::Display& display) {
  const double base = kMargin + 13;
  const double right = paper.width - kMargin;
  const double size = 14;
  display.add(draw::Opening{draw::Opening::Kind::heading, {}});
  display.add(Text{page.section, {kMargin, base}, size, Anchor::left, true, draw::kInk, Role::heading});
  display.add(draw::Closing{});
  const double used = draw::width_of(page.section, size, true) + 10;
  const double part_width = draw::width_of(page.part, 9.5);
  if (!page.part.empty()) {
    display.add(Text{page.part, {kMargin + used, base}, 9.5, Anchor::left, false, draw::kFaint, Role::caption});
  }
  const double left = paper.width - 2 * kMargin - used - part_width - 14;
  if (left > 40) {
    display.add(Text{
        draw::shortened(title, 9.5, left), {right, base}, 9.5, Anchor::right, false, draw::kFaint, Role::furniture});
  }
  display.add(draw::Line{{{kMargin, base + 8}, {right, base + 8}}, 0.5, draw::kHair});
}

void add_footer(const Furniture& furniture, std::size_t number, draw::Display& display) {
  const double base = furniture.paper.height - kMargin - 2;
  const double right = furniture.paper.width - kMargin;
  const std::string count = "page " + std::to_string(number) + " of " + std::to_string(furniture.pages);
  display.add(draw::Line{{{kMargin, base - 12}, {right, base - 12}}, 0.5, draw::kHair});
  display.add(
      Text{"Finished top " + furniture.size, {kMargin, base}, 8, Anchor::left, false, draw::kFaint, Role::furniture});
  display.add(Text{count, {right, base}, 8, Anchor::right, false, draw::kFaint, Role::furniture});
}

/// `drawn` under its header, which is read first, and above its footer.
draw::Display furnished(const Page& page, const draw::Display& drawn, std::size_t number, const Furniture& furniture) {
  draw::Display display;
  display.width = drawn.width;
  display.height = drawn.height;
  add_header(page, furniture.paper, furniture.title, display);
  draw::place(display, drawn, {0, 0}, 1);
  add_footer(furniture, number, display);
  return display;
}

}  // namespace

Book work_book(const quilt::Quilt& quilt, const Paper& paper, const cloth::WorkroomOptions& options) {
  Book book{quilt, quilt::plan_of(quilt), paper};
  book.workroom = std::make_shared<const cloth::Workroom>(cloth::workroom_of(quilt, options));
  return book;
}

Page blank_page(const Book& book, std::string section, std::string part) {
  Page page;
  page.section = std::move(section);
  page.part = std::move(part);
  page.display.width = book.paper.width;
  page.display.height = book.paper.height;
  return page;
}

draw::Display display_of(const Page& page) { return page.late ? page.late() : page.display; }

void number_pages(const Book& book, std::vector<Page>& pages) {
  const Furniture furniture = {book.paper, book.quilt.title, draw::finished_size(book.quilt, book.plan), pages.size()};
  for (std::size_t i = 0; i < pages.size(); ++i) {
    Page& page = pages[i];
    if (page.bare) continue;
    if (page.late) {
      page.late = [furniture, number = i + 1, bare = page] {
        return furnished(bare, display_of(bare), number, furniture);
      };
    } else {
      page.display = furnished(page, page.display, i + 1, furniture);
    }
  }
}

double add_paragraph(draw::Display& display, const std::string& words, draw::Vec top_left, double width, double size,
                     const draw::Colour& colour) {
  display.add(draw::Opening{draw::Opening::Kind::paragraph, {}});
  double base = top_left.y + size;
  for (const std::string& line : draw::broken(words, size, width)) {
    display.add(Text{line, {top_left.x, base}, size, Anchor::left, false, colour, Role::body});
    base += 1.35 * size;
  }
  display.add(draw::Closing{});
  return base - 0.65 * size;
}

std::vector<std::string> lines_of(const std::string& words, double size, double width, std::size_t most, bool bold) {
  std::vector<std::string> lines = draw::broken(words, size, width, bold);
  if (lines.size() <= most) return lines;
  std::size_t told = 0;
  for (std::size_t i = 0; i + 1 < most; ++i) told = words.find(lines[i], told) + lines[i].size();
  const std::size_t rest = std::min(words.find_first_not_of(' ', told), words.size());
  lines.resize(most);
  lines.back() = draw::shortened(words.substr(rest), size, width, bold);
  return lines;
}

std::string row_name(int row) { return "R" + std::to_string(row + 1); }
std::string column_name(int column) { return "C" + std::to_string(column + 1); }

void add_word(draw::Display& display, const std::string& words, draw::Vec at, double width, double size, bool bold) {
  display.add(draw::Text{draw::shortened(words, size, width, bold), at, size, draw::Anchor::left, bold, draw::kInk,
                         draw::Role::body});
}

void add_figure(draw::Display& display, std::string says, const draw::Display& part, draw::Vec at, double scale) {
  display.add(draw::Opening{draw::Opening::Kind::figure, std::move(says)});
  draw::place(display, part, at, scale);
  display.add(draw::Closing{});
}

}  // namespace farflung::sheet
