// Holds a tree against a JSON Schema and says in plain words where it differs. For the sources of this module only.
#pragma once

#include "project/json.hpp"

namespace farflung::project {

/// Reads quilt.schema.json from the data folder.
Result<Json> read_schema();

/// Every difference between the tree and a schema (draft 7), in the order of the file; `at` is a JSON pointer.
/// `definition` names an entry of the schema's definitions to hold the tree against; empty for the schema itself.
Problems schema_problems(const Json& value, const Json& schema, const std::string& definition = "");

/// What the schema says of the place at a pointer's tokens (references followed, the innermost description kept); null
/// where it says nothing.
Json schema_at(const Json& schema, const std::vector<std::string>& tokens);

}  // namespace farflung::project
