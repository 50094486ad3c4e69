#include "photo/balance_fit.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/median.hpp"
#include "colour/srgb.hpp"
#include "photo/balance_numbers.hpp"
#include "photo/lamp.hpp"
#include "photo/least_squares.hpp"
#include "photo/spots.hpp"

namespace farflung::photo {
namespace {

/// Where a curve is fitted its other numbers bend with it: black lies nearer to no light, and the middle is steepened
/// less, than in the curve that all cameras have in the middle, as the charts and the sheet both say. With nothing but
/// a white to go by, charts come out with too much contrast and chroma unless the middle is steepened that much more.
constexpr double kFittedFlare = -0.002, kFittedContrast = 0.012;

/// Where not even a white is told, how light all is comes from elsewhere: of the curve only its shape matters, and by
/// that the charts have it softer in the brightest and plainer below.
constexpr double kUntoldShoulder = 0.3, kUntoldKnee = 0.3, kUntoldContrast = 0.025;

/// A sensor that may be full is thought to be so from one of these encoded values on, where anything is as bright.
constexpr std::array<double, 3> kFullFrom = {0.98, 0.95, 0.92};
constexpr double kValueGood = 0.0015;  ///< encoded: what the mean of a patch is good to
constexpr double kLeftOut = 4;         ///< what a spot that says nothing must save, in squares of deviations
constexpr double kTwoMore = 2;         ///< what two more numbers must

/// What a share of the light of r, g or b changes of L*, a* and b*, near white.
constexpr std::array<std::array<double, 3>, 3> kLabOfLight = {{{8.2, 27.7, 2.8}, {36.9, 56.5, 19.6}, {13, 40.4, 53.4}}};

constexpr double kColoured = 6;         ///< chroma, above which a colour says something of filters
constexpr double kBluestLight = -0.06;  ///< log(red / blue) that a camera leaves of daylight on a dull day
constexpr double kBluestPaper = -0.2;   ///< the same of white paper in daylight

Values::Table table_of(const Curve& curve) {
  Values::Table table{};
  for (std::size_t i = 0; i < table.size(); ++i) table[i] = curve.light(static_cast<double>(i) / Values::kSteps);
  return table;
}

class Fit {
 public:
  explicit Fit(const Evidence& evidence)
      : backdrop_(evidence.backdrop), usual_(evidence.usual), spots_(spots_of(evidence)) {
    if (!backdrop_.empty()) middle_ = seen_at(backdrop_, 0, 0);
    coloured_ = std::any_of(evidence.known.begin(), evidence.known.end(), [](const KnownColour& known) {
      return std::hypot(known.truth.a, known.truth.b) > kColoured;
    });
    apart_ = std::any_of(spots_.begin(), spots_.end(), [](const Spot& spot) { return !spot.values[0].empty(); });
    choose_numbers(!evidence.screens.empty());
    suppose_light((kCoolest + kWarmest) / 2);
  }

  Balance found() {
    if (spots_.empty()) return with_field({});
    start_from_whites();
    search();
    if (screens_) let_the_sensor_be_full();
    if (coloured_) return with_field(balance_of(numbers_));
    // The colour that is left of the light tells what light it was.
    double red_over_blue = numbers_[kGains + 2] - numbers_[kGains];
    if (red_over_blue < kBluestLight) {
      const double paper = std::max(kBluestPaper, red_over_blue - kBluestLight);
      if (let_paper_be_bluer(paper)) red_over_blue -= paper;
    }
    suppose_light(likely_light(red_over_blue));
    search();
    return with_field(balance_of(numbers_));
  }

