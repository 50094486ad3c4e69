#include "job/bundle.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <filesystem>

#include "base/limits.hpp"
#include "choice/colourway.hpp"
#include "extract/features.hpp"
#include "job/exhibits.hpp"
#include "photo/encode.hpp"
#include "photo/take.hpp"
#include "project/disk.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

bool is_photograph(const fs::path& file) {
  constexpr std::array kEndings = {".jpg", ".jpeg", ".png", ".heic", ".heif", ".tif", ".tiff", ".webp"};
  std::string ending = file.extension().string();
  for (char& c : ending) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return std::find(kEndings.begin(), kEndings.end(), ending) != kEndings.end();
}

void add_photograph(const fs::path& file, Bundle& bundle, Problems& problems) {
  Result<photo::Take> taken = photo::take(file.string());
  if (!taken) {
    add_problems(problems, taken);
    return;
  }
  int number = 0;
  for (photo::Swatch& swatch : taken->swatches) {
    choice::Candidate candidate;
    candidate.print.name = file.stem().string();
    if (taken->swatches.size() > 1) candidate.print.name += " " + std::to_string(++number);
    if (swatch.inches) candidate.print.swatch_width = Length::inches(*swatch.inches);
    candidate.print.photo = print::Sighting{file.filename().string(), swatch.corners, swatch.reference};
    candidate.print.features = extract::features_of(swatch.picture, swatch.inches);
    Result<std::vector<std::uint8_t>> bytes = photo::encode(swatch.picture, photo::Format::png);
    Origin origin{file.string(), {}};
    if (bytes) origin.swatch.assign(bytes->begin(), bytes->end());
    bundle.origins.push_back(std::move(origin));
    bundle.swatches.push_back({swatch.picture.columns, swatch.picture.rows, std::move(swatch.picture.rgb)});
    bundle.list.push_back(std::move(candidate));
  }
}

void add_quilt(const fs::path& folder, Bundle& bundle, Answer& answer) {
  Result<project::Document> document = project::read(folder);
  if (!document) {
    add_problems(answer.problems, document);
    return;
  }
  const quilt::Quilt& quilt = document->quilt;
  draw::Swatches swatches = swatches_of(quilt, folder.string(), kExhibitPixels, answer.warnings);
  for (std::size_t i = 0; i < quilt.prints.size(); ++i) {
    const print::Print& print = quilt.prints[i];
    Origin origin;
    if (!print.swatch.empty()) {
      Result<std::string> bytes = project::disk::read_file(folder / print.swatch, limits::kSwatchBytes);
      if (bytes) origin.swatch = std::move(*bytes);
    }
    if (print.photo) origin.photograph = (folder / print.photo->file).string();
    bundle.list.push_back({print, choice::kNone});
    bundle.swatches.push_back(std::move(swatches[i]));
    bundle.origins.push_back(std::move(origin));
  }
}

void add_folder(const fs::path& folder, Bundle& bundle, Problems& problems) {
  std::vector<fs::path> files;
  std::error_code failed;
  for (fs::directory_iterator entry(folder, failed), end; !failed && entry != end; entry.increment(failed)) {
    if (is_photograph(entry->path())) files.push_back(entry->path());
  }
  if (files.empty()) {
    problems.push_back(input_problem(folder.string(), "there is neither a quilt nor a photograph in this folder",
                                     "give photographs, a folder of them, or another quilt's folder"));
  }
  std::sort(files.begin(), files.end());
  for (const fs::path& file : files) add_photograph(file, bundle, problems);
}

}  // namespace

std::vector<print::Print> Bundle::prints() const {
  std::vector<print::Print> prints;
  prints.reserve(list.size());
  for (const choice::Candidate& candidate : list) prints.push_back(candidate.print);
  return prints;
}

Bundle own_bundle(const quilt::Quilt& quilt, const std::string& folder, bool left_over, Problems& warnings) {
  const std::vector<int> used = choice::prints_in_use(quilt);
  draw::Swatches swatches = swatches_of(quilt, folder, kExhibitPixels, warnings);
  Bundle bundle;
  for (choice::Candidate& candidate : choice::own_candidates(quilt)) {
    if (left_over && std::binary_search(used.begin(), used.end(), candidate.own)) continue;
    bundle.swatches.push_back(std::move(swatches[candidate.own]));
    bundle.origins.emplace_back();
    bundle.list.push_back(std::move(candidate));
  }
  return bundle;
}

Bundle bundle_from(const std::vector<std::string>& paths, Answer& answer) {
  Bundle bundle;
  for (const std::string& path : paths) {
    std::error_code ignored;
    if (fs::exists(fs::path(path) / "quilt.json", ignored)) {
      add_quilt(path, bundle, answer);
    } else if (fs::is_directory(path, ignored)) {
      add_folder(path, bundle, answer.problems);
    } else {
      add_photograph(path, bundle, answer.problems);
    }
  }
  return bundle;
}

std::string name_with_code(const print::Print& print) {
  return print::name_of(print) + (print.code.empty() ? "" : " (" + print.code + ")");
}

}  // namespace farflung::job
