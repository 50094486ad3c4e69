#include "render/render.hpp"

#include <cmath>
#include <map>

#include <cairo-svg.h>

#include "base/limits.hpp"
#include "draw/cairo.hpp"
#include "draw/paint.hpp"

namespace farflung::render {
namespace {

int height_for(const draw::Display& display, int width) {
  return std::max(1, static_cast<int>(std::lround(width * display.height / display.width)));
}

Problems problems_of(const draw::Display& display, int width) {
  if (!(display.width > 0) || !(display.height > 0)) return {input_problem("picture", "there is nothing to draw")};
  if (width < 1) return {input_problem("width", "a picture is at least one pixel wide", "give a width such as 1600")};
  if (width * (width * display.height / display.width) > limits::kDrawnPixels) {
    return {
        input_problem("width", "a picture so wide would have more than 100 million pixels", "give a smaller width")};
  }
  return {};
}

Result<Done> checked(cairo_status_t status) {
  if (status == CAIRO_STATUS_SUCCESS) return Done{};
  return system_problem("picture", std::string("drawing failed: ") + cairo_status_to_string(status));
}

Result<draw::Surface> painted(const draw::Display& display, const draw::Swatches& swatches, int width) {
  if (Problems found = problems_of(display, width); !found.empty()) return found;
  draw::Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height_for(display, width)));
  const draw::Context context(cairo_create(surface.get()));
  cairo_set_source_rgb(context.get(), 1, 1, 1);
  cairo_paint(context.get());
  const double scale = width / display.width;
  cairo_scale(context.get(), scale, scale);
  draw::Bolts bolts(swatches);
  draw::paint(context.get(), display, bolts, {draw::Medium::Kind::pixels, scale});
  if (auto done = checked(cairo_status(context.get())); !done) return done.problems();
  return surface;
}

/// Cairo numbers its definitions through the whole life of a process; here they are numbered by first appearance, so
/// that the same picture is the same file.
std::string renumbered(const std::string& text) {
  static constexpr const char* kNames[] = {"surface", "pattern", "linear", "radial", "clip",
                                           "mask",    "glyph",   "image",  "filter"};
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  std::map<std::string, std::string> names;
  std::map<std::string, int> counts;
  std::string result;
  result.reserve(text.size());
  std::size_t at = 0;
  while (at < text.size()) {
    const bool starts = at > 0 && (text[at - 1] == '"' || text[at - 1] == '#');
    std::string found;
    for (const char* name : kNames) {
      const std::string stem = name;
      if (starts && text.compare(at, stem.size(), stem) == 0 && at + stem.size() < text.size() &&
          is_digit(text[at + stem.size()])) {
        found = stem;
        break;
      }
    }
    if (found.empty()) {
      result += text[at++];
      continue;
    }
    std::size_t end = at + found.size();
    while (end < text.size() && (is_digit(text[end]) || text[end] == '-')) ++end;
    const auto [place, fresh] = names.try_emplace(text.substr(at, end - at));
    if (fresh) place->second = found + std::to_string(counts[found]++);
    result += place->second;
    at = end;
  }
  return result;
}

}  // namespace

Result<std::string> png(const draw::Display& display, const draw::Swatches& swatches, int width) {
  auto surface = painted(display, swatches, width);
  if (!surface) return surface.problems();
  std::string bytes;
  if (auto done = checked(cairo_surface_write_to_png_stream(surface->get(), draw::append, &bytes)); !done) {
    return done.problems();
  }
  return bytes;
}

Result<draw::Picture> pixels(const draw::Display& display, const draw::Swatches& swatches, int width) {
  auto surface = painted(display, swatches, width);
  if (!surface) return surface.problems();
  cairo_surface_flush(surface->get());
  draw::Picture picture = draw::blank(width, height_for(display, width));
  const unsigned char* bytes = cairo_image_surface_get_data(surface->get());
  const int stride = cairo_image_surface_get_stride(surface->get());
  for (int y = 0; y < picture.height; ++y) {
    const auto* row = reinterpret_cast<const std::uint32_t*>(bytes + static_cast<std::ptrdiff_t>(y) * stride);
    for (int x = 0; x < picture.width; ++x) {
      for (int c = 0; c < 3; ++c) picture.at(x, y)[c] = static_cast<std::uint8_t>(row[x] >> (16 - 8 * c));
    }
  }
  return picture;
}

Result<std::string> svg(const draw::Display& display, const draw::Swatches& swatches, int width) {
  if (Problems found = problems_of(display, width); !found.empty()) return found;
  std::string bytes;
  const double scale = width / display.width;
  {
    const draw::Surface surface(
        cairo_svg_surface_create_for_stream(draw::append, &bytes, width, scale * display.height));
    cairo_svg_surface_set_document_unit(surface.get(), CAIRO_SVG_UNIT_PX);
    const draw::Context context(cairo_create(surface.get()));
    cairo_scale(context.get(), scale, scale);
    draw::Bolts bolts(swatches);
    draw::paint(context.get(), display, bolts, {draw::Medium::Kind::vector, 2 * scale});
    cairo_surface_finish(surface.get());
    if (auto done = checked(cairo_surface_status(surface.get())); !done) return done.problems();
  }
  return renumbered(bytes);
}

}  // namespace farflung::render
