// "-" where a file is meant: what comes by standard input, what goes to standard output. For this module only.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

/// A folder of its own that goes with the value; null where none could be made.
std::shared_ptr<const std::filesystem::path> scratch_folder();

/// What a photograph is called that came without a name.
inline constexpr const char* kSentPhotograph = "photograph.jpg";

/// What a job gives for files of which "-" can be one: all of standard input, kept as `name` until the job ends. In
/// what the job says it is called standard input, not by where it was kept. Problems, beside the job's: standard input
/// is named twice, empty or longer than `most` bytes; what came could not be kept.
Outcome with_given(const std::vector<std::string>& files, const std::string& name, std::uint64_t most,
                   const std::function<Outcome(const std::vector<std::string>& paths)>& job);

/// A file's bytes to standard output, however many.
Result<Done> to_standard_output(const std::filesystem::path& file);

}  // namespace farflung::job
