// Lengths as people write them: "2 1/2", "3/8", "2.5", "8,9 cm", `3 1/2"`.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/length.hpp"

namespace farflung {

/// What a length may be typed in; a yard is 36 in.
enum class LengthUnit { inches, feet, yards, millimetres, centimetres, metres };

/// A length that was typed; one without a unit is in `unit`. None where it is not a length, or beyond +-10 km.
///
/// Understands whole numbers, decimals with point or comma, fractions with or without a whole number before them ("2
/// 1/2", "2-1/2", "2½"), a sign, and the units in, inch, inches, ", ft, foot, feet, yd, yard, yards, mm, cm, m. "1,000"
/// is refused: it could be one or a thousand.
///
///   length_from_text("2 1/2", LengthUnit::inches) == Length::inches(2.5);
///   length_from_text("8,9 cm", LengthUnit::inches) == Length::millimetres(89);
std::optional<Length> length_from_text(std::string_view text, LengthUnit unit);

/// Inches as a ruler is read, to the nearest 1/`parts` (a power of two): "3 1/2", "1/4", "0", "-1 3/8".
std::string ruler_text(Length length, int parts = 16);

/// A length in millimetres or, from 10 mm up, in centimetres to the millimetre: "6 mm", "8.9 cm".
std::string metric_text(Length length);

}  // namespace farflung
