#include "score/contact_field.hpp"

#include <algorithm>
#include <cstdlib>

#include "score/wide.hpp"

namespace farflung::score {
namespace {

FARFLUNG_WIDE void add_row(double* to, const double* from, double times, int count) {
  for (int k = 0; k < count; ++k) to[k] += times * from[k];
}

}  // namespace

ContactField::ContactField(const Model& model, TouchPrice touch_price)
    : model_(model),
      touch_price_(touch_price),
      rows_(model.meetings ? model.rows : 0),
      forms_(static_cast<int>(model.forms.size())),
      stride_(static_cast<std::size_t>(model.prints) + 1),
      neighbours_(model.places),
      forms_of_place_(model.places),
      field_(static_cast<std::size_t>(model.places) * rows_ * stride_, 0.0) {
  if (empty()) return;
  if (model.ends) {
    end_price_ = model.nest_weight + (model.nest_rule ? touch_price.end : 0);
    ends_.assign(static_cast<std::size_t>(model.places) * forms_, 0.0);
  }
  find_neighbours();
  find_told();
  find_alike();
  add_frame();
}

/// A change is told to all forms of a neighbour at once: what each slot costs in each of their rows is summed ahead.
void ContactField::find_told() {
  const int ways = 2 * model_.meetings->relations();
  told_.resize(static_cast<std::size_t>(ways) * forms_);
  for (int way = 0; way < ways; ++way) {
    for (int there = 0; there < forms_; ++there) {
      std::vector<Told>& all = told_[static_cast<std::size_t>(way) * forms_ + there];
      for (int slot = 0; slot < model_.forms[there].slots; ++slot) {
        Told told{slot, std::vector<double>(rows_, 0.0), std::vector<double>(rows_, 0.0)};
        bool any = false;
        for (int form = 0; form < forms_; ++form) {
          for (const Meeting& meeting : met({0, way}, form, there)) {
            if (meeting.other != slot) continue;
            const int row = model_.forms[form].first_row + meeting.slot;
            told.lengths[row] += meeting.length;
            told.same[row] += same_of(meeting);
            any = true;
          }
        }
        if (any) all.push_back(std::move(told));
      }
    }
  }
}

/// Few prints are alike: a change is told to their rows only.
void ContactField::find_alike() {
  for (int p = 0; p < model_.prints; ++p) {
    alike_from_.push_back(static_cast<int>(alike_.size()));
    for (int q = 0; q < model_.prints; ++q) {
      const double cost = model_.alike[static_cast<std::size_t>(p) * model_.prints + q];
      if (cost != 0) alike_.push_back({q, cost});
    }
  }
  alike_from_.push_back(static_cast<int>(alike_.size()));
}

void ContactField::find_neighbours() {
  const int ways = 2 * model_.meetings->relations();
  met_.resize(static_cast<std::size_t>(ways) * forms_ * forms_);
  for (int way = 0; way < ways; ++way) {
    const Neighbour neighbour{0, way / 2, way % 2 == 0};
    for (int a = 0; a < forms_; ++a) {
      for (int b = 0; b < forms_; ++b) {
        const Form& here = model_.forms[a];
        const Form& there = model_.forms[b];
        met_[(static_cast<std::size_t>(way) * forms_ + a) * forms_ + b] =
            model_.meetings->towards(neighbour, here.pattern, here.turn, there.pattern, there.turn);
      }
    }
  }
  for (int i = 0; i < model_.places; ++i) {
    for (const Neighbour& neighbour : model_.meetings->neighbours(model_.cell[i])) {
      const int place = model_.place_of_cell[neighbour.cell];
      if (place == kNone) continue;
      neighbours_[i].push_back({place, 2 * neighbour.relation + (neighbour.first ? 0 : 1)});
      reach_ = std::max(reach_, std::abs(place - i));
    }
  }
}

double ContactField::graded(int place, const Form& form, int slot, int print) const {
  if (model_.gradation_weight == 0) return 0;
  return model_.gradation_weight * model_.gradation.cost(place, form.pattern, form.turn, slot, print);
}

void ContactField::add_frame() {
  frame_.resize(static_cast<std::size_t>(model_.places) * forms_);
  for (int i = 0; i < model_.places; ++i) {
    const int own = model_.pattern_of_place.empty() ? kNone : model_.pattern_of_place[i];
    for (int f = 0; f < forms_; ++f) {
      const Form& form = model_.forms[f];
      if (own != kNone && own != form.pattern) continue;
      forms_of_place_[i].push_back(f);
      frame_[frame_index(i, f)] = model_.meetings->with_frame(model_.cell[i], form.pattern, form.turn);
      for (const Meeting& meeting : frame_[frame_index(i, f)]) {
        for (int p = 0; p < model_.prints; ++p) {
          field_[index(i, p, form.first_row + meeting.slot)] += cost_of(meeting, p, meeting.other);
        }
      }
      if (model_.gradation_weight == 0) continue;
      for (int slot = 0; slot < form.slots; ++slot) {
        for (int p = 0; p < model_.prints; ++p) field_[index(i, p, form.first_row + slot)] += graded(i, form, slot, p);
      }
    }
  }
}

/// How many ends on the join of two blocks in these forms do not nest.
int ContactField::unnested(const Near& near, int form, int form_there) const {
  if (!model_.ends) return 0;
  const Form& here = model_.forms[form];
  const Form& there = model_.forms[form_there];
  const Neighbour neighbour{0, near.way / 2, near.way % 2 == 0};
  return model_.ends->towards(neighbour, here.pattern, here.turn, there.pattern, there.turn)
      .unnested(here.other == there.other);
}

double ContactField::cost_of(const Meeting& meeting, int print, int other) const {
  if (print == kNone || other == kNone) return 0;
  if (print != other) {
    return meeting.length * model_.alike[static_cast<std::size_t>(print) * model_.prints + other];
  }
  return same_of(meeting);
}

double ContactField::same_of(const Meeting& meeting) const {
  if (meeting.free) return 0;
  return touch_price_.count * meeting.seams + touch_price_.length * meeting.length +
         model_.corner_weight * meeting.points;
}

void ContactField::add(int place, Lying lying, double sign) {
  for (const Near& to : neighbours_[place]) {
    // The neighbour sees this place the other way round.
    const Near back{place, to.way ^ 1};
    if (!ends_.empty()) {
      for (const int f : forms_of_place_[to.place]) {
        ends_[frame_index(to.place, f)] += sign * end_price_ * unnested(back, f, lying.form);
      }
    }
    for (const Told& each : told(back.way, lying.form)) {
      const int print = lying.prints[each.slot];
      if (print == kNone) continue;
      double* rows = &field_[index(to.place, 0, 0)];
      const auto rows_of = [&](int of) { return rows + static_cast<std::ptrdiff_t>(of) * rows_; };
      for (int k = alike_from_[print]; k < alike_from_[print + 1]; ++k) {
        add_row(rows_of(alike_[k].print), each.lengths.data(), sign * alike_[k].cost, rows_);
      }
      add_row(rows_of(print), each.same.data(), sign, rows_);
    }
  }
}

const ContactField::Near* ContactField::near(int a, int b) const {
  for (const Near& each : neighbours_[a]) {
    if (each.place == b) return &each;
  }
  return nullptr;
}

bool ContactField::meet(int a, int b) const { return std::abs(a - b) <= reach_ && near(a, b) != nullptr; }

double ContactField::between(int a, Lying in_a, int b, Lying in_b) const {
  const Near* way = near(a, b);
  double sum = 0;
  if (way == nullptr) return sum;
  if (end_price_ != 0) sum += end_price_ * unnested(*way, in_a.form, in_b.form);
  for (const Meeting& meeting : met(*way, in_a.form, in_b.form)) {
    sum += cost_of(meeting, in_a.prints[meeting.slot], in_b.prints[meeting.other]);
  }
  return sum;
}

double ContactField::alone(int place, Lying lying) const {
  double sum = 0;
  const Form& form = model_.forms[lying.form];
  for (int slot = 0; slot < form.slots; ++slot) sum += graded(place, form, slot, lying.prints[slot]);
  for (const Meeting& meeting : frame_[frame_index(place, lying.form)]) {
    sum += cost_of(meeting, lying.prints[meeting.slot], meeting.other);
  }
  return sum;
}

TouchSum ContactField::of_meetings(std::span<const Meeting> meetings, const int* prints, const int* others) {
  TouchSum sum;
  for (const Meeting& meeting : meetings) {
    const int other = others == nullptr ? meeting.other : others[meeting.other];
    if (meeting.free || prints[meeting.slot] != other || other == kNone) continue;
    sum.count += meeting.seams;
    sum.length += meeting.length;
  }
  return sum;
}

TouchSum ContactField::touches_between(int a, Lying in_a, int b, Lying in_b) const {
  const Near* way = near(a, b);
  if (way == nullptr) return {};
  TouchSum sum = of_meetings(met(*way, in_a.form, in_b.form), in_a.prints, in_b.prints);
  sum.ends = broken(*way, in_a.form, in_b.form);
  return sum;
}

}  // namespace farflung::score
