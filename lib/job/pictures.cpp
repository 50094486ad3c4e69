#include "job/pictures.hpp"

#include <algorithm>
#include <filesystem>

#include "photo/decode.hpp"
#include "photo/encode.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

/// A file's own name, no way to elsewhere.
bool is_name(const std::string& file) {
  return !file.empty() && file.front() != '.' && file == fs::path(file).filename().string();
}

}  // namespace

Result<ScreenPicture> screen_picture(const std::string& file, int longest) {
  photo::DecodeOptions options;
  options.longest = std::clamp(longest, 16, 4096);
  const Result<photo::Photograph> picture = photo::decode(file, options);
  if (!picture) return picture.problems();
  const auto bytes = photo::encode(picture->picture, photo::Format::jpeg);
  if (!bytes) return bytes.problems();
  return ScreenPicture{{bytes->begin(), bytes->end()}, picture->columns, picture->rows};
}

Result<ScreenPicture> swatch_picture(const std::string& folder, const std::string& file, int longest) {
  if (!is_name(file)) return input_problem(file, "there is no such swatch");
  return screen_picture((fs::path(folder) / "swatches" / file).string(), longest);
}

Result<ScreenPicture> photograph_picture(const std::string& folder, const std::string& file, int longest) {
  if (!is_name(file)) return input_problem(file, "there is no such photograph");
  return screen_picture((fs::path(folder) / "photos" / file).string(), longest);
}

}  // namespace farflung::job
