#include "project/schema.hpp"

#include <algorithm>
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "base/limits.hpp"
#include "project/data_folder.hpp"
#include "project/disk.hpp"

namespace farflung::project {
namespace {

/// Follows references.
SchemaPlace resolved(const Json& schema, const Json* rules) {
  SchemaPlace place{rules, ""};
  for (int steps = 0; steps < 20 && place.rules != nullptr; ++steps) {
    if (!place.rules->is_object()) return {};
    if (place.description.empty()) place.description = place.rules->value("description", "");
    if (!place.has("$ref")) return place;
    const auto tokens = pointer_tokens((*place.rules)["$ref"].get<std::string>().substr(1));
    place.rules = tokens ? value_at(schema, *tokens) : nullptr;
  }
  return {};
}

const Json* inside(const SchemaPlace& place, const std::string& token) {
  if (place.has("properties") && (*place.rules)["properties"].contains(token)) {
    return &(*place.rules)["properties"][token];
  }
  if (place.has("additionalProperties")) return &(*place.rules)["additionalProperties"];
  if (place.has("items") && (token == "-" || index_token(token))) return &(*place.rules)["items"];
  return nullptr;
}

/// "a number or a text": what the schema's types are called.
std::string types_text(const Json& types) {
  static const std::vector<std::pair<std::string, std::string>> kNames = {
      {"number", "a number"}, {"integer", "a whole number"}, {"string", "a text"}, {"boolean", "true or false"},
      {"array", "a list"},    {"object", "an object"},       {"null", "null"}};
  std::string text;
  for (const Json& type : types.is_array() ? types : Json::array({types})) {
    const auto name = std::find_if(kNames.begin(), kNames.end(), [&](const auto& n) { return n.first == type; });
    text += (text.empty() ? "" : " or ") + (name == kNames.end() ? type.dump() : name->second);
  }
  return text;
}

/// `"a", "b" or null`
std::string choices_text(const Json& choices) {
  std::string text;
  for (std::size_t i = 0; i < choices.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == choices.size() ? " or " : ", ") + choices[i].dump();
  }
  return text;
}

std::string size_text(const Json& value) { return std::to_string(value.size()); }

std::string entries(const Json& count) { return count.dump() + (count == 1 ? " entry" : " entries"); }

bool starts_with(const std::string& text, const char* start) { return text.rfind(start, 0) == 0; }

/// The validator's finding as a clause; empty where it only repeats that something within was found wrong.
std::string plain_words(const std::string& found, const Json& value, const SchemaPlace& place) {
  const auto rule = [&](const char* key) { return place.has(key) ? (*place.rules)[key] : Json(); };
  if (starts_with(found, "Value type not permitted")) {
    return "is " + kind_of(value) + ", must be " + types_text(rule("type"));
  }
  if (starts_with(found, "Missing required property")) {
    return "lacks " + found.substr(found.find('\''), found.rfind('\'') - found.find('\'') + 1);
  }
  if (starts_with(found, "Failed to match against any enum")) {
    return "is " + value.dump(-1, ' ', false, Json::error_handler_t::replace).substr(0, 60) + ", must be " +
           choices_text(rule("enum"));
  }
  if (starts_with(found, "Failed to match expected value")) {
    return "is " + value.dump(-1, ' ', false, Json::error_handler_t::replace).substr(0, 60) + ", must be " +
           rule("const").dump();
  }
  if (starts_with(found, "Expected number less"))
    return "is " + value.dump() + ", must be at most " + rule("maximum").dump();
  if (starts_with(found, "Expected number greater"))
    return "is " + value.dump() + ", must be at least " + rule("minimum").dump();
  if (starts_with(found, "Array should contain no more")) {
    return "has " + size_text(value) + " entries, must have at most " + entries(rule("maxItems"));
  }
  if (starts_with(found, "Array should contain no fewer")) {
    return "has " + size_text(value) + " entries, must have at least " + entries(rule("minItems"));
  }
  if (starts_with(found, "String should be no more"))
    return "is longer than " + rule("maxLength").dump() + " characters";
  if (starts_with(found, "String should be no fewer")) return "must not be empty";
  if (starts_with(found, "Object should have no fewer")) return "must not be empty";
  return "";
}

/// A pointer's tokens from the validator's path, "<root>" "[prints]" "[0]".
std::vector<std::string> tokens_of(const std::vector<std::string>& context) {
  std::vector<std::string> tokens;
  for (std::size_t i = 1; i < context.size(); ++i) tokens.push_back(context[i].substr(1, context[i].size() - 2));
  return tokens;
}

std::string pointer_of(const std::vector<std::string>& tokens) {
  std::string pointer;
  for (const std::string& token : tokens) pointer += "/" + escaped_token(token);
  return pointer;
}

/// Rules made ready once for all that is held against them: a program that serves the page checks at each change.
struct Rules {
  Json as_told;
  nlohmann::json plain;
  valijson::Schema schema;
};

std::shared_ptr<const Rules> rules_of(Json told) {
  static std::mutex mutex;
  static std::vector<std::shared_ptr<const Rules>> known;
  constexpr std::size_t kMost = 8;
  const std::lock_guard lock(mutex);
  for (const auto& rules : known) {
    if (rules->as_told == told) return rules;
  }
  auto rules = std::make_shared<Rules>();
  rules->plain = told;
  rules->as_told = std::move(told);
  valijson::SchemaParser().populateSchema(valijson::adapters::NlohmannJsonAdapter(rules->plain), rules->schema);
  if (known.size() == kMost) known.erase(known.begin());
  known.push_back(rules);
  return rules;
}

Json definition_of(const Json& schema, const std::string& definition) {
  if (definition.empty()) return schema;
  Json part = {{"$ref", "#/definitions/" + definition}};
  part["definitions"] = schema["definitions"];
  return part;
}

}  // namespace

