// Compares quilts field by field, sharing nothing with what reads and writes them.
#pragma once

#include <tuple>

#include <gtest/gtest.h>

#include "quilt/quilt.hpp"

namespace farflung::project {

inline auto fields(const print::Cloth& c) { return std::tie(c.kind, c.width, c.length, c.count, c.lot, c.price); }
inline auto fields(const print::PaletteColour& c) { return std::tie(c.lab, c.share); }
inline auto fields(const print::Sighting& s) { return std::tie(s.file, s.corners, s.reference); }
inline auto fields(const block::Slot& s) { return std::tie(s.name, s.print, s.may_touch); }
inline auto fields(const block::Patch& p) { return std::tie(p.slot, p.polygon); }
inline auto fields(const setting::Border& b) { return std::tie(b.width, b.print, b.corners, b.cornerstone); }
inline auto fields(const setting::Sashing& s) { return std::tie(s.width, s.print, s.cornerstone, s.outer); }
inline auto fields(const quilt::Binding& b) { return std::tie(b.print, b.width, b.bias); }
inline auto fields(const quilt::Backing& b) { return std::tie(b.print, b.over); }
inline auto fields(const quilt::TestBlock& b) { return std::tie(b.pattern, b.width, b.height); }
inline auto fields(const quilt::SewnUnit& u) { return std::tie(u.stage, u.cells); }
inline auto fields(const block::Block& b) { return std::tie(b.id, b.pattern, b.prints, b.press, b.sewn, b.cut_turn); }

template <typename T>
void expect_same(const std::vector<T>& a, const std::vector<T>& b, const std::string& what) {
  ASSERT_EQ(a.size(), b.size()) << what;
  for (std::size_t i = 0; i < a.size(); ++i) EXPECT_TRUE(fields(a[i]) == fields(b[i])) << what << " " << i;
}

template <typename T>
void expect_same(const std::optional<T>& a, const std::optional<T>& b, const std::string& what) {
  ASSERT_EQ(a.has_value(), b.has_value()) << what;
  if (a) {
    EXPECT_TRUE(fields(*a) == fields(*b)) << what;
  }
}

inline void expect_same(const print::Print& a, const print::Print& b) {
  const auto plain = [](const print::Print& p) {
    return std::tie(p.id, p.code, p.name, p.swatch, p.swatch_width, p.upright);
  };
  EXPECT_TRUE(plain(a) == plain(b)) << a.id;
  expect_same(a.cloth, b.cloth, a.id + " cloth");
  expect_same(a.photo, b.photo, a.id + " photo");
  expect_same(a.features.palette, b.features.palette, a.id + " palette");
  const auto features = [](const print::Features& f) {
    return std::tie(f.lab, f.value_range, f.scale, f.busyness, f.direction.kind, f.direction.degrees, f.by_hand);
  };
  EXPECT_TRUE(features(a.features) == features(b.features)) << a.id;
}

inline void expect_same(const block::Pattern& a, const block::Pattern& b) {
  const auto plain = [](const block::Pattern& p) { return std::tie(p.id, p.name, p.width, p.height, p.turns); };
  EXPECT_TRUE(plain(a) == plain(b)) << a.id;
  expect_same(a.slots, b.slots, a.id + " slots");
  expect_same(a.patches, b.patches, a.id + " patches");
  ASSERT_EQ(a.piecing.size(), b.piecing.size());
  for (std::size_t i = 0; i < a.piecing.size(); ++i) {
    EXPECT_EQ(a.piecing[i].join, b.piecing[i].join);
    EXPECT_EQ(a.piecing[i].press.kind, b.piecing[i].press.kind);
    EXPECT_EQ(a.piecing[i].press.toward, b.piecing[i].press.toward);
  }
}

inline void expect_same(const quilt::Quilt& a, const quilt::Quilt& b) {
  const auto plain = [](const quilt::Quilt& q) {
    return std::tie(q.title, q.units, q.seam_allowance, q.setting.kind, q.setting.rows, q.setting.columns,
                    q.setting.alternate, q.setting.filler, q.layout, q.goals, q.gradation);
  };
  EXPECT_TRUE(plain(a) == plain(b));
  ASSERT_EQ(a.prints.size(), b.prints.size());
  for (std::size_t i = 0; i < a.prints.size(); ++i) expect_same(a.prints[i], b.prints[i]);
  ASSERT_EQ(a.patterns.size(), b.patterns.size());
  for (std::size_t i = 0; i < a.patterns.size(); ++i) expect_same(a.patterns[i], b.patterns[i]);
  expect_same(a.setting.sashing, b.setting.sashing, "sashing");
  expect_same(a.setting.borders, b.setting.borders, "borders");
  expect_same(a.binding, b.binding, "binding");
  expect_same(a.backing, b.backing, "backing");
  expect_same(a.test_block, b.test_block, "test block");
  expect_same(a.sewn_units, b.sewn_units, "sewn units");
  expect_same(a.blocks, b.blocks, "blocks");
}

}  // namespace farflung::project
