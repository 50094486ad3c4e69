// Everything the workroom needs for one quilt, worked out once: what to cut, what to buy, how to sew.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cloth/kits.hpp"
#include "cloth/piecing.hpp"
#include "cloth/plan.hpp"
#include "cloth/sewing.hpp"

namespace farflung::cloth {

/// What is asked of the workroom beside the quilt itself.
struct WorkroomOptions {
  CutOptions cutting;
  PlanOptions plan;
  int kits = 0;         ///< 0: none
  bool spares = false;  ///< look hard for spare blocks in what is left over; else in plain strips only
};

/// One row of the cutting list as it is shown, lengths in the file's units.
struct CutRow {
  int print = kNone;             ///< kNone: not dealt yet
  std::string slot;              ///< the slot's name, or the part of the frame
  std::string shape;             ///< "square", "rectangle", "half-square triangle" ... "strip"
  double width = 0, height = 0;  ///< of the rectangle to cut
  int count = 0;                 ///< rectangles to cut
  int makes = 0;                 ///< patches (or joined lengths) that they give
  std::string says;              ///< the working
  Diagonal diagonal = Diagonal::either;
};

/// Rows of one print, shape, size and diagonal, which are cut in one go.
struct CutTogether {
  CutRow row;         ///< the first of them, `count` and `makes` of all added up
  std::string gives;  ///< "25 for A, 25 for B", and on which diagonal; of strips the parts of the frame alone
};

/// All rows, print by print in the order of the quilt's prints, those not dealt yet first; of a print the longest
/// first, strips last.
std::vector<CutTogether> cut_together(const std::vector<CutRow>& rows);

/// All that the sheets of cutting, buying and sewing are made from.
struct Workroom {
  setting::Plan top;  ///< as it will measure: by the test block where there is one
  CutList list;
  std::vector<CutRow> cut;
  CuttingPlans plans;
  std::vector<Purchase> by_part;  ///< what every part takes; in_hand where the cloth in hand covers its print
  std::vector<Purchase> buy;      ///< what is not in hand: parts of prints without cloth, what is missing of others
  std::optional<BindingPlan> binding;
  std::optional<Purchase> unchosen_binding;  ///< what the usual one would take, where none is chosen
  BackingPlan backing;
  BattingPlan batting;
  std::vector<Piecing> piecing;  ///< by pattern
  std::vector<ChainLine> chains;
  Piles piles;
  std::optional<TestBlockReport> test_block;  ///< what the quilt's own test block tells
  SewingOrder sewing;
  std::optional<Spares> spares;  ///< where cloth is in hand
  std::optional<Kits> kits;
  std::vector<std::string> unbought;  ///< of what no cloth was planned for, and why
  std::vector<std::string> says;      ///< all remarks, sentence by sentence; those of `unbought` among them
  std::vector<std::string> cautions;  ///< to be shown where people cut, iron, give away and sell
  bool enough = false;                ///< every print that is needed has enough in hand
};

/// The quilt must have passed problems_of. Deterministic.
Workroom workroom_of(const quilt::Quilt& quilt, const WorkroomOptions& options = {});

/// The usual cautions of the workroom.
const std::vector<std::string>& cautions();

}  // namespace farflung::cloth
