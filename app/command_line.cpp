#include "command_line.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <functional>
#include <string>
#include <vector>

#include "closest.hpp"
#include "commands.hpp"
#include "complaints.hpp"
#include "help_page.hpp"
#include "job/guide.hpp"
#include "manual.hpp"
#include "terminal.hpp"
#include "values.hpp"

namespace farflung::app {
namespace {

/// Options that every command takes, before or after its name.
void add_manner(CLI::App& line, Manner& manner) {
  line.add_flag("--json", manner.json, "report as JSON");
  line.add_flag("-q,--quiet", manner.quiet, "say nothing on success");
  line.add_flag("-v,--verbose", manner.verbose, "say what it is at, what it took and how much memory");
  add_choice(line, "--progress", manner.progress, "json: a line of JSON on standard error for each step", {"json"});
  line.add_flag("--no-color", manner.plain, "no colour and no moving progress line");
}

/// What the program says of itself for other programs, in the place of a command.
void add_papers(CLI::App& parser) {
  // They are answered before anything is parsed; nothing reads what the parser makes of them.
  const std::function<void(std::int64_t)> nothing = [](std::int64_t) {};
  parser.add_flag("--manual", nothing, "print the manual page, in mdoc");
  parser.add_flag("--completion", nothing, "print the completion for bash");
}

std::vector<std::string> command_names(const CLI::App& parser) {
  std::vector<std::string> names;
  for (const CLI::App* command : parser.get_subcommands([](const CLI::App*) { return true; })) {
    names.push_back(command->get_name());
  }
  return names;
}

std::vector<std::string> option_names(const CLI::App& line) {
  std::vector<std::string> names;
  for (const CLI::Option* option : line.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  }
  return names;
}

/// The command that the words name, or null; its position goes to `at`.
const CLI::App* command_said(const CLI::App& parser, const std::vector<std::string>& words) {
  const std::vector<std::string> names = command_names(parser);
  for (const std::string& word : words) {
    if (!word.empty() && word[0] == '-') continue;
    if (std::find(names.begin(), names.end(), word) == names.end()) return nullptr;
    return parser.get_subcommand(word);
  }
  return nullptr;
}

std::string suggestion(const std::string& word, const std::vector<std::string>& candidates,
                       const std::string& otherwise) {
  const std::string meant = closest(word, candidates);
  return meant.empty() ? otherwise : "did you mean " + meant + "?";
}

/// The first word that the parser could not place: an option it does not know, or the wrong command.
std::string unknown_option(const CLI::App& line, const std::vector<std::string>& words) {
  const std::vector<std::string> known = option_names(line);
  for (const std::string& word : words) {
    if (word == "--") return "";
    std::string name = word.substr(0, word.find('='));
    if (name.rfind("--", 0) == 0 && std::find(known.begin(), known.end(), name) == known.end()) return name;
  }
  return "";
}

Status explain(const CLI::App& parser, const CLI::ParseError& error, const std::vector<std::string>& words,
               const Terminal& terminal) {
  const CLI::App* command = command_said(parser, words);
  const auto first_word =
      std::find_if(words.begin(), words.end(), [](const std::string& w) { return w.empty() || w[0] != '-'; });
  if (command == nullptr && first_word != words.end()) {
    const std::string meant = command_meant(*first_word);
    const std::string remedy =
        meant.empty() ? suggestion(*first_word, command_names(parser), "farflung --help lists the commands")
                      : "farflung " + meant + " does that";
    return terminal.wrong_usage("there is no command " + *first_word, remedy);
  }
  const CLI::App& line = command != nullptr ? *command : parser;
  const std::string help = command != nullptr ? "farflung " + command->get_name() + " --help says what it takes"
                                              : "farflung --help lists the commands";
  const std::string option = unknown_option(line, words);
  if (!option.empty()) {
    return terminal.wrong_usage("there is no option " + option, suggestion(option, option_names(line), help));
  }
  return terminal.wrong_usage(in_plain_words(parser, line, error, words), help);
}

/// Whatever else was said: -q and --json do not silence or wrap what was asked for by name.
Status show_help(const std::string& text) { return Terminal(Manner{}).show(job::told(text)); }

}  // namespace

int run(int count, char** words) {
  CLI::App parser("Works out which quilting prints go where, and prints the sheets that carry the plan.", "farflung");
  Manner manner;
  Chosen chosen;
  parser.require_subcommand(1);
  parser.set_help_flag("-h,--help", "say this and do nothing");
  parser.set_version_flag("--version", "farflung " FARFLUNG_VERSION, "say the program's name and version");
  add_manner(parser, manner);
  add_papers(parser);
  add_commands(parser, chosen);
  for (CLI::App* command : parser.get_subcommands([](const CLI::App*) { return true; })) add_manner(*command, manner);

  const std::vector<std::string> said(words + 1, words + count);
  if (said.empty()) {
    std::fprintf(stderr, "%s\n\nFor example:\n%s\nfarflung --help lists the commands.\n",
                 parser.get_description().c_str(), kWholeWay);
    return kWrongInput;
  }
  if (said == std::vector<std::string>{"--manual"}) return show_help(manual_of(parser));
  if (said == std::vector<std::string>{"--completion"}) return show_help(bash_completion_of(parser));
  try {
    parser.parse(count, words);
  } catch (const CLI::CallForHelp&) {
    const CLI::App* command = command_said(parser, said);
    return show_help(command != nullptr ? help_page(parser, *command) : help_page(parser));
  } catch (const CLI::CallForVersion& version) {
    return show_help(std::string(version.what()) + "\n");
  } catch (const CLI::ParseError& error) {
    manner.json = std::find(said.begin(), said.end(), "--json") != said.end();
    return explain(parser, error, said, Terminal(manner));
  }
  listen_for_interrupt();
  const Terminal terminal(manner);
  return terminal.show(chosen(terminal.watch()));
}

}  // namespace farflung::app
