#include <cmath>

#include "fuzz/entries.hpp"
#include "fuzz/file_of.hpp"
#include "photo/lightness.hpp"
#include "score/measure.hpp"

namespace farflung::fuzz {

namespace {

/// Four squares of two prints, laid after the picture.
quilt::Quilt graded_quilt(photo::Lightness lightness) {
  quilt::Quilt quilt;
  quilt.prints.resize(2);
  quilt.prints[1].features.lab = {80, 0, 0};
  block::Pattern square{.id = "square", .width = Length::inches(4), .height = Length::inches(4)};
  square.slots.push_back({"A"});
  const Length side = square.width;
  square.patches.push_back({0, {{{}, {}}, {side, {}}, {side, side}, {{}, side}}});
  quilt.patterns.push_back(square);
  quilt.setting.rows = quilt.setting.columns = 2;
  for (int i = 0; i < 4; ++i) {
    quilt.blocks.push_back({.pattern = 0, .prints = {i % 2}});
    quilt.layout.block.push_back(i);
    quilt.layout.turn.push_back({});
  }
  quilt.goals.gradation = 1;
  quilt.gradation.way = quilt::Gradation::Way::picture;
  quilt.gradation.picture_columns = lightness.columns;
  quilt.gradation.picture = std::move(lightness.values);
  return quilt;
}

}  // namespace

void gradation(std::string_view bytes) {
  const FileOf file(bytes);
  Result<photo::Lightness> lightness = photo::lightness_of(file.name());
  if (!lightness) return promise_reasons(lightness.problems());
  for (const float value : lightness->values) promise(value >= 0 && value <= 1.0001F, "lightness is 0 to 1");
  promise(std::isfinite(score::score_of(graded_quilt(std::move(*lightness))).terms.gradation), "the term is finite");
}

}  // namespace farflung::fuzz
