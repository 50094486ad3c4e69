#include "project/document.hpp"

#include <utility>

#include "project/json_from_quilt.hpp"
#include "project/original.hpp"
#include "project/quilt_from_json.hpp"
#include "project/schema.hpp"
#include "project/upgrade.hpp"

namespace farflung::project {
namespace {

static_assert(kFormatVersion == 1, "json_from_quilt writes this version; upgrade_steps brings older files to it");

Problems in_file(Problems problems, const std::string& file) {
  for (Problem& problem : problems) {
    const bool pointer = problem.at.empty() || problem.at.front() == '/';
    if (pointer && problem.kind == Problem::Kind::input) problem.at.insert(0, file + "#");
  }
  return problems;
}

}  // namespace

const Json& original_tree(const Document& document) {
  static const Json kNothing;
  return document.original ? document.original->tree : kNothing;
}

Result<Document> document_from_tree(Json tree, std::string text, const std::string& file) {
  if (const Result<Done> upgraded = upgrade(tree, upgrade_steps()); !upgraded) {
    return in_file(upgraded.problems(), file);
  }
  const Result<std::shared_ptr<const Json>> schema = read_schema();
  if (!schema) return schema.problems();
  Problems shape = schema_problems(tree, *schema);
  QuiltReading reading = quilt_from_json(tree, std::move(shape));
  if (!reading.problems.empty()) return in_file(std::move(reading.problems), file);
  auto original = std::make_shared<Original>();
  original->tree = std::move(tree);
  original->text = std::move(text);
  return Document{std::move(reading.quilt), std::move(original)};
}

Result<Document> document_from_text(const std::string& text, const std::string& file) {
  Result<Json> tree = parse_json(text, file);
  if (!tree) return tree.problems();
  return document_from_tree(std::move(*tree), text, file);
}

std::string text_of(const Document& document) {
  return json_text(json_from_quilt(document.quilt, original_tree(document)));
}

std::string pointer_of(const Problem& problem) {
  const std::size_t mark = problem.at.find('#');
  return mark == std::string::npos ? problem.at : problem.at.substr(mark + 1);
}

}  // namespace farflung::project
