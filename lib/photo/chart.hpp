// A 24-patch colour chart somewhere in a picture.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "photo/balance_fit.hpp"
#include "photo/picture.hpp"

namespace farflung::photo {

/// Four rows of six.
constexpr int kChartPatches = 24;

/// Published CIELAB of the patches under D65 (from data/chart.csv, told there under D50, adapted by Bradford's method),
/// four rows of six, dark skin first, black last.
const std::array<colour::Lab, kChartPatches>& chart_colours();

/// A chart as it lies in a picture.
struct ChartSeen {
  Corners corners{};  ///< of the block of patches; the first is the dark skin's, the second the bluish green's
  std::vector<KnownColour> patches;  ///< in the chart's order
};

/// Finds a chart of any turn and slant; none where what looks like one has other colours.
std::optional<ChartSeen> find_chart(const Picture& picture);

}  // namespace farflung::photo
