#include "makeup/deal.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <string>
#include <utility>

#include "makeup/portions.hpp"

namespace farflung::makeup {
namespace {

std::vector<bool> held_fast(const quilt::Quilt& quilt) {
  std::vector<bool> fast;
  for (const block::Block& block : quilt.blocks) fast.push_back(block.sewn);
  for (std::size_t cell = 0; cell < quilt.layout.block.size(); ++cell) {
    if (quilt.layout.block[cell] != kNone && quilt.layout.kept[cell]) fast[quilt.layout.block[cell]] = true;
  }
  // A kept block that was never dealt has nothing to keep but its place.
  for (std::size_t b = 0; b < fast.size(); ++b) {
    const block::Block& block = quilt.blocks[b];
    const auto undealt = [&](int slot) { return quilt::print_of_slot(quilt, block, slot) == kNone; };
    for (int slot = 0; slot < static_cast<int>(block.prints.size()); ++slot) fast[b] = fast[b] && !undealt(slot);
  }
  return fast;
}

/// Deals each print's portion to the decks of a group, to each its share by the deck's size.
std::vector<std::vector<int>> hands_of(const std::vector<const Deck*>& group, const std::vector<int>& prints,
                                       const std::vector<int>& portions) {
  double slots = 0;
  for (const Deck* deck : group) slots += static_cast<double>(deck->blocks.size());
  std::vector<std::vector<int>> hands(group.size());
  int dealt = 0;
  for (std::size_t p = 0; p < prints.size(); ++p) {
    for (int k = 0; k < portions[p]; ++k) {
      ++dealt;
      std::size_t next = 0;
      double most_behind = -1e9;
      for (std::size_t d = 0; d < group.size(); ++d) {
        const auto size = static_cast<double>(group[d]->blocks.size());
        const double behind = size * dealt / slots - static_cast<double>(hands[d].size());
        if (hands[d].size() < group[d]->blocks.size() && behind > most_behind + 1e-9) most_behind = behind, next = d;
      }
      hands[next].push_back(prints[p]);
    }
  }
  return hands;
}

/// Decks whose pieces are cut together and that ask for the same prints.
struct Group {
  std::vector<Cut> cut;
  Asked asked;
  std::vector<const Deck*> decks;

