// Quilts to measure on, and the processor time they take.
#pragma once

#include <string>
#include <vector>

#include "arrange/chain.hpp"
#include "base/rng.hpp"
#include "quilt/quilt.hpp"
#include "score/measure.hpp"

namespace farflung::bench {

/// Squares, the prints dealt evenly.
quilt::Quilt squares(int rows, int columns, int prints, Seed seed);

/// Three strips, four turns, three different prints in each block, dealt evenly.
quilt::Quilt rails(int rows, int columns, int prints, Seed seed);

/// A quilt's measure and model with what may move: ready to be annealed.
struct Bench {
  explicit Bench(const quilt::Quilt& quilt);
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;

  score::Measure measure;
  score::Model model;
  arrange::Task task;
  std::vector<arrange::Held> held;
};

/// Seconds of processor time of this process, or of this thread.
double process_seconds();
double thread_seconds();
double wall_seconds();

double median(std::vector<double> values);

}  // namespace farflung::bench
