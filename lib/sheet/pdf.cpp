#include "sheet/pdf.hpp"

#include <exception>

#include <cairo-pdf.h>

#include "draw/cairo.hpp"
#include "draw/paint.hpp"
#include "sheet/pdf_file.hpp"

namespace farflung::sheet {
namespace {

constexpr double kPixelsPerPoint = 200 / kPointsPerInch;

std::string encoded(const draw::Picture& picture) { return jpeg_of(picture.rgb.data(), picture.width, picture.height); }

void bookmark(cairo_surface_t* surface, const std::string& section, std::size_t page) {
  const std::string link = "page=" + std::to_string(page);
  cairo_pdf_surface_add_outline(surface, CAIRO_PDF_OUTLINE_ROOT, section.c_str(), link.c_str(),
                                static_cast<cairo_pdf_outline_flags_t>(0));
}

/// Adds what the figures of a page say, in the order in which they are read.
void add_alternatives(const draw::Display& display, std::vector<std::string>& says) {
  for (const draw::Item& item : display.items) {
    const auto* opening = std::get_if<draw::Opening>(&item);
    if (opening != nullptr && opening->kind == draw::Opening::Kind::figure) says.push_back(opening->says);
  }
}

/// The pages as Cairo writes them, and what their figures say. Each is let go before the next is drawn.
struct Drawn {
  std::string bytes;
  std::vector<std::string> says;
};

Result<Drawn> drawn(const std::vector<Page>& pages, const draw::Swatches& swatches, const std::string& title) {
  Drawn result;
  const draw::Surface surface(cairo_pdf_surface_create_for_stream(draw::append, &result.bytes, 612, 792));
  cairo_pdf_surface_restrict_to_version(surface.get(), CAIRO_PDF_VERSION_1_5);
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "Farflung");
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
  draw::Bolts bolts(swatches, encoded);
  const draw::Context context(cairo_create(surface.get()));
  std::string section;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const draw::Display display = display_of(pages[i]);
    add_alternatives(display, result.says);
    cairo_pdf_surface_set_size(surface.get(), display.width, display.height);
    if (pages[i].section != section) bookmark(surface.get(), section = pages[i].section, i + 1);
    draw::paint(context.get(), display, bolts, {draw::Medium::Kind::vector, kPixelsPerPoint, true});
    cairo_show_page(context.get());
  }
  cairo_surface_finish(surface.get());
  for (const cairo_status_t status : {cairo_status(context.get()), cairo_surface_status(surface.get())}) {
    if (status != CAIRO_STATUS_SUCCESS) {
      return system_problem("sheets", std::string("drawing failed: ") + cairo_status_to_string(status));
    }
  }
  return result;
}

}  // namespace

Result<std::string> pdf(const std::vector<Page>& pages, const draw::Swatches& swatches, const std::string& title) {
  if (pages.empty()) return input_problem("sheets", "there is no page to print");
  try {
    const auto made = drawn(pages, swatches, title);
    if (!made) return made.problems();
    return finished_pdf(made->bytes, made->says);
  } catch (const std::exception& failure) {
    return system_problem("sheets", std::string("the PDF could not be written: ") + failure.what());
  }
}

}  // namespace farflung::sheet
