// Bytes as a file that is in memory alone, for readers that want a file's name.
#pragma once

#include <string>
#include <string_view>

#include <sys/mman.h>
#include <unistd.h>

#include "fuzz/promise.hpp"

namespace farflung::fuzz {

class FileOf {
 public:
  explicit FileOf(std::string_view bytes) : file_(::memfd_create("bytes", MFD_CLOEXEC)) {
    promise(file_ >= 0 && ::write(file_, bytes.data(), bytes.size()) == static_cast<ssize_t>(bytes.size()),
            "there is memory for the file");
  }
  ~FileOf() { ::close(file_); }
  FileOf(const FileOf&) = delete;
  FileOf& operator=(const FileOf&) = delete;

  std::string name() const { return "/proc/self/fd/" + std::to_string(file_); }

 private:
  int file_;
};

}  // namespace farflung::fuzz
