#include <algorithm>
#include <array>
#include <atomic>
#include <cerrno>
#include <condition_variable>
#include <csignal>
#include <cstdarg>
#include <cstdlib>
#include <cstring>
#include <deque>
#include <mutex>
#include <system_error>
#include <thread>

#include <arpa/inet.h>
#include <fcntl.h>
#include <microhttpd.h>
#include <netinet/in.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/limits.hpp"
#include "server/http.hpp"
#include "server/url.hpp"

namespace farflung::server {
namespace {

std::string text_of_address(const sockaddr* address) {
  std::array<char, INET6_ADDRSTRLEN> text{};
  if (address != nullptr && address->sa_family == AF_INET) {
    ::inet_ntop(AF_INET, &reinterpret_cast<const sockaddr_in*>(address)->sin_addr, text.data(), text.size());
  } else if (address != nullptr && address->sa_family == AF_INET6) {
    ::inet_ntop(AF_INET6, &reinterpret_cast<const sockaddr_in6*>(address)->sin6_addr, text.data(), text.size());
  }
  return text.data();
}

Response plain(int status, const std::string& says) {
  return {status, "application/json", "{\"schema_version\":1,\"problems\":[{\"at\":\"\",\"says\":\"" + says + "\"}]}"};
}

/// One request on its way through.
struct Exchange {
  enum class Stage { body, working, answered };

  Request request;
  Admission admission;
  Stage stage = Stage::body;
  std::uint64_t received = 0;
  int file = -1;
  bool too_long = false;
  std::string failed;  // why the body could not be stored
  Response response;

  Exchange() = default;
  Exchange(const Exchange&) = delete;
  Exchange& operator=(const Exchange&) = delete;
  ~Exchange() {
    close_file();
    if (request.file.empty()) return;
    std::error_code ignored;
    std::filesystem::remove(request.file, ignored);
  }

  void close_file() {
    if (file >= 0) ::close(file);
    file = -1;
  }
};

MHD_Result add_header(void* into, MHD_ValueKind, const char* name, const char* value) {
  Head& head = *static_cast<Head*>(into);
  std::string small = name;
  for (char& c : small) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  const auto [place, fresh] = head.headers.try_emplace(small, value != nullptr ? value : "");
  if (fresh) return MHD_YES;
  place->second += std::string(", ") + (value != nullptr ? value : "");
  for (const char* once : {"host", "origin", "cookie", "sec-fetch-site", "content-length", "transfer-encoding"}) {
    if (small == once) head.repeated = true;
  }
  return MHD_YES;
}

class Microhttpd final : public Listener {
 public:
  explicit Microhttpd(Listening how) : how_(std::move(how)) {}

  ~Microhttpd() override {
    stopping_ = true;
    if (daemon_ != nullptr) {
      const MHD_socket socket = MHD_quiesce_daemon(daemon_);
      if (socket != MHD_INVALID_SOCKET) ::close(socket);
    }
    {
      const std::lock_guard lock(mutex_);
      leaving_ = true;
    }
    wake_.notify_all();
    for (std::thread& worker : workers_) worker.join();
    if (daemon_ != nullptr) MHD_stop_daemon(daemon_);
  }

  Result<Done> start() {
    std::signal(SIGPIPE, SIG_IGN);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(how_.port));
    address.sin_addr.s_addr = htonl(how_.everywhere ? INADDR_ANY : INADDR_LOOPBACK);
    daemon_ = MHD_start_daemon(
        MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_EPOLL | MHD_ALLOW_SUSPEND_RESUME, 0, &Microhttpd::accept, this,
        &Microhttpd::access, this, MHD_OPTION_SOCK_ADDR, &address, MHD_OPTION_CONNECTION_LIMIT,
        static_cast<unsigned>(how_.connections), MHD_OPTION_CONNECTION_TIMEOUT, how_.patience,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, how_.memory, MHD_OPTION_NOTIFY_COMPLETED, &Microhttpd::completed, this,
        MHD_OPTION_UNESCAPE_CALLBACK, &Microhttpd::leave_escaped, nullptr, MHD_OPTION_STRICT_FOR_CLIENT, 1,
        MHD_OPTION_EXTERNAL_LOGGER, &Microhttpd::say_nothing, nullptr, MHD_OPTION_END);
    if (daemon_ == nullptr) {
      const int why = errno;
      return system_problem("port " + std::to_string(how_.port),
                            "cannot be listened on: " + std::generic_category().message(why),
                            "give another with --port, or none for any that is free");
    }
    const MHD_DaemonInfo* info = MHD_get_daemon_info(daemon_, MHD_DAEMON_INFO_BIND_PORT);
    port_ = info != nullptr ? info->port : how_.port;
    for (int k = 0; k < how_.workers; ++k) workers_.emplace_back([this] { work(); });
    return Done{};
  }

