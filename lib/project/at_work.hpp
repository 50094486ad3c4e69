// A quilt that is read and saved again and again while somebody works on it and waits for each answer.
#pragma once

#include <filesystem>

#include "project/document.hpp"

namespace farflung::project {

/// As read() gives it; where the file is byte for byte what `known` was read from or saved as, without parsing it anew.
Result<Document> reread(const std::filesystem::path& folder, const Document& known);

/// As write() saves, half as long: the bytes survive a power cut, and undo goes back from them; only the copy that redo
/// would come back to is left for keep_present(), or else for whatever changes the quilt next.
Result<Done> write_first(const Hold& hold, Document& document);

/// Keeps the quilt as it stands among its versions, where it is not there yet.
Result<Done> keep_present(const std::filesystem::path& folder);

}  // namespace farflung::project
