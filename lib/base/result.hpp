// What a user can get wrong comes back as a Problem, never as an exception.
#pragma once

#include <cassert>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace farflung {

/// What went wrong, said so that the user can mend it: where, why, what to do.
struct Problem {
  enum class Kind {
    input,   ///< the file or the command line is wrong: exit status 2
    system,  ///< disk, permissions, memory: exit status 1
  };

  Kind kind = Kind::input;
  std::string at;      ///< the file, or the JSON pointer within it
  std::string cause;   ///< one clause without a full stop: "slot C has no print"
  std::string remedy;  ///< what to do about it; may be empty

  /// "photos/a.jpg: not a picture: give a JPEG, PNG, TIFF or HEIC photograph"
  std::string text() const;

  /// The cause and the remedy, without the place.
  std::string says() const;

  /// `at` in two, for reports to programs: the JSON file, empty where the place is not within one, and the pointer
  /// within it, else all of `at`. "harbour/quilt.json#/prints/3" is "harbour/quilt.json" and "/prints/3".
  std::string file() const;
  std::string place() const;

  friend bool operator==(const Problem&, const Problem&) = default;
};

/// In the order in which they were met; whoever collects them goes on after the first.
using Problems = std::vector<Problem>;

/// A value, or the reasons why there is none (at least one).
///
///   Result<Pattern> pattern = read_pattern(text);
///   if (!pattern) return pattern.problems();
///   use(*pattern);
template <typename T>
class [[nodiscard]] Result {
 public:
  Result(T value) : content_(std::move(value)) {}                      // NOLINT(google-explicit-constructor)
  Result(Problem problem) : content_(Problems{std::move(problem)}) {}  // NOLINT(google-explicit-constructor)
  Result(Problems problems) : content_(std::move(problems)) {          // NOLINT(google-explicit-constructor)
    assert(!this->problems().empty());
  }

  bool ok() const { return std::holds_alternative<T>(content_); }
  explicit operator bool() const { return ok(); }

  T& operator*() { return std::get<T>(content_); }
  const T& operator*() const { return std::get<T>(content_); }
  T* operator->() { return &std::get<T>(content_); }
  const T* operator->() const { return &std::get<T>(content_); }

  const Problems& problems() const { return std::get<Problems>(content_); }

 private:
  std::variant<T, Problems> content_;
};

/// Success without a value.
struct Done {
  friend bool operator==(Done, Done) = default;
};

/// A problem of the user's own making (or, below, of the system's), in the order in which it reads.
inline Problem input_problem(std::string at, std::string cause, std::string remedy = {}) {
  return {Problem::Kind::input, std::move(at), std::move(cause), std::move(remedy)};
}

inline Problem system_problem(std::string at, std::string cause, std::string remedy = {}) {
  return {Problem::Kind::system, std::move(at), std::move(cause), std::move(remedy)};
}

}  // namespace farflung
