#include "score/pair_field.hpp"

#include <algorithm>
#include <array>
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

/// What one component of the casts adds to prices: change[k] = there[k] - here is the change of what lies in a, and
/// squares gathers it for the change's own form.
FARFLUNG_WIDE void add_cast_prices(const double* there, double here, const double* potential, double potential_a,
                                   double* prices, double* squares, int count) {
  for (int k = 0; k < count; ++k) {
    const double change = there[k] - here;
    prices[k] += change * (potential_a - potential[k]);
    squares[k] += change * change;
  }
}

/// price -= spread x what it sees of the change; += (own_a + own_there - 2 between) x the change's form.
FARFLUNG_WIDE void add_spread_prices(const double* between, const double* form, double* prices, int count) {
  for (int k = 0; k < count; ++k) prices[k] -= between[k] * form[k];
}

FARFLUNG_WIDE void add_own_prices(double own_a, const double* own_there, const double* between, const double* form,
                                  double* prices, int count) {
  for (int k = 0; k < count; ++k) prices[k] += (own_a + own_there[k] - 2 * between[k]) * form[k];
}

constexpr int kComponents = 4;
constexpr int kStretch = 64;  // places priced side by side

double at(const Kernel& kernel, int i, int j) { return kernel.places() > 0 ? kernel.at(i, j) : 0.0; }

void add_difference(const Kernel& kernel, int a, int b, double weight, std::vector<double>& to) {
  if (kernel.places() == 0 || weight == 0) return;
  kernel.add_column(a, weight, to);
  if (b != kNone) kernel.add_column(b, -weight, to);
}

}  // namespace

PairField::PairField(const Model& model)
    : model_(model),
      shares_(static_cast<std::size_t>(model.prints) * model.places, 0.0),
      casts_(static_cast<std::size_t>(kComponents) * model.places, 0.0),
      spread_column_(model.places),
      coverage_column_(model.places),
      cast_column_(model.places) {
  for (int p = 0; p < model.prints && !model.linear.empty(); ++p) {
    std::copy(model.linear.begin(), model.linear.end(), shares_.begin() + static_cast<std::size_t>(p) * model.places);
  }
  for (int i = 0; i < model.places; ++i) {
    own_coverage_.push_back(at(model.coverage, i, i));
    own_casts_.push_back(cast_weight(i, i));
  }
  casts_count_ = model.evenness_weight != 0 || model.streak_weight != 0;
  for (const Piece& piece : model.pieces) {
    most_shares_ = std::max(most_shares_, static_cast<int>(piece.prints.size()));
  }
  shares_there_.resize(static_cast<std::size_t>(most_shares_) * model.places);
  mask_there_.resize(model.places, 0);
  spread_square_.resize(model.places, 0.0);
  coverage_square_.resize(model.places, 0.0);
  casts_there_.resize(static_cast<std::size_t>(kComponents) * model.places, 0.0);
  if (model.places > Kernel::kDense || !casts_count_) return;
  for (int i = 0; i < model.places; ++i) {
    for (int j = 0; j < model.places; ++j) cast_table_.push_back(cast_weight(i, j));
  }
}

double PairField::cast_weight(int a, int b) const {
  return model_.evenness_weight * at(model_.evenness, a, b) + model_.streak_weight * at(model_.streaks, a, b);
}

PairField::Weights PairField::weights(int a, int b) const {
  const double casts =
      cast_table_.empty() ? cast_weight(a, b) : cast_table_[static_cast<std::size_t>(a) * model_.places + b];
  return {at(model_.spread, a, b), at(model_.coverage, a, b), casts};
}

