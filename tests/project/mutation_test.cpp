// Files gone wrong in every way chance can think of: read or refused, never a crash.
#include <gtest/gtest.h>

#include "base/rng.hpp"
#include "project/json.hpp"
#include "project/patterns.hpp"
#include "project/world.hpp"

namespace farflung::project {
namespace {

/// What is read must be whole enough for everything that takes a quilt, and be the same when it is read again.
void expect_sound(const Result<Document>& read) {
  if (!read) {
    ASSERT_FALSE(read.problems().empty());
    for (const Problem& problem : read.problems()) EXPECT_FALSE(problem.cause.empty());
    return;
  }
  EXPECT_EQ(quilt::problems_of(read->quilt), Problems{});
  quilt::plan_of(read->quilt);
  const std::string text = text_of(*read);
  EXPECT_EQ(text_of(must(document_from_text(text))), text);
}

/// Some value that may or may not belong where it is put.
Json some_value(Rng& rng) {
  static const std::vector<Json> kValues = {nullptr,
                                            true,
                                            false,
                                            0,
                                            1,
                                            -1,
                                            2,
                                            3,
                                            0.5,
                                            -0.25,
                                            1e300,
                                            1e-300,
                                            4'000'000'000U,
                                            INT64_MIN,
                                            UINT64_MAX,
                                            "",
                                            "P01",
                                            "B001",
                                            "rails",
                                            "#0",
                                            "#99999999999",
                                            "open",
                                            "2 1/2",
                                            "1/0",
                                            "9e9",
                                            Json::array(),
                                            Json::object(),
                                            {1, 2},
                                            {{"id", "P01"}},
                                            "\x01",
                                            "~/",
                                            "cornerstone",
                                            "on point",
                                            "brick",
                                            40'000,
                                            100'000};
  return kValues[rng.below(static_cast<std::uint32_t>(kValues.size()))];
}

/// A value somewhere in the tree.
Json& some_place(Json& tree, Rng& rng) {
  Json* place = &tree;
  while ((place->is_object() || place->is_array()) && !place->empty() && rng.below(5) != 0) {
    auto at = place->begin();
    std::advance(at, rng.below(static_cast<std::uint32_t>(place->size())));
    place = &*at;
  }
  return *place;
}

void mutate(Json& tree, Rng& rng) {
  Json& place = some_place(tree, rng);
  switch (rng.below(4)) {
    case 0:
      place = some_value(rng);
      break;
    case 1:
      if (place.is_array() && !place.empty()) place.erase(rng.below(static_cast<std::uint32_t>(place.size())));
      if (place.is_object() && !place.empty()) place.erase(place.begin().key());
      break;
    case 2:
      if (place.is_array()) place.push_back(some_value(rng));
      if (place.is_object()) place["kept"] = some_value(rng);
      break;
    default: {
      const Json other = some_place(tree, rng);
      some_place(tree, rng) = other;
    }
  }
}

TEST(Mutation, TreesGoneWrongAreReadOrRefused) {
  const Json tree = must(parse_json(harbour_text(), "quilt.json"));
  Rng rng(Seed{11});
  int read = 0;
  for (int i = 0; i < 1'500; ++i) {
    Json other = tree;
    for (std::uint32_t n = 1 + rng.below(3); n > 0; --n) mutate(other, rng);
    const Result<Document> document = document_from_text(other.dump());
    read += document.ok() ? 1 : 0;
    expect_sound(document);
    if (::testing::Test::HasFailure()) FAIL() << other.dump();
  }
  EXPECT_GT(read, 100);
}

TEST(Mutation, TextsGoneWrongAreReadOrRefused) {
  const std::string text = harbour_text();
  Rng rng(Seed{12});
  for (int i = 0; i < 1'500; ++i) {
    std::string other = text;
    for (std::uint32_t n = 1 + rng.below(4); n > 0; --n) {
      const std::size_t at = rng.below(static_cast<std::uint32_t>(other.size()));
      switch (rng.below(3)) {
        case 0:
          other[at] = static_cast<char>(rng.below(256));
          break;
        case 1:
          other.erase(at, 1 + rng.below(20));
          break;
        default:
          other.insert(at, text.substr(rng.below(static_cast<std::uint32_t>(text.size())), 1 + rng.below(30)));
      }
    }
    expect_sound(document_from_text(other));
    if (::testing::Test::HasFailure()) FAIL() << other;
  }
}

TEST(Mutation, ValuesSetByChanceAreTakenOrRefused) {
  const Document document = harbour();
  Rng rng(Seed{13});
  const std::vector<std::string> parts = {"prints", "patterns", "setting", "blocks", "layout",  "cells",   "0",
                                          "1",      "-",        "width",   "rows",   "columns", "kind",    "borders",
                                          "print",  "id",       "A",       "turns",  "slots",   "patches", "kept",
                                          "units",  "code",     "name",    "goals"};
  for (int i = 0; i < 1'500; ++i) {
    std::string pointer;
    for (std::uint32_t n = 1 + rng.below(5); n > 0; --n) {
      pointer += "/" + parts[rng.below(static_cast<std::uint32_t>(parts.size()))];
    }
    const Json value = some_value(rng);
    const Result<Document> changed =
        set(document, pointer, value.is_string() ? value.get<std::string>() : value.dump());
    expect_sound(changed);
    if (::testing::Test::HasFailure()) FAIL() << pointer << " " << value;
  }
}

TEST(Mutation, PatternsGoneWrongAreReadOrRefused) {
  const Json tree = must(parse_json(harbour_text(), "quilt.json"))["patterns"][0];
  Rng rng(Seed{14});
  for (int i = 0; i < 1'500; ++i) {
    Json other = tree;
    for (std::uint32_t n = 1 + rng.below(3); n > 0; --n) mutate(other, rng);
    const Result<block::Pattern> pattern = pattern_from_text(other.dump(), "own.json");
    if (pattern) {
      EXPECT_EQ(block::problems_of(*pattern, ""), Problems{}) << other.dump();
    } else {
      EXPECT_FALSE(pattern.problems().empty());
    }
  }
}

}  // namespace
}  // namespace farflung::project
