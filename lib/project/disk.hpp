// Files read whole and replaced whole: what is on the disk is the old bytes or the new, never part of either.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>

#include "base/result.hpp"

namespace farflung::project::disk {

/// The bytes of a regular file; refused unread where it is larger than `most`.
Result<std::string> read_file(const std::filesystem::path& file, std::uint64_t most);

/// Replaces a file, or makes it: a temporary beside it, fsync, rename, fsync of the folder. Where it fails the file is
/// as it was and the temporary is gone. Once it returns Done the bytes survive a power cut. A device or a pipe that
/// stands there takes the bytes and stays what it is.
Result<Done> replace_file(const std::filesystem::path& file, const std::string& bytes);

/// The same for bytes that do not fit in memory: `fill` writes them to the open file that it is given.
using Fill = std::function<Result<Done>(int descriptor)>;
Result<Done> replace_file(const std::filesystem::path& file, const Fill& fill);

/// Make a folder, those above it too, and remove a file; that it is there already, or gone already, is no problem.
Result<Done> make_folder(const std::filesystem::path& folder);
Result<Done> remove_file(const std::filesystem::path& file);

/// Whether a file is one of the temporaries that replace_file and NewFolder make.
bool is_temporary(const std::filesystem::path& file);

/// Removes temporaries that a crash left behind in this folder (not in those within). Call it only under the folder's
/// lock.
void sweep(const std::filesystem::path& folder);

/// A file that was not there before.
class NewFile {
 public:
  explicit NewFile(const std::filesystem::path& file);
  ~NewFile();
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;

  bool open() const { return descriptor_ >= 0; }
  /// Not made because something stands there; nothing of it was touched.
  bool existed() const { return existed_; }
  /// False where the disk failed: `problem` says how.
  bool write(const char* bytes, std::size_t count);
  bool finish();  ///< brings it to the disk and closes it
  const Problem& problem() const { return problem_; }

 private:
  bool fail();

  std::filesystem::path file_;
  int descriptor_ = -1;
  bool existed_ = false;
  Problem problem_;
};

/// A folder that is filled under a temporary name beside its own, and takes its own once it is whole. Where it never
/// does it goes, with all that is in it.
class NewFolder {
 public:
  explicit NewFolder(std::filesystem::path folder);
  ~NewFolder();
  NewFolder(const NewFolder&) = delete;
  NewFolder& operator=(const NewFolder&) = delete;

  bool made() const { return !path_.empty(); }
  const Problem& problem() const { return problem_; }
  const std::filesystem::path& path() const { return path_; }  ///< where it lies while it is filled
  /// Gives it its own name; refused where a file, or a folder that is not empty, stands there.
  Result<Done> place() const;

 private:
  std::filesystem::path folder_, path_;
  Problem problem_;
};

}  // namespace farflung::project::disk
