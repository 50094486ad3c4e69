// Touch, corner, likeness and nesting as a field: what each print would cost in each slot of each place and what each
// way a block lies, its neighbours as they are.
#pragma once

#include <span>
#include <vector>

#include "score/model.hpp"

namespace farflung::score {

/// What lies in a place: a block's prints by slot, in a form.
struct Lying {
  /// Index into Model::forms.
  int form = 0;
  const int* prints = nullptr;
};

/// Touches as they are counted: exact.
struct TouchSum {
  int count = 0;
  double length = 0;
  int ends = 0;  ///< seam ends that do not nest, where that is a rule

  friend TouchSum operator+(TouchSum a, TouchSum b) {
    return {a.count + b.count, a.length + b.length, a.ends + b.ends};
  }
  friend TouchSum operator-(TouchSum a, TouchSum b) {
    return {a.count - b.count, a.length - b.length, a.ends - b.ends};
  }
};

/// What a touch costs in an objective that can be summed: F has no price for it, touch comes first.
struct TouchPrice {
  double count = 0;   ///< of each touch
  double length = 0;  ///< of each pitch of its seam
  double end = 0;     ///< of each seam end that does not nest, where that is a rule

  double of(const TouchSum& touch) const { return count * touch.count + length * touch.length + end * touch.ends; }
};

/// A contact's cost is linear in either side's print, the other side given. So the field holds, for every place, form
/// and slot, the cost of each print there; a price is one look-up a slot, and a change is told to the neighbours only.
class ContactField {
 public:
  /// Nothing lies anywhere yet but the frame. The model must outlive the field.
  ContactField(const Model& model, TouchPrice touch_price);

  /// Nothing meets in this model: every cost is 0.
  bool empty() const { return rows_ == 0; }

  /// What the contacts of `lying` cost, were it in `place`.
  double cost(int place, Lying lying) const {
    const Form& form = model_.forms[lying.form];
    double sum = ends_.empty() ? 0 : ends_[frame_index(place, lying.form)];
    for (int slot = 0; slot < form.slots; ++slot) {
      sum += field_[index(place, lying.prints[slot], form.first_row + slot)];
    }
    return sum;
  }

  /// Calls use(place) for each place whose block meets the one in `place`.
  template <typename Use>
  void with_neighbours(int place, Use use) const {
    for (const Near& near : neighbours_[place]) use(near.place);
  }

  /// Tells the neighbours of `place` that `lying` is there (or, with sign -1, no longer).
  void add(int place, Lying lying, double sign);

  /// What the contacts between two places cost; 0 where they do not meet.
  double between(int a, Lying in_a, int b, Lying in_b) const;
  /// Whether blocks in the two places share at least a point.
  bool meet(int a, int b) const;
  double alone(int place, Lying lying) const;  ///< the part of cost() that no other block has a hand in

  /// The touches of `lying` in `place` with the frame and with what `there(place)` says lies in the neighbouring
  /// places.
  template <typename There>
  TouchSum touches(int place, Lying lying, There there) const {
    TouchSum sum = of_meetings(frame_[frame_index(place, lying.form)], lying.prints, nullptr);
    for (const Near& near : neighbours_[place]) {
      const Lying other = there(near.place);
      if (other.prints == nullptr) continue;
      sum = sum + of_meetings(met(near, lying.form, other.form), lying.prints, other.prints);
      sum.ends += broken(near, lying.form, other.form);
    }
    return sum;
  }
  /// The touches between two places alone; none where they do not meet.
  TouchSum touches_between(int a, Lying in_a, int b, Lying in_b) const;

 private:
  struct Alike {
    int print = 0;
    double cost = 0;  ///< of a pitch of seam
  };

  struct Near {
    int place = 0;
    int way = 0;  ///< relation and side: an index into met_
  };

  /// What one slot of a block costs a neighbour, whatever form that one is in.
  struct Told {
    int slot = 0;
    std::vector<double> lengths;  ///< by row: of the seams, in pitches: what prints that are alike cost goes by it
    std::vector<double> same;     ///< by row: what the slot's own print costs there
  };

  std::size_t frame_index(int place, int form) const { return static_cast<std::size_t>(place) * forms_ + form; }
  std::span<const Meeting> met(const Near& near, int form, int form_there) const {
    return met_[(static_cast<std::size_t>(near.way) * forms_ + form) * forms_ + form_there];
  }
  /// A print's costs in all slots of all forms lie side by side: a change tells all forms at once.
  std::size_t index(int place, int print, int row) const {
    return (static_cast<std::size_t>(place) * stride_ + print + 1) * rows_ + row;
  }
  const Near* near(int a, int b) const;
  double cost_of(const Meeting& meeting, int print, int other) const;
  double same_of(const Meeting& meeting) const;
  int unnested(const Near& near, int form, int form_there) const;
  int broken(const Near& near, int form, int form_there) const {
    return model_.nest_rule ? unnested(near, form, form_there) : 0;
  }
  static TouchSum of_meetings(std::span<const Meeting> meetings, const int* prints, const int* others);
  const std::vector<Told>& told(int way, int form) const {
    return told_[static_cast<std::size_t>(way) * forms_ + form];
  }
  void find_neighbours();
  void find_told();
  void find_alike();
  double graded(int place, const Form& form, int slot, int print) const;
  void add_frame();

  const Model& model_;
  TouchPrice touch_price_;
  int rows_ = 0, forms_ = 0;
  std::size_t stride_ = 0;  ///< prints and one: print kNone costs nothing
  int reach_ = 0;           ///< the most that the numbers of two neighbouring places differ by
  std::vector<std::vector<Near>> neighbours_;
  std::vector<std::span<const Meeting>> met_;
  std::vector<std::span<const Meeting>> frame_;
  std::vector<std::vector<Told>> told_;  ///< by way of the neighbour and form of the block that tells it
  std::vector<std::vector<int>> forms_of_place_;
  std::vector<double> field_;
  std::vector<Alike> alike_;     ///< by print: the prints that cost something beside it
  std::vector<int> alike_from_;  ///< by print: where its own begin; one more at the end
  double end_price_ = 0;         ///< of a seam end that does not nest
  std::vector<double> ends_;     ///< by place and form, what its ends that do not nest cost; empty: nothing
};

}  // namespace farflung::score
