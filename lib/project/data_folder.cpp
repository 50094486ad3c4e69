#include "project/data_folder.hpp"

#include <cstdlib>
#include <string>
#include <system_error>
#include <vector>

namespace farflung::project {
namespace {

constexpr const char* kLandmark = "quilt.schema.json";

bool holds_data(const std::filesystem::path& folder) {
  std::error_code error;
  return std::filesystem::is_regular_file(folder / kLandmark, error);
}

}  // namespace

Result<std::filesystem::path> data_folder() {
  std::vector<std::filesystem::path> candidates;
  if (const char* const chosen = std::getenv("FARFLUNG_DATA"); chosen != nullptr && *chosen != '\0') {
    candidates.emplace_back(chosen);
  } else {
    std::error_code error;
    const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", error);
    if (!error) candidates.push_back(program.parent_path().parent_path() / "share" / "farflung");
    candidates.emplace_back(FARFLUNG_DATA_DIR);
  }
  for (const std::filesystem::path& folder : candidates) {
    if (holds_data(folder)) return folder;
  }
  return system_problem(candidates.front().string(),
                        std::string("the program's data are not there (no ") + kLandmark + ")",
                        "install Farflung again, or name their folder in FARFLUNG_DATA");
}

}  // namespace farflung::project
