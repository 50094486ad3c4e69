#include "project/hold.hpp"

#include <array>
#include <cerrno>
#include <ctime>
#include <system_error>
#include <thread>
#include <utility>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include "base/limits.hpp"
#include "project/disk.hpp"

namespace farflung::project {
namespace {

constexpr std::chrono::milliseconds kNap{20};

std::string machine() {
  std::array<char, 256> name{};
  return ::gethostname(name.data(), name.size() - 1) == 0 ? name.data() : "this machine";
}

std::string now_text() {
  const std::time_t now = std::time(nullptr);
  std::tm utc{};
  std::array<char, 64> text{};
  ::gmtime_r(&now, &utc);
  std::strftime(text.data(), text.size(), "%Y-%m-%d %H:%M:%S UTC", &utc);
  return text.data();
}

/// What the holder wrote of itself, one line; never trusted for anything but showing it.
std::string holder(const std::filesystem::path& lock) {
  const Result<std::string> text = disk::read_file(lock, 4096);
  std::string line = text ? text->substr(0, text->find('\n')) : "";
  for (char& c : line) c = c >= ' ' && c < 127 ? c : '?';
  return line.empty() ? "another program" : line;
}

Problem cannot_lock(const std::filesystem::path& folder) {
  const int why = errno;
  if (why == ENOENT || why == ENOTDIR) {
    return input_problem(folder.string(), "no such folder",
                         "name the folder of a quilt, or make one with farflung new");
  }
  return system_problem(folder.string(), "cannot be held for writing: " + std::generic_category().message(why),
                        "choose a folder that you may write to");
}

/// Says in the lock who has it. Only for people: where it cannot be written the lock holds all the same.
void sign(int lock, const std::string& who) {
  const std::string line =
      who + " (process " + std::to_string(::getpid()) + " on " + machine() + ") since " + now_text() + "\n";
  if (::ftruncate(lock, 0) == 0) static_cast<void>(::pwrite(lock, line.data(), line.size(), 0) + 1);
}

void sweep(const std::filesystem::path& folder) {
  for (const char* part : {"", "versions", "photos", "swatches", "sheets"}) disk::sweep(folder / part);
}

}  // namespace

Hold::Hold(Hold&& other) noexcept : folder_(std::move(other.folder_)), lock_(std::exchange(other.lock_, -1)) {}

Hold& Hold::operator=(Hold&& other) noexcept {
  std::swap(folder_, other.folder_);
  std::swap(lock_, other.lock_);
  return *this;
}

// The file stays: to remove it would let two programs lock two files of one name.
Hold::~Hold() {
  if (lock_ < 0) return;
  static_cast<void>(::ftruncate(lock_, 0) + 1);
  ::close(lock_);
}

Result<Hold> hold(const std::filesystem::path& folder, const std::string& who, std::chrono::milliseconds patience) {
  const std::filesystem::path file = folder / kLockName;
  const int lock = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666);
  if (lock < 0) return cannot_lock(folder);
  const auto deadline = std::chrono::steady_clock::now() + patience;
  while (::flock(lock, LOCK_EX | LOCK_NB) != 0) {
    if (errno != EWOULDBLOCK && errno != EINTR) {
      Problem problem = cannot_lock(folder);
      ::close(lock);
      return problem;
    }
    if (std::chrono::steady_clock::now() >= deadline) {
      ::close(lock);
      return system_problem(folder.string(), "the quilt is held by " + holder(file),
                            "wait until that is done, or end it; nothing was changed");
    }
    std::this_thread::sleep_for(kNap);
  }
  Hold held(folder, lock);
  sign(lock, who);
  sweep(folder);
  return held;
}

}  // namespace farflung::project
