#include "sheet/unit_drawing.hpp"

#include <gtest/gtest.h>

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

}  // namespace
}  // namespace farflung::sheet
