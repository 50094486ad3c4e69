#include "arrange/advice.hpp"

#include <algorithm>

#include "arrange/chain.hpp"
#include "arrange/held.hpp"

namespace farflung::arrange {
namespace {

/// How much there is to mend: each accent on a centre line, and each two copies in one line.
std::size_t amiss(const std::vector<score::AccentInLine>& accents) {
  std::size_t sum = 0;
  for (const score::AccentInLine& accent : accents) {
    const std::size_t copies = accent.cells.size();
    sum += accent.where == score::AccentInLine::Where::centre_line ? copies : copies * (copies - 1) / 2;
  }
  return sum;
}

/// A quilt's model with its layout in it.
struct Laid {
  explicit Laid(const quilt::Quilt& quilt)
      : measure(quilt), model(score::model_of(measure)), pricer(model, held_in(quilt, model), {}) {
    task.model = &model;
    task.freedom = freedom_of(quilt, measure, model, false);
  }

  score::Measure measure;
  score::Model model;
  Task task;
  score::Pricer pricer;
};

/// The cheapest swap of one cell's block with another's that leaves less amiss and no more touches.
std::optional<MendingSwap> cheapest_mend(const Laid& laid, const setting::Arrangement& layout, int cell,
                                         std::size_t now) {
  const Freedom& freedom = laid.task.freedom;
  const int a = laid.model.place_of_cell[cell];
  std::optional<MendingSwap> best;
  if (a == kNone || freedom.pool_of_place[a] == kNone) return best;
  const std::vector<Held>& held = laid.pricer.held();
  for (const int b : freedom.pools[freedom.pool_of_place[a]].places) {
    if (a == b) continue;
    setting::Arrangement swapped = layout;
    std::swap(swapped.block[cell], swapped.block[laid.model.cell[b]]);
    if (amiss(score::accents_in_line(laid.measure, swapped)) >= now) continue;
    for (const int form_a : freedom.forms[held[b].block]) {
      for (const int form_b : freedom.forms[held[a].block]) {
        const score::Price price = laid.pricer.delta(score::Swap{a, b, form_a, form_b});
        if (price.touch.count > 0 || (best && price.F >= best->F)) continue;
        best = MendingSwap{cell, laid.model.cell[b], laid.model.forms[form_a].turn, laid.model.forms[form_b].turn,
                           price.F};
      }
    }
  }
  return best;
}

}  // namespace

std::vector<AccentAdvice> accent_advice(const quilt::Quilt& quilt) {
  const Laid laid(quilt);
  std::vector<AccentAdvice> advice;
  const auto accents = score::accents_in_line(laid.measure, quilt.layout);
  const std::size_t now = amiss(accents);
  for (const score::AccentInLine& accent : accents) {
    AccentAdvice each{accent, std::nullopt};
    for (const int cell : accent.cells) {
      const auto mend = cheapest_mend(laid, quilt.layout, cell, now);
      if (mend && (!each.mend || mend->F < each.mend->F)) each.mend = mend;
    }
    advice.push_back(std::move(each));
  }
  return advice;
}

std::vector<KeptCost> kept_costs(const quilt::Quilt& quilt) {
  const auto lowest = [](const quilt::Quilt& from) {
    const Laid laid(from);
    const Found found = descend(laid.task, laid.pricer.held(), {}, Seed{1}, [](const Standing&) { return true; });
    setting::Arrangement layout = from.layout;
    lay(found.held, laid.model, layout);
    return laid.measure.score(layout);
  };
  std::vector<KeptCost> costs;
  for (int cell = 0; cell < static_cast<int>(quilt.layout.kept.size()); ++cell) {
    if (!quilt.layout.kept[cell] || quilt.layout.block[cell] == kNone) continue;
    costs.push_back({cell, 0, 0});
  }
  if (costs.empty()) return costs;
  const score::Score with_all = lowest(quilt);
  for (KeptCost& cost : costs) {
    quilt::Quilt without = quilt;
    without.layout.kept[cost.cell] = false;
    const score::Score then = lowest(without);
    if (!score::better(then, with_all)) continue;
    cost.touches = with_all.terms.touches - then.terms.touches;
    cost.F = with_all.F - then.F;
  }
  return costs;
}

}  // namespace farflung::arrange