 private:
  /// Greys say nothing of filters, colours nothing of ink; whites, however many, say nothing of the curve.
  void choose_numbers(bool screens) {
    const auto free = [&](std::size_t first, std::size_t last) {
      for (std::size_t i = first; i < last; ++i) free_.push_back(i);
    };
    screens_ = screens;
    if (screens || coloured_) {
      free(kGamma, kFullValue);
      numbers_[kFlare] = habits_[kFlare] = kFittedFlare;
      numbers_[kContrast] = habits_[kContrast] = kFittedContrast;
    } else if (usual_) {
      numbers_[kShoulder] = kUntoldShoulder, numbers_[kKnee] = kUntoldKnee, numbers_[kContrast] = kUntoldContrast;
    }
    if (spots_.size() > 1) free(kFallX, kGains);
    free(kGains, kGains + 3);
    if (screens) free(kSpread, kMatrix);
    if (coloured_) free(kMatrix, kBalanceNumbers);
    stray_ = kUsualStray;
    // A surface that shows the fall of light all over the picture says more of it than a sheet in one corner.
    if (!backdrop_.empty()) stray_[kFallX] = stray_[kFallY] = 0.01;
  }

  /// Gains that make the middle one of what is white as light as it is, so that none begins far off.
  void start_from_whites() {
    const Balance ordinary = balance_of(numbers_);
    const double middle = middle_brightness(ordinary.curve);
    for (std::size_t c = 0; c < 3; ++c) {
      std::vector<double> logs;
      for (const Spot& spot : spots_) {
        if (!spot.is_white() || spot.black > 0) continue;
        const double field = field_at(spot, ordinary.curve, middle);
        const colour::Light light = colour::light_from_lab(spot.truth);
        const std::array<double, 3> white = {light.r, light.g, light.b};
        logs.push_back(std::log(white[c] * field / std::max(1e-3, ordinary.curve.light(spot.seen[c]))));
      }
      if (!logs.empty()) numbers_[kGains + c] = median(std::move(logs));
    }
  }

  /// A way to explain what is seen.
  struct Explanation {
    BalanceNumbers numbers;
    std::vector<Spot> spots;
    std::vector<std::size_t> free;
    double unlikely;
  };

  /// In bright light a sensor is full before an encoded value is 1: paper and pale greys then look alike in red under a
  /// lamp, say. Where that explains the picture better, such spots are left out or the curve is steep from there on.
  void let_the_sensor_be_full() {
    constexpr std::size_t kEnough = 6;
    const Explanation plain = {numbers_, spots_, free_, unlikely()};
    Explanation best = plain;
    const auto keep_if_better = [&](double more) {
      if (const double cost = unlikely() + more; cost < best.unlikely) best = {numbers_, spots_, free_, cost};
    };
    for (const double full : kFullFrom) {
      numbers_ = plain.numbers, spots_ = plain.spots, free_ = plain.free;
      const std::size_t left_out = leave_out_above(full);
      if (left_out == 0 || spots_.size() < kEnough) continue;
      search();
      keep_if_better(kLeftOut * static_cast<double>(left_out));
      spots_ = plain.spots;
      free_.insert(free_.end(), {kFullValue, kSteepness});
      numbers_[kFullValue] = full, numbers_[kSteepness] = 1.5;
      for (int round = 0; round < 2; ++round) weigh_full(), search();
      weigh_full();
      keep_if_better(kTwoMore);
    }
    numbers_ = best.numbers, spots_ = best.spots, free_ = best.free;
  }

  /// How many.
  std::size_t leave_out_above(double full) {
    for (Spot& spot : spots_) {
      if (*std::max_element(spot.paper.begin(), spot.paper.end()) > full) spot.paper = {};
    }
    return std::erase_if(spots_, [&](const Spot& spot) { return spot.brightest() > full; });
  }

  /// The steeper a curve, the less a value says of the light.
  void weigh_full() {
    const Curve curve = balance_of(numbers_).curve;
    const auto unsure = [&](double seen) {
      return kValueGood * curve.steepened(seen) / std::max(0.05, curve.light(seen));
    };
    for (Spot& spot : spots_) {
      std::array<double, 3> squares{};
      for (std::size_t c = 0; c < 3; ++c) {
        const double off = std::hypot(unsure(spot.seen[c]), spot.paper[1] > 0 ? unsure(spot.paper[c]) : 0);
        for (std::size_t k = 0; k < 3; ++k) squares[k] += std::pow(kLabOfLight[k][c] * off, 2);
      }
      for (std::size_t k = 0; k < 3; ++k) spot.full[k] = std::sqrt(squares[k]);
    }
  }

