#include "arrange/restarts.hpp"

#include <algorithm>
#include <cstdlib>
#include <numeric>

namespace farflung::arrange {
namespace {

constexpr double kFirstRun = 4'000;  // proposals a place
constexpr double kGrowth = 1.25;

double F_of(const Task& task, const std::vector<Held>& held) { return score::Pricer(*task.model, held, {}).F(); }

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
  return freedom;
}

void restarts(const Task& task, const std::vector<std::vector<Held>>& starts, Seed seed,
              const std::function<bool(const Found&)>& found, const std::function<bool()>& go_on) {
  Rng rng(seed);
  std::vector<Held> held(task.model->places);
  for (int i = 0; i < task.model->places; ++i) held[i] = {i, 0};
  Heat heat = sample_heat(task, random_start(task, held, rng), derived(seed, 1));
  heat.first *= 2;
  Heat reheat = heat;
  reheat.first = heat.first / 2;
  Found best;
  double best_F = 0;
  const auto watch = [&](const Standing&) { return go_on(); };
  const auto take = [&](const Found& now) {
    const double F = F_of(task, now.held);
    if (best.held.empty() || F < best_F) {
      best = now;
      best_F = F;
    }
    return found(now) && go_on();
  };
  if (!starts.empty()) {
    const auto least = std::min_element(starts.begin(), starts.end(),
                                        [&](const auto& a, const auto& b) { return F_of(task, a) < F_of(task, b); });
    if (!take(descend(task, *least, heat, derived(seed, 2), watch))) return;
  }
  double proposals = kFirstRun * task.model->places;
  for (std::uint64_t run = 0;; ++run) {
    const bool again = run % 2 == 1;
    const Work work{static_cast<std::int64_t>(proposals), {}};
    if (!take(anneal(task, again ? best.held : random_start(task, held, rng), again ? reheat : heat, work,
                     derived(seed, 10 + run), watch))) {
      return;
    }
    if (again) proposals *= kGrowth;
  }
}

}  // namespace farflung::arrange
