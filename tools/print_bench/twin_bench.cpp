// twin_bench FIRST COUNT [sheet] [test] [each]: forty simulated prints, twenty to a photograph, photographed twice in
// different light, and once more with a sister in each one's place: the same design, its inks and its scale a little
// other. Says how many were found to be one fabric shown twice, and how many sisters were taken for that: each two as
// if no other print were there, and all within the two sets.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include <unistd.h>

#include "extract/features.hpp"
#include "extract/overlay.hpp"
#include "photo/take.hpp"
#include "photo_bench/printed_sheet.hpp"
#include "print/distance.hpp"
#include "print/pairs_alike.hpp"
#include "simulator/trials.hpp"

namespace {

using namespace farflung;

struct Options {
  bool sheet = false, each = false;
  simulator::Purpose purpose = simulator::Purpose::tuning;
};

/// A cloth of a trial as it was read.
struct Shown {
  print::Print print;
  extract::Look look;
};

using Cloths = std::vector<std::optional<Shown>>;

/// What was read of each cloth of the trial; none where it was not found.
Cloths read(simulator::Trial trial, const Options& options) {
  if (options.sheet) {
    simulator::lay_beside(trial.scene, photo_bench::printed_sheet(derived(trial.seed, 9)), 0.8);
  }
  const simulator::Photograph photograph = simulator::photographed(trial);
  const auto file = std::filesystem::temp_directory_path() / ("twins_" + std::to_string(getpid()) + ".jpg");
  Cloths prints(photograph.cloths.size());
  if (!simulator::written(file.string(), simulator::jpeg_of(photograph.srgb, trial.shot.develop.jpeg_quality)))
    return prints;
  const auto taken = photo::take(file.string());
  std::filesystem::remove(file);
  if (!taken) return prints;
  for (std::size_t i = 0; i < prints.size(); ++i) {
    const auto& truth = photograph.cloths[i].corners;
    const double side = cv::norm(truth[0] - truth[1]);
    for (const photo::Swatch& swatch : taken->swatches) {
      double worst = 0;
      for (const cv::Point2d corner : truth) {
        double nearest = 1e9;
        for (const auto& [x, y] : swatch.corners) nearest = std::min(nearest, std::hypot(x - corner.x, y - corner.y));
        worst = std::max(worst, nearest);
      }
      if (worst > 0.1 * side) continue;
      print::Print print;
      print.photo = print::Sighting{std::to_string(trial.seed.value), swatch.corners, swatch.reference};
      if (swatch.inches) print.swatch_width = Length::inches(*swatch.inches);
      print.features = extract::features_of(swatch.picture, swatch.inches);
      prints[i] = Shown{print, extract::look_of(swatch.picture, swatch.inches)};
    }
  }
  return prints;
}

struct Count {
  int pairs = 0, same = 0;
};

double scale(const print::Features& features) { return features.scale.value_or(features.scale_share.value_or(0)); }

void print(const char* what, const Shown& a, const Shown& b, bool alone, bool in_set) {
  const print::Features &f = a.print.features, &g = b.print.features;
  const print::Overlay overlay = extract::laid_over(a.look, b.look);
  std::printf(
      "%s %s %s distance %5.2f transport %5.2f mean %5.2f busyness %.2f %.2f range %3.0f %3.0f scale %.3f %.3f kind %d "
      "%d likeness %.3f next %.3f octaves %+.2f\n",
      what, alone ? "same " : "other", in_set ? "same " : "other", print::distance(f, g),
      print::transport(f.palette, g.palette), colour::delta_e_2000(f.lab, g.lab), f.busyness, g.busyness, f.value_range,
      g.value_range, scale(f), scale(g), static_cast<int>(f.direction.kind), static_cast<int>(g.direction.kind),
      overlay.likeness, overlay.next, overlay.octaves);
}

/// One set of cloths beside another in which each has its like at its own place.
class Beside {
 public:
  Beside(const Cloths& once, const Cloths& other) {
    for (const Cloths* set : {&once, &other}) {
      for (const auto& cloth : *set) {
        places_.push_back(cloth ? static_cast<int>(shown_.size()) : -1);
        if (cloth) shown_.push_back(&*cloth);
      }
    }
    std::vector<print::Print> prints;
    for (const Shown* one : shown_) prints.push_back(one->print);
    for (const print::Pair& pair : print::pairs_alike(prints, laid())) {
      if (pair.kind == print::Pair::Kind::same) same_.insert({pair.first, pair.second});
    }
  }

