// One writer per quilt: who wants to change a quilt holds it first.
#pragma once

#include <array>
#include <chrono>
#include <filesystem>
#include <string>

#include "base/result.hpp"

namespace farflung::project {

/// The lock's file within the quilt's folder. It stays there; what it says is only for people.
constexpr const char* kLockName = "quilt.lock";

/// The folders within a quilt's that wait for files from its first day.
constexpr std::array<const char*, 3> kFilledFolders = {"photos", "swatches", "sheets"};

/// The right to change a quilt. One program, and one part of a program, has it at a time; it ends with this object, or
/// with the process, however that ends. Reading needs no hold: what stands on the disk is whole at every moment.
class Hold {
 public:
  Hold(Hold&& other) noexcept;
  Hold& operator=(Hold&& other) noexcept;
  ~Hold();

  /// The quilt's folder that is held.
  const std::filesystem::path& folder() const { return folder_; }

 private:
  friend Result<Hold> hold(const std::filesystem::path&, const std::string&, std::chrono::milliseconds);
  Hold(std::filesystem::path folder, int lock) : folder_(std::move(folder)), lock_(lock) {}

  std::filesystem::path folder_;
  int lock_ = -1;
};

/// Takes a quilt for `who` ("arrange", "the page"), waiting up to `patience` for another to let it go. The problem says
/// who holds it, since when, and on which machine. Temporaries that a crash left behind are swept.
Result<Hold> hold(const std::filesystem::path& folder, const std::string& who,
                  std::chrono::milliseconds patience = std::chrono::seconds(2));

}  // namespace farflung::project
