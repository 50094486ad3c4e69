#include "score/explain.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace farflung::score {
namespace {

std::vector<std::vector<int>> places_of_prints(const Measure& measure, const setting::Arrangement& arrangement) {
  std::vector<std::vector<int>> places(measure.quilt().prints.size());
  for (int i = 0; i < measure.places().count(); ++i) {
    for (const Share& share : measure.shares()[arrangement.block[measure.places().cell[i]]]) {
      places[share.print].push_back(i);
    }
  }
  return places;
}

double distance(const Places& places, int i, int j) {
  return std::hypot(places.x[i] - places.x[j], places.y[i] - places.y[j]);
}

std::vector<int> cells_of(const Measure& measure, const std::vector<int>& places) {
  std::vector<int> cells;
  cells.reserve(places.size());
  for (const int i : places) cells.push_back(measure.places().cell[i]);
  return cells;
}

PrintSpacing spacing_of(const Measure& measure, int print, const std::vector<int>& copies,
                        std::map<int, double>& ideals) {
  PrintSpacing spacing;
  spacing.print = print;
  spacing.copies = static_cast<int>(copies.size());
  if (copies.size() < 2) return spacing;
  spacing.nearest = 1e300;
  for (std::size_t a = 0; a < copies.size(); ++a) {
    for (std::size_t b = a + 1; b < copies.size(); ++b) {
      const double apart = distance(measure.places(), copies[a], copies[b]);
      if (apart >= spacing.nearest) continue;
      spacing.nearest = apart;
      spacing.nearest_a = measure.places().cell[copies[a]];
      spacing.nearest_b = measure.places().cell[copies[b]];
    }
  }
  const auto [ideal, is_new] = ideals.try_emplace(spacing.copies, 0.0);
  if (is_new) ideal->second = even_spacing(measure.places(), spacing.copies);
  spacing.ideal = std::max(ideal->second, spacing.nearest);
  return spacing;
}

/// A reading as the colour it stands for.
colour::Lab lab_of(const Reading& reading) { return {reading[0] / 1.5, reading[1], reading[2]}; }

/// Of one block's cast, the mean of its square.
double cast_variance(const Measure& measure) {
  double variance = 0;
  for (const Reading& cast : measure.casts()) variance += dot(cast, cast);
  return variance / std::max<double>(1, static_cast<double>(measure.casts().size()));
}

RegionCast region_around(const Measure& measure, const setting::Arrangement& arrangement, int i, double scale,
                         double variance) {
  const Places& places = measure.places();
  const int n = places.count();
  Reading sum{};
  double weights = 0;
  double squares = 0;
  for (int j = 0; j < n; ++j) {
    const double apart = distance(places, i, j);
    const double weight = std::exp(-apart * apart / (2 * scale * scale));
    weights += weight;
    squares += weight * weight;
    const Reading& cast = measure.casts()[arrangement.block[places.cell[j]]];
    for (std::size_t k = 0; k < sum.size(); ++k) sum[k] += weight * cast[k];
  }
  for (double& value : sum) value /= weights;
  // The mean of the square in a shuffle: blocks drawn without putting back are a little less free than by lot.
  const double share = squares / (weights * weights);
  const double usual = variance * (share - (1 - share) / std::max(1, n - 1));
  Reading region = measure.mean_reading();
  for (std::size_t k = 0; k < region.size(); ++k) region[k] += sum[k];
  return {places.cell[i],
          scale,
          sum,
          lab_of(region),
          lab_of(measure.mean_reading()),
          usual > 1e-12 ? dot(sum, sum) / usual : 0};
}

RegionCast strongest_cast(const Measure& measure, const setting::Arrangement& arrangement) {
  RegionCast strongest;
  strongest.lab = strongest.mean = lab_of(measure.mean_reading());
  for (const double scale : kCoverageScales) {  // a single block is no region
    for (const RegionCast& region : region_casts(measure, arrangement, scale)) {
      if (region.strength > strongest.strength) strongest = region;
    }
  }
  return strongest;
}

/// The longest runs of equal steps among the copies of one print. One that lies everywhere could lie no other way.
void add_equal_steps(const Measure& measure, int print, const std::vector<int>& copies,
                     std::vector<EqualSteps>& found) {
  const Places& places = measure.places();
  if (static_cast<int>(copies.size()) == places.count()) return;
  std::map<std::pair<int, int>, int> at;
  for (const int i : copies) at[{places.across[i], places.down[i]}] = i;
  const auto place_at = [&](int across, int down) {
    const auto known = at.find({across, down});
    return known == at.end() ? kNone : known->second;
  };
  for (const int a : copies) {
    for (const int b : copies) {
      const int across = places.across[b] - places.across[a];
      const int down = places.down[b] - places.down[a];
      if (down < 0 || (down == 0 && across <= 0)) continue;
      if (place_at(places.across[a] - across, places.down[a] - down) != kNone) continue;  // not its beginning
      std::vector<int> run{a};
      for (int next = b; next != kNone;) {
        run.push_back(next);
        next = place_at(places.across[next] + across, places.down[next] + down);
      }
      if (run.size() >= 3) found.push_back({print, cells_of(measure, run), distance(places, a, b)});
    }
  }
}

struct ClassSpread {
  double mean = 0, variance = 0, blocks = 0;
};

/// Lines whose mean of one component leaves a shuffle's by more than two standard deviations.
void add_line_casts(const Measure& measure, const setting::Arrangement& arrangement, LineCast::What what,
                    std::size_t component, double scale, std::vector<LineCast>& found) {
  std::vector<ClassSpread> spread;
  for (const Class& each : measure.classes()) {
    ClassSpread of_class;
    of_class.blocks = static_cast<double>(each.blocks.size());
    for (const int block : each.blocks) of_class.mean += measure.casts()[block][component] / of_class.blocks;
    for (const int block : each.blocks) {
      of_class.variance += std::pow(measure.casts()[block][component] - of_class.mean, 2) / of_class.blocks;
    }
    spread.push_back(of_class);
  }
  const Places& places = measure.places();
  for (const Line& line : places.lines) {
    std::vector<double> of_class(spread.size(), 0.0);
    double sum = 0;
    for (const int i : line.places) {
      of_class[places.klass[i]] += 1;
      sum += measure.casts()[arrangement.block[places.cell[i]]][component];
    }
    double mean = 0;
    double variance = 0;
    for (std::size_t c = 0; c < spread.size(); ++c) {
      mean += of_class[c] * spread[c].mean;
      variance +=
          of_class[c] * spread[c].variance * (spread[c].blocks - of_class[c]) / std::max(1.0, spread[c].blocks - 1);
    }
    if (variance < 1e-9) continue;
    const double deviations = (sum - mean) / std::sqrt(variance);
    if (std::abs(deviations) <= 2) continue;
    found.push_back({line.way, cells_of(measure, line.places), what,
                     (sum - mean) / static_cast<double>(line.places.size()) / scale, deviations});
  }
}

/// The place's double distance from the middle along one axis of the lattice: 0 on the centre line.
std::pair<int, int> from_middle(const Places& places, int i) {
  const auto [left, right] = std::minmax_element(places.across.begin(), places.across.end());
  const auto [top, bottom] = std::minmax_element(places.down.begin(), places.down.end());
  return {2 * places.across[i] - *left - *right, 2 * places.down[i] - *top - *bottom};
}

}  // namespace