  /// Counts those at one place in both sets: each two as if nothing else were there, and within the whole.
  void count(const char* what, bool each, Count& alone, Count& in_set) {
    for (std::size_t place = 0; 2 * place < places_.size(); ++place) {
      const int a = places_[place], b = places_[place + places_.size() / 2];
      if (a < 0 || b < 0) continue;
      const std::pair<std::size_t, std::size_t> pair(a, b);
      const auto two = print::pairs_alike({shown_[pair.first]->print, shown_[pair.second]->print},
                                          [&](std::size_t, std::size_t) { return laid()(pair.first, pair.second); });
      const bool by_two = !two.empty() && two[0].kind == print::Pair::Kind::same, by_set = same_.count(pair) > 0;
      if (each) print(what, *shown_[pair.first], *shown_[pair.second], by_two, by_set);
      ++alone.pairs, alone.same += by_two;
      ++in_set.pairs, in_set.same += by_set, same_.erase(pair);
    }
  }

  /// Others than those counted.
  Count strangers(bool each) const {
    const int all = static_cast<int>(shown_.size() * (shown_.size() - 1) / 2);
    for (const auto& [a, b] : same_) {
      if (each) print("stranger", *shown_[a], *shown_[b], false, true);
    }
    return {all, static_cast<int>(same_.size())};
  }

 private:
  print::LayOver laid() {
    return [this](std::size_t first, std::size_t second) {
      auto& overlay = overlays_[{first, second}];
      if (!overlay) overlay = extract::laid_over(shown_[first]->look, shown_[second]->look);
      return overlay;
    };
  }

  std::vector<int> places_;
  std::vector<const Shown*> shown_;
  std::map<std::pair<std::size_t, std::size_t>, std::optional<print::Overlay>> overlays_;
  std::set<std::pair<std::size_t, std::size_t>> same_;
};

double percent(const Count& count) { return 100.0 * count.same / std::max(1, count.pairs); }

}  // namespace

int main(int count, char** words) {
  if (count < 3) {
    std::fputs("usage: twin_bench FIRST COUNT [sheet] [test] [each]\n", stderr);
    return 2;
  }
  Options options;
  for (int i = 3; i < count; ++i) {
    const std::string word = words[i];
    if (word == "sheet") options.sheet = true;
    if (word == "each") options.each = true;
    if (word == "test") options.purpose = simulator::Purpose::test;
  }
  simulator::Range range;
  range.fewest = range.most = 20;
  range.strays = false;
  Count twins, twins_in_set, sisters, sisters_in_set, strangers;
  const int first = std::atoi(words[1]), last = first + std::atoi(words[2]);
  for (int number = first; number < last; ++number) {
    Cloths once, again, sister;
    for (std::uint64_t half = 0; half < 2; ++half) {
      const Seed seed = derived(simulator::trial_seed(options.purpose, number), 70 + half);
      simulator::Trial trial = simulator::trial(seed, range);
      simulator::Trial others = trial;
      for (simulator::Placed& cloth : others.scene.cloths)
        cloth.fabric = simulator::sister_of(cloth.fabric, derived(cloth.fabric.seed, 5));
      for (auto [to, shown] :
           {std::pair(&once, trial), std::pair(&again, simulator::retaken(trial, derived(seed, 6), range)),
            std::pair(&sister, simulator::retaken(others, derived(seed, 7), range))}) {
        const Cloths prints = read(shown, options);
        to->insert(to->end(), prints.begin(), prints.end());
      }
    }
    Beside twin_sets(once, again), sister_sets(once, sister);
    twin_sets.count("twin    ", options.each, twins, twins_in_set);
    sister_sets.count("sister  ", options.each, sisters, sisters_in_set);
    for (const Beside* sets : {&twin_sets, &sister_sets})
      strangers.pairs += sets->strangers(options.each).pairs, strangers.same += sets->strangers(false).same;
  }
  std::printf("one fabric shown twice: found in %d of %d (%.1f %%); in sets photographed anew: %d (%.1f %%)\n",
              twins.same, twins.pairs, percent(twins), twins_in_set.same, percent(twins_in_set));
  std::printf("sisters taken for one fabric: %d of %d (%.1f %%); in such sets: %d (%.1f %%); any other two: %d of %d\n",
              sisters.same, sisters.pairs, percent(sisters), sisters_in_set.same, percent(sisters_in_set),
              strangers.same, strangers.pairs);
  return 0;
}
