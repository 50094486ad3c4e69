#include "cloth/ruler.hpp"

#include <cmath>
#include <cstdint>
#include <cstdio>

#include "base/length_text.hpp"

namespace farflung::cloth {
namespace {

// Whole nanometres: every mark of every ruler is exact in them.
std::int64_t nanometres(Length length) { return std::llround(length.millimetres() * 1e6); }

std::int64_t floor_steps(std::int64_t length, std::int64_t step) {
  return length >= 0 ? length / step : -((-length + step - 1) / step);
}

const char* unit_of(Ruler ruler) { return ruler == Ruler::millimetres ? " mm" : " in"; }

constexpr Length kNarrow = Length::millimetres(10);

/// As a unit is trimmed; what is narrow, a seam allowance of 6.35 mm, as it is.
std::string metric(Length length) {
  return length < kNarrow ? number(length.millimetres(), 2)
                          : number(trimmed(length, Ruler::millimetres).millimetres(), 1);
}

std::string bare(Length length, Ruler ruler) {
  if (!falls_on(length, ruler)) return ruler == Ruler::millimetres ? metric(length) : number(length.inches());
  const Length mark = nearest_mark(length, ruler);
  return ruler == Ruler::millimetres ? number(mark.millimetres(), 0) : ruler_text(mark, 16);
}

}  // namespace

Ruler ruler_for(quilt::Units units, bool sixteenths) {
  if (units != quilt::Units::inches) return Ruler::millimetres;
  return sixteenths ? Ruler::sixteenths : Ruler::eighths;
}

bool Measured::on_ruler() const { return over() == Length(); }

Length Measured::over() const {
  const Length difference = cut - exact;
  return difference > kHair ? difference : Length();
}

int steps_down(Length length, Ruler ruler) {
  return static_cast<int>(floor_steps(nanometres(length + kHair), nanometres(step_of(ruler))));
}

int steps_up(Length length, Ruler ruler) {
  return static_cast<int>(-floor_steps(-nanometres(length - kHair), nanometres(step_of(ruler))));
}

Length down_to_mark(Length length, Ruler ruler) { return steps_down(length, ruler) * step_of(ruler); }

Length up_to_mark(Length length, Ruler ruler) { return steps_up(length, ruler) * step_of(ruler); }

Length nearest_mark(Length length, Ruler ruler) {
  const Length below = down_to_mark(length, ruler);
  const Length above = up_to_mark(length, ruler);
  return length - below < above - length ? below : above;
}

bool falls_on(Length length, Ruler ruler) { return steps_down(length, ruler) == steps_up(length, ruler); }

Measured measured(Length exact, Ruler ruler) { return {exact, up_to_mark(exact, ruler), ruler}; }

Length trimmed(Length exact, Ruler ruler) {
  if (ruler != Ruler::millimetres) return falls_on(exact, ruler) ? nearest_mark(exact, ruler) : exact;
  constexpr std::int64_t kHalf = 500'000;
  return Length::millimetres(static_cast<double>(-floor_steps(-nanometres(exact - kHair), kHalf)) / 2);
}

std::string number(double value, int decimals) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  std::string result = text;
  if (result.find('.') != std::string::npos) {
    result.erase(result.find_last_not_of('0') + 1);
    if (result.back() == '.') result.pop_back();
  }
  return result == "-0" ? "0" : result;
}

std::string fraction_text(double value) { return ruler_text(Length::inches(value), 8); }

std::string amount_text(double amount, const std::string& unit) {
  return (unit == "yd" ? fraction_text(amount) : number(amount, 1)) + " " + unit;
}

std::string said(Length length, Ruler ruler) { return bare(length, ruler) + unit_of(ruler); }

std::string said(Length width, Length height, Ruler ruler) {
  return bare(width, ruler) + " x " + bare(height, ruler) + unit_of(ruler);
}

std::string said(const Measured& size) {
  std::string cut = said(size.cut, size.ruler);
  if (size.on_ruler()) return cut;
  if (size.ruler == Ruler::millimetres) {
    const Length needed = trimmed(size.exact, size.ruler);
    if (nanometres(size.cut - needed) <= 0) return cut;
    return cut + " (" + metric(needed) + " needed: " + metric(size.cut - needed) + " to trim)";
  }
  return cut + " (exactly " + number(size.exact.inches()) + ": " + number(size.over().inches()) + " to trim)";
}

}  // namespace farflung::cloth
