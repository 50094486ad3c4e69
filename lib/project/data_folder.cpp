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

/// The build tree that a file stands in; empty where it stands in none.
std::filesystem::path build_tree_of(const std::filesystem::path& file) {
  std::error_code error;
  for (std::filesystem::path folder = file.parent_path(); folder != folder.root_path(); folder = folder.parent_path()) {
    if (std::filesystem::exists(folder / "CMakeCache.txt", error)) return folder;
  }
  return {};
}

/// Where the data may be, the likeliest first.
std::vector<std::filesystem::path> candidates() {
  if (const char* const chosen = std::getenv("FARFLUNG_DATA"); chosen != nullptr && *chosen != '\0') return {chosen};
  std::error_code error;
  const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", error);
  if (error) return {"/usr/share/farflung"};
  std::vector<std::filesystem::path> folders = {program.parent_path().parent_path() / "share" / "farflung"};
  const std::filesystem::path build_tree = build_tree_of(program);
  if (!build_tree.empty()) folders.push_back(build_tree / "data");
  return folders;
}

}  // namespace

Result<std::filesystem::path> data_folder() {
  const std::vector<std::filesystem::path> folders = candidates();
  for (const std::filesystem::path& folder : folders) {
    if (holds_data(folder)) return folder;
  }
  return system_problem(folders.front().string(),
                        std::string("the program's data are not there (no ") + kLandmark + ")",
                        "install Farflung again, or name their folder in FARFLUNG_DATA");
}

}  // namespace farflung::project
