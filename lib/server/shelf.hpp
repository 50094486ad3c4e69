// The folder that quilts lie in, and what is kept beside them for the page.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace farflung::server {

/// Quilts by name: each is a folder of that name. What is the page's own lies in one folder that begins with a dot.
class Shelf {
 public:
  /// Makes what is missing; clears what a run before left behind.
  static Result<Shelf> at(const std::filesystem::path& folder);

  std::vector<std::string> quilts() const;  ///< by name

  /// The quilt's folder; none where there is no quilt of that name, whatever the name is made of.
  std::optional<std::filesystem::path> folder_of(const std::string& name) const;

  /// Where a new quilt of that name would go; a problem where the name is none, or is taken.
  Result<std::filesystem::path> place_for(const std::string& name) const;

  /// The name itself, or with a number where it is taken.
  std::string free_name(const std::string& name) const;

  /// `to` as place_for takes it.
  Result<Done> copy(const std::string& name, const std::string& to) const;
  /// The folder itself takes the new name, which must be free.
  Result<Done> rename(const std::string& name, const std::string& to) const;

  /// Lays a quilt aside, and takes it up again. Nothing is deleted.
  Result<Done> lay_aside(const std::string& name) const;
  /// The names by which take_up knows them.
  std::vector<std::string> aside() const;
  Result<std::string> take_up(const std::string& aside) const;  ///< the name that it has now

  /// A folder for work on files; it goes, with all that is in it, with the last who holds it. Null where none can be
  /// made.
  std::shared_ptr<const std::filesystem::path> scratch() const;

  const std::filesystem::path& root() const { return root_; }
  /// For bodies of requests on their way and unfinished copies; emptied when the server begins.
  std::filesystem::path arriving() const { return own() / "arriving"; }
  /// For pictures that runs have made and drawings that are kept for the next who asks.
  std::filesystem::path pictures() const { return own() / "pictures"; }
  std::filesystem::path own() const { return root_ / ".farflung"; }

 private:
  explicit Shelf(std::filesystem::path root) : root_(std::move(root)) {}
  std::filesystem::path laid_aside() const { return own() / "aside"; }

  std::filesystem::path root_;
};

/// Whether a text can be a file's name, on any system that the folder may be carried to, and no path: not empty, no
/// slash or backslash, no control character, no dot or space at either end, at most 100 bytes of UTF-8.
bool is_plain_name(const std::string& text);

}  // namespace farflung::server
