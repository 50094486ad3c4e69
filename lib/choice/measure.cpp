#include "choice/measure.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "choice/told_apart.hpp"

namespace farflung::choice {
namespace {

constexpr double kNarrowestRun = 20;   // L*
constexpr double kColourfulFrom = 30;  // C*
constexpr double kUnknownScaleAlike = 0.5;

}  // namespace

Measure::Measure(const std::vector<print::Print>& prints, const std::vector<int>& bundle, int take, const Taste& taste)
    : taste_(taste) {
  for (const print::Print& print : prints) {
    const print::Features& features = print.features;
    lab_.push_back(features.lab);
    const bool known = features.scale && *features.scale > 0;
    log_scale_.push_back(known ? std::log2(*features.scale) : std::numeric_limits<double>::quiet_NaN());
    busyness_.push_back(features.busyness);
  }
  low_ = std::numeric_limits<double>::infinity();
  high_ = -low_;
  for (int i : bundle) {
    low_ = std::min(low_, lab_[i].L);
    high_ = std::max(high_, lab_[i].L);
  }
  if (bundle.empty()) low_ = high_ = 50;
  const double widen = std::max(0.0, kNarrowestRun - (high_ - low_)) / 2;
  low_ -= widen;
  high_ += widen;

  const int count = static_cast<int>(lab_.size());
  delta_e_.assign(lab_.size() * lab_.size(), 0);
  for (int i = 0; i < count; ++i) {
    for (int j = 0; j < i; ++j) {
      delta_e_[index(i, j)] = delta_e_[index(j, i)] = colour::delta_e_2000(lab_[i], lab_[j]);
    }
  }
  price(take);
}

// The mean of |L - u| over u in [low, high].
double Measure::from_run(double L) const {
  const double run = high_ - low_;
  if (L < low_ || L > high_) return std::abs(L - (low_ + high_) / 2);
  return ((L - low_) * (L - low_) + (high_ - L) * (high_ - L)) / (2 * run);
}

// c c' sin(half the angle between), from the identity 2 sin^2(x / 2) = 1 - cos x.
double Measure::hues_apart(int print, int other) const {
  const double C = chroma(lab_[print]), D = chroma(lab_[other]);
  if (C == 0 || D == 0) return 0;
  const double cosine = (lab_[print].a * lab_[other].a + lab_[print].b * lab_[other].b) / (C * D);
  const double half_sine = std::sqrt(std::max(0.0, (1 - cosine) / 2));
  return std::min(1.0, C / kColourfulFrom) * std::min(1.0, D / kColourfulFrom) * half_sine;
}

double Measure::scales_alike(int print, int other) const {
  if (print == other) return 1;
  const double octaves = std::abs(log_scale_[print] - log_scale_[other]);
  return std::isnan(octaves) ? kUnknownScaleAlike : std::exp(-octaves);
}

Terms Measure::terms(std::span<const int> set) const {
  Terms terms;
  if (set.empty()) return terms;
  const double n = static_cast<double>(set.size());
  double from_run_sum = 0, between_values = 0;
  for (int i : set) {
    from_run_sum += from_run(lab_[i].L);
    for (int j : set) {
      between_values += std::abs(lab_[i].L - lab_[j].L);
      terms.hue_spread += i == j ? 0 : hues_apart(i, j) / (n * n);
      terms.same_scale += scales_alike(i, j) / (n * n);
      terms.busy_together += busyness_[i] * busyness_[j] / (n * n);
      const double near = std::max(0.0, 1 - delta_e(i, j) / kToldApart);
      if (i < j) terms.alike += near * near / n;
    }
  }
  const double run = high_ - low_;
  terms.uneven = 3 / run * (2 * from_run_sum / n - between_values / (n * n) - run / 3);
  terms.cost = taste_.apart * terms.alike + taste_.values * terms.uneven +
               taste_.hues * (1 - 2 * taste_.lively) * terms.hue_spread + taste_.scales * terms.same_scale +
               taste_.quiet * terms.busy_together;
  return terms;
}

void Measure::price(int take) {
  const int count = static_cast<int>(lab_.size());
  const double n = std::max(1, take);
  const double run = high_ - low_;
  const double hue_weight = taste_.hues * (1 - 2 * taste_.lively);
  constant_ = -taste_.values;
  single_.resize(lab_.size());
  pair_.assign(lab_.size() * lab_.size(), 0);
  for (int i = 0; i < count; ++i) {
    single_[i] = taste_.values * 6 / run * from_run(lab_[i].L) / n +
                 (taste_.scales + taste_.quiet * busyness_[i] * busyness_[i]) / (n * n);
    for (int j = 0; j < i; ++j) {
      const double near = std::max(0.0, 1 - delta_e(i, j) / kToldApart);
      const double ordered = -taste_.values * 3 / run * std::abs(lab_[i].L - lab_[j].L) +
                             hue_weight * hues_apart(i, j) + taste_.scales * scales_alike(i, j) +
                             taste_.quiet * busyness_[i] * busyness_[j];
      pair_[index(i, j)] = pair_[index(j, i)] = taste_.apart * near * near / n + 2 * ordered / (n * n);
    }
  }
}

}  // namespace farflung::choice
