#include "arrange/restarts.hpp"

#include <algorithm>
#include <cstdlib>
#include <numeric>

#include "arrange/elites.hpp"
#include "arrange/one_print.hpp"
#include "arrange/periodic.hpp"

namespace farflung::arrange {
namespace {

constexpr double kFirstRun = 4'000;  // proposals a place
constexpr double kGrowth = 1.25;
constexpr int kElites = 12;
constexpr int kPeriodic = 2 * kElites;      // before each time that the elites are found anew
constexpr int kPatience = 12 * kElites;     // crossings without a new elite
constexpr std::int64_t kTabuPatience = 12;  // steps a place

double F_of(const Task& task, const std::vector<Held>& held) { return score::Pricer(*task.model, held, {}).F(); }

/// One search: what bettering means differs, the way around it does not.
class Restarts {
 public:
  Restarts(const Task& task, const std::vector<Symmetry>& symmetries, Seed seed,
           const std::function<bool(const Found&)>& found, const std::function<bool()>& go_on)
      : task_(task),
        symmetries_(symmetries),
        seed_(seed),
        found_(found),
        go_on_(go_on),
        rng_(seed),
        empty_(task.model->places) {
    for (int i = 0; i < task.model->places; ++i) empty_[i] = {i, 0};
    heat_ = sample_heat(task, by_lot(), derived(seed, 1));
    reheat_ = heat_;
    heat_.first *= 2;
  }

  bool begin(const std::vector<std::vector<Held>>& starts) {
    if (starts.empty()) return true;
    const auto least = std::min_element(starts.begin(), starts.end(),
                                        [&](const auto& a, const auto& b) { return F_of(task_, a) < F_of(task_, b); });
    begun_ = descend(task_, *least, heat_, derived(seed_, 2), watch());
    return tell(begun_);
  }

  /// Annealing, by turns from a start by lot and from a crossing, each pair of runs longer than the one before.
  void anneal_on() {
    Elites elites(task_, symmetries_, kElites);
    if (!begun_.held.empty()) elites.take(begun_.held, F_of(task_, begun_.held));
    double proposals = kFirstRun * task_.model->places;
    for (bool crossing = false;; crossing = !crossing) {
      const bool crossed = crossing && elites.enough_to_cross();
      const Work work{static_cast<std::int64_t>(proposals), {}};
      const Found now =
          anneal(task_, crossed ? elites.crossed(rng_) : by_lot(), crossed ? reheat_ : heat_, work, next(), watch());
      if (!tell(now)) return;
      elites.take(now.held, F_of(task_, now.held));
      if (crossing) proposals *= kGrowth;
    }
  }

  /// Tabu search over one print's places: elites from starts by lot, then crossings until they bring nothing new.
  /// Before them starts that repeat themselves, which are left out of the elites: regular layouts would soon fill them.
  void scatter_on() {
    const OnePrint one_print(task_);
    const std::int64_t patience = kTabuPatience * task_.model->places;
    const auto bettered = [&](const std::vector<Held>& start) {
      const std::vector<Held> tried = one_print.improved(start, patience, next(), go_on_);
      return descend(task_, tried, heat_, next(), watch());
    };
    for (;;) {
      for (int run = 0; run < kPeriodic; ++run) {
        if (!tell(bettered(periodic_start(task_, symmetries_, by_lot(), rng_, go_on_)))) return;
      }
      Elites elites(task_, symmetries_, kElites);
      int waited = 0;
      for (int run = 0; waited < kPatience; ++run) {
        const Found now = bettered(run < kElites || !elites.enough_to_cross() ? by_lot() : elites.crossed(rng_));
        if (!tell(now)) return;
        waited = elites.take(now.held, F_of(task_, now.held)) ? 0 : waited + 1;
      }
    }
  }

 private:
  std::vector<Held> by_lot() { return random_start(task_, empty_, rng_); }
  Seed next() { return derived(seed_, 10 + runs_++); }
  Watch watch() const {
    return [this](const Standing&) { return go_on_(); };
  }
  bool tell(const Found& now) const { return found_(now) && go_on_(); }

  const Task& task_;
  const std::vector<Symmetry>& symmetries_;
  Seed seed_;
  const std::function<bool(const Found&)>& found_;
  const std::function<bool()>& go_on_;
  Rng rng_;
  std::vector<Held> empty_;
  Heat heat_, reheat_;
  Found begun_;
  std::uint64_t runs_ = 0;
};

}  // namespace

Freedom free_to_move(const score::Model& model) {
  Freedom freedom;
  freedom.pools.resize(1);
  freedom.pools[0].places.resize(model.places);
  std::iota(freedom.pools[0].places.begin(), freedom.pools[0].places.end(), 0);
  freedom.pool_of_place.assign(model.places, 0);
  for (int b = 0; b < static_cast<int>(model.pieces.size()); ++b) {
    freedom.pools[0].blocks.push_back(b);
    freedom.forms.push_back({0});
    freedom.kind.push_back(model.pieces[b].prints.front() + 1);
  }
  freedom.look = freedom.kind;
  return freedom;
}

void restarts(const Task& task, const Beginning& beginning, Seed seed, const std::function<bool(const Found&)>& found,
              const std::function<bool()>& go_on) {
  std::vector<Symmetry> symmetries = beginning.symmetries;
  if (symmetries.empty()) symmetries.push_back(identity(task.model->places));
  Restarts search(task, symmetries, seed, found, go_on);
  if (!search.begin(beginning.starts)) return;
  if (is_one_print(task)) {
    search.scatter_on();
  } else {
    search.anneal_on();
  }
}

}  // namespace farflung::arrange
