// Files read whole and replaced whole: what is on the disk is the old bytes or the new, never part of either.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "base/result.hpp"

namespace farflung::project::disk {

/// The bytes of a regular file; refused unread where it is larger than `most`.
Result<std::string> read_file(const std::filesystem::path& file, std::uint64_t most);

/// Replaces a file, or makes it: a temporary beside it, fsync, rename, fsync of the folder. Where it fails the file is
/// as it was and the temporary is gone. Once it returns Done the bytes survive a power cut.
Result<Done> replace_file(const std::filesystem::path& file, const std::string& bytes);

Result<Done> make_folder(const std::filesystem::path& folder);
Result<Done> remove_file(const std::filesystem::path& file);

/// Removes temporaries that a crash left behind in this folder (not in those within). Call it only under the folder's
/// lock.
void sweep(const std::filesystem::path& folder);

}  // namespace farflung::project::disk
