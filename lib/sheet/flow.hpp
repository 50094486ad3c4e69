// Pages that are filled from the top down, a new one begun where something does not fit.
#pragma once

#include <string>
#include <vector>

#include "sheet/book.hpp"

namespace farflung::sheet {

/// Sizes of words on the pages for the workroom, in points: read from a step away.
constexpr double kBodySize = 10;
/// Of notes and of words within tables.
constexpr double kSmallSize = 8;

/// The book must outlive it. Heights and widths are in points.
class Flow {
 public:
  Flow(const Book& book, std::string section, std::string part);

  /// The page that is being filled.
  draw::Display& display();

  /// A band as wide as the page and so high; nothing that stands in it is parted by a page's end.
  draw::Box take(double height);

  /// Begins a new page unless so much is left on this one.
  void keep(double height);

  /// Leaves some room, but not at the top of a page.
  void gap(double height);

  /// A bold line, kept together with what comes next (`with` high).
  void heading(const std::string& words, double with = 40);

  /// A paragraph, its lines never parted.
  void paragraph(const std::string& words, double size = kBodySize, const draw::Colour& colour = draw::kInk);

  /// How much of a page that takes.
  double paragraph_height(const std::string& words, double size = kBodySize) const;

  /// The same, with a box before it to tick.
  void tick(const std::string& words, double size = kBodySize);
  /// How much of a page that takes.
  double tick_height(const std::string& words, double size = kBodySize) const;

  double width() const { return room_.width; }
  /// Of an empty page, between its header and its footer.
  double height() const { return room_.height; }
  /// Points between what stands lowest and the footer.
  double left_on_page() const { return pages_.empty() ? room_.height : room_.bottom() - y_; }
  const Book& book() const { return book_; }

  std::vector<Page> pages() && { return std::move(pages_); }

 private:
  void new_page();

  const Book& book_;
  std::string section_, part_;
  draw::Box room_;
  double y_ = 0;
  std::vector<Page> pages_;
};

/// How high a paragraph comes out.
double height_of(const std::string& words, double size, double width);

/// A square to tick, `side` points, its foot on `base`.
void add_tick(draw::Display& display, double left, double base, double side = 9);

/// The tick in such a square: done.
void add_done(draw::Display& display, double left, double base, double side = 9);

}  // namespace farflung::sheet
