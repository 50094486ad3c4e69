// Sizes as a ruler has them: an exact length, the mark at which it is cut, and what lies between the two.
#pragma once

#include <string>

#include "base/length.hpp"
#include "quilt/quilt.hpp"

namespace farflung::cloth {

/// The marks that a cutting ruler carries.
enum class Ruler { eighths, sixteenths, millimetres };

/// Inch quilts are cut to 1/8 in (1/16 where asked), metric ones to the millimetre.
Ruler ruler_for(quilt::Units units, bool sixteenths = false);

/// From one mark to the next.
constexpr Length step_of(Ruler ruler) {
  return ruler == Ruler::eighths      ? Length::inches(0.125)
         : ruler == Ruler::sixteenths ? Length::inches(0.0625)
                                      : Length::millimetres(1);
}

/// Lengths nearer than this (0.00008 in) to a mark are on it: roots and turned corners come out no more exact. A row of
/// forty such differences is still thinner than a thread.
constexpr Length kHair = Length::millimetres(0.002);

/// An exact length beside the one that is cut. Guarantees: `cut` is on the ruler and never less than `exact` by more
/// than kHair, nor more than it by a whole step.
struct Measured {
  Length exact, cut;
  Ruler ruler = Ruler::eighths;

  bool on_ruler() const;  ///< nothing to trim
  Length over() const;    ///< cut - exact, zero where they agree within kHair
  friend bool operator==(const Measured&, const Measured&) = default;
};

/// Marks of the ruler at, above, below and nearest to a length; within kHair of a mark it is that mark; half way goes
/// up.
bool falls_on(Length length, Ruler ruler);
Length up_to_mark(Length length, Ruler ruler);
Length down_to_mark(Length length, Ruler ruler);
Length nearest_mark(Length length, Ruler ruler);
Measured measured(Length exact, Ruler ruler);

/// A sewn unit as it is measured and trimmed. In inches exact, on its mark within kHair of one; in millimetres up to
/// the next half, which the eye finds between two marks: no unit is trimmed short, none by half a millimetre too wide.
Length trimmed(Length exact, Ruler ruler);

/// The number of steps from zero to a length: rounded up, or down.
int steps_up(Length length, Ruler ruler);
int steps_down(Length length, Ruler ruler);

/// As it is read: "4 7/8 in", "124 mm"; between marks in decimals of an inch, never rounded to a mark, "4.854 in", or
/// up to the next half millimetre, as a unit is trimmed: "123.5 mm" for 123.3. Under 10 mm, as seams are, to the
/// hundredth: "6.35 mm".
std::string said(Length length, Ruler ruler);

/// "4 7/8 x 2 1/2 in".
std::string said(Length width, Length height, Ruler ruler);

/// Says what cutting at the mark adds: "4 7/8 in (exactly 4.854: 0.021 to trim)", "93 mm (92.5 needed: 0.5 to trim)";
/// only the size where nothing is added, or less than half a millimetre.
std::string said(const Measured& size);

/// Eighths as they are said in a shop: "1 3/8", "1/2", "2".
std::string fraction_text(double value);
/// What is bought or pulled, with its unit: yards in eighths, all else to a tenth.
std::string amount_text(double amount, const std::string& unit);

/// A bare number with up to `decimals` places and no trailing zeros: "4.854", "80".
std::string number(double value, int decimals = 3);

}  // namespace farflung::cloth
