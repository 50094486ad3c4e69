#include "manual.hpp"

#include <algorithm>
#include <cctype>
#include <sstream>
#include <vector>

namespace farflung::app {
namespace {

/// Day of the manual's last change of substance; the page must not tell when it was built.
constexpr const char* kDate = "November 26, 2026";
constexpr std::size_t kLineLength = 78;

std::vector<const CLI::App*> commands_of(const CLI::App& parser) {
  return parser.get_subcommands([](const CLI::App*) { return true; });
}

/// Text as mdoc takes it: no line begins with a control character, each sentence on lines of its own.
std::string filled(const std::string& text) {
  std::istringstream words(text);
  std::string lines;
  std::string line;
  const auto end_line = [&] {
    if (line.empty()) return;
    if (line[0] == '.' || line[0] == '\'') line.insert(0, "\\&");
    lines += line + "\n";
    line.clear();
  };
  for (std::string word; words >> word;) {
    std::string safe;
    for (char c : word) safe += c == '\\' ? "\\e" : std::string(1, c);
    if (line.size() + safe.size() + 1 > kLineLength) end_line();
    line += (line.empty() ? "" : " ") + safe;
    if (word.size() > 2 && std::string(".?!").find(word.back()) != std::string::npos) end_line();
  }
  end_line();
  return lines;
}

bool takes_value(const CLI::Option& option) { return option.get_expected_max() > 0; }

/// A description as a sentence.
std::string sentence(std::string words) {
  if (!words.empty() && words.rfind("FILE", 0) != 0) words[0] = static_cast<char>(std::toupper(words[0]));
  return words + ".";
}

std::string upper(std::string word) {
  std::transform(word.begin(), word.end(), word.begin(), [](unsigned char c) { return std::toupper(c); });
  return word;
}

/// ".It Fl o , -output Ar OUTPUT"; a flag that can be said the other way round is listed both ways.
std::string item_of(const CLI::Option& option) {
  std::string line = ".It";
  for (const std::string& name : option.get_snames()) line += (line == ".It" ? " Fl " : " , Fl ") + name;
  for (const std::string& name : option.get_lnames()) line += (line == ".It" ? " Fl -" : " , Fl -") + name;
  if (takes_value(option))
    line += " Ar " + (option.get_lnames().empty() ? "VALUE" : upper(option.get_lnames().front()));
  return line + "\n";
}

std::string options_in(const CLI::App& line, bool positionals) {
  std::string items;
  for (const CLI::Option* option : line.get_options()) {
    if (option->get_positional() != positionals) continue;
    items += positionals ? ".It Ar " + option->get_name() + "\n" : item_of(*option);
    items += filled(sentence(option->get_description()));
  }
  return items;
}

/// Those that every command takes are told once.
std::string own_options(const CLI::App& command, const CLI::App& parser) {
  std::string items = options_in(command, true);
  for (const CLI::Option* option : command.get_options()) {
    if (option->get_positional()) continue;
    const std::string& name =
        option->get_lnames().empty() ? option->get_snames().front() : option->get_lnames().front();
    if (name == "help" || parser.get_option_no_throw("--" + name) != nullptr) continue;
    items += item_of(*option) + filled(sentence(option->get_description()));
  }
  return items;
}

std::string listed(const std::string& items) { return items.empty() ? "" : ".Bl -tag -width Ds\n" + items + ".El\n"; }

std::string section_of(const CLI::App& command, const CLI::App& parser) {
  std::string text = ".Ss " + command.get_name() + "\n" + filled(sentence(command.get_description()));
  if (!command.get_footer().empty()) text += ".Pp\n" + filled(command.get_footer());
  return text + listed(own_options(command, parser));
}

constexpr const char* kHead =
    ".Sh NAME\n"
    ".Nm farflung\n"
    ".Nd work out which quilting prints go where\n"
    ".Sh SYNOPSIS\n"
    ".Nm\n"
    ".Ar COMMAND\n"
    ".Op Ar options\n"
    ".Ar QUILT\n"
    ".Op Ar ...\n"
    ".Sh DESCRIPTION\n"
    ".Nm\n"
    "takes photographs of quilting fabrics, works out which prints go where on a\n"
    "quilt so that no print touches itself and no corner has a cast of its own,\n"
    "and prints the sheets that carry the plan to the cutting table, the design\n"
    "wall and the sewing machine.\n"
    ".Pp\n"
    ".Ar QUILT\n"
    "is the folder that a quilt lies in.\n"
    "Rows and places count from 1:\n"
    ".Ql R2C5\n"
    "is the fifth place of the second row.\n"
    "Lengths may be typed as\n"
    ".Ql 2 1/2 ,\n"
    ".Ql 3.5\n"
    "or\n"
    ".Ql 8.9 cm .\n"
    "Where a file is asked for,\n"
    ".Ql -\n"
    "is standard output;\n"
    ".Ql --\n"
    "ends the options.\n";

constexpr const char* kTail =
    ".Sh ENVIRONMENT\n"
    ".Bl -tag -width Ds\n"
    ".It Ev FARFLUNG_DATA\n"
    "The folder of the program's own tables and patterns, where they do not lie\n"
    "beside the program.\n"
    ".It Ev NO_COLOR\n"
    "Where it is set, messages are plain.\n"
    ".El\n"
    ".Sh FILES\n"
    ".Bl -tag -width Ds\n"
    ".It Pa quilt.json\n"
    "The whole plan, in words and numbers.\n"
    ".It Pa photos/\n"
    "The photographs as they were.\n"
    ".It Pa swatches/\n"
    "The flat pictures made from them.\n"
    ".It Pa versions/\n"
    "The last fifty versions, for undo and redo.\n"
    ".It Pa sheets/\n"
    "Where the demo puts its sheets.\n"
    ".El\n"
    ".Sh EXIT STATUS\n"
    ".Bl -tag -width Ds\n"
    ".It 0\n"
    "Done.\n"
    ".It 1\n"
    "The system failed it: disk, permissions.\n"
    ".It 2\n"
    "The input or the command line is wrong.\n"
    ".It 3\n"
    "Done as well as can be, but a promise could not be kept: touches that no\n"
    "layout avoids, cloth that is not enough.\n"
    "The reason is printed.\n"
    ".It 130\n"
    "Stopped by Ctrl-C, nothing changed.\n"
    ".El\n"
    ".Sh EXAMPLES\n"
    ".Bd -literal\n"
    "farflung new harbour --pattern nine-patch --size lap\n"
    "farflung photo harbour *.jpg\n"
    "farflung arrange harbour\n"
    "farflung preview harbour -o harbour.png\n"
    "farflung sheets harbour -o harbour.pdf\n"
    ".Ed\n"
    ".Sh CAVEATS\n"
    "Rotary cutters and irons hurt: close the blade whenever you put it down, cut\n"
    "away from yourself, keep both out of children's reach.\n"
    "A quilt is no bedding for an infant to sleep under.\n"
    "Textiles for sale must meet local rules on labelling and fire safety.\n";

/// A word as bash takes it within single quotes.
std::string spaced(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

std::vector<std::string> option_words(const CLI::App& line, bool only_with_value) {
  std::vector<std::string> words;
  for (const CLI::Option* option : line.get_options()) {
    if (option->get_positional() || (only_with_value && !takes_value(*option))) continue;
    for (const std::string& name : option->get_snames()) words.push_back("-" + name);
    for (const std::string& name : option->get_lnames()) words.push_back("--" + name);
  }
  return words;
}

}  // namespace

std::string manual_of(const CLI::App& parser) {
  std::string text = std::string(".Dd ") + kDate + "\n.Dt FARFLUNG 1\n.Os\n" + kHead;
  text += "The following options go with every command:\n" + listed(options_in(parser, false));
  text += ".Sh COMMANDS\n";
  for (const CLI::App* command : commands_of(parser)) text += section_of(*command, parser);
  return text + kTail;
}

std::string bash_completion_of(const CLI::App& parser) {
  std::vector<std::string> names;
  std::string cases;
  for (const CLI::App* command : commands_of(parser)) {
    names.push_back(command->get_name());
    cases += "    " + command->get_name() + ") options='" + spaced(option_words(*command, false)) + "' ;;\n";
  }
  return "# bash completion for farflung\n"
         "_farflung() {\n"
         "  local word=${COMP_WORDS[COMP_CWORD]} command='' options='' i\n"
         "  COMPREPLY=()\n"
         "  for ((i = 1; i < COMP_CWORD; ++i)); do\n"
         "    case ${COMP_WORDS[i]} in\n"
         "      -*) ;;\n"
         "      *) command=${COMP_WORDS[i]}; break ;;\n"
         "    esac\n"
         "  done\n"
         "  case $command in\n"
         "    '') options='" +
         spaced(names) + " " + spaced(option_words(parser, false)) + "' ;;\n" + cases +
         "  esac\n"
         "  if [[ -z $command || $word == -* ]]; then\n"
         "    mapfile -t COMPREPLY < <(compgen -W \"$options\" -- \"$word\")\n"
         "  else\n"
         "    mapfile -t COMPREPLY < <(compgen -f -- \"$word\")\n"
         "  fi\n"
         "}\n"
         "complete -o filenames -F _farflung farflung\n";
}

}  // namespace farflung::app
