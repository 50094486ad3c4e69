#include "job/cloth_short.hpp"

#include <gtest/gtest.h>

namespace farflung::job {
namespace {

TEST(ShortWords, NameThePrintsAndOfManyTheFirstFew) {
  quilt::Quilt quilt;
  std::vector<int> all;
  for (int i = 0; i < 9; ++i) {
    print::Print print;
    print.name = std::string("Print ") + static_cast<char>('A' + i);
    quilt.prints.push_back(print);
    all.push_back(i);
  }
  EXPECT_EQ(short_words(quilt, {}), "");
  EXPECT_EQ(short_words(quilt, {0, 2}),
            "The cloth in hand is not enough for Print A and Print C: farflung cloth says what is missing.");
  EXPECT_EQ(
      short_words(quilt, all),
      "The cloth in hand is not enough for Print A, Print B, Print C, Print D, Print E, Print F and 3 more prints: "
      "farflung cloth says what is missing.");
}

}  // namespace
}  // namespace farflung::job
