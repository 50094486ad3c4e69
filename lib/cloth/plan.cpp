#include "cloth/plan.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "base/counted.hpp"
#include "cloth/demand.hpp"
#include "cloth/extent.hpp"

namespace farflung::cloth {
namespace {

/// Length at the usable width. What is wider than the cloth either way cannot be had from it at all; its longer side is
/// counted along the length, so that the amount is not understated where wider cloth is bought.
Length length_taken(const Layout& layout, const std::vector<Wanted>& wanted, Ruler ruler) {
  int length = 0;
  for (const Placed& placed : layout.placed) length = std::max(length, placed.rect.y + placed.rect.height);
  const std::vector<int> counts = layout.counts(wanted.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    length += (wanted[i].count - counts[i]) * std::max(wanted[i].width, wanted[i].height);
  }
  return length * step_of(ruler);
}

/// The same layout on a sheet that ends at `height`, below all its pieces.
Layout shortened(const Layout& layout, int height) {
  const auto within = [&](Rect rect) {
    rect.height = std::min(rect.height, height - rect.y);
    return rect;
  };
  Layout result = layout;
  result.cuts.clear();
  for (Cut cut : layout.cuts) {
    cut.of = within(cut.of);
    const bool kept = cut.of.height > 0 && (cut.upright || cut.at < height);
    if (kept) result.cuts.push_back(cut);
  }
  result.left.clear();
  for (const Rect& rect : layout.left) {
    if (within(rect).height > 0) result.left.push_back(within(rect));
  }
  return result;
}

class Planner {
 public:
  Planner(const quilt::Quilt& quilt, const CutList& list, const PlanOptions& options)
      : quilt_(quilt), list_(list), options_(options) {}

  PrintPlan plan(int print) {
    PrintPlan result;
    result.print = print;
    const print::Print& cloth = quilt_.prints[print];
    const std::vector<Sheet> sheets = sheets_of(cloth, list_.ruler);
    result.has_cloth = !sheets.empty();
    Attempt attempt = best_for(print, sheets, options_.effort);
    if (total(attempt.missing) > 0 && result.has_cloth && has_runs(print)) {
      attempt = strips_as_bought(print, sheets, attempt.proven);
    }
    result.wanted = attempt.demand.pieces;
    result.strips = attempt.strips;
    result.missing = attempt.missing;
    result.enough = total(attempt.missing) == 0 && sound(attempt);
    result.proven = attempt.proven;
    add_sheets(result, attempt, cloth);
    result.right_sides_up = cloth.upright || has_handed_shape(print);
    if (!result.enough) ask_for_more(result, attempt, print);
    say(result, cloth);
    return result;
  }

  bool fits(int print) const {
    const Attempt attempt = best_for(print, sheets_of(quilt_.prints[print], list_.ruler), options_.effort);
    return total(attempt.missing) == 0 && sound(attempt);
  }

 private:
  bool has_runs(int print) const {
    return std::any_of(list_.runs.begin(), list_.runs.end(), [&](const Run& run) { return run.print == print; });
  }

  /// How long a strip can be on these sheets.
  std::set<Length> lengths_on(const std::vector<Sheet>& sheets, int print) const {
    std::set<Length> lengths;
    for (const Sheet& sheet : sheets) {
      lengths.insert(sheet.width * step_of(list_.ruler));
      if (!quilt_.prints[print].upright) lengths.insert(sheet.height * step_of(list_.ruler));
    }
    return lengths;
  }

  /// Strips that are to be joined may be as long as any of the cloths: each length is tried, longest first.
  Attempt best_for(int print, const std::vector<Sheet>& sheets, const Effort& effort) const {
    std::set<Length> lengths;
    if (has_runs(print)) lengths = lengths_on(sheets, print);
    if (lengths.empty()) lengths.insert(across_bought());
    Attempt best;
    bool first = true;
    for (auto length = lengths.rbegin(); length != lengths.rend(); ++length) {
      if (!joins_at(print, *length)) continue;
      Attempt attempt = solved(print, all_so_long(print, *length), sheets, effort);
      if (first || attempt.missing_area() < best.missing_area()) best = std::move(attempt);
      first = false;
      if (total(best.missing) == 0) break;
    }
    if (first) {  // the cloth is too short for any strip to be joined
      best = solved(print, all_so_long(print, list_.yardage.usable_width), sheets, effort);
    }
    return best;
  }

