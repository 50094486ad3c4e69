#include "setting/setting.hpp"

#include <numeric>

#include "base/typed_name.hpp"

namespace farflung::setting {

const char* name_of(Setting::Kind kind) {
  using Kind = Setting::Kind;
  return kind == Kind::brick ? "brick" : kind == Kind::on_point ? "on point" : "straight";
}

std::optional<Setting::Kind> setting_named(const std::string& typed) {
  for (const auto kind : {Setting::Kind::straight, Setting::Kind::brick, Setting::Kind::on_point}) {
    if (plain_name(typed) == plain_name(name_of(kind))) return kind;
  }
  return std::nullopt;
}

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
