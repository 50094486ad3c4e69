#include "project/reread.hpp"

#include "base/limits.hpp"
#include "project/disk.hpp"
#include "project/original.hpp"

namespace farflung::project {

Result<Document> reread(const std::filesystem::path& folder, const Document& known) {
  const Result<std::string> text = disk::read_file(folder / "quilt.json", limits::kFileBytes);
  if (text && known.original && known.original->text == *text) return known;
  return read(folder);
}

}  // namespace farflung::project
