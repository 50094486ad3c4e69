// chart_bench FILE...: photographs of a 24-patch chart. Each patch is corrected by the other 23, or by one white place
// beside the chart where told as FILE:x,y (pixels of the upright photograph); prints dE00 to the published values.
#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

#include "photo/chart.hpp"
#include "photo/decode.hpp"
#include "photo/reference.hpp"

namespace {

using namespace farflung;

double off(const photo::Balance& balance, const photo::KnownColour& patch) {
  return colour::delta_e_2000(colour::lab_from_light(balance.corrected(patch.seen, patch.x, patch.y)), patch.truth);
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
    std::string file = words[i];
    double x = -1, y = -1;
    const auto colon = file.rfind(':');
    if (colon != std::string::npos && std::sscanf(file.c_str() + colon, ":%lf,%lf", &x, &y) == 2) file.resize(colon);
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
      by_others.push_back(off(photo::fitted_balance(others), chart->patches[k]));
    }
    if (x < 0) continue;
    photo::Reference reference;
    const double scale = photograph->full_from_picture();
    photo::add_surface(reference, photograph->picture, {}, std::array<double, 2>{x / scale, y / scale});
    for (const photo::KnownColour& patch : chart->patches) by_white.push_back(off(*reference.balance, patch));
  }
  std::printf("charts found: %d of %d\n", found, count - 1);
  print("each patch by the other 23", by_others);
  print("by the white place", by_white);
  return 0;
}
