#include "help_page.hpp"

#include <algorithm>
#include <map>
#include <vector>

#include "wrapping.hpp"

namespace farflung::app {

const char* const kWholeWay =
    "  farflung new harbour --pattern nine-patch --size lap\n"
    "  farflung photo harbour *.jpg\n"
    "  farflung arrange harbour\n"
    "  farflung preview harbour -o harbour.png\n"
    "  farflung sheets harbour -o harbour.pdf\n";

namespace {

constexpr std::size_t kWidth = 80;
constexpr std::size_t kColumn = 25;  ///< where descriptions begin

/// Lines to type, by command.
const std::map<std::string, std::vector<const char*>>& examples() {
  static const std::map<std::string, std::vector<const char*>> lines = {
      {"help", {"help colours", "help arrange"}},
      {"demo", {"demo raffle"}},
      {"new",
       {"new harbour --pattern rails --size lap", "new cot --size 90x120 --units cm --block 15",
        "new wharf --pattern square --setting 'on point' --size 60x72",
        "new harbour --pattern nine-patch --pattern snowball --size king"}},
      {"photo",
       {"photo harbour *.jpg", "photo harbour kelp.jpg --name Kelp --across 18",
        "photo harbour --name Kelp --colour '#28503c'"}},
      {"reference", {"reference -o sheet.pdf", "reference -o sheet.pdf --paper a4"}},
      {"choose", {"choose harbour --take 12", "choose harbour --take 12 --keep Kelp --drop Buoy -o choice.png"}},
      {"sizes", {"sizes harbour"}},
      {"try", {"try harbour --as border", "try harbour --as binding --photo bolts/ -o bindings.png"}},
      {"borders", {"borders harbour --size queen", "borders harbour --size 60x72 --accept 1"}},
      {"colourway", {"colourway harbour --replace Kelp -o without-kelp.png", "colourway harbour --bundle spring/"}},
      {"supplies", {"supplies harbour"}},
      {"compare", {"compare harbour brick throw border=Kelp -o beside.png", "compare harbour wharf -o beside.pdf"}},
      {"arrange", {"arrange harbour", "arrange harbour --seed 2 --effort 5", "arrange harbour --blocks open"}},
      {"preview", {"preview harbour -o harbour.png", "preview harbour -o values.png --grey"}},
      {"sheets",
       {"sheets harbour -o harbour.pdf", "sheets harbour -o shop.pdf --only shopping,cutting --paper a4",
        "sheets harbour -o left.pdf --left-handed"}},
      {"cloth", {"cloth harbour", "cloth harbour --prewashed", "cloth harbour --spares --take-spares"}},
      {"check", {"check harbour", "check harbour --json"}},
      {"swaps", {"swaps harbour --max 3", "swaps harbour --to other-plan"}},
      {"wall", {"wall harbour wall.jpg -o read.png", "wall harbour wall.jpg --accept"}},
      {"set",
       {"set harbour /prints/0/name Kelp", "set harbour /binding '{\"print\": \"P01\", \"width\": \"2 1/4\"}'",
        "set harbour /setting/sashing '{\"width\": 1.5, \"print\": \"P02\"}'",
        "set harbour /setting/borders '[{\"width\": 4, \"print\": \"P02\"}]'"}},
      {"swap", {"swap harbour R2C5 R6C1"}},
      {"turn", {"turn harbour R3C1", "turn harbour R3C1 --quarters 2"}},
      {"keep", {"keep harbour R1C1 R1C2"}},
      {"free", {"free harbour R1C1"}},
      {"drop", {"drop harbour Kelp", "drop harbour P03 P07"}},
      {"undo", {"undo harbour"}},
      {"redo", {"redo harbour"}},
      {"pack", {"pack harbour harbour.tar"}},
      {"unpack", {"unpack harbour harbour.tar"}},
      {"serve", {"serve ~/quilts", "serve ~/quilts --lan"}},
  };
  return lines;
}

/// "  name        what it is", the words in their own column.
std::string item(const std::string& name, const std::string& says) {
  std::string line = "  " + name;
  std::string before;
  if (line.size() + 2 > kColumn) {
    before = line + "\n";
    line.clear();
  }
  line.resize(kColumn, ' ');
  return before + wrapped(line + says, kWidth, kColumn) + "\n";
}

std::string name_of(const CLI::Option& option) {
  std::string name;
  for (const std::string& letter : option.get_snames()) name += (name.empty() ? "-" : ",-") + letter;
  for (const std::string& word : option.get_lnames()) name += (name.empty() ? "--" : ",--") + word;
  if (option.get_expected_max() == 0 || option.get_lnames().empty()) return name;
  std::string value = option.get_lnames().front();
  std::transform(value.begin(), value.end(), value.begin(), [](unsigned char c) { return std::toupper(c); });
  return name + " " + value;
}

std::string says_of(const CLI::Option& option) {
  std::string says = option.get_description();
  if (!option.get_positional() && option.get_required()) says += "; must be given";
  return says;
}

bool is_common(const CLI::App& parser, const CLI::Option& option) {
  return !option.get_lnames().empty() && parser.get_option_no_throw("--" + option.get_lnames().front()) != nullptr;
}

std::string section(const std::string& heading, const std::string& items) {
  return items.empty() ? "" : "\n" + heading + ":\n" + items;
}

std::string common_options(const CLI::App& parser, const CLI::App& of) {
  std::string items;
  for (const CLI::Option* option : of.get_options()) {
    if (!option->get_positional() && is_common(parser, *option)) items += item(name_of(*option), says_of(*option));
  }
  return items;
}

std::string usage_of(const CLI::App& command) {
  std::string line = "farflung " + command.get_name();
  for (const CLI::Option* option : command.get_options()) {
    if (!option->get_positional()) continue;
    const std::string name = option->get_name() + (option->get_expected_max() > 1 ? "..." : "");
    line += " " + (option->get_required() ? name : "[" + name + "]");
  }
  return line + " [options]";
}

}  // namespace

std::string help_page(const CLI::App& parser) {
  std::string commands;
  for (const CLI::App* command : parser.get_subcommands([](const CLI::App*) { return true; })) {
    commands += item(command->get_name(), command->get_description());
  }
  return wrapped(parser.get_description(), kWidth) + "\n\nUsage: farflung COMMAND QUILT [options]\n" +
         section("Commands", commands) + section("Options, with any command", common_options(parser, parser)) +
         "\nFor example:\n" + kWholeWay +
         "\nfarflung COMMAND --help says what one takes, farflung help lists the guide.\n";
}

std::string help_page(const CLI::App& parser, const CLI::App& command) {
  std::string takes, own;
  for (const CLI::Option* option : command.get_options()) {
    if (option->get_positional()) {
      takes += item(option->get_name(), says_of(*option));
    } else if (!is_common(parser, *option)) {
      own += item(name_of(*option), says_of(*option));
    }
  }
  std::string text = wrapped(command.get_description(), kWidth) +
                     "\n\nUsage: " + wrapped(usage_of(command), kWidth - 7) + "\n" + section("It takes", takes) +
                     section("Options", own) + section("With any command", common_options(parser, command));
  if (!command.get_footer().empty()) text += "\n" + wrapped(command.get_footer(), kWidth) + "\n";
  const auto lines = examples().find(command.get_name());
  if (lines == examples().end()) return text;
  text += "\nFor example:\n";
  for (const char* line : lines->second) text += std::string("  farflung ") + line + "\n";
  return text;
}

}  // namespace farflung::app
