// Works out data/bench/small_grids.tsv by exhaustion.
#include "layouts.hpp"

int main() { farflung::bench::write_small_grids(); }
