// The swatches of a quilt's prints, ready to be laid over one another.
#pragma once

#include <filesystem>
#include <map>
#include <optional>

#include "extract/overlay.hpp"
#include "photo/picture.hpp"
#include "quilt/quilt.hpp"

namespace farflung::job {

/// What the swatch of a print spans from left to right, where known.
std::optional<double> inches_across(const print::Print& print);

/// Each swatch is read from the quilt's folder when it is first laid over another, unless it was given before.
class Looks {
 public:
  /// The quilt must outlive it; prints are named by their index.
  Looks(const quilt::Quilt& quilt, std::filesystem::path folder) : quilt_(quilt), folder_(std::move(folder)) {}

  /// The swatch of a print whose file is not written yet.
  void give(std::size_t print, const photo::Picture& swatch);

  /// Nothing where either has no swatch that can be read.
  std::optional<print::Overlay> laid_over(std::size_t first, std::size_t second);

 private:
  const std::optional<extract::Look>& look(std::size_t print);

  const quilt::Quilt& quilt_;
  std::filesystem::path folder_;
  std::map<std::size_t, std::optional<extract::Look>> looks_;
};

}  // namespace farflung::job
