#include "cloth/yields.hpp"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "cloth/plan.hpp"
#include "makeup/deal.hpp"

namespace farflung::cloth {
namespace {

using makeup::Deck;

/// A quick look: what it misses is cloth that only a cleverer plan would save.
constexpr Effort kLook{.exact = 100'000, .grid = 300'000, .strips_only = false};

class Yields {
 public:
  explicit Yields(const quilt::Quilt& quilt) : decks_(makeup::decks_of(quilt)), bare_(quilt) {
    std::vector<bool> open(quilt.blocks.size(), false);
    for (const Deck& deck : decks_) {
      slots_ += static_cast<int>(deck.blocks.size());
      for (const int block : deck.blocks) open[block] = true;
    }
    open_blocks_ = static_cast<int>(std::count(open.begin(), open.end(), true));
    for (std::size_t b = 0; b < open.size(); ++b) {
      if (open[b]) bare_.blocks[b].prints.assign(bare_.blocks[b].prints.size(), kNone);
    }
    for (const CutLine& line : cut_list(bare_).lines) cut_anyway_.push_back(line.print);
    for (const Run& run : cut_list(bare_).runs) cut_anyway_.push_back(run.print);
  }

  int of(int print) {
    const print::Print& cloth = bare_.prints[print];
    if (cloth.cloth.empty()) return open_blocks_;
    const bool else_cut = std::count(cut_anyway_.begin(), cut_anyway_.end(), print) > 0;
    if (else_cut) return most_slots(print);
    Alike key{cloth.upright, {}};
    for (const print::Cloth& piece : cloth.cloth) key.second.emplace_back(piece.width, piece.length, piece.count);
    const auto [known, is_new] = known_.try_emplace(key, 0);
    if (is_new) known->second = most_slots(print);
    return known->second;
  }

 private:
  /// Prints of the same cloth, of which nothing else is cut, fill as many slots.
  using Alike = std::pair<bool, std::vector<std::tuple<Length, Length, int>>>;

  int most_slots(int print) const {
    int fits = 0;
    int too_many = open_blocks_ + 1;
    for (int tried = std::min(8, open_blocks_); fits + 1 < too_many;) {
      (fills(print, tried) ? fits : too_many) = tried;
      tried = too_many > open_blocks_ ? std::min(2 * tried, open_blocks_) : (fits + too_many) / 2;
    }
    return fits;
  }

  /// Whether the cloth gives the pieces of so many slots, each kind of slot having its share, rounded up.
  bool fills(int print, int slots) const {
    quilt::Quilt tried = bare_;
    for (const Deck& deck : decks_) {
      const auto size = static_cast<std::int64_t>(deck.blocks.size());
      const auto share = static_cast<std::size_t>((slots * size + slots_ - 1) / slots_);
      for (std::size_t k = 0; k < std::min(share, deck.blocks.size()); ++k) {
        tried.blocks[deck.blocks[k]].prints[deck.slot] = print;
      }
    }
    // No turn is known yet: pieces of an upright print lie as the pattern is drawn.
    std::fill(tried.layout.turn.begin(), tried.layout.turn.end(), Turn());
    return enough_in_hand(tried, cut_list(tried), print, kLook);
  }

  std::vector<Deck> decks_;
  quilt::Quilt bare_;  ///< without the prints that are to be dealt
  int slots_ = 0, open_blocks_ = 0;
  std::vector<int> cut_anyway_;
  std::map<Alike, int> known_;
};

/// The pieces that a list asks of one print: two prints, or two lists, that agree in it need as much cloth.
using Asked = std::vector<std::tuple<Length, Length, int, bool>>;
Asked asked_of(const CutList& list, int print) {
  Asked asked;
  for (const CutLine& line : list.lines) {
    if (line.print != print) continue;
    asked.emplace_back(line.shape.width.cut, line.shape.height.cut, line.rectangles, line.turnable);
  }
  for (const Run& run : list.runs) {
    if (run.print == print) asked.emplace_back(run.total, run.width, 0, run.turnable);
  }
  std::sort(asked.begin(), asked.end());
  return asked;
}

bool same_cloth(const std::vector<print::Cloth>& a, const std::vector<print::Cloth>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const print::Cloth& one, const print::Cloth& other) {
    return one.width == other.width && one.length == other.length && one.count == other.count;
  });
}

bool is_short(const quilt::Quilt& quilt, const CutList& list, int print) {
  if (quilt.prints[print].cloth.empty() || asked_of(list, print).empty()) return false;
  return !enough_in_hand(quilt, list, print, kLook);
}

bool any_in_hand(const quilt::Quilt& quilt) {
  return std::any_of(quilt.prints.begin(), quilt.prints.end(),
                     [](const print::Print& print) { return !print.cloth.empty(); });
}

}  // namespace

std::vector<int> slots_in_hand(const quilt::Quilt& quilt) {
  Yields yields(quilt);
  std::vector<int> most;
  most.reserve(quilt.prints.size());
  for (int p = 0; p < static_cast<int>(quilt.prints.size()); ++p) most.push_back(yields.of(p));
  return most;
}

std::vector<int> prints_short(const quilt::Quilt& quilt) {
  const CutList list = cut_list(quilt);
  std::vector<int> found;
  for (const int print : makeup::dealt_prints(quilt)) {
    if (quilt.prints[print].cloth.empty()) continue;
    if (!enough_in_hand(quilt, list, print, kLook)) found.push_back(print);
  }
  return found;
}

std::vector<int> all_short(const quilt::Quilt& quilt) {
  std::vector<int> found;
  if (!any_in_hand(quilt)) return found;
  const CutList list = cut_list(quilt);
  for (int p = 0; p < static_cast<int>(quilt.prints.size()); ++p) {
    if (is_short(quilt, list, p)) found.push_back(p);
  }
  return found;
}

std::vector<int> newly_short(const quilt::Quilt& before, const quilt::Quilt& after) {
  std::vector<int> found;
  if (!any_in_hand(after)) return found;
  const CutList list_before = cut_list(before), list_after = cut_list(after);
  for (int p = 0; p < static_cast<int>(after.prints.size()); ++p) {
    const int was = before.print_with_id(after.prints[p].id);
    const bool other_cloth = was == kNone || !same_cloth(before.prints[was].cloth, after.prints[p].cloth);
    if (!other_cloth && asked_of(list_before, was) == asked_of(list_after, p)) continue;
    if (!is_short(after, list_after, p)) continue;
    if (other_cloth || !is_short(before, list_before, was)) found.push_back(p);
  }
  return found;
}

}  // namespace farflung::cloth
