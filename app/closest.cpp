#include "closest.hpp"

#include <algorithm>
#include <map>
#include <numeric>

namespace farflung::app {
namespace {

std::size_t edits(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), 0U);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, changed});
    }
  }
  return row.back();
}

}  // namespace

std::string closest(const std::string& word, const std::vector<std::string>& candidates) {
  std::string best;
  const std::size_t dashes = std::min(word.find_first_not_of('-'), word.size());
  std::size_t fewest = (word.size() - dashes + 1) / 3 + 1;
  for (const std::string& candidate : candidates) {
    const std::size_t needed = candidate.rfind(word, 0) == 0 ? 1 : edits(word, candidate);
    if (needed < fewest) {
      fewest = needed;
      best = candidate;
    }
  }
  return best;
}

std::string command_meant(const std::string& word) {
  static const std::map<std::string, std::string> meant = {
      {"remove", "drop"},    {"delete", "drop"},   {"yardage", "cloth"},  {"shopping", "cloth"},
      {"buy", "cloth"},      {"cut", "cloth"},     {"cutting", "cloth"},  {"print", "sheets"},
      {"pdf", "sheets"},     {"labels", "sheets"}, {"layout", "arrange"}, {"shuffle", "arrange"},
      {"score", "check"},    {"binding", "try"},   {"backing", "try"},    {"thread", "try"},
      {"border", "borders"}, {"import", "photo"},  {"add", "photo"},      {"picture", "preview"},
      {"draw", "preview"},   {"page", "serve"},    {"create", "new"},     {"make", "new"},
      {"rotate", "turn"},    {"move", "swap"},     {"pin", "keep"},       {"lock", "keep"},
      {"release", "free"},   {"guide", "help"}};
  const auto found = meant.find(word);
  return found == meant.end() ? "" : found->second;
}

}  // namespace farflung::app
