#include "values.hpp"

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <functional>
#include <utility>

namespace farflung::app {
namespace {

/// The whole of `word` as a number of the type asked for; none where it is no such number.
template <typename Number>
std::optional<Number> number_in(const std::string& word) {
  Number number{};
  const char* end = word.data() + word.size();
  const char* begin = word.size() > 1 && word[0] == '+' ? word.data() + 1 : word.data();
  const auto [stopped, wrong] = std::from_chars(begin, end, number);
  if (wrong != std::errc() || stopped != end) return std::nullopt;
  return number;
}

/// As people write it: 0.001, not 0.001000.
std::string written(double number) {
  char text[32];
  std::snprintf(text, sizeof text, "%.10g", number);
  return text;
}

/// What `read` makes of the word goes where it belongs; it complains by throwing.
CLI::Option* add_read(CLI::App& line, const std::string& name, const std::string& does,
                      std::function<void(const std::string& word)> read) {
  return line.add_option_function<std::string>(name, std::move(read), does);
}

/// `into` is an int, a double or an optional of one.
template <typename Number, typename Into>
CLI::Option* add_between(CLI::App& line, const std::string& name, Into& into, const std::string& does, Number least,
                         Number most) {
  const std::string range = "from " + written(least) + " to " + written(most);
  return add_read(line, name, does + "; " + range, [&into, name, range, least, most](const std::string& word) {
    const std::optional<Number> number = number_in<Number>(word);
    // What is no number at all lies between no two of them.
    if (!number || !(*number >= least && *number <= most)) throw Complaint(name + " " + word + ": not " + range);
    into = *number;
  });
}

}  // namespace

CLI::Option* add_number(CLI::App& line, const std::string& name, int& into, const std::string& does, int least,
                        int most) {
  return add_between(line, name, into, does, least, most);
}

CLI::Option* add_number(CLI::App& line, const std::string& name, double& into, const std::string& does, double least,
                        double most) {
  return add_between(line, name, into, does, least, most);
}

CLI::Option* add_number(CLI::App& line, const std::string& name, std::optional<double>& into, const std::string& does,
                        double least, double most) {
  return add_between(line, name, into, does, least, most);
}

CLI::Option* add_count(CLI::App& line, const std::string& name, int& into, const std::string& does) {
  return add_read(line, name, does, [&into, name](const std::string& word) {
    const std::optional<int> number = number_in<int>(word);
    if (!number && number_in<double>(word)) throw Complaint(name + " " + word + ": not a number of the right kind");
    if (!number || *number < 1) throw Complaint(name + " " + word + ": not 1 or more");
    into = *number;
  });
}

CLI::Option* add_seed(CLI::App& line, std::uint64_t& into, const std::string& does) {
  return add_read(line, "--seed", does, [&into](const std::string& word) {
    const std::optional<std::uint64_t> number = number_in<std::uint64_t>(word);
    if (!number) throw Complaint("--seed " + word + ": not a number of the right kind");
    into = *number;
  });
}

CLI::Option* add_choice(CLI::App& line, const std::string& name, std::string& into, const std::string& does,
                        const std::vector<std::string>& words) {
  return add_read(line, name, does, [&into, name, words](const std::string& word) {
    if (std::find(words.begin(), words.end(), word) == words.end()) {
      std::string all;
      for (const std::string& one : words) all += (all.empty() ? "" : ", ") + one;
      throw Complaint(name + " " + word + ": none of " + all);
    }
    into = word;
  });
}

CLI::Option* add_choice(CLI::App& line, const std::string& name, int& into, const std::string& does,
                        const std::vector<int>& numbers) {
  return add_read(line, name, does, [&into, name, numbers](const std::string& word) {
    const std::optional<int> number = number_in<int>(word);
    if (!number || std::find(numbers.begin(), numbers.end(), *number) == numbers.end()) {
      std::string all;
      for (const int one : numbers) all += (all.empty() ? "" : ", ") + std::to_string(one);
      throw Complaint(name + " " + word + ": none of " + all);
    }
    into = *number;
  });
}

CLI::Option* add_paper(CLI::App& line, std::string& into, const std::string& does) {
  return add_choice(line, "--paper", into, does, {"letter", "a4"});
}

}  // namespace farflung::app
