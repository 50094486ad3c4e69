#include "arrange/freedom.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <utility>

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

/// Whether blocks can exchange what a slot holds: not where each holds every print that the slot does, in whichever of
/// the slots that are dealt, for then one of them would hold a print twice.
bool can_exchange(const Deck& deck, const quilt::Quilt& quilt, const score::Model& model) {
  std::set<int> prints;
  for (const int block : deck.blocks) prints.insert(model.pieces[block].prints[deck.slot]);
  return std::any_of(deck.blocks.begin(), deck.blocks.end(), [&](int block) {
    const std::vector<block::Slot>& slots = quilt.patterns[quilt.blocks[block].pattern].slots;
    std::set<int> held;
    for (std::size_t slot = 0; slot < slots.size(); ++slot) {
      if (slots[slot].print == kNone) held.insert(model.pieces[block].prints[slot]);
    }
    return !std::includes(held.begin(), held.end(), prints.begin(), prints.end());
  });
}

/// A patch as it is seen: its print and its corners, from the least one on.
using Seen = std::pair<int, std::vector<std::pair<Length, Length>>>;

/// All that a block of a pattern shows when it lies turned, in an order of its own.
std::vector<Seen> shown(const block::Pattern& pattern, const std::vector<int>& prints, Turn turn) {
  std::vector<Seen> patches;
  for (const block::Patch& patch : pattern.patches) {
    Seen seen{prints[patch.slot], {}};
    for (const Point& corner : turned(patch.polygon, pattern.width, pattern.height, turn))
      seen.second.emplace_back(corner.x, corner.y);
    std::rotate(seen.second.begin(), std::min_element(seen.second.begin(), seen.second.end()), seen.second.end());
    patches.push_back(std::move(seen));
  }
  std::sort(patches.begin(), patches.end());
  return patches;
}

/// Numbers the pictures that blocks show, each once for all blocks of its kind.
std::vector<std::vector<int>> pictures_of(const quilt::Quilt& quilt, const score::Model& model,
                                          const Freedom& freedom) {
  std::map<std::vector<Seen>, int> numbers;
  std::map<int, std::vector<int>> of_kind;
  std::vector<std::vector<int>> result;
  result.reserve(quilt.blocks.size());
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    const auto [known, is_new] = of_kind.try_emplace(freedom.kind[b]);
    for (std::size_t k = 0; is_new && k < freedom.forms[b].size(); ++k) {
      std::vector<Seen> seen =
          shown(quilt.patterns[quilt.blocks[b].pattern], model.pieces[b].prints, model.forms[freedom.forms[b][k]].turn);
      known->second.push_back(numbers.try_emplace(std::move(seen), static_cast<int>(numbers.size())).first->second);
    }
    result.push_back(known->second);
  }
  return result;
}

/// Numbers the looks of blocks, whatever way they lie: a half-square triangle of two prints has one look in whichever
/// slot each is. Where seams are to nest, which way a block is pressed turns with it: then each kind has its own.
std::vector<int> looks_of(const quilt::Quilt& quilt, const score::Measure& measure, const Freedom& freedom) {
  if (measure.asks_nesting()) return freedom.kind;
  using Look = std::tuple<int, std::vector<int>, std::set<int>>;
  std::map<Look, int> looks;
  std::vector<int> result;
  result.reserve(quilt.blocks.size());
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    Look look{quilt.blocks[b].pattern, freedom.forms[b], {freedom.picture[b].begin(), freedom.picture[b].end()}};
    result.push_back(looks.try_emplace(std::move(look), static_cast<int>(looks.size())).first->second);
  }
  return result;
}

}  // namespace

Freedom freedom_of(const quilt::Quilt& quilt, const score::Measure& measure, const score::Model& model, bool open) {
  Freedom freedom;
  find_pools(quilt, measure, freedom);
  if (open) {
    find_decks(quilt, freedom);
    std::erase_if(freedom.decks, [&](const Deck& deck) { return !can_exchange(deck, quilt, model); });
  }
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
  freedom.picture = pictures_of(quilt, model, freedom);
  freedom.look = looks_of(quilt, measure, freedom);
  return freedom;
}

std::vector<std::vector<Held>> all_one_way(const Freedom& freedom, const std::vector<Held>& held) {
  std::vector<std::vector<Held>> layouts;
  const auto kept = [&](std::size_t place) { return freedom.pool_of_place[place] == kNone; };
  std::size_t first = 0;
  while (first < held.size() && kept(first)) ++first;
  if (first == held.size()) return layouts;
  const std::vector<int>& can_show = freedom.picture[held[first].block];
  for (const int picture : std::set<int>(can_show.begin(), can_show.end())) {
    std::vector<Held> layout = held;
    bool all = true;
    for (std::size_t place = first; place < held.size() && all; ++place) {
      if (kept(place)) continue;
      const std::vector<int>& shows = freedom.picture[held[place].block];
      const auto form = std::find(shows.begin(), shows.end(), picture);
      all = form != shows.end();
      if (all) layout[place].form = freedom.forms[held[place].block][form - shows.begin()];
    }
    if (all) layouts.push_back(std::move(layout));
  }
  return layouts;
}

double layouts_at_most(const Freedom& freedom, const score::Measure& measure) {
  double layouts = 1;
  for (const Pool& pool : freedom.pools) {
    if (pool.places.empty()) continue;
    std::set<int> looks;
    std::size_t ways = 1;  // of one block to lie
    for (const int block : pool.blocks) {
      looks.insert(freedom.look[block]);
      const std::vector<int>& forms = measure.asks_nesting() ? freedom.forms[block] : freedom.picture[block];
      ways = std::max(ways, std::set<int>(forms.begin(), forms.end()).size());
    }
    for (std::size_t k = 0; k < pool.places.size(); ++k) {
      layouts *= static_cast<double>(ways);
      if (looks.size() > 1) layouts *= static_cast<double>(pool.blocks.size() - k);
    }
  }
  return layouts;
}

int pictures_shown(const Freedom& freedom, const std::vector<Held>& held) {
  std::set<int> shown;
  for (const Held& one : held) {
    const std::vector<int>& forms = freedom.forms[one.block];
    shown.insert(freedom.picture[one.block][std::find(forms.begin(), forms.end(), one.form) - forms.begin()]);
  }
  return static_cast<int>(shown.size());
}

}  // namespace farflung::arrange
