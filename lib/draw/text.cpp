#include "draw/text.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "draw/type.hpp"

namespace farflung::draw {
namespace {

struct Options {
  cairo_font_options_t* options = cairo_font_options_create();
  Options() {
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  }
  ~Options() { cairo_font_options_destroy(options); }
  Options(const Options&) = delete;
  Options& operator=(const Options&) = delete;
};

std::unique_ptr<PangoContext, Unref> context() {
  std::unique_ptr<PangoContext, Unref> result(pango_font_map_create_context(pango_cairo_font_map_get_default()));
  const Options hints;
  pango_cairo_context_set_font_options(result.get(), hints.options);
  pango_cairo_context_set_resolution(result.get(), 72);
  pango_context_set_language(result.get(), pango_language_from_string("en"));
  pango_context_set_round_glyph_positions(result.get(), FALSE);
  return result;
}

double in_set_units(int pango) { return static_cast<double>(pango) / PANGO_SCALE / kSetSize; }

struct Extent {
  double width, ascent, descent;  ///< ems
};

Extent extent_of(const std::string& words, bool bold) {
  const Layout layout = layout_of(words, bold);
  PangoRectangle logical;
  pango_layout_get_extents(layout.get(), nullptr, &logical);
  const double base = in_set_units(pango_layout_get_baseline(layout.get()));
  const double top = in_set_units(logical.y);
  return {in_set_units(logical.width), base - top, in_set_units(logical.height) - (base - top)};
}

std::vector<std::string> lines_of(PangoLayout* layout) {
  const std::string words = pango_layout_get_text(layout);
  std::vector<std::string> result;
  for (int i = 0; i < pango_layout_get_line_count(layout); ++i) {
    const PangoLayoutLine* line = pango_layout_get_line_readonly(layout, i);
    std::string text =
        words.substr(static_cast<std::size_t>(line->start_index), static_cast<std::size_t>(line->length));
    while (!text.empty() && text.back() == ' ') text.pop_back();
    result.push_back(std::move(text));
  }
  return result;
}

}  // namespace

Layout layout_of(const std::string& words, bool bold) {
  const auto held = context();
  Layout layout(pango_layout_new(held.get()));
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family(font, kFont);
  pango_font_description_set_weight(font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font, kSetSize * PANGO_SCALE);
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
  gchar* valid = g_utf8_make_valid(words.data(), static_cast<gssize>(words.size()));
  pango_layout_set_text(layout.get(), valid, -1);
  g_free(valid);
  return layout;
}

double width_of(const std::string& words, double size, bool bold) { return size * extent_of(words, bold).width; }

Box box_of(const Text& text) {
  const Extent extent = extent_of(text.words, text.bold);
  const double width = text.size * extent.width;
  const double left = text.anchor == Anchor::left ? 0 : text.anchor == Anchor::middle ? -width / 2 : -width;
  Outline corners = outline_of({left, -text.size * extent.ascent, width, text.size * (extent.ascent + extent.descent)});
  const double angle = text.degrees * std::numbers::pi / 180;
  for (Vec& p : corners) {
    p = text.at + Vec{p.x * std::cos(angle) - p.y * std::sin(angle), p.x * std::sin(angle) + p.y * std::cos(angle)};
  }
  return box_of(corners);
}

double size_within(const std::string& words, double size, double least, double width, bool bold) {
  const double needed = width_of(words, 1, bold);
  return needed * size <= width ? size : std::max(least, width / needed);
}

std::string shortened(const std::string& words, double size, double width, bool bold) {
  if (width_of(words, size, bold) <= width) return words;
  const auto cut_before = [&](std::size_t bytes) {
    while (bytes > 0 && (static_cast<unsigned char>(words[bytes]) & 0xC0) == 0x80) --bytes;
    std::string head = words.substr(0, bytes);
    while (!head.empty() && head.back() == ' ') head.pop_back();
    return head + "\u2026";
  };
  std::size_t fits = 0, too_long = words.size();
  while (too_long - fits > 1) {
    const std::size_t middle = (fits + too_long) / 2;
    (width_of(cut_before(middle), size, bold) <= width ? fits : too_long) = middle;
  }
  return cut_before(fits);
}

std::vector<std::string> broken(const std::string& words, double size, double width, bool bold) {
  const Layout layout = layout_of(words, bold);
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_width(layout.get(), static_cast<int>(std::floor(width / size * kSetSize * PANGO_SCALE)));
  return lines_of(layout.get());
}

std::string capital(std::string words) {
  if (!words.empty()) words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
  return words;
}

}  // namespace farflung::draw
