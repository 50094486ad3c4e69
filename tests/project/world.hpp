// The quilt that this module's tests start from, and a few words for working with its text.
#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "project/document.hpp"

namespace farflung::project {

inline std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

inline std::string harbour_text() { return bytes_of(FARFLUNG_SOURCE "/tests/project/files/harbour.json"); }

inline std::string texts(const Problems& problems) {
  std::string text;
  for (const Problem& problem : problems) text += problem.text() + "\n";
  return text;
}

/// The value, or a failing test that says why there is none.
template <typename T>
T must(Result<T> result) {
  if (!result) throw std::runtime_error(texts(result.problems()));
  return std::move(*result);
}

template <typename T>
std::vector<std::string> places(const Result<T>& result) {
  std::vector<std::string> places;
  if (result.ok()) return places;
  for (const Problem& problem : result.problems()) places.push_back(problem.at);
  return places;
}

inline Document harbour() { return must(document_from_text(harbour_text())); }

/// The first `before` in a text becomes `after`; it must be there.
inline void replace(std::string& text, const std::string& before, const std::string& after) {
  const std::size_t at = text.find(before);
  if (at == std::string::npos) throw std::runtime_error("not in the text: " + before);
  text.replace(at, before.size(), after);
}

}  // namespace farflung::project
