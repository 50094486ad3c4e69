// How good quilts' layouts are at the default effort beside long runs, how long they take, and whether small optima are
// reached.
#pragma once

namespace farflung::bench {

struct Sample {
  int seeds = 10;           ///< at the default effort and at 8 times
  int long_seeds = 10;      ///< at 50 times; none at 1,200 cells where it is 0
  double large_effort = 1;  ///< of 100 x 100 cells
  double large_longer = 8;  ///< how many times that its long run takes
};

/// Every optimum of data/bench/small_grids.tsv, found there by exhaustion.
void print_small_grid_rows();

/// F at the default effort and at 8 times beside 50 times, and processor seconds at the default effort.
void print_effort_rows(const Sample& sample);

/// 100 x 100 cells of 60 prints: time, memory, and F beside its own long run.
void print_large_rows(const Sample& sample);

/// Works out data/bench/small_grids.tsv anew.
void write_small_grids();

}  // namespace farflung::bench
