#include "base/typed_name.hpp"

#include <gtest/gtest.h>

namespace farflung {
namespace {

TEST(ATypedName, IsTheSameWithSpacesHyphensAndCapitals) {
  for (const char* typed : {"nine-patch", "Nine Patch", "NINE_PATCH", " nine  patch ", "nine - patch"}) {
    EXPECT_EQ(plain_name(typed), "nine-patch");
  }
}

TEST(ATypedName, KeepsWhateverElseItHolds) {
  EXPECT_EQ(plain_name("Möwe (7)"), "möwe-(7)");
  EXPECT_EQ(plain_name(""), "");
  EXPECT_EQ(plain_name(" - "), "");
}

}  // namespace
}  // namespace farflung
