#include "server/url.hpp"

#include <algorithm>
#include <cctype>

namespace farflung::server {
namespace {

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

}  // namespace

std::string unescaped(const std::string& text, bool form) {
  std::string result;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const int high = text[i] == '%' && i + 2 < text.size() ? hex_digit(text[i + 1]) : -1;
    const int low = high >= 0 ? hex_digit(text[i + 2]) : -1;
    if (low >= 0) {
      result += static_cast<char>(high * 16 + low);
      i += 2;
    } else {
      result += form && text[i] == '+' ? ' ' : text[i];
    }
  }
  return result;
}

std::string escaped(const std::string& text) {
  constexpr const char* kDigits = "0123456789ABCDEF";
  std::string result;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 128 && (std::isalnum(byte) != 0 || c == '-' || c == '.' || c == '_' || c == '~')) {
      result += c;
    } else {
      result += {'%', kDigits[byte / 16], kDigits[byte % 16]};
    }
  }
  return result;
}

std::vector<std::string> path_parts(const std::string& path) {
  std::vector<std::string> parts;
  std::size_t at = 0;
  while (at < path.size()) {
    const std::size_t slash = std::min(path.find('/', at), path.size());
    if (slash > at) parts.push_back(unescaped(path.substr(at, slash - at)));
    at = slash + 1;
  }
  return parts;
}

}  // namespace farflung::server
