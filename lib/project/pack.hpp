// A whole quilt as one file, to move or keep.
#pragma once

#include <cstdint>
#include <filesystem>

#include "base/result.hpp"

namespace farflung::project {

/// What went into a packed quilt, or came out of it.
struct Packed {
  std::size_t files = 0;
  std::uint64_t bytes = 0;  ///< of the files, not counting what the pack adds
};

/// Writes every file of a quilt's folder, photographs and versions among them, into one file: a plain tar
/// (POSIX.1-2001, uncompressed, times and owners left out), quilt.json first, all within one folder, so that any tar
/// opens it. The same folder gives the same bytes. Links, the lock and temporaries stay out. Refused where the quilt is
/// not valid, or where `file` is there already and `replace` is false. Where it fails no part of a file is left.
Result<Packed> pack(const std::filesystem::path& folder, const std::filesystem::path& file, bool replace = false);

/// Brings such a file to a folder that is not there yet. A stranger's file is not trusted: it is refused, and nothing
/// is left, where an entry is anything but a plain file or folder, would lie outside, comes twice, or claims more bytes
/// than the file has; where there are too many; or where its quilt.json is not a valid quilt.
Result<Packed> unpack(const std::filesystem::path& file, const std::filesystem::path& folder);

}  // namespace farflung::project
