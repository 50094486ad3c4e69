#include "score/pair_field.hpp"

#include <algorithm>
#include <utility>

#include "score/wide.hpp"

namespace farflung::score {
namespace {

FARFLUNG_WIDE void add_two_columns(double* to, const double* first, double first_weight, const double* second,
                                   double second_weight, int count) {
  for (int i = 0; i < count; ++i) to[i] += first_weight * first[i] + second_weight * second[i];
}

FARFLUNG_WIDE void add_column(double* to, const double* column, double weight, int count) {
  for (int i = 0; i < count; ++i) to[i] += weight * column[i];
}

/// Of eight places after another each component in turn: to += column x weight.
FARFLUNG_WIDE void add_components(double* to, const double* column, const double* weight, int tiles) {
  Doubles* of_place = reinterpret_cast<Doubles*>(to);  // auto would forget how it may be aligned
  const Doubles* columns = reinterpret_cast<const Doubles*>(column);
  for (int t = 0; t < tiles; ++t, columns += 2) {
    for (int c = 0; c < kComponents; ++c, of_place += 2) {
      of_place[0] += weight[c] * columns[0];
      of_place[1] += weight[c] * columns[1];
    }
  }
}

double at(const Kernel& kernel, int i, int j) { return kernel.places() > 0 ? kernel.at(i, j) : 0.0; }

void add_difference(const Kernel& kernel, int a, int b, double weight, std::vector<double>& to) {
  if (kernel.places() == 0 || weight == 0) return;
  kernel.add_column(a, weight, to);
  if (b != kNone) kernel.add_column(b, -weight, to);
}

}  // namespace

PairField::PairField(const Model& model)
    : model_(model),
      casts_count_(model.evenness_weight != 0 || model.streak_weight != 0),
      stride_((model.places + kTile - 1) / kTile * kTile),
      shares_(model.prints * stride_, 0.0),
      casts_(kComponents * stride_, 0.0),
      spread_column_(model.places),
      coverage_column_(model.places),
      cast_column_(stride_) {
  for (int p = 0; p < model.prints && !model.linear.empty(); ++p) {
    std::copy(model.linear.begin(), model.linear.end(), shares_.begin() + p * stride_);
  }
  for (int i = 0; i < model.places; ++i) {
    own_coverage_.push_back(at(model.coverage, i, i));
    own_casts_.push_back(cast_weight(i, i));
  }
  if (model.places > Kernel::kDense || !casts_count_) return;
  std::vector<double> weights;
  for (int i = 0; i < model.places; ++i) {
    for (int j = 0; j < model.places; ++j) weights.push_back(cast_weight(i, j));
  }
  cast_table_ = Kernel::table(model.places, std::move(weights));
}

double PairField::cast_weight(int a, int b) const {
  return model_.evenness_weight * at(model_.evenness, a, b) + model_.streak_weight * at(model_.streaks, a, b);
}

PairField::Weights PairField::weights(int a, int b) const {
  const double casts = cast_table_.places() > 0 ? cast_table_.at(a, b) : cast_weight(a, b);
  return {at(model_.spread, a, b), at(model_.coverage, a, b), casts};
}

Reading PairField::cast_at(int place) const {
  const double* cast = &casts_[place / kTile * kTile * kComponents + place % kTile];
  return {cast[0], cast[kTile], cast[2 * kTile], cast[3 * kTile]};
}

/// sum_p spread_weight(p) (a_p - b_p)^2.
double PairField::spread_difference(const Parts& a, const Parts& b) const {
  double sum = a.spread_square + b.spread_square;
  if ((a.mask & b.mask) == 0) return sum;
  for (const Share& x : a.shares) {
    for (const Share& y : b.shares) {
      if (x.print == y.print) sum -= 2 * model_.spread_weight[x.print] * x.share * y.share;
    }
  }
  return sum;
}

double PairField::coverage_difference(const Parts& a, const Parts& b) const {
  double sum = a.coverage_square + b.coverage_square;
  if ((a.mask & b.mask) == 0) return sum;
  for (const Share& x : a.shares) {
    for (const Share& y : b.shares) {
      if (x.print == y.print) sum -= 2 * model_.coverage_weight[x.print] * x.share * y.share;
    }
  }
  return sum;
}

double PairField::replace(int place, const Parts& out, const Parts& in) const {
  double price = 0;
  for (const Share& share : in.shares) {
    price += share.share * shares_[share.print * stride_ + place];
  }
  for (const Share& share : out.shares) {
    price -= share.share * shares_[share.print * stride_ + place];
  }
  price += own_coverage_[place] * coverage_difference(out, in);
  if (!casts_count_) return price;
  const Reading change = minus(in.cast, out.cast);
  return price + dot(change, cast_at(place)) + own_casts_[place] * dot(change, change);
}

double PairField::together(int a, const Parts& out_a, const Parts& in_a, int b, const Parts& out_b,
                           const Parts& in_b) const {
  const Weights between = weights(a, b);
  double price = 0;
  const auto add = [&](const Parts& here, const Parts& there, double sign) {
    if ((here.mask & there.mask) == 0) return;
    for (const Share& x : here.shares) {
      for (const Share& y : there.shares) {
        if (x.print != y.print) continue;
        const double weight =
            between.spread * model_.spread_weight[x.print] + 2 * between.coverage * model_.coverage_weight[x.print];
        price += sign * weight * x.share * y.share;
      }
    }
  };
  add(in_a, in_b, 1);
  add(in_a, out_b, -1);
  add(out_a, in_b, -1);
  add(out_a, out_b, 1);
  if (!casts_count_) return price;
  return price + 2 * between.casts * dot(minus(in_a.cast, out_a.cast), minus(in_b.cast, out_b.cast));
}

double PairField::swap(int a, int b, const Parts& here, const Parts& there) const {
  double price = 0;
  for (const Share& share : there.shares) {
    const double* potential = &shares_[share.print * stride_];
    price += share.share * (potential[a] - potential[b]);
  }
  for (const Share& share : here.shares) {
    const double* potential = &shares_[share.print * stride_];
    price -= share.share * (potential[a] - potential[b]);
  }
  const Weights between = weights(a, b);
  price += (own_coverage_[a] + own_coverage_[b] - 2 * between.coverage) * coverage_difference(here, there) -
           between.spread * spread_difference(here, there);
  if (!casts_count_) return price;
  const Reading change = minus(there.cast, here.cast);
  return price + dot(change, minus(cast_at(a), cast_at(b))) +
         (own_casts_[a] + own_casts_[b] - 2 * between.casts) * dot(change, change);
}

double PairField::whole(int place, const Parts& parts) const {
  double sum = dot(parts.cast, cast_at(place));
  for (const Share& share : parts.shares) {
    const double linear = model_.linear.empty() ? 0 : model_.linear[place];  // a potential, not half of a pair
    sum += share.share * (shares_[share.print * stride_ + place] + linear);
  }
  return sum;
}

/// Adds the parts with the weights that the scratch columns hold.
void PairField::add_shares(const Parts& parts, double sign) {
  for (const Share& share : parts.shares) {
    double* potential = &shares_[share.print * stride_];
    if (model_.coverage_weight[share.print] == 0) {
      add_column(potential, spread_column_.data(), sign * share.share * model_.spread_weight[share.print],
                 model_.places);
      continue;
    }
    add_two_columns(potential, spread_column_.data(), sign * share.share * model_.spread_weight[share.print],
                    coverage_column_.data(), 2 * sign * share.share * model_.coverage_weight[share.print],
                    model_.places);
  }
}

void PairField::add_cast(const Reading& cast) {
  if (!casts_count_) return;
  Reading weight = cast;
  for (double& value : weight) value *= 2;
  add_components(casts_.data(), cast_column_.data(), weight.data(), static_cast<int>(stride_ / kTile));
}

void PairField::add(int place, const Parts& parts, double sign) {
  std::fill(spread_column_.begin(), spread_column_.end(), 0.0);
  std::fill(coverage_column_.begin(), coverage_column_.end(), 0.0);
  std::fill(cast_column_.begin(), cast_column_.end(), 0.0);
  add_difference(model_.spread, place, kNone, 1, spread_column_);
  add_difference(model_.coverage, place, kNone, 1, coverage_column_);
  add_difference(model_.evenness, place, kNone, model_.evenness_weight, cast_column_);
  add_difference(model_.streaks, place, kNone, model_.streak_weight, cast_column_);
  add_shares(parts, sign);
  Reading cast = parts.cast;
  for (double& value : cast) value *= sign;
  add_cast(cast);
}

void PairField::apply_swap(int a, int b, const Parts& here, const Parts& there) {
  const auto take = [&](const Kernel& kernel, std::vector<double>& column) {
    if (kernel.places() > 0) kernel.difference(a, b, column);
  };
  take(model_.spread, spread_column_);
  take(model_.coverage, coverage_column_);
  take(cast_table_, cast_column_);
  if (cast_table_.places() == 0) {
    std::fill(cast_column_.begin(), cast_column_.end(), 0.0);
    add_difference(model_.evenness, a, b, model_.evenness_weight, cast_column_);
    add_difference(model_.streaks, a, b, model_.streak_weight, cast_column_);
  }
  add_shares(there, 1);
  add_shares(here, -1);
  add_cast(minus(there.cast, here.cast));
}

}  // namespace farflung::score
