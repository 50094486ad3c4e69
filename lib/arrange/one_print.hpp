// One print's copies among blanks: where every swap that changes anything takes one copy elsewhere.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "arrange/chain.hpp"

namespace farflung::arrange {

/// Whether a task only asks where the copies of one print lie: one pool, blocks of two kinds, one of them blank, and
/// nothing in the model but the spread.
bool is_one_print(const Task& task);

/// Tabu search (F. Glover, ORSA Journal on Computing 1 (1989) 190-206, doi:10.1287/ijoc.1.3.190) over the places of one
/// print. Every step makes the best of all copies x free places moves that is not tabu, better or not; the place that a
/// copy left takes no copy and the copy stays for a time drawn by lot.
///
/// Potentials are kept in whole units, so that nothing drifts: tables of whole weights as they are where their sums
/// allow, others in units of 2^-29 of the largest sum of a row. A step costs copies x places, eight at a time where the
/// machine can.
class OnePrint {
 public:
  explicit OnePrint(const Task& task);

  /// The best layout within so many steps after the last that was better; the start where none is.
  std::vector<Held> improved(const std::vector<Held>& start, std::int64_t patience, Seed seed,
                             const std::function<bool()>& go_on) const;

 private:
  const Task& task_;
  int n_ = 0;
  std::vector<std::int32_t> weights_;  ///< by place, by place
};

}  // namespace farflung::arrange
