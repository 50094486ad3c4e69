#include "arrange/tempering.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <memory>
#include <numeric>
#include <utility>

#include "arrange/descent.hpp"
#include "arrange/run_all.hpp"

namespace farflung::arrange {
namespace {

constexpr double kFewCells = 63;  // fewer than so many need hotter ones: there is no way round a bad place
constexpr double kMostHotter = 12;
constexpr double kHottest = 1.5;        // where cooling begins, by the hottest of them
constexpr double kCooled = 0.25;        // of the work: until then each cools to its own
constexpr double kExchanged = 0.95;     // until then they exchange
constexpr std::int64_t kBetween = 200;  // proposals a place between exchanges
constexpr std::int64_t kSteps = 250;    // at least
constexpr std::int64_t kUntold = 64;    // steps that go by untold at most: some hundredths of a second
constexpr int kLooks = 50;              // times that the coldest are followed down on the way
constexpr int kFollowed = 2;            // of the coldest

/// A layout on its way.
class Replica {
 public:
  Replica(const Task& task, const std::vector<Held>& start, const Heat& heat, Seed seed, const Watch& watch)
      : task_(task),
        heat_(heat),
        watch_(watch),
        seed_(seed),
        rng_(derived(seed, 0)),
        pricer_(*task.model, start, heat.touch),
        moves_(pricer_, task.freedom, task.balance, heat.make_up, task.clearance.get()),
        first_touch_(pricer_.touch()),
        first_F_(pricer_.F()) {}

  bool any() const { return moves_.any(); }

  void run(double temperature, std::int64_t proposals) {
    for (std::int64_t k = 0; k < proposals;) k += moves_.propose(rng_, temperature);
  }

  /// F and what its touches cost, but for what is the same of all.
  double energy() const { return first_F_ + heat_.touch.of(first_touch_) + moves_.spent(); }

  /// Follows a copy down, and keeps it where it is the best so far.
  void look_down() {
    const Found down =
        descend(task_, pricer_.held(), heat_, derived(seed_, ++looks_), [](const Standing&) { return true; });
    const score::Pricer priced(*task_.model, down.held, {});
    const score::Price reached{priced.touch(), priced.F()};
    if (!best_.held.empty() && !betters({reached.touch - best_reached_.touch, reached.F - best_reached_.F})) return;
    best_ = down;
    best_reached_ = reached;
  }

  bool tell(double done) const {
    const score::TouchSum change = pricer_.touch() - first_touch_;
    return watch_({done, {change, moves_.spent() - heat_.touch.of(change)}, [this] { return here(); }});
  }

  /// Says where it ended.
  void tell_end() const {
    watch_({1, {best_reached_.touch - first_touch_, best_reached_.F - first_F_}, [this] { return best_; }});
  }

  const Found& best() const { return best_; }

 private:
  Found here() const { return {pricer_.held(), pricer_.pieces()}; }

  const Task& task_;
  const Heat& heat_;
  const Watch& watch_;
  Seed seed_;
  Rng rng_;
  score::Pricer pricer_;
  Moves moves_;
  score::TouchSum first_touch_;
  double first_F_ = 0;
  Found best_;
  score::Price best_reached_;
  std::uint64_t looks_ = 0;
};

/// All of them, and which is at which temperature.
class Ladder {
 public:
  Ladder(std::vector<std::unique_ptr<Replica>>& replicas, const Heat& heat, int places, Seed seed)
      : replicas_(replicas),
        heat_(heat),
        apart_(std::pow(span(replicas.size()) * hotter(places), 1 / static_cast<double>(replicas.size() - 1))),
        coldest_(heat.freezing / std::sqrt(span(replicas.size()))),
        rng_(seed),
        rung_(replicas.size()) {
    std::iota(rung_.begin(), rung_.end(), 0);
  }

