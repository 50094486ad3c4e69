#include "sheet/pdf.hpp"

#include <exception>

#include <cairo-pdf.h>
#include <cairo.h>

#include "draw/paint.hpp"
#include "sheet/pdf_file.hpp"

namespace farflung::sheet {
namespace {

constexpr double kPixelsPerPoint = 200 / kPointsPerInch;

struct ContextRelease {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
};
using Context = std::unique_ptr<cairo_t, ContextRelease>;

cairo_status_t append(void* closure, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

std::string encoded(const draw::Picture& picture) { return jpeg_of(picture.rgb.data(), picture.width, picture.height); }

void bookmark(cairo_surface_t* surface, const std::string& section, std::size_t page) {
  const std::string link = "page=" + std::to_string(page);
  cairo_pdf_surface_add_outline(surface, CAIRO_PDF_OUTLINE_ROOT, section.c_str(), link.c_str(),
                                static_cast<cairo_pdf_outline_flags_t>(0));
}

Result<std::string> drawn(const std::vector<Page>& pages, const draw::Swatches& swatches, const std::string& title) {
  std::string bytes;
  const draw::Surface surface(cairo_pdf_surface_create_for_stream(append, &bytes, 612, 792));
  cairo_pdf_surface_restrict_to_version(surface.get(), CAIRO_PDF_VERSION_1_5);
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "Farflung");
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
  draw::Bolts bolts(swatches, encoded);
  const Context context(cairo_create(surface.get()));
  std::string section;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const draw::Display& display = pages[i].display;
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
  return bytes;
}

std::vector<std::string> alternatives(const std::vector<Page>& pages) {
  std::vector<std::string> result;
  for (const Page& page : pages) {
    for (const draw::Item& item : page.display.items) {
      const auto* opening = std::get_if<draw::Opening>(&item);
      if (opening != nullptr && opening->kind == draw::Opening::Kind::figure) result.push_back(opening->says);
    }
  }
  return result;
}

}  // namespace

Result<std::string> pdf(const std::vector<Page>& pages, const draw::Swatches& swatches, const std::string& title) {
  if (pages.empty()) return input_problem("sheets", "there is no page to print");
  try {
    const auto bytes = drawn(pages, swatches, title);
    if (!bytes) return bytes.problems();
    return finished_pdf(*bytes, alternatives(pages));
  } catch (const std::exception& failure) {
    return system_problem("sheets", std::string("the PDF could not be written: ") + failure.what());
  }
}

}  // namespace farflung::sheet
