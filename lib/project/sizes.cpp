#include "project/sizes.hpp"

#include <utility>

#include "base/limits.hpp"
#include "base/typed_name.hpp"
#include "project/data_folder.hpp"
#include "project/disk.hpp"
#include "project/quilt_from_json.hpp"
#include "project/tree_reader.hpp"

namespace farflung::project {
namespace {

const std::string kSizeRemedy = "write width x height, such as 60x72 or \"150 x 200 cm\"";

/// The unit that a typed length ends in, "cm"; empty where there is none.
std::string unit_at_end(const std::string& text) {
  const std::size_t last = text.find_last_of("0123456789");
  return last == std::string::npos ? "" : text.substr(last + 1);
}

std::optional<std::pair<std::string, std::string>> two_lengths(const std::string& text) {
  for (const std::string between : {"x", "X", "\u00d7", "by", "*"}) {
    const std::size_t at = text.find(between);
    if (at == std::string::npos) continue;
    return std::pair(text.substr(0, at), text.substr(at + between.size()));
  }
  return std::nullopt;
}

Result<Size> typed_size(const std::string& text, quilt::Units units) {
  const auto parts = two_lengths(text);
  if (!parts) return input_problem(text, "not a size", kSizeRemedy);
  std::string first = parts->first;
  if (unit_at_end(first).find_first_not_of(' ') == std::string::npos) first += unit_at_end(parts->second);
  const std::optional<Length> width = length_from_json(first, units);
  const std::optional<Length> height = length_from_json(parts->second, units);
  if (!width || !height) return input_problem(text, "not a size", kSizeRemedy);
  if (*width <= Length() || *height <= Length()) return input_problem(text, "a quilt has a size above 0", kSizeRemedy);
  return Size{"", *width, *height, "", "", ""};
}

}  // namespace

Result<std::vector<Size>> common_sizes() {
  const Result<std::filesystem::path> data = data_folder();
  if (!data) return data.problems();
  const std::filesystem::path file = *data / "sizes.json";
  const Result<std::string> text = disk::read_file(file, limits::kFileBytes);
  if (!text) return text.problems();
  const Result<Json> tree = parse_json(*text, file.string());
  if (!tree) return tree.problems();
  std::vector<Size> sizes;
  for (const Place& place : (Place(*tree) / "sizes").items()) {
    const auto width = length_from_json((place / "width").value(), quilt::Units::inches);
    const auto height = length_from_json((place / "height").value(), quilt::Units::inches);
    if (!width || !height) return system_problem(file.string() + "#" + place.pointer(), "has no width or height");
    const std::string note = (place / "note").text();
    const std::string metric = (place / "metric_note").text();
    sizes.push_back(
        {(place / "name").text(), *width, *height, note, metric.empty() ? note : metric, (place / "caution").text()});
  }
  return sizes;
}

const std::string& note_of(const Size& size, quilt::Units units) {
  return units == quilt::Units::inches ? size.note : size.metric_note;
}

Result<Size> size_named(const std::string& text, quilt::Units units) {
  const Result<std::vector<Size>> sizes = common_sizes();
  if (!sizes) return sizes.problems();
  std::string names;
  for (const Size& size : *sizes) {
    if (size.name == plain_name(text)) return size;
    names += size.name + ", ";
  }
  Result<Size> typed = typed_size(text, units);
  if (typed) return typed;
  Problem problem = typed.problems().front();
  problem.remedy = "name one of " + names + "or " + problem.remedy;
  return problem;
}

}  // namespace farflung::project
