#include "job/reckoning.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdio>

#include "base/limits.hpp"
#include "job/drawn_json.hpp"
#include "job/place_json.hpp"
#include "project/at_work.hpp"
#include "project/disk.hpp"

namespace farflung::job {
namespace {

const Problem kChangedSince{Problem::Kind::input, "", "the quilt was changed meanwhile",
                            "look at it as it is now, and do it again"};

/// All of a quilt that a measure depends on, as a text.
std::string all_but_layout(const project::Document& document) {
  project::Document bare = document;
  bare.quilt.layout = setting::empty_arrangement(document.quilt.setting);
  std::string text = project::text_of(bare);
  for (const int block : document.quilt.layout.block) text += block == quilt::kNone ? '0' : '1';
  return text;
}

Report touches_json(const quilt::Quilt& quilt, const setting::Plan& plan, const std::vector<score::Touch>& touches) {
  Report list = Report::array();
  for (const score::Touch& touch : touches) {
    list.push_back({{"a", place_json(plan, touch.cell_a)},
                    {"patch_a", touch.patch_a},
                    {"b", place_json(plan, touch.cell_b)},
                    {"patch_b", touch.patch_b},
                    {"print", quilt.prints[touch.print].id}});
  }
  return {{"count", touches.size()}, {"where", list}};
}

}  // namespace

Result<project::Document> Reckoning::read(const std::string& folder) {
  project::Document known;
  {
    const std::lock_guard lock(mutex_);
    for (const Seen& seen : seen_) {
      if (seen.folder == folder) known = seen.document;
    }
  }
  Result<project::Document> document = project::reread(folder, known);
  if (document) keep(folder, *document);
  return document;
}

void Reckoning::keep(const std::string& folder, const project::Document& document) {
  const std::lock_guard lock(mutex_);
  std::erase_if(seen_, [&](const Seen& seen) { return seen.folder == folder; });
  seen_.insert(seen_.begin(), {folder, document});
  if (seen_.size() > kMost) seen_.pop_back();
}

std::shared_ptr<const score::Measure> Reckoning::measure_of(const project::Document& document) {
  std::string key = all_but_layout(document);
  const std::lock_guard lock(mutex_);
  const auto found = std::find_if(known_.begin(), known_.end(), [&](const Known& known) { return known.quilt == key; });
  if (found != known_.end()) {
    std::rotate(known_.begin(), found, found + 1);
    return known_.front().measure;
  }
  known_.insert(known_.begin(), {std::move(key), std::make_shared<const score::Measure>(document.quilt)});
  if (known_.size() > kMost) known_.pop_back();
  return known_.front().measure;
}

std::shared_ptr<Reckoning> make_reckoning() { return std::make_shared<Reckoning>(); }

// FNV-1a, 64 bits (Fowler, Noll and Vo 1991): tells versions of one file apart, keeps no secret.
Result<std::string> version_of(const std::string& folder) {
  const Result<std::string> bytes = project::disk::read_file(folder + "/quilt.json", limits::kFileBytes);
  if (!bytes) return bytes.problems();
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : *bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  char text[24];
  std::snprintf(text, sizeof text, "%016llx", static_cast<unsigned long long>(hash));
  return std::string(text);
}

Problem changed_since() { return kChangedSince; }
bool was_overtaken(const Problems& problems) {
  return problems.size() == 1 && project::was_overtaken(problems.front());
}

bool is_changed_since(const Problems& problems) { return problems.size() == 1 && problems.front() == kChangedSince; }

Outcome standing_report(const std::string& folder, const project::Document& document, Reckoning& reckoning,
                        const std::string& words) {
  const quilt::Quilt& quilt = document.quilt;
  const std::shared_ptr<const score::Measure> measure = reckoning.measure_of(document);
  const score::Score score = measure->score(quilt.layout);
  const Result<std::string> version = version_of(folder);
  if (!version) return version.problems();
  const Result<project::History> history = project::history(folder);
  if (!history) return history.problems();
  Report report = new_report();
  report["version"] = *version;
  report["undo"] = history->before;
  report["redo"] = history->after;
  report["says"] = words;
  report["touch"] = touches_json(quilt, measure->plan(), measure->touches(quilt.layout));
  report["corner"] = touches_json(quilt, measure->plan(), measure->corners(quilt.layout));
  report["F"] = score.F;
  report["layout"] = layout_json(quilt);
  return Answer{words.empty() ? "" : words + "\n", text_of(report), {}, true};
}

Outcome standing(const std::string& folder, Reckoning& reckoning, bool whole) {
  for (;;) {
    const Result<std::string> before = version_of(folder);
    if (!before) return before.problems();
    const Result<project::Document> document = open_quilt(folder);
    if (!document) return document.problems();
    Outcome outcome = standing_report(folder, *document, reckoning, "");
    if (!outcome) return outcome;
    // Saved meanwhile: what was read and the version that stands there now are not of one moment.
    const Result<std::string> after = version_of(folder);
    if (!after || *after != *before) continue;
    if (whole) {
      outcome->json.pop_back();
      outcome->json += ",\"quilt\":" + project::text_of(*document) + "}";
    }
    return outcome;
  }
}

}  // namespace farflung::job
