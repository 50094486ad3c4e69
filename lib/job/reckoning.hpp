// Scores between edits, the dear part kept. For the sources of this module only.
#pragma once

#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "job/edit.hpp"
#include "job/open_quilt.hpp"
#include "score/measure.hpp"

namespace farflung::job {

/// The quilts that were looked at last, and their measures. Safe to use from several threads.
class Reckoning {
 public:
  /// The quilt in a folder, as project::read gives it; parsed anew only where its file is another by now.
  Result<project::Document> read(const std::string& folder);

  /// What stands in a folder since it was read or saved.
  void keep(const std::string& folder, const project::Document& document);

  /// The measure of this quilt, which holds for every layout of it that leaves the same cells empty.
  std::shared_ptr<const score::Measure> measure_of(const project::Document& document);

 private:
  struct Known {
    std::string quilt;  ///< all but where its blocks lie
    std::shared_ptr<const score::Measure> measure;
  };
  struct Seen {
    std::string folder;
    project::Document document;
  };
  static constexpr std::size_t kMost = 6;

  std::mutex mutex_;
  std::vector<Seen> seen_;    ///< the latest first
  std::vector<Known> known_;  ///< the latest first
};

/// Version, history, touches, corner touches and score of a quilt as it stands.
Outcome standing_report(const std::string& folder, const project::Document& document, Reckoning& reckoning,
                        const std::string& words);

}  // namespace farflung::job
