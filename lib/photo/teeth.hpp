// The teeth that pinking shears leave along a cloth's sides. Internal to photo.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "photo/sides.hpp"

namespace farflung::photo {

constexpr double kToothDepth = 0.48;  ///< depth over pitch of pinked teeth: shears cut them square

/// How widely an edge wanders along teeth of a pitch, seen through a blur of that standard deviation: the amplitude of
/// its first harmonic, all in pixels.
double amplitude_of_teeth(double pitch, double blur);

/// The pitch in pixels of the teeth along a side of so many pixels, where `points` wander evenly about `line`. Seen at
/// a slant they grow along it: then the pitch in its middle. Nothing where there are fewer than 14 teeth, or too fine
/// ones, or too few points.
std::optional<double> pitch_of_teeth(const std::vector<Crossing>& points, const Line& line, double length);

/// The squared half amplitude that each number of teeth carries of how far outward the points lie. `length` is that in
/// pixels between `along` 0 and 1; the points may be of a part of it. Empty where it has no room for the fewest teeth.
std::vector<double> carried_by_teeth(const std::vector<Crossing>& points, double length);

/// How many teeth between `along` 0 and 1 the value at `index` of carried_by_teeth is for.
double teeth_at(std::size_t index);

/// The median of what is carried at most `reach` values from `index`.
double usual_about(const std::vector<double>& carried, std::size_t index, std::size_t reach);

/// Of the pitches of four sides, 0 where there is none: the middle one, where at least so many are alike but for the
/// slant; else 0.
double common_pitch(const std::array<double, 4>& of_sides, int least);

/// How one side of a cloth wanders, in pixels.
struct Wandering {
  double length = 0;  ///< of the side
  double pitch = 0;   ///< 0 where it does not wander evenly
  double depth = 0;   ///< between the tenth and the ninetieth percentile of its places
};

/// The pitches of four sides that shears have pinked all round: as deep for their pitch as shears cut, as many along
/// two opposite sides, and alike along a third. A fourth, on which none are told, has its opposite's number. Prints
/// that repeat along their rim have no such teeth.
std::optional<std::array<double, 4>> pinked_round(const std::array<Wandering, 4>& sides);

}  // namespace farflung::photo
