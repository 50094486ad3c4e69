// Small words that several reports share.
#pragma once

#include <string>
#include <vector>

#include "print/print.hpp"
#include "quilt/quilt.hpp"

namespace farflung::choice {

/// "Kelp", "Kelp and Buoy", "Kelp, Buoy and Gannet".
std::string listed(const std::vector<std::string>& words);
/// The names of those prints, listed: "Kelp, Buoy and Gannet".
std::string names_of(const std::vector<print::Print>& prints, const std::vector<int>& which);

/// A number to so many places, "-0" never: rounded(2.25, 1) is "2.3" or "2.2" as printf rounds it.
std::string rounded(double number, int places);

/// "3 1/2 in" to the nearest 1/8, or "89 mm", "8.9 cm".
std::string length_words(Length length, quilt::Units units);

/// 0.5 as "50 %".
std::string percent(double share);

/// "red", "orange", "yellow", "green", "teal", "blue", "purple", "pink", or "grey" below C* 10: by CIELAB hue angle.
std::string hue_name(const colour::Lab& lab);

}  // namespace farflung::choice
