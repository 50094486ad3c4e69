#include "score/end_tables.hpp"

#include "score/seam_ends.hpp"

namespace farflung::score {
namespace {

EndCount count_of(const std::vector<MetEnds>& met) {
  EndCount count;
  for (const MetEnds& ends : met) {
    const bool open = ends.way_a == SeamEnd::Way::open || ends.way_b == SeamEnd::Way::open;
    (open ? count.open : (ends.way_a == ends.way_b ? count.alike : count.unlike)) += 1;
  }
  return count;
}

}  // namespace

EndTables::EndTables(const quilt::Quilt& quilt, const setting::Plan& plan, const setting::Contacts& contacts)
    : patterns_(static_cast<int>(quilt.patterns.size())) {
  std::vector<std::vector<SeamEnd>> ends;
  for (const block::Pattern& pattern : quilt.patterns) ends.push_back(seam_ends(pattern));
  counts_.resize(static_cast<std::size_t>(contacts.relations()) * patterns_ * Turn::kCount * patterns_ * Turn::kCount);
  std::vector<bool> known(contacts.relations(), false);
  for (const setting::CellPair& pair : contacts.pairs()) {
    if (known[pair.relation]) continue;
    known[pair.relation] = true;
    for (int a = 0; a < patterns_; ++a) {
      for (const Turn turn_a : quilt.patterns[a].turns) {
        const LaidPattern first{quilt.patterns[a], ends[a], pair.first, turn_a};
        for (int b = 0; b < patterns_; ++b) {
          for (const Turn turn_b : quilt.patterns[b].turns) {
            const LaidPattern second{quilt.patterns[b], ends[b], pair.second, turn_b};
            counts_[index(pair.relation, a, turn_a, b, turn_b)] = count_of(met_ends(plan, first, second));
          }
        }
      }
    }
  }
}

}  // namespace farflung::score
