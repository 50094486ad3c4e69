// A quilt with a layout that was kept by name. For the sources of this module only.
#pragma once

#include <filesystem>

#include "job/open_quilt.hpp"

namespace farflung::job {

/// Where a kept layout lies; a problem where the name can be no file's.
Result<std::filesystem::path> layout_file(const std::string& folder, const std::string& name);

/// The document with that layout, and the make-up that it was kept with.
Result<project::Document> laid(const project::Document& document, const std::string& folder, const std::string& name);

}  // namespace farflung::job
