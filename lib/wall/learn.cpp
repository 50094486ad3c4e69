#include <algorithm>
#include <cmath>
#include <limits>

#include "base/median.hpp"
#include "wall/judge.hpp"

namespace farflung::wall {
namespace {

/// What one cell shows, slot by slot, in its best form.
struct Shown {
  int form = 0;
  std::vector<int> prints;
  double misfit = 0;
  double margin = 0;   ///< how much worse the next reading is that looks different
  bool empty = false;  ///< all of it shows one thing, and that no print
};

class Learner {
 public:
  Learner(const quilt::Quilt& quilt, const Evidence& evidence, const Book& book, std::vector<int> patterns)
      : quilt_(quilt), evidence_(evidence), book_(book), patterns_(std::move(patterns)) {}

  /// `last`: a cell may be empty.
  Opinion opinion(const Misfits& misfits, bool last) {
    shown_.clear();
    Opinion opinion;
    for (int c = 0; c < evidence_.cells(); ++c) {
      shown_.push_back(shown(misfits, c));
      const Shown& here = shown_.back();
      opinion.misfit += here.misfit;
      const Form& form = evidence_.forms[here.form];
      for (std::size_t p = 0; p < quilt_.patterns[form.pattern].patches.size(); ++p) {
        const int patch = form.first_patch + static_cast<int>(p);
        opinion.samples.push_back({c, patch, here.prints[evidence_.slot[patch]]});
      }
    }
    if (last) find_empty();
    return opinion;
  }

  const std::vector<Shown>& shown() const { return shown_; }

 private:
  double patches_in(int cell) const { return static_cast<double>(quilt_.patterns[patterns_[cell]].patches.size()); }

  /// Where no print fits anything like as well as elsewhere, and nothing is to be seen but one plain surface.
  void find_empty() {
    std::vector<double> misfits;
    misfits.reserve(static_cast<std::size_t>(evidence_.cells()));
    for (int c = 0; c < evidence_.cells(); ++c) misfits.push_back(shown_[c].misfit / patches_in(c));
    const double nobody = std::max(13.0, 3 * median(std::move(misfits)) + 4);
    for (int c = 0; c < evidence_.cells(); ++c) {
      shown_[c].empty = shown_[c].misfit > nobody * patches_in(c) && evidence_.shows_one_thing(c);
    }
  }

  Shown shown(const Misfits& misfits, int cell) const {
    Shown best;
    best.misfit = std::numeric_limits<double>::infinity();
    const int pattern = patterns_[cell];
    const std::size_t slots = quilt_.patterns[pattern].slots.size();
    for (const int f : evidence_.forms_of[pattern]) {
      const Form& form = evidence_.forms[f];
      std::vector<double> sums(slots * book_.prints(), 0.0);
      for (std::size_t p = 0; p < quilt_.patterns[pattern].patches.size(); ++p) {
        const int patch = form.first_patch + static_cast<int>(p);
        for (int print = 0; print < book_.prints(); ++print) {
          sums[evidence_.slot[patch] * book_.prints() + print] += misfits.at(cell, patch, print);
        }
      }
      Shown here{f, {}, 0, std::numeric_limits<double>::infinity()};
      for (std::size_t slot = 0; slot < slots; ++slot) {
        const auto begin = sums.begin() + static_cast<std::ptrdiff_t>(slot * book_.prints());
        const auto end = begin + book_.prints();
        auto least = std::min_element(begin, end);
        const int fixed = quilt_.patterns[pattern].slots[slot].print;
        if (fixed != kNone) least = begin + fixed;
        here.prints.push_back(static_cast<int>(least - begin));
        here.misfit += *least;
        if (fixed != kNone) continue;
        for (auto other = begin; other != end; ++other) {
          if (other != least) here.margin = std::min(here.margin, *other - *least);
        }
      }
      // Forms that only rename the slots come out equal: the first, which has the smallest turn, stands.
      if (best.prints.empty() || here.misfit < best.misfit - 1e-6) best = here;
    }
    return best;
  }

  const quilt::Quilt& quilt_;
  const Evidence& evidence_;
  const Book& book_;
  std::vector<int> patterns_;  ///< by cell
  std::vector<Shown> shown_;
};

}  // namespace

Result<Learnt> learn_wall(const photo::Picture& photograph, const quilt::Quilt& quilt, int pattern,
                          const std::vector<photo::Picture>& swatches, const ReadOptions& options) {
  if (quilt.prints.empty())
    return input_problem("/prints", "the quilt has no prints", "take their photographs in first");
  const setting::Plan plan = quilt::plan_of(quilt);
  Learnt best;
  double least = 0;
  const Result<std::vector<Framed>> framed = framings(photograph, quilt, plan, options);
  if (!framed) return framed.problems();
  for (const Framed& one : *framed) {
    const Grid& grid = one.grid;
    const Evidence evidence = gathered(quilt, photograph, grid, one.corners);
    const Book book(quilt, swatches, evidence);
    std::vector<int> patterns;
    for (const int cell : grid.cells) {
      const int own = plan.cells[cell].pattern;
      patterns.push_back(own != kNone ? own : pattern);
    }
    Learner learner(quilt, evidence, book, std::move(patterns));
    const Look even = book.mean(std::vector<double>(quilt.prints.size(), 1.0));
    // How much of each print there is, nobody knows: lighter and darker, warmer and cooler starts, the best kept.
    for (const double lighter : {0.0, -0.35, 0.35}) {
      for (const double warmer : {0.0, -0.2, 0.2}) {
        Look mean = even;
        mean[0] += lighter;
        mean[1] += warmer;
        mean[2] -= warmer;
        const Settled found = settled(evidence, book, mean, {}, [&](const Misfits& misfits, bool last) {
          return learner.opinion(misfits, last);
        });
        if (!best.blocks.empty() && found.worth >= least) continue;
        least = found.worth;
        best = {one.corners, one.cards, {}, {}};
        for (std::size_t c = 0; c < grid.cells.size(); ++c) {
          const Shown& shown = learner.shown()[c];
          if (shown.empty) {
            best.empty.push_back(grid.cells[c]);
            continue;
          }
          BlockLearnt block{grid.cells[c], shown.prints, evidence.forms[shown.form].turn, 0, false};
          // Patches of one print in one block are wrong together: many of them say little more than one.
          const double patches = static_cast<double>(quilt.patterns[evidence.forms[shown.form].pattern].patches.size());
          const double slots = static_cast<double>(shown.prints.size());
          block.confidence = 1 / (1 + 2 * std::exp(-0.7 * shown.margin / std::sqrt(std::max(1.0, patches / slots))));
          block.sure = block.confidence >= options.sure;
          best.blocks.push_back(std::move(block));
        }
      }
    }
  }
  return best;
}

}  // namespace farflung::wall
