// The published and proven grids of data/bench as instances.
#pragma once

#include <string>
#include <vector>

namespace farflung::bench {

/// A grid whose distances wrap; value: the sum over ordered pairs of cells that hold the same print.
struct Torus {
  std::string name;
  int rows = 0, columns = 0;
  std::vector<int> print;  ///< by block, -1: blank
  int prints = 0;
  long value = 0;  ///< the best known
  bool proven = false;
};

std::vector<Torus> grey_patterns();
std::vector<Torus> many_prints();

/// round_half_to_even(100000 / squared distance), by place, by place; 0 on the diagonal.
std::vector<long> torus_weights(int rows, int columns);

long value_of(const std::vector<long>& weights, const std::vector<int>& print_in_place);

/// A bounded grid on which `prints` prints can be laid so that the closest two copies are so many steps apart.
struct Lee {
  int prints = 0, rows = 0, columns = 0, steps = 0;
};
std::vector<Lee> lee_grids();

}  // namespace farflung::bench
