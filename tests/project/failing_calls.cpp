#include "project/failing_calls.hpp"

#include <cstdarg>
#include <cstddef>

#include <fcntl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

namespace farflung::project {

Failure failure;

namespace {

bool fails(const char* call, bool changes_files = true) {
  if (failure.calls_until == 0 || !(changes_files || failure.all) || --failure.calls_until > 0) return false;
  failure.failed = call;
  errno = failure.error;
  return true;
}

}  // namespace
}  // namespace farflung::project

using farflung::project::fails;

// These stand before the C library's own for everything in this program.
extern "C" {
ssize_t write(int file, const void* bytes, std::size_t count) {
  return fails("write") ? -1 : syscall(SYS_write, file, bytes, count);
}
ssize_t read(int file, void* bytes, std::size_t count) {
  return fails("read", false) ? -1 : syscall(SYS_read, file, bytes, count);
}
// Nothing here cuts the power, so nothing need wait for the disk.
int fsync(int) { return fails("fsync") ? -1 : 0; }
int rename(const char* from, const char* to) noexcept {
  return fails("rename") ? -1 : static_cast<int>(syscall(SYS_rename, from, to));
}
int unlink(const char* file) noexcept { return fails("unlink") ? -1 : static_cast<int>(syscall(SYS_unlink, file)); }
int mkdir(const char* folder, mode_t mode) noexcept {
  return fails("mkdir", false) ? -1 : static_cast<int>(syscall(SYS_mkdir, folder, mode));
}
int fstat(int file, struct stat* facts) noexcept {
  return fails("fstat", false) ? -1 : static_cast<int>(syscall(SYS_fstat, file, facts));
}
int close(int file) {
  const int done = static_cast<int>(syscall(SYS_close, file));
  return fails("close", false) ? -1 : done;
}
int open(const char* file, int flags, ...) {
  va_list more;
  va_start(more, flags);
  const int mode = (flags & O_CREAT) != 0 ? va_arg(more, int) : 0;
  va_end(more);
  const bool writes = (flags & (O_WRONLY | O_RDWR)) != 0;
  return fails("open", writes) ? -1 : static_cast<int>(syscall(SYS_openat, AT_FDCWD, file, flags, mode));
}
}
