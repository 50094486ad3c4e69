// The block patterns that come with the program, and patterns in files of the user's own.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "block/pattern.hpp"

namespace farflung::project {

/// The pattern in a file's text: the same object as in a quilt's "patterns", lengths in inches unless it has "units".
/// Every problem comes back, "rails.json#/patches/2/polygon" and so on; patches that do not cover the block are told
/// with place and size of the gap.
Result<block::Pattern> pattern_from_text(const std::string& text, const std::string& file);
/// The same from a file on the disk, which must be within limits::kFileBytes.
Result<block::Pattern> read_pattern(const std::filesystem::path& file);

/// The patterns that come with the program, by id.
Result<std::vector<block::Pattern>> library_patterns();

/// One of them, "nine-patch" or "Nine Patch"; the problem where there is none lists those that there are. A name that
/// ends in .json is read as a file of the user's own.
Result<block::Pattern> pattern_named(const std::string& name);

}  // namespace farflung::project
