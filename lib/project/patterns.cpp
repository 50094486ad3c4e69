#include "project/patterns.hpp"

#include <algorithm>
#include <system_error>
#include <utility>

#include "base/limits.hpp"
#include "base/typed_name.hpp"
#include "project/data_folder.hpp"
#include "project/disk.hpp"
#include "project/quilt_from_json.hpp"
#include "project/schema.hpp"
#include "project/tree_reader.hpp"

namespace farflung::project {
namespace {

bool ends_with(const std::string& text, const std::string& end) {
  return text.size() >= end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

Result<std::vector<std::filesystem::path>> library_files() {
  const Result<std::filesystem::path> data = data_folder();
  if (!data) return data.problems();
  std::vector<std::filesystem::path> files;
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator(*data / "patterns", error)) {
    if (entry.path().extension() == ".json") files.push_back(entry.path());
  }
  if (files.empty()) {
    return system_problem((*data / "patterns").string(), "the program's patterns are not there",
                          "install Farflung again");
  }
  std::sort(files.begin(), files.end(), [](const auto& a, const auto& b) { return a.stem() < b.stem(); });
  return files;
}

}  // namespace

Result<block::Pattern> pattern_from_text(const std::string& text, const std::string& file) {
  const Result<Json> tree = parse_json(text, file);
  if (!tree) return tree.problems();
  const Result<std::shared_ptr<const Json>> schema = read_schema();
  if (!schema) return schema.problems();
  Problems shape = schema_problems(*tree, *schema, "pattern");
  const Place units = Place(*tree) / "units";
  if (units.given() && !units_named(units.text())) {
    shape.push_back(input_problem("/units", "must be \"in\", \"cm\" or \"mm\"", "leave it out for inches"));
  }
  PatternReading reading =
      pattern_from_json(*tree, units_named(units.text()).value_or(quilt::Units::inches), std::move(shape));
  for (Problem& problem : reading.problems) problem.at.insert(0, file + "#");
  if (!reading.problems.empty()) return std::move(reading.problems);
  return std::move(reading.pattern);
}

Result<block::Pattern> read_pattern(const std::filesystem::path& file) {
  const Result<std::string> text = disk::read_file(file, limits::kFileBytes);
  if (!text) return text.problems();
  return pattern_from_text(*text, file.string());
}

Result<std::vector<block::Pattern>> library_patterns() {
  const Result<std::vector<std::filesystem::path>> files = library_files();
  if (!files) return files.problems();
  std::vector<block::Pattern> patterns;
  for (const std::filesystem::path& file : *files) {
    Result<block::Pattern> pattern = read_pattern(file);
    if (!pattern) return pattern.problems();
    patterns.push_back(std::move(*pattern));
  }
  return patterns;
}

Result<block::Pattern> pattern_named(const std::string& name) {
  if (ends_with(name, ".json")) return read_pattern(name);
  const Result<std::vector<std::filesystem::path>> files = library_files();
  if (!files) return files.problems();
  const std::string plain = plain_name(name);
  std::string names;
  for (const std::filesystem::path& file : *files) {
    if (file.stem() == plain) return read_pattern(file);
    names += (names.empty() ? "" : ", ") + file.stem().string();
  }
  // By what it is called, "Three rails", as screens and sheets do.
  Result<std::vector<block::Pattern>> library = library_patterns();
  if (!library) return library.problems();
  for (block::Pattern& pattern : *library) {
    if (plain_name(pattern.name) == plain) return std::move(pattern);
  }
  return input_problem(name, "there is no such pattern", "take one of " + names + ", or the name of a .json file");
}

}  // namespace farflung::project