  /// Twice the log of how unlikely the spots are, but for a constant.
  double unlikely() const {
    double sum = residuals(numbers_).squaredNorm();
    for (const Spot& spot : spots_) {
      for (std::size_t k = 0; k < 3; ++k) sum += 2 * std::log(std::hypot(1, spot.full[k] / spot.good[k]));
    }
    return sum;
  }

  /// By log(red / blue). Office paper is made to shine blue in the ultraviolet of daylight.
  bool let_paper_be_bluer(double log_red_over_blue) {
    bool any = false;
    for (Spot& spot : spots_) {
      if (!spot.is_white()) continue;
      colour::Light light = colour::light_from_lab(spot.truth);
      light.r *= std::exp(log_red_over_blue / 2), light.b *= std::exp(-log_red_over_blue / 2);
      spot.truth = colour::lab_from_light(light);
      any = true;
    }
    return any;
  }

  void suppose_light(double mired) {
    stand_upright(numbers_, mired);
    stand_upright(habits_, mired);
  }

  /// The backdrop's brightness once the curve is undone. Light below nothing, which brings a curve nearer to the ink of
  /// a sheet, would level a dark table's shades: it is left out.
  static double brightness(const Curve& curve, const std::array<double, 3>& seen) {
    return std::max(1e-4, std::min(0.0, curve.flare) + 0.25 * curve.light(seen[0]) + 0.6 * curve.light(seen[1]) +
                              0.15 * curve.light(seen[2]));
  }

  /// In the middle of the picture; 1 without a backdrop.
  double middle_brightness(const Curve& curve) const { return backdrop_.empty() ? 1 : brightness(curve, middle_); }

  /// The light on a spot over that in the middle, as the backdrop has it.
  double field_at(const Spot& spot, const Curve& curve, double middle) const {
    return backdrop_.empty() ? 1 : brightness(curve, spot.backdrop) / middle;
  }

  Balance with_field(Balance balance) const {
    if (backdrop_.empty()) return balance;
    balance.field = {backdrop_.columns, backdrop_.rows, {}};
    const double middle = brightness(balance.curve, middle_);
    for (const auto& seen : backdrop_.values) {
      const double light = brightness(balance.curve, {seen[0], seen[1], seen[2]}) / middle;
      balance.field.values.push_back(static_cast<float>(light));
    }
    return balance;
  }

  static colour::Lab truth_of(const Spot& spot, const BalanceNumbers& n) {
    if (spot.black == 0) return spot.truth;
    const double black = std::clamp(spot.black + 2 * n[kSpread] / spot.pitch, 0.0, 1.0);
    const colour::Light paper = colour::light_from_lab(spot.truth);
    const double ink = colour::xyz_from_lab({n[kInk], 0, 0}).Y, white = 1 - black;
    return colour::lab_from_light(
        {white * paper.r + black * ink, white * paper.g + black * ink, white * paper.b + black * ink});
  }

  /// Of a difference in standard deviations: what lies far off is hardly worse than what lies off (Cauchy's estimator;
  /// Zhang 1997, doi:10.1016/S0262-8856(96)01112-2, table 1).
  static double bounded(double r) {
    constexpr double kFar = 1.5;
    return std::copysign(kFar * std::sqrt(std::log1p(r * r / (kFar * kFar))), r);
  }

