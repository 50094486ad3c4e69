// Files that come into a quilt's folder with an edit: all of them, or none. For the sources of this module only.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "photo/picture.hpp"
#include "project/document.hpp"
#include "project/scratch.hpp"
#include "quilt/quilt.hpp"

namespace farflung::job {

/// Files by their place within the quilt's folder; all are written, or none is left.
class PendingFiles {
 public:
  explicit PendingFiles(std::filesystem::path folder) : folder_(std::move(folder)), scratch_(folder_) {}

  /// `name` is the file's path within the folder; nothing is seen there before save().
  void add(const std::string& name, std::string bytes) {
    files_.push_back({folder_ / name, scratch_.put(std::move(bytes))});
  }

  /// `stem` + `ending` in `below`, with a number where that name is taken on the disk or here.
  std::string free_name(const std::string& below, const std::string& stem, const std::string& ending) const;

  /// Gives a print that has its id this swatch, under a name of its own, so that undo finds the one before.
  Result<Done> add_swatch(print::Print& print, const photo::Picture& swatch);

  /// Writes the files and then the quilt; where anything fails all is as it was.
  Result<Done> save(project::Document& document);

 private:
  struct Pending {
    std::filesystem::path file;
    project::Scratch::Piece bytes;
  };

  Result<Done> write();
  void take_back();

  std::filesystem::path folder_;
  project::Scratch scratch_;  ///< five hundred photographs are more than memory should hold
  std::vector<Pending> files_;
  std::vector<std::filesystem::path> written_;
};

/// "P07": the next id that no print of the quilt has.
std::string next_print_id(const quilt::Quilt& quilt);

}  // namespace farflung::job
