#include "arrange/chain.hpp"

#include <algorithm>
#include <cmath>

#include "arrange/descent.hpp"

namespace farflung::arrange {
namespace {

constexpr int kSamples = 2'000;
constexpr std::int64_t kSteps = 250;         // of cooling, at least
constexpr std::int64_t kMostEach = 1 << 19;  // proposals of one: some tenths of a second at most until one can stop it

// A descent over more places than this could take many times as long as the run that it ends, if it went all the way.
constexpr int kLarge = 2'000;
constexpr double kCooling = 0.8;  // of a large run's time where a clock says when it ends; the rest goes down
constexpr double kLook = 0.25;    // proposals that looking at a place with one other takes as long as
constexpr int kSweeps = 2;        // that a large run's descent may make in any case

/// How far a run has cooled, 0..1.
double cooled_by(const Work& work, double steps_done, int places) {
  if (!work.clock) return steps_done;
  return places > kLarge ? work.clock() / kCooling : work.clock();
}

/// Says how long a run's descent goes on: over few places to its end; over many until the clock stops it, or as long as
/// the cooling took, and then for as long as touches are left.
class Patience {
 public:
  Patience(const score::Pricer& pricer, const Work& work)
      : pricer_(pricer), work_(work), places_(pricer.model().places) {
    const double looks = static_cast<double>(work.proposals) / (kLook * std::max(1, places_));
    looks_ = std::max(std::int64_t{kSweeps} * places_, static_cast<std::int64_t>(looks));
  }

  /// Asked before each place that is looked at.
  bool left() {
    if (places_ <= kLarge) return true;
    if (work_.clock) return work_.clock() < 1;
    if (looks_-- > 0) return true;
    const bool touched = pricer_.touch().count > 0;
    if (touched) looks_ = places_;  // once a sweep is often enough to count them
    return touched;
  }

 private:
  const score::Pricer& pricer_;
  const Work& work_;
  int places_ = 0;
  std::int64_t looks_ = 0;  ///< left
};

Found found_in(const score::Pricer& pricer) { return {pricer.held(), pricer.pieces()}; }

}  // namespace

std::vector<Held> random_start(const Task& task, std::vector<Held> held, Rng& rng) {
  for (const Pool& pool : task.freedom.pools) {
    std::vector<int> blocks = pool.blocks;
    rng.shuffle(std::span<int>(blocks));
    for (std::size_t k = 0; k < pool.places.size(); ++k) {
      const std::vector<int>& forms = task.freedom.forms[blocks[k]];
      held[pool.places[k]] = {blocks[k], forms[rng.below(static_cast<std::uint32_t>(forms.size()))]};
    }
  }
  return held;
}

Heat sample_heat(const Task& task, const std::vector<Held>& start, Seed seed) {
  score::Pricer pricer(*task.model, start, {});
  Moves moves(pricer, task.freedom, task.balance, {});
  Rng rng(seed);
  double sum = 0;
  int priced = 0;
  for (int k = 0; k < kSamples; ++k) {
    if (moves.draw(rng) == Moves::Kind::none) continue;
    sum += std::abs(moves.cost());
    ++priced;
  }
  const double typical = priced > 0 && sum > 0 ? sum / priced : 1e-9;
  Heat heat;
  // Few blocks have few ways round a bad place, and time enough to start hotter; many freeze later.
  const int places = std::max(1, task.model->places);
  const double few = 168.0 / places;
  heat.first = 0.03 * std::clamp(few < 1 ? std::pow(few, 0.4) : few, 0.55, 12.0) * typical;
  heat.last = 0.006 * typical;
  const double later = task.model->rows > 1 ? 1.0 : std::min(1.0, std::pow(63.0 / places, 0.37));
  heat.freezing = 0.018 * later * typical;
  heat.touch = {2.5 * typical, 0.25 * typical, 1.5 * typical};
  heat.make_up = {1.0 * typical, 1.0 * typical};
  return heat;
}

Found anneal(const Task& task, std::vector<Held> start, const Heat& heat, const Work& work, Seed seed,
             const Watch& watch) {
  score::Pricer pricer(*task.model, std::move(start), heat.touch);
  Moves moves(pricer, task.freedom, task.balance, heat.make_up, task.clearance.get());
  Rng rng(seed);
  const std::int64_t steps = std::max(kSteps, work.proposals / kMostEach);
  const std::int64_t each = std::max<std::int64_t>(1, work.proposals / steps);
  const score::TouchSum first = pricer.touch();
  const double first_F = pricer.F();
  const auto standing = [&](double done) {
    const score::TouchSum change = pricer.touch() - first;
    return Standing{done, {change, moves.spent() - heat.touch.of(change)}, [&pricer] { return found_in(pricer); }};
  };
  for (std::int64_t step = 0; moves.any(); ++step) {
    const double done = cooled_by(work, static_cast<double>(step) / static_cast<double>(steps), task.model->places);
    if (done >= 1) break;
    if (!watch(standing(done))) return found_in(pricer);
    const double temperature = heat.first * std::pow(heat.last / heat.first, done);
    for (std::int64_t k = 0; k < each;) k += moves.propose(rng, temperature);
  }
  // A descent asks often: it is told of once as it begins, and once more where it has ended.
  const Standing cooled = standing(std::nextafter(1.0, 0.0));
  Patience patience(pricer, work);
  go_down(pricer, moves, task.freedom, rng, [&] { return watch(cooled) && patience.left(); });
  watch({1, {pricer.touch() - first, pricer.F() - first_F}, [&pricer] { return found_in(pricer); }});
  return found_in(pricer);
}

Found descend(const Task& task, std::vector<Held> start, const Heat& heat, Seed seed, const Watch& watch) {
  score::Pricer pricer(*task.model, std::move(start), heat.touch);
  Moves moves(pricer, task.freedom, task.balance, heat.make_up, task.clearance.get());
  Rng rng(seed);
  go_down(pricer, moves, task.freedom, rng, [&] { return watch({1, {}, [&pricer] { return found_in(pricer); }}); });
  return found_in(pricer);
}

}  // namespace farflung::arrange
