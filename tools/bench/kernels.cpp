// How many moves a second are proposed and priced, and made: Google Benchmark's own options and output.
#include "prices.hpp"

int main(int argc, char** argv) { return farflung::bench::run_prices(argc, argv); }
