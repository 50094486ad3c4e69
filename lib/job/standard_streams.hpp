// "-" where a file is meant: what comes by standard input, what goes to standard output. For this module only.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

/// A folder of its own that goes with the value; null where none could be made.
std::shared_ptr<const std::filesystem::path> scratch_folder();

/// A file that is there as long as the value is: the one that is named, or for "-" all of standard input under `name`.
struct GivenFile {
  std::string path;
  std::shared_ptr<const std::filesystem::path> scratch;
};

/// What a photograph is called that came without a name.
inline constexpr const char* kSentPhotograph = "photograph.jpg";

/// Problems: standard input is empty or longer than `most` bytes; what came could not be kept.
Result<GivenFile> given_file(const std::string& file, const std::string& name, std::uint64_t most);

/// The same for several, in order; "-" can stand for one of them.
struct GivenFiles {
  std::vector<std::string> paths;
  std::shared_ptr<const std::filesystem::path> scratch;
};
Result<GivenFiles> given_files(const std::vector<std::string>& files, const std::string& name, std::uint64_t most);

/// What came of them, what came by standard input called so and not by where it was kept.
Outcome as_given(Outcome outcome, const GivenFiles& given);

/// A file's bytes to standard output, however many.
Result<Done> to_standard_output(const std::filesystem::path& file);

}  // namespace farflung::job
