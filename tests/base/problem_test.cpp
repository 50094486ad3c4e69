#include <gtest/gtest.h>

#include "base/result.hpp"

namespace farflung {
namespace {

TEST(Problem, WithinAJsonFileItsPlaceIsThePointerAlone) {
  const Problem problem = input_problem("harbour/quilt.json#/blocks/3/prints/A", "there is no print P99", "name one");
  EXPECT_EQ(problem.file(), "harbour/quilt.json");
  EXPECT_EQ(problem.place(), "/blocks/3/prints/A");
  EXPECT_EQ(problem.says(), "there is no print P99: name one");
  EXPECT_EQ(problem.text(), "harbour/quilt.json#/blocks/3/prints/A: there is no print P99: name one");
}

TEST(Problem, OfTheWholeJsonFileThePointerIsEmpty) {
  const Problem problem = input_problem("a.json#/quilt.json#", "is a list, must be an object");
  EXPECT_EQ(problem.file(), "a.json#/quilt.json");
  EXPECT_EQ(problem.place(), "");
  EXPECT_EQ(problem.says(), "is a list, must be an object");
}

TEST(Problem, ElsewhereThePlaceIsAllThatWasSaidOfIt) {
  for (const char* at : {"", "harbour", "photos/kelp #1.jpg", "harbour/quilt.json:3:17", "/prints/0/name"}) {
    EXPECT_EQ(input_problem(at, "wrong").file(), "");
    EXPECT_EQ(input_problem(at, "wrong").place(), at);
  }
}

}  // namespace
}  // namespace farflung
