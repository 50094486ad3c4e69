// Words on a crowded drawing: put where none stand yet, or left out.
#pragma once

#include <vector>

#include "draw/display.hpp"

namespace farflung::sheet {

/// Points: of the smallest words that are read at the cutting table or the machine.
constexpr double kLeastSize = 7;

/// Remembers every box that words or drawings take up, in the units of the display.
class Lettering {
 public:
  /// Keeps words out of `box`.
  void block(const draw::Box& box) { taken_.push_back(box); }

  /// Adds the words unless they would run into others; whether they stand now.
  bool add(draw::Display& display, const draw::Text& text);

  /// The same on a white plate. Words keep clear of words, not of plates.
  bool add_on_plate(draw::Display& display, const draw::Outline& plate, const draw::Text& text);

  /// The same within a small round plate, at the first of these places that is free.
  bool add_numbered(draw::Display& display, int number, const std::vector<draw::Vec>& places, double size);

 private:
  bool is_free(const draw::Box& box) const;

  std::vector<draw::Box> taken_;
};

}  // namespace farflung::sheet
