// chart_bench FILE...: photographs of a 24-patch chart that lies on white paper. Each patch is corrected by the other
// 23, and all of them by the paper round the chart alone; prints dE00 to the published values.
#include <algorithm>
#include <array>
#include <cstdio>
#include <string>
#include <vector>

#include "photo/chart.hpp"
#include "photo/decode.hpp"

namespace {

using namespace farflung;

double off(const photo::Balance& balance, const photo::KnownColour& patch) {
  return colour::delta_e_2000(colour::lab_from_light(balance.corrected(patch.seen, patch.x, patch.y)), patch.truth);
}

/// The paper round a chart, wherever it is smooth and bright: what is printed on it is neither.
photo::Evidence paper_round(const photo::Picture& picture, const photo::Corners& chart) {
  constexpr int kAlong = 9, kHalf = 6;
  std::vector<photo::KnownColour> whites;
  std::vector<double> greens;
  std::array<double, 2> middle{};
  for (const auto& p : chart) middle[0] += p[0] / 4, middle[1] += p[1] / 4;
  for (int i = 0; i < 2 * 4 * kAlong; ++i) {
    const auto &from = chart[i / kAlong % 4], &to = chart[(i / kAlong + 1) % 4];
    const double t = (i % kAlong + 0.5) / kAlong, out = i < 4 * kAlong ? 1.22 : 1.3;
    const double x = middle[0] + out * (from[0] + t * (to[0] - from[0]) - middle[0]),
                 y = middle[1] + out * (from[1] + t * (to[1] - from[1]) - middle[1]);
    if (x < kHalf || y < kHalf || x >= picture.columns - kHalf || y >= picture.rows - kHalf) continue;
    std::array<double, 3> sum{};
    int low = 255, high = 0;
    for (int k = 0; k < 4 * kHalf * kHalf; ++k) {
      const colour::Srgb p =
          picture.at(static_cast<int>(x) - kHalf + k % (2 * kHalf), static_cast<int>(y) - kHalf + k / (2 * kHalf));
      const colour::Light light = colour::light_from_srgb(p);
      sum[0] += light.r, sum[1] += light.g, sum[2] += light.b;
      low = std::min<int>(low, p.g), high = std::max<int>(high, p.g);
    }
    if (high - low > 30) continue;
    photo::KnownColour white{{}, 2 * x / picture.columns - 1, 2 * y / picture.rows - 1, photo::kSomethingWhite};
    for (std::size_t c = 0; c < 3; ++c) white.seen[c] = colour::encoded(sum[c] / (4 * kHalf * kHalf));
    whites.push_back(white);
    greens.push_back(sum[1]);
  }
  std::sort(greens.begin(), greens.end());
  const double bright = greens.empty() ? 0 : 0.7 * greens[greens.size() * 3 / 4] / (4 * kHalf * kHalf);
  std::erase_if(whites, [&](const photo::KnownColour& white) { return colour::decoded(white.seen[1]) < bright; });
  return {whites, {}, {}};
}

void print(const char* what, std::vector<double> values) {
  if (values.empty()) return;
  std::sort(values.begin(), values.end());
  std::printf("%s: dE00 %.2f in the median, %.2f at the 95th percentile\n", what, values[values.size() / 2],
              values[values.size() * 95 / 100]);
}

}  // namespace

int main(int count, char** words) {
  std::vector<double> by_others, by_white;
  int found = 0;
  for (int i = 1; i < count; ++i) {
    const std::string file = words[i];
    const auto photograph = photo::decode(file);
    const auto chart = photograph ? photo::find_chart(photograph->picture) : std::nullopt;
    if (!chart) {
      std::printf("%s: no chart\n", file.c_str());
      continue;
    }
    ++found;
    for (std::size_t k = 0; k < chart->patches.size(); ++k) {
      auto others = chart->patches;
      others.erase(others.begin() + static_cast<std::ptrdiff_t>(k));
      by_others.push_back(off(photo::fitted_balance({others, {}, {}}), chart->patches[k]));
    }
    const photo::Balance by_paper = photo::fitted_balance(paper_round(photograph->picture, chart->corners));
    for (const photo::KnownColour& patch : chart->patches) by_white.push_back(off(by_paper, patch));
  }
  std::printf("charts found: %d of %d\n", found, count - 1);
  print("each patch by the other 23", by_others);
  print("by the white paper round the chart", by_white);
  return 0;
}
