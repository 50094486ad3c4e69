// The cutting plan of each print: its pieces laid on the cloth in hand, cut by numbered cut, and whether it is enough.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "cloth/guillotine.hpp"
#include "cloth/pieces.hpp"
#include "cloth/yardage.hpp"

namespace farflung::cloth {

/// How cloth is cut up: how many layers at once, and how hard to look for a plan.
struct PlanOptions {
  int layers = 4;  ///< comfortable under one cutter at once
  Effort effort{.exact = 4'000'000, .grid = 12'000'000, .strips_only = false};
};

/// On which of its diagonals a square for two triangles is cut, the print standing upright: rising from the bottom left
/// corner to the top right one, or falling from the top left.
enum class Diagonal { either, rising, falling };

/// A rectangle that is wanted from one print, whatever parts it is for. Letters name it on the drawing.
struct WantedPiece {
  std::string letter;    ///< "A", "B" ... "Z", "AA"
  Length width, height;  ///< cut; height along the cloth's length where it may not be turned
  int count = 0;
  bool turnable = true;
  Shape shape = Shape::square;
  Diagonal diagonal = Diagonal::either;
  std::vector<int> lines;  ///< indices into CutList::lines; empty: strips of a run
  std::string says;        ///< "4 1/2 x 9 1/2 in: A of Uneven rails"
};

/// A rectangle on the cloth; x from the left selvage, y from the top end.
struct Area {
  Length x, y, width, height;
};

/// A piece as it lies on the cloth, not yet parted into patches.
struct PlacedPiece {
  Area area;
  int wanted = 0;  ///< index into PrintPlan::wanted
  bool turned = false;
};

/// A cut from edge to edge of one piece, as a rotary cutter makes it.
struct NumberedCut {
  int number = 0;        ///< from 1, in the order in which they are made
  Area of;               ///< the piece that is cut
  bool upright = false;  ///< the line runs along the cloth's length, at x = at; else across, at y = at
  Length at;
  std::string says;  ///< "cut 3: across, 4 1/2 in below the edge of what is left"
};

/// One plan for so many pieces of cloth alike.
struct SheetPlan {
  /// As print::Cloth has it.
  std::string kind;
  Length width, length;  ///< usable
  int copies = 1;
  std::vector<PlacedPiece> pieces;
  std::vector<NumberedCut> cuts;
  std::vector<Area> left;  ///< largest first
  double used = 0;         ///< share of its area in pieces, 0..1
};

/// How one print is cut from the cloth in hand, and what is missing where it is not enough.
struct PrintPlan {
  int print = kNone;
  std::vector<WantedPiece> wanted;
  std::map<int, Length>
      strips;  ///< how long the strips of each run are cut, by its index in CutList::runs: as the cloth
               ///< in hand allows where that gives them all, else across the cloth that is bought
  std::vector<SheetPlan> sheets;
  std::vector<int> missing;         ///< by wanted
  bool has_cloth = false;           ///< some cloth that has a size is recorded in hand
  bool enough = false;              ///< true only where the plan, replayed cut by cut, gives every piece
  bool proven = false;              ///< what it says of enough is proven, not only sought
  std::optional<Purchase> more;     ///< where not enough: what is missing, as yardage
  std::optional<SheetPlan> bought;  ///< and how that length is cut; none where a piece is wider than the cloth
  int more_pieces = 0;              ///< or so many more pieces of the first kind of cloth in hand; 0 where none help
  bool right_sides_up = false;      ///< layers all face up: a shape or a print is not its own mirror
  std::string says;
};

/// Prints whose cloths and pieces are alike are cut together: one plan, in layers.
struct CuttingGroup {
  std::vector<int> plans;   ///< indices into the list of plans
  std::vector<int> stacks;  ///< pieces of cloth in each stack, at most `layers` each
  bool right_sides_up = false;
  std::string says;
};

/// The plans of all prints that anything is cut from.
struct CuttingPlans {
  std::vector<PrintPlan> plans;
  std::vector<CuttingGroup> groups;
  bool enough = false;  ///< every print that is needed has enough in hand
};

/// Either, but for squares whose triangles must stand upright.
Diagonal diagonal_of(const CutLine& line);

/// ", from the bottom left to the top right with the print upright"; "" where either diagonal serves.
std::string diagonal_said(Diagonal diagonal);

/// "2 more fat quarters": where plan.more_pieces is not 0.
std::string more_pieces_said(const PrintPlan& plan, const print::Print& print);

/// One print by itself.
PrintPlan print_plan(const quilt::Quilt& quilt, const CutList& list, int print, const PlanOptions& options = {});

/// Whether a plan was found by which the cloth in hand gives all of one print that the list asks for.
bool enough_in_hand(const quilt::Quilt& quilt, const CutList& list, int print, const Effort& effort);

/// Guarantees: a plan's cuts are guillotine cuts in an order that can be made; its pieces are of the list, no more than
/// wanted, and lie as their print must stand; enough is said only of a plan that was replayed.
CuttingPlans cutting_plans(const quilt::Quilt& quilt, const CutList& list, const PlanOptions& options = {});

/// The same sheet for a left-handed cutter, who starts from the right edge.
SheetPlan left_handed(const SheetPlan& sheet);

/// Cuts that are made in one go: the same width again and again from one piece, or from pieces alike.
struct CutStep {
  int first = 0, last = 0;  ///< the numbers of its cuts
  bool upright = false;
  Length width, height;  ///< of each piece that is cut
  Length every;          ///< from one line to the next
  int times = 1;         ///< lines on each piece
  int pieces = 1;        ///< pieces alike that are so cut, one after the other
  std::string says;      ///< "across, every 2 1/2 in, 7 times, from the top edge"
};

/// Guarantees: the steps hold every cut of the sheet once, in order. `from_right`: the sheet is a left_handed one.
std::vector<CutStep> cut_steps(const SheetPlan& sheet, Ruler ruler, bool from_right = false);

/// Yardage of the usable width that gives all these lines and runs.
Length yardage_for(const CutList& list, const std::vector<int>& lines, const std::vector<int>& runs,
                   const PlanOptions& options = {});

/// What each part of the quilt takes by itself, as if cloth were bought for it alone: each print's share of the blocks,
/// sashing, cornerstones, setting pieces, each border, binding, backing, batting, hanging sleeve.
std::vector<Purchase> purchases_by_part(const quilt::Quilt& quilt, const CutList& list, const CutOptions& cutting = {},
                                        const PlanOptions& options = {});

}  // namespace farflung::cloth