Result<Json> read_schema() {
  const Result<std::filesystem::path> folder = data_folder();
  if (!folder) return folder.problems();
  const std::filesystem::path file = *folder / "quilt.schema.json";
  const Result<std::string> text = disk::read_file(file, limits::kFileBytes);
  if (!text) return text.problems();
  return parse_json(*text, file.string());
}

bool SchemaPlace::allows(const char* type) const {
  if (!has("type")) return false;
  const Json& types = (*rules)["type"];
  return types.is_array() ? std::find(types.begin(), types.end(), type) != types.end() : types == type;
}

SchemaPlace schema_at(const Json& schema, const std::vector<std::string>& tokens) {
  SchemaPlace place = resolved(schema, &schema);
  for (const std::string& token : tokens) place = resolved(schema, inside(place, token));
  return place;
}

Problems schema_problems(const Json& value, const Json& schema, const std::string& definition) {
  const std::shared_ptr<const Rules> rules = rules_of(definition_of(schema, definition));
  const nlohmann::json target = value;
  const valijson::adapters::NlohmannJsonAdapter target_adapter(target);
  valijson::ValidationResults results;
  valijson::Validator validator;
  if (validator.validate(rules->schema, target_adapter, &results)) return {};

  Problems problems;
  for (const valijson::ValidationResults::Error& error : results) {
    if (problems.size() >= limits::kProblems) {
      problems.push_back(input_problem("", "and more of the wrong shape", "mend these first"));
      break;
    }
    const std::vector<std::string> tokens = tokens_of(error.context);
    const Json* const found = value_at(value, tokens);
    const SchemaPlace place = schema_at(rules->as_told, tokens);
    const std::string words = plain_words(error.description, found == nullptr ? Json() : *found, place);
    if (words.empty()) continue;
    Problem problem = input_problem(pointer_of(tokens), words, place.description);
    if (std::find(problems.begin(), problems.end(), problem) == problems.end()) problems.push_back(std::move(problem));
  }
  return problems;
}

}  // namespace farflung::project
