// One request and its response as plain values, and who listens for them.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/limits.hpp"
#include "base/result.hpp"
#include "server/events.hpp"

struct sockaddr;

namespace farflung::server {

/// The first lines of a request: all that is known before its body comes.
struct Head {
  std::string method;                          ///< "GET", "POST" ...
  std::string path;                            ///< as it was sent, without the query
  std::vector<std::string> parts;              ///< of the path, between its slashes, percent-decoded
  std::map<std::string, std::string> query;    ///< percent-decoded
  std::map<std::string, std::string> headers;  ///< names in small letters; of a name given twice both, ", " between
  std::string peer;                            ///< the address that it came from: "127.0.0.1"
  bool repeated = false;                       ///< a header that may stand once stands twice: Host, Origin, Cookie ...

  /// Empty where it was not sent; `name` in small letters.
  std::string header(const std::string& name) const;
  std::string asked(const std::string& name, const std::string& otherwise = {}) const;  ///< of the query
};

/// A request whose body has come whole.
struct Request {
  Head head;
  std::string body;            ///< where it was taken into memory
  std::filesystem::path file;  ///< where it was taken to a file; gone once it is answered, unless moved away
};

/// Sent once, from `bytes`, `file` or `events`.
struct Response {
  int status = 200;
  std::string type = "application/json";
  std::string bytes;
  std::filesystem::path file;            ///< where given, sent in place of the bytes
  std::shared_ptr<const void> holds;     ///< let go once it is sent: the folder that the file lies in
  std::shared_ptr<Subscription> events;  ///< where given, sent for as long as both sides stay
  std::vector<std::pair<std::string, std::string>> headers;  ///< beside those that every response has
};

/// What becomes of a request once its first lines are read.
struct Admission {
  std::optional<Response> refused;  ///< answered at once, its body unread
  std::uint64_t most = 0;           ///< bytes of body
  bool to_file = false;             ///< the body goes to a file, not into memory
  bool at_once = false;             ///< answered by the listener's own thread: takes no time
};

/// How to listen, and whom to ask on the way.
struct Listening {
  int port = 0;                                     ///< 0: any that is free
  bool everywhere = false;                          ///< on every address of the machine, not on loopback alone
  std::filesystem::path arriving;                   ///< the folder for bodies that go to files
  std::function<bool(const std::string&)> welcome;  ///< by peer's address, before a byte is read; none: everyone
  std::function<Admission(const Head&)> admit;      ///< called on the listener's thread
  std::function<Response(Request&)> answer;         ///< called on one of the workers' threads, several at a time
  /// Threads that answer.
  int workers = 4;
  int connections = limits::kConnections;
  unsigned patience = limits::kPatienceSeconds;   ///< that a connection may be idle; event streams may be for ever
  std::size_t memory = limits::kConnectionBytes;  ///< bytes of each connection: longer headers are refused
};

/// Listens from when it is made until it goes. Guarantees: a body is never read beyond its limit (and a little that is
/// thrown away), a slow reader or writer holds up nobody else, a request is answered once or its connection is closed.
class Listener {
 public:
  static Result<std::unique_ptr<Listener>> open(Listening how);
  virtual ~Listener() = default;

  virtual int port() const = 0;
};

}  // namespace farflung::server