std::vector<RegionCast> region_casts(const Measure& measure, const setting::Arrangement& arrangement, double scale) {
  std::vector<RegionCast> regions;
  const double variance = cast_variance(measure);
  if (variance < 1e-9 || measure.places().count() < 2) return regions;
  for (int i = 0; i < measure.places().count(); ++i) {
    regions.push_back(region_around(measure, arrangement, i, scale, variance));
  }
  return regions;
}

bool is_accent(const Measure& measure, int print) {
  int copies = 0;
  for (const auto& shares : measure.shares()) {
    copies += std::any_of(shares.begin(), shares.end(), [&](const Share& s) { return s.print == print; }) ? 1 : 0;
  }
  const int few = std::min(6, std::max(2, static_cast<int>(measure.shares().size()) / 8));
  return copies > 0 && copies <= few &&
         colour::delta_e_2000(measure.quilt().prints[print].features.lab, lab_of(measure.mean_reading())) >= 30;
}

std::vector<AccentInLine> accents_in_line(const Measure& measure, const setting::Arrangement& arrangement) {
  const Places& places = measure.places();
  const auto copies = places_of_prints(measure, arrangement);
  std::vector<AccentInLine> found;
  if (places.count() < 9) return found;
  for (int p = 0; p < static_cast<int>(copies.size()); ++p) {
    if (copies[p].empty() || !is_accent(measure, p)) continue;
    for (const int i : copies[p]) {
      const auto [across, down] = from_middle(places, i);
      if (across == 0) found.push_back({p, AccentInLine::Where::centre_line, Line::Way::column, {places.cell[i]}});
      if (down == 0) found.push_back({p, AccentInLine::Where::centre_line, Line::Way::row, {places.cell[i]}});
    }
    const std::set<int> here(copies[p].begin(), copies[p].end());
    for (const Line& line : places.lines) {
      std::vector<int> shared;
      for (const int i : line.places) {
        if (here.count(i) > 0) shared.push_back(places.cell[i]);
      }
      if (shared.size() >= 2) found.push_back({p, AccentInLine::Where::shared_line, line.way, shared});
    }
  }
  return found;
}

Explanation explain(const Measure& measure, const setting::Arrangement& arrangement) {
  Explanation explanation;
  const auto copies = places_of_prints(measure, arrangement);
  std::map<int, double> ideals;
  for (int p = 0; p < static_cast<int>(copies.size()); ++p) {
    explanation.spacings.push_back(spacing_of(measure, p, copies[p], ideals));
    add_equal_steps(measure, p, copies[p], explanation.equal_steps);
  }
  std::stable_sort(explanation.equal_steps.begin(), explanation.equal_steps.end(),
                   [](const EqualSteps& a, const EqualSteps& b) {
                     return a.cells.size() != b.cells.size() ? a.cells.size() > b.cells.size() : a.step < b.step;
                   });
  explanation.strongest = strongest_cast(measure, arrangement);
  add_line_casts(measure, arrangement, LineCast::What::value, 0, 1.5, explanation.lines);
  add_line_casts(measure, arrangement, LineCast::What::red_green, 1, 1, explanation.lines);
  add_line_casts(measure, arrangement, LineCast::What::yellow_blue, 2, 1, explanation.lines);
  std::stable_sort(explanation.lines.begin(), explanation.lines.end(), [](const LineCast& a, const LineCast& b) {
    return std::abs(a.deviations) > std::abs(b.deviations);
  });
  explanation.accents = accents_in_line(measure, arrangement);
  return explanation;
}

}  // namespace farflung::score
