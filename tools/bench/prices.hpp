// Proposals a second, measured by Google Benchmark.
#pragma once

namespace farflung::bench {

/// One core, every default term: squares and rails of 168 cells, squares of 1,200 and of 10,000, as rows of the table.
void print_price_rows();

/// Runs what Google Benchmark's own options ask for and prints it its way.
int run_prices(int argc, char** argv);

}  // namespace farflung::bench
