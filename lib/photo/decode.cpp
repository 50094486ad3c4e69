#include "photo/decode.hpp"

#include <algorithm>
#include <array>
#include <cstring>
#include <filesystem>
#include <optional>
#include <string_view>

#include <vips/vips8>

#include "photo/vips.hpp"

namespace farflung::photo {
namespace {

constexpr const char* kKinds = "give a JPEG, PNG, TIFF or HEIC photograph";

std::optional<Problem> unreadable(const std::string& file, const DecodeOptions& options) {
  namespace fs = std::filesystem;
  std::error_code error;
  const fs::file_status status = fs::status(file, error);
  if (!fs::exists(status)) return input_problem(file, "there is no such file", "check its name and folder");
  if (fs::is_directory(status)) return input_problem(file, "this is a folder", "name the photographs in it");
  if (!fs::is_regular_file(status)) return input_problem(file, "this is not a plain file", kKinds);
  const auto bytes = fs::file_size(file, error);
  if (error) return system_problem(file, "cannot be read: " + error.message());
  if (bytes == 0) return input_problem(file, "the file is empty", "copy it from the camera again");
  if (static_cast<std::int64_t>(bytes) > options.most_bytes) {
    return input_problem(file, "the file is " + std::to_string(bytes >> 20) + " MB, too large for a photograph",
                         "save it as a JPEG");
  }
  return {};
}

/// The reason that libvips gave, on one line, without its own names.
std::string vips_reason() {
  std::string reason = vips_error_buffer();
  vips_error_clear();
  reason = reason.substr(0, reason.find('\n'));
  const auto colon = reason.find(": ");
  if (colon != std::string::npos) reason = reason.substr(colon + 2);
  return reason;
}

/// What libraries say of a file that ends before its picture does, in words of their own.
bool tells_of_an_end(std::string_view reason) {
  constexpr std::array<std::string_view, 6> kEnds = {"Premature end", "premature end", "bad seek",
                                                     "read error",    "end of file",   "truncated"};
  return std::any_of(kEnds.begin(), kEnds.end(),
                     [&](std::string_view end) { return reason.find(end) != std::string_view::npos; });
}

Problem broken(const std::string& file) {
  const std::string reason = vips_reason();
  std::string cause = "the picture is cut short: the file ends before it does";
  if (!tells_of_an_end(reason)) cause = "the picture is damaged" + (reason.empty() ? "" : " (" + reason + ")");
  return input_problem(file, cause, "copy it from the camera again, or take it again");
}

/// Only what cameras and scanners make, whatever else libvips may know.
bool is_photograph(std::string_view loader) {
  constexpr std::array<std::string_view, 5> kLoaders = {"Jpeg", "Png", "Tiff", "Heif", "Webp"};
  constexpr std::string_view kPrefix = "VipsForeignLoad";
  if (!loader.starts_with(kPrefix)) return false;
  loader.remove_prefix(kPrefix.size());
  return std::any_of(kLoaders.begin(), kLoaders.end(),
                     [&](std::string_view known) { return loader.starts_with(known); });
}

/// What the header says, before any pixel is read.
struct Header {
  int columns = 0, rows = 0;  ///< upright
  bool has_profile = false;
  bool is_jpeg = false;
};

Result<Header> read_header(const std::string& file, const DecodeOptions& options) {
  const vips::VImage image =
      vips::VImage::new_from_file(file.c_str(), vips::VImage::option()->set("access", "sequential"));
  Header header{image.width(), image.height(), image.get_typeof(VIPS_META_ICC_NAME) != 0,
                std::string_view(image.get_string("vips-loader")) == "jpegload"};
  const std::int64_t pixels = static_cast<std::int64_t>(header.columns) * header.rows;
  if (pixels > options.most_pixels) {
    return input_problem(file,
                         "the picture has " + std::to_string(pixels / 1'000'000) + " megapixels, more than the " +
                             std::to_string(options.most_pixels / 1'000'000) + " that are read",
                         "save it smaller");
  }
  if (std::min(header.columns, header.rows) < 16) {
    return input_problem(
        file, "the picture is only " + std::to_string(header.columns) + " x " + std::to_string(header.rows) + " pixels",
        "take it again, larger");
  }
  if (vips_image_get_orientation_swap(image.get_image()) != 0) std::swap(header.columns, header.rows);
  return header;
}

vips::VImage srgb_of(vips::VImage image) {
  if (image.interpretation() != VIPS_INTERPRETATION_sRGB) image = image.colourspace(VIPS_INTERPRETATION_sRGB);
  if (image.has_alpha()) image = image.flatten(vips::VImage::option()->set("background", 255.0));
  if (image.bands() > 3) image = image.extract_band(0, vips::VImage::option()->set("n", 3));
  if (image.format() != VIPS_FORMAT_UCHAR) image = image.cast(VIPS_FORMAT_UCHAR);
  return image;
}

/// Strip by strip from the top, as files are read: no second copy of the picture ever stands in memory.
Picture picture_of(const vips::VImage& image) {
  constexpr int kStrip = 32;
  Picture picture(image.width(), image.height());
  const std::size_t row_bytes = 3 * static_cast<std::size_t>(picture.columns);
  const vips::VRegion region = image.region();
  for (int top = 0; top < picture.rows; top += kStrip) {
    const int rows = std::min(kStrip, picture.rows - top);
    region.prepare(0, top, picture.columns, rows);
    for (int row = top; row < top + rows; ++row)
      std::memcpy(&picture.rgb[row * row_bytes], region.addr(0, row), row_bytes);
  }
  return picture;
}

/// JPEG gives a half, a quarter or an eighth of its pixels for as much less work: as far as three quarters of `longest`
/// are left, a little less than was asked for is as good.
int shrink_on_load(int longer, int longest, bool is_jpeg) {
  int shrink = 1;
  while (is_jpeg && shrink < 8 && longer / (2 * shrink) >= longest * 3 / 4) shrink *= 2;
  return shrink;
}

Picture read_pixels(const std::string& file, const Header& header, const DecodeOptions& options) {
  const int longer = std::max(header.columns, header.rows);
  const int longest = options.longest > 0 ? std::min(options.longest, longer) : longer;
  // Made where it is handed over: libvips owns it from then on, thrown or not.
  const auto how = [&] {
    vips::VOption* made = vips::VImage::option()->set("height", longest)->set("size", VIPS_SIZE_DOWN);
    // Untagged pictures are sRGB already; libvips 8.14 would shift them.
    return header.has_profile ? made->set("export_profile", "srgb") : made;
  };
  const int shrink = shrink_on_load(longer, longest, header.is_jpeg);
  vips::VImage image;
  if (shrink > 1) {
    image = vips::VImage::jpegload(file.c_str(), vips::VImage::option()
                                                     ->set("shrink", shrink)
                                                     ->set("access", VIPS_ACCESS_SEQUENTIAL)
                                                     ->set("fail_on", VIPS_FAIL_ON_TRUNCATED));
    image = srgb_of(image.thumbnail_image(std::min(longest, std::max(image.width(), image.height())), how()));
  } else {
    image = srgb_of(vips::VImage::thumbnail(file.c_str(), longest, how()->set("fail_on", VIPS_FAIL_ON_TRUNCATED)));
  }
  return picture_of(image);
}

}  // namespace

Result<Photograph> decode(const std::string& file, const DecodeOptions& options) {
  if (auto problem = unreadable(file, options)) return *problem;
  if (!vips_ready()) return system_problem(file, "the picture library cannot be started");
  vips_error_clear();
  const char* loader = vips_foreign_find_load(file.c_str());
  if (loader == nullptr || !is_photograph(loader)) {
    vips_error_clear();
    return input_problem(file, "this is not a photograph of a kind that can be read", kKinds);
  }
  try {
    Result<Header> header = read_header(file, options);
    if (!header) return header.problems();
    Photograph photograph{file, read_pixels(file, *header, options), header->columns, header->rows};
    return photograph;
  } catch (const vips::VError&) {
    return broken(file);
  } catch (const std::bad_alloc&) {
    return system_problem(file, "there is not enough memory to read it", "save it smaller");
  }
}

}  // namespace farflung::photo