  /// Where cloth must be bought, a run that the cloth in hand does not give whole beside all else is cut from what is
  /// bought, in strips across all of its width: nobody joins short strips where long ones are to be had, least of all
  /// such as would have more than twice the joins. `proven`: that it is short.
  Attempt strips_as_bought(int print, const std::vector<Sheet>& sheets, bool proven) const {
    Attempt best = solved(print, all_so_long(print, across_bought()), sheets, options_.effort);
    const std::set<Length> lengths = lengths_on(sheets, print);
    const StripLengths bought = best.strips;
    for (const auto& [run, across] : bought) {
      for (auto length = lengths.rbegin(); length != lengths.rend(); ++length) {
        if (*length == across || 2 * *length < across || !joins(list_.runs[run], *length)) continue;
        StripLengths strips = best.strips;
        strips[run] = *length;
        Attempt attempt = solved(print, strips, sheets, options_.effort);
        const bool whole = missing_of(attempt, run) == 0;
        const bool displaces = attempt.missing_area() > best.missing_area() - missing_of(best, run);
        if (!whole || displaces) continue;
        best = std::move(attempt);
        break;
      }
    }
    best.proven = proven;
    return best;
  }

  /// The area of a run's strips that found no room, in steps of the ruler, squared.
  std::int64_t missing_of(const Attempt& attempt, int run) const {
    std::int64_t area = 0;
    for (const Strips& strips : list_.runs[run].cut_from(attempt.strips.at(run), list_.ruler)) {
      for (std::size_t i = 0; i < attempt.missing.size(); ++i) {
        const WantedPiece& piece = attempt.demand.pieces[i];
        const Wanted& size = attempt.demand.wanted[i];
        const bool of_run = piece.width == strips.length && piece.height == list_.runs[run].width;
        if (of_run) area += static_cast<std::int64_t>(attempt.missing[i]) * size.width * size.height;
      }
    }
    return area;
  }

  Length across_bought() const { return down_to_mark(list_.yardage.usable_width, list_.ruler); }

  StripLengths all_so_long(int print, Length strip) const {
    StripLengths strips;
    for (std::size_t i = 0; i < list_.runs.size(); ++i) {
      if (list_.runs[i].print == print) strips[static_cast<int>(i)] = strip;
    }
    return strips;
  }

  /// Many prints ask for the same pieces from the same cloth: each such question is answered once.
  Attempt solved(int print, const StripLengths& strips, const std::vector<Sheet>& sheets, const Effort& effort) const {
    const Demand demand = demand_of(print, strips);
    std::vector<std::int64_t> key = {effort.exact, effort.grid};
    for (const Wanted& item : demand.wanted) {
      key.insert(key.end(), {item.width, item.height, item.count, item.turnable ? 1 : 0});
    }
    key.push_back(-1);
    for (const Sheet& sheet : sheets) key.insert(key.end(), {sheet.cloth, sheet.width, sheet.height});
    auto known = known_.find(key);
    if (known == known_.end()) known = known_.emplace(key, best_attempt(demand, sheets, effort)).first;
    Attempt attempt = known->second;
    attempt.demand = demand;
    attempt.strips = strips;
    return attempt;
  }

  /// A strip must be longer than what its joins take, by a hand's width at least.
  bool joins_at(int print, Length strip) const {
    return std::all_of(list_.runs.begin(), list_.runs.end(),
                       [&](const Run& run) { return run.print != print || joins(run, strip); });
  }
  static bool joins(const Run& run, Length strip) { return strip >= run.total || strip > run.join_loss + in(4); }

  Demand demand_of(int print, const StripLengths& strips) const {
    DemandMaker maker(list_);
    for (std::size_t i = 0; i < list_.lines.size(); ++i) {
      if (list_.lines[i].print == print) maker.add_line(static_cast<int>(i));
    }
    for (const auto& [run, length] : strips) maker.add_run(list_.runs[run], length);
    return maker.take();
  }

  static bool sound(const Attempt& attempt) {
    std::vector<int> counts(attempt.demand.wanted.size(), 0);
    for (const auto& [sheet, layout] : attempt.sheets) {
      if (!replays(sheet.width, sheet.height, attempt.demand.wanted, layout)) return false;
      for (const Placed& placed : layout.placed) ++counts[placed.wanted];
    }
    for (std::size_t i = 0; i < counts.size(); ++i) {
      if (counts[i] < attempt.demand.wanted[i].count) return false;
    }
    return true;
  }

