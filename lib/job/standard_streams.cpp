#include "job/standard_streams.hpp"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <utility>

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

constexpr const char* kStandardInput = "standard input";
constexpr const char* kFreeSpace = "free some space, or write elsewhere";

using Piece = std::array<char, 1 << 16>;

void replace_all(std::string& text, const std::string& what, const std::string& with) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + with.size())) {
    text.replace(at, what.size(), with);
  }
}

/// Files to read, those that came by standard input kept in a folder that is there as long as the value is.
struct Given {
  std::vector<std::string> paths;
  std::shared_ptr<const fs::path> scratch;
};

Result<Done> keep_standard_input(const fs::path& file, std::uint64_t most) {
  std::ofstream kept(file, std::ios::binary);
  Piece piece{};
  std::uint64_t bytes = 0;
  while (const std::size_t got = std::fread(piece.data(), 1, piece.size(), stdin)) {
    bytes += got;
    if (bytes > most) return input_problem(kStandardInput, "it is too large", "name a file");
    kept.write(piece.data(), static_cast<std::streamsize>(got));
  }
  kept.close();
  if (!kept) return system_problem(kStandardInput, "it could not be kept", kFreeSpace);
  if (bytes == 0) return input_problem(kStandardInput, "nothing came", "name a file, or send one: < FILE");
  return Done{};
}

Result<Given> given_files(const std::vector<std::string>& files, const std::string& name, std::uint64_t most) {
  Given given;
  for (const std::string& file : files) {
    if (file != "-") {
      given.paths.push_back(file);
      continue;
    }
    if (given.scratch) return input_problem("-", "standard input can be read only once", "name it once");
    given.scratch = scratch_folder();
    if (!given.scratch) return system_problem(kStandardInput, "there is no room to keep it", kFreeSpace);
    given.paths.push_back((*given.scratch / name).string());
    const Result<Done> kept = keep_standard_input(given.paths.back(), most);
    if (!kept) return kept.problems();
  }
  return given;
}

Outcome as_given(Outcome outcome, const Given& given) {
  if (!given.scratch) return outcome;
  const auto name = [&](std::string& text) {
    for (const std::string& path : given.paths) {
      if (fs::path(path).parent_path() == *given.scratch) replace_all(text, path, kStandardInput);
    }
  };
  const auto name_in = [&](Problems problems) {
    for (Problem& problem : problems) name(problem.at), name(problem.cause);
    return problems;
  };
  if (!outcome) return name_in(outcome.problems());
  Answer answer = std::move(*outcome);
  name(answer.words);
  name(answer.json);
  answer.warnings = name_in(std::move(answer.warnings));
  answer.problems = name_in(std::move(answer.problems));
  return answer;
}

}  // namespace

std::shared_ptr<const fs::path> scratch_folder() {
  std::error_code error;
  std::string name = (fs::temp_directory_path(error) / "farflung-XXXXXX").string();
  if (error || ::mkdtemp(name.data()) == nullptr) return nullptr;
  return {new fs::path(name), [](const fs::path* folder) {
            std::error_code ignored;
            fs::remove_all(*folder, ignored);
            delete folder;
          }};
}

Outcome with_given(const std::vector<std::string>& files, const std::string& name, std::uint64_t most,
                   const std::function<Outcome(const std::vector<std::string>& paths)>& job) {
  const Result<Given> given = given_files(files, name, most);
  if (!given) return given.problems();
  return as_given(job(given->paths), *given);
}

Result<Done> to_standard_output(const fs::path& file) {
  std::ifstream source(file, std::ios::binary);
  Piece piece{};
  bool written = static_cast<bool>(source);
  while (written && source) {
    source.read(piece.data(), piece.size());
    const auto got = static_cast<std::size_t>(source.gcount());
    written = std::fwrite(piece.data(), 1, got, stdout) == got;
  }
  if (written && std::fflush(stdout) == 0) return Done{};
  return system_problem("standard output", "it could not be written", kFreeSpace);
}

}  // namespace farflung::job
