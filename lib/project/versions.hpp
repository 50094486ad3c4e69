// The versions of a quilt, fifty before the present one. For the sources of this module only.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace farflung::project {

/// versions/ holds numbered versions; one of them is `now`, the last unless the user went back. quilt.json is the
/// truth: where its bytes are not those of `now` they are a version after it, whether this program saved them or a
/// person's editor did, and what could have been redone is void.
///
/// A file `now` stands there only while the user has gone back ("6"), or was on the way when a crash came ("7>6"): then
/// quilt.json tells whether the step was made.
class Versions {
 public:
  /// `present` are the bytes of quilt.json. Call it under the quilt's hold.
  Versions(const std::filesystem::path& quilt_folder, std::string present);

  /// Makes sure that the present bytes are among the versions: after they were saved, and again before they are
  /// replaced, for the first may have failed and a person may have edited the file since. Nothing is lost where it
  /// fails.
  Result<Done> keep();

  /// The bytes of the version that lies `step` (-1 or 1) from now; none where there is none.
  Result<std::optional<std::string>> neighbour(int step);

  /// Tells that quilt.json is about to be replaced by that neighbour, and that it has been.
  Result<Done> going(int step);
  Result<Done> gone(int step);

  int before() const;  ///< how many versions lie before now
  int after() const;   ///< how many lie after now, to go forward to again
  bool present_is_now() const { return now_ > 0 && present_is(now_); }
  bool empty() const { return numbers_.empty(); }

 private:
  std::filesystem::path file_of(int number) const;
  std::filesystem::path marker() const { return folder_ / "now"; }
  std::optional<std::string> bytes_of(int number) const;
  bool present_is(int number) const;
  int number_at(int step) const;
  void find_numbers();
  void find_now();
  void forget_oldest();
  Result<Done> drop_after_now();
  Result<Done> drop_oldest();

  std::filesystem::path folder_;
  std::string present_;
  std::vector<int> numbers_;    // rising
  std::vector<int> forgotten_;  // older than those that are kept: a crash came before they were removed
  int now_ = 0;
  bool on_the_way_ = false;  // a step was begun, and it is not yet written down which way it ended
};

}  // namespace farflung::project
