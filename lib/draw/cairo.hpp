// What every user of Cairo needs of it beside a surface to paint on.
#pragma once

#include <memory>
#include <string>

#include <cairo.h>

namespace farflung::draw {

/// Gives the context back to Cairo.
struct ContextRelease {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
};
using Context = std::unique_ptr<cairo_t, ContextRelease>;

/// Takes what Cairo writes (cairo_write_func_t) to the end of a std::string.
inline cairo_status_t append(void* text, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(text)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace farflung::draw
