#include "sheet/pdf.hpp"

#include <exception>

#define POINTERHOLDER_TRANSITION 4  // qpdf: std::shared_ptr throughout
#include <cairo-pdf.h>
#include <cairo.h>
#include <qpdf/Buffer.hh>
#include <qpdf/Pl_Buffer.hh>
#include <qpdf/Pl_DCT.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>

#include "draw/paint.hpp"

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

/// Colour as sharp as lightness: small motifs would bleed otherwise.
class SharpColour : public Pl_DCT::CompressConfig {
 public:
  void apply(jpeg_compress_struct* jpeg) override {
    jpeg->comp_info[0].h_samp_factor = jpeg->comp_info[0].v_samp_factor = 1;
  }
};

std::string jpeg_of(const draw::Picture& picture) {
  Pl_Buffer file("jpeg");
  SharpColour config;
  Pl_DCT encoder("encoder", &file, static_cast<JDIMENSION>(picture.width), static_cast<JDIMENSION>(picture.height), 3,
                 JCS_RGB, &config);
  encoder.write(picture.rgb.data(), picture.rgb.size());
  encoder.finish();
  const std::shared_ptr<Buffer> bytes = file.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize()};
}

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
  draw::Bolts bolts(swatches, jpeg_of);
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

/// Gives each figure of the structure tree, in reading order, its alternative text.
void describe_figures(QPDFObjectHandle node, const std::vector<std::string>& says, std::size_t& next) {
  if (!node.isDictionary()) return;
  if (node.getKey("/S").isNameAndEquals("/Figure") && next < says.size()) {
    node.replaceKey("/Alt", QPDFObjectHandle::newUnicodeString(says[next++]));
  }
  QPDFObjectHandle children = node.getKey("/K");
  if (children.isArray()) {
    for (int i = 0; i < children.getArrayNItems(); ++i) describe_figures(children.getArrayItem(i), says, next);
  } else {
    describe_figures(children, says, next);
  }
}

std::string finished(const std::string& bytes, const std::vector<std::string>& says) {
  QPDF file;
  file.setSuppressWarnings(true);  // of keys that Cairo writes twice; writing anew mends them
  file.processMemoryFile("sheets", bytes.data(), bytes.size());
  QPDFObjectHandle root = file.getRoot();
  root.replaceKey("/Lang", QPDFObjectHandle::newString("en"));
  root.replaceKey("/MarkInfo", QPDFObjectHandle::parse("<< /Marked true >>"));
  root.replaceKey("/ViewerPreferences", QPDFObjectHandle::parse("<< /DisplayDocTitle true >>"));
  std::size_t next = 0;
  describe_figures(root.getKey("/StructTreeRoot"), says, next);
  QPDFObjectHandle info = file.getTrailer().getKey("/Info");
  if (info.isDictionary()) info.removeKey("/CreationDate");

  QPDFWriter writer(file);
  writer.setOutputMemory();
  writer.setDeterministicID(true);
  writer.setObjectStreamMode(qpdf_o_generate);
  writer.setStreamDataMode(qpdf_s_compress);
  writer.write();
  const std::shared_ptr<Buffer> buffer = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

}  // namespace

Result<std::string> pdf(const std::vector<Page>& pages, const draw::Swatches& swatches, const std::string& title) {
  if (pages.empty()) return input_problem("sheets", "there is no page to print");
  try {
    const auto bytes = drawn(pages, swatches, title);
    if (!bytes) return bytes.problems();
    return finished(*bytes, alternatives(pages));
  } catch (const std::exception& failure) {
    return system_problem("sheets", std::string("the PDF could not be written: ") + failure.what());
  }
}

}  // namespace farflung::sheet
