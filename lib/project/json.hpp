// JSON as text and as a tree, for the sources of this module only: no header that others include shows it.
#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "base/result.hpp"

namespace farflung::project {

/// Objects keep their keys in the order of the file.
using Json = nlohmann::ordered_json;

/// Reads text within limits.hpp. A problem names the file, with line and column ("quilt.json:3:17") where the text is
/// not JSON, with the pointer ("quilt.json#/prints/3") where it is but says something twice or is beyond a limit.
Result<Json> parse_json(const std::string& text, const std::string& file);

/// As a person would lay it out: what fits on a line stands on one; lists of numbers run on; ends with a newline.
/// The same tree gives the same text.
std::string json_text(const Json& value);

/// A token of a JSON pointer (RFC 6901), "~" and "/" escaped.
std::string escaped_token(const std::string& key);

/// The tokens of a JSON pointer, unescaped; none where it is not a pointer.
std::optional<std::vector<std::string>> pointer_tokens(const std::string& pointer);

/// The value at a pointer's tokens; null where there is none.
const Json* value_at(const Json& root, const std::vector<std::string>& tokens);

/// An index of a list as a pointer writes it: no sign, no leading zero; none otherwise.
std::optional<std::size_t> index_token(const std::string& token);

/// "a text", "a number", "a list" ...
std::string kind_of(const Json& value);

}  // namespace farflung::project
