#include "setting/contacts.hpp"

#include <map>
#include <tuple>

#include <gtest/gtest.h>

#include "setting/sized.hpp"

namespace farflung::setting {
namespace {

block::Pattern plain() {
  block::Pattern pattern;
  pattern.width = pattern.height = in(6);
  pattern.slots = {{"A"}};
  pattern.patches = {{0, rectangle(in(0), in(0), in(6), in(6))}};
  return pattern;
}

/// Two half-square triangles beside three rails: different on every edge and under every turn.
block::Pattern lopsided() {
  block::Pattern pattern;
  pattern.width = pattern.height = in(6);
  pattern.turns = {Turn::quarters(0), Turn::quarters(1), Turn::quarters(2), Turn::quarters(3)};
  pattern.slots = {{"A"}, {"B"}, {"C"}};
  pattern.patches = {{0, {{in(0), in(0)}, {in(4), in(0)}, {in(0), in(4)}}},
                     {1, {{in(4), in(0)}, {in(4), in(4)}, {in(0), in(4)}}},
                     {2, rectangle(in(4), in(0), in(2), in(4))},
                     {0, rectangle(in(0), in(4), in(6), in(2))}};
  return pattern;
}

TEST(Contacts, PlainBlocksInAGridMeetFourByASeamAndFourByAPoint) {
  const std::vector<block::Pattern> patterns = {plain()};
  const Contacts contacts(plan_of(sized(Setting::Kind::straight, 4, 5), in(6), in(6)), patterns);
  int seams = 0;
  int points = 0;
  for (const CellPair& pair : contacts.pairs()) {
    const auto met = contacts.between(pair.relation, 0, Turn(), 0, Turn());
    ASSERT_EQ(met.size(), 1U);
    (met[0].seam > Length() ? seams : points) += 1;
  }
  EXPECT_EQ(seams, 4 * 4 + 3 * 5);
  EXPECT_EQ(points, 2 * 3 * 4);
  EXPECT_EQ(contacts.relations(), 4);
}

TEST(Contacts, SashingKeepsBlocksApart) {
  const std::vector<block::Pattern> patterns = {plain()};
  Setting setting = sized(Setting::Kind::straight, 3, 3);
  setting.sashing = Sashing{in(1), 0, 0, false};
  const Contacts contacts(plan_of(setting, in(6), in(6)), patterns);
  EXPECT_TRUE(contacts.pairs().empty());
  EXPECT_EQ(contacts.with_frame(4, 0, Turn()).size(), 8U) << "four strips by a seam, four cornerstones by a point";
}

TEST(Contacts, TablesEqualTheGeometryTheyCameFrom) {
  // Every pair of patches of a random arrangement, met one by one on the top itself.
  const std::vector<block::Pattern> patterns = {plain(), lopsided()};
  for (auto kind : {Setting::Kind::straight, Setting::Kind::brick, Setting::Kind::on_point}) {
    Setting setting = sized(kind, 3, 3);
    setting.borders.push_back({in(2), 0, Border::Corners::butted, kNone});
    const Plan plan = plan_of(setting, in(6), in(6));
    const Contacts contacts(plan, patterns);

    std::vector<int> pattern;
    std::vector<Turn> turn;
    for (std::size_t i = 0; i < plan.cells.size(); ++i) {
      pattern.push_back(i % 3 == 0 ? 0 : 1);
      turn.push_back(pattern.back() == 0 ? Turn() : Turn::quarters(static_cast<int>(i * 7 % 4)));
    }

    using Key = std::tuple<int, int, int, int>;
    std::map<Key, double> listed;
    for (const CellPair& pair : contacts.pairs()) {
      for (const PatchContact& c : contacts.between(pair.relation, pattern[pair.first], turn[pair.first],
                                                    pattern[pair.second], turn[pair.second])) {
        listed[{pair.first, c.patch_a, pair.second, c.patch_b}] = c.seam.inches();
      }
    }
    std::map<Key, double> met;
    for (int i = 0; i < static_cast<int>(plan.cells.size()); ++i) {
      for (int j = i + 1; j < static_cast<int>(plan.cells.size()); ++j) {
        for (std::size_t a = 0; a < patterns[pattern[i]].patches.size(); ++a) {
          for (std::size_t b = 0; b < patterns[pattern[j]].patches.size(); ++b) {
            const Meeting m = meeting(plan.top_from_block(patterns[pattern[i]].patches[a].polygon, i, turn[i]),
                                      plan.top_from_block(patterns[pattern[j]].patches[b].polygon, j, turn[j]));
            if (m.seam > Length() || m.point) met[{i, static_cast<int>(a), j, static_cast<int>(b)}] = m.seam.inches();
          }
        }
      }
    }
    ASSERT_EQ(listed.size(), met.size());
    for (const auto& [key, seam] : met) {
      ASSERT_TRUE(listed.count(key));
      EXPECT_NEAR(listed[key], seam, 1e-5);
    }
  }
}

}  // namespace
}  // namespace farflung::setting
