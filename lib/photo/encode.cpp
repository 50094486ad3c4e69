#include "photo/encode.hpp"

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>

#include <vips/vips8>

#include "photo/vips.hpp"

namespace farflung::photo {

Result<std::vector<std::uint8_t>> encode(const Picture& picture, Format format) {
  if (!vips_ready()) return system_problem("", "the picture library cannot be started");
  try {
    const vips::VImage image =
        vips::VImage::new_from_memory(const_cast<std::uint8_t*>(picture.rgb.data()), picture.rgb.size(),
                                      picture.columns, picture.rows, 3, VIPS_FORMAT_UCHAR)
            .copy(vips::VImage::option()->set("interpretation", VIPS_INTERPRETATION_sRGB));
    VipsBlob* blob = nullptr;
    if (format == Format::png) {
      blob = image.pngsave_buffer(vips::VImage::option()->set("strip", true)->set("compression", 6));
    } else {
      blob = image.jpegsave_buffer(vips::VImage::option()->set("strip", true)->set("Q", 90));
    }
    std::size_t size = 0;
    const auto* bytes = static_cast<const std::uint8_t*>(vips_blob_get(blob, &size));
    std::vector<std::uint8_t> result(bytes, bytes + size);
    vips_area_unref(VIPS_AREA(blob));
    return result;
  } catch (const vips::VError& error) {
    vips_error_clear();
    return system_problem("", std::string("the picture cannot be written: ") + error.what());
  }
}

Result<Done> save(const Picture& picture, const std::string& file) {
  std::string ending = std::filesystem::path(file).extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(), [](unsigned char c) { return std::tolower(c); });
  if (ending != ".png" && ending != ".jpg" && ending != ".jpeg") {
    return input_problem(file, "pictures are written as PNG or JPEG", "let the name end in .png or .jpg");
  }
  auto bytes = encode(picture, ending == ".png" ? Format::png : Format::jpeg);
  if (!bytes) return bytes.problems();
  std::ofstream out(file, std::ios::binary | std::ios::trunc);
  out.write(reinterpret_cast<const char*>(bytes->data()), static_cast<std::streamsize>(bytes->size()));
  out.close();
  if (!out) return system_problem(file, "cannot be written", "check the folder and the room on the disk");
  return Done{};
}

}  // namespace farflung::photo
