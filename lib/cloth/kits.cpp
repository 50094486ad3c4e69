#include "cloth/kits.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/counted.hpp"
#include "cloth/piecing.hpp"
#include "cloth/trade.hpp"

namespace farflung::cloth {
namespace {

quilt::Quilt with_copies(const quilt::Quilt& quilt, const std::vector<int>& copies) {
  quilt::Quilt result = quilt;
  for (int copy : copies) {
    result.blocks.push_back(quilt.blocks[copy]);
    result.blocks.back().id += " spare";
    result.blocks.back().sewn = false;
  }
  return result;
}

std::set<int> prints_of(const quilt::Quilt& quilt, const block::Block& block) {
  std::set<int> prints;
  for (std::size_t slot = 0; slot < block.prints.size(); ++slot) {
    prints.insert(quilt::print_of_slot(quilt, block, static_cast<int>(slot)));
  }
  return prints;
}

bool still_enough(const quilt::Quilt& quilt, const std::set<int>& prints, const CutOptions& cutting,
                  const PlanOptions& options) {
  const CutList list = cut_list(quilt, cutting);
  return std::all_of(prints.begin(), prints.end(),
                     [&](int print) { return print != kNone && print_plan(quilt, list, print, options).enough; });
}

std::vector<int> lines_of(const CutList& list, int print) {
  std::vector<int> result;
  for (std::size_t i = 0; i < list.lines.size(); ++i) {
    if (list.lines[i].print == print) result.push_back(static_cast<int>(i));
  }
  return result;
}

std::vector<int> runs_of(const CutList& list, int print) {
  std::vector<int> result;
  for (std::size_t i = 0; i < list.runs.size(); ++i) {
    if (list.runs[i].print == print) result.push_back(static_cast<int>(i));
  }
  return result;
}

/// The price of this length, by the first cloth by the yard that has one; 0 where none has.
double price_of(const print::Print& print, Length length) {
  for (const print::Cloth& cloth : print.cloth) {
    if (cloth.price && cloth.length > Length() && cloth.width >= Length::inches(36)) {
      return *cloth.price * (length.inches() / cloth.length.inches());
    }
  }
  return 0;
}

std::string lots_of(const print::Print& print) {
  std::set<std::string> lots;
  for (const print::Cloth& cloth : print.cloth) {
    if (!cloth.lot.empty()) lots.insert(cloth.lot);
  }
  std::string text;
  for (const std::string& lot : lots) text += (text.empty() ? "" : ", ") + lot;
  return text;
}

}  // namespace

Spares spare_blocks(const quilt::Quilt& quilt, const CutOptions& cutting, const PlanOptions& options, int most) {
  Spares spares;
  std::map<std::pair<int, std::vector<int>>, int> makeups;  // one block for each make-up
  std::vector<int> candidates;
  for (std::size_t i = 0; i < quilt.blocks.size(); ++i) {
    if (makeups.try_emplace({quilt.blocks[i].pattern, quilt.blocks[i].prints}, static_cast<int>(i)).second) {
      candidates.push_back(static_cast<int>(i));
    }
  }
  std::set<int> short_prints;  // a print that was short once stays short as more is asked of it
  for (int candidate : candidates) {
    if (static_cast<int>(spares.copies.size()) >= most) break;
    const std::set<int> prints = prints_of(quilt, quilt.blocks[candidate]);
    const bool hopeless = std::any_of(prints.begin(), prints.end(), [&](int p) { return short_prints.count(p) > 0; });
    if (hopeless) continue;
    std::vector<int> tried = spares.copies;
    tried.push_back(candidate);
    if (still_enough(with_copies(quilt, tried), prints, cutting, options)) {
      spares.copies = std::move(tried);
    } else {
      const quilt::Quilt more = with_copies(quilt, tried);
      const CutList list = cut_list(more, cutting);
      for (int print : prints) {
        if (print == kNone || !print_plan(more, list, print, options).enough) short_prints.insert(print);
      }
    }
  }
  spares.says = spares.copies.empty()
                    ? "No spare block was found in what the cloth in hand leaves over."
                    : "The cloth in hand allows " +
                          counted(spares.copies.size(), "spare block: ", "spare blocks, one more each of: ");
  for (std::size_t i = 0; i < spares.copies.size(); ++i) {
    spares.says += (i == 0 ? "" : ", ") + quilt.blocks[spares.copies[i]].id;
  }
  return spares;
}

quilt::Quilt with_spares(quilt::Quilt quilt, const Spares& spares) {
  auto number = quilt.blocks.size();
  for (const int copy : spares.copies) {
    block::Block block = quilt.blocks[copy];
    do {
      const std::string digits = std::to_string(++number);
      block.id = "B" + std::string(digits.size() < 3 ? 3 - digits.size() : 0, '0') + digits;
    } while (quilt.block_with_id(block.id) != kNone);
    block.sewn = false;
    block.press.reset();
    block.cut_turn = Turn();
    quilt.blocks.push_back(std::move(block));
  }
  return quilt;
}

Kits kits_for(const quilt::Quilt& quilt, const CutOptions& cutting, const KitOptions& options) {
  Kits kits;
  kits.kits = std::max(1, options.kits);
  std::vector<int> copies;
  std::set<int> patterns;
  for (std::size_t i = 0; options.spare && i < quilt.blocks.size(); ++i) {
    if (patterns.insert(quilt.blocks[i].pattern).second) copies.push_back(static_cast<int>(i));
  }
  CutOptions all = cutting;
  all.sewn_too = true;  // a kit begins with nothing sewn
  const quilt::Quilt kit = with_copies(quilt, copies);
  const CutList list = cut_list(kit, all);
  const bool metric = list.ruler == Ruler::millimetres;
  kits.all_priced = true;
  for (int print = 0; print < static_cast<int>(quilt.prints.size()); ++print) {
    const std::vector<int> lines = lines_of(list, print);
    const std::vector<int> runs = runs_of(list, print);
    if (lines.empty() && runs.empty()) continue;
    const print::Print& cloth = quilt.prints[print];
    KitLine line;
    line.print = print;
    line.each = purchase(cloth.name, print, yardage_for(list, lines, runs, options.plan), list.yardage, metric,
                         "For one kit" + std::string(options.spare ? ", its spare included." : "."));
    line.pull = kits.kits * line.each.amount;
    const int on_bolt = static_cast<int>(std::floor(options.bolt.inches() / line.each.buy.inches() + 1e-9));
    line.bolts = on_bolt > 0 ? (kits.kits + on_bolt - 1) / on_bolt
                             : static_cast<int>(std::ceil(kits.kits * line.each.buy.inches() / options.bolt.inches()));
    line.lots = lots_of(cloth);
    line.price = price_of(cloth, line.each.buy);
    kits.price += line.price;
    kits.all_priced = kits.all_priced && line.price > 0;
    line.says =
        cloth.name + ": " + std::to_string(kits.kits) + " x " + amount_text(line.each.amount, line.each.unit) + " = " +
        amount_text(line.pull, line.each.unit) + ", from " + counted(line.bolts, "bolt") + " of " +
        (metric ? number(options.bolt.millimetres() / 1000, 1) + " m" : number(options.bolt.inches() / 36, 2) + " yd") +
        (line.lots.empty() ? "" : "; dye lot " + line.lots);
    kits.packing.push_back((cloth.code.empty() ? "" : cloth.code + "  ") + cloth.name + "  " +
                           amount_text(line.each.amount, line.each.unit));
    kits.lines.push_back(std::move(line));
  }
  const setting::Plan top = frame_plan(quilt, cutting);
  kits.label = (quilt.title.empty() ? std::string("Quilt kit") : quilt.title) + ", " +
               said(top.width, top.height, list.ruler) + " finished, " + counted(kits.lines.size(), "print") +
               (options.spare ? ", spare included" : "");
  return kits;
}

TestBlockReport test_block_report(const quilt::Quilt& quilt, int pattern, const TestBlock& measured,
                                  const CutOptions& options) {
  const block::Pattern& block = quilt.patterns[pattern];
  const Ruler ruler = ruler_for(quilt.units, options.sixteenths);
  const Length seams = 2 * quilt.seam_allowance;
  TestBlockReport report;
  report.finished_width = measured.width - seams;
  report.finished_height = measured.height - seams;
  // As the sheets ask for it, on a mark of the ruler, it is right.
  const auto off = [&](Length is, Length meant) {
    return is == trimmed(meant + seams, ruler) ? Length() : is - seams - meant;
  };
  report.off_width = off(measured.width, block.width);
  report.off_height = off(measured.height, block.height);
  CutOptions with = options;
  with.test_block = measured;
  const setting::Plan meant = quilt::plan_of(quilt);
  const setting::Plan made = frame_plan(quilt, with);
  report.across = made.width - meant.width;
  report.down = made.height - meant.height;
  const auto size = [&](Length w, Length h) { return said(w, h, ruler); };
  report.says.push_back("The test block measures " + size(measured.width, measured.height) +
                        " with its allowances: " + size(report.finished_width, report.finished_height) +
                        " finished, meant to be " + size(block.width, block.height) + ".");
  if (report.off_width == Length() && report.off_height == Length()) {
    report.says.emplace_back("It is right: cut everything as listed.");
    return report;
  }
  // Upright seams that a line across the block's middle crosses; each takes two allowances.
  int crossed = 0;
  for (const Step& step : piecing_of(block, quilt.seam_allowance, ruler).steps) {
    for (const Seam& seam : step.seams) {
      const Length middle = times(0.5, block.height) + Length::inches(0.01);
      const Length low = std::min(seam.from.y, seam.to.y);
      const Length high = std::max(seam.from.y, seam.to.y);
      if (low < middle && middle < high) ++crossed;
    }
  }
  if (crossed > 0 && report.off_width != Length()) {
    const double each = std::abs(report.off_width.inches()) / (2 * crossed);
    report.says.push_back(
        "Each of its " + std::to_string(crossed) + " seams across took " +
        number(ruler == Ruler::millimetres ? 25.4 * each : each, ruler == Ruler::millimetres ? 1 : 3) +
        (ruler == Ruler::millimetres ? " mm" : " in") + (report.off_width < Length() ? " more" : " less") +
        " allowance on each side than was planned: set the machine's guide by that, or go on as it is.");
  }
  report.says.push_back(
      "Kept as it is, the top comes out " + size(made.width, made.height) + " instead of " +
      size(meant.width, meant.height) +
      "; sashing, setting triangles and borders in this list are cut to the measure. Trim every block "
      "to the test block.");
  return report;
}

}  // namespace farflung::cloth
