#include "job/pictures.hpp"

#include <algorithm>
#include <filesystem>

#include "photo/decode.hpp"
#include "photo/encode.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

Result<ScreenPicture> jpeg(const fs::path& file, int longest) {
  photo::DecodeOptions options;
  options.longest = std::clamp(longest, 16, 4096);
  const Result<photo::Photograph> picture = photo::decode(file.string(), options);
  if (!picture) return picture.problems();
  const auto bytes = photo::encode(picture->picture, photo::Format::jpeg);
  if (!bytes) return bytes.problems();
  return ScreenPicture{{bytes->begin(), bytes->end()}, picture->columns, picture->rows};
}

/// A file's own name, no way to elsewhere.
bool is_name(const std::string& file) {
  return !file.empty() && file.front() != '.' && file == fs::path(file).filename().string();
}

}  // namespace

Result<ScreenPicture> swatch_picture(const std::string& folder, const std::string& file, int longest) {
  if (!is_name(file)) return input_problem(file, "there is no such swatch");
  return jpeg(fs::path(folder) / "swatches" / file, longest);
}

Result<ScreenPicture> photograph_picture(const std::string& folder, const std::string& file, int longest) {
  if (!is_name(file)) return input_problem(file, "there is no such photograph");
  return jpeg(fs::path(folder) / "photos" / file, longest);
}

}  // namespace farflung::job
