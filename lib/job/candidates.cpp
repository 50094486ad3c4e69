#include "job/candidates.hpp"

#include <algorithm>

#include "choice/candidates.hpp"
#include "job/bundle.hpp"
#include "job/exhibits.hpp"

namespace farflung::job {
namespace {

constexpr std::size_t kMostCandidatesDrawn = 6;

Report fit_json(const choice::Fit& fit) {
  return {{"step", fit.step}, {"hue", fit.hue}, {"quiet", fit.quiet}, {"apart", fit.apart}};
}

/// What the candidate is called, with the code it has on the quilt where it is tried.
std::string name_of(const choice::Candidate& candidate, const quilt::Quilt& tried) {
  return name_with_code(candidate.own == choice::kNone ? tried.prints.back() : candidate.print);
}

Result<Done> draw_candidates(const Drawing& drawing, const quilt::Quilt& quilt, const draw::Swatches& own,
                             const Bundle& candidates, const choice::RoleReport& report) {
  Exhibits exhibits;
  for (std::size_t i = 0; i < std::min(kMostCandidatesDrawn, report.ranked.size()); ++i) {
    const choice::RankedCandidate& ranked = report.ranked[i];
    const choice::Candidate& candidate = candidates.list[ranked.candidate];
    Result<quilt::Quilt> tried = choice::tried(quilt, report.role, candidate);
    if (!tried) return tried.problems();
    draw::Swatches swatches = own;
    if (candidate.own == choice::kNone) swatches.push_back(candidates.swatches[ranked.candidate]);
    swatches.resize(tried->prints.size());
    exhibits.add(*tried, swatches, std::to_string(i + 1) + "  " + name_of(candidate, *tried), ranked.why);
  }
  return exhibits.write(quilt, std::string("Candidates: ") + choice::role_name(report.role.kind), drawing);
}

Report ranked_json(const Bundle& candidates, const choice::RoleReport& report) {
  Report list = Report::array();
  for (const choice::RankedCandidate& one : report.ranked) {
    const choice::Candidate& candidate = candidates.list[one.candidate];
    const bool own = candidate.own != choice::kNone;
    list.push_back({{"print", own ? Report(candidate.print.id) : Report(nullptr)},
                    {"name", print::name_of(candidate.print)},
                    {"score", one.score},
                    {"fit", fit_json(one.fit)},
                    {"value_step", one.value_step},
                    {"why", one.why}});
  }
  return list;
}

Result<choice::Role> role_of(const TryOut& options) {
  std::optional<choice::Role> role = choice::role_named(options.as);
  if (!role) {
    return input_problem("--as " + options.as, "there is no such part",
                         "give background, accent, sashing, setting, border, binding, backing or thread");
  }
  if (options.border > 0) {
    if (role->kind != choice::Role::Kind::border) {
      return input_problem("--border", "only borders are counted", "leave it out, or try --as border");
    }
    role->border = options.border - 1;
  }
  return *role;
}

}  // namespace

Outcome try_candidates(const TryOut& options) {
  const Drawing drawing{options.output, options.paper, options.force};
  Problems wrong = problems_of_drawing(drawing);
  const Result<choice::Role> role = role_of(options);
  if (!role) add_problems(wrong, role);
  if (!wrong.empty()) return wrong;
  Result<project::Document> document = project::read(options.folder);
  if (!document) return document.problems();
  const quilt::Quilt& quilt = document->quilt;

  Answer answer;
  const Bundle candidates = options.photographs.empty()
                                ? own_bundle(quilt, options.folder, options.left_over, answer.warnings)
                                : bundle_from(options.photographs, answer);
  if (candidates.list.empty()) {
    if (!answer.problems.empty()) return answer.problems;
    return input_problem(options.folder,
                         options.left_over ? "every print lies in the quilt" : "the quilt has no prints",
                         "give photographs of candidates with --photo");
  }
  Result<choice::RoleReport> ranked = choice::rank_candidates(quilt, *role, candidates.list);
  if (!ranked) return ranked.problems();

  answer.words = ranked->rule + "\n";
  for (std::size_t i = 0; i < std::min(kMostCandidatesDrawn, ranked->ranked.size()); ++i) {
    const choice::RankedCandidate& one = ranked->ranked[i];
    answer.words += "  " + std::to_string(i + 1) + ". " + name_with_code(candidates.list[one.candidate].print) + "\n";
    for (const std::string& why : one.why) answer.words += "     " + why + "\n";
  }
  Report report = new_report();
  report["as"] = options.as;
  report["rule"] = ranked->rule;
  report["ranked"] = ranked_json(candidates, *ranked);
  if (!options.output.empty()) {
    const draw::Swatches own = swatches_of(quilt, options.folder, kExhibitPixels, answer.warnings);
    Result<Done> written = draw_candidates(drawing, quilt, own, candidates, *ranked);
    if (!written) return written.problems();
  }
  put_report(report, answer);
  tell_drawing(drawing, answer);
  return answer;
}

}  // namespace farflung::job
