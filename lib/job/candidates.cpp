#include "job/candidates.hpp"

#include <algorithm>
#include <filesystem>

#include "choice/candidates.hpp"
#include "extract/features.hpp"
#include "job/exhibits.hpp"
#include "photo/take.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostDrawn = 6;

/// The candidates with their swatches.
struct Candidates {
  std::vector<choice::Candidate> list;
  draw::Swatches swatches;
};

/// Every print found in the photographs.
Candidates from_photographs(const std::vector<std::string>& files, Problems& problems) {
  Candidates candidates;
  for (const std::string& file : files) {
    Result<photo::Take> taken = photo::take(file);
    if (!taken) {
      add_problems(problems, taken);
      continue;
    }
    for (photo::Swatch& swatch : taken->swatches) {
      choice::Candidate candidate;
      candidate.print.name = fs::path(file).stem().string();
      if (taken->swatches.size() > 1) candidate.print.name += " " + std::to_string(candidates.list.size() + 1);
      candidate.print.features = extract::features_of(swatch.picture);
      candidates.swatches.push_back({swatch.picture.columns, swatch.picture.rows, std::move(swatch.picture.rgb)});
      candidates.list.push_back(std::move(candidate));
    }
  }
  return candidates;
}

Report fit_json(const choice::Fit& fit) {
  return {{"step", fit.step}, {"hue", fit.hue}, {"quiet", fit.quiet}, {"apart", fit.apart}};
}

std::string name_of(const choice::Candidate& candidate) {
  return candidate.print.name.empty() ? candidate.print.id : candidate.print.name;
}

Result<Done> draw_candidates(const TryOut& options, const quilt::Quilt& quilt, choice::Role role,
                             const Candidates& candidates, const choice::RoleReport& report, Problems& problems) {
  const draw::Swatches own = swatches_of(quilt, options.folder, kExhibitPixels, problems);
  Exhibits exhibits;
  for (std::size_t i = 0; i < std::min(kMostDrawn, report.ranked.size()); ++i) {
    const choice::RankedCandidate& ranked = report.ranked[i];
    const choice::Candidate& candidate = candidates.list[ranked.candidate];
    Result<quilt::Quilt> tried = choice::tried(quilt, role, candidate);
    if (!tried) return tried.problems();
    draw::Swatches swatches = own;
    if (candidate.own == choice::kNone) swatches.push_back(candidates.swatches[ranked.candidate]);
    swatches.resize(tried->prints.size());
    exhibits.add(*tried, swatches, std::to_string(i + 1) + "  " + name_of(candidate), ranked.why);
  }
  return exhibits.write(options.output, options.force);
}

}  // namespace

Outcome try_candidates(const TryOut& options) {
  const std::optional<choice::Role> role = choice::role_named(options.as);
  if (!role) {
    return input_problem("--as " + options.as, "there is no such part",
                         "give background, accent, sashing, setting, border, binding, backing or thread");
  }
  Problems wrong;
  if (!options.output.empty()) wrong = problems_of_output(options.output, {".png", ".svg"}, options.force);
  if (!wrong.empty()) return wrong;
  Result<project::Document> document = project::read(options.folder);
  if (!document) return document.problems();
  const quilt::Quilt& quilt = document->quilt;

  Answer answer;
  Candidates candidates;
  if (options.photographs.empty()) {
    candidates.list = choice::own_candidates(quilt);
  } else {
    candidates = from_photographs(options.photographs, answer.problems);
    if (candidates.list.empty()) return answer.problems;
  }
  Result<choice::RoleReport> ranked = choice::rank_candidates(quilt, *role, candidates.list);
  if (!ranked) return ranked.problems();

  Report report = new_report();
  report["as"] = options.as;
  report["rule"] = ranked->rule;
  report["ranked"] = Report::array();
  answer.words = ranked->rule + "\n";
  for (std::size_t i = 0; i < ranked->ranked.size(); ++i) {
    const choice::RankedCandidate& one = ranked->ranked[i];
    const choice::Candidate& candidate = candidates.list[one.candidate];
    report["ranked"].push_back(
        {{"print", candidate.own == choice::kNone ? Report(nullptr) : Report(candidate.print.id)},
         {"name", name_of(candidate)},
         {"score", one.score},
         {"fit", fit_json(one.fit)},
         {"why", one.why}});
    if (i >= kMostDrawn) continue;
    answer.words += "  " + std::to_string(i + 1) + ". " + name_of(candidate) + "\n";
    for (const std::string& why : one.why) answer.words += "     " + why + "\n";
  }
  if (!options.output.empty()) {
    Result<Done> written = draw_candidates(options, quilt, *role, candidates, *ranked, answer.problems);
    if (!written) return written.problems();
    answer.words += "Drawn side by side: " + options.output + "\n";
  }
  answer.json = text_of(report);
  return answer;
}

}  // namespace farflung::job