  int slots() const {
    std::size_t slots = 0;
    for (const Deck* deck : decks) slots += deck->blocks.size();
    return static_cast<int>(slots);
  }
};

/// In the order of the first deck of each; those that take any print last, of what the others leave.
std::vector<Group> cut_alike(const quilt::Quilt& quilt, const std::vector<Deck>& decks, const std::vector<int>& prints,
                             HalfSquares halves) {
  std::vector<Group> groups;
  for (const Deck& deck : decks) {
    std::vector<Cut> cut = cuts_of(quilt.patterns[deck.pattern], deck.slot, halves);
    if (blocks_of_whole_squares(cut) == 1) cut.clear();  // whole in every block, whatever is dealt
    Asked asked = asked_for(quilt, deck, prints);
    const auto known = std::find_if(groups.begin(), groups.end(),
                                    [&](const Group& group) { return group.cut == cut && group.asked == asked; });
    if (known == groups.end()) {
      groups.push_back({std::move(cut), std::move(asked), {&deck}});
    } else {
      known->decks.push_back(&deck);
    }
  }
  std::stable_partition(groups.begin(), groups.end(), [](const Group& group) { return asks_for_value(group.asked); });
  return groups;
}

Problems shortages(const quilt::Quilt& quilt, const std::vector<Deck>& decks, const std::vector<int>& prints,
                   const std::vector<int>& most) {
  Problems problems;
  double slots = 0;
  for (const Deck& deck : decks) slots += static_cast<double>(deck.blocks.size());
  for (std::size_t p = 0; p < quilt.patterns.size(); ++p) {
    const auto dealt = std::count_if(decks.begin(), decks.end(),
                                     [&](const Deck& deck) { return deck.pattern == static_cast<int>(p); });
    if (dealt <= static_cast<std::ptrdiff_t>(prints.size())) continue;
    problems.push_back(input_problem(
        "/patterns/" + std::to_string(p),
        "a block has " + std::to_string(dealt) + " slots and there " +
            (prints.size() == 1 ? "is only 1 print" : "are only " + std::to_string(prints.size()) + " prints") +
            " to deal",
        "add prints, or choose a pattern with fewer slots"));
  }
  if (most.empty()) return problems;
  double enough = 0;
  for (const int p : prints) enough += most[p];
  if (enough < slots) {
    problems.push_back(input_problem("/prints",
                                     "the cloth fills " + std::to_string(static_cast<long>(enough)) + " slots of " +
                                         std::to_string(static_cast<long>(slots)),
                                     "add cloth or prints, or make fewer blocks"));
  }
  return problems;
}

/// Anneals exchanges inside decks on the mix: clashes out first, then equal meetings, then patches told apart.
void mix_well(Balance& balance, const std::vector<Deck>& decks, Rng& rng) {
  std::vector<const Deck*> open;
  std::int64_t slots = 0;
  for (const Deck& deck : decks) {
    if (deck.blocks.size() > 1) open.push_back(&deck);
    slots += static_cast<std::int64_t>(deck.blocks.size());
  }
  if (open.empty()) return;
  constexpr double kClash = 40, kMeeting = 1, kAlike = 4;
  const std::int64_t proposals = std::min<std::int64_t>(3'000'000, 2'000 * slots);
  const double first = 4, last = 0.05;
  double heat = first;
  for (std::int64_t k = 0; k < proposals; ++k) {
    if (k % 256 == 0) {
      heat = first * std::pow(last / first, static_cast<double>(k) / static_cast<double>(proposals));
    }
    const Deck& deck = *open[rng.below(static_cast<std::uint32_t>(open.size()))];
    const int a = deck.blocks[rng.below(static_cast<std::uint32_t>(deck.blocks.size()))];
    const int b = deck.blocks[rng.below(static_cast<std::uint32_t>(deck.blocks.size()))];
    if (balance.prints()[a][deck.slot] == balance.prints()[b][deck.slot]) continue;
    const Mix change = balance.delta(a, b, deck.slot);
    const double cost = kClash * change.clashes + kMeeting * change.meetings + kAlike * change.alike;
    if (cost <= 0 || rng.uniform() < std::exp(-cost / heat)) balance.apply(a, b, deck.slot);
  }
}

/// Prints that stand twice in blocks that are not dealt: nothing can be done about them.
int clashes_as_they_are(const quilt::Quilt& quilt, const std::vector<Deck>& decks) {
  Prints fast;
  for (const block::Block& block : quilt.blocks) fast.push_back(block.prints);
  for (const Deck& deck : decks) {
    for (const int block : deck.blocks) fast[block][deck.slot] = kNone;
  }
  return Balance(quilt, std::move(fast)).mix().clashes;
}

/// Takes out what clashes are left by exchanges between slots that are cut alike: each print keeps its whole cuts, and
/// only where it must be some slot has a print more than its share.
void part_clashes(Balance& balance, int as_they_are, const std::vector<Group>& groups, Rng& rng) {
  constexpr double kClash = 40;
  struct Held {
    int block = 0, slot = 0;
  };
  for (const Group& group : groups) {
    std::vector<Held> slots;
    for (const Deck* deck : group.decks) {
      for (const int block : deck->blocks) slots.push_back({block, deck->slot});
    }
    const auto tries = static_cast<int>(500 * slots.size());
    for (int k = 0; k < tries && balance.mix().clashes > as_they_are; ++k) {
      const Held a = slots[rng.below(static_cast<std::uint32_t>(slots.size()))];
      const Held b = slots[rng.below(static_cast<std::uint32_t>(slots.size()))];
      if (a.block == b.block || balance.prints()[a.block][a.slot] == balance.prints()[b.block][b.slot]) continue;
      const Mix change = balance.delta(a.block, a.slot, b.block, b.slot);
      if (kClash * change.clashes + change.meetings <= 0) balance.apply(a.block, a.slot, b.block, b.slot);
    }
  }
}

int slots_in(const std::vector<Deck>& decks) {
  int slots = 0;
  for (const Deck& deck : decks) slots += static_cast<int>(deck.blocks.size());
  return slots;
}

/// By print that is dealt, the slots it may fill: no more than it has cloth for, and none twice in a block.
std::vector<int> most_of(const quilt::Quilt& quilt, const std::vector<Deck>& decks, const std::vector<int>& prints,
                         const std::vector<int>& most) {
  std::vector<bool> open(quilt.blocks.size(), false);
  for (const Deck& deck : decks) {
    for (const int block : deck.blocks) open[block] = true;
  }
  const auto blocks = static_cast<int>(std::count(open.begin(), open.end(), true));
  std::vector<int> of_dealt;
  of_dealt.reserve(prints.size());
  for (const int print : prints) of_dealt.push_back(most.empty() ? blocks : std::min(blocks, most[print]));
  return of_dealt;
}

/// Every slot of the decks dealt, and mixed; in whole cuts or piece by piece.
Balance dealt_anew(const quilt::Quilt& quilt, const std::vector<Deck>& decks, const std::vector<int>& prints,
                   const Options& options, bool whole_cuts, int as_they_are, Rng& rng) {
  Portions portions(most_of(quilt, decks, prints, options.most), slots_in(decks));
  Prints dealt;
  for (const block::Block& block : quilt.blocks) dealt.push_back(block.prints);
  const std::vector<Group> groups = cut_alike(quilt, decks, prints, options.halves);
  for (const Group& group : groups) {
    const std::vector<const Deck*>& alike = group.decks;
    const int whole =
        blocks_of_whole_squares(cuts_of(quilt.patterns[alike.front()->pattern], alike.front()->slot, options.halves));
    std::vector<std::vector<int>> hands =
        hands_of(alike, prints, portions.next(group.slots(), whole_cuts ? whole : 1, group.asked));
    for (std::size_t d = 0; d < alike.size(); ++d) {
      hands[d].resize(alike[d]->blocks.size(), kNone);
      rng.shuffle(std::span<int>(hands[d]));
      for (std::size_t k = 0; k < hands[d].size(); ++k) dealt[alike[d]->blocks[k]][alike[d]->slot] = hands[d][k];
    }
  }
  Balance balance(quilt, std::move(dealt));
  for (int attempt = 0; attempt < 3; ++attempt) {
    mix_well(balance, decks, rng);
    if (balance.mix().clashes == as_they_are) return balance;
  }
  part_clashes(balance, as_they_are, groups, rng);
  if (balance.mix().clashes == as_they_are) mix_well(balance, decks, rng);
  return balance;
}

/// By print, how many slots of all it is dealt, piece by piece.
std::vector<int> shares_of_all(const quilt::Quilt& quilt, const std::vector<Deck>& decks,
                               const std::vector<int>& prints, const Options& options) {
  std::map<Asked, int> slots;  // any print's, all true, comes last
  for (const Deck& deck : decks) slots[asked_for(quilt, deck, prints)] += static_cast<int>(deck.blocks.size());
  Portions portions(most_of(quilt, decks, prints, options.most), slots_in(decks));
  std::vector<int> shares(prints.size(), 0);
  for (const auto& [asked, count] : slots) {
    const std::vector<int> given = portions.next(count, 1, asked);
    for (std::size_t p = 0; p < prints.size(); ++p) shares[p] += given[p];
  }
  return shares;
}

/// Block by block, each with the prints that have most left: whatever can be dealt without a print twice in a block is
/// dealt so (Gale, "A theorem on flows in networks", 1957). Slots of one block that ask for the same prints take what
/// each has had least of.
class ByBlock {
 public:
  ByBlock(const quilt::Quilt& quilt, const std::vector<Deck>& decks, const std::vector<int>& prints,
          const Options& options)
      : quilt_(quilt),
        prints_(prints),
        slots_(quilt.blocks.size()),
        left_(shares_of_all(quilt, decks, prints, options)) {
    for (const block::Block& block : quilt.blocks) dealt_.push_back(block.prints);
    for (const Deck& deck : decks) {
      for (const int block : deck.blocks) slots_[block][asked_for(quilt, deck, prints)].push_back(deck.slot);
    }
  }

  Prints dealt(Rng& rng) && {
    std::vector<int> order(quilt_.blocks.size());
    std::iota(order.begin(), order.end(), 0);
    rng.shuffle(std::span<int>(order));
    for (const int block : order) {
      std::vector<bool> taken(prints_.size(), false);
      for (auto& [asked, slots] : slots_[block]) deal_slots(block, asked, slots, taken, rng);
    }
    return std::move(dealt_);
  }

 private:
  std::size_t held_by(int block) const {
    std::size_t count = 0;
    for (const auto& [asked, slots] : slots_[block]) count += slots.size();
    return count;
  }

  void deal_slots(int block, const Asked& asked, std::vector<int>& slots, std::vector<bool>& taken, Rng& rng) {
    std::vector<int> chosen;
    for (int p = 0; p < static_cast<int>(prints_.size()); ++p) {
      if (!taken[p]) chosen.push_back(p);
    }
    if (asks_for_value(asked)) rng.shuffle(std::span<int>(chosen));  // not the same ones left over in every block
    const bool all_go_in = held_by(block) == prints_.size();         // whatever cloth there is of each
    const auto wanted = [&](int p) { return std::pair(asked[p] && (all_go_in || left_[p] > 0), left_[p]); };
    std::stable_sort(chosen.begin(), chosen.end(), [&](int p, int q) { return wanted(p) > wanted(q); });
    chosen.resize(std::min(chosen.size(), slots.size()));
    rng.shuffle(std::span<int>(slots));
    for (const int slot : slots) {
      std::vector<int>& times = had_[{quilt_.blocks[block].pattern, slot}];
      times.resize(prints_.size(), 0);
      const auto least =
          std::min_element(chosen.begin(), chosen.end(), [&](int p, int q) { return times[p] < times[q]; });
      ++times[*least], --left_[*least];
      taken[*least] = true;
      dealt_[block][slot] = prints_[*least];
      chosen.erase(least);
    }
  }

  const quilt::Quilt& quilt_;
  const std::vector<int>& prints_;
  std::vector<std::map<Asked, std::vector<int>>> slots_;  ///< by block; what takes any print comes last
  std::vector<int> left_;                                 ///< by print that is dealt
  std::map<std::pair<int, int>, std::vector<int>> had_;   ///< by pattern and slot: how often each print
  Prints dealt_;
};

bool every_block_holds_all(const quilt::Quilt& quilt, const std::vector<Deck>& decks, const std::vector<int>& prints) {
  std::vector<std::size_t> slots(quilt.blocks.size(), 0);
  for (const Deck& deck : decks) {
    for (const int block : deck.blocks) ++slots[block];
  }
  return std::all_of(slots.begin(), slots.end(),
                     [&](std::size_t count) { return count == 0 || count == prints.size(); });
}

Result<std::vector<block::Block>> with_prints(const quilt::Quilt& quilt, const Balance& balance, int as_they_are) {
  std::vector<block::Block> blocks = quilt.blocks;
  for (std::size_t b = 0; b < blocks.size(); ++b) blocks[b].prints = balance.prints()[b];
  if (balance.mix().clashes == as_they_are) return blocks;
  return input_problem("/prints",
                       "the cloth of each print is so uneven that " +
                           std::to_string(balance.mix().clashes - as_they_are) + " blocks would hold a print twice",
                       "add cloth of the scarcer prints, or more prints");
}

}  // namespace

std::vector<Deck> decks_of(const quilt::Quilt& quilt) {
  const std::vector<bool> fast = held_fast(quilt);
  std::vector<Deck> decks;
  for (int p = 0; p < static_cast<int>(quilt.patterns.size()); ++p) {
    for (int slot = 0; slot < static_cast<int>(quilt.patterns[p].slots.size()); ++slot) {
      if (quilt.patterns[p].slots[slot].print != kNone) continue;
      Deck deck{p, slot, {}};
      for (int b = 0; b < static_cast<int>(quilt.blocks.size()); ++b) {
        if (quilt.blocks[b].pattern == p && !fast[b]) deck.blocks.push_back(b);
      }
      if (!deck.blocks.empty()) decks.push_back(std::move(deck));
    }
  }
  return decks;
}

std::vector<int> dealt_prints(const quilt::Quilt& quilt) {
  std::vector<bool> dealt(quilt.prints.size(), false);
  bool any = false;
  std::size_t most_slots = 1;
  for (const block::Block& block : quilt.blocks) {
    std::size_t slots = 0;
    for (int slot = 0; slot < static_cast<int>(block.prints.size()); ++slot) {
      if (quilt.patterns[block.pattern].slots[slot].print != kNone) continue;
      ++slots;
      if (block.prints[slot] == kNone) continue;
      dealt[block.prints[slot]] = any = true;
    }
    most_slots = std::max(most_slots, slots);
  }
  std::vector<bool> spoken_for(quilt.prints.size(), false);
  const auto speak = [&](int print) {
    if (print != kNone) spoken_for[print] = true;
  };
  for (const block::Pattern& pattern : quilt.patterns) {
    for (const block::Slot& slot : pattern.slots) speak(slot.print);
  }
  if (quilt.setting.sashing) speak(quilt.setting.sashing->print);
  if (quilt.setting.sashing) speak(quilt.setting.sashing->cornerstone);
  speak(quilt.setting.filler);
  for (const setting::Border& border : quilt.setting.borders) {
    speak(border.print);
    speak(border.cornerstone);
  }
  if (quilt.binding) speak(quilt.binding->print);
  if (quilt.backing) speak(quilt.backing->print);
  std::vector<int> prints;
  for (int p = 0; p < static_cast<int>(quilt.prints.size()); ++p) {
    if (any ? dealt[p] : !spoken_for[p]) prints.push_back(p);
  }
  if (!any && prints.size() < most_slots) {
    prints.resize(quilt.prints.size());
    std::iota(prints.begin(), prints.end(), 0);
  }
  return prints;
}

Result<std::vector<block::Block>> deal(const quilt::Quilt& quilt, const Options& options) {
  std::vector<int> prints = options.prints.empty() ? dealt_prints(quilt) : options.prints;
  const std::vector<Deck> decks = decks_of(quilt);
  Problems problems = shortages(quilt, decks, prints, options.most);
  if (!problems.empty()) return problems;

  Rng rng(options.seed);
  rng.shuffle(std::span<int>(prints));
  const int as_they_are = clashes_as_they_are(quilt, decks);
  // Where every block holds every print nothing can be exchanged between two.
  if (!decks.empty() && every_block_holds_all(quilt, decks, prints)) {
    return with_prints(quilt, Balance(quilt, ByBlock(quilt, decks, prints, options).dealt(rng)), as_they_are);
  }
  Balance balance = dealt_anew(quilt, decks, prints, options, true, as_they_are, rng);
  // Whole cuts give way to blocks whose prints all differ: one block of two triangles takes two prints.
  if (balance.mix().clashes > as_they_are) balance = dealt_anew(quilt, decks, prints, options, false, as_they_are, rng);
  if (balance.mix().clashes > as_they_are) balance = Balance(quilt, ByBlock(quilt, decks, prints, options).dealt(rng));
  return with_prints(quilt, balance, as_they_are);
}

}  // namespace farflung::makeup
