// The quilt that this module's tests start from, and a few words for working with its text.
#pragma once

#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <unistd.h>

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

/// The least that is a quilt: "Harbour raffle", two places for a square.
inline Document two_squares() {
  return must(document_from_text(
      R"({"format": "farflung-quilt", "version": 1, "title": "Harbour raffle",
          "patterns": [{"id": "square", "width": 4, "height": 4, "slots": {"A": {}},
                        "patches": [{"slot": "A", "polygon": [[0, 0], [4, 0], [4, 4], [0, 4]]}]}],
          "setting": {"rows": 1, "columns": 2}})"));
}

inline Document harbour() { return must(document_from_text(harbour_text())); }

/// The first `before` in a text becomes `after`; it must be there.
inline void replace(std::string& text, const std::string& before, const std::string& after) {
  const std::size_t at = text.find(before);
  if (at == std::string::npos) throw std::runtime_error("not in the text: " + before);
  text.replace(at, before.size(), after);
}

/// A folder of its own that goes with the test; in memory where there is such a place, for nothing here cuts the power.
class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string name = (::access("/dev/shm", W_OK) == 0 ? "/dev/shm/" : ::testing::TempDir()) + "farflung-XXXXXX";
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = name;
  }
  ~TemporaryFolder() {
    std::error_code error;
    std::filesystem::remove_all(path_, error);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

 private:
  std::filesystem::path path_;
};

/// Every file within a folder with its bytes.
inline std::map<std::string, std::string> all_files(const std::filesystem::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) files[entry.path().lexically_relative(folder).string()] = bytes_of(entry.path());
  }
  return files;
}

}  // namespace farflung::project
