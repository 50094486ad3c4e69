// Versions are kept small: each is a gzip file (RFC 1952) that any gunzip opens.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace farflung::project {

/// The same bytes give the same file.
std::string gzipped(const std::string& bytes);

/// None where it is no whole gzip file, or opens to more than `most` bytes.
std::optional<std::string> gunzipped(const std::string& bytes, std::uint64_t most);

}  // namespace farflung::project
