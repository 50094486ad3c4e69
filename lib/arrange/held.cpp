#include "arrange/held.hpp"

namespace farflung::arrange {

std::vector<score::Held> held_in(const quilt::Quilt& quilt, const score::Model& model) {
  std::vector<score::Held> held;
  for (const int cell : model.cell) {
    const int block = quilt.layout.block[cell];
    held.push_back({block, model.form_of_block(block, quilt.layout.turn[cell])});
  }
  return held;
}

void lay(const std::vector<score::Held>& held, const score::Model& model, setting::Arrangement& layout) {
  for (int i = 0; i < model.places; ++i) {
    layout.block[model.cell[i]] = held[i].block;
    layout.turn[model.cell[i]] = model.forms[held[i].form].turn;
  }
}

}  // namespace farflung::arrange
