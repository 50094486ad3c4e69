// Pango, set so that words come out the same on every surface and machine. For this module's own files.
#pragma once

#include <memory>
#include <string>

#include <pango/pangocairo.h>

namespace farflung::draw {

/// Gives the layout back to Pango.
struct Unref {
  void operator()(void* object) const { g_object_unref(object); }
};
/// Words set in a font, ready to be measured or drawn.
using Layout = std::unique_ptr<PangoLayout, Unref>;

/// Layouts are set at this size and scaled, so that widths are exactly proportional to size.
constexpr double kSetSize = 100;

/// One line set at kSetSize; bytes that are no UTF-8 are shown as such marks, never passed on.
Layout layout_of(const std::string& words, bool bold);

}  // namespace farflung::draw
