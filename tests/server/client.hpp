// A browser's part, played over a plain socket, so that it can also do what no browser would.
#pragma once

#include <chrono>
#include <filesystem>
#include <map>
#include <string>

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <nlohmann/json.hpp>
#include <poll.h>
#include <stdlib.h>
#include <sys/socket.h>
#include <unistd.h>

#include "server/server.hpp"

namespace farflung::server {

using Json = nlohmann::ordered_json;

/// A connection to a port of this machine.
class Wire {
 public:
  explicit Wire(int port) {
    socket_ = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    open_ = ::connect(socket_, reinterpret_cast<sockaddr*>(&address), sizeof address) == 0;
    const int at_once = 1;
    ::setsockopt(socket_, IPPROTO_TCP, TCP_NODELAY, &at_once, sizeof at_once);
  }
  ~Wire() { ::close(socket_); }
  Wire(const Wire&) = delete;
  Wire& operator=(const Wire&) = delete;

  bool open() const { return open_; }

  /// False where the other side has closed.
  bool send(const std::string& bytes) const {
    std::size_t sent = 0;
    while (sent < bytes.size()) {
      const ssize_t count = ::send(socket_, bytes.data() + sent, bytes.size() - sent, MSG_NOSIGNAL);
      if (count <= 0) return false;
      sent += static_cast<std::size_t>(count);
    }
    return true;
  }

  /// Whatever comes until `enough` says so, the other side closes, or the time is over.
  template <typename Enough>
  std::string receive(const Enough& enough, int milliseconds = 20'000) {
    const auto until = std::chrono::steady_clock::now() + std::chrono::milliseconds(milliseconds);
    while (!enough(got_)) {
      const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - std::chrono::steady_clock::now());
      pollfd waiting{socket_, POLLIN, 0};
      if (left.count() <= 0 || ::poll(&waiting, 1, static_cast<int>(left.count())) <= 0) break;
      char bytes[65536];
      const ssize_t count = ::recv(socket_, bytes, sizeof bytes, 0);
      if (count <= 0) {
        closed_ = true;
        break;
      }
      got_.append(bytes, static_cast<std::size_t>(count));
    }
    return got_;
  }

  std::string until_closed(int milliseconds = 20'000) {
    return receive([](const std::string&) { return false; }, milliseconds);
  }
  bool closed() const { return closed_; }

 private:
  int socket_ = -1;
  bool open_ = false, closed_ = false;
  std::string got_;
};

struct Reply {
  int status = 0;
  std::map<std::string, std::string> headers;  ///< names in small letters
  std::string body;

  Json json() const { return Json::parse(body, nullptr, false); }
};

inline Reply reply_in(const std::string& bytes) {
  Reply reply;
  const std::size_t end = bytes.find("\r\n\r\n");
  if (bytes.rfind("HTTP/1.1 ", 0) != 0 || end == std::string::npos) return reply;
  reply.status = std::stoi(bytes.substr(9, 3));
  std::size_t at = bytes.find("\r\n") + 2;
  while (at < end) {
    const std::size_t line = bytes.find("\r\n", at);
    const std::size_t colon = bytes.find(':', at);
    std::string name = bytes.substr(at, colon - at);
    for (char& c : name) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    reply.headers[name] = bytes.substr(colon + 2, line - colon - 2);
    at = line + 2;
  }
  reply.body = bytes.substr(end + 4);
  return reply;
}

/// A server on a folder that goes with it, and a browser that has been let in.
class Visit {
 public:
  Visit() {
    std::string name = (std::filesystem::temp_directory_path() / "farflung-XXXXXX").string();
    folder_ = ::mkdtemp(name.data());
    open();
  }
  ~Visit() {
    server_.reset();
    std::filesystem::remove_all(folder_);
  }
  Visit(const Visit&) = delete;
  Visit& operator=(const Visit&) = delete;

