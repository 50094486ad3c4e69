#include "prices.hpp"

#include <array>
#include <map>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "arrange/moves.hpp"
#include "instances.hpp"
#include "table.hpp"

namespace farflung::bench {
namespace {

constexpr int kPartners = 64;  // of one place, one after another

quilt::Quilt quilt_for(const benchmark::State& state) {
  const int rows = static_cast<int>(state.range(0));
  const int columns = static_cast<int>(state.range(1));
  const int prints = static_cast<int>(state.range(2));
  return state.range(3) == 1 ? squares(rows, columns, prints, {1}) : rails(rows, columns, prints, {1});
}

/// A layout on its way down, and what a proposal may cost at the end of a run.
struct Settled {
  explicit Settled(const Bench& bench) : heat(arrange::sample_heat(bench.task, bench.held, {1})) {
    const arrange::Work work{static_cast<std::int64_t>(kProposals) * bench.model.places, {}};
    held = arrange::anneal(bench.task, bench.held, heat, work, {1}, [](const arrange::Standing& standing) {
             return standing.done < 1;
           }).held;
  }
  static constexpr int kProposals = 300;  // a place

  arrange::Heat heat;
  std::vector<arrange::Held> held;
};

/// The same for every run on an instance: settled once.
const Settled& settled_on(const Bench& bench, const benchmark::State& state) {
  static std::map<std::array<std::int64_t, 4>, Settled> known;
  const std::array key{state.range(0), state.range(1), state.range(2), state.range(3)};
  return known.try_emplace(key, bench).first->second;
}

/// Prices swaps as annealing does, a place with one partner after another, making none: every one by the least that it
/// can cost, and those that chance might accept to the end.
void propose(benchmark::State& state) {
  Bench bench(quilt_for(state));
  const Settled& settled = settled_on(bench, state);
  score::Pricer pricer(bench.model, settled.held, settled.heat.touch);
  Rng rng({1});
  const int places = bench.model.places;
  std::array<float, kPartners> least{};
  double sum = 0;
  for (auto _ : state) {
    const int a = static_cast<int>(rng.below(places));
    const int first = static_cast<int>(rng.below(places - kPartners + 1));
    pricer.least_costs(a, first, least);
    for (int k = 0; k < kPartners; ++k) {
      if (least[k] >= settled.heat.last || first + k == a) continue;
      sum += pricer.cost(score::Swap{a, first + k, pricer.held()[first + k].form, pricer.held()[a].form});
    }
  }
  benchmark::DoNotOptimize(sum);
  state.SetItemsProcessed(kPartners * state.iterations());
}

/// Draws moves of any kind and prices each by itself to the end.
void price_one(benchmark::State& state) {
  Bench bench(quilt_for(state));
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
  Bench bench(quilt_for(state));
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

constexpr const char* kSquares = "rows:14/columns:12/prints:24/slots:1";
constexpr const char* kRails = "rows:14/columns:12/prints:24/slots:3";
constexpr const char* kMiddle = "rows:40/columns:30/prints:24/slots:1";
constexpr const char* kLarge = "rows:100/columns:100/prints:60/slots:1";

void instances(benchmark::internal::Benchmark* benchmark) {
  benchmark->ArgNames({"rows", "columns", "prints", "slots"});
  benchmark->Args({14, 12, 24, 1});
  benchmark->Args({14, 12, 24, 3});
  benchmark->Args({40, 30, 24, 1});
  benchmark->Args({100, 100, 60, 1});
}

BENCHMARK(propose)->Apply(instances);
BENCHMARK(price_one)->Apply(instances);
BENCHMARK(make)->Apply(instances);

/// The best rate of several runs by name: other work on the machine only ever slows one down.
class Rates : public benchmark::BenchmarkReporter {
 public:
  bool ReportContext(const Context&) override { return true; }
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs) {
      if (run.run_type != Run::RT_Iteration) continue;
      double& rate = rates_[run.run_name.function_name + "/" + run.run_name.args];
      rate = std::max(rate, static_cast<double>(run.counters.at("items_per_second")));
    }
  }
  double of(const std::string& function, const std::string& instance) const {
    return rates_.at(function + "/" + instance);
  }

 private:
  std::map<std::string, double> rates_;
};

}  // namespace

void print_price_rows() {
  std::string program = "prices", least = "--benchmark_min_time=0.3", times = "--benchmark_repetitions=5";
  char* arguments[] = {program.data(), least.data(), times.data()};
  int count = 3;
  benchmark::Initialize(&count, arguments);
  Rates rates;
  benchmark::RunSpecifiedBenchmarks(&rates);
  const auto million = [&](const char* function, const char* instance) { return 1e-6 * rates.of(function, instance); };
  print_heading("Proposals priced a second, one core, every default term (the best of five)");
  const double squares = million("propose", kSquares), rails = million("propose", kRails);
  const double ratio = squares / million("propose", kLarge);
  print_row("168 cells, one slot", "20 M", text("%.1f M", squares), verdict(squares >= 20));
  print_row("168 cells, three slots, four turns", "6 M", text("%.1f M", rails), verdict(rails >= 6));
  print_row("1,200 cells, one slot", "", text("%.1f M", million("propose", kMiddle)));
  print_row("10,000 cells, price beside 168 cells", "2", text("%.2f (%.1f M)", ratio, million("propose", kLarge)),
            verdict(ratio <= 2));
  print_row("one move priced by itself, 168 one slot / three", "",
            text("%.1f M / %.1f M", million("price_one", kSquares), million("price_one", kRails)));
  print_row(
      "accepted moves, 168 one slot / three / 10,000", "",
      text("%.2f M / %.2f M / %.3f M", million("make", kSquares), million("make", kRails), million("make", kLarge)));
}

int run_prices(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 2;
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}

}  // namespace farflung::bench