  int port() const override { return port_; }

 private:
  static void say_nothing(void*, const char*, va_list) {}

  // Paths and queries are taken apart before they are unescaped, so that "%2F" does not become a slash too early.
  static std::size_t leave_escaped(void*, MHD_Connection*, char* text) { return std::strlen(text); }

  static MHD_Result accept(void* self, const sockaddr* address, socklen_t) {
    const auto& how = static_cast<Microhttpd*>(self)->how_;
    return !how.welcome || how.welcome(text_of_address(address)) ? MHD_YES : MHD_NO;
  }

  static void completed(void*, MHD_Connection*, void** exchange, MHD_RequestTerminationCode) {
    delete static_cast<Exchange*>(*exchange);
    *exchange = nullptr;
  }

  static MHD_Result access(void* self, MHD_Connection* connection, const char* url, const char* method, const char*,
                           const char* bytes, std::size_t* count, void** exchange) {
    return static_cast<Microhttpd*>(self)->on_access(connection, url, method, bytes, count,
                                                     reinterpret_cast<Exchange**>(exchange));
  }

  MHD_Result on_access(MHD_Connection* connection, const char* url, const char* method, const char* bytes,
                       std::size_t* count, Exchange** kept) {
    if (*kept == nullptr) {
      *kept = new Exchange;
      return begin(connection, url, method, **kept);
    }
    Exchange& exchange = **kept;
    if (exchange.stage == Exchange::Stage::answered) return send(connection, exchange.response);
    if (*count > 0) {
      const bool go_on = receive(exchange, bytes, *count);
      *count = 0;
      return go_on ? MHD_YES : MHD_NO;
    }
    return dispatch(connection, exchange);
  }

  MHD_Result begin(MHD_Connection* connection, const char* url, const char* method, Exchange& exchange) {
    Head& head = exchange.request.head;
    head.method = method;
    head.path = url;
    MHD_get_connection_values(connection, MHD_HEADER_KIND, &add_header, &head);
    MHD_get_connection_values(
        connection, MHD_GET_ARGUMENT_KIND,
        [](void* into, MHD_ValueKind, const char* name, const char* value) {
          static_cast<Head*>(into)->query[unescaped(name, true)] = unescaped(value != nullptr ? value : "", true);
          return MHD_YES;
        },
        &head);
    const MHD_ConnectionInfo* info = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
    if (info != nullptr) head.peer = text_of_address(info->client_addr);
    head.parts = path_parts(head.path);
    exchange.admission = stopping_ ? Admission{plain(503, "the program is being closed")} : how_.admit(head);
    if (exchange.admission.refused) return send(connection, *exchange.admission.refused);
    const std::string length = head.header("content-length");
    // Whoever reads these two otherwise than we do sees another request begin: refused, and the connection closed.
    if (!length.empty() && !head.header("transfer-encoding").empty()) {
      return send(connection, plain(400, "a length and chunks were both given"));
    }
    if (!length.empty() && std::strtoull(length.c_str(), nullptr, 10) > exchange.admission.most) {
      return send(connection, plain(413, "this is too large"));
    }
    return MHD_YES;
  }

  bool receive(Exchange& exchange, const char* bytes, std::size_t count) {
    exchange.received += count;
    if (exchange.received > exchange.admission.most) {
      exchange.too_long = true;
      return exchange.received <= exchange.admission.most + limits::kGraceBytes;
    }
    if (!exchange.admission.to_file) {
      exchange.request.body.append(bytes, count);
      return true;
    }
    if (exchange.file < 0 && exchange.failed.empty()) open_file(exchange);
    while (count > 0 && exchange.failed.empty()) {
      const ssize_t written = ::write(exchange.file, bytes, count);
      if (written < 0 && errno == EINTR) continue;
      if (written <= 0) {
        exchange.failed = std::generic_category().message(errno);
        return true;
      }
      bytes += written;
      count -= static_cast<std::size_t>(written);
    }
    return true;
  }

  void open_file(Exchange& exchange) {
    std::string name = (how_.arriving / "body-XXXXXX").string();
    exchange.file = ::mkostemp(name.data(), O_CLOEXEC);
    if (exchange.file < 0) {
      exchange.failed = std::generic_category().message(errno);
    } else {
      exchange.request.file = name;
    }
  }

