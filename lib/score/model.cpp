#include "score/model.hpp"

namespace farflung::score {

int Model::form_of(int pattern, Turn turn, bool other) const {
  for (const int form : forms_of[pattern]) {
    if (forms[form].turn == turn && forms[form].other == other) return form;
  }
  return kNone;
}

int Model::form_of_block(int block, Turn turn) const {
  return form_of(pieces[block].pattern, turn, !pressed_other.empty() && pressed_other[block]);
}

std::vector<int> Model::forms_of_block(const block::Block& block, Turn turn) const {
  if (!ends) return {form_of(block.pattern, turn)};
  if (block.press) return {form_of(block.pattern, turn, *block.press == block::Block::Press::other)};
  return {form_of(block.pattern, turn, false), form_of(block.pattern, turn, true)};
}

void Model::weigh(Parts& parts) const {
  parts.mask = 0;
  parts.spread_square = parts.coverage_square = 0;
  for (const Share& share : parts.shares) {
    parts.mask |= std::uint64_t{1} << (share.print % 64);
    parts.spread_square += spread_weight[share.print] * share.share * share.share;
    parts.coverage_square += coverage_weight[share.print] * share.share * share.share;
  }
}

Parts Model::parts_of(int pattern, const std::vector<int>& prints_by_slot) const {
  Parts parts;
  parts.shares = shares_of(facts[pattern], prints_by_slot);
  parts.cast = minus(score::mean_reading(facts[pattern], prints_by_slot, readings), mean_reading);
  weigh(parts);
  return parts;
}

Parts Model::part_of_slot(int pattern, int slot, int print) const {
  Parts parts;
  if (print == kNone) return parts;
  const double area = facts[pattern].area[slot];
  if (!facts[pattern].may_touch[slot]) parts.shares.push_back({print, area});
  for (std::size_t k = 0; k < parts.cast.size(); ++k) parts.cast[k] = area * readings[print][k];
  weigh(parts);
  return parts;
}

namespace {

double over(double weight, double mean) { return tells(mean) ? weight / mean : 0.0; }

void take_forms(const Measure& measure, Model& model) {
  const auto& patterns = measure.quilt().patterns;
  model.forms_of.resize(patterns.size());
  for (int p = 0; p < static_cast<int>(patterns.size()); ++p) {
    const int slots = static_cast<int>(patterns[p].slots.size());
    for (const Turn turn : patterns[p].turns) {
      for (const bool other : {false, true}) {
        if (other && !measure.asks_nesting()) continue;
        model.forms_of[p].push_back(static_cast<int>(model.forms.size()));
        model.forms.push_back({p, turn, other, model.rows, slots});
        model.rows += slots;
      }
    }
  }
}

void take_weights(const Measure& measure, Model& model) {
  const quilt::Goals& goals = measure.quilt().goals;
  const ShuffleMeans& means = measure.means();
  const double coverage = over(goals.coverage, means.coverage);
  for (int p = 0; p < model.prints; ++p) {
    const double spread_mean = measure.spread_means()[p];
    model.spread_weight.push_back(spread_mean > 0 ? goals.spread / (measure.spread_prints() * spread_mean) : 0);
    model.coverage_weight.push_back(measure.mean_shares()[p] > 0 ? coverage / measure.mean_shares()[p] : 0);
  }
  for (const double share : measure.coverage_shares()) model.linear.push_back(-2 * coverage * share);
  model.evenness_weight = over(goals.evenness, means.evenness);
  model.streak_weight = over(goals.streak, means.streak);
  model.corner_weight = over(goals.corner, means.corners);
  const double likeness = over(goals.likeness, means.likeness);
  const double contrast = over(goals.contrast, means.contrast);
  model.gradation_weight = measure.graded() ? over(goals.gradation, means.gradation) : 0;
  model.gradation = measure.gradation();
  model.nest_weight = over(goals.nest, means.ends);
  model.nest_rule = goals.nest_rule;
  model.lines_weight = goals.lines;
  model.closest_weight = goals.closest;
  for (int p = 0; p < model.prints; ++p) {
    for (int q = 0; q < model.prints; ++q) {
      model.alike.push_back(
          p == q ? 0 : likeness * likeness_of(measure.delta_e(p, q)) + contrast * merging_of(measure.delta_L(p, q)));
    }
  }
}

}  // namespace

Model model_of(const Measure& measure) {
  Model model;
  model.places = measure.places().count();
  model.prints = static_cast<int>(measure.quilt().prints.size());
  model.spread = measure.inverse_square();
  model.coverage = measure.coverage_windows();
  model.evenness = measure.evenness_windows();
  model.streaks = measure.streaks();
  model.meetings = std::shared_ptr<const Meetings>(std::shared_ptr<const Meetings>(), &measure.meetings());
  model.cell = measure.places().cell;
  model.place_of_cell = measure.places().of_cell;
  for (const int cell : model.cell) model.pattern_of_place.push_back(measure.plan().cells[cell].pattern);
  model.facts = measure.facts();
  model.readings = measure.readings();
  const std::shared_ptr<void> none;  // the measure outlives its models
  model.lattice = std::shared_ptr<const PlaceLattice>(none, &measure.lattice());
  if (measure.asks_nesting()) {
    model.ends = std::shared_ptr<const EndTables>(none, &measure.ends());
    model.pressed_other = measure.pressed_other(measure.quilt().layout);
  }
  take_forms(measure, model);
  take_weights(measure, model);
  model.mean_reading = measure.mean_reading();
  if (measure.graded()) {  // then value is no part of a cast
    for (Reading& reading : model.readings) reading[0] = 0;
    model.mean_reading[0] = 0;
  }
  for (std::size_t b = 0; b < measure.quilt().blocks.size(); ++b) {
    Piece piece{measure.quilt().blocks[b].pattern, measure.prints()[b], {}};
    piece.parts.shares = measure.shares()[b];
    piece.parts.cast = measure.casts()[b];
    model.weigh(piece.parts);
    model.pieces.push_back(std::move(piece));
  }
  return model;
}

Model spread_model(const Kernel& weights, const std::vector<int>& print, int prints) {
  Model model;
  model.places = weights.places();
  model.prints = prints;
  model.spread = weights;
  model.spread_weight.assign(prints, 1.0);
  model.coverage_weight.assign(prints, 0.0);
  model.forms = {{0, Turn(), false, 0, 1}};
  model.forms_of = {{0}};
  for (const int of_block : print) {
    Piece piece{0, {of_block}, {}};
    if (of_block != kNone) piece.parts.shares.push_back({of_block, 1.0});
    model.weigh(piece.parts);
    model.pieces.push_back(std::move(piece));
  }
  return model;
}

}  // namespace farflung::score
