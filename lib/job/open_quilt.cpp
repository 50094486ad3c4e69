#include "job/open_quilt.hpp"

#include <algorithm>
#include <cctype>
#include <cstdio>
#include <filesystem>

#include "base/counted.hpp"
#include "base/length_text.hpp"
#include "photo/decode.hpp"
#include "photo/lightness.hpp"
#include "project/disk.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

/// The digits of `text` from `at` on, as a number; `at` moves past them. -1 where there are none or too many.
int digits(const std::string& text, std::size_t& at) {
  constexpr std::size_t kMost = 6;
  const std::size_t from = at;
  while (at < text.size() && std::isdigit(static_cast<unsigned char>(text[at])) != 0) ++at;
  return at == from || at - from > kMost ? -1 : std::stoi(text.substr(from, at - from));
}

/// Row and column from 0; false where the text is no cell's name.
bool read_cell(const std::string& name, int& row, int& column) {
  std::string text;
  for (char c : name) {
    if (c != ' ') text += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  }
  std::size_t at = 1;
  if (text.empty() || text[0] != 'R') return false;
  row = digits(text, at) - 1;
  if (at >= text.size() || text[at] != 'C') return false;
  column = digits(text, ++at) - 1;
  return at == text.size() && row >= 0 && column >= 0;
}

}  // namespace

Report new_report() { return {{"schema_version", 1}}; }

std::string text_of(const Report& report) { return report.dump(-1, ' ', false, Report::error_handler_t::replace); }

Report problems_json(const Problems& problems) {
  Report list = Report::array();
  for (const Problem& problem : problems) {
    list.push_back({{"at", problem.place()}, {"says", problem.says()}});
    if (std::string file = problem.file(); !file.empty()) list.back()["file"] = std::move(file);
  }
  return list;
}

Report problems_json(const Answer& answer) {
  Report list = problems_json(answer.problems);
  for (Report& warning : problems_json(answer.warnings)) list.push_back(std::move(warning));
  return list;
}

void put_report(Report& report, Answer& answer) {
  report["problems"] = problems_json(answer);
  answer.json = text_of(report);
}

Problems problems_of_top(const quilt::Quilt& quilt) {
  if (!quilt.patterns.empty()) return {};
  return {input_problem("/patterns", "the quilt has no pattern", "add one first")};
}

Result<project::Document> open_quilt(const std::string& folder) {
  Result<project::Document> document = project::read(folder);
  if (!document) return document;
  quilt::Gradation& gradation = document->quilt.gradation;
  if (gradation.way != quilt::Gradation::Way::picture) return document;
  Result<photo::Lightness> lightness = photo::lightness_of((fs::path(folder) / gradation.file).string());
  if (!lightness) return lightness.problems();
  gradation.picture_columns = lightness->columns;
  gradation.picture = std::move(lightness->values);
  return document;
}

draw::Swatches swatches_of(const quilt::Quilt& quilt, const std::string& folder, int longest, Problems& warnings) {
  draw::Swatches swatches(quilt.prints.size());
  photo::DecodeOptions options;
  options.longest = longest;
  for (std::size_t i = 0; i < swatches.size(); ++i) {
    if (quilt.prints[i].swatch.empty()) continue;
    Result<photo::Photograph> read = photo::decode((fs::path(folder) / quilt.prints[i].swatch).string(), options);
    if (!read) {
      for (Problem problem : read.problems()) {
        problem.remedy = "its colour is drawn for it; outline its photograph anew on the page, under Fabrics";
        // A job that looks at the swatches twice tells of a lost one once.
        if (std::find(warnings.begin(), warnings.end(), problem) == warnings.end()) {
          warnings.push_back(std::move(problem));
        }
      }
      continue;
    }
    swatches[i] = {read->picture.columns, read->picture.rows, std::move(read->picture.rgb)};
  }
  return swatches;
}

Result<int> cell_named(const std::string& name, const setting::Plan& plan) {
  int row = 0;
  int column = 0;
  if (!read_cell(name, row, column)) {
    return input_problem(name, "this names no cell", "name a cell by row and column, counted from 1, such as R2C5");
  }
  const int cell = plan.cell_at(row, column);
  if (cell != setting::kNone) return cell;
  const int rows = plan.cells.empty() ? 0 : plan.cells.back().row + 1;
  return input_problem(name, "the quilt has no such cell",
                       "it has " + counted(rows, "row", "rows") + ", the first of " +
                           counted(std::count_if(plan.cells.begin(), plan.cells.end(),
                                                 [](const setting::Cell& c) { return c.row == 0; }),
                                   "cell", "cells"));
}

Problems problems_of_output(const std::string& file, const std::vector<std::string>& endings, bool force) {
  if (file == "-") return {};
  const fs::path path(file);
  std::string ending = path.extension().string();
  for (char& c : ending) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  if (std::find(endings.begin(), endings.end(), ending) == endings.end()) {
    std::string known;
    for (const std::string& one : endings) known += (known.empty() ? "" : " or ") + one;
    return {input_problem(file, "its ending is not one that can be written here", "end the name in " + known)};
  }
  std::error_code ignored;
  const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
  if (!fs::is_directory(folder, ignored)) {
    return {input_problem(file, "there is no folder " + folder.string(), "make the folder first, or write elsewhere")};
  }
  if (!force && fs::exists(path, ignored)) {
    return {input_problem(file, "it is there already", "give --force to replace it, or another name")};
  }
  return {};
}

Result<Done> write_output(const std::string& file, const std::string& bytes, bool force) {
  if (file == "-") {
    const bool written = std::fwrite(bytes.data(), 1, bytes.size(), stdout) == bytes.size() && std::fflush(stdout) == 0;
    if (written) return Done{};
    return system_problem("standard output", "it could not be written", "free some space, or write elsewhere");
  }
  std::error_code ignored;
  if (!force && fs::exists(file, ignored)) {
    return input_problem(file, "it is there already", "give --force to replace it, or another name");
  }
  return project::disk::replace_file(file, bytes);
}

Result<Length> length_option(const std::string& option, const std::string& text, quilt::Units units) {
  const LengthUnit unit = units == quilt::Units::inches        ? LengthUnit::inches
                          : units == quilt::Units::centimetres ? LengthUnit::centimetres
                                                               : LengthUnit::millimetres;
  const std::optional<Length> length = length_from_text(text, unit);
  if (length && *length > Length()) return *length;
  return input_problem(option + " " + text, "this is no length", "give one such as 8.5, '2 1/2' or '22 cm'");
}

int print_named(const quilt::Quilt& quilt, const std::string& name) {
  const int with_id = quilt.print_with_id(name);
  if (with_id != quilt::kNone) return with_id;
  const auto found = std::find_if(quilt.prints.begin(), quilt.prints.end(),
                                  [&](const print::Print& print) { return print.code == name || print.name == name; });
  return found == quilt.prints.end() ? quilt::kNone : static_cast<int>(found - quilt.prints.begin());
}

std::vector<int> prints_named(const quilt::Quilt& quilt, const std::vector<std::string>& names, Problems& problems) {
  std::vector<int> prints;
  for (const std::string& name : names) {
    const int print = print_named(quilt, name);
    if (print == quilt::kNone) {
      problems.push_back(input_problem(name, "the quilt has no such print", "name one by its id, code or name"));
    } else {
      prints.push_back(print);
    }
  }
  return prints;
}

}  // namespace farflung::job
