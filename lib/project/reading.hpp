// What reading a quilt's tree goes by: the file's units, the names it gives, and all that was found wrong on the way.
// For the sources of this module only.
#pragma once

#include <map>
#include <utility>

#include "colour/lab.hpp"
#include "project/tree_reader.hpp"
#include "quilt/quilt.hpp"

namespace farflung::project {

/// Reads the small things, and collects every problem with its pointer; nothing here throws or stops at the first.
class Reading {
 public:
  /// `shape` is what the schema found: where it found anything, what only repeats it is not told again.
  explicit Reading(Problems shape) : shape_is_right_(shape.empty()), problems_(std::move(shape)) {}

  /// The units of bare numbers from here on.
  void measure_in(quilt::Units units) { units_ = units; }
  quilt::Units units() const { return units_; }

  /// A pattern without a quilt: it can name no prints.
  void stand_alone() { lone_pattern_ = true; }

  /// Takes the ids of a quilt's lists, to which its other parts refer; says which are given twice or are too many.
  void take_ids(const Place& root);

  void add(const Place& place, std::string cause, std::string remedy);

  /// As `add`, of something so large that the rest is better not read.
  void refuse(const Place& place, std::string cause, std::string remedy);
  /// What is left is not read: some list is beyond its limit.
  void give_up() { beyond_limits_ = true; }
  bool given_up() const { return beyond_limits_; }

  bool shape_is_right() const { return shape_is_right_; }
  std::size_t count() const { return problems_.size(); }

  /// Adds what was found later, but one finding for one place is enough.
  void add_missing(const Problems& found);

  /// All that was found, limits::kProblems of it at the most, ending with how much more there is. The last call.
  Problems told();

  /// `otherwise` where it is left out, and, with a problem told, where it is no length.
  Length length(const Place& place, Length otherwise = Length());

  /// A length that must not be zero or less.
  Length width(const Place& place, Length otherwise = Length());

  /// A file's name; a quilt from a stranger must not lead to what lies elsewhere on the disk.
  std::string file_within(const Place& place);

  /// The index of what is named; kNone, and a problem told, where there is none.
  int print_named(const Place& place);
  int pattern_named(const Place& place) { return named(place, pattern_ids_, "pattern"); }
  int block_named(const Place& place) { return named(place, block_ids_, "block"); }

  /// The cell at [row, column] of rows with so many cells each; kNone, and a problem told, where there is none.
  int cell_at(const Place& place, const std::vector<int>& rows);

 private:
  using Ids = std::map<std::string, int>;

  Ids ids(const Place& list, const std::string& kind, std::size_t most);
  int named(const Place& place, const Ids& ids, const std::string& kind);
  void keep(Problem problem);

  bool shape_is_right_;
  bool beyond_limits_ = false;
  bool lone_pattern_ = false;
  quilt::Units units_ = quilt::Units::inches;
  Ids print_ids_, pattern_ids_, block_ids_;
  Problems problems_;
  std::size_t untold_ = 0;
};

/// A colour as [L, a, b]; black where it is none.
colour::Lab lab_from(const Place& place);

/// The value that a word stands for; the first where it is not among them.
template <typename Value>
Value worded(const Place& place, const std::vector<std::pair<const char*, Value>>& words) {
  for (const auto& [word, value] : words) {
    if (place.text() == word) return value;
  }
  return words.front().second;
}

}  // namespace farflung::project