  Area area_of(const Rect& rect) const {
    const Length step = step_of(list_.ruler);
    return {rect.x * step, rect.y * step, rect.width * step, rect.height * step};
  }

  NumberedCut numbered(const Cut& cut, int number) const {
    NumberedCut result{number, area_of(cut.of), cut.upright, cut.at * step_of(list_.ruler), ""};
    const int from = cut.at - (cut.upright ? cut.of.x : cut.of.y);
    result.says = "cut " + std::to_string(number) + ": " + (cut.upright ? "along the length, " : "across, ") +
                  said(from * step_of(list_.ruler), list_.ruler) +
                  (cut.upright ? " from the left edge of the piece" : " below the top edge of the piece") + " of " +
                  said(result.of.width, result.of.height, list_.ruler);
    return result;
  }

  SheetPlan drawn(const Sheet& sheet, const Layout& layout, const print::Cloth& cloth) const {
    SheetPlan plan;
    plan.kind = cloth.kind;
    plan.width = sheet.width * step_of(list_.ruler);
    plan.length = sheet.height * step_of(list_.ruler);
    std::int64_t used = 0;
    for (const Placed& placed : layout.placed) {
      plan.pieces.push_back({area_of(placed.rect), placed.wanted, placed.turned});
      used += placed.rect.area();
    }
    for (std::size_t i = 0; i < layout.cuts.size(); ++i) {
      plan.cuts.push_back(numbered(layout.cuts[i], static_cast<int>(i) + 1));
    }
    std::vector<Rect> left = layout.left;
    std::stable_sort(left.begin(), left.end(), [](const Rect& a, const Rect& b) { return a.area() > b.area(); });
    for (const Rect& rect : left) plan.left.push_back(area_of(rect));
    plan.used = static_cast<double>(used) / (static_cast<double>(sheet.width) * sheet.height);
    return plan;
  }

  void add_sheets(PrintPlan& plan, const Attempt& attempt, const print::Print& print) const {
    const Layout* before = nullptr;
    const Sheet* sheet_before = nullptr;
    for (const auto& [sheet, layout] : attempt.sheets) {
      const bool again = before != nullptr && sheet_before->width == sheet.width &&
                         sheet_before->height == sheet.height && before->cuts == layout.cuts &&
                         same_places(*before, layout);
      if (again) {
        ++plan.sheets.back().copies;
      } else {
        plan.sheets.push_back(drawn(sheet, layout, print.cloth[sheet.cloth]));
      }
      before = &layout;
      sheet_before = &sheet;
    }
  }

  static bool same_places(const Layout& a, const Layout& b) {
    return std::equal(a.placed.begin(), a.placed.end(), b.placed.begin(), b.placed.end(),
                      [](const Placed& p, const Placed& q) {
                        return p.rect == q.rect && p.wanted == q.wanted && p.turned == q.turned;
                      });
  }

  bool has_handed_shape(int print) const {
    return std::any_of(list_.lines.begin(), list_.lines.end(),
                       [&](const CutLine& line) { return line.print == print && !line.shape.own_mirror; });
  }

