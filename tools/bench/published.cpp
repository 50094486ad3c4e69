// One table: prices, quilts at the default effort beside long runs, and published grids beside a rival.
//   bench_published [prices|small|efforts|large|grey8|grey16|torus|lee ...] [--option VALUE ...]
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <map>
#include <set>
#include <string>

#include "grids.hpp"
#include "layouts.hpp"
#include "prices.hpp"

namespace {

constexpr const char* kUse =
    "bench_published [prices|small|efforts|large|grey8|grey16|torus|lee ...]   (all of them where none is named)\n"
    "  --seeds N --long-seeds N        of the quilts' layouts (10, 10)\n"
    "  --large-effort X --longer X     of 100 x 100 cells (1, 8)\n"
    "  --grid-seeds N --seconds S      of the published grids (3; as the tables ask)\n"
    "  --every K                       only every Kth of their rows\n"
    "  --rival-least S                 tabu search has as long as ours, but at least so many seconds (1)\n"
    "  --alone 1                       no rival\n"
    "  --cells 1                       print the cells of what lies below the best known value\n";

}  // namespace

int main(int argc, char** argv) {
  using namespace farflung::bench;
  Sample sample;
  Trial trial;
  const std::map<std::string, std::function<void(double)>> options = {
      {"--seeds", [&](double value) { sample.seeds = static_cast<int>(value); }},
      {"--long-seeds", [&](double value) { sample.long_seeds = static_cast<int>(value); }},
      {"--large-effort", [&](double value) { sample.large_effort = value; }},
      {"--longer", [&](double value) { sample.large_longer = value; }},
      {"--grid-seeds", [&](double value) { trial.seeds = static_cast<int>(value); }},
      {"--seconds", [&](double value) { trial.seconds = value; }},
      {"--every", [&](double value) { trial.every = static_cast<int>(value); }},
      {"--rival-least", [&](double value) { trial.rival_least = value; }},
      {"--alone", [&](double value) { trial.rival = value == 0; }},
      {"--cells", [&](double value) { trial.cells = value != 0; }}};
  const std::map<std::string, std::function<void()>> parts = {
      {"prices", [] { print_price_rows(); }},           {"small", [] { print_small_grid_rows(); }},
      {"efforts", [&] { print_effort_rows(sample); }},  {"large", [&] { print_large_rows(sample); }},
      {"grey8", [&] { print_grey_rows(8, trial); }},    {"grey16", [&] { print_grey_rows(16, trial); }},
      {"torus", [&] { print_many_print_rows(trial); }}, {"lee", [&] { print_lee_rows(trial); }}};
  std::set<std::string> wanted;
  for (int k = 1; k < argc; ++k) {
    const auto option = options.find(argv[k]);
    if (option != options.end() && k + 1 < argc) {
      option->second(std::atof(argv[++k]));
    } else if (parts.count(argv[k]) > 0) {
      wanted.insert(argv[k]);
    } else {
      std::fputs(kUse, stderr);
      return 2;
    }
  }
  for (const char* name : {"prices", "small", "efforts", "large", "grey8", "grey16", "torus", "lee"}) {
    if (wanted.empty() || wanted.count(name) > 0) parts.at(name)();
  }
  return 0;
}
