// What is told to every page that looks at a quilt, as it happens (text/event-stream of the HTML standard).
#pragma once

#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

namespace farflung::server {

/// One page's events, waiting to be sent. Bounded whatever the page does: of what changes by the second only the
/// latest is kept, and where too much else waits the page is told to look again.
class Subscription {
 public:
  /// Takes up to `most` bytes that are to be sent. Where there are none `wait` is called, under the same lock as
  /// everything that is told.
  std::size_t take(char* bytes, std::size_t most, const std::function<void()>& wait);

  /// Who sends says how it is woken, or that it has gone.
  void on_news(std::function<void()> wake);

  void tell(const std::string& kind, std::shared_ptr<const std::string> text, bool latest_only);
  void beat();  ///< something to send, so that a page that has gone is noticed
  void end();
  bool ended() const;

 private:
  struct Waiting {
    std::string kind;
    std::shared_ptr<const std::string> text;  ///< null: a beat
  };
  void add(Waiting waiting);
  void wake();

  mutable std::mutex mutex_;
  std::deque<Waiting> waiting_;
  std::string sending_;
  std::size_t sent_ = 0;
  std::function<void()> wake_;
  bool asleep_ = false;
  bool ended_ = false;
};

/// Who listens to which quilt.
class Events {
 public:
  /// None where there are as many as may be.
  std::shared_ptr<Subscription> subscribe(const std::string& quilt);

  /// `latest_only`: one that still waits to be sent is replaced by this one.
  void tell(const std::string& quilt, const std::string& kind, std::string text, bool latest_only = false);

  /// Whether any page looks at the quilt.
  bool anyone(const std::string& quilt) const;
  void beat();
  void end();

 private:
  void sweep();

  mutable std::mutex mutex_;
  std::map<std::string, std::vector<std::weak_ptr<Subscription>>> by_quilt_;
  bool ended_ = false;
};

}  // namespace farflung::server
