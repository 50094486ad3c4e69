#include "job/pack.hpp"

#include "base/counted.hpp"
#include "base/limits.hpp"
#include "job/open_quilt.hpp"
#include "job/standard_streams.hpp"
#include "project/pack.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

Outcome answer_of(const Result<project::Packed>& packed, const std::string& words) {
  if (!packed) return packed.problems();
  Report report = new_report();
  report["files"] = packed->files;
  report["bytes"] = packed->bytes;
  return Answer{words + counted(packed->files, "file", "files") + ".\n", text_of(report), {}, true};
}

/// The packed file is made whole before any of it is sent: what fails sends nothing.
Outcome pack_to_standard_output(const std::string& folder) {
  const auto scratch = scratch_folder();
  if (!scratch) return system_problem("standard output", "there is no room to make the file", "free some space");
  const fs::path made = *scratch / "packed";
  const Result<project::Packed> packed = project::pack(folder, made);
  if (!packed) return packed.problems();
  const Result<Done> sent = to_standard_output(made);
  if (!sent) return sent.problems();
  return Answer{"", "", {}, true};
}

}  // namespace

Outcome pack(const std::string& folder, const std::string& file, bool force) {
  if (file == "-") return pack_to_standard_output(folder);
  return answer_of(project::pack(folder, file, force), "Packed " + folder + " into " + file + ": ");
}

Outcome unpack(const std::string& folder, const std::string& file) {
  return with_given({file}, "packed", limits::kPackedBytes, [&](const std::vector<std::string>& paths) {
    return answer_of(project::unpack(paths.front(), folder), "Unpacked " + paths.front() + " into " + folder + ": ");
  });
}

}  // namespace farflung::job
