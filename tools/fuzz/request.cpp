// Bytes sent over a connection to the page's server, the real one on a real socket, and whatever comes back. So that
// chance gets past the door, @HOST@ stands for the host, @COOKIE@ for the cookie of one who was let in, @VERSION@ for
// the quilt's version and @LENGTH@ for the bytes after the first empty line.
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include "fuzz/entries.hpp"
#include "fuzz/promise.hpp"
#include "photo/vips.hpp"
#include "project/document.hpp"
#include "server/server.hpp"

namespace farflung::fuzz {
namespace {

namespace fs = std::filesystem;

constexpr const char* kQuilt =
    R"({"format": "farflung-quilt", "version": 1, "title": "Harbour raffle",
        "prints": [{"id": "P01", "features": {"lab": [30, 0, 0]}}, {"id": "P02", "features": {"lab": [80, 0, 0]}}],
        "patterns": [{"id": "square", "width": 4, "height": 4, "slots": {"A": {}},
                      "patches": [{"slot": "A", "polygon": [[0, 0], [4, 0], [4, 4], [0, 4]]}]}],
        "setting": {"rows": 1, "columns": 2},
        "blocks": [{"id": "B1", "pattern": "square", "prints": {"A": "P01"}},
                   {"id": "B2", "pattern": "square", "prints": {"A": "P02"}}],
        "layout": {"cells": [["B1", "B2"]], "turns": [[0, 0]]}})";

class Connection {
 public:
  explicit Connection(int port) : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    promise(::connect(socket_, reinterpret_cast<sockaddr*>(&address), sizeof address) == 0, "the server listens");
    // Closed at once, with nothing left waiting in the kernel: there are thousands.
    const linger none{1, 0};
    ::setsockopt(socket_, SOL_SOCKET, SO_LINGER, &none, sizeof none);
  }
  ~Connection() { ::close(socket_); }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  /// What comes back, as far as the end of the first lines and the little that follows at once.
  std::string answer_to(const std::string& bytes, int patience) const {
    for (std::size_t sent = 0; sent < bytes.size();) {
      const ssize_t count = ::send(socket_, bytes.data() + sent, bytes.size() - sent, MSG_NOSIGNAL);
      if (count <= 0) break;
      sent += static_cast<std::size_t>(count);
    }
    ::shutdown(socket_, SHUT_WR);
    std::string answer;
    pollfd waiting{socket_, POLLIN, 0};
    while (answer.find("text/event-stream") == std::string::npos && ::poll(&waiting, 1, patience) > 0) {
      char some[16384];
      const ssize_t count = ::recv(socket_, some, sizeof some, 0);
      if (count <= 0) break;
      answer.append(some, static_cast<std::size_t>(count));
    }
    return answer;
  }

 private:
  int socket_;
};

// Milliseconds. Half a request may be waited for longer than a fuzzer cares to: the server gives it twenty seconds.
constexpr int kPatience = 10'000, kShortPatience = 300;

/// A server on one small quilt, for as long as the program runs.
class Workroom {
 public:
  Workroom() : folder_((fs::temp_directory_path() / "farflung-fuzz-XXXXXX").string()) {
    promise(::mkdtemp(folder_.data()) != nullptr, "there is a temporary folder");
    lay_quilt();
    auto opened = server::Server::open({folder_, 0, false});
    promise(opened.ok(), "the server opens");
    server_ = std::move(*opened);
    const std::string address = server_->address();
    const std::string key = address.substr(address.find("?key=") + 5, 32);
    const std::string entered = ask("GET /?key=" + key + " HTTP/1.1\r\nHost: @HOST@\r\n\r\n");
    const std::size_t at = entered.find("Set-Cookie: ");
    promise(at != std::string::npos, "whoever brings the key is let in");
    cookie_ = entered.substr(at + 12, entered.find(';', at) - at - 12);
    const std::string whole = ask("GET /quilts/harbour HTTP/1.1\r\nHost: @HOST@\r\nCookie: @COOKIE@\r\n\r\n");
    const std::string before = "\"version\":\"";
    const std::size_t from = whole.find(before);
    promise(from != std::string::npos, "the quilt is shown to one who was let in");
    version_ = whole.substr(from + before.size(), whole.find('"', from + before.size()) - from - before.size());
  }
  ~Workroom() {
    server_.reset();
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  Workroom(const Workroom&) = delete;
  Workroom& operator=(const Workroom&) = delete;

  std::string ask(const std::string& bytes, int patience = kPatience) const {
    return Connection(server_->port()).answer_to(filled(bytes), patience);
  }

  bool stands() const {
    return ask("GET / HTTP/1.1\r\nHost: @HOST@\r\nCookie: @COOKIE@\r\n\r\n").starts_with("HTTP/1.1 200");
  }

  /// The copy that an earlier request keeps for redo may still be on its way into the folder.
  static void remove(const fs::path& folder) {
    std::error_code failed;
    do {
      fs::remove_all(folder, failed);
    } while (failed);
  }

  /// Every request finds the same quilt.
  void lay_quilt() {
    std::ifstream file(fs::path(folder_) / "harbour" / "quilt.json", std::ios::binary);
    const std::string stands((std::istreambuf_iterator<char>(file)), {});
    if (!quilt_.empty() && stands == quilt_) return;
    for (const auto& entry : fs::directory_iterator(folder_)) {
      if (!entry.path().filename().string().starts_with(".")) remove(entry.path());
    }
    auto document = project::document_from_text(kQuilt);
    promise(document.ok() && project::create(fs::path(folder_) / "harbour", *document).ok(), "the quilt is laid");
    quilt_ = project::text_of(*document);
  }

 private:
  std::string filled(std::string bytes) const {
    const auto fill = [&](const std::string& word, const std::string& meant) {
      for (std::size_t at = 0; (at = bytes.find(word, at)) != std::string::npos; at += meant.size()) {
        bytes.replace(at, word.size(), meant);
      }
    };
    fill("@HOST@", "127.0.0.1:" + std::to_string(server_->port()));
    fill("@COOKIE@", cookie_);
    fill("@VERSION@", version_);
    const std::size_t lines = bytes.find("\r\n\r\n");
    fill("@LENGTH@", std::to_string(lines == std::string::npos ? 0 : bytes.size() - lines - 4));
    return bytes;
  }

  std::string folder_, quilt_, cookie_, version_;
  std::unique_ptr<server::Server> server_;
};

}  // namespace

void request(std::string_view bytes) {
  // First, so that at the end the picture library's parts go after the workroom, whose last photograph may be in hand.
  static const bool pictures = photo::vips_ready();
  promise(pictures, "the picture library starts");
  static Workroom workroom;
  const std::string answer = workroom.ask(std::string(bytes), kShortPatience);
  promise(answer.empty() || answer.starts_with("HTTP/1."), "an answer is one of HTTP");
  promise(answer.find("HTTP/1.1 500") != 0, "no bytes of a stranger's make the server fail");
  workroom.lay_quilt();
  static int asked = 0;
  constexpr int kBetweenLooks = 64;
  if (++asked % kBetweenLooks == 0) promise(workroom.stands(), "the page is still answered");
}

}  // namespace farflung::fuzz
