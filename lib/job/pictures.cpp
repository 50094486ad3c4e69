#include "job/pictures.hpp"

#include <algorithm>
#include <filesystem>

#include "job/open_quilt.hpp"
#include "photo/decode.hpp"
#include "photo/encode.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

Result<std::string> jpeg(const fs::path& file, int longest) {
  photo::DecodeOptions options;
  options.longest = std::clamp(longest, 16, 4096);
  const Result<photo::Photograph> picture = photo::decode(file.string(), options);
  if (!picture) return picture.problems();
  const auto bytes = photo::encode(picture->picture, photo::Format::jpeg);
  if (!bytes) return bytes.problems();
  return std::string(bytes->begin(), bytes->end());
}

}  // namespace

Result<std::string> swatch_picture(const std::string& folder, const std::string& print, int longest) {
  const Result<project::Document> document = project::read(folder);
  if (!document) return document.problems();
  const int index = document->quilt.print_with_id(print);
  if (index == quilt::kNone || document->quilt.prints[static_cast<std::size_t>(index)].swatch.empty()) {
    return input_problem(print, "there is no picture of this print");
  }
  return jpeg(fs::path(folder) / document->quilt.prints[static_cast<std::size_t>(index)].swatch, longest);
}

Result<std::string> photograph_picture(const std::string& folder, const std::string& file, int longest) {
  if (file.empty() || file.front() == '.' || file != fs::path(file).filename().string()) {
    return input_problem(file, "there is no such photograph");
  }
  return jpeg(fs::path(folder) / "photos" / file, longest);
}

}  // namespace farflung::job
