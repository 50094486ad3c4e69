#include "score/swap_bounds.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

#include "score/wide.hpp"

namespace farflung::score {
namespace {

constexpr int kWide = Eight::kWide;
constexpr int kTiles = 9;  // priced at once: they hold any 64 places in order

/// The fields of a record. After them, for each share of a block, its print (as `held_as` writes it) and the share.
enum Field {
  kPotential = 0,
  kReading = kPotential + kComponents,
  kOwn = kReading + kComponents,  // what the block there pays for its shares where it lies
  kOwnCoverage,                   // the kernels' diagonals
  kOwnCasts,
  kContacts,
  kSpreadSquare,
  kCoverageSquare,
  kShares,
};

/// What rounding to single precision does to a sum of some twenty products at most, by their sizes: 2^-20.
constexpr float kRounding = 1.0F / (1 << 20);

float single(double value) { return static_cast<float>(value); }

/// A print among numbers: the bits of where its potential begins among those of a tile.
float held_as(int print) { return std::bit_cast<float>(print * kWide); }
int print_of(float held) { return std::bit_cast<int>(held) / kWide; }

FARFLUNG_WIDE void round_off(Eight* to, std::size_t stride, const double* from, int tiles) {
  const Doubles* exact = reinterpret_cast<const Doubles*>(from);
  for (int t = 0; t < tiles; ++t, to += stride, exact += 2) {
    Rounded* rounded = reinterpret_cast<Rounded*>(to->at);
    rounded[0] = __builtin_convertvector(exact[0], Rounded);
    rounded[1] = __builtin_convertvector(exact[1], Rounded);
  }
}

/// The same of each component in turn; `largest` keeps how large any was.
FARFLUNG_WIDE void round_off_casts(Eight* to, std::size_t stride, const double* from, int tiles, Eight* largest) {
  const Doubles* exact = reinterpret_cast<const Doubles*>(from);
  const LanesOfBits no_sign = LanesOfBits{} + 0x7fffffff;
  Lanes* most = reinterpret_cast<Lanes*>(largest->at);
  const Eight* first = to;
  for (int t = 0; t < tiles; ++t, to += stride) {
    for (int c = 0; c < kComponents; ++c, exact += 2) {
      Rounded* rounded = reinterpret_cast<Rounded*>(to[c].at);
      rounded[0] = __builtin_convertvector(exact[0], Rounded);
      rounded[1] = __builtin_convertvector(exact[1], Rounded);
    }
  }
  for (int c = 0; c < kComponents; ++c) {
    const Eight* component = first + c;
    Lanes all = most[c];
    for (int t = 0; t < tiles; ++t, component += stride) {
      const auto size = (Lanes)((LanesOfBits) * reinterpret_cast<const Lanes*>(component->at) & no_sign);
      all = all < size ? size : all;
    }
    most[c] = all;
  }
}

}  // namespace

/// A share of the block that the swaps of a stretch have in common.
struct SwapBounds::HeldHere {
  int begins = 0;  ///< where its print's potential begins among those of a tile
  float share = 0;
  float spread = 0, coverage = 0;    ///< twice the share, times the print's weights
  const Eight* potential = nullptr;  ///< of the print, in the first of the tiles
};

/// The place that they have in common.
struct SwapBounds::Here {
  float potential[kComponents] = {}, reading[kComponents] = {};
  float own = 0, own_coverage = 0, own_casts = 0, contacts = 0, spread_square = 0, coverage_square = 0;
  float rounding = 0;  ///< of the casts
  const HeldHere* shares = nullptr;
  int count = 0;                      ///< of shares
  const float* potentials = nullptr;  ///< by print, kWide apart
};

/// The kernels between that place and some tiles.
struct SwapBounds::Kernels {
  const Eight *spread = nullptr, *coverage = nullptr, *casts = nullptr;
  Eight scratch[3][kTiles];
};

namespace {

/// The price of the swap with each place of the tiles, in the symbols of PairField, less all that the contacts of both
/// cost now, less what rounding may have added.
FARFLUNG_WIDE void price(const SwapBounds::Here& here, const Eight* records, std::size_t fields, int slots,
                         std::size_t prints, const SwapBounds::Kernels& kernels, Eight* least, int tiles) {
  const auto lanes = [](const Eight* of) -> const Lanes* { return reinterpret_cast<const Lanes*>(of->at); };
  for (int t = 0; t < tiles; ++t, records += fields) {
    const Lanes* record = lanes(records);
    Lanes moved{}, coming{}, spread_common{}, coverage_common{};
    for (int s = 0; s < slots; ++s) {
      const auto print = (LanesOfBits)record[kShares + 2 * s];
      const Lanes share = record[kShares + 2 * s + 1];
      Lanes potential{};
      for (int k = 0; k < kWide; ++k) potential[k] = here.potentials[print[k]];
      coming += share * potential;
      for (int held = 0; held < here.count; ++held) {
        const auto both = (Lanes)((LanesOfBits)share & (print == here.shares[held].begins));
        spread_common += both * here.shares[held].spread;
        coverage_common += both * here.shares[held].coverage;
      }
    }
    for (int held = 0; held < here.count; ++held) {
      moved += here.shares[held].share * *lanes(here.shares[held].potential + t * prints);
    }
    Lanes of_casts{}, form_of_casts{};
    for (int c = 0; c < kComponents; ++c) {
      const Lanes change = record[kReading + c] - here.reading[c];
      of_casts += change * (here.potential[c] - record[kPotential + c]);
      form_of_casts += change * change;
    }
    const Lanes spread = *lanes(kernels.spread + t);
    const Lanes spread_squares = here.spread_square + record[kSpreadSquare];
    const Lanes coverage_squares = here.coverage_square + record[kCoverageSquare];
    const Lanes own_coverage = here.own_coverage + record[kOwnCoverage];
    const Lanes own_casts = here.own_casts + record[kOwnCasts];
    const Lanes contacts = here.contacts + record[kContacts];
    const Lanes sum = (moved - record[kOwn]) + (coming - here.own) + of_casts -
                      spread * (spread_squares - spread_common) +
                      (own_coverage - 2 * *lanes(kernels.coverage + t)) * (coverage_squares - coverage_common) +
                      (own_casts - 2 * *lanes(kernels.casts + t)) * form_of_casts;
    const Lanes size = spread * spread_squares + own_coverage * coverage_squares + own_casts * form_of_casts;
    const LanesOfBits sizes = LanesOfBits{} + 0x7fffffff;  // without their sign
    const Lanes terms = (Lanes)((LanesOfBits)moved & sizes) + (Lanes)((LanesOfBits)coming & sizes) +
                        (Lanes)((LanesOfBits)record[kOwn] & sizes) + std::abs(here.own) +
                        (Lanes)((LanesOfBits)contacts & sizes);
    *reinterpret_cast<Lanes*>(least[t].at) = sum - contacts - (kRounding * (size + terms) + here.rounding);
  }
}

}  // namespace

SwapBounds::SwapBounds(const Model& model) : model_(model), tiles_((model.places + kWide - 1) / kWide) {
  for (const Piece& piece : model.pieces) slots_ = std::max(slots_, static_cast<int>(piece.prints.size()));
  fields_ = kShares + 2 * slots_;
  records_.resize(static_cast<std::size_t>(tiles_) * fields_);
  potentials_.resize(static_cast<std::size_t>(tiles_) * model.prints);
  copies_.resize(model.prints);
  take_kernels();
}

void SwapBounds::take_kernels() {
  const bool fit = model_.places <= Kernel::kDense;
  std::vector<double> column(static_cast<std::size_t>(tiles_) * kWide);
  const auto take = [&](const Kernel& kernel, double weight, int i) {
    if (kernel.places() > 0 && weight != 0) kernel.add_column(i, weight, column);
  };
  const auto round = [&](std::vector<Eight>& to) {
    const std::size_t from = to.size();
    to.resize(from + tiles_);
    round_off(&to[from], 1, column.data(), tiles_);
    std::fill(column.begin(), column.end(), 0.0);
  };
  const auto own = [&](const Kernel& kernel, int i) { return kernel.places() > 0 ? kernel.at(i, i) : 0.0; };
  for (int i = 0; i < model_.places; ++i) {
    field(i, kOwnCoverage) = single(own(model_.coverage, i));
    field(i, kOwnCasts) =
        single(model_.evenness_weight * own(model_.evenness, i) + model_.streak_weight * own(model_.streaks, i));
    if (!fit) continue;
    take(model_.spread, 1, i);
    round(spread_);
    take(model_.coverage, 1, i);
    round(coverage_);
    take(model_.evenness, model_.evenness_weight, i);
    take(model_.streaks, model_.streak_weight, i);
    round(casts_);
  }
}

void SwapBounds::take_potential(int print, const PairField& pairs) {
  round_off(&potentials_[print], model_.prints, pairs.potential(print), tiles_);
  for (const int place : copies_[print]) take_own(place, pairs);
}

void SwapBounds::take_own(int place, const PairField& pairs) {
  double own = 0;
  for (int s = 0; s < slots_; ++s) {
    const float share = field(place, kShares + 2 * s + 1);
    if (share != 0) own += share * pairs.potential(print_of(field(place, kShares + 2 * s)))[place];
  }
  field(place, kOwn) = single(own);
}

void SwapBounds::take_casts(const PairField& pairs) {
  if (!pairs.casts_count()) return;
  round_off_casts(&records_[kPotential], fields_, pairs.casts(), tiles_, largest_potential_.data());
  find_rounding();
}

void SwapBounds::follow(std::initializer_list<const Parts*> changed, const PairField& pairs) {
  for (const Parts* parts : changed) {
    for (const Share& share : parts->shares) take_potential(share.print, pairs);
  }
  take_casts(pairs);
}

void SwapBounds::follow_all(const PairField& pairs) {
  for (int p = 0; p < model_.prints; ++p) take_potential(p, pairs);
  take_casts(pairs);
}

void SwapBounds::lies(int place, const Parts& parts, const PairField& pairs) {
  for (int s = 0; s < slots_; ++s) {
    float& print = field(place, kShares + 2 * s);
    float& share = field(place, kShares + 2 * s + 1);
    if (share != 0) {
      std::vector<int>& copies = copies_[print_of(print)];
      *std::find(copies.begin(), copies.end(), place) = copies.back();
      copies.pop_back();
    }
    const bool any = s < static_cast<int>(parts.shares.size());
    print = held_as(any ? parts.shares[s].print : 0);
    share = any ? single(parts.shares[s].share) : 0;
    if (any) copies_[parts.shares[s].print].push_back(place);
  }
  bool larger = false;
  for (int c = 0; c < kComponents && pairs.casts_count(); ++c) {
    const float reading = field(place, kReading + c) = single(parts.cast[c]);
    larger |= std::abs(reading) > largest_reading_[c];
    largest_reading_[c] = std::max(largest_reading_[c], std::abs(reading));
  }
  if (larger) find_rounding();
  field(place, kSpreadSquare) = single(parts.spread_square);
  field(place, kCoverageSquare) = single(parts.coverage_square);
  take_own(place, pairs);
}

void SwapBounds::contacts(int place, double cost) { field(place, kContacts) = single(cost); }

void SwapBounds::read_kernels(int a, int tile, int tiles, Kernels& kernels) const {
  if (!spread_.empty()) {
    const std::size_t from = static_cast<std::size_t>(a) * tiles_ + tile;
    kernels.spread = &spread_[from];
    kernels.coverage = &coverage_[from];
    kernels.casts = &casts_[from];
    return;
  }
  const int first = tile * kWide;
  const std::size_t count = std::min(tiles * kWide, model_.places - first);
  const auto add = [&](const Kernel& kernel, double weight, Eight* to) {
    if (kernel.places() > 0 && weight != 0) kernel.add_stretch(a, first, weight, {to->at, count});
  };
  for (Eight* scratch : kernels.scratch) std::fill_n(scratch, tiles, Eight{});
  auto& [spread, coverage, casts] = kernels.scratch;
  add(model_.spread, 1, spread);
  add(model_.coverage, 1, coverage);
  add(model_.evenness, model_.evenness_weight, casts);
  add(model_.streaks, model_.streak_weight, casts);
  kernels.spread = spread;
  kernels.coverage = coverage;
  kernels.casts = casts;
}

/// A difference of two readings by a difference of two potentials, each as large as any was.
void SwapBounds::find_rounding() {
  double size = 0;
  for (int c = 0; c < kComponents; ++c) {
    const auto& of_tile = largest_potential_[c].at;
    size += 4.0 * largest_reading_[c] * *std::max_element(of_tile, of_tile + kWide);
  }
  rounding_ = single(kRounding * size);
}

SwapBounds::Here SwapBounds::here_in(int a) const {
  const Eight* of_a = record(a / kWide);
  const int lane = a % kWide;
  Here here;
  for (int c = 0; c < kComponents; ++c) {
    here.potential[c] = of_a[kPotential + c].at[lane];
    here.reading[c] = of_a[kReading + c].at[lane];
  }
  here.own = of_a[kOwn].at[lane];
  here.own_coverage = of_a[kOwnCoverage].at[lane];
  here.own_casts = of_a[kOwnCasts].at[lane];
  here.contacts = of_a[kContacts].at[lane];
  here.spread_square = of_a[kSpreadSquare].at[lane];
  here.coverage_square = of_a[kCoverageSquare].at[lane];
  here.rounding = rounding_;
  here.potentials = potentials_[static_cast<std::size_t>(a / kWide) * model_.prints].at + lane;
  return here;
}

/// The shares of the block in a.
void SwapBounds::take_shares(int a, std::vector<HeldHere>& shares) const {
  shares.clear();
  const Eight* of_a = record(a / kWide) + kShares;
  for (int s = 0; s < slots_; ++s) {
    const int p = print_of(of_a[2 * s].at[a % kWide]);
    const float share = of_a[2 * s + 1].at[a % kWide];
    if (share == 0) break;
    shares.push_back({p * kWide, share, 2 * share * single(model_.spread_weight[p]),
                      2 * share * single(model_.coverage_weight[p]), nullptr});
  }
}

void SwapBounds::least_costs(int a, int first, std::span<float> least) const {
  thread_local std::vector<HeldHere> shares;
  take_shares(a, shares);
  Here here = here_in(a);
  here.shares = shares.data();
  here.count = static_cast<int>(shares.size());
  Kernels kernels;
  Eight priced[kTiles];
  for (std::size_t done = 0; done < least.size();) {
    const int from = first + static_cast<int>(done);
    const int tile = from / kWide;
    const int lane = from % kWide;
    const std::size_t count = std::min<std::size_t>(least.size() - done, kTiles * kWide - lane);
    const int tiles = (lane + static_cast<int>(count) + kWide - 1) / kWide;
    for (HeldHere& held : shares) {
      held.potential = &potentials_[static_cast<std::size_t>(tile) * model_.prints + held.begins / kWide];
    }
    read_kernels(a, tile, tiles, kernels);
    price(here, record(tile), fields_, slots_, model_.prints, kernels, priced, tiles);
    const float* from_lane = priced->at + lane;
    std::copy(from_lane, from_lane + count, least.begin() + static_cast<std::ptrdiff_t>(done));
    done += count;
  }
}

}  // namespace farflung::score
