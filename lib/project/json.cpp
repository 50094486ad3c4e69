#include "project/json.hpp"

#include <algorithm>
#include <utility>

#include "base/limits.hpp"

namespace farflung::project {
namespace {

constexpr std::size_t kLineWidth = 120;

/// Builds the tree as the parser reads, and stops it at the first thing beyond a limit.
class TreeBuilder : public nlohmann::json_sax<Json> {
 public:
  TreeBuilder(const std::string& text, std::string file) : text_(text), file_(std::move(file)) {}

  bool null() override { return add(Json()); }
  bool boolean(bool value) override { return add(Json(value)); }
  bool number_integer(number_integer_t value) override { return add(Json(value)); }
  bool number_unsigned(number_unsigned_t value) override { return add(Json(value)); }
  bool number_float(number_float_t value, const string_t& /*as_written*/) override { return add(Json(value)); }
  bool string(string_t& value) override { return add(Json(std::move(value))); }
  bool binary(binary_t& /*value*/) override { return false; }

  bool start_object(std::size_t /*elements*/) override { return open(Json::object()); }
  bool start_array(std::size_t /*elements*/) override { return open(Json::array()); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(string_t& key) override {
    Json& object = *open_.back();
    if (object.contains(key)) {
      return refuse("the key \"" + key + "\" stands twice in one object", "keep one of them");
    }
    if (object.size() >= limits::kKeys) {
      return refuse("an object of more than " + std::to_string(limits::kKeys) + " keys", "a quilt needs far fewer");
    }
    key_ = std::move(key);
    return true;
  }

  bool parse_error(std::size_t position, const std::string& /*token*/, const Json::exception& error) override {
    const std::size_t end = std::min(position == 0 ? 0 : position - 1, text_.size());
    const std::string before = text_.substr(0, end);
    const auto line = 1 + std::count(before.begin(), before.end(), '\n');
    const std::size_t start = before.rfind('\n');
    const std::size_t column = before.size() - (start == std::string::npos ? 0 : start + 1) + 1;
    problem_ =
        input_problem(file_ + ":" + std::to_string(line) + ":" + std::to_string(column),
                      "not JSON: " + plain(error.what()), "mend it there, or take the version before from versions");
    return false;
  }

  Result<Json> result(bool read) && {
    if (!read) return std::move(problem_);
    return std::move(root_);
  }

 private:
  /// The library's words without its own numbering, in plain ASCII.
  static std::string plain(std::string words) {
    for (const char* lead : {" - ", "number overflow", "] "}) {
      const std::size_t at = words.find(lead);
      if (at == std::string::npos) continue;
      words.erase(0, *lead == 'n' ? at : at + std::string(lead).size());
      break;
    }
    std::string ascii;
    for (const char c : words.substr(0, 200)) ascii += c >= ' ' && c < 127 ? c : '?';
    return ascii;
  }

  bool refuse(std::string cause, std::string remedy) {
    problem_ = input_problem(file_ + "#" + pointer(), std::move(cause), std::move(remedy));
    return false;
  }

  std::string pointer() const {
    std::string pointer;
    for (std::size_t i = 0; i + 1 < open_.size(); ++i) {
      const Json& within = *open_[i];
      pointer +=
          "/" + (within.is_object() ? escaped_token(std::prev(within.end()).key()) : std::to_string(within.size() - 1));
    }
    return pointer;
  }

  bool add(Json value) { return place(std::move(value)) != nullptr; }

  Json* place(Json value) {
    if (++values_ > limits::kValues) {
      refuse("more than " + std::to_string(limits::kValues) + " values", "a quilt needs far fewer");
      return nullptr;
    }
    if (open_.empty()) {
      root_ = std::move(value);
      return &root_;
    }
    Json& within = *open_.back();
    if (within.is_array()) {
      within.push_back(std::move(value));
      return &within.back();
    }
    return &(within[key_] = std::move(value));
  }

  bool open(Json empty) {
    if (open_.size() >= static_cast<std::size_t>(limits::kDepth)) {
      return refuse("nested deeper than " + std::to_string(limits::kDepth) + " levels", "a quilt needs eight");
    }
    Json* const placed = place(std::move(empty));
    if (placed != nullptr) open_.push_back(placed);
    return placed != nullptr;
  }

  bool close() {
    open_.pop_back();
    return true;
  }

  const std::string& text_;
  std::string file_;
  Json root_;
  std::vector<Json*> open_;  // from the root to the list or object being read; none of them moves while it is open
  std::string key_;
  std::size_t values_ = 0;
  Problem problem_;
};

bool is_scalar(const Json& value) { return !value.is_array() && !value.is_object(); }

std::string scalar_text(const Json& value) { return value.dump(-1, ' ', false, Json::error_handler_t::replace); }

/// Lays a tree out in lines.
class Printer {
 public:
  std::string text_of(const Json& value) {
    print(value, 0, 0);
    text_ += '\n';
    return std::move(text_);
  }

