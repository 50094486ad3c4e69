// What can wait until an answer is on its way.
#pragma once

#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>

namespace farflung::server {

/// Does what it is given in order, one after the other, on a thread of its own.
class Afterwards {
 public:
  Afterwards() : thread_([this] { work(); }) {}
  ~Afterwards();  ///< does what is left first
  Afterwards(const Afterwards&) = delete;
  Afterwards& operator=(const Afterwards&) = delete;

  void add(std::function<void()> task);

 private:
  void work();

  std::mutex mutex_;
  std::condition_variable wake_;
  std::deque<std::function<void()>> tasks_;
  bool leaving_ = false;
  std::thread thread_;  ///< last: it uses the others
};

}  // namespace farflung::server
