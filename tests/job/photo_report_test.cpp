#include "job/photo_report.hpp"

#include <gtest/gtest.h>

namespace farflung::job {
namespace {

quilt::Quilt with_prints(const std::vector<std::string>& codes) {
  quilt::Quilt quilt;
  for (const std::string& code : codes) {
    print::Print print;
    print.code = code, print.name = "Print " + code;
    quilt.prints.push_back(print);
  }
  return quilt;
}

TEST(PhotoReport, SaysOnceWhatMakesSeveralOutlinesDoubtful) {
  const std::string why = "no whole outline is seen", other = "the cloth reaches beyond the photograph";
  const std::string words =
      prints_words(with_prints({"K", "G", "B", "M"}),
                   {{0, "k.jpg", why}, {1, "g.jpg", ""}, {2, "b.jpg", other}, {3, "m.jpg", why}}, {});
  EXPECT_NE(words.find("  Not sure of K, M: " + why + ".\n"), std::string::npos) << words;
  EXPECT_EQ(words.find(why), words.rfind(why));
  EXPECT_NE(words.find("(not sure: " + other + ")"), std::string::npos);
}

}  // namespace
}  // namespace farflung::job
