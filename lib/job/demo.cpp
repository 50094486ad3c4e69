#include "job/demo.hpp"

#include <filesystem>
#include <fstream>

#include "job/arrange.hpp"
#include "job/check.hpp"
#include "job/new_quilt.hpp"
#include "job/open_quilt.hpp"
#include "job/photo.hpp"
#include "job/preview.hpp"
#include "job/sheets.hpp"
#include "project/data_folder.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

/// The demo's own recipe, data/demo/demo.json: what a user would have typed.
Result<Report> read_recipe(const fs::path& file) {
  std::ifstream stream(file);
  Report recipe = Report::parse(stream, nullptr, false);
  if (recipe.is_discarded()) {
    return system_problem(file.string(), "the demo's recipe cannot be read", "install the program again");
  }
  return recipe;
}

/// "@Kelp" becomes the id of the print of that name, anywhere in the value.
void name_prints(Report& value, const quilt::Quilt& quilt) {
  if (value.is_string()) {
    const std::string text = value;
    if (text.empty() || text[0] != '@') return;
    for (const print::Print& print : quilt.prints) {
      if (print.name == text.substr(1)) value = print.id;
    }
    return;
  }
  if (!value.is_structured()) return;
  for (auto& part : value) name_prints(part, quilt);
}

/// The steps of the demo, each a job like any other, told of its share of the whole.
class Steps {
 public:
  Steps(fs::path folder, fs::path data, Report recipe, const Watch& watch)
      : folder_(std::move(folder)), data_(std::move(data)), recipe_(std::move(recipe)), watch_(watch) {}

  /// Runs them all; the first that fails ends it.
  Problems run() {
    for (auto step : {&Steps::begin, &Steps::photographs, &Steps::choices, &Steps::layout, &Steps::pictures}) {
      Problems problems = (this->*step)();
      if (!problems.empty()) return problems;
    }
    return {};
  }

  std::string words;

 private:
  Problems say(const Outcome& outcome, const std::string& heading) {
    if (!outcome) return outcome.problems();
    if (!outcome->problems.empty()) return outcome->problems;
    words += heading + outcome->words;
    return {};
  }

  Watch part(double from, double to) const {
    return [this, from, to](const Progress& now) {
      Progress whole = now;
      whole.done = from + (to - from) * now.done;
      return watch_(whole);
    };
  }

  Problems begin() {
    NewQuilt options;
    options.folder = folder_.string();
    options.title = recipe_["title"];
    options.patterns = {recipe_["pattern"]};
    options.size = recipe_["size"];
    if (recipe_.contains("block")) options.block = recipe_["block"];
    const Outcome made = new_quilt(options);
    return made ? Problems{} : made.problems();
  }

  Problems photographs() {
    double done = 0;
    const auto all = static_cast<double>(recipe_["photographs"].size());
    for (const Report& entry : recipe_["photographs"]) {
      TakePhotographs options;
      options.folder = folder_.string();
      options.files = {(data_ / "photographs" / entry["file"].get<std::string>()).string()};
      options.names = entry["names"].get<std::vector<std::string>>();
      options.across = entry["across"];
      const Outcome taken = take_photographs(options, part(0.5 * done / all, 0.5 * (done + 1) / all));
      if (!taken) return taken.problems();
      if (!taken->problems.empty()) return taken->problems;
      ++done;
    }
    return {};
  }

  Problems choices() {
    Result<project::Document> document = project::read(folder_);
    if (!document) return document.problems();
    for (Report& change : recipe_["set"]) {
      Report& value = change.back();
      name_prints(value, document->quilt);
      Result<project::Document> changed = project::set(*document, change.front(), value.dump());
      if (!changed) return changed.problems();
      document = std::move(changed);
    }
    Result<Done> written = project::write(folder_, *document);
    return written ? Problems{} : written.problems();
  }

  Problems layout() {
    Arrange options;
    options.folder = folder_.string();
    const Outcome arranged = job::arrange(options, part(0.5, 0.9));
    if (!arranged) return arranged.problems();
    return say(check(folder_.string()), "");
  }

  Problems pictures() {
    Preview colour;
    colour.folder = folder_.string();
    colour.output = (folder_ / "preview.png").string();
    Preview grey = colour;
    grey.output = (folder_ / "values.png").string();
    grey.grey = true;
    Sheets printed;
    printed.folder = folder_.string();
    std::error_code ignored;
    fs::create_directory(folder_ / "sheets", ignored);
    printed.output = (folder_ / "sheets" / "quilt.pdf").string();
    for (const Outcome& made : {preview(colour), preview(grey), sheets(printed)}) {
      if (!made) return made.problems();
    }
    watch_({.done = 1});
    return {};
  }

  fs::path folder_, data_;
  Report recipe_;
  const Watch& watch_;
};

/// What stands in the way of writing the demo in this folder.
Problems problems_of_folder(const fs::path& folder, bool force) {
  std::error_code ignored;
  if (!fs::exists(folder, ignored)) return {};
  if (!force)
    return {input_problem(folder.string(), "it is there already", "give --force to replace it, or another name")};
  if (fs::is_directory(folder, ignored) && (fs::exists(folder / "quilt.json") || fs::is_empty(folder, ignored)))
    return {};
  return {input_problem(folder.string(), "it holds no quilt, so that it is not replaced", "name another folder")};
}

}  // namespace

Outcome demo(const Demo& options, const Watch& watch) {
  const fs::path folder = fs::path(options.folder).lexically_normal();
  const Problems wrong = problems_of_folder(folder, options.force);
  if (!wrong.empty()) return wrong;
  Result<fs::path> data = project::data_folder();
  if (!data) return data.problems();
  Result<Report> recipe = read_recipe(*data / "demo" / "demo.json");
  if (!recipe) return recipe.problems();

  // Made beside the place where it goes, so that what is there stays whole until all is well.
  fs::path fresh = folder;
  fresh += ".being-made";
  std::error_code failed;
  fs::remove_all(fresh, failed);
  if (folder.has_parent_path()) fs::create_directories(folder.parent_path(), failed);
  Steps steps(fresh, *data / "demo", *recipe, watch);
  const Problems problems = steps.run();
  if (problems.empty()) {
    fs::remove_all(folder, failed);
    fs::rename(fresh, folder, failed);
  }
  if (!problems.empty() || failed) {
    std::error_code ignored;
    fs::remove_all(fresh, ignored);
    if (!problems.empty()) return problems;
    return system_problem(folder.string(), failed.message(), "check the disk and its permissions");
  }

  Report report = new_report();
  report["folder"] = folder.string();
  report["preview"] = (folder / "preview.png").string();
  report["values"] = (folder / "values.png").string();
  report["sheets"] = (folder / "sheets" / "quilt.pdf").string();
  const std::string words = steps.words + "\nPreview:  " + (folder / "preview.png").string() +
                            "\nValues:   " + (folder / "values.png").string() +
                            "\nSheets:   " + (folder / "sheets" / "quilt.pdf").string() + "\n";
  return Answer{words, text_of(report), {}, true};
}

}  // namespace farflung::job
