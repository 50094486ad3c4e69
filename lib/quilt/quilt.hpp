// The whole quilt as one plain value: what the file holds, what every algorithm reads.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "block/pattern.hpp"
#include "print/print.hpp"
#include "setting/plan.hpp"
#include "setting/setting.hpp"

namespace farflung::quilt {

using block::kNone;

/// What lengths are written in.
enum class Units { inches, centimetres, millimetres };

/// The weights of the score's terms; touch has none, it comes first always.
struct Goals {
  double spread = 1, coverage = 1, evenness = 1, streak = 0.5, likeness = 0.5, corner = 0.5;
  double gradation = 0, contrast = 0;  ///< off unless asked for
  double lines = 0;                    ///< of each three copies in a line at equal steps; off unless asked for
  double closest = 0;                  ///< of each pitch between the closest two copies; off unless asked for
  double nest = 0;                     ///< how seldom meeting seam ends do not nest; off unless asked for
  bool nest_rule = false;              ///< ends that do not nest come before all else but touches
  bool likeness_by_print = false;      ///< print::distance says how alike two prints are, not their mean colours
  friend bool operator==(const Goals&, const Goals&) = default;
};

/// Where the gradation goal wants light and where dark.
struct Gradation {
  /// Light from left to right, from the top down, from the top left corner, from the centre outward, or as a picture
  /// has it.
  enum class Way { across, down, diagonal, outward, picture };

  Way way = Way::across;
  bool dark_first = false;  ///< dark at the left, the top or the centre; a picture: taken as a negative
  std::string file;         ///< the picture, within the quilt's folder
  /// Pixels in a row of `picture`.
  int picture_columns = 0;
  std::vector<float> picture;  ///< its lightness 0..1, row by row, stretched over the blocks

  friend bool operator==(const Gradation&, const Gradation&) = default;
};

/// "across", "down", "diagonal", "outward", "picture"; none for any other word.
std::optional<Gradation::Way> way_named(const std::string& word);
const char* way_name(Gradation::Way way);

/// The folded strip that covers the raw edge of the finished quilt.
struct Binding {
  int print = kNone;
  Length width = Length::inches(2.5);  ///< cut
  /// Cut on the bias, at 45 degrees to the selvage, so that it gives round curves; else straight across the cloth.
  bool bias = false;
};

/// The cloth of the quilt's back.
struct Backing {
  int print = kNone;
  Length over = Length::inches(4);  ///< beyond the top on each side
};

/// A block sewn to try a pattern out, as it measures with its seam allowances on: the frame follows it.
struct TestBlock {
  int pattern = kNone;
  Length width, height;
};

/// Blocks that are sewn to one another on the way to a top. One by one they stay where they are: their cells are kept.
/// As a whole they can move, unless some of them are kept by hand as well.
struct SewnUnit {
  enum class Stage { pair, row, section } stage = Stage::pair;
  std::vector<int> cells;
  std::vector<int> kept_by_hand;  ///< those of the cells
};

/// "pair", "row", "section"; none for any other word.
std::optional<SewnUnit::Stage> stage_named(const std::string& word);
const char* stage_name(SewnUnit::Stage stage);

/// All that a quilt's file says but its keys that are not ours. Prints, patterns and blocks name each other by index.
struct Quilt {
  std::string title;
  Units units = Units::inches;
  /// On each side of a patch.
  Length seam_allowance = Length::inches(0.25);
  std::vector<print::Print> prints;
  std::vector<block::Pattern> patterns;
  setting::Setting setting;
  std::optional<Binding> binding;
  std::optional<Backing> backing;
  std::vector<block::Block> blocks;
  /// What hangs where; its cells are those of setting::cells_in_rows, row by row.
  setting::Arrangement layout;
  std::vector<SewnUnit> sewn_units;
  std::optional<TestBlock> test_block;
  Goals goals;
  Gradation gradation;

  int print_with_id(const std::string& id) const;    ///< kNone where there is none
  int pattern_with_id(const std::string& id) const;  ///< kNone where there is none
  int block_with_id(const std::string& id) const;    ///< kNone where there is none
};

/// The plan of the quilt's top; its patterns share one size.
setting::Plan plan_of(const Quilt& quilt);

/// The print of a patch, kNone where its slot is not dealt yet: the slot's own print, else what the block says.
int print_of_slot(const Quilt& quilt, const block::Block& block, int slot);

/// The turns that a block may take: all that its pattern allows; once sewn, those that leave its upright prints
/// upright. A stripe that has no way stands upright on its head too; any other upright print only as it was cut.
std::vector<Turn> turns_of(const Quilt& quilt, const block::Block& block);

/// Blocks that no cell names, in order.
std::vector<int> spares(const Quilt& quilt);

/// What is wrong beyond the shape of the file: blocks in two cells, turns that a pattern does not allow, a block in
/// another pattern's cell, prints out of range, codes given twice ... each with its JSON pointer. Empty where all is
/// well.
Problems problems_of(const Quilt& quilt);

/// What is added to a quilt where nobody says how wide, round in its units: sashing and borders finished, the binding's
/// strip cut, the backing beyond the top on each side.
struct UsualWidths {
  Length sashing, border, binding, backing_over;
};
UsualWidths usual_widths(Units units);

/// A length as a number in the quilt's units, and back; back it is rounded to the nanometre.
double in_units(Length length, Units units);
Length from_units(double value, Units units);
const char* unit_name(Units units);  ///< "in", "cm", "mm"

}  // namespace farflung::quilt
