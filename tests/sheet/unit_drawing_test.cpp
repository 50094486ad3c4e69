#include "sheet/unit_drawing.hpp"

#include <gtest/gtest.h>

#include "cloth/piecing.hpp"
#include "sheet/lettering.hpp"
#include "sheet/reading.hpp"
#include "support/patterns.hpp"

namespace farflung::sheet {
namespace {

std::vector<std::string> codes_of_slots(const std::vector<std::string>& names) {
  block::Pattern pattern;
  for (const std::string& name : names) {
    pattern.slots.emplace_back();
    pattern.slots.back().name = name;
  }
  std::vector<std::string> codes;
  for (std::size_t slot = 0; slot < names.size(); ++slot) {
    codes.push_back(slot_code(pattern, static_cast<int>(slot)));
  }
  return codes;
}

using Words = std::vector<std::string>;

TEST(ASlotsCode, IsItsShortNameOrTheTradesOrItsHead) {
  EXPECT_EQ(codes_of_slots({"A", "centre", "background"}), (Words{"A", "Ce", "BG"}));
  EXPECT_EQ(codes_of_slots({"light 1", "light 2", "dark 1"}), (Words{"L1", "L2", "D1"}));
}

TEST(ASlotsCode, IsAsLongAsTellsItFromOthers) {
  EXPECT_EQ(codes_of_slots({"centre", "cedar", "corner"}), (Words{"Cen", "Ced", "Co"}));
}

/// Of each slot in a step, the patches that the step joins.
std::vector<int> patches_by_slot(const block::Pattern& pattern, const cloth::Step& step) {
  std::vector<int> counts(pattern.slots.size());
  for (const int patch : step.patches) ++counts[pattern.patches[patch].slot];
  return counts;
}

TEST(AUnitsDrawing, NamesEveryPatchHoweverNarrow) {
  const block::Pattern pattern = support::log_cabin();
  const cloth::Piecing piecing = cloth::piecing_of(pattern, Length::inches(0.25), {});
  ASSERT_GE(piecing.steps.size(), 12U);
  for (std::size_t k = 0; k < piecing.steps.size(); ++k) {
    const std::vector<draw::Text> words = draw::words_of(unit_drawing(pattern, piecing, static_cast<int>(k), 120, 92));
    const std::vector<int> patches = patches_by_slot(pattern, piecing.steps[k]);
    for (std::size_t slot = 0; slot < patches.size(); ++slot) {
      const std::string code = slot_code(pattern, static_cast<int>(slot));
      const auto names_it = [&](const draw::Text& text) {
        return text.words == code || text.words == pattern.slots[slot].name;
      };
      EXPECT_EQ(std::count_if(words.begin(), words.end(), names_it), patches[slot]) << "step " << k << ", " << code;
    }
    for (const draw::Text& text : words) EXPECT_GE(text.size, kLeastSize) << text.words;
  }
}

}  // namespace
}  // namespace farflung::sheet
