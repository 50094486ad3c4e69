// Reading a table of threads; its form is told in thread.hpp.
#include <algorithm>
#include <set>
#include <utility>

#include "base/limits.hpp"
#include "choice/thread.hpp"
#include "colour/typed.hpp"

namespace farflung::choice {
namespace {

struct Line {
  std::vector<std::string> fields;
  bool closed = true;  // false: a quote was opened and not closed
};

std::string trimmed(const std::string& text) {
  const auto from = text.find_first_not_of(" \t");
  if (from == std::string::npos) return "";
  return text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

Line fields_of(std::string_view text) {
  Line line;
  std::string field;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '"') {
      if (quoted && i + 1 < text.size() && text[i + 1] == '"') {
        field += text[++i];
      } else {
        quoted = !quoted;
      }
    } else if (text[i] == ',' && !quoted) {
      line.fields.push_back(trimmed(field));
      field.clear();
    } else {
      field += text[i];
    }
  }
  line.fields.push_back(trimmed(field));
  line.closed = !quoted;
  return line;
}

/// Well-formed UTF-8 (RFC 3629): no overlong forms, no surrogates, nothing beyond U+10FFFF, no control characters.
bool readable(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const auto lead = static_cast<unsigned char>(text[i]);
    if (lead < 0x80) {
      if ((lead < 0x20 && lead != '\t') || lead == 0x7F) return false;
      ++i;
      continue;
    }
    const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || i + length > text.size()) return false;
    unsigned code = lead & (0xFFU >> (length + 1));
    for (std::size_t j = 1; j < length; ++j) {
      const auto next = static_cast<unsigned char>(text[i + j]);
      if ((next & 0xC0) != 0x80) return false;
      code = code << 6 | (next & 0x3F);
    }
    const unsigned least = length == 2 ? 0x80 : length == 3 ? 0x800 : 0x10000;
    if (code < least || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) return false;
    i += length;
  }
  return true;
}

std::string colour_text(const std::vector<std::string>& fields) {
  std::string text;
  for (std::size_t i = 1; i < fields.size(); ++i) {
    if (!text.empty() && !fields[i].empty()) text += ' ';
    text += fields[i];
  }
  return text;
}

// A first line that names its columns has no digit where a colour has some.
bool is_heading(const std::vector<std::string>& fields) {
  static const std::set<std::string> kWords = {"colour", "color",  "hex",   "lab", "L",  "l",
                                               "L*",     "Colour", "Color", "Hex", "Lab"};
  return fields.size() > 1 && kWords.contains(fields[1]);
}

class Reader {
 public:
  explicit Reader(std::string file) : file_(std::move(file)) {}

  void read(std::string_view text, int number) {
    const std::string at = file_ + ":" + std::to_string(number);
    if (!readable(text)) {
      problems_.push_back(input_problem(at, "this is not UTF-8 text", "save the table as UTF-8"));
      return;
    }
    if (trimmed(std::string(text)).empty() || text.front() == '#') return;
    const Line line = fields_of(text);
    const bool first = !std::exchange(any_, true);
    if (!line.closed) {
      problems_.push_back(input_problem(at, "a quote is opened and not closed", "close it with \""));
    } else if (!(first && is_heading(line.fields))) {
      add(line.fields, at);
    }
  }

  Result<std::vector<ThreadColour>> result() {
    if (threads_.empty() && problems_.empty()) {
      problems_.push_back(input_problem(file_, "there is no thread in it", "give a name and a colour on each line"));
    }
    if (!problems_.empty()) return problems_;
    return threads_;
  }

 private:
  void add(const std::vector<std::string>& fields, const std::string& at) {
    if (fields.size() != 2 && fields.size() != 4) {
      problems_.push_back(input_problem(at, "a line holds " + std::to_string(fields.size()) + " fields",
                                        "give a name and a colour, or a name and L*, a*, b*"));
      return;
    }
    if (fields[0].empty()) problems_.push_back(input_problem(at, "the thread has no name", "name it"));
    if (!fields[0].empty() && !names_.insert(fields[0]).second) {
      problems_.push_back(input_problem(at, "there is a thread " + fields[0] + " already", "give it another name"));
    }
    const Result<colour::Lab> lab = colour::colour_from_typed(colour_text(fields));
    if (!lab) {
      for (Problem problem : lab.problems()) {
        problem.at = at;
        problem.cause = "\"" + colour_text(fields) + "\": " + problem.cause;
        problems_.push_back(problem);
      }
      return;
    }
    threads_.push_back({fields[0], *lab});
    if (threads_.size() == limits::kThreads + 1) {
      problems_.push_back(input_problem(at, "there are more than 10,000 threads", "leave some out"));
    }
  }

  std::string file_;
  bool any_ = false;
  std::set<std::string> names_;
  std::vector<ThreadColour> threads_;
  Problems problems_;
};

}  // namespace

Result<std::vector<ThreadColour>> threads_from_csv(std::string_view text, const std::string& file) {
  if (text.size() > limits::kThreadListBytes)
    return input_problem(file, "the table is larger than 1 MB", "leave some threads out");
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  Reader reader(file);
  int number = 0;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string_view line = text.substr(0, end);
    if (line.ends_with('\r')) line.remove_suffix(1);
    reader.read(line, ++number);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return reader.result();
}

}  // namespace farflung::choice
