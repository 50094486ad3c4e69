#include "server/json.hpp"

#include <algorithm>

#include "base/limits.hpp"
#include "job/edit.hpp"

namespace farflung::server {
namespace {

/// Whether brackets nest no deeper than `most`: looked at before anything is built of them.
bool nests_within(const std::string& text, int most) {
  int depth = 0;
  bool in_text = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (in_text) {
      if (c == '\\') ++i;
      in_text = c != '"';
    } else if (c == '"') {
      in_text = true;
    } else if (c == '{' || c == '[') {
      if (++depth > most) return false;
    } else if (c == '}' || c == ']') {
      --depth;
    }
  }
  return true;
}

}  // namespace

Result<Json> object_in(const std::string& body) {
  if (body.empty()) return Json::object();
  const char* const remedy = "send a JSON object";
  if (!nests_within(body, limits::kDepth)) return input_problem("", "the request is nested too deeply", remedy);
  Json json = Json::parse(body, nullptr, false);
  if (json.is_discarded() || !json.is_object()) return input_problem("", "the request is no JSON object", remedy);
  return json;
}

std::string json_text(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

std::string problems_text(const Problems& problems) {
  Json list = Json::array();
  for (const Problem& problem : problems) {
    list.push_back({{"at", problem.place()}, {"says", problem.says()}});
    if (std::string file = problem.file(); !file.empty()) list.back()["file"] = std::move(file);
  }
  return json_text({{"schema_version", 1}, {"problems", list}});
}

std::string text_in(const Json& json, const char* key, const std::string& otherwise) {
  const auto found = json.find(key);
  return found != json.end() && found->is_string() ? found->get<std::string>() : otherwise;
}

int whole_in(const Json& json, const char* key, int otherwise) {
  return static_cast<int>(std::clamp(number_in(json, key, otherwise), -1e9, 1e9));
}

double number_in(const Json& json, const char* key, double otherwise) {
  const auto found = json.find(key);
  return found != json.end() && found->is_number() ? found->get<double>() : otherwise;
}

bool flag_in(const Json& json, const char* key, bool otherwise) {
  const auto found = json.find(key);
  return found != json.end() && found->is_boolean() ? found->get<bool>() : otherwise;
}

std::vector<std::string> texts_in(const Json& json, const char* key) {
  std::vector<std::string> texts;
  const auto found = json.find(key);
  if (found == json.end() || !found->is_array()) return texts;
  for (const Json& one : *found) {
    if (one.is_string()) texts.push_back(one.get<std::string>());
  }
  return texts;
}

Response json_response(int status, std::string text) {
  Response response;
  response.status = status;
  response.bytes = std::move(text);
  return response;
}

Response problem_response(int status, const std::string& cause, const std::string& remedy) {
  return json_response(status, problems_text({input_problem("", cause, remedy)}));
}

Response busy_response(const std::string& goes_on) {
  return problem_response(423, "the quilt is busy: " + goes_on + " goes on", "wait until it is done, or stop it");
}

Response problems_response(const Problems& problems) {
  const bool system = std::any_of(problems.begin(), problems.end(),
                                  [](const Problem& problem) { return problem.kind == Problem::Kind::system; });
  const int status = job::is_changed_since(problems) ? 409 : system ? 500 : 422;
  return json_response(status, problems_text(problems));
}

}  // namespace farflung::server
