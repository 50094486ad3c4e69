#include "job/cloth_short.hpp"

#include "choice/words.hpp"

namespace farflung::job {

std::string short_words(const quilt::Quilt& quilt, const std::vector<int>& prints) {
  if (prints.empty()) return "";
  return "The cloth in hand is not enough for " + choice::names_of(quilt.prints, prints) +
         ": farflung cloth says what is missing.";
}

}  // namespace farflung::job
