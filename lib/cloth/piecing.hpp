// From patches to a block: the order of seams, what each unit measures when it is sewn, which way it is pressed.
#pragma once

#include <string>
#include <vector>

#include "cloth/ruler.hpp"
#include "quilt/quilt.hpp"

namespace farflung::cloth {

using block::kNone;

/// One straight seam of a step: between two neighbours of its join.
struct Seam {
  Point from, to;                     ///< finished, on the unturned block
  Length length;                      ///< finished
  int side_a = 0, side_b = 0;         ///< places in the step's join
  std::vector<int> along_a, along_b;  ///< the patches that lie along it, by length, longest first
  int meets = 0, nests = 0;           ///< seams of both sides that meet on it, and how many of them nest
};

/// One step of the piecing: two units or more joined in a row, pressed, then measured.
struct Step {
  std::vector<block::Unit> join;
  block::Pressing press;
  std::vector<Seam> seams;
  std::vector<int> patches;        ///< all that the unit holds now
  Point corner;                    ///< of the unit's box on the block
  Length width, height;            ///< finished, of the unit's box
  bool fills_box = false;          ///< it is a rectangle: it can be measured and trimmed
  Length trim_width, trim_height;  ///< with its allowances, as trimmed(); meant where fills_box
  std::string says;                ///< "Sew A to background. Press toward A. It measures 4 1/2 x 9 1/2 in: trim."
};

/// How a block of one pattern is sewn, from its patches to the whole.
struct Piecing {
  bool given = false;       ///< the pattern has its own steps; else they were found
  bool straight = true;     ///< false: some seam has to be set in
  std::vector<int> set_in;  ///< patches that no straight seam parts
  std::vector<Step> steps;
  std::vector<std::string> remarks;  ///< where nothing nests, what to do about set-in seams
};

/// The pattern's own steps, or an order of straight seams found for it. Guarantees for a found order: each step joins
/// two units along one straight seam from end to end; if such an order exists it is found. Pressing is then chosen so
/// that as many seams inside the block nest as can (all choices are tried up to fourteen seams), bulk next.
Piecing piecing_of(const block::Pattern& pattern, Length seam_allowance, Ruler ruler);

/// An order of straight seams, without pressing; empty where some patches need a set-in seam (then `stuck` names them)
/// or there is but one patch.
std::vector<block::PiecingStep> straight_seams(const block::Pattern& pattern, std::vector<int>* stuck = nullptr);

/// Steps that make the same unit, if need be turned: sewn in one go.
struct UnitKind {
  std::vector<int> steps;  ///< in order; the first stands for all
  std::string says;        ///< "Sew A to background; press toward A." Units are named by their kind: "unit 2"
};

/// Every step once, kinds in the order of their first steps. Units that are each other's mirror differ.
std::vector<UnitKind> unit_kinds(const block::Pattern& pattern, const Piecing& piecing);

/// What a print is called where it is spoken of.
enum class Called { name, code };

/// "toward Kelp", "away from Kelp", "open", "spun": as this block is pressed, said by the prints beside the seam.
std::string press_said(const quilt::Quilt& quilt, const block::Block& block, const Piecing& piecing, int index,
                       Called called = Called::name);

/// A line of the chain-piecing list.
struct ChainLine {
  int pattern = 0, step = 0;            ///< the first step that it stands for
  std::vector<std::vector<int>> sides;  ///< by unit of the join: the prints that it shows, in patch order
  int count = 0;
  std::vector<int> blocks;  ///< those that it is for, each once
  std::string says;         ///< "Kelp with Foghorn: 12"
};

/// What is sewn in chains for all blocks that are not sewn yet: units of single patches cut alike are listed by their
/// pair of prints over all steps and patterns; later steps by pattern, step and prints.
std::vector<ChainLine> chain_list(const quilt::Quilt& quilt);

/// The blocks by how they are pressed, as they hang, spares last.
struct Piles {
  std::vector<int> drawn, other, undecided;
  std::string says;
};
/// Every block once, in the order of the layout's cells, then those that lie in none.
Piles pressing_piles(const quilt::Quilt& quilt);

}  // namespace farflung::cloth
