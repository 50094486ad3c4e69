#include "photo/vips.hpp"

#include <cstdlib>

#include <glib.h>
#include <vips/vips8>

namespace farflung::photo {

bool vips_ready() {
  static const bool ready = [] {
    if (VIPS_INIT("farflung") != 0) return false;
    // Its warnings go to standard error; what matters of them comes back as an error anyway.
    g_log_set_handler(
        "VIPS", G_LOG_LEVEL_WARNING, [](const gchar*, GLogLevelFlags, const gchar*, gpointer) {}, nullptr);
    vips_block_untrusted_set(TRUE);
    vips_cache_set_max(0);
    vips_concurrency_set(1);  // a photograph is read once, row by row: threads would only cost memory
    return true;
  }();
  return ready;
}

}  // namespace farflung::photo
