// How much room words take: measured with the fonts that will draw them, so that what fits here fits on paper.
#pragma once

#include <string>
#include <vector>

#include "draw/display.hpp"

namespace farflung::draw {

/// The font of every page and picture; other scripts come from whatever fontconfig finds next.
constexpr const char* kFont = "DejaVu Sans";

/// The advance width of one line, in the units of `size`.
double width_of(const std::string& words, double size, bool bold = false);

/// Where a line of words lies: its advance by its ascent and descent (turned words: the box around them).
Box box_of(const Text& text);

/// The largest size up to `size` at which the words are no wider than `width`, but not below `least`.
double size_within(const std::string& words, double size, double least, double width, bool bold = false);

/// The words, cut short with an ellipsis where they would be wider than `width`.
std::string shortened(const std::string& words, double size, double width, bool bold = false);

/// A paragraph in lines no wider than `width`, broken where its language allows.
std::vector<std::string> broken(const std::string& words, double size, double width, bool bold = false);

/// The words with their first letter large, where it is one of the Latin alphabet's own.
std::string capital(std::string words);

}  // namespace farflung::draw
