// What a few swaps win, beside taking the best single swap again and again; and how long it takes.
//
//   swap_bench [quilts] [swaps] [effort]
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>

#include "support/patterns.hpp"
#include "support/random_quilt.hpp"
#include "swap/better.hpp"
#include "swap/search.hpp"

using namespace farflung;

namespace {

struct Clock {
  static double now() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }
};

/// Processor seconds, of all threads.
double seconds_since(double start) { return Clock::now() - start; }

struct Kind {
  const char* name;
  support::Wanted wanted;
};

std::vector<Kind> kinds() {
  support::Wanted plain;
  plain.rows = 9, plain.columns = 7, plain.prints = 21, plain.dealt_evenly = true;
  support::Wanted rails;
  rails.rows = 14, rails.columns = 12, rails.prints = 20, rails.dealt_evenly = true;
  rails.patterns = {support::plain_rails()};
  rails.patterns[0].turns = {Turn(), Turn::quarters(1), Turn::quarters(2), Turn::quarters(3)};
  return {{"63 blocks of one slot", plain}, {"168 blocks of three", rails}};
}

/// The best layout with no limit on swaps, as far as plain annealing finds it.
swap::Worth unlimited(const swap::Rearrangement& from, swap::Rearrangement& layout) {
  Rng rng(Seed{99});
  swap::Worth best;
  const auto& sites = from.freedom().sites;
  const double hot = 0.05;
  const int moves = std::getenv("UNLIMITED") ? 3'000'000 : 10'000;
  for (int k = 0; k < moves; ++k) {
    const double temperature = hot * std::pow(2e-3, static_cast<double>(k) / moves);
    const int a = sites[rng.below(static_cast<std::uint32_t>(sites.size()))];
    const int b = sites[rng.below(static_cast<std::uint32_t>(sites.size()))];
    if (a == b) continue;
    const auto& forms_a = layout.freedom().forms[layout.held()[b].block];
    const auto& forms_b = layout.freedom().forms[layout.held()[a].block];
    const score::Swap move{a, b, forms_a[rng.below(static_cast<std::uint32_t>(forms_a.size()))],
                           forms_b[rng.below(static_cast<std::uint32_t>(forms_b.size()))]};
    const double cost = layout.cost(move);
    if (cost > 0 && rng.uniform() >= std::exp(-cost / temperature)) continue;
    layout.apply(move);
    if (better(layout.worth(), best)) best = layout.worth();
  }
  return best;
}

}  // namespace

int main(int count, char** words) {
  const int quilts = count > 1 ? std::atoi(words[1]) : 5;
  const int most = count > 2 ? std::atoi(words[2]) : 10;
  const double effort = count > 3 ? std::atof(words[3]) : 1;
  for (const Kind& kind : kinds()) {
    if (std::getenv("KIND") && kind.name[0] != std::getenv("KIND")[0]) continue;
    std::printf("%s\n", kind.name);
    double rival_share = 0, our_share = 0;
    int won = 0, lost = 0;
    for (int q = 1; q <= quilts; ++q) {
      const quilt::Quilt quilt = support::random_quilt(Seed{static_cast<std::uint64_t>(q)}, kind.wanted);
      const score::Measure measure(quilt);
      const auto start = Clock::now();
      const swap::BetterReport report = swap::better_layouts(measure, {.most = most, .effort = effort});
      const double seconds = seconds_since(start);
      const auto first = Clock::now();
      swap::first_swaps(measure, 3);
      const double first_seconds = seconds_since(first);

      const score::Model model = score::model_of(measure);
      const swap::Sites sites(quilt, measure.plan());
      const swap::Freedom freedom = swap::freedom_of(measure, model, sites);
      const std::vector<swap::Held> wall = swap::held_of(sites.wall(), model, sites);
      swap::Bests bests(2 * most, wall);
      swap::Rearrangement rival(model, freedom, wall, swap::kTouchFirst);
      swap::best_swap_again_and_again(rival, 2 * most, bests);
      swap::Rearrangement whole(model, freedom, wall, {.count = 0.3, .length = 0.1});
      const swap::Worth least = unlimited(rival, whole);

      const swap::Worth theirs = bests.within(2 * most).worth;
      const score::Score& ours = report.lists.back().after;
      const double F = ours.F - report.before.F;
      const int touches = report.before.terms.touches;
      rival_share += theirs.F / least.F / quilts;
      our_share += F / least.F / quilts;
      const swap::Worth mine{{ours.terms.touches - touches, ours.terms.touch_length - report.before.terms.touch_length},
                             F};
      won += better(mine, theirs);
      lost += better(theirs, mine);
      std::printf(
          "  %2d: touches %d -> rival %d, ours %d, least %d; F %.4f, rival %.4f, ours %.4f, least %.4f; %.2f s, first "
          "%.3f s\n",
          q, touches, touches + theirs.touch.count, ours.terms.touches, touches + least.touch.count, report.before.F,
          report.before.F + theirs.F, ours.F, report.before.F + least.F, seconds, first_seconds);
    }
    std::printf("  of the gap in F: rival %.1f %%, ours %.1f %%; better on %d, worse on %d of %d\n", 100 * rival_share,
                100 * our_share, won, lost, quilts);
  }
}
