#include "project/pack.hpp"

#include <algorithm>
#include <cerrno>
#include <fstream>
#include <memory>
#include <optional>
#include <string>
#include <system_error>
#include <vector>

#include <archive.h>
#include <archive_entry.h>
#include <fcntl.h>
#include <unistd.h>

#include "base/limits.hpp"
#include "project/disk.hpp"
#include "project/document.hpp"
#include "project/hold.hpp"

namespace farflung::project {
namespace {

namespace fs = std::filesystem;

using Writer = std::unique_ptr<archive, decltype(&archive_write_free)>;
using Entry = std::unique_ptr<archive_entry, decltype(&archive_entry_free)>;

/// What stopped the writing of the pack `file`.
Problem failed(const fs::path& file, archive* pack) {
  const char* const words = archive_error_string(pack);
  return system_problem(file.string(),
                        std::string("cannot be written: ") + (words != nullptr ? words : "unknown reason"),
                        archive_errno(pack) == ENOSPC ? "free some space and do it again" : "");
}

/// What belongs to the quilt: plain files that are neither the lock nor a temporary. By name, quilt.json first.
std::vector<fs::path> files_of(const fs::path& folder) {
  std::vector<fs::path> files;
  std::error_code error;
  for (fs::recursive_directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
    const bool plain = at->is_regular_file(error) && !at->is_symlink(error);
    if (plain && at->path().filename() != kLockName && !disk::is_temporary(at->path())) {
      files.push_back(at->path().lexically_relative(folder));
    }
  }
  std::sort(files.begin(), files.end(), [](const fs::path& a, const fs::path& b) {
    return std::pair(a != "quilt.json", a.native()) < std::pair(b != "quilt.json", b.native());
  });
  return files;
}

bool is_ascii(const std::string& text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 128; });
}

/// Appends one file to the pack, which goes to `pack_file`; its bytes, as many as it has when it is begun.
Result<std::uint64_t> add_file(archive* pack, const fs::path& pack_file, const fs::path& file,
                               const std::string& name) {
  std::error_code error;
  const std::uint64_t size = fs::file_size(file, error);
  std::ifstream in(file, std::ios::binary);
  if (error || !in) return system_problem(file.string(), "cannot be read");
  const Entry entry(archive_entry_new(), archive_entry_free);
  archive_entry_copy_pathname(entry.get(), name.c_str());
  archive_entry_set_size(entry.get(), static_cast<la_int64_t>(size));
  archive_entry_set_filetype(entry.get(), AE_IFREG);
  archive_entry_set_perm(entry.get(), 0644);
  archive_entry_set_mtime(entry.get(), 0, 0);
  if (archive_write_header(pack, entry.get()) != ARCHIVE_OK) return failed(pack_file, pack);
  std::vector<char> piece(1 << 20);
  for (std::uint64_t left = size; left > 0;) {
    const std::uint64_t wanted = std::min<std::uint64_t>(left, piece.size());
    if (!in.read(piece.data(), static_cast<std::streamsize>(wanted)))
      return system_problem(file.string(), "cannot be read");
    const auto written = archive_write_data(pack, piece.data(), wanted);
    if (written < 0 || static_cast<std::uint64_t>(written) != wanted) return failed(pack_file, pack);
    left -= wanted;
  }
  return size;
}

/// `out` is open on `pack_file`.
Result<Packed> write_pack(const fs::path& folder, const std::string& top, const fs::path& pack_file, int out) {
  const std::vector<fs::path> files = files_of(folder);
  const Writer pack(archive_write_new(), archive_write_free);
  archive_write_set_format_pax_restricted(pack.get());
  if (!is_ascii(top) ||
      !std::all_of(files.begin(), files.end(), [](const fs::path& file) { return is_ascii(file.native()); })) {
    archive_write_set_options(pack.get(), "hdrcharset=BINARY");  // names are the disk's own bytes, whatever the locale
  }
  if (archive_write_open_fd(pack.get(), out) != ARCHIVE_OK) return failed(pack_file, pack.get());
  Packed packed;
  for (const fs::path& file : files) {
    const Result<std::uint64_t> bytes =
        add_file(pack.get(), pack_file, folder / file, top + "/" + file.generic_string());
    if (!bytes) return bytes.problems();
    packed.bytes += *bytes;
    if (++packed.files > limits::kPackedFiles || packed.bytes > limits::kPackedBytes) {
      return input_problem(folder.string(), "more than a packed quilt may hold", "move out what does not belong to it");
    }
  }
  if (archive_write_close(pack.get()) != ARCHIVE_OK) return failed(pack_file, pack.get());
  return packed;
}

