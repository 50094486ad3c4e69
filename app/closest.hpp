// What a mistyped word was probably meant to be.
#pragma once

#include <string>
#include <vector>

namespace farflung::app {

/// The candidate nearest to `word` by edits (Levenshtein), where it is near enough to be worth a suggestion; else
/// empty.
std::string closest(const std::string& word, const std::vector<std::string>& candidates);

/// The command that does what somebody who types this word is after: "drop" for "remove". "" where none is known.
std::string command_meant(const std::string& word);

}  // namespace farflung::app
