// Laying the cells where the blocks' own seams and edges are seen. Internal to wall.
#pragma once

#include "photo/picture.hpp"
#include "quilt/quilt.hpp"
#include "wall/judge.hpp"

namespace farflung::wall {

/// How well the lines of the pattern in all cells meet edges in the photograph: by how many standard deviations, on the
/// mean of cells, the edges are stronger along them than beside them.
struct Aligned {
  Framed framed;
  double meets = 0;
};

/// Moves the corners to where the patterns' seams and the blocks' raw edges meet edges in the photograph, from as far
/// as a quarter of a block away. What finds no better place stays.
Aligned aligned(const photo::Picture& photograph, const quilt::Quilt& quilt, Framed framed);

/// Then moves each cell by itself, as blocks hang a little astray; those that are no clearer elsewhere stay.
Framed each_by_itself(const photo::Picture& photograph, const quilt::Quilt& quilt, Framed framed);

}  // namespace farflung::wall
