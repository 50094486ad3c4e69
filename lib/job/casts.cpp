#include "job/casts.hpp"

#include "colour/typed.hpp"
#include "job/explain.hpp"
#include "job/reckoning.hpp"

namespace farflung::job {
namespace {

/// The smaller of the scales that coverage looks at: a hand's breadth of blocks.
constexpr double kScale = 2;
constexpr double kStretch = 4;

colour::Lab stretched(const colour::Lab& mean, const colour::Lab& region) {
  return {mean.L + kStretch * (region.L - mean.L), mean.a + kStretch * (region.a - mean.a),
          mean.b + kStretch * (region.b - mean.b)};
}

}  // namespace

Outcome casts(const std::string& folder, Reckoning& reckoning) {
  const Result<project::Document> document = open_quilt(folder);
  if (!document) return document.problems();
  Report report = new_report();
  report["scale"] = kScale;
  report["mean"] = nullptr;
  report["casts"] = Report::array();
  const auto measure = reckoning.measure_of(*document);
  for (const score::RegionCast& one : score::region_casts(*measure, document->quilt.layout, kScale)) {
    report["mean"] = colour::hex(one.mean);
    report["casts"].push_back({{"cell", one.cell},
                               {"colour", colour::hex(stretched(one.mean, one.lab))},
                               {"leans", cast_lean(one.cast)},
                               {"strength", one.strength}});
  }
  return Answer{"", text_of(report), {}, true};
}

}  // namespace farflung::job
