#include "job/wall_way.hpp"

#include <algorithm>
#include <vector>

#include "job/swap_list.hpp"
#include "job/wall_words.hpp"

namespace farflung::job {
namespace {

using quilt::kNone;

/// The places that wait for blocks that were seen nowhere: here they count as hung already.
std::vector<int> fill_waiting(quilt::Quilt& from, const quilt::Quilt& planned, const wall::WallRead& read) {
  std::vector<int> waiting;
  for (const int block : seen_on(planned, read).missing) {
    const auto& cells = planned.layout.block;
    const auto cell = static_cast<std::size_t>(std::find(cells.begin(), cells.end(), block) - cells.begin());
    if (from.layout.block[cell] != kNone) continue;
    from.layout.block[cell] = block;
    from.layout.turn[cell] = planned.layout.turn[cell];
    waiting.push_back(static_cast<int>(cell));
  }
  return waiting;
}

}  // namespace

std::string add_way_back(Report& report, const quilt::Quilt& planned, const quilt::Quilt& as_read,
                         const wall::WallRead& read) {
  const auto& blocks = planned.layout.block;
  const bool planned_at_all = std::any_of(blocks.begin(), blocks.end(), [](int block) { return block != kNone; });
  if (!planned_at_all || as_read.layout == planned.layout) return "";
  quilt::Quilt from = as_read;
  setting::Arrangement to = planned.layout;
  // What was kept is where it should not be: here it moves once more.
  from.layout.kept.assign(from.layout.kept.size(), false);
  to.kept = from.layout.kept;
  const std::vector<int> waiting = fill_waiting(from, planned, read);
  const Result<swap::FewestReport> way = swap::fewest_swaps(from, to);
  if (!way) return "";
  std::vector<int> unsure;
  for (const wall::CellRead& cell : read.cells) {
    if (!cell.sure) unsure.push_back(cell.cell);
  }
  const std::string steps = add_way(report, from, *way, unsure);
  std::string words = way->steps.empty() && !waiting.empty() ? "" : "To bring it to the plan: " + steps;
  const setting::Plan plan = quilt::plan_of(planned);
  for (const int cell : waiting) {
    words += setting::cell_name(plan.cells[cell]) + " waits for " + planned.blocks[blocks[cell]].id + ".\n";
  }
  return words;
}

}  // namespace farflung::job
