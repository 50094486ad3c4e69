// The small marks that sheets share: code plates, swatch chips, turn arrows, row and column names.
#pragma once

#include <string>

#include "sheet/book.hpp"

namespace farflung::sheet {

/// Print codes are drawn so large that their capitals stand 5 mm high: readable at arm's length.
constexpr double kCodeSize = 5.15 * kPointsPerMillimetre / draw::kCapHeight;
/// Points, of a capital.
constexpr double kCodeHeight = kCodeSize * draw::kCapHeight;

/// The room a code's white plate takes.
draw::Box plate_around(const std::string& code, draw::Vec centre, double size = kCodeSize);

/// The code in black on a white plate with a dark rim, so that it survives a photocopy on any cloth.
void add_plate(draw::Display& display, const std::string& code, draw::Vec centre, double size = kCodeSize);

/// Bold capitals centred on a point.
void add_code(draw::Display& display, const std::string& code, draw::Vec centre, double size = kCodeSize,
              draw::Anchor anchor = draw::Anchor::middle);

/// A snip of the print's cloth, at the scale of `points_per_inch` (cloth inches), with a hairline rim.
void add_chip(draw::Display& display, const quilt::Quilt& quilt, int print, const draw::Box& box,
              double points_per_inch);

/// A triangle that points from `centre` out over the block's own top edge, which lies `reach` away at `degrees`
/// clockwise from straight up.
void add_top_arrow(draw::Display& display, draw::Vec centre, double reach, double degrees, double size);

/// How far a cell's block is turned on the wall, on point included: degrees clockwise.
double degrees_of_cell(const Book& book, int cell);

/// Whether the way up of the block in `cell` is a matter at all: its pattern takes more than one turn, or it is turned.
bool turn_matters(const quilt::Quilt& quilt, int cell);

/// The codes are capitals; where a print has none yet, its id.
std::string code_of(const quilt::Quilt& quilt, int print);

/// The prints of a block by slot, each once, without the slots that hold the same print in every block (all of them,
/// where every slot is so).
std::vector<int> prints_dealt(const quilt::Quilt& quilt, int block);

/// What someone is told who cannot see the cell: "R3 C5: block B012, Kelp (K) and Foghorn (F), a quarter turn, kept".
std::string says_of_cell(const Book& book, int cell);

}  // namespace farflung::sheet
