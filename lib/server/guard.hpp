// Who may ask: token, Host, Origin and site of every request.
#pragma once

#include <deque>
#include <mutex>
#include <set>
#include <string>

#include "server/http.hpp"

namespace farflung::server {

/// 128 bits from the system's own source, as 32 digits.
std::string fresh_token();

/// The same bytes; takes the same time wherever they differ.
bool same_secret(const std::string& a, const std::string& b);

/// Lets in whoever came by an address that carries a token, and from then on carries the cookie that was given for it.
///
/// A cookie alone is not enough: cookies cross ports of one host, and a page of another port is of the same site. So
/// the Host must be one of ours, a request that could change anything must come from our own origin, and a browser must
/// say that it was asked for by our own page or by the user herself.
class Guard {
 public:
  /// `token` is the main one, good from this machine alone; `session` the cookie that it is changed for.
  Guard(std::string token, std::string session, int port, const std::set<std::string>& hosts);

  /// Empty where a request may go on; else what is wrong with it, for the log alone: all of it is answered by 403.
  std::string refusal(const Head& head) const;

  /// The cookie for whoever brings this token; empty where it is none, was used, or has run out. Where as many
  /// telephones as may be are in, the one that came first is let out: it comes in again by a fresh token.
  std::string cookie_for(const Head& head, const std::string& token);

  /// A token for a telephone: good for one use, within ten minutes. An earlier one that was not used is void.
  std::string telephone_token();

  /// Host, Origin and site, whatever the cookie: what whoever brings a token has to pass too.
  std::string wrong_place(const Head& head) const;

  std::string cookie_name() const { return "farflung-" + std::to_string(port_); }

 private:
  bool knows(const Head& head) const;

  std::string token_;
  int port_;
  std::set<std::string> hosts_;  ///< with their port, as a Host header has them
  mutable std::mutex mutex_;
  std::string session_, telephone_;
  double telephone_until_ = 0;
  std::deque<std::string> telephones_;  ///< cookies of those let in, the first to come first
};

}  // namespace farflung::server