  /// `middle` is the backdrop's brightness in the middle of the picture, `curve` the balance's at each step.
  colour::Lab lab_of(const Spot& spot, const Balance& b, double middle, const Values::Table& curve,
                     double deviation) const {
    std::array<double, 3> light{};
    for (std::size_t c = 0; c < 3; ++c)
      light[c] = spot.values[c].empty() ? b.curve.light(spot.seen[c]) : spot.values[c].mean(curve, deviation);
    if (spot.paper[1] > 0) {
      // Beside paper in the same light: neither its strength nor its colour matters, only the curve.
      const colour::Light white = colour::light_from_lab(kPaperWhite);
      const auto over_paper = [&](std::size_t c) { return light[c] / std::max(1e-3, b.curve.light(spot.paper[c])); };
      return colour::lab_from_light({white.r * over_paper(0), white.g * over_paper(1), white.b * over_paper(2)});
    }
    const double over = field_at(spot, b.curve, middle) * b.light_at(spot.x, spot.y);
    return colour::lab_from_light(b.mixed(light[0] / over, light[1] / over, light[2] / over));
  }

  Eigen::VectorXd residuals(const BalanceNumbers& n) const {
    const Balance b = balance_of(n);
    const double middle = middle_brightness(b.curve);
    const Values::Table curve = apart_ ? table_of(b.curve) : Values::Table();
    const double sharpening = std::clamp(n[kSharpening], 0.0, 1.0);
    std::vector<double> r;
    for (const Spot& spot : spots_) {
      const colour::Lab lab = lab_of(spot, b, middle, curve, 1 / (1 + sharpening * spot.sharpened));
      const colour::Lab truth = truth_of(spot, n);
      const double coarser = 1 + 0.045 * std::hypot(truth.a, truth.b);
      const auto good = [&](std::size_t k) { return std::hypot(spot.good[k], spot.full[k]); };
      const double lighter = (lab.L - truth.L) / good(0);
      r.push_back(spot.black == 0 && spot.is_white() && !backdrop_.empty() ? bounded(lighter) : lighter);
      const double redder = (lab.a - truth.a) / (good(1) * coarser), yellower = (lab.b - truth.b) / (good(2) * coarser);
      r.push_back(spot.perhaps ? bounded(redder) : redder);
      r.push_back(spot.perhaps ? bounded(yellower) : yellower);
    }
    if (usual_) {
      const auto [red, blue] = light_left().off(n[kGains + 1] - n[kGains], n[kGains + 1] - n[kGains + 2]);
      r.push_back(red), r.push_back(blue);
    }
    for (const std::size_t i : free_) r.push_back((n[i] - habits_[i]) / stray_[i]);
    return Eigen::Map<const Eigen::VectorXd>(r.data(), static_cast<Eigen::Index>(r.size()));
  }

  /// The numbers that are free, each by how far it strays from where it usually lies.
  Eigen::VectorXd strayed() const {
    Eigen::VectorXd by(static_cast<Eigen::Index>(free_.size()));
    for (std::size_t i = 0; i < free_.size(); ++i) {
      by[static_cast<Eigen::Index>(i)] = (numbers_[free_[i]] - habits_[free_[i]]) / stray_[free_[i]];
    }
    return by;
  }
  BalanceNumbers numbers_at(const Eigen::VectorXd& by) const {
    BalanceNumbers n = numbers_;
    for (std::size_t i = 0; i < free_.size(); ++i) {
      n[free_[i]] = habits_[free_[i]] + stray_[free_[i]] * by[static_cast<Eigen::Index>(i)];
    }
    return n;
  }

  void search() {
    numbers_ = numbers_at(
        least_squares_from(strayed(), [this](const Eigen::VectorXd& by) { return residuals(numbers_at(by)); }));
  }

  const Backdrop& backdrop_;
  bool usual_;
  std::vector<Spot> spots_;
  std::array<double, 3> middle_{};  ///< the backdrop in the middle of the picture
  bool screens_ = false;
  bool coloured_ = false;
  bool apart_ = false;  ///< whether pixels of any spot are told apart: else no table of the curve is needed
  std::vector<std::size_t> free_;
  BalanceNumbers numbers_ = kUsualBalance, habits_ = kUsualBalance, stray_ = kUsualStray;
};

}  // namespace

Balance fitted_balance(const Evidence& evidence) { return Fit(evidence).found(); }

}  // namespace farflung::photo
