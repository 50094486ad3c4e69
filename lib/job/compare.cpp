#include "job/compare.hpp"

#include <filesystem>

#include "base/counted.hpp"
#include "choice/candidates.hpp"
#include "choice/sizes.hpp"
#include "draw/top.hpp"
#include "job/exhibits.hpp"
#include "project/sizes.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

/// One of the quilts that are compared, its swatches and what it is called.
struct Compared {
  quilt::Quilt quilt;
  draw::Swatches swatches;
  std::string caption;
  bool laid_anew = false;  ///< in other cells than the quilt's: its blocks as they come, not arranged
};

Result<Compared> other_part(const quilt::Quilt& quilt, const draw::Swatches& swatches, const std::string& text) {
  const std::size_t equals = text.find('=');
  const std::optional<choice::Role> role = choice::role_named(text.substr(0, equals));
  if (!role) {
    return input_problem(text, "there is no such part",
                         "give background, accent, sashing, setting, border, binding or backing");
  }
  Problems problems;
  const std::vector<int> prints = prints_named(quilt, {text.substr(equals + 1)}, problems);
  if (!problems.empty()) return problems;
  Result<quilt::Quilt> tried = choice::tried(quilt, *role, {quilt.prints[prints.front()], prints.front()});
  if (!tried) return tried.problems();
  return Compared{*tried, swatches, text.substr(0, equals) + ": " + print::name_of(quilt.prints[prints.front()])};
}

/// The same blocks in another setting, as near as can be to the size that the quilt has.
Result<Compared> other_setting(const quilt::Quilt& quilt, const draw::Swatches& swatches, setting::Setting::Kind kind) {
  const setting::Plan plan = quilt::plan_of(quilt);
  quilt::Quilt changed = quilt;
  changed.setting.kind = kind;
  Result<choice::SizeReport> fits = choice::nearest_size(changed, {"", plan.width, plan.height});
  if (!fits) return fits.problems();
  return Compared{choice::resized(changed, fits->rows, fits->columns), swatches, setting::name_of(kind), true};
}

Result<Compared> compared_with(const quilt::Quilt& quilt, const draw::Swatches& swatches, const std::string& text,
                               Problems& warnings) {
  std::error_code ignored;
  if (fs::is_directory(text, ignored)) {
    Result<project::Document> other = project::read(text);
    if (!other) return other.problems();
    return Compared{other->quilt, swatches_of(other->quilt, text, kExhibitPixels, warnings), other->quilt.title};
  }
  if (text.find('=') != std::string::npos) return other_part(quilt, swatches, text);
  if (const auto kind = setting::setting_named(text)) return other_setting(quilt, swatches, *kind);
  Result<project::Size> size = project::size_named(text, quilt.units);
  if (!size) {
    return input_problem(
        text, "neither a quilt's folder nor a size",
        "give a quilt's folder, a size such as lap or 60x72, straight, brick, 'on point', or a part and "
        "its print such as border=Kelp");
  }
  Result<choice::SizeReport> fits = choice::nearest_size(quilt, {size->name, size->width, size->height});
  if (!fits) return fits.problems();
  return Compared{choice::resized(quilt, fits->rows, fits->columns), swatches, text, true};
}

}  // namespace

Outcome compare(const Compare& options) {
  const Drawing drawing{options.output, options.paper, options.force};
  const Problems wrong = problems_of_drawing(drawing);
  if (!wrong.empty()) return wrong;
  Result<project::Document> document = project::read(options.folder);
  if (!document) return document.problems();
  const quilt::Quilt& quilt = document->quilt;

  Answer answer;
  const draw::Swatches swatches = swatches_of(quilt, options.folder, kExhibitPixels, answer.warnings);
  Exhibits exhibits;
  Report report = new_report();
  report["compared"] = Report::array();
  const auto add = [&](const Compared& one) {
    const setting::Plan plan = quilt::plan_of(one.quilt);
    const std::string size = draw::finished_size(one.quilt, plan);
    const std::string blocks = counted(one.quilt.blocks.size(), "block", "blocks");
    std::vector<std::string> notes = {size + ", " + blocks};
    if (one.laid_anew) notes.emplace_back("blocks as they come, not arranged for this");
    exhibits.add(one.quilt, one.swatches, one.caption, notes);
    report["compared"].push_back({{"name", one.caption}, {"finished_size", size}, {"blocks", one.quilt.blocks.size()}});
    answer.words += one.caption + ": " + size + ", " + blocks + "\n";
  };
  add({quilt, swatches, quilt.title});
  for (const std::string& text : options.with) {
    Result<Compared> other = compared_with(quilt, swatches, text, answer.warnings);
    if (!other) return other.problems();
    add(*other);
  }
  Result<Done> written = exhibits.write(quilt, "Side by side", drawing);
  if (!written) return written.problems();
  put_report(report, answer);
  tell_drawing(drawing, answer);
  return answer;
}

}  // namespace farflung::job
