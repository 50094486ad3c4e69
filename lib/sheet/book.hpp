// What every sheet is made from, and what it makes: pages that still lack their numbers.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "cloth/workroom.hpp"
#include "draw/cell_marks.hpp"
#include "draw/display.hpp"
#include "quilt/print_name.hpp"
#include "quilt/quilt.hpp"
#include "sheet/paper.hpp"

namespace farflung::sheet {

/// The quilt must outlive its book; pages that need `workroom` say so.
struct Book {
  const quilt::Quilt& quilt;
  setting::Plan plan;
  Paper paper;
  std::vector<draw::CellMark> marks = {};  ///< what the placement map marks: cells that are wrong on the wall
  std::shared_ptr<const cloth::Workroom> workroom = nullptr;  ///< for the pages of cutting, buying and sewing
  bool left_handed = false;                                   ///< cutting plans start from the right edge
};

/// One page: its display is the whole paper, in points.
struct Page {
  std::string section;  ///< "Placement map"
  std::string part;     ///< "rows 1 to 3, places 1 to 4"; may be empty
  draw::Display display;
  bool bare = false;  ///< without header and footer: the cover and the reference page, which have their own
  /// Where there may be hundreds of pages that each show the whole top: makes `display`, which is empty until then.
  /// The quilt must outlive it.
  std::function<draw::Display()> late = nullptr;
};

/// The page's display, made now if it is late; it is not kept with the page.
draw::Display display_of(const Page& page);

/// A book with its workroom worked out.
Book work_book(const quilt::Quilt& quilt, const Paper& paper, const cloth::WorkroomOptions& options = {});

/// A page of the book's paper with nothing on it yet.
Page blank_page(const Book& book, std::string section, std::string part = {});

/// Gives every page its header, and its footer with the page's number of all.
void number_pages(const Book& book, std::vector<Page>& pages);

/// A paragraph from `top` down; returns where the next may begin. Its lines lead 1.35 ems apart.
double add_paragraph(draw::Display& display, const std::string& words, draw::Vec top_left, double width, double size,
                     const draw::Colour& colour = draw::kInk);

/// Words of a table, from `at` on, cut short where they would be wider than `width`.
void add_word(draw::Display& display, const std::string& words, draw::Vec at, double width, double size,
              bool bold = false);

/// The words in lines no wider than `width`, `most` of them; the last is cut short where that is not enough.
std::vector<std::string> lines_of(const std::string& words, double size, double width, std::size_t most,
                                  bool bold = false);

/// "R3", "C5".
std::string row_name(int row);
std::string column_name(int column);

/// A figure: `part` drawn with its top left corner at `at`, every length times `scale`; `says` is its alternative text.
void add_figure(draw::Display& display, std::string says, const draw::Display& part, draw::Vec at, double scale);

}  // namespace farflung::sheet
