// twin_bench FIRST COUNT [sheet] [test] [each]: forty simulated prints, twenty to a photograph, photographed twice in
// different light, and once more with a sister in each one's place: the same design, its inks and its scale a little
// other. Says how many were found to be one fabric shown twice, and how many sisters were taken for that.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <optional>
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

/// What was read of each cloth of the trial; none where it was not found.
std::vector<std::optional<Shown>> read(simulator::Trial trial, const Options& options) {
  if (options.sheet) {
    simulator::lay_beside(trial.scene, photo_bench::printed_sheet(derived(trial.seed, 9)), 0.8);
  }
  const simulator::Photograph photograph = simulator::photographed(trial);
  const auto file = std::filesystem::temp_directory_path() / ("twins_" + std::to_string(getpid()) + ".jpg");
  std::vector<std::optional<Shown>> prints(photograph.cloths.size());
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

void judge(const std::optional<Shown>& a, const std::optional<Shown>& b, const char* what, bool each, Count& count) {
  if (!a || !b) return;
  print::Overlay overlay;
  const auto pairs = print::pairs_alike({a->print, b->print}, [&](std::size_t, std::size_t) {
    return std::optional(overlay = extract::laid_over(a->look, b->look));
  });
  const bool same = !pairs.empty() && pairs[0].kind == print::Pair::Kind::same;
  ++count.pairs, count.same += same;
  if (!each) return;
  const print::Features &f = a->print.features, &g = b->print.features;
  std::printf(
      "%s %s distance %5.2f transport %5.2f mean %5.2f busyness %.2f %.2f range %3.0f %3.0f scale %.3f %.3f kind %d "
      "%d likeness %.3f next %.3f octaves %+.2f\n",
      what, same ? "same " : "other", print::distance(f, g), print::transport(f.palette, g.palette),
      colour::delta_e_2000(f.lab, g.lab), f.busyness, g.busyness, f.value_range, g.value_range,
      f.scale_share.value_or(0), g.scale_share.value_or(0), static_cast<int>(f.direction.kind),
      static_cast<int>(g.direction.kind), overlay.likeness, overlay.next, overlay.octaves);
}

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
  Count twins, sisters, strangers;
  const int first = std::atoi(words[1]), last = first + std::atoi(words[2]);
  for (int number = first; number < last; ++number) {
    std::vector<std::optional<Shown>> once, again, sister;
    for (std::uint64_t half = 0; half < 2; ++half) {
      const Seed seed = derived(simulator::trial_seed(options.purpose, number), 70 + half);
      simulator::Trial trial = simulator::trial(seed, range);
      simulator::Trial others = trial;
      for (simulator::Placed& cloth : others.scene.cloths)
        cloth.fabric = simulator::sister_of(cloth.fabric, derived(cloth.fabric.seed, 5));
      for (auto [to, shown] :
           {std::pair(&once, trial), std::pair(&again, simulator::retaken(trial, derived(seed, 6), range)),
            std::pair(&sister, simulator::retaken(others, derived(seed, 7), range))}) {
        const auto prints = read(shown, options);
        to->insert(to->end(), prints.begin(), prints.end());
      }
    }
    for (std::size_t i = 0; i < once.size(); ++i) {
      judge(once[i], again[i], "twin    ", options.each, twins);
      judge(once[i], sister[i], "sister  ", options.each, sisters);
      for (std::size_t j = 0; j < i; ++j) judge(once[i], once[j], "stranger", false, strangers);
    }
  }
  std::printf("one fabric shown twice: found in %d of %d (%.1f %%)\n", twins.same, twins.pairs,
              100.0 * twins.same / std::max(1, twins.pairs));
  std::printf("sisters taken for one fabric: %d of %d (%.1f %%); any other two: %d of %d\n", sisters.same,
              sisters.pairs, 100.0 * sisters.same / std::max(1, sisters.pairs), strangers.same, strangers.pairs);
  return 0;
}
