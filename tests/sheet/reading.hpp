// Reads pages as a person would: the words, where they stand, what belongs together.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "draw/text.hpp"
#include "sheet/sheets.hpp"
#include "support/worlds.hpp"

namespace farflung::sheet {

/// The part of a line that ink can reach: from a little above its capitals to the foot of its letters, or to the base
/// line where all of them are capitals and figures.
inline draw::Box inked(const draw::Text& text) {
  if (text.degrees != 0) return draw::box_of(text);
  const draw::Box line = draw::box_of(text);
  const bool capitals = std::all_of(text.words.begin(), text.words.end(), [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == ' ';
  });
  return {line.left, text.at.y - 0.78 * text.size, line.width, (capitals ? 0.8 : 0.98) * text.size};
}

inline std::vector<std::string> words_on(const Page& page) {
  std::vector<std::string> words;
  for (const draw::Text& text : draw::words_of(page.display)) words.push_back(text.words);
  return words;
}

/// Whether anything is to be read between a page's head and its foot.
inline bool holds_words(const Page& page, const Paper& paper) {
  const draw::Box room = room_of(paper);
  const std::vector<draw::Text> words = draw::words_of(page.display);
  return std::any_of(words.begin(), words.end(),
                     [&](const draw::Text& text) { return text.at.y > room.top && text.at.y <= room.bottom() + 1; });
}

/// A figure with what is drawn within it.
struct Figure {
  std::string says;
  std::vector<draw::Text> words;
};

inline std::vector<Figure> figures_on(const Page& page) {
  std::vector<Figure> figures;
  bool open = false;
  for (const draw::Item& item : page.display.items) {
    if (const auto* opening = std::get_if<draw::Opening>(&item)) {
      open = opening->kind == draw::Opening::Kind::figure;
      if (open) figures.push_back({opening->says, {}});
    } else if (std::holds_alternative<draw::Closing>(item)) {
      open = false;
    } else if (const auto* text = std::get_if<draw::Text>(&item); text != nullptr && open) {
      figures.back().words.push_back(*text);
    }
  }
  return figures;
}

inline bool begins_with(const std::string& text, const std::string& head) { return text.rfind(head, 0) == 0; }

/// A quilt of the world with codes, long names in several scripts, kept cells and a binding.
inline quilt::Quilt dressed(Seed seed, const support::Wanted& wanted) {
  quilt::Quilt quilt = support::random_quilt(seed, wanted);
  static const char* const kNames[] = {
      "Kelp", "Foghorn with the very longest name on the whole bolt", "シロカツオドリの海辺の布", "Ærø", "Маяк",
      "Buoy"};
  for (std::size_t i = 0; i < quilt.prints.size(); ++i) quilt.prints[i].name = kNames[i % 6];
  print::give_codes(quilt.prints);
  quilt.title = "海辺の救命艇 Harbour raffle for the lifeboat station and all who sail from it in any weather at all";
  quilt.binding = quilt::Binding{0};
  quilt.layout.kept[0] = quilt.layout.block[0] != quilt::kNone;
  return quilt;
}

/// Such a quilt of one pattern, everything else as usual.
inline quilt::Quilt dressed(const block::Pattern& pattern) {
  support::Wanted wanted;
  wanted.patterns = {pattern};
  return dressed(Seed{8}, wanted);
}

/// Names that begin alike and end in each print's code.
inline void name_all(quilt::Quilt& quilt, const std::string& beginning) {
  for (print::Print& print : quilt.prints) print.name = beginning + print.code;
}

}  // namespace farflung::sheet