/// Where an entry belongs within the quilt's folder: its name without the folder that holds all; empty for that folder
/// itself, none where the name is not to be trusted.
std::optional<fs::path> place_of(const std::string& name, std::string& top) {
  std::vector<std::string> parts;
  for (std::size_t from = 0; from <= name.size();) {
    const std::size_t to = std::min(name.find('/', from), name.size());
    const std::string part = name.substr(from, to - from);
    const bool at_edge = (part.empty() && to == name.size()) || (part == "." && parts.empty());
    if (!at_edge) parts.push_back(part);
    from = to + 1;
  }
  if (parts.empty() || parts.size() > 10) return std::nullopt;
  for (const std::string& part : parts) {
    if (part.empty() || part == "." || part == ".." || part.size() > 255) return std::nullopt;
  }
  if (top.empty()) top = parts.front();
  if (parts.front() != top) return std::nullopt;
  fs::path place;
  for (std::size_t i = 1; i < parts.size(); ++i) place /= parts[i];
  return place;
}

/// Opens a pack entry by entry into a folder of its own.
class Unpacking {
 public:
  Unpacking(const fs::path& file, fs::path into) : file_(file), into_(std::move(into)), pack_(archive_read_new()) {
    archive_read_support_filter_none(pack_);
    archive_read_support_format_tar(pack_);
  }
  ~Unpacking() { archive_read_free(pack_); }
  Unpacking(const Unpacking&) = delete;
  Unpacking& operator=(const Unpacking&) = delete;

  Result<Packed> run() {
    std::error_code error;
    size_ = fs::file_size(file_, error);
    if (error || archive_read_open_filename(pack_, file_.c_str(), 1 << 16) != ARCHIVE_OK) return not_a_pack();
    archive_entry* entry = nullptr;
    int state = ARCHIVE_OK;
    while ((state = archive_read_next_header(pack_, &entry)) == ARCHIVE_OK || state == ARCHIVE_WARN) {
      if (const Result<Done> taken = take(entry); !taken) return taken.problems();
    }
    if (state != ARCHIVE_EOF) return not_a_pack();
    return packed_;
  }

 private:
  Problem not_a_pack() const {
    const int why = archive_errno(pack_);
    if (why == EIO || why == ENOMEM || why == EACCES) {
      return system_problem(file_.string(), "cannot be read: " + std::generic_category().message(why));
    }
    return input_problem(file_.string(), "not a packed quilt, or not all of it",
                         "give a file that farflung pack has written");
  }

  Problem untrusted(const std::string& name, const std::string& why) const {
    std::string shown;
    for (const char c : name.substr(0, 80)) shown += c >= ' ' && c < 127 ? c : '?';
    return input_problem(file_.string(), "holds " + shown + ", " + why, "do not trust it; nothing was unpacked");
  }

  Result<Done> take(archive_entry* entry) {
    const char* name = archive_entry_pathname(entry);
    if (name == nullptr) name = archive_entry_pathname_utf8(entry);
    if (name == nullptr) return not_a_pack();
    const bool folder = archive_entry_filetype(entry) == AE_IFDIR;
    const bool link = archive_entry_hardlink(entry) != nullptr || archive_entry_symlink(entry) != nullptr;
    if (link || (!folder && archive_entry_filetype(entry) != AE_IFREG)) {
      return untrusted(name, "which is neither a file nor a folder");
    }
    const std::optional<fs::path> place = place_of(name, top_);
    if (!place || (place->empty() && !folder)) return untrusted(name, "which lies outside the quilt's folder");
    if (++packed_.files > limits::kPackedFiles) return untrusted(name, "and too many others");
    const fs::path target = into_ / *place;
    if (folder) return make_folder(target, name);
    if (place->filename() == kLockName || disk::is_temporary(*place)) return Done{};
    if (Result<Done> made = make_folder(target.parent_path(), name); !made) return made;
    return copy(name, target, archive_entry_size(entry));
  }

