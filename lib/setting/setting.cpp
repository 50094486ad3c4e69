#include "setting/setting.hpp"

#include <numeric>

namespace farflung::setting {

std::vector<int> cells_in_rows(const Setting& setting) {
  std::vector<int> counts;
  if (setting.kind == Setting::Kind::on_point) {
    for (int list = 0; list < 2 * setting.rows - 1; ++list) counts.push_back(setting.columns - list % 2);
    return counts;
  }
  for (int row = 0; row < setting.rows; ++row) {
    const bool shorter = setting.kind == Setting::Kind::brick && row % 2 == 1;
    counts.push_back(setting.columns - (shorter ? 1 : 0));
  }
  return counts;
}

Arrangement empty_arrangement(const Setting& setting) {
  const std::vector<int> counts = cells_in_rows(setting);
  const auto cells = static_cast<std::size_t>(std::accumulate(counts.begin(), counts.end(), 0));
  return {std::vector<int>(cells, kNone), std::vector<Turn>(cells), std::vector<bool>(cells, false)};
}

}  // namespace farflung::setting
