#include "server/events.hpp"

#include <algorithm>
#include <cstring>
#include <utility>

#include "base/limits.hpp"

namespace farflung::server {
std::size_t Subscription::take(char* bytes, std::size_t most, const std::function<void()>& wait) {
  const std::lock_guard lock(mutex_);
  if (sent_ == sending_.size()) {
    sending_.clear();
    sent_ = 0;
    if (!waiting_.empty()) {
      const Waiting next = std::move(waiting_.front());
      waiting_.pop_front();
      sending_ = next.text ? "event: " + next.kind + "\ndata: " + *next.text + "\n\n" : ":\n\n";
    }
  }
  if (sending_.empty()) {
    if (!ended_) {
      asleep_ = true;
      wait();
    }
    return 0;
  }
  const std::size_t count = std::min(most, sending_.size() - sent_);
  std::memcpy(bytes, sending_.data() + sent_, count);
  sent_ += count;
  return count;
}

void Subscription::on_news(std::function<void()> wake) {
  const std::lock_guard lock(mutex_);
  wake_ = std::move(wake);
  asleep_ = false;
}

void Subscription::tell(const std::string& kind, std::shared_ptr<const std::string> text, bool latest_only) {
  const std::lock_guard lock(mutex_);
  if (ended_) return;
  if (latest_only) {
    waiting_.erase(std::remove_if(waiting_.begin(), waiting_.end(), [&](const Waiting& w) { return w.kind == kind; }),
                   waiting_.end());
  }
  add({kind, std::move(text)});
}

void Subscription::add(Waiting waiting) {
  if (waiting_.size() >= limits::kWaitingEvents) {
    waiting_.clear();
    waiting = {"again", std::make_shared<const std::string>("{}")};
  }
  waiting_.push_back(std::move(waiting));
  wake();
}

void Subscription::beat() {
  const std::lock_guard lock(mutex_);
  if (waiting_.empty() && !ended_) add({});
}

void Subscription::end() {
  const std::lock_guard lock(mutex_);
  ended_ = true;
  wake();
}

bool Subscription::ended() const {
  const std::lock_guard lock(mutex_);
  return ended_;
}

void Subscription::wake() {
  if (!asleep_ || !wake_) return;
  asleep_ = false;
  wake_();
}

std::shared_ptr<Subscription> Events::subscribe(const std::string& quilt) {
  const std::lock_guard lock(mutex_);
  sweep();
  std::size_t all = 0;
  for (const auto& [name, list] : by_quilt_) all += list.size();
  if (ended_ || all >= limits::kEventStreams) return nullptr;
  auto made = std::make_shared<Subscription>();
  by_quilt_[quilt].push_back(made);
  return made;
}

void Events::sweep() {
  for (auto it = by_quilt_.begin(); it != by_quilt_.end();) {
    auto& list = it->second;
    list.erase(std::remove_if(list.begin(), list.end(), [](const auto& one) { return one.expired(); }), list.end());
    it = list.empty() ? by_quilt_.erase(it) : std::next(it);
  }
}

void Events::tell(const std::string& quilt, const std::string& kind, std::string text, bool latest_only) {
  const auto shared = std::make_shared<const std::string>(std::move(text));
  const std::lock_guard lock(mutex_);
  const auto found = by_quilt_.find(quilt);
  if (found == by_quilt_.end()) return;
  for (const auto& one : found->second) {
    if (const auto subscription = one.lock()) subscription->tell(kind, shared, latest_only);
  }
}

bool Events::anyone(const std::string& quilt) const {
  const std::lock_guard lock(mutex_);
  const auto found = by_quilt_.find(quilt);
  return found != by_quilt_.end() &&
         std::any_of(found->second.begin(), found->second.end(), [](const auto& one) { return !one.expired(); });
}

void Events::beat() {
  const std::lock_guard lock(mutex_);
  sweep();
  for (const auto& [name, list] : by_quilt_) {
    for (const auto& one : list) {
      if (const auto subscription = one.lock()) subscription->beat();
    }
  }
}

void Events::end() {
  const std::lock_guard lock(mutex_);
  ended_ = true;
  for (const auto& [name, list] : by_quilt_) {
    for (const auto& one : list) {
      if (const auto subscription = one.lock()) subscription->end();
    }
  }
}

}  // namespace farflung::server
