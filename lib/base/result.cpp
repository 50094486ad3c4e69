#include "base/result.hpp"

namespace farflung {

std::string Problem::text() const {
  std::string text = at.empty() ? cause : at + ": " + cause;
  if (!remedy.empty()) text += ": " + remedy;
  return text;
}

}  // namespace farflung
