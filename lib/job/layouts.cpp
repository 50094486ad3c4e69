#include "job/layouts.hpp"

#include <algorithm>
#include <system_error>

#include "base/limits.hpp"
#include "job/laid.hpp"
#include "job/reckoning.hpp"
#include "project/disk.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

Answer said(const std::string& words, const std::string& name) {
  Report report = new_report();
  report["name"] = name;
  report["says"] = words;
  return {words + "\n", text_of(report), {}, true};
}

std::vector<std::string> names_in(const fs::path& folder) {
  std::vector<std::string> names;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(folder, error)) {
    if (entry.path().extension() == ".json" && !project::disk::is_temporary(entry.path())) {
      names.push_back(entry.path().stem().string());
    }
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

Result<fs::path> layout_file(const std::string& folder, const std::string& name) {
  const bool plain = !name.empty() && name.size() <= 80 && name.front() != '.' &&
                     std::none_of(name.begin(), name.end(),
                                  [](char c) { return c == '/' || c == '\\' || static_cast<unsigned char>(c) < 0x20; });
  if (!plain) return input_problem(name, "this cannot be a layout's name", "give it a plain, short one");
  return fs::path(folder) / "layouts" / (name + ".json");
}

Result<project::Document> laid(const project::Document& document, const std::string& folder, const std::string& name) {
  const Result<fs::path> file = layout_file(folder, name);
  if (!file) return file.problems();
  std::error_code ignored;
  if (!fs::exists(*file, ignored)) return input_problem(name, "no layout is kept under this name");
  const Result<std::string> text = project::disk::read_file(*file, limits::kFileBytes);
  if (!text) return text.problems();
  Report kept = Report::parse(*text, nullptr, false);
  if (!kept.is_object()) return input_problem(file->string(), "this is no layout", "remove the file");
  Result<project::Document> with = document;
  if (kept.contains("blocks")) {
    with = project::set(document, "/blocks", text_of(kept["blocks"]));
    if (!with) return with;
    kept.erase("blocks");
  }
  return project::set(*with, "/layout", text_of(kept));
}

Outcome keep_layout(const std::string& folder, const std::string& name) {
  const Result<project::Document> document = project::read(folder);
  if (!document) return document.problems();
  const Result<fs::path> file = layout_file(folder, name);
  if (!file) return file.problems();
  const Report quilt = Report::parse(project::text_of(*document));
  Report kept = quilt.value("layout", Report::object());
  kept["blocks"] = quilt.value("blocks", Report::array());
  if (const Result<Done> made = project::disk::make_folder(file->parent_path()); !made) return made.problems();
  const Result<Done> written = project::disk::replace_file(*file, text_of(kept) + "\n");
  if (!written) return written.problems();
  return said("Kept the layout as " + name + ".", name);
}

Outcome kept_layouts(const std::string& folder, Reckoning& reckoning) {
  const Result<project::Document> document = open_quilt(folder);
  if (!document) return document.problems();
  Report report = new_report();
  report["layouts"] = Report::array();
  for (const std::string& name : names_in(fs::path(folder) / "layouts")) {
    Report entry = {{"name", name}};
    const Result<project::Document> with = laid(*document, folder, name);
    if (with) {
      const auto measure = reckoning.measure_of(*with);
      const score::Score score = measure->score(with->quilt.layout);
      entry["touch"] = score.terms.touches;
      entry["corner"] = score.terms.corners;
      entry["F"] = score.F;
    } else {
      entry["problems"] = problems_json(with.problems());
    }
    report["layouts"].push_back(std::move(entry));
  }
  return Answer{"", text_of(report), {}, true};
}

Outcome forget_layout(const std::string& folder, const std::string& name) {
  const Result<fs::path> file = layout_file(folder, name);
  if (!file) return file.problems();
  std::error_code error;
  if (!fs::remove(*file, error)) return input_problem(name, "no layout is kept under this name");
  return said("Forgot the layout " + name + ".", name);
}

}  // namespace farflung::job
