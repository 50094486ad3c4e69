// print_bench FIRST COUNT [test] [each]: bundles of simulated prints, cut flat and read without a camera between, drawn
// for tuning unless `test` is said; `each` lists every print. What this leaves open is the features' own error.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "extract/features.hpp"
#include "photo/mat.hpp"
#include "print/distance.hpp"
#include "simulator/light.hpp"
#include "simulator/trials.hpp"

namespace {

using namespace farflung;
using Kind = print::Direction::Kind;

struct Found {
  std::vector<double> palette, scale, stripe_angle, one_way_angle;
  int scaled = 0, with_scale = 0, without_scale = 0, plain_scaled = 0;
  int right[3] = {}, there[3] = {}, taken_for[3][3] = {};
};

double quantile(std::vector<double> values, double share) {
  if (values.empty()) return -1;
  std::sort(values.begin(), values.end());
  return values[std::min(values.size() - 1, static_cast<std::size_t>(share * static_cast<double>(values.size())))];
}

const char* word(Kind kind) { return kind == Kind::none ? "none" : kind == Kind::stripe ? "stripe" : "one-way"; }

/// As the camera gives them: a piece of 6 x 7 in at 60 pixels to the inch.
photo::Picture swatch_of(const simulator::Fabric& fabric, Rng& rng) {
  const cv::Rect2d piece(rng.between(0, 5), rng.between(0, 5), 6, 7);
  return photo::picture_from(simulator::srgb_picture(simulator::cut(fabric, piece, 60)));
}

void read(const simulator::Fabric& fabric, Rng& rng, bool each, Found& found) {
  const simulator::Truth truth = simulator::truth_of(fabric);
  const print::Features features = extract::features_of(swatch_of(fabric, rng), 6);
  found.palette.push_back(print::transport(features.palette, truth.palette));
  double error = NAN;
  if (truth.scale && features.scale) {
    error = *features.scale / *truth.scale - 1;
    found.scale.push_back(std::abs(error));
    ++found.scaled;
  }
  ++(truth.scale ? found.with_scale : found.without_scale);
  if (!truth.scale && features.scale) ++found.plain_scaled;
  const auto is = static_cast<int>(truth.direction.kind), told = static_cast<int>(features.direction.kind);
  ++found.taken_for[is][told];
  if (is == told && truth.direction.kind != Kind::none) {
    const double turn = truth.direction.kind == Kind::stripe ? 180 : 360;
    const double off = std::abs(std::remainder(features.direction.degrees - truth.direction.degrees, turn));
    (truth.direction.kind == Kind::stripe ? found.stripe_angle : found.one_way_angle).push_back(off);
  }
  if (each) {
    std::printf("%-14s scale %5.2f of %5.2f (%+4.0f %%)  %-7s %4.0f of %-7s %4.0f  palette %4.1f (%zu of %zu)\n",
                fabric.design.c_str(), features.scale.value_or(0), truth.scale.value_or(0), 100 * error,
                word(features.direction.kind), features.direction.degrees, word(truth.direction.kind),
                truth.direction.degrees, found.palette.back(), features.palette.size(), truth.palette.size());
  }
}

void print_table(const Found& found) {
  std::printf("palette, transport to the true one, dE00, median / 95th percentile: %.2f / %.2f\n",
              quantile(found.palette, 0.5), quantile(found.palette, 0.95));
  std::printf(
      "motif scale, error, median / 90th percentile: %.1f %% / %.1f %%, told of %d prints of %d that have one, ",
      100 * quantile(found.scale, 0.5), 100 * quantile(found.scale, 0.9), found.scaled, found.with_scale);
  std::printf("and of %d of %d that have none\n", found.plain_scaled, found.without_scale);
  for (int is = 0; is < 3; ++is) {
    std::printf("direction %-7s told as none %d, stripe %d, one-way %d\n", word(static_cast<Kind>(is)),
                found.taken_for[is][0], found.taken_for[is][1], found.taken_for[is][2]);
  }
  std::printf("stripe angle, off, median / 95th percentile: %.2f / %.2f degrees; of one-way prints: %.2f / %.2f\n",
              quantile(found.stripe_angle, 0.5), quantile(found.stripe_angle, 0.95), quantile(found.one_way_angle, 0.5),
              quantile(found.one_way_angle, 0.95));
}

}  // namespace

int main(int count, char** words) {
  if (count < 3) {
    std::fputs("usage: print_bench FIRST COUNT [test] [each]\n", stderr);
    return 2;
  }
  auto purpose = simulator::Purpose::tuning;
  bool each = false;
  for (int i = 3; i < count; ++i) {
    if (words[i] == std::string("test")) purpose = simulator::Purpose::test;
    if (words[i] == std::string("each")) each = true;
  }
  Found found;
  const int first = std::atoi(words[1]), last = first + std::atoi(words[2]);
  for (int number = first; number < last; ++number) {
    const Seed seed = simulator::trial_seed(purpose, number);
    Rng rng(derived(seed, 5));
    for (const simulator::Fabric& fabric : simulator::bundle(40, derived(seed, 4))) read(fabric, rng, each, found);
  }
  print_table(found);
  return 0;
}
