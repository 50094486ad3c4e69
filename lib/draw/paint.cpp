#include "draw/paint.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <cairo-pdf.h>
#include <cairo.h>
#include <pango/pangocairo.h>

#include "draw/radians.hpp"
#include "draw/type.hpp"

namespace farflung::draw {
namespace {

void attach(cairo_surface_t* surface, const char* kind, std::string bytes) {
  auto* held = new std::string(std::move(bytes));
  cairo_surface_set_mime_data(
      surface, kind, reinterpret_cast<const unsigned char*>(held->data()), held->size(),
      [](void* data) { delete static_cast<std::string*>(data); }, held);
}

Surface surface_of(const Picture& picture, Bolts::Encode encode) {
  Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width, picture.height));
  cairo_surface_flush(surface.get());
  unsigned char* bytes = cairo_image_surface_get_data(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  for (int y = 0; y < picture.height; ++y) {
    auto* row = reinterpret_cast<std::uint32_t*>(bytes + static_cast<std::ptrdiff_t>(y) * stride);
    for (int x = 0; x < picture.width; ++x) {
      const std::uint8_t* p = picture.at(x, y);
      row[x] = 0xFF000000U | (p[0] << 16U) | (p[1] << 8U) | p[2];
    }
  }
  cairo_surface_mark_dirty(surface.get());
  if (encode != nullptr) attach(surface.get(), CAIRO_MIME_TYPE_JPEG, encode(picture));
  return surface;
}

/// The tile and its first `lap` rows and columns again beyond its far edges.
Picture lapping(const Picture& tile, int lap) {
  Picture result = blank(tile.width + lap, tile.height + lap);
  for (int y = 0; y < result.height; ++y) {
    for (int x = 0; x < result.width; ++x) std::copy_n(tile.at(x % tile.width, y % tile.height), 3, result.at(x, y));
  }
  return result;
}

void trace(cairo_t* context, const Outline& outline, bool closed) {
  cairo_new_path(context);
  for (Vec p : outline) cairo_line_to(context, p.x, p.y);
  if (closed) cairo_close_path(context);
}

void set_colour(cairo_t* context, const Colour& c) { cairo_set_source_rgba(context, c.red, c.green, c.blue, c.alpha); }

/// The tags of PDF 1.7, 14.8.4, for what an opening opens.
const char* tag_of(Opening::Kind kind) {
  switch (kind) {
    case Opening::Kind::figure:
      return "Figure";
    case Opening::Kind::heading:
      return "H1";
    case Opening::Kind::table:
      return "Table";
    case Opening::Kind::row:
      return "TR";
    case Opening::Kind::cell:
      return "TD";
    case Opening::Kind::paragraph:
      break;
  }
  return "P";
}

/// The piece as it lay on the bolt: where the bolt's corner comes to lie on the display, and what is seen of it.
struct Lay {
  bool fits = false;  ///< the piece was cut from one swatch; else from the cloth that the swatch repeats
  Vec corner;         ///< of the bolt, in pixels of the bolt from the turned display's origin
  Box piece;          ///< the same
};

Lay lay_of(const Cloth& cloth, Bolts& bolts, Bolts::Bolt& bolt, Outline outline, double angle, double pixel) {
  for (Vec& p : outline) {
    p = 1 / pixel * Vec{p.x * std::cos(angle) + p.y * std::sin(angle), -p.x * std::sin(angle) + p.y * std::cos(angle)};
  }
  Lay lay;
  lay.piece = box_of(outline);
  lay.fits = lay.piece.width <= bolt.whole.width + 0.5 && lay.piece.height <= bolt.whole.height + 0.5;
  const double spare_width = lay.fits ? bolt.whole.width - lay.piece.width : bolts.tile(bolt).width;
  const double spare_height = lay.fits ? bolt.whole.height - lay.piece.height : bolts.tile(bolt).height;
  lay.corner = {lay.piece.left - cloth.across * spare_width, lay.piece.top - cloth.down * spare_height};
  return lay;
}

class Painting {
 public:
  Painting(cairo_t* context, Bolts& bolts, const Medium& medium) : context_(context), bolts_(bolts), medium_(medium) {}

  void operator()(const Area& area) {
    trace(context_, area.outline, true);
    if (const auto* cloth = std::get_if<Cloth>(&area.paint)) {
      fill_with(*cloth, area.outline);
    } else {
      set_colour(context_, std::get<Colour>(area.paint));
      cairo_fill(context_);
    }
  }

  void operator()(const Line& line) {
    trace(context_, line.points, line.closed);
    set_colour(context_, line.colour);
    cairo_set_line_width(context_, line.width);
    cairo_set_line_join(context_, CAIRO_LINE_JOIN_MITER);
    cairo_set_line_cap(context_, CAIRO_LINE_CAP_BUTT);
    cairo_set_dash(context_, line.dashes.data(), static_cast<int>(line.dashes.size()), 0);
    cairo_stroke(context_);
    cairo_set_dash(context_, nullptr, 0, 0);
  }

