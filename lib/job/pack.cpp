#include "job/pack.hpp"

#include "job/open_quilt.hpp"
#include "project/pack.hpp"

namespace farflung::job {
namespace {

Outcome answer_of(const Result<project::Packed>& packed, const std::string& words) {
  if (!packed) return packed.problems();
  Report report = new_report();
  report["files"] = packed->files;
  report["bytes"] = packed->bytes;
  return Answer{words + counted(packed->files, "file", "files") + ".\n", text_of(report), {}, true};
}

}  // namespace

Outcome pack(const std::string& folder, const std::string& file, bool force) {
  return answer_of(project::pack(folder, file, force), "Packed " + folder + " into " + file + ": ");
}

Outcome unpack(const std::string& folder, const std::string& file) {
  return answer_of(project::unpack(file, folder), "Unpacked " + file + " into " + folder + ": ");
}

}  // namespace farflung::job
