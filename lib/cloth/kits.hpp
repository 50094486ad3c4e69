// More than one: spare blocks from what is left over, kits for a class, and what a test block tells.
#pragma once

#include <string>
#include <vector>

#include "cloth/plan.hpp"

namespace farflung::cloth {

/// Blocks that can be made once more from the cloth in hand without leaving any print short.
struct Spares {
  std::vector<int> copies;  ///< blocks by index, each to be made once more; at most `most`
  std::string says;
};

/// Two to six spares where cloth allows: copies of blocks, different ones first. Nothing where a print is short already
/// or has no cloth in hand. Every spare is proven by a plan that was replayed with it.
Spares spare_blocks(const quilt::Quilt& quilt, const CutOptions& cutting = {}, const PlanOptions& options = {},
                    int most = 6);

/// The quilt with those spares among its blocks, in no cell, each with an id of its own: what is cut, labelled and
/// pressed for the quilt is then cut, labelled and pressed for them too.
quilt::Quilt with_spares(quilt::Quilt quilt, const Spares& spares);

/// What one kit holds, and the bolts that kits are cut from.
struct KitOptions {
  int kits = 1;
  bool spare = true;                      ///< cloth for one more block of each pattern in every kit
  Length bolt = Length::inches(12 * 36);  ///< on one bolt
  PlanOptions plan;
};

/// One print in every kit.
struct KitLine {
  int print = kNone;
  Purchase each;     ///< one length per kit: each kit can be cut on its own
  double pull = 0;   ///< all kits together, in the same unit
  int bolts = 0;     ///< that hold as many whole lengths
  std::string lots;  ///< dye lots noted, "" where none
  double price = 0;  ///< of one kit's length, by the price noted for cloth in hand; 0 where none is
  std::string says;
};

/// All kits of a class or a shop; all are alike.
struct Kits {
  int kits = 0;
  std::vector<KitLine> lines;
  double price = 0;  ///< of one kit, prints with a price only
  /// Every print has a price noted; else `price` is of a part of the kit only.
  bool all_priced = false;
  std::vector<std::string> packing;  ///< the checklist of one kit
  std::string label;                 ///< the bag's label, without its number
};

/// Everything that one quilt takes, spare included, for each kit by itself; totals to pull.
Kits kits_for(const quilt::Quilt& quilt, const CutOptions& cutting, const KitOptions& options);

/// What a test block tells.
struct TestBlockReport {
  Length finished_width, finished_height;  ///< as it came out
  Length off_width, off_height;            ///< against the pattern
  Length across, down;                     ///< what that makes over the whole top
  std::vector<std::string> says;           ///< seams too wide or narrow, what follows the measure
};
/// `measured` is as it lies on the ruler, seam allowances on; `pattern` an index into the quilt's patterns.
TestBlockReport test_block_report(const quilt::Quilt& quilt, int pattern, const TestBlock& measured,
                                  const CutOptions& options = {});

}  // namespace farflung::cloth
