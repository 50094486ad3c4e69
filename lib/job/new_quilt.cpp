#include "job/new_quilt.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "base/counted.hpp"
#include "base/length_text.hpp"
#include "base/typed_name.hpp"
#include "choice/words.hpp"
#include "draw/top.hpp"
#include "job/open_quilt.hpp"
#include "project/new_quilt.hpp"
#include "project/patterns.hpp"
#include "project/sizes.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

Result<quilt::Units> units_named(const std::string& name) {
  for (auto units : {quilt::Units::inches, quilt::Units::centimetres, quilt::Units::millimetres}) {
    if (plain_name(name) == quilt::unit_name(units)) return units;
  }
  return input_problem("--units " + name, "there is no such unit", "give in, cm or mm");
}

Result<setting::Setting::Kind> setting_asked(const std::string& name) {
  if (const auto kind = setting::setting_named(name)) return *kind;
  return input_problem("--setting " + name, "there is no such setting", "give straight, brick or 'on point'");
}

/// Whether every corner of the pattern, drawn so wide, lies on a millimetre.
bool on_the_ruler(const block::Pattern& pattern, Length width) {
  const double factor = width.inches() / pattern.width.inches();
  for (const block::Patch& patch : pattern.patches) {
    for (const Point& corner : patch.polygon) {
      for (const Length at : {corner.x, corner.y}) {
        const double millimetres = at.millimetres() * factor;
        if (std::abs(millimetres - std::round(millimetres)) > 0.01) return false;
      }
    }
  }
  return true;
}

/// What the block of a metric quilt measures where nobody says: whole centimetres near what is drawn in inches, and
/// such that all patches measure whole millimetres if that can be.
Length metric_block(const std::vector<block::Pattern>& patterns) {
  const int drawn = std::max(1, static_cast<int>(std::lround(patterns.front().width.millimetres() / 10)));
  for (const int off : {0, -1, 1, -2, 2}) {
    const Length width = Length::millimetres(10.0 * (drawn + off));
    const bool fits = std::all_of(patterns.begin(), patterns.end(),
                                  [&](const block::Pattern& pattern) { return on_the_ruler(pattern, width); });
    if (drawn + off > 0 && fits) return width;
  }
  return Length::millimetres(10.0 * drawn);
}

/// The patterns that were asked for, each once.
Result<std::vector<block::Pattern>> patterns_asked(const std::vector<std::string>& names) {
  std::vector<block::Pattern> patterns;
  Problems problems;
  for (const std::string& name : names) {
    const Result<block::Pattern> pattern = project::pattern_named(name);
    if (!pattern) {
      add_problems(problems, pattern);
    } else if (std::any_of(patterns.begin(), patterns.end(), [&](const auto& one) { return one.id == pattern->id; })) {
      problems.push_back(input_problem("--pattern " + name, "it is named twice", "name each pattern once"));
    } else {
      patterns.push_back(*pattern);
    }
  }
  if (patterns.empty() && problems.empty()) return input_problem("--pattern", "no pattern is named", "name one");
  if (!problems.empty()) return problems;
  return patterns;
}

/// As wide as the first, where nobody says, of whatever sizes the others are drawn.
std::optional<Length> usual_block(const project::NewQuilt& wish) {
  if (wish.units != quilt::Units::inches) return metric_block(wish.patterns);
  if (wish.patterns.size() > 1) return wish.patterns.front().width;
  return std::nullopt;
}

/// "Nine patch and Snowball in turn".
std::string pattern_names(const std::vector<block::Pattern>& patterns) {
  std::vector<std::string> names;
  names.reserve(patterns.size());
  for (const block::Pattern& pattern : patterns) names.push_back(block::name_of(pattern));
  return choice::listed(names) + (names.size() > 1 ? " in turn" : "");
}

/// The wish that the options spell out; every option that is wrong is a problem.
Result<project::NewQuilt> wish_of(const NewQuilt& options, project::Size& size) {
  Problems problems;
  project::NewQuilt wish;
  const auto take = [&problems](auto result, auto& into) {
    if (result) {
      into = *result;
    } else {
      add_problems(problems, result);
    }
  };
  take(units_named(options.units), wish.units);
  take(setting_asked(options.setting), wish.kind);
  take(patterns_asked(options.patterns), wish.patterns);
  take(project::size_named(options.size, wish.units), size);
  if (!options.block.empty()) {
    Length block;
    take(length_option("--block", options.block, wish.units), block);
    wish.block = block;
  }
  if (!problems.empty()) return problems;
  if (!wish.block) wish.block = usual_block(wish);
  wish.title = options.title.empty() ? fs::path(options.folder).lexically_normal().filename().string() : options.title;
  wish.width = size.width;
  wish.height = size.height;
  return wish;
}

std::string said_size(Length width, Length height, quilt::Units units) {
  return draw::spoken(width, units) + " × " + draw::spoken(height, units);
}

/// ": 4 in wider and 2 in shorter"; ": exactly that".
std::string how_near(const setting::Plan& plan, const project::Size& size, quilt::Units units) {
  std::string text;
  const auto add = [&](Length off, const char* more, const char* less) {
    if (off == Length()) return;
    text += (text.empty() ? "" : " and ") + draw::spoken(off < Length() ? Length() - off : off, units) + " " +
            (off < Length() ? less : more);
  };
  add(plan.width - size.width, "wider", "narrower");
  add(plan.height - size.height, "longer", "shorter");
  return text.empty() ? ": exactly that" : ": it is " + text;
}

}  // namespace

Outcome new_quilt(const NewQuilt& options) {
  if (options.folder.empty()) return input_problem("DIR", "the folder has no name", "name the folder to make");
  project::Size size;
  Result<project::NewQuilt> wish = wish_of(options, size);
  if (!wish) return wish.problems();
  Result<quilt::Quilt> quilt = project::new_quilt(*wish);
  if (!quilt) return quilt.problems();

  const setting::Plan plan = quilt::plan_of(*quilt);
  const auto rows = static_cast<std::size_t>(quilt->setting.rows);
  const auto columns = static_cast<std::size_t>(quilt->setting.columns);
  const std::string finished = draw::finished_size(*quilt, plan);
  std::string words = counted(rows, "row", "rows") + " of " + counted(columns, "block", "blocks") + " of " +
                      pattern_names(wish->patterns) + ", " + finished + " finished; asked for was " +
                      said_size(size.width, size.height, quilt->units) +
                      (size.name.empty() ? "" : " (" + size.name + ")") + how_near(plan, size, quilt->units) + ".\n";
  if (!size.caution.empty()) words += size.caution + "\n";
  if (wish->units != quilt::Units::inches) {
    words += "Seams take a quarter inch on each side. Who sews with 7.5 mm: farflung set " + typed(options.folder) +
             " /seam_allowance '7.5 mm'\n";
  }

  Report report = new_report();
  report["folder"] = options.folder;
  report["rows"] = rows;
  report["columns"] = columns;
  report["blocks"] = quilt->blocks.size();
  report["finished_size"] = finished;
  report["wider"] = quilt::in_units(plan.width - size.width, quilt->units);
  report["taller"] = quilt::in_units(plan.height - size.height, quilt->units);
  if (options.dry_run) return Answer{words + tried_words(true), text_of(report), {}, true};

  project::Document document{std::move(*quilt), nullptr};
  Result<Done> made = project::create(options.folder, document);
  if (!made) return made.problems();
  words += "Made " + options.folder + ". Next: farflung photo " + typed(options.folder) + " *.jpg\n";
  return Answer{words, text_of(report), {}, true};
}

}  // namespace farflung::job
