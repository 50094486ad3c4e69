#include "job/colourway.hpp"

#include <algorithm>
#include <filesystem>
#include <map>

#include "base/counted.hpp"
#include "choice/colourway.hpp"
#include "choice/stand_in.hpp"
#include "choice/words.hpp"
#include "draw/grey.hpp"
#include "draw/top.hpp"
#include "job/bundle.hpp"
#include "job/exhibits.hpp"
#include "job/pending_files.hpp"
#include "photo/decode.hpp"
#include "project/disk.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostNamed = 6;
constexpr std::size_t kMostWaysDrawn = 5;  // beside the quilt as it is

/// One sitting with the quilt: what it is, what may come, where the picture goes.
struct Sitting {
  const Colourway& options;
  project::Document& document;
  Bundle bundle;
  Drawing drawing;
  Answer answer;
  Report report = new_report();

  const quilt::Quilt& quilt() const { return document.quilt; }
};

/// Gives the prints that come from outside files of their own in this quilt's folder. The photograph of several prints
/// comes in once.
class ComingIn {
 public:
  explicit ComingIn(const std::string& folder) : files_(folder) {}

  void bring(print::Print& print, const Origin& origin) {
    const std::string stem = print.id.empty() ? "other" : print.id;
    print.swatch.clear();
    if (!origin.swatch.empty()) {
      print.swatch = files_.free_name("swatches", stem, ".png");
      files_.add(print.swatch, origin.swatch);
    }
    if (!print.photo) return;
    const std::string kept = photograph(origin.photograph);
    if (kept.empty()) {
      print.photo.reset();
    } else {
      print.photo->file = kept;
    }
  }

  Result<Done> save(project::Document& document) { return files_.save(document); }

 private:
  std::string photograph(const std::string& file) {
    const auto known = kept_as_.find(file);
    if (known != kept_as_.end()) return known->second;
    Result<std::string> bytes = project::disk::read_file(file, photo::DecodeOptions().most_bytes);
    if (!bytes) return "";
    const fs::path path(file);
    std::string name = files_.free_name("photos", path.stem().string(), path.extension().string());
    files_.add(name, std::move(*bytes));
    kept_as_[file] = name;
    return name;
  }

  PendingFiles files_;
  std::map<std::string, std::string> kept_as_;
};

bool is_named(const print::Print& print, const std::string& name) {
  return print.id == name || print.code == name || print.name == name;
}

/// The bundle cut down to the one print that was asked for, where one was.
Result<Done> keep_only(Bundle& bundle, const std::string& name) {
  if (name.empty()) return Done{};
  const auto found = std::find_if(bundle.list.begin(), bundle.list.end(),
                                  [&](const choice::Candidate& candidate) { return is_named(candidate.print, name); });
  if (found == bundle.list.end()) {
    return input_problem("--by " + name, "there is no such print to take", "name one by its id, code or name");
  }
  const auto at = static_cast<std::size_t>(found - bundle.list.begin());
  bundle = {{bundle.list[at]}, {bundle.swatches[at]}, {bundle.origins[at]}};
  return Done{};
}

Problem no_such_entry(int accept, std::size_t count) {
  return input_problem("--accept " + std::to_string(accept), "the list has no such entry",
                       "it has " + counted(count, "entry", "entries"));
}

Outcome shown(Sitting& sitting) {
  put_report(sitting.report, sitting.answer);
  tell_drawing(sitting.drawing, sitting.answer);
  return sitting.answer;
}

Outcome accepted(Sitting& sitting, ComingIn& coming, quilt::Quilt changed) {
  sitting.document.quilt = std::move(changed);
  Result<Done> saved = coming.save(sitting.document);
  if (!saved) return saved.problems();
  sitting.answer.words += "The quilt is in these prints now; farflung undo takes it back.\n";
  return shown(sitting);
}

