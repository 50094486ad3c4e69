// How much a quilt may hold. Everything that reads a stranger's file is bounded here, and refuses at once what is
// beyond.
#pragma once

#include <cstddef>
#include <cstdint>

namespace farflung::project::limits {

constexpr std::uint64_t kFileBytes = 16 * 1024 * 1024;  ///< of quilt.json, or of any other JSON file
constexpr int kDepth = 24;                              ///< of JSON nesting; a quilt needs eight
constexpr std::size_t kKeys = 1'000;                    ///< of one JSON object
constexpr std::size_t kValues = 1'000'000;              ///< of one JSON file, counting every number, text, list, object

constexpr std::size_t kProblems = 500;  ///< told of one file; how many more there are is told too

constexpr std::size_t kPrints = 1'000;
constexpr std::size_t kPatterns = 100;
constexpr std::size_t kPatches = 500;       ///< of one pattern
constexpr std::size_t kAllPatches = 2'000;  ///< of all patterns together
constexpr std::size_t kCorners = 200;       ///< of one patch
constexpr std::size_t kSlots = 100;         ///< of one pattern
constexpr std::int64_t kCells = 40'000;
constexpr std::size_t kBlocks = 60'000;
constexpr std::size_t kBorders = 20;
constexpr double kLengthInches = 10'000;  ///< either way; the longest quilts are a twentieth of it

constexpr std::size_t kVersions = 50;  ///< kept for undo

constexpr std::size_t kPackedFiles = 20'000;                        ///< in a packed quilt
constexpr std::uint64_t kPackedBytes = 16ULL * 1024 * 1024 * 1024;  ///< of all its files together

}  // namespace farflung::project::limits
