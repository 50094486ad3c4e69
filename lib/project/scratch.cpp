#include "project/scratch.hpp"

#include <cerrno>
#include <system_error>
#include <utility>

#include <fcntl.h>
#include <unistd.h>

namespace farflung::project {

Scratch::~Scratch() {
  if (file_ >= 0) ::close(file_);
}

Scratch::Piece Scratch::put(std::string bytes) {
  if (!std::exchange(tried_, true)) file_ = ::open(folder_.c_str(), O_TMPFILE | O_RDWR | O_CLOEXEC, 0600);
  Piece piece{end_, bytes.size(), {}};
  for (std::uint64_t done = 0; done < bytes.size();) {
    const ssize_t n =
        file_ < 0 ? -1 : ::pwrite(file_, bytes.data() + done, bytes.size() - done, static_cast<off_t>(end_ + done));
    if (n <= 0) return {0, 0, std::move(bytes)};
    done += static_cast<std::uint64_t>(n);
  }
  end_ += bytes.size();
  return piece;
}

Result<std::string> Scratch::get(const Piece& piece) const {
  if (!piece.held.empty()) return piece.held;
  std::string bytes(piece.size, '\0');
  for (std::uint64_t done = 0; done < piece.size;) {
    const ssize_t n = ::pread(file_, bytes.data() + done, bytes.size() - done, static_cast<off_t>(piece.at + done));
    if (n <= 0) {
      return system_problem(folder_.string(), "what was put by on the disk cannot be read: " +
                                                  std::generic_category().message(n < 0 ? errno : EIO));
    }
    done += static_cast<std::uint64_t>(n);
  }
  return bytes;
}

}  // namespace farflung::project
