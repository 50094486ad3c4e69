// How many moves a second are proposed and priced, one core, every default term.
#include <benchmark/benchmark.h>

#include "arrange/moves.hpp"
#include "instances.hpp"

namespace {

using namespace farflung;

quilt::Quilt quilt_for(const benchmark::State& state) {
  const int rows = static_cast<int>(state.range(0));
  const int columns = static_cast<int>(state.range(1));
  const int prints = static_cast<int>(state.range(2));
  return state.range(3) == 1 ? bench::squares(rows, columns, prints, {1}) : bench::rails(rows, columns, prints, {1});
}

/// Draws and prices moves on a layout as annealing leaves it, making none.
void propose(benchmark::State& state) {
  bench::Bench bench(quilt_for(state));
  score::Pricer pricer(bench.model, bench.held, {0.1, 0.01});
  arrange::Moves moves(pricer, bench.task.freedom, {}, {});
  Rng rng({1});
  double sum = 0;
  for (auto _ : state) {
    if (moves.draw(rng) != arrange::Moves::Kind::none) sum += moves.cost();
  }
  benchmark::DoNotOptimize(sum);
  state.SetItemsProcessed(state.iterations());
}

/// Makes every move that is drawn: what an accepted proposal costs.
void make(benchmark::State& state) {
  bench::Bench bench(quilt_for(state));
  score::Pricer pricer(bench.model, bench.held, {0.1, 0.01});
  arrange::Moves moves(pricer, bench.task.freedom, {}, {});
  Rng rng({1});
  for (auto _ : state) {
    while (moves.draw(rng) == arrange::Moves::Kind::none) {
    }
    moves.make();
  }
  state.SetItemsProcessed(state.iterations());
}

void instances(benchmark::internal::Benchmark* benchmark) {
  benchmark->ArgNames({"rows", "columns", "prints", "slots"});
  benchmark->Args({14, 12, 24, 1});
  benchmark->Args({14, 12, 24, 3});
  benchmark->Args({40, 30, 24, 1});
  benchmark->Args({100, 100, 60, 1});
}

BENCHMARK(propose)->Apply(instances);
BENCHMARK(make)->Apply(instances);

}  // namespace

BENCHMARK_MAIN();
