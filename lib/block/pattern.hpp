// How one block is pieced: its patches, the slots that prints fill, the order of its seams.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/plane.hpp"
#include "base/result.hpp"

namespace farflung::block {

/// An index into a list that the quilt holds; kNone where there is none.
constexpr int kNone = -1;

/// A place in a pattern that a print fills.
struct Slot {
  /// light, dark: the lighter or the darker half of the prints that are dealt.
  enum class Value { any, light, dark };

  std::string name;          ///< "A", "B", "background"
  int print = kNone;         ///< the print that fills it in every block, as an index into the quilt's prints
  bool may_touch = false;    ///< its patches may meet their own print: a background, an accent
  Value value = Value::any;  ///< of the prints that it is dealt
};

/// One piece of cloth. Coordinates run right and down from the block's top left corner, unturned.
struct Patch {
  int slot = 0;
  /// Finished: without its seam allowance.
  Polygon polygon;
};

/// One side of a seam: a patch, or what an earlier step made.
struct Unit {
  enum class Kind { patch, step } kind = Kind::patch;
  /// Of Pattern::patches or Pattern::piecing, from 0.
  int index = 0;
  friend bool operator==(const Unit&, const Unit&) = default;
};

/// Which way a step's seam allowance is pressed: toward one of its sides, or open, or spun.
struct Pressing {
  enum class Kind { toward, open, spun } kind = Kind::open;
  Unit toward;  ///< meant where kind is toward
};

/// What is sewn together in one step, in the order in which it lies, and how the allowance is pressed.
struct PiecingStep {
  std::vector<Unit> join;
  Pressing press;
};

/// How a block is pieced: the same for every block of it, whatever prints fill its slots.
struct Pattern {
  std::string id;
  std::string name;
  Length width, height;  ///< finished
  /// Those in which a block may lie; one and three quarters only of a square.
  std::vector<Turn> turns = {Turn()};
  std::vector<Slot> slots;
  std::vector<Patch> patches;
  /// In the order of sewing; empty: an order is found (cloth::piecing_of).
  std::vector<PiecingStep> piecing;

  int slot_named(const std::string& slot) const;  ///< kNone where there is none
  bool allows(Turn turn) const;
};

/// The patches cover the block exactly, without overlap (within kSnap); slots and turns make sense.
/// A problem says where: "a gap of 0.25 x 9 in at 4, 0". `at` is the pattern's place in its file.
Problems problems_of(const Pattern& pattern, const std::string& at);

/// What a person calls a pattern: its name, else its id.
inline const std::string& name_of(const Pattern& pattern) { return pattern.name.empty() ? pattern.id : pattern.name; }

/// The share of the block's area that each slot fills; sums to 1.
std::vector<double> slot_shares(const Pattern& pattern);

/// The same pattern at another finished size.
Pattern scaled(const Pattern& pattern, Length width, Length height);

/// A seam inside the block: two patches and the length they share.
struct InnerSeam {
  int patch_a = 0, patch_b = 0;
  Length length;
};
/// Every two patches that share a seam, once, patch_a < patch_b; those that meet at a point only are left out.
std::vector<InnerSeam> inner_seams(const Pattern& pattern);

/// One sewn, or to be sewn, copy of a pattern.
struct Block {
  /// drawn: as the pattern's steps say; other: every step the other way.
  enum class Press { drawn, other };

  std::string id;
  int pattern = 0;          ///< index into the quilt's patterns
  std::vector<int> prints;  ///< by slot, index into the quilt's prints; kNone where not dealt yet
  /// None: not pressed yet.
  std::optional<Press> press;
  /// It is a block of cloth: its prints stay as they are; it may still move and turn.
  bool sewn = false;
  Turn cut_turn;  ///< the turn for which a sewn block's upright prints were cut
};

}  // namespace farflung::block
