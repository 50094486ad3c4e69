#include "complaints.hpp"

#include <algorithm>

namespace farflung::app {
namespace {

/// The option of the line that a word such as "--seed", "--seed=3" or "-o" names, or null.
const CLI::Option* option_called(const CLI::App& line, const std::string& word) {
  const std::string name = word.substr(0, word.find('='));
  for (const CLI::Option* option : line.get_options()) {
    for (const std::string& known : option->get_lnames()) {
      if (name == "--" + known) return option;
    }
    for (const std::string& known : option->get_snames()) {
      if (name == "-" + known) return option;
    }
  }
  return nullptr;
}

/// What must be said and was not.
std::string lacking(const CLI::App& line) {
  for (const CLI::Option* option : line.get_options()) {
    if (option->get_required() && option->count() == 0) return option->get_name() + " is required";
  }
  return "";
}

/// An option without its value, or one that takes one value and is given twice.
std::string miscounted(const CLI::App& line, const std::vector<std::string>& words) {
  std::vector<const CLI::Option*> given;
  for (std::size_t i = 0; i < words.size() && words[i] != "--"; ++i) {
    const CLI::Option* option = option_called(line, words[i]);
    if (option == nullptr || option->get_expected_max() == 0) continue;
    const bool last = i + 1 == words.size();
    if (last && words[i].find('=') == std::string::npos) return option->get_name() + ": its value is missing";
    if (option->get_expected_max() > 1 || option->get_multi_option_policy() == CLI::MultiOptionPolicy::TakeAll)
      continue;
    if (std::find(given.begin(), given.end(), option) != given.end()) {
      return option->get_name() + " is given more than once";
    }
    given.push_back(option);
  }
  return "";
}

/// A flag that was given a value.
std::string overfilled(const CLI::App& line, const std::vector<std::string>& words) {
  for (const std::string& word : words) {
    const CLI::Option* option = option_called(line, word);
    if (option == nullptr || option->get_expected_max() > 0 || word.find('=') == std::string::npos) continue;
    return option->get_name() + " takes no value";
  }
  return "";
}

/// What the parser had no place for, in the order in which it was said.
std::string left_over(const CLI::App& parser, const std::vector<std::string>& words) {
  const std::vector<std::string> left = parser.remaining(true);
  std::string all;
  for (const std::string& word : words) {
    if (std::find(left.begin(), left.end(), word) == left.end()) continue;
    if (word.size() > 1 && word[0] == '-' && word != "--") return "there is no option " + word;
    all += (all.empty() ? "" : ", ") + word;
  }
  return all.empty() ? "" : "not expected: " + all;
}

template <typename Kind>
bool is(const CLI::ParseError& error) {
  return dynamic_cast<const Kind*>(&error) != nullptr;
}

}  // namespace

std::string in_plain_words(const CLI::App& parser, const CLI::App& line, const CLI::ParseError& error,
                           const std::vector<std::string>& words) {
  std::string says;
  if (is<CLI::RequiredError>(error)) says = &line == &parser ? "no command is given" : lacking(line);
  if (is<CLI::ArgumentMismatch>(error)) says = miscounted(line, words);
  if (is<CLI::ConversionError>(error)) says = overfilled(line, words);
  if (is<CLI::ExtrasError>(error)) says = left_over(parser, words);
  return says.empty() ? error.what() : says;
}

}  // namespace farflung::app
