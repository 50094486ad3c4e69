#include <set>
#include <string>

#include "print/print.hpp"

namespace farflung::print {
namespace {

/// Letters and digits that cannot be read for one another on a sheet held at arm's length.
const std::string kLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
const std::string kDigits = "23456789";

/// The usable letters and digits of a name, upper case, in order; letters of other scripts have none.
std::string usable(const std::string& name) {
  std::string result;
  for (char c : name) {
    const char upper = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    if (kLetters.find(upper) != std::string::npos || kDigits.find(upper) != std::string::npos) result += upper;
  }
  return result;
}

/// Every code that a print could have, the best first.
std::vector<std::string> candidates(const std::string& name) {
  std::vector<std::string> codes;
  std::string own = usable(name);
  own.erase(0, own.find_first_of(kLetters));  // "05 nightwatch" is N: photographs are numbered
  if (!own.empty()) {
    codes.push_back(own.substr(0, 1));
    for (std::size_t i = 1; i < own.size(); ++i) codes.push_back({own[0], own[i]});
    for (char c : kDigits + kLetters) codes.push_back({own[0], c});
  }
  for (char c : kLetters) codes.emplace_back(1, c);
  for (char first : kLetters) {
    for (char second : kLetters + kDigits) codes.push_back({first, second});
  }
  return codes;
}

}  // namespace

void give_codes(std::vector<Print>& prints) {
  std::set<std::string> taken;
  for (const Print& print : prints) taken.insert(print.code);
  for (Print& print : prints) {
    if (!print.code.empty()) continue;
    for (const std::string& code : candidates(print.name)) {
      if (!taken.insert(code).second) continue;
      print.code = code;
      break;
    }
  }
}

}  // namespace farflung::print
