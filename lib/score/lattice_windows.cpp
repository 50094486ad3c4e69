#include "score/lattice_windows.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace farflung::score {
namespace {

/// Weights below this, beside 1 for the place itself, add nothing that a double would keep.
constexpr double kNothingBeside = 1e-20;

double step_of(const std::vector<int>& steps, const std::vector<double>& at) {
  const auto [least, most] = std::minmax_element(steps.begin(), steps.end());
  return *least == *most ? 0 : (at[most - steps.begin()] - at[least - steps.begin()]) / (*most - *least);
}

/// exp(-(step (a / part - b))^2 factor) for a < count, b < points, row by row.
std::vector<double> gaussians(int count, double part, int points, double step, double factor) {
  std::vector<double> table;
  table.reserve(static_cast<std::size_t>(count) * points);
  for (int a = 0; a < count; ++a) {
    for (int b = 0; b < points; ++b) table.push_back(std::exp(-std::pow(step * (a / part - b), 2) * factor));
  }
  return table;
}

/// sums(u, v) = sum over points (r, c) of down(u, r) values(r, c) across(v, c): a Gaussian in the plane is one across
/// times one down.
std::vector<double> smoothed(const std::vector<double>& values, const LatticeSteps& steps,
                             const std::vector<double>& down, const std::vector<double>& across) {
  const std::size_t wide = steps.wide;
  const std::size_t high = steps.high;
  const std::size_t count_across = across.size() / wide;
  const std::size_t count_down = down.size() / high;
  std::vector<double> rows(high * count_across, 0.0);
  for (std::size_t r = 0; r < high; ++r) {
    for (std::size_t v = 0; v < count_across; ++v) {
      double sum = 0;
      for (std::size_t c = 0; c < wide; ++c) sum += values[r * wide + c] * across[v * wide + c];
      rows[r * count_across + v] = sum;
    }
  }
  std::vector<double> sums(count_down * count_across, 0.0);
  for (std::size_t u = 0; u < count_down; ++u) {
    for (std::size_t r = 0; r < high; ++r) {
      const double weight = down[u * high + r];
      if (weight == 0) continue;
      for (std::size_t v = 0; v < count_across; ++v) sums[u * count_across + v] += weight * rows[r * count_across + v];
    }
  }
  return sums;
}

/// By point of the lattice: 1 / Z, Z the sum of the point's window; 0 where no place lies.
std::vector<double> normalisers(const LatticeSteps& steps, double scale) {
  const double factor = 1 / (2 * scale * scale);
  std::vector<double> there;
  for (const int place : steps.places_of_point) there.push_back(place == kNone ? 0.0 : 1.0);
  std::vector<double> sums = smoothed(there, steps, gaussians(steps.high, 1, steps.high, steps.down, factor),
                                      gaussians(steps.wide, 1, steps.wide, steps.across, factor));
  for (std::size_t k = 0; k < sums.size(); ++k) sums[k] = there[k] / sums[k];
  return sums;
}

int reach_of(const std::vector<double>& weights) {
  int reach = 0;
  while (reach + 1 < static_cast<int>(weights.size()) && weights[reach + 1] >= kNothingBeside) ++reach;
  return reach;
}

}  // namespace

LatticeSteps::LatticeSteps(const Places& places)
    : across(step_of(places.across, places.x)), down(step_of(places.down, places.y)) {
  const int left = *std::min_element(places.across.begin(), places.across.end());
  const int top = *std::min_element(places.down.begin(), places.down.end());
  for (int i = 0; i < places.count(); ++i) {
    column.push_back(places.across[i] - left);
    row.push_back(places.down[i] - top);
    wide = std::max(wide, column.back() + 1);
    high = std::max(high, row.back() + 1);
  }
  row_start.assign(high + 1, 0);
  places_of_point.assign(static_cast<std::size_t>(wide) * high, kNone);
  for (int i = 0; i < places.count(); ++i) {
    ++row_start[row[i] + 1];  // places are numbered row by row
    places_of_point[static_cast<std::size_t>(row[i]) * wide + column[i]] = i;
  }
  for (int r = 0; r < high; ++r) row_start[r + 1] += row_start[r];
}

LatticeWindows::LatticeWindows(const Places& places, std::span<const double> scales, double share) : steps_(places) {
  for (const double s : scales) {
    std::vector<double> squares = normalisers(steps_, s);
    for (double& each : squares) each *= share * each;
    Scale scale;
    scale.across = gaussians(1, 1, steps_.wide, steps_.across, 1 / (4 * s * s));
    scale.down = gaussians(1, 1, steps_.high, steps_.down, 1 / (4 * s * s));
    scale.middle = smoothed(squares, steps_, gaussians(2 * steps_.high - 1, 2, steps_.high, steps_.down, 1 / (s * s)),
                            gaussians(2 * steps_.wide - 1, 2, steps_.wide, steps_.across, 1 / (s * s)));
    scale.reach_across = reach_of(scale.across);
    scale.reach_down = reach_of(scale.down);
    scales_.push_back(std::move(scale));
  }
}

double LatticeWindows::numbers() const {
  double sum = static_cast<double>(steps_.places_of_point.size() + steps_.row.size());
  for (const Scale& scale : scales_) {
    sum += static_cast<double>(scale.across.size() + scale.down.size() + scale.middle.size());
  }
  return sum;
}

double LatticeWindows::at(int i, int j) const {
  const int across = std::abs(steps_.column[i] - steps_.column[j]);
  const int down = std::abs(steps_.row[i] - steps_.row[j]);
  const std::size_t middle = static_cast<std::size_t>(steps_.row[i] + steps_.row[j]) * (2 * steps_.wide - 1) +
                             (steps_.column[i] + steps_.column[j]);
  double weight = 0;
  for (const Scale& scale : scales_) weight += scale.across[across] * scale.down[down] * scale.middle[middle];
  return weight;
}

void LatticeWindows::add_column(int j, double weight, std::span<double> to) const {
  const int column = steps_.column[j];
  const int row = steps_.row[j];
  for (const Scale& scale : scales_) {
    const int first_row = std::max(0, row - scale.reach_down);
    const int last_row = std::min(steps_.high - 1, row + scale.reach_down);
    for (int r = first_row; r <= last_row; ++r) {
      const int* columns = steps_.column.data();
      const int* begin = columns + steps_.row_start[r];
      const int* end = columns + steps_.row_start[r + 1];
      begin = std::lower_bound(begin, end, column - scale.reach_across);
      end = std::upper_bound(begin, end, column + scale.reach_across);
      const double down = weight * scale.down[std::abs(r - row)];
      const double* middle = &scale.middle[static_cast<std::size_t>(r + row) * (2 * steps_.wide - 1) + column];
      double* here = to.data() + (begin - columns);
      for (const int* at = begin; at != end; ++at, ++here) {
        *here += down * scale.across[std::abs(*at - column)] * middle[*at];
      }
    }
  }
}

std::vector<double> lattice_window_sums(const Places& places, double scale) {
  const LatticeSteps steps(places);
  const double factor = 1 / (2 * scale * scale);
  const std::vector<double> sums =
      smoothed(normalisers(steps, scale), steps, gaussians(steps.high, 1, steps.high, steps.down, factor),
               gaussians(steps.wide, 1, steps.wide, steps.across, factor));
  std::vector<double> by_place;
  by_place.reserve(static_cast<std::size_t>(places.count()));
  for (int i = 0; i < places.count(); ++i) {
    by_place.push_back(sums[static_cast<std::size_t>(steps.row[i]) * steps.wide + steps.column[i]]);
  }
  return by_place;
}

}  // namespace farflung::score