  void ask_for_more(PrintPlan& plan, const Attempt& attempt, int print) const {
    // By the yard: strips to be joined are as long as that cloth is wide, whatever the cloth in hand gave.
    std::vector<Wanted> missing = attempt.demand.wanted;
    for (std::size_t i = 0; i < missing.size(); ++i) missing[i].count = attempt.missing[i];
    std::string working = "Still to be cut: ";
    if (!plan.has_cloth) {
      plan.strips = all_so_long(print, across_bought());
      Demand whole = demand_of(print, plan.strips);
      missing = whole.wanted;
      plan.wanted = whole.pieces;
      plan.missing.clear();
      for (const Wanted& item : missing) plan.missing.push_back(item.count);
      working = "To be cut: ";
    }
    bool first = true;
    for (std::size_t i = 0; i < missing.size(); ++i) {
      if (missing[i].count == 0) continue;
      working += (first ? "" : "; ") + std::to_string(missing[i].count) + " of " + plan.wanted[i].says;
      first = false;
    }
    plan.more = purchase(print::name_of(quilt_.prints[print]), print, yardage_of(missing), list_.yardage,
                         list_.ruler == Ruler::millimetres, working + ".");
    plan.bought = cut_from_bought(missing, *plan.more);
    if (!plan.has_cloth) return;
    // Strips from cloth so small would have more than twice the joins of those by the yard: no more of it is named.
    const std::set<Length> lengths = lengths_on(sheets_of(quilt_.prints[print], list_.ruler), print);
    if (has_runs(print) && (lengths.empty() || 2 * *lengths.rbegin() < across_bought())) return;
    const print::Cloth& kind = quilt_.prints[print].cloth.front();
    const double each = kind.width.inches() * kind.length.inches();
    const double step = step_of(list_.ruler).inches();
    const int least =
        static_cast<int>(static_cast<double>(attempt.missing_area()) * step * step / std::max(each, 1e-6));
    for (int more = std::max(1, least); more <= std::max(40, 2 * least); ++more) {
      const Attempt longer =
          best_for(print, sheets_of(quilt_.prints[print], list_.ruler, more), {.exact = 100'000, .grid = 0});
      if (total(longer.missing) > 0) continue;
      plan.more_pieces = more;
      return;
    }
  }

  Length yardage_of(const std::vector<Wanted>& wanted) const {
    return length_taken(laid_by_length(wanted), wanted, list_.ruler);
  }

  /// The length bought is longer than what is cut: whatever is left below belongs to the drawing too.
  std::optional<SheetPlan> cut_from_bought(const std::vector<Wanted>& wanted, const Purchase& bought) const {
    const Layout& layout = laid_by_length(wanted);
    const std::vector<int> counts = layout.counts(wanted.size());
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      if (counts[i] < wanted[i].count) return std::nullopt;
    }
    const double washed = list_.yardage.prewashed ? 1 + list_.yardage.shrinkage : 1;
    const Length spare = Length::inches((bought.buy - bought.exact).inches() / washed);
    const Length taken = length_taken(layout, wanted, list_.ruler);
    const Sheet sheet{0, steps_down(list_.yardage.usable_width, list_.ruler), steps_down(taken + spare, list_.ruler)};
    const Layout cut = shortened(layout, sheet.height);
    if (!replays(sheet.width, sheet.height, wanted, cut)) return std::nullopt;
    const char* sold = list_.ruler == Ruler::millimetres ? "by the metre" : "by the yard";
    return drawn(sheet, cut, {sold, {}, {}, 1, "", std::nullopt});
  }

  /// Many prints ask for the same length: each such question is answered once.
  const Layout& laid_by_length(const std::vector<Wanted>& wanted) const {
    std::vector<std::int64_t> key;
    for (const Wanted& item : wanted)
      key.insert(key.end(), {item.width, item.height, item.count, item.turnable ? 1 : 0});
    auto known = by_length_.find(key);
    if (known == by_length_.end()) {
      const int width = steps_down(list_.yardage.usable_width, list_.ruler);
      known = by_length_.emplace(key, least_length(width, wanted, options_.effort)).first;
    }
    return known->second;
  }

  void say(PrintPlan& plan, const print::Print& print) const {
    const std::string name = print::name_of(print);
    if (plan.enough) {
      const Area* most = nullptr;
      const auto size = [](const Area* area) { return area ? area->width.inches() * area->height.inches() : 0; };
      for (const SheetPlan& sheet : plan.sheets) {
        if (!sheet.left.empty() && size(&sheet.left[0]) > size(most)) most = &sheet.left[0];
      }
      plan.says = name + ": the cloth in hand is enough" +
                  (most ? "; the largest piece left over is " + said(most->width, most->height, list_.ruler) : "") +
                  ".";
      return;
    }
    plan.says =
        name + (plan.has_cloth ? ": the cloth in hand is not enough" : ": no cloth in hand") + ". " +
        (plan.has_cloth && !plan.proven ? "No plan was found that fits, though none was proven impossible. " : "") +
        plan.more->says;
    if (plan.more_pieces > 0) plan.says += " Or " + more_pieces_said(plan, print) + ".";
  }

  const quilt::Quilt& quilt_;
  const CutList& list_;
  const PlanOptions& options_;
  mutable std::map<std::vector<std::int64_t>, Attempt> known_;
  mutable std::map<std::vector<std::int64_t>, Layout> by_length_;
};

/// What must agree for two prints to be cut in one stack.
std::string likeness_of(const PrintPlan& plan, const print::Print& print) {
  std::string key;
  const auto add = [&](Length length) { key += number(length.millimetres(), 6) + "/"; };
  for (const WantedPiece& piece : plan.wanted) {
    add(piece.width);
    add(piece.height);
    key += std::to_string(piece.count) + (piece.turnable ? "t" : "u") + name_of(piece.shape) +
           diagonal_said(piece.diagonal) + ";";
  }
  for (const print::Cloth& cloth : print.cloth) {
    add(cloth.width);
    add(cloth.length);
    key += std::to_string(cloth.count) + ";";
  }
  return key + (plan.enough ? "+" : "-") + (plan.right_sides_up ? "up" : "");
}

std::vector<CuttingGroup> groups_of(const quilt::Quilt& quilt, const std::vector<PrintPlan>& plans, int layers) {
  std::map<std::string, std::size_t> known;
  std::vector<CuttingGroup> groups;
  for (std::size_t i = 0; i < plans.size(); ++i) {
    if (plans[i].sheets.empty() && !plans[i].bought) continue;
    const std::string key = likeness_of(plans[i], quilt.prints[plans[i].print]);
    const auto [place, is_new] = known.try_emplace(key, groups.size());
    if (is_new) groups.emplace_back();
    groups[place->second].plans.push_back(static_cast<int>(i));
  }
  for (CuttingGroup& group : groups) {
    const PrintPlan& first = plans[group.plans.front()];
    group.right_sides_up = first.right_sides_up;
    int sheets = static_cast<int>(group.plans.size());
    // Prints lie on one another; each drawing of the plan is cut once for every stack.
    while (sheets > 0) {
      const int stacks_left = (sheets + layers - 1) / layers;
      group.stacks.push_back((sheets + stacks_left - 1) / stacks_left);
      sheets -= group.stacks.back();
    }
    group.says =
        counted(group.plans.size(), "print") + " cut to this plan, in " + counted(group.stacks.size(), "stack") +
        " of up to " + counted(group.stacks.front(), "layer") +
        (group.right_sides_up ? ", every layer right side up: a shape or a print is not its own mirror." : ".");
  }
  return groups;
}

}  // namespace

Diagonal diagonal_of(const CutLine& line) {
  if (line.shape.shape != Shape::half_square || line.turnable) return Diagonal::either;
  return line.shape.facing % 2 == 0 ? Diagonal::rising : Diagonal::falling;
}

std::string diagonal_said(Diagonal diagonal) {
  if (diagonal == Diagonal::either) return "";
  const char* corners =
      diagonal == Diagonal::rising ? "the bottom left to the top right" : "the top left to the bottom right";
  return std::string(", from ") + corners + " with the print upright";
}

std::string more_pieces_said(const PrintPlan& plan, const print::Print& print) {
  const std::string& kind = print.cloth.front().kind;
  if (kind.empty()) return counted(plan.more_pieces, "more piece") + " of the same cloth";
  if (kind == "yardage") return counted(plan.more_pieces, "more length") + " like the first";
  return counted(plan.more_pieces, "more " + kind);
}

CuttingPlans cutting_plans(const quilt::Quilt& quilt, const CutList& list, const PlanOptions& options) {
  std::set<int> prints;
  bool all_dealt = true;
  for (const CutLine& line : list.lines) prints.insert(line.print);
  for (const Run& run : list.runs) prints.insert(run.print);
  if (prints.erase(kNone) > 0) all_dealt = false;
  CuttingPlans result;
  result.enough = all_dealt;
  Planner planner(quilt, list, options);
  for (int print : prints) {
    result.plans.push_back(planner.plan(print));
    result.enough = result.enough && result.plans.back().enough;
  }
  result.groups = groups_of(quilt, result.plans, std::max(1, options.layers));
  return result;
}

PrintPlan print_plan(const quilt::Quilt& quilt, const CutList& list, int print, const PlanOptions& options) {
  return Planner(quilt, list, options).plan(print);
}

bool enough_in_hand(const quilt::Quilt& quilt, const CutList& list, int print, const Effort& effort) {
  PlanOptions options;
  options.effort = effort;
  return Planner(quilt, list, options).fits(print);
}

Length yardage_for(const CutList& list, const std::vector<int>& lines, const std::vector<int>& runs,
                   const PlanOptions& options) {
  DemandMaker maker(list);
  for (int line : lines) maker.add_line(line);
  for (int run : runs) maker.add_run(list.runs[run], down_to_mark(list.yardage.usable_width, list.ruler));
  const std::vector<Wanted> wanted = maker.take().wanted;
  const int width = steps_down(list.yardage.usable_width, list.ruler);
  return length_taken(least_length(width, wanted, options.effort), wanted, list.ruler);
}

}  // namespace farflung::cloth
