#include "wrapping.hpp"

#include <algorithm>

namespace farflung::app {
namespace {

/// Characters, not bytes, of UTF-8.
std::size_t length_of(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string broken_line(const std::string& line, std::size_t width, std::size_t hang) {
  if (length_of(line) <= width) return line;
  const std::size_t indent = std::min(line.find_first_not_of(' '), line.size());
  const std::string margin(hang > 0 ? hang : indent + 2, ' ');
  std::string text, now = line.substr(0, indent);
  bool begun = false;
  for (std::size_t at = indent; at < line.size();) {
    // Spaces before a word belong to it: columns within a line stay apart.
    const std::size_t word = std::min(line.find_first_not_of(' ', at), line.size());
    const std::size_t end = std::min(line.find(' ', word), line.size());
    if (begun && length_of(now) + length_of(line.substr(at, end - at)) > width) {
      text += now + "\n";
      now = margin + line.substr(word, end - word);
    } else {
      now += line.substr(at, end - at);
    }
    begun = true;
    at = end;
  }
  return text + now;
}

}  // namespace

std::string wrapped(const std::string& text, std::size_t width, std::size_t hang) {
  std::string lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    lines += broken_line(text.substr(at, end - at), width, hang);
    if (end < text.size()) lines += "\n";
    at = end + 1;
  }
  return lines;
}

}  // namespace farflung::app
