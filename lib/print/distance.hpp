// How far apart two prints look, a step away.
#pragma once

#include <vector>

#include "print/print.hpp"

namespace farflung::print {

/// The least sum of share times dE00 by which one palette becomes the other (the transport or earth mover's distance:
/// Rubner, Tomasi and Guibas 2000, doi:10.1023/A:1026543900054; exact). Symmetric; two single colours are their dE00
/// apart. Shares are taken as parts of their sum. An empty palette stands for nothing: give palette_of its print.
double transport(const std::vector<PaletteColour>& first, const std::vector<PaletteColour>& second);

/// The palette; where a print has none, its mean alone.
std::vector<PaletteColour> palette_of(const Features& features);

/// In units of dE00: transport between the palettes (where a print has none, its mean), 4 for each doubling of the
/// motif's scale up to two doublings where both are known in inches, 2 where both are known as shares of their swatches
/// alone, and 12 for all the difference in busyness there can be.
/// Symmetric, 0 for a print and itself.
double distance(const Features& first, const Features& second);

}  // namespace farflung::print