  void operator()(const Relief& relief);
  void operator()(const Text& text);

  void operator()(const Opening& opening) {
    opened_.push_back(tag_of(opening.kind));
    if (medium_.tags) cairo_tag_begin(context_, opened_.back(), nullptr);
  }

  void operator()(const Closing&) {
    if (opened_.empty()) return;
    if (medium_.tags) cairo_tag_end(context_, opened_.back());
    opened_.pop_back();
  }

 private:
  void fill_with(const Cloth& cloth, const Outline& outline);
  void fill_from(cairo_surface_t* surface, Vec at, cairo_extend_t extend, cairo_filter_t filter);
  void lay_tiles(const Lay& lay, Bolts::Bolt& bolt);
  void shade_edge(Vec from, Vec to, const Relief& relief);

  cairo_t* context_;
  Bolts& bolts_;
  Medium medium_;
  std::vector<const char*> opened_;
};

/// Vector surfaces carry few sizes of each swatch: half octaves.
int carried_width(double pixels) {
  return static_cast<int>(std::lround(std::pow(2.0, std::ceil(2 * std::log2(std::max(pixels, 16.0))) / 2)));
}

void Painting::fill_with(const Cloth& cloth, const Outline& outline) {
  if (!bolts_.has(cloth.print) || cloth.width <= 0) {
    set_colour(context_, cloth.plain);
    cairo_fill(context_);
    return;
  }
  const double wanted = cloth.width * medium_.pixels_per_unit;
  const bool exact = medium_.kind == Medium::Kind::pixels;
  Bolts::Bolt& bolt =
      bolts_.at(cloth.print, exact ? std::max(1, static_cast<int>(std::lround(wanted))) : carried_width(wanted));
  // One pixel of the bolt, in units of the display; on pixel surfaces one pixel exactly, where the swatch allows.
  const bool one_to_one = exact && bolt.whole.width == std::lround(wanted);
  const double pixel = one_to_one ? 1 / medium_.pixels_per_unit : cloth.width / bolt.whole.width;
  const double angle = radians(cloth.degrees);
  const Lay lay = lay_of(cloth, bolts_, bolt, outline, angle, pixel);

  Vec origin = pixel * Vec{lay.corner.x * std::cos(angle) - lay.corner.y * std::sin(angle),
                           lay.corner.x * std::sin(angle) + lay.corner.y * std::cos(angle)};
  const bool square_on = std::abs(std::remainder(cloth.degrees, 90)) < 1e-9;
  if (one_to_one && square_on) {  // moved to a whole pixel, so that nothing blurs
    const double k = medium_.pixels_per_unit;
    origin = {std::round(origin.x * k) / k, std::round(origin.y * k) / k};
  }
  cairo_save(context_);
  if (!exact) cairo_clip_preserve(context_);
  cairo_translate(context_, origin.x, origin.y);
  cairo_rotate(context_, angle);
  cairo_scale(context_, pixel, pixel);
  const cairo_filter_t filter = one_to_one && square_on ? CAIRO_FILTER_NEAREST : CAIRO_FILTER_BILINEAR;
  if (exact) {
    fill_from(lay.fits ? bolts_.whole_surface(bolt) : bolts_.tile_surface(bolt), {0, 0},
              lay.fits ? CAIRO_EXTEND_PAD : CAIRO_EXTEND_REPEAT,
              filter);  // the path was laid before the cloth was turned
  } else {
    cairo_new_path(context_);
    lay_tiles(lay, bolt);
  }
  cairo_restore(context_);
}

void Painting::fill_from(cairo_surface_t* surface, Vec at, cairo_extend_t extend, cairo_filter_t filter) {
  cairo_set_source_surface(context_, surface, at.x, at.y);
  cairo_pattern_set_extend(cairo_get_source(context_), extend);
  cairo_pattern_set_filter(cairo_get_source(context_), filter);
  cairo_fill(context_);
}

/// On vector surfaces: the same picture over and over, each lapping over the next, under the clip of the piece.
void Painting::lay_tiles(const Lay& lay, Bolts::Bolt& bolt) {
  const auto paint_at = [&](cairo_surface_t* surface, Vec at) {
    cairo_set_source_surface(context_, surface, at.x, at.y);
    cairo_paint(context_);
  };
  if (lay.fits) {
    paint_at(bolts_.whole_surface(bolt), {0, 0});
    return;
  }
  const Box seen = {lay.piece.left - lay.corner.x, lay.piece.top - lay.corner.y, lay.piece.width, lay.piece.height};
  const int width = bolt.tile.width;
  const int height = bolt.tile.height;
  const auto first = [](double from, int side) { return static_cast<int>(std::floor(from / side)); };
  for (int row = first(seen.top, height); row * height < seen.bottom(); ++row) {
    for (int column = first(seen.left, width); column * width < seen.right(); ++column) {
      paint_at(bolts_.lapping_surface(bolt), {static_cast<double>(column) * width, static_cast<double>(row) * height});
    }
  }
}

/// Three strokes of falling width, clipped to the patch, make the soft edge on every surface without blurring.
void Painting::shade_edge(Vec from, Vec to, const Relief& relief) {
  const Vec along = to - from;
  const double size = length(along);
  if (size <= 0) return;
  // Outward of a clockwise outline; the light comes from the top left.
  const Vec outward = {along.y / size, -along.x / size};
  const double lit = -(outward.x + 1.4 * outward.y) / std::hypot(1, 1.4);
  const double strength = relief.depth * (0.055 + 0.07 * std::abs(lit)) * (lit > 0 ? 0.8 : 1.0);
  const Colour tone = lit > 0.05 ? grey_level(1, strength) : grey_level(0.06, strength);
  set_colour(context_, tone);
  for (double share : {1.0, 0.62, 0.3}) {
    cairo_move_to(context_, from.x, from.y);
    cairo_line_to(context_, to.x, to.y);
    cairo_set_line_width(context_, 2 * relief.width * share);
    cairo_stroke(context_);
  }
}

void Painting::operator()(const Relief& relief) {
  double twice = 0;
  const std::size_t n = relief.outline.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec a = relief.outline[i], b = relief.outline[(i + 1) % n];
    twice += a.x * b.y - a.y * b.x;
  }
  cairo_save(context_);
  trace(context_, relief.outline, true);
  cairo_clip(context_);
  for (std::size_t i = 0; i < n; ++i) {
    const Vec a = relief.outline[i], b = relief.outline[(i + 1) % n];
    twice > 0 ? shade_edge(a, b, relief) : shade_edge(b, a, relief);
  }
  // The ditch: a thin dark line along the seam itself.
  trace(context_, relief.outline, true);
  set_colour(context_, grey_level(0.06, 0.22 * relief.depth));
  cairo_set_line_width(context_, 0.24 * relief.width);
  cairo_set_line_join(context_, CAIRO_LINE_JOIN_MITER);
  cairo_stroke(context_);
  cairo_restore(context_);
}

