#include <system_error>
#include <utility>

#include "project/disk.hpp"
#include "project/limits.hpp"
#include "project/original.hpp"

namespace farflung::project {
namespace {

std::filesystem::path quilt_file(const std::filesystem::path& folder) { return folder / "quilt.json"; }

}  // namespace

Result<Document> read(const std::filesystem::path& folder) {
  std::error_code error;
  if (!std::filesystem::exists(folder, error)) {
    return input_problem(folder.string(), "no such folder",
                         "name the folder of a quilt, or make one with farflung new");
  }
  const std::filesystem::path file = quilt_file(folder);
  if (!std::filesystem::exists(file, error) && !error) {
    return input_problem(file.string(), "no such file", "name the folder of a quilt, or make one with farflung new");
  }
  Result<std::string> text = disk::read_file(file, limits::kFileBytes);
  if (!text) return text.problems();
  return document_from_text(*text, file.string());
}

}  // namespace farflung::project
