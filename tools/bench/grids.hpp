// The search on published and proven grids, beside robust tabu search at equal processor time.
#pragma once

namespace farflung::bench {

struct Trial {
  int seeds = 3;
  double seconds = 0;  ///< of one run; 0: as each table asks
  bool rival = true;
  int every = 1;           ///< take every so manieth row of a table
  double rival_least = 1;  ///< the rival has as long as ours took to its best, but at least so many seconds
  bool cells = false;      ///< print the cells of what is below the best known
};

void print_grey_rows(int side, const Trial& trial);
void print_many_print_rows(const Trial& trial);
void print_lee_rows(const Trial& trial);

}  // namespace farflung::bench