 private:
  /// All of it on one line, or nothing where that is longer than `room`.
  static bool flat(const Json& value, std::size_t room, std::string& line) {
    if (is_scalar(value)) {
      line += scalar_text(value);
      return line.size() <= room;
    }
    const bool object = value.is_object();
    line += object ? '{' : '[';
    bool first = true;
    for (auto it = value.begin(); it != value.end(); ++it) {
      if (!first) line += ", ";
      first = false;
      if (object) line += scalar_text(it.key()) + ": ";
      if (!flat(*it, room, line)) return false;
    }
    line += object ? '}' : ']';
    return line.size() <= room;
  }

  /// `before` is what already stands on this line after the indentation.
  void print(const Json& value, std::size_t indentation, std::size_t before) {
    std::string line;
    const std::size_t used = indentation + before + 1;
    const bool root = indentation == 0 && before == 0 && value.is_object();
    if (is_scalar(value) || value.empty() || (!root && flat(value, kLineWidth > used ? kLineWidth - used : 0, line))) {
      text_ += line.empty() ? scalar_text(value) : line;
    } else if (value.is_object()) {
      print_object(value, indentation);
    } else if (std::all_of(value.begin(), value.end(), is_scalar)) {
      print_run(value, indentation);
    } else {
      print_list(value, indentation);
    }
  }

  void print_object(const Json& object, std::size_t indentation) {
    text_ += "{\n";
    std::size_t left = object.size();
    for (auto it = object.begin(); it != object.end(); ++it) {
      const std::string key = scalar_text(it.key()) + ": ";
      text_ += std::string(indentation + 2, ' ') + key;
      print(*it, indentation + 2, key.size());
      text_ += --left > 0 ? ",\n" : "\n";
    }
    text_ += std::string(indentation, ' ') + "}";
  }

  void print_list(const Json& list, std::size_t indentation) {
    text_ += "[\n";
    std::size_t left = list.size();
    for (const Json& item : list) {
      text_ += std::string(indentation + 2, ' ');
      print(item, indentation + 2, 0);
      text_ += --left > 0 ? ",\n" : "\n";
    }
    text_ += std::string(indentation, ' ') + "]";
  }

  /// Numbers and texts run on from line to line.
  void print_run(const Json& list, std::size_t indentation) {
    text_ += "[";
    std::size_t used = kLineWidth;
    std::size_t left = list.size();
    for (const Json& item : list) {
      const std::string piece = scalar_text(item) + (--left > 0 ? "," : "");
      if (used + 1 + piece.size() > kLineWidth) {
        text_ += "\n" + std::string(indentation + 2, ' ') + piece;
        used = indentation + 2 + piece.size();
      } else {
        text_ += " " + piece;
        used += 1 + piece.size();
      }
    }
    text_ += "\n" + std::string(indentation, ' ') + "]";
  }

  std::string text_;
};

}  // namespace

Result<Json> parse_json(const std::string& text, const std::string& file) {
  if (text.size() > limits::kFileBytes) {
    return input_problem(file, "larger than " + std::to_string(limits::kFileBytes) + " bytes",
                         "a quilt needs far less");
  }
  TreeBuilder builder(text, file);
  const bool read = Json::sax_parse(text, &builder);
  return std::move(builder).result(read);
}

std::string json_text(const Json& value) { return Printer().text_of(value); }

std::string escaped_token(const std::string& key) {
  std::string token;
  for (const char c : key) {
    if (c == '~') {
      token += "~0";
    } else if (c == '/') {
      token += "~1";
    } else {
      token += c;
    }
  }
  return token;
}

std::optional<std::vector<std::string>> pointer_tokens(const std::string& pointer) {
  if (pointer.empty()) return std::vector<std::string>();
  if (pointer.front() != '/') return std::nullopt;
  std::vector<std::string> tokens;
  for (std::size_t i = 0; i < pointer.size(); ++i) {
    if (pointer[i] == '/') {
      tokens.emplace_back();
    } else if (pointer[i] != '~') {
      tokens.back() += pointer[i];
    } else {
      ++i;
      if (i == pointer.size() || (pointer[i] != '0' && pointer[i] != '1')) return std::nullopt;
      tokens.back() += pointer[i] == '0' ? '~' : '/';
    }
  }
  return tokens;
}

std::optional<std::size_t> index_token(const std::string& token) {
  if (token.empty() || token.size() > 9 || (token.size() > 1 && token.front() == '0')) return std::nullopt;
  if (token.find_first_not_of("0123456789") != std::string::npos) return std::nullopt;
  return std::stoul(token);
}

const Json* value_at(const Json& root, const std::vector<std::string>& tokens) {
  const Json* value = &root;
  for (const std::string& token : tokens) {
    if (value->is_object()) {
      const auto found = value->find(token);
      if (found == value->end()) return nullptr;
      value = &*found;
    } else {
      const std::optional<std::size_t> index = value->is_array() ? index_token(token) : std::nullopt;
      if (!index || *index >= value->size()) return nullptr;
      value = &(*value)[*index];
    }
  }
  return value;
}

std::string kind_of(const Json& value) {
  switch (value.type()) {
    case Json::value_t::null:
      return "null";
    case Json::value_t::boolean:
      return value.get<bool>() ? "true" : "false";
    case Json::value_t::string:
      return "a text";
    case Json::value_t::array:
      return "a list";
    case Json::value_t::object:
      return "an object";
    case Json::value_t::number_float:
      return "a number with decimals";
    default:
      return "a number";
  }
}

}  // namespace farflung::project
