#include "server/afterwards.hpp"

#include <utility>

namespace farflung::server {

Afterwards::~Afterwards() {
  {
    const std::lock_guard lock(mutex_);
    leaving_ = true;
  }
  wake_.notify_all();
  thread_.join();
}

void Afterwards::add(std::function<void()> task) {
  {
    const std::lock_guard lock(mutex_);
    tasks_.push_back(std::move(task));
  }
  wake_.notify_one();
}

void Afterwards::work() {
  std::unique_lock lock(mutex_);
  for (;;) {
    wake_.wait(lock, [this] { return leaving_ || !tasks_.empty(); });
    if (tasks_.empty()) return;
    const std::function<void()> task = std::move(tasks_.front());
    tasks_.pop_front();
    lock.unlock();
    task();
    lock.lock();
  }
}

}  // namespace farflung::server
