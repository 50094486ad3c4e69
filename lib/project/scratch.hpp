// Bytes put by on the disk until they are wanted, so that much of it takes no memory.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "base/result.hpp"

namespace farflung::project {

/// A file without a name in a folder: nobody sees it, and it is gone with this object or the process, however that
/// ends. Where the disk has no such files, or no room, bytes are held in memory instead.
class Scratch {
 public:
  explicit Scratch(std::filesystem::path folder) : folder_(std::move(folder)) {}
  ~Scratch();
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;

  /// What was put by.
  struct Piece {
    std::uint64_t at = 0, size = 0;
    std::string held;  ///< the bytes themselves, where they could not be put by
  };

  Piece put(std::string bytes);
  Result<std::string> get(const Piece& piece) const;

 private:
  std::filesystem::path folder_;
  int file_ = -1;
  bool tried_ = false;
  std::uint64_t end_ = 0;
};

}  // namespace farflung::project
