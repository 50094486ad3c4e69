#include "job/photo_report.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <utility>

#include "choice/words.hpp"
#include "colour/words.hpp"
#include "print/groups_alike.hpp"

namespace farflung::job {
namespace {

Report corners_json(const std::array<std::array<double, 2>, 4>& corners) {
  Report list = Report::array();
  for (const auto& corner : corners) {
    list.push_back({std::round(corner[0] * 100) / 100, std::round(corner[1] * 100) / 100});
  }
  return list;
}

/// The words of the palette's colours, most first, none twice; of the mean where there is no palette.
std::vector<std::string> colours_of(const print::Features& features) {
  constexpr double kTold = 0.06;
  std::vector<std::string> list;
  for (const print::PaletteColour& colour : features.palette) {
    const std::string word = colour::words(colour.lab);
    if (colour.share >= kTold && std::find(list.begin(), list.end(), word) == list.end()) list.push_back(word);
  }
  if (list.empty()) list.push_back(colour::words(features.lab));
  return list;
}

/// Whether all of a print's colours are one hue, or none: it then reads as a solid from afar.
bool tone_on_tone(const print::Features& features) {
  double cosine = 0, sine = 0, strength = 0;
  for (const print::PaletteColour& colour : features.palette) {
    cosine += colour.share * colour.lab.a, sine += colour.share * colour.lab.b;
    strength += colour.share * std::hypot(colour.lab.a, colour.lab.b);
  }
  for (const print::PaletteColour& colour : features.palette) {
    const double chroma = std::hypot(colour.lab.a, colour.lab.b), mean = std::hypot(cosine, sine);
    if (colour.share < 0.04 || chroma < 8) continue;
    if (mean < 1e-9) return false;
    const double across = std::abs(colour.lab.a * sine - colour.lab.b * cosine) / mean;
    if (across > std::max(6.0, 0.35 * chroma) || colour.lab.a * cosine + colour.lab.b * sine < 0) return false;
  }
  return strength < 8 || std::hypot(cosine, sine) > 0.8 * strength;
}

Report direction_json(const print::Direction& direction) {
  using Kind = print::Direction::Kind;
  if (direction.kind == Kind::none) return {{"kind", "none"}};
  return {{"kind", direction.kind == Kind::stripe ? "stripe" : "one-way"}, {"degrees", direction.degrees}};
}

/// What a quilter sets such a print by.
std::string run_of(const print::Direction& direction) {
  using Kind = print::Direction::Kind;
  if (direction.kind == Kind::one_way) return "; one-way, its top as photographed";
  return direction.kind == Kind::stripe ? "; striped" : "";
}

/// The codes of the prints that are doubted, by reason, in the order given.
std::vector<std::pair<std::string, std::vector<std::string>>> doubts_of(const quilt::Quilt& quilt,
                                                                        const std::vector<Seen>& seen) {
  std::vector<std::pair<std::string, std::vector<std::string>>> doubts;
  for (const Seen& one : seen) {
    if (one.doubt.empty() || one.fills_frame) continue;
    auto found =
        std::find_if(doubts.begin(), doubts.end(), [&](const auto& doubt) { return doubt.first == one.doubt; });
    if (found == doubts.end()) found = doubts.insert(found, {one.doubt, {}});
    found->second.push_back(quilt.prints[one.print].code);
  }
  return doubts;
}

/// The codes of those that are so, listed; where nearly all of many are, the others are fewer to name.
std::string which(const quilt::Quilt& quilt, const std::vector<Seen>& seen, bool Seen::*so) {
  constexpr std::size_t kMany = 6, kFew = 4;
  std::vector<std::string> codes, others;
  for (const Seen& one : seen) (one.*so ? codes : others).push_back(quilt.prints[one.print].code);
  if (codes.size() <= kMany || others.size() > kFew) return choice::listed(codes);
  return others.empty() ? "All" : "All but " + choice::listed(others);
}

/// Nothing is wrong where she photographed it so, as she is asked to: said in other words than a doubt.
std::string says_filling(const quilt::Quilt& quilt, const std::vector<Seen>& seen) {
  const auto filling = std::count_if(seen.begin(), seen.end(), [](const Seen& one) { return one.fills_frame; });
  if (filling == 0) return "";
  const bool one = filling == 1;
  return which(quilt, seen, &Seen::fills_frame) + (one ? " fills its photograph" : " fill their photographs") +
         " from edge to edge: if so, all is well; if more than the cloth is to be seen, take " + (one ? "it" : "them") +
         " again on a plain ground of another colour";
}

/// What was taken for granted of their light, and what goes wrong where it is not so.
std::string says_grey(const quilt::Quilt& quilt, const std::vector<Seen>& seen) {
  if (std::none_of(seen.begin(), seen.end(), [](const Seen& one) { return one.grey_together; })) return "";
  return which(quilt, seen, &Seen::grey_together) +
         " were photographed with nothing of known colour beside them, so all of them together were taken to be nearly "
         "grey, as most bundles are: if yours is all blue, say, or all warm, it has come out too grey; photograph it "
         "again with the reference sheet or something white beside it";
}

std::string says(const quilt::Quilt& quilt, const print::Group& group) {
  std::vector<std::string> names;
  for (const std::size_t print : group.prints) names.push_back(print::name_of(quilt.prints[print]));
  const std::string all = choice::listed(names);
  if (group.kind == print::Pair::Kind::alike) return all + " will read alike in the quilt";
  if (names.size() == 2) return all + " may be one fabric photographed twice: take one out if so";
  return all + " may be one fabric photographed " + std::to_string(names.size()) + " times: keep one of them if so";
}

std::vector<bool> came_in_of(const quilt::Quilt& quilt, const std::vector<Seen>& seen) {
  std::vector<bool> came_in(quilt.prints.size());
  for (const Seen& one : seen) came_in[one.print] = true;
  return came_in;
}

/// Those in which a print that came in is one.
std::vector<print::Group> news_of(const quilt::Quilt& quilt, const std::vector<Seen>& seen,
                                  const std::vector<print::Pair>& pairs) {
  const std::vector<bool> came_in = came_in_of(quilt, seen);
  std::vector<print::Group> groups = print::groups_of(pairs);
  std::erase_if(groups, [&](const print::Group& group) {
    return std::none_of(group.prints.begin(), group.prints.end(), [&](std::size_t print) { return came_in[print]; });
  });
  return groups;
}

}  // namespace

Report prints_json(const quilt::Quilt& quilt, const std::vector<Seen>& seen) {
  Report list = Report::array();
  const std::vector<print::ValueClass> classes = print::value_classes(quilt.prints);
  for (const Seen& one : seen) {
    const print::Print& print = quilt.prints[one.print];
    const colour::Lab lab = print.features.lab;
    Report entry = {{"id", print.id},
                    {"code", print.code},
                    {"name", print.name},
                    {"file", one.file},
                    {"corners", corners_json(print.photo->corners)},
                    {"lab", {lab.L, lab.a, lab.b}},
                    {"colours", colours_of(print.features)},
                    {"tone_on_tone", tone_on_tone(print.features)},
                    {"value", print::name_of(classes[one.print])},
                    {"busyness", print.features.busyness},
                    {"direction", direction_json(print.features.direction)},
                    {"reference", print.photo->reference},
                    {"sure", one.doubt.empty()}};
    // In inches on the cloth where those are known, else as a share of the swatch's width.
    if (print.features.scale) {
      entry["scale"] = *print.features.scale;
    } else if (print.features.scale_share) {
      entry["scale_share"] = *print.features.scale_share;
    }
    if (one.colour_by_table) entry["light_from_sitting"] = true;
    if (one.grey_together) entry["taken_as_grey_together"] = true;
    if (!one.doubt.empty()) entry["doubt"] = one.doubt;
    list.push_back(entry);
  }
  return list;
}

std::vector<print::Pair> pairs_of(const quilt::Quilt& quilt, const std::vector<Seen>& seen, Looks& looks) {
  const std::vector<bool> came_in = came_in_of(quilt, seen);
  return print::pairs_alike(quilt.prints, [&](std::size_t first, std::size_t second) {
    return came_in[first] || came_in[second] ? looks.laid_over(first, second) : std::nullopt;
  });
}

Report pairs_json(const quilt::Quilt& quilt, const std::vector<Seen>& seen, const std::vector<print::Pair>& pairs) {
  const std::vector<bool> came_in = came_in_of(quilt, seen);
  Report list = Report::array();
  for (const print::Pair& pair : pairs) {
    if (!came_in[pair.first] && !came_in[pair.second]) continue;
    list.push_back({{"a", quilt.prints[pair.first].id},
                    {"b", quilt.prints[pair.second].id},
                    {"same", pair.kind == print::Pair::Kind::same},
                    {"distance", pair.distance},
                    {"says", says(quilt, {pair.kind, {pair.first, pair.second}})}});
  }
  return list;
}

std::vector<std::string> remarks(const quilt::Quilt& quilt, const std::vector<Seen>& seen,
                                 const std::vector<print::Pair>& pairs) {
  std::vector<std::string> list;
  for (const auto& [why, codes] : doubts_of(quilt, seen))
    list.push_back("Not sure of " + choice::listed(codes) + ": " + why);
  for (const std::string& told : {says_filling(quilt, seen), says_grey(quilt, seen)}) {
    if (!told.empty()) list.push_back(told);
  }
  for (const print::Group& group : news_of(quilt, seen, pairs)) list.push_back(says(quilt, group));
  return list;
}

std::string prints_words(const quilt::Quilt& quilt, const std::vector<Seen>& seen,
                         const std::vector<print::Pair>& pairs) {
  const std::vector<print::ValueClass> classes = print::value_classes(quilt.prints);
  std::string text;
  for (const Seen& one : seen) {
    const print::Print& print = quilt.prints[one.print];
    char line[64];
    std::snprintf(line, sizeof line, "  %-3s %-6s  value %3.0f  ", print.code.c_str(),
                  print::name_of(classes[one.print]), print.features.lab.L);
    text += line + print::name_of(print) + ": " + choice::listed(colours_of(print.features)) +
            run_of(print.features.direction);
    if (!one.doubt.empty()) text += one.fills_frame ? "  (fills its photograph)" : "  (not sure)";
    text += "\n";
  }
  for (const std::string& remark : remarks(quilt, seen, pairs)) text += "  " + remark + ".\n";
  const auto is_same = [](const print::Group& group) { return group.kind == print::Pair::Kind::same; };
  const std::vector<print::Group> groups = news_of(quilt, seen, pairs);
  if (std::any_of(groups.begin(), groups.end(), is_same)) text += "  farflung drop takes a print out.\n";
  return text;
}

}  // namespace farflung::job