Result<Done> draw_stand_ins(Sitting& sitting, int print, const std::vector<choice::StandIn>& ranked) {
  const quilt::Quilt& quilt = sitting.quilt();
  const draw::Swatches own = swatches_of(quilt, sitting.options.folder, kExhibitPixels, sitting.answer.warnings);
  Exhibits exhibits;
  exhibits.add(quilt, own, "As it is: " + name_with_code(quilt.prints[print]));
  for (std::size_t i = 0; i < std::min(kMostWaysDrawn, ranked.size()); ++i) {
    const choice::Candidate& candidate = sitting.bundle.list[ranked[i].candidate];
    const quilt::Quilt changed = choice::replaced(quilt, print, candidate);
    draw::Swatches swatches = own;
    const bool from_outside = candidate.own == choice::kNone;
    if (from_outside) swatches[print] = sitting.bundle.swatches[ranked[i].candidate];
    const print::Print& comes = changed.prints[from_outside ? print : candidate.own];
    exhibits.add(changed, swatches, std::to_string(i + 1) + "  " + name_with_code(comes), ranked[i].why);
  }
  return exhibits.write(quilt, "Instead of " + print::name_of(quilt.prints[print]), sitting.drawing);
}

Outcome one_replaced(Sitting& sitting, int print) {
  const Colourway& options = sitting.options;
  const quilt::Quilt& quilt = sitting.quilt();
  const std::vector<choice::StandIn> ranked = choice::rank_stand_ins(quilt, print, sitting.bundle.list);
  if (options.accept > static_cast<int>(ranked.size())) return no_such_entry(options.accept, ranked.size());
  sitting.report["replace"] = quilt.prints[print].id;
  sitting.report["ranked"] = Report::array();
  sitting.answer.words = "Instead of " + print::name_of(quilt.prints[print]) + ":\n";
  for (std::size_t i = 0; i < ranked.size(); ++i) {
    const choice::StandIn& one = ranked[i];
    const choice::Candidate& candidate = sitting.bundle.list[one.candidate];
    const bool own = candidate.own != choice::kNone;
    sitting.report["ranked"].push_back({{"print", own ? Report(candidate.print.id) : Report(nullptr)},
                                        {"name", print::name_of(candidate.print)},
                                        {"score", one.score},
                                        {"lighter", one.lighter},
                                        {"touching_inches", one.touching},
                                        {"why", one.why}});
    if (i >= kMostNamed) continue;
    sitting.answer.words += "  " + std::to_string(i + 1) + ". " + name_with_code(candidate.print) + ": ";
    for (std::size_t w = 0; w < one.why.size(); ++w) sitting.answer.words += (w == 0 ? "" : ", ") + one.why[w];
    sitting.answer.words += "\n";
  }
  if (!options.output.empty()) {
    Result<Done> drawn = draw_stand_ins(sitting, print, ranked);
    if (!drawn) return drawn.problems();
  }
  sitting.report["accepted"] = options.accept > 0;
  if (options.accept == 0) return shown(sitting);
  const int taken = ranked[options.accept - 1].candidate;
  choice::Candidate candidate = sitting.bundle.list[taken];
  ComingIn coming(options.folder);
  if (candidate.own == choice::kNone) coming.bring(candidate.print, sitting.bundle.origins[taken]);
  return accepted(sitting, coming, choice::replaced(quilt, print, candidate));
}

Result<Done> draw_colourway(Sitting& sitting, const choice::Colourway& other) {
  const quilt::Quilt& quilt = sitting.quilt();
  const draw::Swatches own = swatches_of(quilt, sitting.options.folder, kExhibitPixels, sitting.answer.warnings);
  draw::Swatches fresh = own;
  for (const choice::ValueMatch& match : other.matches) fresh[match.print] = sitting.bundle.swatches[match.with];
  Exhibits exhibits;
  exhibits.add(quilt, own, "As it is");
  exhibits.add(other.quilt, fresh, "The other colourway",
               {"values differ by " + choice::rounded(other.mean_difference, 1) + " on average"});
  const auto in_grey = [](const quilt::Quilt& one) {
    return draw::in_grey(draw::top_of(one, quilt::plan_of(one)).display);
  };
  exhibits.add_display(in_grey(quilt), draw::in_grey(own), "As it is, values only", {});
  exhibits.add_display(in_grey(other.quilt), draw::in_grey(fresh), "The other colourway, values only", {});
  return exhibits.write(quilt, "Another colourway", sitting.drawing);
}

