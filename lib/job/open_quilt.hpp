// What every job begins with: the quilt in its folder, its swatches, the cells that a user names. For the sources of
// this module only.
#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "base/result.hpp"
#include "draw/picture.hpp"
#include "job/answer.hpp"
#include "project/document.hpp"

namespace farflung::job {

/// Reports keep their keys in the order in which they are put in.
using Report = nlohmann::ordered_json;

/// A report with its schema_version.
Report new_report();

/// One line of JSON; texts that are no UTF-8 are mended.
std::string text_of(const Report& report);

/// Problems as every report lists them: [{"at": ..., "says": ...}], with the "file" where `at` is a pointer within it.
Report problems_json(const Problems& problems);

/// Whatever an answer has to complain of, in the same way: its problems, then its warnings.
Report problems_json(const Answer& answer);

/// Gives the answer its report, which ends with whatever the answer has to complain of.
void put_report(Report& report, Answer& answer);

/// Without a pattern a top has no size, so that there is nothing to draw and nothing to cut: said so, or nothing.
Problems problems_of_top(const quilt::Quilt& quilt);

/// The quilt in a folder, with the grey picture that its gradation follows, where it follows one.
Result<project::Document> open_quilt(const std::string& folder);

/// The quilt's swatches as the drawing modules take them, each at most `longest` pixels on its longer side. A swatch
/// that cannot be read is an empty picture (its print's colour is drawn instead) and told in `warnings`, once.
draw::Swatches swatches_of(const quilt::Quilt& quilt, const std::string& folder, int longest, Problems& warnings);

/// A cell as people name it: "R2C5", "R2 C5", "r2c5", rows and columns from 1. A problem where there is none.
Result<int> cell_named(const std::string& name, const setting::Plan& plan);

/// Writes an output that the user named; "-" is standard output. Refused where the file is there, unless forced.
Result<Done> write_output(const std::string& file, const std::string& bytes, bool force);

/// What is wrong with an output before any work is done for it: an ending that is none of `endings` (such as ".pdf"), a
/// folder that is not there, a file that is there already.
Problems problems_of_output(const std::string& file, const std::vector<std::string>& endings, bool force);

/// A length that an option gives, such as "2 1/2", in the quilt's units where it has none of its own.
Result<Length> length_option(const std::string& option, const std::string& text, quilt::Units units);

/// The print that people call so: by its id, else by its code or name, the first of them. kNone where there is none.
int print_named(const quilt::Quilt& quilt, const std::string& name);

/// The same of several names. A problem for each that there is not.
std::vector<int> prints_named(const quilt::Quilt& quilt, const std::vector<std::string>& names, Problems& problems);

/// The problems of `result` put to `problems`.
template <typename T>
void add_problems(Problems& problems, const Result<T>& result) {
  problems.insert(problems.end(), result.problems().begin(), result.problems().end());
}
}  // namespace farflung::job
