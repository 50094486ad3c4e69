#include "choice/stand_in.hpp"

#include <algorithm>
#include <cmath>

#include "choice/colourway.hpp"
#include "choice/told_apart.hpp"
#include "choice/top.hpp"
#include "choice/words.hpp"

namespace farflung::choice {
namespace {

constexpr double kValueReach = 20;      // L*
constexpr double kToldApartFully = 20;  // CIEDE2000
constexpr double kTouching = 0.01;      // inches; less is no seam

std::string value_in_words(double lighter) {
  if (std::abs(lighter) < 1) return "the same value";
  return rounded(std::abs(lighter), 0) + (lighter > 0 ? " lighter" : " darker") + " in value" +
         (std::abs(lighter) > kValueReach / 2 ? ": the balance of values shifts" : "");
}

std::string busy_in_words(double busier) {
  if (std::abs(busier) < 0.15) return "as busy";
  return busier > 0 ? "busier" : "quieter";
}

/// Inches of seam between the places of the print and those of each other.
std::vector<double> seams_of(const quilt::Quilt& quilt, int print) {
  const std::vector<TopPatch> patches = top_patches(quilt, quilt::plan_of(quilt));
  std::vector<bool> mine;
  mine.reserve(patches.size());
  for (const TopPatch& patch : patches) mine.push_back(patch.print == print);
  return seams_by_print(patches, mine, quilt.prints.size());
}

void find_nearest(StandIn& stand_in, const quilt::Quilt& quilt, int print, const Candidate& candidate,
                  const std::vector<int>& used) {
  for (int other : used) {
    if (other == print || other == candidate.own) continue;
    const double delta_e = colour::delta_e_2000(candidate.print.features.lab, quilt.prints[other].features.lab);
    if (stand_in.nearest != kNone && delta_e >= stand_in.nearest_delta_e) continue;
    stand_in.nearest = other;
    stand_in.nearest_delta_e = delta_e;
  }
}

}  // namespace

std::vector<StandIn> rank_stand_ins(const quilt::Quilt& quilt, int print, const std::vector<Candidate>& candidates) {
  const print::Features& goes = quilt.prints[print].features;
  const std::vector<int> used = prints_in_use(quilt);
  const std::vector<double> seams = seams_of(quilt, print);
  std::vector<StandIn> ranked;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const Candidate& candidate = candidates[i];
    if (candidate.own == print) continue;
    const print::Features& comes = candidate.print.features;
    StandIn one;
    one.candidate = static_cast<int>(i);
    one.lighter = comes.lab.L - goes.lab.L;
    if (candidate.own != kNone && seams[candidate.own] > kTouching) one.touching = seams[candidate.own];
    find_nearest(one, quilt, print, candidate, used);
    const double apart = one.nearest == kNone ? 1 : std::min(1.0, one.nearest_delta_e / kToldApartFully);
    const double busier = comes.busyness - goes.busyness;
    one.score =
        0.5 * std::max(0.0, 1 - std::abs(one.lighter) / kValueReach) + 0.35 * apart + 0.15 * (1 - std::abs(busier));
    one.why = {value_in_words(one.lighter), busy_in_words(busier)};
    if (one.nearest != kNone) {
      const char* reads = one.nearest_delta_e < kLikeness ? "hardly told apart from " : "nearest to ";
      one.why.push_back(reads + name_of(quilt.prints[one.nearest]) + " (colour difference " +
                        rounded(one.nearest_delta_e, 1) + ")");
    }
    if (one.touching > 0) {
      one.why.push_back("would touch itself along " + length_words(Length::inches(one.touching), quilt.units));
    }
    ranked.push_back(std::move(one));
  }
  std::stable_sort(ranked.begin(), ranked.end(), [](const StandIn& a, const StandIn& b) {
    if ((a.touching > 0) != (b.touching > 0)) return b.touching > 0;
    return a.score > b.score;
  });
  return ranked;
}

}  // namespace farflung::choice
