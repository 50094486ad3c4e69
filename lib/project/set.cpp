#include <algorithm>
#include <utility>

#include "project/json_from_quilt.hpp"
#include "project/limits.hpp"
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

/// What was typed, as the format wants it at this place.
Result<Json> typed_value(const std::string& typed, const SchemaPlace& place, const std::string& pointer) {
  if (typed.size() > limits::kFileBytes) return input_problem(pointer, "the value is too large");
  Result<Json> read = parse_json(typed, pointer);
  if (!read) return Json(typed);
  const bool text_wanted = place.allows("string") && !place.allows("number") && !place.allows("integer");
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

bool shapes_layout(const Tokens& tokens) {
  if (tokens.empty() || tokens[0] != "setting") return false;
  return tokens.size() == 1 || tokens[1] == "rows" || tokens[1] == "columns" || tokens[1] == "kind";
}

}  // namespace

Result<Document> set(const Document& document, const std::string& pointer, const std::string& value) {
  const std::optional<Tokens> tokens = pointer_tokens(pointer);
  if (!tokens || tokens->empty() || tokens->size() > static_cast<std::size_t>(limits::kDepth)) {
    return no_such_place(pointer, "not the pointer of a value");
  }
  const Result<Json> schema = read_schema();
  if (!schema) return schema.problems();
  const SchemaPlace place = schema_at(*schema, *tokens);
  Result<Json> typed = typed_value(value, place, pointer);
  if (!typed) return typed.problems();

  Json tree = json_from_quilt(document.quilt, original_tree(document));
  const bool goes = typed->is_null() && place.rules != nullptr && !place.allows("null") && !place.has("enum");
  if (const Result<Done> done = put(tree, *tokens, pointer, std::move(*typed)); !done) return done.problems();
  if (goes) take_out(tree, *tokens);
  if (shapes_layout(*tokens)) refit_layout(document.quilt, tree);
  return document_from_tree(std::move(tree), document.original ? document.original->text : "", "quilt.json");
}

}  // namespace farflung::project
