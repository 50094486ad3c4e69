// How much strangers may bring: every limit of a file that is read, a photograph, a request. Whoever reads such a thing
// refuses at once what is beyond, before it costs anything; each limit has its test.
#pragma once

#include <cstddef>
#include <cstdint>

namespace farflung::limits {

// The quilt file, patterns, and any other JSON.
constexpr std::uint64_t kFileBytes = 16 * 1024 * 1024;
constexpr int kDepth = 24;                  ///< of JSON nesting; a quilt needs eight
constexpr std::size_t kKeys = 1'000;        ///< of one JSON object
constexpr std::size_t kValues = 1'000'000;  ///< of one JSON file, counting every number, text, list, object
constexpr std::size_t kProblems = 500;      ///< told of one file; how many more there are is told too

// The quilt.
constexpr std::size_t kPrints = 1'000;
/// Of one quilt, as all in this part of which nothing else is said.
constexpr std::size_t kPatterns = 100;
constexpr std::size_t kPatches = 500;       ///< of one pattern
constexpr std::size_t kAllPatches = 2'000;  ///< of all patterns together
constexpr std::size_t kCorners = 200;       ///< of one patch
constexpr std::size_t kSlots = 100;         ///< of one pattern
/// Of the setting, empty cells too; blocks may be more, for spares lie in none.
constexpr std::int64_t kCells = 40'000;
constexpr std::size_t kBlocks = 60'000;
constexpr std::size_t kBorders = 20;
constexpr double kLengthInches = 10'000;  ///< either way; the longest quilts are a twentieth of it
constexpr std::size_t kVersions = 50;     ///< kept for undo

// A packed quilt.
constexpr std::size_t kPackedFiles = 20'000;
constexpr std::uint64_t kPackedBytes = 16ULL * 1024 * 1024 * 1024;  ///< of all its files together, unpacked

// Pictures.
constexpr std::int64_t kPhotographPixels = 130'000'000;
constexpr std::int64_t kPhotographBytes = 200LL * 1024 * 1024;
constexpr std::uint64_t kSwatchBytes = 64 * 1024 * 1024;  ///< taken from another quilt as it is
constexpr double kDrawnPixels = 100e6;                    ///< a PNG of so many takes some 400 MB while it is drawn

// A list of threads.
constexpr std::size_t kThreads = 10'000;
constexpr std::size_t kThreadListBytes = 1'000'000;

// The page's server.
/// Open at once, of all pages together.
constexpr int kConnections = 400;
constexpr unsigned kPatienceSeconds = 20;            ///< that a connection may be idle; event streams may be for ever
constexpr std::size_t kConnectionBytes = 24 * 1024;  ///< of memory: longer headers are refused
constexpr std::uint64_t kRequestBytes = 4 * 1024 * 1024;  ///< of a body that is JSON
/// Of a body that is a packed quilt; it goes to a file, not into memory.
constexpr std::uint64_t kPackedRequestBytes = 4ULL * 1024 * 1024 * 1024;
constexpr std::uint64_t kGraceBytes = 1024 * 1024;  ///< read and thrown away beyond a limit, so that the reason is read
/// Pages that may listen at once, of all quilts together.
constexpr std::size_t kEventStreams = 300;
constexpr std::size_t kWaitingEvents = 64;  ///< of one page that does not read; it is then told to look again
/// Long jobs begun or waiting, of all quilts together.
constexpr std::size_t kWaitingRuns = 500;
constexpr std::size_t kKeptRuns = 200;  ///< that are over and can still be asked about
/// Let in at once, each by a token of its own; one more lets out the one that came first.
constexpr std::size_t kTelephones = 50;
constexpr std::size_t kNameBytes = 100;  ///< of a quilt's name

}  // namespace farflung::limits
