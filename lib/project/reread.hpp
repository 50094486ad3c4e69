// A quilt that is read again and again while somebody works on it.
#pragma once

#include <filesystem>

#include "project/document.hpp"

namespace farflung::project {

/// As read() gives it; where the file is byte for byte what `known` was read from or saved as, without parsing it anew.
Result<Document> reread(const std::filesystem::path& folder, const Document& known);

}  // namespace farflung::project
