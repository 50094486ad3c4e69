#include "base/typed_name.hpp"

namespace farflung {

std::string plain_name(const std::string& typed) {
  std::string plain;
  bool between = false;
  for (const char c : typed) {
    if (c == ' ' || c == '-' || c == '_' || c == '\t') {
      between = !plain.empty();
      continue;
    }
    if (between) plain += '-';
    between = false;
    plain += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return plain;
}

}  // namespace farflung
