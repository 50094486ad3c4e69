// A folder of a test's own, gone when the test is.
#pragma once

#include <filesystem>
#include <string>

#include <unistd.h>

namespace farflung::photo {

class Scratch {
 public:
  Scratch() {
    std::string name = (std::filesystem::temp_directory_path() / "farflung_photo_XXXXXX").string();
    folder_ = mkdtemp(name.data());
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }

  std::string file(const std::string& name) const { return (folder_ / name).string(); }

 private:
  std::filesystem::path folder_;
};

}  // namespace farflung::photo