  /// Opened again on the same folder, as after a crash.
  void open() {
    server_.reset();
    auto opened = Server::open({folder_.string(), 0, false});
    if (!opened) throw std::runtime_error(opened.problems().front().text());
    server_ = std::move(*opened);
    const std::string address = server_->address();
    key_ = address.substr(address.find("?key=") + 5);
    const Reply entered = ask("GET", "/?key=" + key_, "", {}, false);
    const std::string cookie = entered.headers.count("set-cookie") != 0 ? entered.headers.at("set-cookie") : "";
    cookie_ = cookie.substr(0, cookie.find(';'));
  }

  /// The folder stays as it is.
  void close() { server_.reset(); }

  const std::filesystem::path& folder() const { return folder_; }
  int port() const { return server_->port(); }
  const std::string& key() const { return key_; }
  const std::string& cookie() const { return cookie_; }
  std::string host() const { return "127.0.0.1:" + std::to_string(port()); }
  std::string origin() const { return "http://" + host(); }

  /// The first lines of a request as our own page sends it, without the empty line that ends them.
  std::string lines(const std::string& method, const std::string& path, bool known = true) const {
    std::string text = method + " " + path + " HTTP/1.1\r\nHost: " + host() + "\r\nSec-Fetch-Site: same-origin\r\n";
    if (method != "GET") text += "Origin: " + origin() + "\r\n";
    if (known) text += "Cookie: " + cookie_ + "\r\n";
    return text;
  }

  Reply ask(const std::string& method, const std::string& path, const std::string& body = "",
            const std::string& more = "", bool known = true) const {
    Wire wire(port());
    wire.send(lines(method, path, known) + more +
              "Connection: close\r\nContent-Length: " + std::to_string(body.size()) + "\r\n\r\n" + body);
    return reply_in(wire.until_closed());
  }

  Json get(const std::string& path) const { return ask("GET", path).json(); }
  Reply post(const std::string& path, const Json& json) const { return ask("POST", path, json.dump()); }

  /// What a run came to, once it is over.
  Json finished(const std::string& quilt, const std::string& id) const {
    for (int time = 0; time < 20'000; ++time) {  // minutes for a photograph under ThreadSanitizer
      Json run = get("/quilts/" + quilt + "/runs/" + id);
      const std::string state = run.value("state", "");
      if (state != "waiting" && state != "running") return run;
      ::usleep(50'000);
    }
    return {};
  }

  /// A quilt of twelve blocks and six prints typed by their colours, arranged.
  void make_quilt(const std::string& name = "harbour") const {
    EXPECT_EQ(post("/quilts", {{"name", name}, {"pattern", "square"}, {"size", "24x32"}, {"block", "8"}}).status, 201);
    const std::map<std::string, std::string> prints = {{"Kelp", "#28503c"},    {"Foghorn", "#b03028"},
                                                       {"Buoy", "#e0a020"},    {"Gannet", "#f0ece0"},
                                                       {"Slipway", "#708090"}, {"Lantern", "#304880"}};
    for (const auto& [print, colour] : prints) {
      EXPECT_EQ(post("/quilts/" + name + "/prints", {{"name", print}, {"colour", colour}}).status, 201);
    }
    const Json run = post("/quilts/" + name + "/runs", {{"does", "arrange"}, {"effort", 0.05}}).json();
    EXPECT_EQ(finished(name, run.value("id", "")).value("state", ""), "done");
  }

  std::string version(const std::string& quilt = "harbour") const {
    return get("/quilts/" + quilt).value("version", "");
  }

  Reply edit(const Json& edit, const std::string& on_version, const std::string& quilt = "harbour") const {
    return post("/quilts/" + quilt + "/edits",
                {{"version", on_version}, {"by", "this tab"}, {"edits", Json::array({edit})}});
  }

 private:
  std::filesystem::path folder_;
  std::unique_ptr<Server> server_;
  std::string key_, cookie_;
};

}  // namespace farflung::server
