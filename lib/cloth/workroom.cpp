#include "cloth/workroom.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace farflung::cloth {
namespace {

/// Beside what a row gives, where room is scarce: the plans say it in full.
std::string short_diagonal(Diagonal diagonal) {
  if (diagonal == Diagonal::either) return "";
  return diagonal == Diagonal::rising ? ", bottom left to top right" : ", top left to bottom right";
}

CutRow row_of(const CutLine& line, const quilt::Quilt& quilt) {
  const Diagonal diagonal = diagonal_of(line);
  std::string says = line.shape.working + diagonal_said(diagonal);
  if (!line.note.empty()) says += "; " + line.note;
  if (line.rectangles * line.shape.per_rectangle > line.pieces) {
    says += "; " + std::to_string(line.rectangles * line.shape.per_rectangle - line.pieces) + " over";
  }
  return {line.print,
          line.part,
          name_of(line.shape.shape),
          quilt::in_units(line.shape.width.cut, quilt.units),
          quilt::in_units(line.shape.height.cut, quilt.units),
          line.rectangles,
          line.pieces,
          std::move(says),
          diagonal};
}

/// As the cutting plan has them; what they give stands with the first row.
void add_rows(std::vector<CutRow>& rows, const Run& run, const quilt::Quilt& quilt, Length strip, Ruler ruler) {
  int makes = static_cast<int>(run.lengths.size());
  for (const Strips& strips : run.cut_from(strip, ruler)) {
    rows.push_back({run.print, run.part, "strip", quilt::in_units(strips.length, quilt.units),
                    quilt::in_units(run.width, quilt.units), strips.count, std::exchange(makes, 0), run.working});
  }
}

/// The length of the strips that a run, by its index, is planned in: as the plan of its print has them, else across the
/// cloth.
Length strip_length(int run, const CuttingPlans& plans, Length usable, Ruler ruler) {
  for (const PrintPlan& plan : plans.plans) {
    const auto known = plan.strips.find(run);
    if (known != plan.strips.end()) return known->second;
  }
  return down_to_mark(usable, ruler);
}

/// Parts of prints without cloth as they are, with a word on cutting them from one length; what is missing of others.
std::vector<Purchase> to_buy(std::vector<Purchase>& by_part, const CuttingPlans& plans) {
  std::map<int, const PrintPlan*> plan_of;
  for (const PrintPlan& plan : plans.plans) plan_of[plan.print] = &plan;
  std::map<int, int> parts;
  for (const Purchase& part : by_part) ++parts[part.print];
  std::vector<Purchase> buy;
  std::set<int> said;
  for (Purchase& part : by_part) {
    const auto known = plan_of.find(part.print);
    if (part.print == kNone || known == plan_of.end()) {
      buy.push_back(part);
      continue;
    }
    const PrintPlan& plan = *known->second;
    part.in_hand = plan.enough;
    if (plan.enough) continue;
    if (!plan.has_cloth) {
      buy.push_back(part);
      if (parts[part.print] > 1) {
        buy.back().says +=
            " All that this print is for, from one length: " + amount_text(plan.more->amount, plan.more->unit) + ".";
      }
    } else if (said.insert(part.print).second) {
      buy.push_back(*plan.more);
    }
  }
  return buy;
}

std::vector<std::string> unbought_of(const Workroom& room) {
  std::vector<std::string> says;
  if (room.list.sewn_blocks > 0) {
    says.push_back(std::to_string(room.list.sewn_blocks) + (room.list.sewn_blocks == 1
                                                                ? " block is sewn already and needs no cloth."
                                                                : " blocks are sewn already and need no cloth."));
  }
  const bool undealt =
      std::any_of(room.list.lines.begin(), room.list.lines.end(),
                  [](const CutLine& line) { return line.print == kNone; }) ||
      std::any_of(room.list.runs.begin(), room.list.runs.end(), [](const Run& run) { return run.print == kNone; });
  if (undealt) says.emplace_back("Some pieces have no print yet: they are listed, and no cloth was planned for them.");
  return says;
}

std::vector<std::string> remarks_of(const quilt::Quilt& quilt, const Workroom& room, const CutOptions& cutting) {
  std::vector<std::string> says;
  for (const Remark& remark : room.list.remarks) says.push_back(remark.says);
  says.insert(says.end(), room.unbought.begin(), room.unbought.end());
  if (cutting.setting_extra == Length() && room.sewing.diagonal) {
    says.push_back(std::string("Setting triangles are listed at the least size that serves; many cut them ") +
                   (room.list.ruler == Ruler::millimetres ? "a centimetre" : "half an inch") +
                   " larger and trim the top's edge.");
  }
  if (room.test_block) says.insert(says.end(), room.test_block->says.begin(), room.test_block->says.end());
  for (std::size_t p = 0; p < room.piecing.size(); ++p) {
    for (const std::string& remark : room.piecing[p].remarks) says.push_back(quilt.patterns[p].name + ": " + remark);
  }
  return says;
}

std::optional<Spares> spares_of(const quilt::Quilt& quilt, const WorkroomOptions& options) {
  const bool in_hand = std::any_of(quilt.prints.begin(), quilt.prints.end(),
                                   [](const print::Print& print) { return !print.cloth.empty(); });
  if (!in_hand) return std::nullopt;
  PlanOptions plan = options.plan;
  plan.effort.strips_only = plan.effort.strips_only || !options.spares;
  return spare_blocks(quilt, options.cutting, plan);
}

}  // namespace

