// Files that telephones and cameras make, as upright sRGB pictures.
#pragma once

#include <cstdint>
#include <string>

#include "base/limits.hpp"
#include "base/result.hpp"
#include "photo/picture.hpp"

namespace farflung::photo {

/// How large a file and its picture may be.
struct DecodeOptions {
  int longest = 2048;  ///< the picture is shrunk until its longer side is at most this; 0: never
  std::int64_t most_pixels = limits::kPhotographPixels;  ///< larger ones are refused by their header alone
  std::int64_t most_bytes = limits::kPhotographBytes;    ///< larger files are not opened
};

/// An upright photograph, perhaps shrunk.
struct Photograph {
  std::string file;
  Picture picture;
  int columns = 0, rows = 0;  ///< of the upright photograph at full size

  /// Pixels of the full-size photograph to one of `picture`.
  double full_from_picture() const { return static_cast<double>(columns) / picture.columns; }
};

/// Reads JPEG, PNG, TIFF, HEIC, AVIF and WebP, of 8 or 16 bits, grey, colour or CMYK. It is turned by its EXIF
/// orientation; an embedded colour profile is applied; what is clear is laid on white. Files that are cut short, that
/// are no pictures (whatever their name), or that are larger than `options` allows are refused.
///
///   const Result<Photograph> photograph = decode("photos/a.jpg");
Result<Photograph> decode(const std::string& file, const DecodeOptions& options = {});

}  // namespace farflung::photo
