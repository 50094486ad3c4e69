// How much of a sheet the cutting plans use, beside the best known of published guillotine instances.
//
//   bench_cuts
#include <cstdio>

#include "cloth/published_cuts.hpp"
#include "table.hpp"

using namespace farflung;

int main() {
  bench::print_heading("Guillotine cutting: value of the best known layout, ours, ratio");
  for (const cloth::PublishedCut& one : cloth::published_cuts(FARFLUNG_SOURCE)) {
    const cloth::Layout layout = cloth::best_layout(one.width, one.height, one.wanted);
    const bool replayed = cloth::replays(one.width, one.height, one.wanted, layout);
    const double ratio = static_cast<double>(layout.value) / static_cast<double>(one.best_known);
    bench::print_row(one.name, bench::text("%lld", static_cast<long long>(one.best_known)),
                     bench::text("%lld, %.4f%s%s", static_cast<long long>(layout.value), ratio,
                                 layout.best ? ", proven" : "", replayed ? "" : ", CANNOT BE CUT"),
                     bench::verdict(replayed && ratio >= 0.97));
  }
}
