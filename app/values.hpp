// Options that take a number, or one of a few words: read here, and what is wrong with them said in words of ours.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

namespace farflung::app {

/// What is wrong with the command line, as it is shown. The parser passes it on.
class Complaint : public CLI::ParseError {
 public:
  explicit Complaint(const std::string& says) : CLI::ParseError(says, CLI::ExitCodes::ValidationError) {}
};

/// A number from `least` to `most`, which the help says: "--width 15: not from 16 to 20000".
CLI::Option* add_number(CLI::App& line, const std::string& name, int& into, const std::string& does, int least,
                        int most);
CLI::Option* add_number(CLI::App& line, const std::string& name, double& into, const std::string& does, double least,
                        double most);
CLI::Option* add_number(CLI::App& line, const std::string& name, std::optional<double>& into, const std::string& does,
                        double least, double most);

/// A whole number from 1 on: "--take 0: not 1 or more".
CLI::Option* add_count(CLI::App& line, const std::string& name, int& into, const std::string& does);

/// A seed, from 0 on: "--seed seven: not a number of the right kind".
CLI::Option* add_seed(CLI::App& line, std::uint64_t& into, const std::string& does);

/// One of some words, or of some numbers: "--paper a5: none of letter, a4".
CLI::Option* add_choice(CLI::App& line, const std::string& name, std::string& into, const std::string& does,
                        const std::vector<std::string>& words);
CLI::Option* add_choice(CLI::App& line, const std::string& name, int& into, const std::string& does,
                        const std::vector<int>& numbers);

/// "letter" or "a4".
CLI::Option* add_paper(CLI::App& line, std::string& into,
                       const std::string& does = "letter or a4 (as the quilt is measured: inches letter, else a4)");

}  // namespace farflung::app