  Result<Done> make_folder(const fs::path& target, const std::string& name) const {
    std::error_code error;
    fs::create_directories(target, error);
    if (error == std::errc::not_a_directory || error == std::errc::file_exists) {
      return untrusted(name, "which lies within a file");
    }
    return error ? disk::make_folder(target) : Result<Done>(Done{});
  }

  Result<Done> copy(const std::string& name, const fs::path& target, la_int64_t whole) {
    disk::NewFile out(target);
    if (!out.open()) return out.existed() ? untrusted(name, "which comes twice") : out.problem();
    const void* block = nullptr;
    std::size_t size = 0;
    la_int64_t offset = 0;
    std::uint64_t at = 0;
    int state = ARCHIVE_OK;
    while ((state = archive_read_data_block(pack_, &block, &size, &offset)) == ARCHIVE_OK) {
      if (static_cast<std::uint64_t>(offset) != at) return untrusted(name, "which has holes");
      at += size;
      packed_.bytes += size;
      if (packed_.bytes > size_ || packed_.bytes > limits::kPackedBytes)
        return untrusted(name, "which is larger than it can be");
      if (!out.write(static_cast<const char*>(block), size)) return out.problem();
    }
    if (state != ARCHIVE_EOF) return not_a_pack();
    if (static_cast<la_int64_t>(at) != whole) return untrusted(name, "which has holes");
    return out.finish() ? Result<Done>(Done{}) : Result<Done>(out.problem());
  }

  fs::path file_, into_;
  archive* pack_;
  std::string top_;
  std::uint64_t size_ = 0;
  Packed packed_;
};

}  // namespace

Result<Packed> pack(const fs::path& folder, const fs::path& file, bool replace) {
  if (const Result<Document> valid = read(folder); !valid) return valid.problems();
  std::error_code error;
  if (fs::exists(file, error) && !replace) {
    return input_problem(file.string(), "there is such a file already", "choose another name");
  }
  const fs::path whole = fs::weakly_canonical(folder, error);
  const fs::path inside = fs::weakly_canonical(file, error).lexically_relative(whole);
  if (!inside.empty() && *inside.begin() != "..") {
    return input_problem(file.string(), "lies within the quilt's own folder", "choose a place outside it");
  }
  std::optional<Hold> held;
  if (::access(folder.c_str(), W_OK) == 0) {  // nobody changes what may not be written
    Result<Hold> taken = hold(folder, "pack");
    if (!taken) return taken.problems();
    held = std::move(*taken);
  }
  const std::string top = whole.filename().empty() ? "quilt" : whole.filename().string();
  Result<Packed> packed = Packed{};
  const Result<Done> done = disk::replace_file(file, [&](int out) -> Result<Done> {
    packed = write_pack(folder, top, file, out);
    return packed ? Result<Done>(Done{}) : Result<Done>(packed.problems());
  });
  return done ? packed : Result<Packed>(done.problems());
}

Result<Packed> unpack(const fs::path& file, const fs::path& folder) {
  std::error_code error;
  if (fs::exists(folder, error)) {
    return input_problem(folder.string(), "there is such a folder already", "choose another name");
  }
  if (!fs::is_regular_file(file, error)) return input_problem(file.string(), "no such file", "name a packed quilt");
  const fs::path clean = fs::absolute(folder, error).lexically_normal();
  const fs::path named = clean.has_filename() ? clean : clean.parent_path();
  if (const Result<Done> made = disk::make_folder(named.parent_path()); !made) return made.problems();
  const disk::NewFolder into(named);
  if (!into.made()) return into.problem();
  Result<Packed> packed = Unpacking(file, into.path()).run();
  if (!packed) return packed;
  if (const Result<Document> valid = read(into.path()); !valid) {
    Problems problems = valid.problems();
    for (Problem& problem : problems) {
      const std::string within = into.path().string();
      if (problem.at.rfind(within, 0) == 0) problem.at = file.string() + ": " + problem.at.substr(within.size());
    }
    return problems;
  }
  for (const char* part : kFilledFolders) fs::create_directory(into.path() / part, error);
  const Result<Done> placed = into.place();
  return placed ? packed : Result<Packed>(placed.problems());
}

}  // namespace farflung::project
