#include "project/disk.hpp"

#include <atomic>
#include <cerrno>
#include <cstring>
#include <system_error>
#include <utility>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace farflung::project::disk {
namespace {

constexpr const char* kTemporary = ".farflung-tmp";

Problem failed(const std::filesystem::path& file, const std::string& doing) {
  const int why = errno;
  if (why == ENAMETOOLONG) {
    return input_problem(file.string(), doing + ": the name is too long", "give a shorter one");
  }
  if (why == ENOTDIR) {
    return input_problem(file.string(), doing + ": a part of its path is no folder", "check its name and folder");
  }
  std::string remedy;
  if (why == ENOSPC || why == EDQUOT) {
    remedy = "free some space and do it again; nothing was changed";
  } else if (why == EACCES || why == EPERM || why == EROFS) {
    remedy = "choose a folder that you may write to";
  }
  return system_problem(file.string(), doing + ": " + std::generic_category().message(why), remedy);
}

/// An open file that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;

  int number() const { return number_; }
  bool open() const { return number_ >= 0; }
  bool close() { return ::close(std::exchange(number_, -1)) == 0; }

 private:
  int number_;
};

bool write_all(int descriptor, const char* bytes, std::size_t count) {
  std::size_t written = 0;
  while (written < count) {
    const ssize_t n = ::write(descriptor, bytes + written, count - written);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    written += static_cast<std::size_t>(n);
  }
  return true;
}

bool sync_folder(const std::filesystem::path& folder) {
  const Descriptor descriptor(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  return descriptor.open() && ::fsync(descriptor.number()) == 0;
}

std::filesystem::path folder_of(const std::filesystem::path& file) {
  return file.has_parent_path() ? file.parent_path() : std::filesystem::path(".");
}

/// A device or a pipe stands there: a rename would put a file in its place.
bool takes_bytes_as_they_come(const std::filesystem::path& file) {
  std::error_code ignored;
  const std::filesystem::file_status status = std::filesystem::status(file, ignored);
  return std::filesystem::is_other(status);
}

Result<Done> send_to(const std::filesystem::path& file, const Fill& fill) {
  Descriptor descriptor(::open(file.c_str(), O_WRONLY | O_CLOEXEC));
  if (!descriptor.open()) return failed(file, "cannot be written");
  if (Result<Done> filled = fill(descriptor.number()); !filled) return filled;
  if (!descriptor.close()) return failed(file, "cannot be written");
  return Done{};
}

/// A name beside the file that no other writer has: the process and a count make it.
std::string temporary_name(const std::filesystem::path& file) {
  static std::atomic<unsigned> count{0};
  return "." + file.filename().string().substr(0, 100) + "." + std::to_string(::getpid()) + "-" +
         std::to_string(++count) + kTemporary;
}

}  // namespace

Result<std::string> read_file(const std::filesystem::path& file, std::uint64_t most) {
  const Descriptor descriptor(::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (!descriptor.open()) {
    Problem problem = failed(file, "cannot be read");
    if (errno == ENOENT || errno == ENOTDIR) {
      problem.kind = Problem::Kind::input;
      problem.cause = "no such file";
      problem.remedy = "check its name and folder";
    }
    return problem;
  }
  struct stat status {};
  if (::fstat(descriptor.number(), &status) != 0) return failed(file, "cannot be read");
  if (!S_ISREG(status.st_mode)) return input_problem(file.string(), "not a plain file");
  if (static_cast<std::uint64_t>(status.st_size) > most) {
    return input_problem(file.string(), "larger than " + std::to_string(most) + " bytes", "a quilt needs far less");
  }
  std::string bytes(static_cast<std::size_t>(status.st_size), '\0');
  std::size_t got = 0;
  while (got < bytes.size()) {
    const ssize_t n = ::read(descriptor.number(), bytes.data() + got, bytes.size() - got);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return failed(file, "cannot be read");
    if (n == 0) break;
    got += static_cast<std::size_t>(n);
  }
  bytes.resize(got);
  return bytes;
}

Result<Done> replace_file(const std::filesystem::path& file, const std::string& bytes) {
  return replace_file(file, [&](int descriptor) -> Result<Done> {
    if (write_all(descriptor, bytes.data(), bytes.size())) return Done{};
    return failed(file, "cannot be written");
  });
}

Result<Done> replace_file(const std::filesystem::path& file, const Fill& fill) {
  if (takes_bytes_as_they_come(file)) return send_to(file, fill);
  const std::filesystem::path folder = folder_of(file);
  const std::filesystem::path temporary = folder / temporary_name(file);
  Descriptor descriptor(::open(temporary.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, 0666));
  if (!descriptor.open()) return failed(file, "cannot be written");
  const auto abandon = [&](const std::string& doing) {
    Problem problem = failed(file, doing);
    ::unlink(temporary.c_str());
    return problem;
  };
  if (Result<Done> filled = fill(descriptor.number()); !filled) {
    ::unlink(temporary.c_str());
    return filled;
  }
  if (::fsync(descriptor.number()) != 0) return abandon("cannot be brought to the disk");
  if (!descriptor.close()) return abandon("cannot be written");
  if (::rename(temporary.c_str(), file.c_str()) != 0) return abandon("cannot be replaced");
  if (!sync_folder(folder)) return failed(file, "was replaced, but the folder cannot be brought to the disk");
  return Done{};
}

Result<Done> make_folder(const std::filesystem::path& folder) {
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  errno = error.value();
  if (error) return failed(folder, "the folder cannot be made");
  return Done{};
}

Result<Done> remove_file(const std::filesystem::path& file) {
  if (::unlink(file.c_str()) != 0 && errno != ENOENT) return failed(file, "cannot be removed");
  return Done{};
}

bool is_temporary(const std::filesystem::path& file) { return file.extension() == kTemporary; }

void sweep(const std::filesystem::path& folder) {
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator(folder, error)) {
    if (is_temporary(entry.path())) std::filesystem::remove(entry.path(), error);
  }
}

NewFile::NewFile(const std::filesystem::path& file) : file_(file) {
  descriptor_ = ::open(file.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0666);
  if (descriptor_ >= 0) return;
  existed_ = errno == EEXIST;
  fail();
}

NewFile::~NewFile() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

bool NewFile::fail() {
  problem_ = failed(file_, "cannot be written");
  return false;
}

bool NewFile::write(const char* bytes, std::size_t count) { return write_all(descriptor_, bytes, count) || fail(); }

bool NewFile::finish() {
  const bool synced = ::fsync(descriptor_) == 0;
  return (::close(std::exchange(descriptor_, -1)) == 0 && synced) || fail();
}

NewFolder::NewFolder(std::filesystem::path folder) : folder_(std::move(folder)) {
  const std::filesystem::path temporary = folder_of(folder_) / temporary_name(folder_);
  if (::mkdir(temporary.c_str(), 0777) == 0) {
    path_ = temporary;
  } else {
    problem_ = failed(folder_, "the folder cannot be made");
  }
}

NewFolder::~NewFolder() {
  std::error_code error;
  if (made()) std::filesystem::remove_all(path_, error);
}

Result<Done> NewFolder::place() const {
  if (!sync_folder(path_)) return failed(folder_, "cannot be brought to the disk");
  if (::rename(path_.c_str(), folder_.c_str()) != 0) return failed(folder_, "the folder cannot be made");
  if (!sync_folder(folder_of(folder_))) return failed(folder_, "was made, but cannot be brought to the disk");
  return Done{};
}

}  // namespace farflung::project::disk