Outcome all_replaced(Sitting& sitting) {
  const Colourway& options = sitting.options;
  if (options.accept > 1) return no_such_entry(options.accept, 1);
  std::vector<print::Print> prints = sitting.bundle.prints();
  Result<choice::Colourway> other = choice::matched_by_value(sitting.quilt(), prints);
  if (!other) return other.problems();
  sitting.report["matches"] = Report::array();
  sitting.answer.words = "Value for value, from light to dark:\n";
  for (const choice::ValueMatch& match : other->matches) {
    sitting.report["matches"].push_back({{"print", sitting.quilt().prints[match.print].id},
                                         {"with", print::name_of(prints[match.with])},
                                         {"difference", match.difference},
                                         {"says", match.says}});
    sitting.answer.words += "  " + match.says + "\n";
  }
  sitting.report["mean_difference"] = other->mean_difference;
  sitting.answer.words += "Values differ by " + choice::rounded(other->mean_difference, 1) + " on average; " +
                          counted(other->left_over.size(), "print is", "prints are") + " left over.\n";
  if (!options.output.empty()) {
    Result<Done> drawn = draw_colourway(sitting, *other);
    if (!drawn) return drawn.problems();
  }
  sitting.report["accepted"] = options.accept > 0;
  if (options.accept == 0) return shown(sitting);
  ComingIn coming(options.folder);
  for (const choice::ValueMatch& match : other->matches) {
    coming.bring(prints[match.with], sitting.bundle.origins[match.with]);
  }
  Result<choice::Colourway> own_files = choice::matched_by_value(sitting.quilt(), prints);
  if (!own_files) return own_files.problems();
  return accepted(sitting, coming, std::move(own_files->quilt));
}

Problems problems_of_wish(const Colourway& options, const Drawing& drawing) {
  Problems problems = problems_of_drawing(drawing);
  if (options.replace.empty() && options.bundle.empty()) {
    problems.push_back(input_problem("colourway", "there is nothing to take instead",
                                     "give --replace and a print, or --bundle and photographs or another quilt"));
  }
  if (options.replace.empty() && !options.by.empty()) {
    problems.push_back(input_problem("--by", "one print cannot take the place of all", "say which with --replace"));
  }
  return problems;
}

}  // namespace

Outcome colourway(const Colourway& options) {
  const Drawing drawing{options.output, options.paper, options.force};
  Problems wrong = problems_of_wish(options, drawing);
  if (!wrong.empty()) return wrong;
  Result<project::Document> document = project::read(options.folder);
  if (!document) return document.problems();
  std::vector<int> replace;
  if (!options.replace.empty()) replace = prints_named(document->quilt, {options.replace}, wrong);
  if (!wrong.empty()) return wrong;

  Sitting sitting{options, *document, {}, drawing, {}};
  sitting.bundle = options.bundle.empty() ? own_bundle(document->quilt, options.folder, false, sitting.answer.warnings)
                                          : bundle_from(options.bundle, sitting.answer);
  if (sitting.bundle.list.empty()) {
    if (!sitting.answer.problems.empty()) return sitting.answer.problems;
    return input_problem(options.bundle.empty() ? options.folder : options.bundle.front(), "there are no prints in it",
                         "give photographs, a folder of them, or another quilt's folder with --bundle");
  }
  Result<Done> only = keep_only(sitting.bundle, options.by);
  if (!only) return only.problems();
  return replace.empty() ? all_replaced(sitting) : one_replaced(sitting, replace.front());
}

}  // namespace farflung::job