void Painting::operator()(const Text& text) {
  if (text.words.empty()) return;
  const Layout layout = layout_of(text.words, text.bold);
  PangoRectangle logical;
  pango_layout_get_extents(layout.get(), nullptr, &logical);
  const double width = static_cast<double>(logical.width) / PANGO_SCALE;
  const double shift = text.anchor == Anchor::left ? 0 : text.anchor == Anchor::middle ? width / 2 : width;
  cairo_save(context_);
  cairo_translate(context_, text.at.x, text.at.y);
  cairo_rotate(context_, radians(text.degrees));
  cairo_scale(context_, text.size / kSetSize, text.size / kSetSize);
  cairo_move_to(context_, -shift, -static_cast<double>(pango_layout_get_baseline(layout.get())) / PANGO_SCALE);
  set_colour(context_, text.colour);
  pango_cairo_show_layout(context_, layout.get());
  cairo_restore(context_);
}

}  // namespace

void SurfaceRelease::operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }

bool Bolts::has(int print) const {
  return print >= 0 && print < static_cast<int>(swatches_.size()) && !swatches_[print].empty();
}

Bolts::Bolt& Bolts::at(int print, int pixels) {
  const int width = std::min(pixels, swatches_[print].width);
  const auto [place, fresh] = made_.try_emplace({print, width});
  if (fresh) place->second.whole = reduced(swatches_[print], width);
  return place->second;
}

const Picture& Bolts::tile(Bolt& bolt) {
  if (bolt.tile.empty()) bolt.tile = repeating(bolt.whole);
  return bolt.tile;
}

cairo_surface_t* Bolts::whole_surface(Bolt& bolt) {
  if (!bolt.whole_surface) bolt.whole_surface = surface_of(bolt.whole, encode_);
  return bolt.whole_surface.get();
}

cairo_surface_t* Bolts::tile_surface(Bolt& bolt) {
  if (!bolt.tile_surface) bolt.tile_surface = surface_of(tile(bolt), encode_);
  return bolt.tile_surface.get();
}

cairo_surface_t* Bolts::lapping_surface(Bolt& bolt) {
  if (!bolt.lapping_surface) bolt.lapping_surface = surface_of(lapping(tile(bolt), kLap), encode_);
  return bolt.lapping_surface.get();
}

void paint(cairo_t* context, const Display& display, Bolts& bolts, const Medium& medium) {
  Painting painting(context, bolts, medium);
  for (const Item& item : display.items) std::visit(painting, item);
}

}  // namespace farflung::draw