Reading PairField::cast_at(int place) const {
  Reading cast;
  for (int c = 0; c < kComponents; ++c) cast[c] = casts_[static_cast<std::size_t>(c) * model_.places + place];
  return cast;
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
    price += share.share * shares_[static_cast<std::size_t>(share.print) * model_.places + place];
  }
  for (const Share& share : out.shares) {
    price -= share.share * shares_[static_cast<std::size_t>(share.print) * model_.places + place];
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
    const double* potential = &shares_[static_cast<std::size_t>(share.print) * model_.places];
    price += share.share * (potential[a] - potential[b]);
  }
  for (const Share& share : here.shares) {
    const double* potential = &shares_[static_cast<std::size_t>(share.print) * model_.places];
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

void PairField::lies(int place, const Parts& parts) {
  Share* shares = &shares_there_[static_cast<std::size_t>(place) * most_shares_];
  std::fill(std::copy(parts.shares.begin(), parts.shares.end(), shares), shares + most_shares_, Share{});
  mask_there_[place] = parts.mask;
  spread_square_[place] = parts.spread_square;
  coverage_square_[place] = parts.coverage_square;
  for (int c = 0; c < kComponents; ++c) {
    casts_there_[static_cast<std::size_t>(c) * model_.places + place] = parts.cast[c];
  }
}

void PairField::swaps(int a, int first, std::span<double> prices) const {
  for (std::size_t k = 0; k < prices.size(); k += kStretch) {
    swaps_of_stretch(a, first + static_cast<int>(k),
                     prices.subspan(k, std::min<std::size_t>(kStretch, prices.size() - k)));
  }
}

/// What the shares of the block in a would cost in each place of the stretch, and what those there would cost in a, by
/// the potentials; and the forms of the change: sum_p weight(p) (a_p - b_p)^2.
void PairField::price_shares(int a, int first, std::span<double> prices, double* spread_form,
                             double* coverage_form) const {
  const int count = static_cast<int>(prices.size());
  const std::size_t n = model_.places;
  const Share* of_a = &shares_there_[static_cast<std::size_t>(a) * most_shares_];
  std::fill(prices.begin(), prices.end(), 0.0);
  for (int s = 0; s < most_shares_; ++s) {
    const double* potential = &shares_[of_a[s].print * n];
    add_column(prices.data(), potential + first, of_a[s].share, count);
  }
  double here = 0;
  for (int s = 0; s < most_shares_; ++s) here += of_a[s].share * shares_[of_a[s].print * n + a];
  const Share* there = &shares_there_[static_cast<std::size_t>(first) * most_shares_];
  for (int k = 0; k < count; ++k) {
    double price = -here;
    spread_form[k] = spread_square_[a] + spread_square_[first + k];
    coverage_form[k] = coverage_square_[a] + coverage_square_[first + k];
    const bool common = (mask_there_[a] & mask_there_[first + k]) != 0;
    for (int s = 0; s < most_shares_; ++s, ++there) {
      const double* potential = &shares_[there->print * n];
      price += there->share * (potential[a] - potential[first + k]);
      if (!common) continue;
      for (int t = 0; t < most_shares_; ++t) {
        if (of_a[t].print != there->print) continue;
        const double both = 2 * of_a[t].share * there->share;
        spread_form[k] -= model_.spread_weight[there->print] * both;
        coverage_form[k] -= model_.coverage_weight[there->print] * both;
      }
    }
    prices[k] += price;
  }
}

void PairField::swaps_of_stretch(int a, int first, std::span<double> prices) const {
  const int count = static_cast<int>(prices.size());
  std::array<double, kStretch> spread_form, coverage_form, cast_form, between;
  const std::span<double> to(between.data(), count);
  price_shares(a, first, prices, spread_form.data(), coverage_form.data());
  if (model_.spread.places() > 0) {
    model_.spread.stretch(a, first, to);
    add_spread_prices(between.data(), spread_form.data(), prices.data(), count);
  }
  if (model_.coverage.places() > 0) {
    model_.coverage.stretch(a, first, to);
    add_own_prices(own_coverage_[a], &own_coverage_[first], between.data(), coverage_form.data(), prices.data(), count);
  }
  if (!casts_count_) return;
  std::fill_n(cast_form.begin(), count, 0.0);
  for (int c = 0; c < kComponents; ++c) {
    const double* potential = &casts_[static_cast<std::size_t>(c) * model_.places];
    const double* of_place = &casts_there_[static_cast<std::size_t>(c) * model_.places];
    add_cast_prices(of_place + first, of_place[a], potential + first, potential[a], prices.data(), cast_form.data(),
                    count);
  }
  stretch_of_cast_weights(a, first, to);
  add_own_prices(own_casts_[a], &own_casts_[first], between.data(), cast_form.data(), prices.data(), count);
}

void PairField::stretch_of_cast_weights(int a, int first, std::span<double> to) const {
  if (!cast_table_.empty()) {
    const double* from = &cast_table_[static_cast<std::size_t>(a) * model_.places + first];
    std::copy(from, from + to.size(), to.begin());
    return;
  }
  std::array<double, kStretch> part;
  std::fill(to.begin(), to.end(), 0.0);
  for (const auto& [kernel, weight] :
       {std::pair{&model_.evenness, model_.evenness_weight}, std::pair{&model_.streaks, model_.streak_weight}}) {
    if (kernel->places() == 0 || weight == 0) continue;
    kernel->stretch(a, first, {part.data(), to.size()});
    add_column(to.data(), part.data(), weight, static_cast<int>(to.size()));
  }
}

double PairField::whole(int place, const Parts& parts) const {
  double sum = dot(parts.cast, cast_at(place));
  for (const Share& share : parts.shares) {
    const double linear = model_.linear.empty() ? 0 : model_.linear[place];  // a potential, not half of a pair
    sum += share.share * (shares_[static_cast<std::size_t>(share.print) * model_.places + place] + linear);
  }
  return sum;
}

/// Adds the parts with the weights that the scratch columns hold.
void PairField::add_shares(const Parts& parts, double sign) {
  for (const Share& share : parts.shares) {
    double* potential = &shares_[static_cast<std::size_t>(share.print) * model_.places];
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
  for (int c = 0; c < kComponents; ++c) {
    add_column(&casts_[static_cast<std::size_t>(c) * model_.places], cast_column_.data(), 2 * cast[c], model_.places);
  }
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
  std::fill(spread_column_.begin(), spread_column_.end(), 0.0);
  std::fill(coverage_column_.begin(), coverage_column_.end(), 0.0);
  std::fill(cast_column_.begin(), cast_column_.end(), 0.0);
  add_difference(model_.spread, a, b, 1, spread_column_);
  add_difference(model_.coverage, a, b, 1, coverage_column_);
  add_difference(model_.evenness, a, b, model_.evenness_weight, cast_column_);
  add_difference(model_.streaks, a, b, model_.streak_weight, cast_column_);
  add_shares(there, 1);
  add_shares(here, -1);
  add_cast(minus(there.cast, here.cast));
}

}  // namespace farflung::score
