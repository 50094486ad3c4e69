#include "arrange/freedom.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace farflung::arrange {
namespace {

void find_pools(const quilt::Quilt& quilt, const score::Measure& measure, Freedom& freedom) {
  const score::Places& places = measure.places();
  freedom.pools.resize(measure.classes().size());
  for (int i = 0; i < places.count(); ++i) {
    const bool kept = quilt.layout.kept[places.cell[i]];
    freedom.pool_of_place.push_back(kept ? kNone : places.klass[i]);
    if (!kept) freedom.pools[places.klass[i]].places.push_back(i);
  }
  std::vector<bool> stays(quilt.blocks.size(), false);
  for (const int cell : places.cell) stays[quilt.layout.block[cell]] = quilt.layout.kept[cell];
  for (std::size_t c = 0; c < measure.classes().size(); ++c) {
    for (const int block : measure.classes()[c].blocks) {
      if (!stays[block]) freedom.pools[c].blocks.push_back(block);
    }
  }
}

void find_decks(const quilt::Quilt& quilt, Freedom& freedom) {
  std::vector<bool> kept(quilt.blocks.size(), false);
  for (std::size_t cell = 0; cell < quilt.layout.block.size(); ++cell) {
    if (quilt.layout.block[cell] != kNone && quilt.layout.kept[cell]) kept[quilt.layout.block[cell]] = true;
  }
  for (int p = 0; p < static_cast<int>(quilt.patterns.size()); ++p) {
    for (int slot = 0; slot < static_cast<int>(quilt.patterns[p].slots.size()); ++slot) {
      if (quilt.patterns[p].slots[slot].print != kNone) continue;
      Deck deck{slot, {}};
      for (int b = 0; b < static_cast<int>(quilt.blocks.size()); ++b) {
        if (quilt.blocks[b].pattern == p && !quilt.blocks[b].sewn && !kept[b]) deck.blocks.push_back(b);
      }
      if (deck.blocks.size() > 1) freedom.decks.push_back(std::move(deck));
    }
  }
}

}  // namespace

Freedom freedom_of(const quilt::Quilt& quilt, const score::Measure& measure, const score::Model& model, bool open) {
  Freedom freedom;
  find_pools(quilt, measure, freedom);
  if (open) find_decks(quilt, freedom);
  std::map<std::tuple<int, std::vector<int>, std::vector<int>>, int> kinds;
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    std::vector<int> forms;
    for (const Turn turn : quilt::turns_of(quilt, quilt.blocks[b])) {
      const std::vector<int> ways = model.forms_of_block(quilt.blocks[b], turn);
      forms.insert(forms.end(), ways.begin(), ways.end());
    }
    const auto key = std::make_tuple(quilt.blocks[b].pattern, model.pieces[b].prints, forms);
    freedom.kind.push_back(kinds.try_emplace(key, static_cast<int>(kinds.size())).first->second);
    freedom.forms.push_back(std::move(forms));
  }
  return freedom;
}

}  // namespace farflung::arrange
