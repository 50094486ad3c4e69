#include "server/guard.hpp"

#include <array>
#include <chrono>
#include <cstdlib>

#include <sys/random.h>

#include "base/limits.hpp"

namespace farflung::server {
namespace {

constexpr double kTelephoneSeconds = 600;

double now() { return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count(); }

bool changes_nothing(const std::string& method) { return method == "GET" || method == "HEAD"; }

bool from_this_machine(const std::string& peer) { return peer.rfind("127.", 0) == 0 || peer == "::1"; }

/// The value of a cookie; empty where it is not there or stands there twice.
std::string cookie(const std::string& header, const std::string& name) {
  std::string value;
  int found = 0;
  std::size_t at = 0;
  while (at < header.size()) {
    const std::size_t end = std::min(header.find(';', at), header.size());
    while (at < end && header[at] == ' ') ++at;
    if (header.compare(at, name.size() + 1, name + "=") == 0) {
      value = header.substr(at + name.size() + 1, end - at - name.size() - 1);
      ++found;
    }
    at = end + 1;
  }
  return found == 1 ? value : "";
}

}  // namespace

std::string fresh_token() {
  std::array<unsigned char, 16> bytes{};
  std::size_t have = 0;
  while (have < bytes.size()) {
    const ssize_t got = ::getrandom(bytes.data() + have, bytes.size() - have, 0);
    if (got <= 0) std::abort();  // a machine without chance keeps no secret
    have += static_cast<std::size_t>(got);
  }
  constexpr const char* kDigits = "0123456789abcdef";
  std::string text;
  for (const unsigned char byte : bytes) text += {kDigits[byte / 16], kDigits[byte % 16]};
  return text;
}

bool same_secret(const std::string& a, const std::string& b) {
  if (a.size() != b.size() || a.empty()) return false;
  unsigned differs = 0;
  for (std::size_t i = 0; i < a.size(); ++i) differs |= static_cast<unsigned char>(a[i] ^ b[i]);
  return differs == 0;
}

Guard::Guard(std::string token, std::string session, int port, const std::set<std::string>& hosts)
    : token_(std::move(token)), port_(port), session_(std::move(session)) {
  for (const std::string& host : hosts) {
    hosts_.insert(host + ":" + std::to_string(port));
    if (port == 80) hosts_.insert(host);
  }
}

std::string Guard::wrong_place(const Head& head) const {
  if (head.repeated) return "a header that may stand once stands twice";
  const std::string host = head.header("host");
  if (hosts_.count(host) == 0) return "Host";
  const std::string origin = head.header("origin");
  if (!changes_nothing(head.method) && origin != "http://" + host) return "Origin";
  if (!origin.empty() && origin != "http://" + host) return "Origin";
  const std::string site = head.header("sec-fetch-site");
  if (!site.empty() && site != "same-origin" && site != "none") return "site";
  return "";
}

bool Guard::knows(const Head& head) const {
  const std::string shown = cookie(head.header("cookie"), cookie_name());
  const std::lock_guard lock(mutex_);
  if (from_this_machine(head.peer) && same_secret(shown, session_)) return true;
  bool known = false;
  for (const std::string& telephone : telephones_) known = same_secret(shown, telephone) || known;
  return known;
}

std::string Guard::refusal(const Head& head) const {
  std::string place = wrong_place(head);
  if (!place.empty()) return place;
  return knows(head) ? "" : "token";
}

std::string Guard::cookie_for(const Head& head, const std::string& token) {
  const std::lock_guard lock(mutex_);
  if (from_this_machine(head.peer) && same_secret(token, token_)) return session_;
  if (!same_secret(token, telephone_) || now() > telephone_until_) return "";
  telephone_.clear();
  if (telephones_.size() >= limits::kTelephones) telephones_.pop_front();
  return telephones_.emplace_back(fresh_token());
}

std::string Guard::telephone_token() {
  const std::lock_guard lock(mutex_);
  telephone_ = fresh_token();
  telephone_until_ = now() + kTelephoneSeconds;
  return telephone_;
}

}  // namespace farflung::server
