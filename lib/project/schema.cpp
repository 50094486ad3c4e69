#include "project/schema.hpp"

#include <algorithm>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
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

/// A value as it stands in the file, its first letters where it is long.
std::string shown(const Json& value) {
  constexpr std::size_t kLong = 60;
  std::string text = value.dump(-1, ' ', false, Json::error_handler_t::replace);
  if (text.size() <= kLong) return text;
  const auto within_letter = [&](std::size_t at) { return (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U; };
  std::size_t end = kLong;
  while (end > 0 && within_letter(end)) --end;
  return text.substr(0, end) + "...";
}

/// `the text "seven"`, "the number 2.5", "a list": what was found where another kind of value belongs.
std::string found_text(const Json& value) {
  if (value.is_string()) return "the text " + shown(value);
  if (value.is_number()) return "the number " + shown(value);
  return kind_of(value);
}

/// "must be a whole number", `must be "in", "cm" or "mm"`; empty where the schema does not say.
std::string must_be(const SchemaPlace& place) {
  if (place.has("const")) return ", must be " + (*place.rules)["const"].dump();
  if (place.has("enum")) return ", must be " + choices_text((*place.rules)["enum"]);
  if (place.has("type")) return ", must be " + types_text((*place.rules)["type"]);
  return "";
}

/// The validator's finding as a clause; empty where it only repeats that something within was found wrong.
std::string plain_words(const std::string& found, const Json& value, const SchemaPlace& place) {
  const auto rule = [&](const char* key) { return place.has(key) ? (*place.rules)[key] : Json(); };
  if (starts_with(found, "Value type not permitted")) {
    return "is " + found_text(value) + must_be(place);
  }
  if (starts_with(found, "Failed to match against any enum") || starts_with(found, "Failed to match expected value")) {
    return "is " + shown(value) + must_be(place);
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

/// The key that a finding says is missing; none where it says something else.
std::optional<std::string> missing_key(const std::string& found) {
  if (!starts_with(found, "Missing required property")) return std::nullopt;
  const std::size_t from = found.find('\'') + 1;
  return found.substr(from, found.rfind('\'') - from);
}

/// A finding at its place, a missing key's at the key; its words are empty where it only repeats what was found within.
Problem problem_of(const valijson::ValidationResults::Error& error, const Json& value, const Json& schema) {
  std::vector<std::string> tokens = tokens_of(error.context);
  const std::optional<std::string> missing = missing_key(error.description);
  if (missing) tokens.push_back(*missing);
  const SchemaPlace place = schema_at(schema, tokens);
  const Json* const found = value_at(value, tokens);
  const std::string words = missing ? "is missing" + must_be(place)
                                    : plain_words(error.description, found == nullptr ? Json() : *found, place);
  // The words beside the whole go on to tell of all that is within it.
  return input_problem(pointer_of(tokens), words, place.description.substr(0, place.description.find(". ")));
}

Json definition_of(const Json& schema, const std::string& definition) {
  if (definition.empty()) return schema;
  Json part = {{"$ref", "#/definitions/" + definition}};
  part["definitions"] = schema["definitions"];
  return part;
}

/// Rules made ready once for all that is held against them: a program that serves the page checks at each change.
struct Rules {
  std::shared_ptr<const Json> of;
  std::string definition;
  Json as_told;
  nlohmann::json plain;
  valijson::Schema schema;
};

std::shared_ptr<const Rules> rules_of(const std::shared_ptr<const Json>& schema, const std::string& definition) {
  static std::mutex mutex;
  static std::vector<std::shared_ptr<const Rules>> known;
  constexpr std::size_t kMost = 8;
  const std::lock_guard lock(mutex);
  for (const auto& rules : known) {
    if (rules->of == schema && rules->definition == definition) return rules;
  }
  auto rules = std::make_shared<Rules>();
  rules->of = schema;
  rules->definition = definition;
  rules->as_told = definition_of(*schema, definition);
  rules->plain = rules->as_told;
  valijson::SchemaParser().populateSchema(valijson::adapters::NlohmannJsonAdapter(rules->plain), rules->schema);
  if (known.size() == kMost) known.erase(known.begin());
  known.push_back(rules);
  return rules;
}

/// The schema as it was read last, and from which file.
struct LastRead {
  std::filesystem::path file;
  std::filesystem::file_time_type changed;
  std::uintmax_t size = 0;
  std::shared_ptr<const Json> schema;
};

}  // namespace

Result<std::shared_ptr<const Json>> read_schema() {
  const Result<std::filesystem::path> folder = data_folder();
  if (!folder) return folder.problems();
  LastRead now{*folder / "quilt.schema.json", {}, 0, nullptr};
  std::error_code error;
  now.changed = std::filesystem::last_write_time(now.file, error);
  if (!error) now.size = std::filesystem::file_size(now.file, error);

  static std::mutex mutex;
  static LastRead last;
  const std::lock_guard lock(mutex);
  const bool the_same = last.file == now.file && last.changed == now.changed && last.size == now.size;
  if (!error && the_same) return last.schema;
  const Result<std::string> text = disk::read_file(now.file, limits::kFileBytes);
  if (!text) return text.problems();
  Result<Json> parsed = parse_json(*text, now.file.string());
  if (!parsed) return parsed.problems();
  now.schema = std::make_shared<const Json>(std::move(*parsed));
  last = now;
  return now.schema;
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

Problems schema_problems(const Json& value, const std::shared_ptr<const Json>& schema, const std::string& definition) {
  const std::shared_ptr<const Rules> rules = rules_of(schema, definition);
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
    Problem problem = problem_of(error, value, rules->as_told);
    if (problem.cause.empty()) continue;
    if (std::find(problems.begin(), problems.end(), problem) == problems.end()) problems.push_back(std::move(problem));
  }
  return problems;
}

}  // namespace farflung::project
