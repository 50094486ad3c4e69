// Holds a tree against a JSON Schema and says in plain words where it differs. For the sources of this module only.
#pragma once

#include <memory>

#include "project/json.hpp"

namespace farflung::project {

/// quilt.schema.json of the data folder: parsed once for as long as that file stays as it is. Several threads may ask.
Result<std::shared_ptr<const Json>> read_schema();

/// Every difference between the tree and a schema (draft 7), up to limits::kProblems; `at` is a JSON pointer.
/// `definition` names an entry of the schema's definitions to hold the tree against; empty for the schema itself.
Problems schema_problems(const Json& value, const std::shared_ptr<const Json>& schema,
                         const std::string& definition = "");

/// What a schema says of one place.
struct SchemaPlace {
  const Json* rules = nullptr;  ///< within the schema; null where it says nothing
  std::string description;      ///< the words beside a reference stand before those of what it refers to

  bool allows(const char* type) const;  ///< whether it names this type, "string", "null" ...
  bool has(const char* rule) const { return rules != nullptr && rules->contains(rule); }
};

/// The place at a pointer's tokens, references followed.
SchemaPlace schema_at(const Json& schema, const std::vector<std::string>& tokens);

}  // namespace farflung::project
