// JSON that pages send and are sent. For the sources of this module only.
#pragma once

#include <string>

#include <nlohmann/json.hpp>

#include "base/result.hpp"
#include "server/http.hpp"

namespace farflung::server {

/// Objects keep their keys in the order in which they were put in.
using Json = nlohmann::ordered_json;

/// The object that a request's body is; a problem where it is none, or nested too deeply. An empty body is an empty
/// object.
Result<Json> object_in(const std::string& body);

/// One line; texts that are no UTF-8 are mended.
std::string json_text(const Json& json);

/// {"schema_version": 1, "problems": [{"at": ..., "says": ...}]}, with the "file" where `at` is a pointer within it.
std::string problems_text(const Problems& problems);

/// What a page may ask of a field, and what it gets where the field is not there or is of another kind.
std::string text_in(const Json& json, const char* key, const std::string& otherwise = {});
double number_in(const Json& json, const char* key, double otherwise);
int whole_in(const Json& json, const char* key, int otherwise);  ///< brought within a thousand million of 0
bool flag_in(const Json& json, const char* key, bool otherwise = false);
std::vector<std::string> texts_in(const Json& json, const char* key);

/// JSON of our own, and one problem of which no place can be named.
Response json_response(int status, std::string text);
Response problem_response(int status, const std::string& cause, const std::string& remedy = {});
Response busy_response(const std::string& goes_on);  ///< 423

/// 422 where the input is wrong, 500 where the system failed, 409 where the quilt was changed meanwhile.
Response problems_response(const Problems& problems);

}  // namespace farflung::server
