// Pictures back to files.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "photo/picture.hpp"

namespace farflung::photo {

/// png keeps every pixel as it is; jpeg is smaller, and a little off.
enum class Format { png, jpeg };

/// The bytes of a file without any metadata; the same picture gives the same bytes. JPEG at quality 90.
Result<std::vector<std::uint8_t>> encode(const Picture& picture, Format format);

/// Writes a PNG or a JPEG by the file's ending (.png, .jpg, .jpeg), replacing what was there.
Result<Done> save(const Picture& picture, const std::string& file);

}  // namespace farflung::photo
