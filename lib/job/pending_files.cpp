#include "job/pending_files.hpp"

#include <algorithm>
#include <cstdio>

#include "photo/encode.hpp"
#include "project/disk.hpp"

namespace farflung::job {

namespace fs = std::filesystem;

std::string PendingFiles::free_name(const std::string& below, const std::string& stem,
                                    const std::string& ending) const {
  const std::string start = below + "/" + stem;
  for (int number = 1;; ++number) {
    std::string name = start;
    if (number > 1) name += "-" + std::to_string(number);
    name += ending;
    const auto taken = [&](const Pending& file) { return file.file == folder_ / name; };
    if (!fs::exists(folder_ / name) && std::none_of(files_.begin(), files_.end(), taken)) return name;
  }
}

Result<Done> PendingFiles::write() {
  for (const Pending& file : files_) {
    Result<Done> made = project::disk::make_folder(file.file.parent_path());
    if (made) {
      const Result<std::string> bytes = scratch_.get(file.bytes);
      made = bytes ? project::disk::replace_file(file.file, *bytes) : Result<Done>(bytes.problems());
    }
    if (!made) {
      take_back();
      return made;
    }
    written_.push_back(file.file);
  }
  return Done{};
}

Result<Done> PendingFiles::add_swatch(print::Print& print, const photo::Picture& swatch) {
  const Result<std::vector<std::uint8_t>> bytes = photo::encode(swatch, photo::Format::png);
  if (!bytes) return bytes.problems();
  print.swatch = free_name("swatches", print.id, ".png");
  add(print.swatch, {bytes->begin(), bytes->end()});
  return Done{};
}

Result<Done> PendingFiles::save(project::Document& document) {
  Result<Done> written = write();
  if (!written) return written;
  written = project::write(folder_, document);
  if (!written) take_back();
  return written;
}

void PendingFiles::take_back() {
  for (const fs::path& file : written_) {
    std::error_code ignored;
    fs::remove(file, ignored);
  }
}

std::string next_print_id(const quilt::Quilt& quilt) {
  for (std::size_t number = quilt.prints.size() + 1;; ++number) {
    char id[16];
    std::snprintf(id, sizeof id, "P%02zu", number);
    if (quilt.print_with_id(id) == quilt::kNone) return id;
  }
}

}  // namespace farflung::job