  MHD_Result dispatch(MHD_Connection* connection, Exchange& exchange) {
    exchange.close_file();
    if (exchange.too_long) return send(connection, plain(413, "this is too large"));
    if (!exchange.failed.empty()) return send(connection, plain(507, "it could not be stored: " + exchange.failed));
    if (exchange.admission.at_once) return send(connection, how_.answer(exchange.request));
    exchange.stage = Exchange::Stage::working;
    const std::lock_guard lock(mutex_);
    if (leaving_) return send(connection, plain(503, "the program is being closed"));
    MHD_suspend_connection(connection);
    asked_.push_back({connection, &exchange});
    wake_.notify_one();
    return MHD_YES;
  }

  void work() {
    std::unique_lock lock(mutex_);
    for (;;) {
      wake_.wait(lock, [this] { return leaving_ || !asked_.empty(); });
      if (asked_.empty()) return;
      const auto [connection, exchange] = asked_.front();
      asked_.pop_front();
      lock.unlock();
      exchange->response = how_.answer(exchange->request);
      exchange->stage = Exchange::Stage::answered;
      MHD_resume_connection(connection);
      lock.lock();
    }
  }

  static MHD_Result send(MHD_Connection* connection, Response& response) {
    MHD_Response* made = response.events          ? of_events(connection, response)
                         : !response.file.empty() ? of_file(response)
                                                  : of_bytes(response);
    if (made == nullptr) return MHD_NO;
    if (!response.type.empty()) MHD_add_response_header(made, MHD_HTTP_HEADER_CONTENT_TYPE, response.type.c_str());
    for (const auto& [name, value] : response.headers) MHD_add_response_header(made, name.c_str(), value.c_str());
    const MHD_Result queued = MHD_queue_response(connection, static_cast<unsigned>(response.status), made);
    MHD_destroy_response(made);
    return queued;
  }

  static MHD_Result send(MHD_Connection* connection, Response&& response) { return send(connection, response); }

  static MHD_Response* of_bytes(Response& response) {
    auto* bytes = new std::string(std::move(response.bytes));
    return MHD_create_response_from_buffer_with_free_callback_cls(
        bytes->size(), bytes->data(), [](void* held) { delete static_cast<std::string*>(held); }, bytes);
  }

  static MHD_Response* of_file(Response& response) {
    const int file = ::open(response.file.c_str(), O_RDONLY | O_CLOEXEC);
    struct stat facts {};
    if (file < 0 || ::fstat(file, &facts) != 0 || !S_ISREG(facts.st_mode)) {
      if (file >= 0) ::close(file);
      response = plain(404, "there is no such file");
      return of_bytes(response);
    }
    return MHD_create_response_from_fd64(static_cast<std::uint64_t>(facts.st_size), file);
  }

  struct Stream {
    MHD_Connection* connection;
    std::shared_ptr<Subscription> subscription;
  };

  static MHD_Response* of_events(MHD_Connection* connection, Response& response) {
    auto* stream = new Stream{connection, response.events};
    stream->subscription->on_news([connection] { MHD_resume_connection(connection); });
    return MHD_create_response_from_callback(
        MHD_SIZE_UNKNOWN, 8192,
        [](void* held, std::uint64_t, char* bytes, std::size_t most) -> ssize_t {
          auto* one = static_cast<Stream*>(held);
          const std::size_t taken =
              one->subscription->take(bytes, most, [one] { MHD_suspend_connection(one->connection); });
          return taken == 0 && one->subscription->ended() ? MHD_CONTENT_READER_END_OF_STREAM
                                                          : static_cast<ssize_t>(taken);
        },
        stream,
        [](void* held) {
          auto* one = static_cast<Stream*>(held);
          one->subscription->on_news({});
          delete one;
        });
  }

  struct Asked {
    MHD_Connection* connection;
    Exchange* exchange;
  };

  Listening how_;
  MHD_Daemon* daemon_ = nullptr;
  int port_ = 0;
  std::atomic<bool> stopping_{false};
  std::mutex mutex_;
  std::condition_variable wake_;
  std::deque<Asked> asked_;
  bool leaving_ = false;
  std::vector<std::thread> workers_;
};

}  // namespace

std::string Head::header(const std::string& name) const {
  const auto found = headers.find(name);
  return found == headers.end() ? "" : found->second;
}

std::string Head::asked(const std::string& name, const std::string& otherwise) const {
  const auto found = query.find(name);
  return found == query.end() ? otherwise : found->second;
}

Result<std::unique_ptr<Listener>> Listener::open(Listening how) {
  auto made = std::make_unique<Microhttpd>(std::move(how));
  if (const Result<Done> started = made->start(); !started) return started.problems();
  return std::unique_ptr<Listener>(std::move(made));
}

}  // namespace farflung::server