  /// Of a replica when so much of the work (0..1) is done.
  double temperature(int replica, double done) const {
    const double own = temperature_of(rung_[replica]);
    if (done < kCooled) return falling(kHottest * temperature_of(0), own, done / kCooled);
    return done < kExchanged ? own : falling(own, heat_.last, (done - kExchanged) / (1 - kExchanged));
  }

  bool is_cold(int replica) const { return rung_[replica] >= static_cast<int>(rung_.size()) - kFollowed; }

  /// Neighbours exchange with the chance that leaves each temperature's layouts as likely as before.
  void exchange() {
    std::vector<int> at(rung_.size());
    for (std::size_t k = 0; k < rung_.size(); ++k) at[rung_[k]] = static_cast<int>(k);
    for (std::size_t rung = 0; rung + 1 < at.size(); ++rung) {
      const double colder = 1 / temperature_of(static_cast<int>(rung) + 1) - 1 / temperature_of(static_cast<int>(rung));
      const double lower = replicas_[at[rung + 1]]->energy() - replicas_[at[rung]]->energy();
      if (rng_.uniform() >= std::exp(std::min(0.0, colder * lower))) continue;
      std::swap(rung_[at[rung]], rung_[at[rung + 1]]);
      std::swap(at[rung], at[rung + 1]);
    }
  }

 private:
  static double falling(double from, double to, double done) { return from * std::pow(to / from, done); }
  /// The hottest temperature by the coldest, of many cells.
  static double span(std::size_t count) { return 1.3 * std::pow(static_cast<double>(count) / 2, 0.52); }
  static double hotter(int places) {
    const double few = kFewCells / places;
    return std::clamp(few * few, 1.0, kMostHotter);
  }
  double temperature_of(int rung) const {
    return coldest_ * std::pow(apart_, static_cast<double>(rung_.size()) - 1 - rung);
  }

  std::vector<std::unique_ptr<Replica>>& replicas_;
  const Heat& heat_;
  double apart_ = 0, coldest_ = 0;
  Rng rng_;
  std::vector<int> rung_;  ///< by replica: 0 is the hottest
};

}  // namespace

std::vector<Found> temper(const Task& task, const std::vector<std::vector<Held>>& starts, const Heat& heat,
                          const Work& work, Seed seed, int threads, const std::vector<Watch>& watches) {
  const int count = static_cast<int>(starts.size());
  std::vector<std::unique_ptr<Replica>> replicas(count);
  run_all(count, threads, [&](int k) {
    replicas[k] = std::make_unique<Replica>(task, starts[k], heat, derived(seed, k + 1), watches[k]);
  });
  const int places = std::max(1, task.model->places);
  Ladder ladder(replicas, heat, places, derived(seed, 0));
  const std::int64_t steps = std::max(kSteps, work.proposals / (kBetween * places));
  const std::int64_t each = work.clock ? kBetween * places : std::max<std::int64_t>(1, work.proposals / steps);
  const std::int64_t untold = std::clamp<std::int64_t>(steps / kSteps, 1, kUntold);
  const std::int64_t between_looks = std::max<std::int64_t>(1, steps / kLooks);
  std::int64_t step = 0;
  double done = 0;
  std::atomic<bool> going{replicas.front()->any()};
  const auto move = [&](int k) {
    Replica& replica = *replicas[k];
    if (step % untold == 0 && !replica.tell(done)) going = false;
    replica.run(ladder.temperature(k, done), each);
    if (done >= kCooled && step % between_looks == 0 && ladder.is_cold(k)) replica.look_down();
  };
  const auto between = [&] {
    if (done >= kCooled && done < kExchanged) ladder.exchange();
    ++step;
    done = work.clock ? work.clock() : static_cast<double>(step) / static_cast<double>(steps);
    return going && done < 1;
  };
  if (going) run_in_steps(count, threads, move, between);
  std::vector<Found> found;
  run_all(count, threads, [&](int k) {
    replicas[k]->look_down();
    replicas[k]->tell_end();
  });
  found.reserve(replicas.size());
  for (const auto& replica : replicas) found.push_back(replica->best());
  return found;
}

}  // namespace farflung::arrange
