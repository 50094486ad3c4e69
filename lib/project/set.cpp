#include <algorithm>
#include <utility>

#include "base/limits.hpp"
#include "base/typed_name.hpp"
#include "project/json_from_quilt.hpp"
#include "project/original.hpp"
#include "project/quilt_from_json.hpp"
#include "project/schema.hpp"
#include "project/tree_reader.hpp"

namespace farflung::project {
namespace {

using Tokens = std::vector<std::string>;

Problem no_such_place(const std::string& pointer, const std::string& cause) {
  return input_problem(pointer, cause, "write a JSON pointer into quilt.json, such as /prints/0/name or /setting/rows");
}

/// The text itself, or the word among those that may stand here that was meant by it: "On-Point" is "on point".
Json word_of_ours(const std::string& typed, const SchemaPlace& place) {
  if (!place.has("enum")) return typed;
  for (const Json& word : (*place.rules)["enum"]) {
    if (word.is_string() && plain_name(word.get<std::string>()) == plain_name(typed)) return word;
  }
  return typed;
}

/// What was typed, as the format wants it at this place.
Result<Json> typed_value(const std::string& typed, const SchemaPlace& place, const std::string& pointer) {
  if (typed.size() > limits::kFileBytes) return input_problem(pointer, "the value is too large");
  Result<Json> read = parse_json(typed, pointer);
  const bool text_wanted = place.allows("string") && !place.allows("number") && !place.allows("integer");
  if (!read && !text_wanted && place.rules != nullptr && (typed[0] == '[' || typed[0] == '{')) {
    return input_problem(pointer, "what is typed begins as JSON does, but is none",
                         "put names and texts in double quotes and the whole in single ones, as '[{\"width\": 4}]'");
  }
  if (!read) return word_of_ours(typed, place);
  const bool null_taken = read->is_null() && (place.allows("null") || place.rules == nullptr);
  if (text_wanted && !read->is_string() && !null_taken) return Json(typed);
  return read;
}

/// Puts `value` at the end of the way; objects on the way that are not there yet are made.
Result<Done> put(Json& tree, const Tokens& tokens, const std::string& pointer, Json value) {
  Json* place = &tree;
  for (std::size_t i = 0; i < tokens.size(); ++i) {
    const bool last = i + 1 == tokens.size();
    if (place->is_null()) *place = tokens[i] == "-" ? Json::array() : Json::object();
    if (place->is_object()) {
      if (!place->contains(tokens[i]) && place->size() >= limits::kKeys) {
        return no_such_place(pointer, "the object is full");
      }
      place = &(*place)[tokens[i]];
    } else if (place->is_array()) {
      if (last && tokens[i] == "-") {
        place->push_back(nullptr);
        place = &place->back();
        continue;
      }
      const std::optional<std::size_t> index = index_token(tokens[i]);
      if (!index || *index >= place->size()) {
        return no_such_place(pointer, "the list has " + std::to_string(place->size()) +
                                          " entries, counted from 0; there is no " + tokens[i]);
      }
      place = &(*place)[*index];
    } else {
      return no_such_place(pointer, "there is nothing within " + kind_of(*place));
    }
  }
  *place = std::move(value);
  return Done{};
}

/// Takes what `put` has just put out of its object or list.
void take_out(Json& tree, Tokens tokens) {
  const std::string key = tokens.back();
  tokens.pop_back();
  Json* place = &tree;
  for (const std::string& token : tokens) {
    place = place->is_object() ? &(*place)[token] : &(*place)[*index_token(token)];
  }
  if (place->is_object()) {
    place->erase(key);
  } else {
    place->erase(key == "-" ? place->size() - 1 : *index_token(key));
  }
}

setting::Arrangement refitted(const quilt::Quilt& before, const setting::Setting& setting) {
  setting::Arrangement layout = setting::empty_arrangement(setting);
  const std::vector<int> rows = setting::cells_in_rows(setting);
  const std::vector<int> old_rows = setting::cells_in_rows(before.setting);
  int first = 0, old_first = 0;
  for (std::size_t r = 0; r < std::min(rows.size(), old_rows.size()); ++r) {
    for (int c = 0; c < std::min(rows[r], old_rows[r]); ++c) {
      layout.block[first + c] = before.layout.block[old_first + c];
      layout.turn[first + c] = before.layout.turn[old_first + c];
      layout.kept[first + c] = before.layout.kept[old_first + c];
    }
    first += rows[r];
    old_first += old_rows[r];
  }
  return layout;
}

/// The layout's lists made to fit rows, columns and kind as they have just been set; untouched where those make no
/// sense.
void refit_layout(const quilt::Quilt& before, Json& tree) {
  quilt::Quilt after = before;
  const Place place = Place(tree) / "setting";
  after.setting.rows = (place / "rows").whole(0);
  after.setting.columns = (place / "columns").whole(0);
  const std::string kind = (place / "kind").text("straight");
  using Kind = setting::Setting::Kind;
  after.setting.kind = kind == "brick" ? Kind::brick : kind == "on point" ? Kind::on_point : Kind::straight;
  const bool sensible = after.setting.rows > 0 && after.setting.columns > 0 &&
                        2LL * after.setting.rows * after.setting.columns <= 2 * limits::kCells;
  if (!sensible) return;
  after.layout = refitted(before, after.setting);
  tree["layout"] = json_from_quilt(after, tree)["layout"];
}

/// How many keys must be struck to make one word the other (Levenshtein).
std::size_t edits(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j < row.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = std::exchange(row[0], i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = std::exchange(row[j], std::min({row[j] + 1, row[j - 1] + 1, changed}));
    }
  }
  return row.back();
}

/// What a key that the format does not know was probably meant to be; empty where nothing is near.
std::string nearest_key(const std::string& key, const SchemaPlace& within) {
  if (!within.has("properties")) return "";
  std::string nearest;
  std::size_t fewest = std::min<std::size_t>(key.size() / 2 + 1, 3);  // two slips at most
  for (const auto& [known, rules] : (*within.rules)["properties"].items()) {
    const std::size_t needed = edits(key, known);
    if (needed < fewest) {
      fewest = needed;
      nearest = known;
    }
  }
  return nearest;
}

/// A problem where the way leads over a key that is neither in the format nor in the file.
Problems new_key_on(const Tokens& tokens, const Json& tree, const Json& schema, const std::string& pointer) {
  const Json* at = &tree;
  Tokens walked;
  for (const std::string& token : tokens) {
    const SchemaPlace within = schema_at(schema, walked);
    walked.push_back(token);
    const std::size_t index = at->is_array() ? index_token(token).value_or(at->size()) : at->size();
    if (at->is_object() && at->contains(token)) {
      at = &(*at)[token];
    } else if (at->is_array() && index < at->size()) {
      at = &(*at)[index];
    } else if (schema_at(schema, walked).rules == nullptr && !at->is_array()) {
      const std::string nearest = nearest_key(token, within);
      return {input_problem(pointer, "the format knows no " + token + " there",
                            nearest.empty() ? "keys of your own are kept, but only the file itself can take new ones"
                                            : "did you mean " + nearest + "?")};
    } else {
      return {};
    }
  }
  return {};
}

bool shapes_layout(const Tokens& tokens) {
  if (tokens.empty() || tokens[0] != "setting") return false;
  return tokens.size() == 1 || tokens[1] == "rows" || tokens[1] == "columns" || tokens[1] == "kind";
}

}  // namespace

