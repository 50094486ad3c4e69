#include "choice/thread.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "choice/words.hpp"

namespace farflung::choice {
namespace {

constexpr double kShows = 10;  // CIEDE2000

struct OnPrint {
  double share = 0;         // of the print on which the thread shows
  double mean_delta_e = 0;  // over the print
};

OnPrint on_print(const colour::Lab& thread, const print::Features& features) {
  OnPrint on;
  const double whole = std::accumulate(features.palette.begin(), features.palette.end(), 0.0,
                                       [](double sum, const print::PaletteColour& c) { return sum + c.share; });
  if (whole <= 0) {
    on.mean_delta_e = colour::delta_e_2000(thread, features.lab);
    on.share = on.mean_delta_e > kShows ? 1 : 0;
    return on;
  }
  for (const print::PaletteColour& colour : features.palette) {
    const double delta_e = colour::delta_e_2000(thread, colour.lab);
    on.mean_delta_e += delta_e * colour.share / whole;
    on.share += delta_e > kShows ? colour.share / whole : 0;
  }
  return on;
}

Showing showing_on(const colour::Lab& thread, const std::vector<print::Print>& prints,
                   const std::vector<double>& shares, ThreadAim aim) {
  Showing showing;
  for (std::size_t i = 0; i < prints.size(); ++i) {
    if (shares[i] <= 0) continue;
    const OnPrint on = on_print(thread, prints[i].features);
    showing.share += shares[i] * on.share;
    showing.mean_delta_e += shares[i] * on.mean_delta_e;
    const bool worse =
        aim == ThreadAim::blend ? on.mean_delta_e > showing.worst_delta_e : on.mean_delta_e < showing.worst_delta_e;
    if (showing.worst == kNone || worse) {
      showing.worst = static_cast<int>(i);
      showing.worst_delta_e = on.mean_delta_e;
    }
  }
  return showing;
}

std::string in_words(const Showing& showing, const std::vector<print::Print>& prints, ThreadAim aim, const char* side) {
  std::string text = "shows on " + percent(showing.share) + " of the " + side;
  if (showing.worst == kNone) return text;
  return text + (aim == ThreadAim::blend ? ", most on " : ", least on ") + name_of(prints[showing.worst]) +
         " (colour difference " + rounded(showing.worst_delta_e, 1) + ")";
}

std::vector<RankedThread> ranked_on(const std::vector<print::Print>& prints, const std::vector<double>& shares,
                                    const std::vector<ThreadColour>& threads, ThreadAim aim, const char* side) {
  std::vector<RankedThread> ranked;
  ranked.reserve(threads.size());
  for (std::size_t i = 0; i < threads.size(); ++i) {
    const Showing showing = showing_on(threads[i].lab, prints, shares, aim);
    ranked.push_back({static_cast<int>(i), showing, in_words(showing, prints, aim, side)});
  }
  // Shares are sums of many: those equal but for rounding must count as equal.
  constexpr double kSameShare = 1e-9;
  std::stable_sort(ranked.begin(), ranked.end(), [&](const RankedThread& a, const RankedThread& b) {
    const Showing &x = a.showing, &y = b.showing;
    const double sign = aim == ThreadAim::blend ? 1 : -1;
    const auto steps = [](double share) { return std::llround(share / kSameShare); };
    if (steps(x.share) != steps(y.share)) return sign * x.share < sign * y.share;
    return sign * x.mean_delta_e < sign * y.mean_delta_e;
  });
  return ranked;
}

}  // namespace

ThreadReport rank_threads(const quilt::Quilt& quilt, const std::vector<ThreadColour>& threads, ThreadAim aim) {
  ThreadReport report;
  report.aim = aim;
  const setting::Plan plan = quilt::plan_of(quilt);
  const std::vector<double> shares = print_shares(top_patches(quilt, plan), quilt.prints.size());
  report.top = ranked_on(quilt.prints, shares, threads, aim, "top");
  if (!quilt.backing || quilt.backing->print == kNone) return report;
  std::vector<double> back(quilt.prints.size(), 0.0);
  back[quilt.backing->print] = 1;
  report.back = ranked_on(quilt.prints, back, threads, aim, "back");
  return report;
}

}  // namespace farflung::choice
