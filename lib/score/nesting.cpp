#include "score/nesting.hpp"

#include "score/press_choice.hpp"
#include "setting/contacts.hpp"

namespace farflung::score {
namespace {

using block::kNone;
using Press = block::Block::Press;

std::vector<EndMeeting> end_meetings(const quilt::Quilt& quilt) {
  const setting::Plan plan = quilt::plan_of(quilt);
  const setting::Contacts contacts(plan, quilt.patterns);
  std::vector<std::vector<SeamEnd>> ends;
  for (const block::Pattern& pattern : quilt.patterns) ends.push_back(seam_ends(pattern));
  const auto laid = [&](int cell) {
    const int pattern = quilt.blocks[quilt.layout.block[cell]].pattern;
    return LaidPattern{quilt.patterns[pattern], ends[pattern], cell, quilt.layout.turn[cell]};
  };
  std::vector<EndMeeting> meetings;
  for (const setting::CellPair& pair : contacts.pairs()) {
    if (quilt.layout.block[pair.first] == kNone || quilt.layout.block[pair.second] == kNone) continue;
    for (const MetEnds& met : met_ends(plan, laid(pair.first), laid(pair.second))) {
      meetings.push_back({pair.first, pair.second, met.at, met.way_a, met.way_b});
    }
  }
  return meetings;
}

bool nests(const EndMeeting& meeting, Press a, Press b) {
  return (meeting.way_a == meeting.way_b) == (a == b);  // pressed the other way, left and right change places
}

bool is_open(const EndMeeting& meeting) {
  return meeting.way_a == SeamEnd::Way::open || meeting.way_b == SeamEnd::Way::open;
}

}  // namespace

Nesting nesting_of(const quilt::Quilt& quilt) {
  Nesting nesting;
  nesting.meetings = end_meetings(quilt);
  std::vector<PressWish> wishes;
  for (const EndMeeting& meeting : nesting.meetings) {
    if (is_open(meeting)) {
      ++nesting.open;
      continue;
    }
    wishes.push_back(
        {quilt.layout.block[meeting.cell_a], quilt.layout.block[meeting.cell_b], meeting.way_a != meeting.way_b});
  }
  std::vector<std::optional<bool>> pressed;  // true: the other way
  for (const block::Block& block : quilt.blocks) {
    pressed.push_back(block.press ? std::optional<bool>(*block.press == Press::other) : std::nullopt);
  }
  const PressChoice choice = choose_press(wishes, pressed);
  nesting.exact = choice.exact;
  std::vector<int> cell_of(quilt.blocks.size(), kNone);
  for (int cell = 0; cell < static_cast<int>(quilt.layout.block.size()); ++cell) {
    if (quilt.layout.block[cell] != kNone) cell_of[quilt.layout.block[cell]] = cell;
  }
  for (const std::vector<int>& ring : choice.odd_rings) {
    std::vector<int> cells;
    cells.reserve(ring.size());
    for (const int block : ring) cells.push_back(cell_of[block]);
    nesting.odd_rings.push_back(std::move(cells));
  }
  for (const bool other : choice.other) nesting.press.emplace_back(other ? Press::other : Press::drawn);
  for (const EndMeeting& meeting : nesting.meetings) {
    if (is_open(meeting)) continue;
    const bool nested = nests(meeting, *nesting.press[quilt.layout.block[meeting.cell_a]],
                              *nesting.press[quilt.layout.block[meeting.cell_b]]);
    (nested ? nesting.nested : nesting.unnested) += 1;
  }
  nesting.press_again = choice.press_again;
  nesting.unnested_then = choice.unmet_then;
  return nesting;
}

quilt::Quilt pressed_to_nest(quilt::Quilt quilt) {
  const Nesting nesting = nesting_of(quilt);
  if (nesting.nothing_to_nest()) return quilt;
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    if (!quilt.blocks[b].press) quilt.blocks[b].press = nesting.press[b];
  }
  return quilt;
}

}  // namespace farflung::score