const std::vector<std::string>& cautions() {
  static const std::vector<std::string> list = {
      "A rotary cutter is a razor: close it every time it is put down, cut away from the body, keep it from children.",
      "An iron burns and scalds: empty hands near the steam, and off when you leave the room.",
      "Take labels and pins off before ironing or sewing.",
      ("Nothing loose or padded belongs in a sleeping infant's cot: until the first birthday a quilt is for the floor, "
       "in sight."),
      ("Sold or given to the public, a quilt may need labels (fibre, care, maker) and, where it covers a child or a "
       "bed, to meet the rules on burning: ask before you sell."),
  };
  return list;
}

std::vector<CutTogether> cut_together(const std::vector<CutRow>& rows) {
  std::vector<CutTogether> together;
  std::vector<std::map<std::string, int>> patches;  // by slot
  for (const CutRow& row : rows) {
    const auto same = std::find_if(together.begin(), together.end(), [&](const CutTogether& one) {
      return one.row.print == row.print && one.row.shape == row.shape && one.row.width == row.width &&
             one.row.height == row.height && one.row.diagonal == row.diagonal;
    });
    const auto at = static_cast<std::size_t>(same - together.begin());
    if (same == together.end()) {
      together.push_back({row, ""});
      patches.emplace_back();
    } else {
      same->row.count += row.count;
      same->row.makes += row.makes;
    }
    patches[at][row.slot] += row.makes;
  }
  for (std::size_t i = 0; i < together.size(); ++i) {
    for (const auto& [slot, makes] : patches[i]) {
      const bool strip = together[i].row.shape == "strip";
      together[i].gives +=
          (together[i].gives.empty() ? "" : ", ") + (strip ? slot : std::to_string(makes) + " for " + slot);
    }
    together[i].gives += short_diagonal(together[i].row.diagonal);
  }
  // What is longest is cut while the cloth is.
  const auto place = [](const CutRow& row) {
    return std::tuple(row.print, row.shape == "strip", -std::max(row.width, row.height),
                      -std::min(row.width, row.height));
  };
  std::stable_sort(together.begin(), together.end(),
                   [&](const CutTogether& a, const CutTogether& b) { return place(a.row) < place(b.row); });
  return together;
}

Workroom workroom_of(const quilt::Quilt& quilt, const WorkroomOptions& options) {
  Workroom room;
  room.list = cut_list(quilt, options.cutting);
  room.plans = cutting_plans(quilt, room.list, options.plan);
  room.enough = room.plans.enough;
  for (const CutLine& line : room.list.lines) {
    if (line.rectangles > 0 || line.pieces > 0) room.cut.push_back(row_of(line, quilt));
  }
  const YardageOptions& yardage = options.cutting.yardage;
  const auto strips_of = [&](std::size_t run) {
    return strip_length(static_cast<int>(run), room.plans, yardage.usable_width, room.list.ruler);
  };
  for (std::size_t r = 0; r < room.list.runs.size(); ++r) {
    add_rows(room.cut, room.list.runs[r], quilt, strips_of(r), room.list.ruler);
  }
  room.by_part = purchases_by_part(quilt, room.list, options.cutting, options.plan);
  room.buy = to_buy(room.by_part, room.plans);

  room.top = frame_plan(quilt, options.cutting);
  const setting::Plan& top = room.top;
  if (quilt.binding) {
    YardageOptions strips = yardage;
    for (std::size_t r = 0; r < room.list.runs.size(); ++r) {
      if (room.list.runs[r].part == "binding") strips.usable_width = strips_of(r);
    }
    room.binding =
        binding_plan(top.width, top.height, quilt.binding->width, quilt.binding->bias, strips, room.list.ruler);
  } else if (!room.list.lines.empty()) {
    const BindingPlan usual =
        binding_plan(top.width, top.height, quilt::usual_widths(quilt.units).binding, false, yardage, room.list.ruler);
    room.unchosen_binding =
        purchase("binding", kNone, usual.cloth, yardage, room.list.ruler == Ruler::millimetres, usual.says);
  }
  const Length over = quilt.backing ? quilt.backing->over : yardage.backing_over;
  YardageOptions back = yardage;
  back.backing_upright = back.backing_upright ||
                         (quilt.backing && quilt.backing->print != kNone && quilt.prints[quilt.backing->print].upright);
  room.backing = backing_plan(top.width, top.height, over, back, room.list.ruler);
  room.batting = batting_plan(top.width, top.height, over, yardage, room.list.ruler);

  for (const block::Pattern& pattern : quilt.patterns) {
    room.piecing.push_back(piecing_of(pattern, quilt.seam_allowance, room.list.ruler));
  }
  if (quilt.test_block) {
    room.test_block = test_block_report(quilt, quilt.test_block->pattern,
                                        {quilt.test_block->width, quilt.test_block->height}, options.cutting);
  }
  room.chains = chain_list(quilt);
  room.piles = pressing_piles(quilt);
  room.sewing = sewing_order(quilt);
  room.spares = spares_of(quilt, options);
  if (options.kits > 0) {
    KitOptions kits;
    kits.kits = options.kits;
    kits.plan = options.plan;
    room.kits = kits_for(quilt, options.cutting, kits);
  }
  room.unbought = unbought_of(room);
  room.says = remarks_of(quilt, room, options.cutting);
  room.cautions = cautions();
  return room;
}

}  // namespace farflung::cloth