Result<Document> set(const Document& document, const std::string& pointer, const std::string& value, NewKeys keys) {
  const std::optional<Tokens> tokens = pointer_tokens(pointer);
  if (!tokens || tokens->empty() || tokens->size() > static_cast<std::size_t>(limits::kDepth)) {
    return no_such_place(pointer, "not the pointer of a value");
  }
  const Result<std::shared_ptr<const Json>> schema = read_schema();
  if (!schema) return schema.problems();
  const SchemaPlace place = schema_at(**schema, *tokens);
  Result<Json> typed = typed_value(value, place, pointer);
  if (!typed) return typed.problems();

  Json tree = json_from_quilt(document.quilt, original_tree(document));
  if (keys == NewKeys::refused) {
    Problems slips = new_key_on(*tokens, tree, **schema, pointer);
    if (!slips.empty()) return slips;
  }
  const bool goes = typed->is_null() && place.rules != nullptr && !place.allows("null") && !place.has("enum");
  if (const Result<Done> done = put(tree, *tokens, pointer, std::move(*typed)); !done) return done.problems();
  if (goes) take_out(tree, *tokens);
  if (shapes_layout(*tokens)) refit_layout(document.quilt, tree);
  return document_from_tree(std::move(tree), document.original ? document.original->text : "", "quilt.json");
}

}  // namespace farflung::project
