// Inputs that a fuzzer found telling, and every one that ever broke something, run in each build.
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include <gtest/gtest.h>

#include "fuzz/entries.hpp"

namespace farflung::fuzz {
namespace {

struct Entry {
  const char* name;
  void (*take)(std::string_view);
};

class Corpus : public ::testing::TestWithParam<Entry> {};

TEST_P(Corpus, IsTakenOrRefusedAsPromised) {
  int taken = 0;
  for (const auto& file :
       std::filesystem::directory_iterator(std::string(FARFLUNG_SOURCE "/tests/corpus/") + GetParam().name)) {
    std::ifstream stream(file.path(), std::ios::binary);
    const std::string bytes((std::istreambuf_iterator<char>(stream)), {});
    EXPECT_NO_THROW(GetParam().take(bytes)) << file.path().filename();
    ++taken;
  }
  EXPECT_GT(taken, 2);
}

INSTANTIATE_TEST_SUITE_P(EveryWayIn, Corpus,
                         ::testing::Values(Entry{"quilt", quilt}, Entry{"pattern", pattern}, Entry{"threads", threads},
                                           Entry{"photograph", photograph}, Entry{"gradation", gradation},
                                           Entry{"request", request}),
                         [](const auto& entry) { return std::string(entry.param.name); });

}  // namespace
}  // namespace farflung::fuzz
