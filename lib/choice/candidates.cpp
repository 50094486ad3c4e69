#include "choice/candidates.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "choice/told_apart.hpp"
#include "choice/top.hpp"
#include "choice/words.hpp"

namespace farflung::choice {
namespace {

constexpr double kGreyBelow = 10;    // C*
constexpr double kHueReach = 30;     // degrees either way
constexpr double kHueEnough = 0.10;  // share of the top at which a hue is fully there
constexpr double kHueCommon = 0.50;  // share at which it is no accent any more
constexpr double kGreyHue = 0.6;
constexpr double kShadow = 30;     // L*
constexpr double kLoudFalls = 25;  // L*
constexpr double kLoudestScores = 0.4;

struct Rule {
  double wanted, loud;  // L*
  double step, hue, quiet, apart;
  const char* words;
};

constexpr double kNeverLoud = 1000;

Rule rule_of(Role::Kind kind) {
  switch (kind) {
    case Role::Kind::background:
      return {25,
              kNeverLoud,
              0.45,
              0.10,
              0.30,
              0.15,
              "a background is quiet and a clear step in value from all that lies on it"};
    case Role::Kind::accent:
      return {15,
              kNeverLoud,
              0.35,
              0.20,
              0.10,
              0.35,
              "an accent is told apart from all it meets, and its hue is rare elsewhere"};
    case Role::Kind::sashing:
      return {12, 45, 0.40, 0.20, 0.25, 0.15, "sashing parts the blocks by a step in value without shouting"};
    case Role::Kind::setting:
      return {12, 45, 0.40, 0.20, 0.25, 0.15, "setting pieces let the blocks float: a step in value, and quiet"};
    case Role::Kind::border:
      return {12,
              35,
              0.40,
              0.30,
              0.15,
              0.15,
              "a border frames: a step in value from the blocks without shouting, in a hue that the quilt has already"};
    case Role::Kind::binding:
      return {8, kNeverLoud, 0.30, 0.50, 0.05, 0.15, "a binding pulls out a colour that is there already"};
    case Role::Kind::backing:
      return {0,
              kNeverLoud,
              0.40,
              0.40,
              0.20,
              0,
              "a backing must not shadow through the top; a busy one hides the stitches"};
  }
  return {};
}

double step_score(const Rule& rule, double difference) {
  const double rising = rule.wanted > 0 ? std::min(1.0, difference / rule.wanted) : 1;
  const double falling = std::clamp((difference - rule.loud) / kLoudFalls, 0.0, 1.0);
  return rising - falling * (1 - kLoudestScores);
}

bool same_hue(const colour::Lab& a, const colour::Lab& b) {
  if (chroma(a) < kGreyBelow || chroma(b) < kGreyBelow) return false;
  return (a.a * b.a + a.b * b.b) / (chroma(a) * chroma(b)) >= std::cos(kHueReach * std::numbers::pi / 180);
}

// How much of a print has that hue: by its palette where it is known.
double hue_share(const print::Features& features, const colour::Lab& hue) {
  if (features.palette.empty()) return same_hue(features.lab, hue) ? 1 : 0;
  double share = 0;
  for (const print::PaletteColour& colour : features.palette) share += same_hue(colour.lab, hue) ? colour.share : 0;
  return share;
}

bool plays(const TopPatch& patch, const quilt::Quilt& quilt, const setting::Plan& plan, Role role) {
  using Part = setting::FramePatch::Role;
  if (role.kind == Role::Kind::background || role.kind == Role::Kind::accent) {
    if (patch.pattern == kNone) return false;
    const std::vector<int> slots = slots_of(quilt.patterns[patch.pattern], role.kind);
    return std::find(slots.begin(), slots.end(), patch.slot) != slots.end();
  }
  if (patch.frame_patch == kNone) return false;
  const setting::FramePatch& frame = plan.frame[patch.frame_patch];
  switch (role.kind) {
    case Role::Kind::sashing:
      return frame.role == Part::sashing;
    case Role::Kind::setting:
      return frame.role == Part::filler;
    case Role::Kind::border: {
      const int last = static_cast<int>(quilt.setting.borders.size()) - 1;
      return frame.role == Part::border && frame.part == (role.border == kNone ? last : role.border);
    }
    default:
      return false;
  }
}

// What the part touches and what else the quilt is made of; the same for every candidate.
struct Surroundings {
  std::vector<double> meets;   // by print: inches, or shares for a backing; sums to what is met
  std::vector<double> shares;  // by print: of the top, the part itself left out
};

void all_alike_if_none(std::vector<double>& weights) {
  if (std::accumulate(weights.begin(), weights.end(), 0.0) > 0) return;
  std::fill(weights.begin(), weights.end(), 1.0);
}

Surroundings surroundings_of(const quilt::Quilt& quilt, Role role) {
  const setting::Plan plan = quilt::plan_of(quilt);
  const std::vector<TopPatch> patches = top_patches(quilt, plan);
  std::vector<bool> mine;
  mine.reserve(patches.size());
  std::vector<TopPatch> others;
  for (const TopPatch& patch : patches) {
    mine.push_back(plays(patch, quilt, plan, role));
    if (!mine.back()) others.push_back(patch);
  }
  Surroundings around;
  around.shares = print_shares(others, quilt.prints.size());
  if (role.kind == Role::Kind::binding) {
    around.meets = edge_by_print(patches, plan, quilt.prints.size());
  } else if (role.kind == Role::Kind::backing) {
    around.meets = around.shares;
  } else {
    around.meets = seams_by_print(patches, mine, quilt.prints.size());
  }
  return around;
}

void judge_step(RankedCandidate& ranked, const std::vector<double>& meets, const quilt::Quilt& quilt,
                const colour::Lab& lab, Role::Kind kind, const Rule& rule) {
  double whole = 0, shadowed = 0;
  for (std::size_t i = 0; i < meets.size(); ++i) {
    if (meets[i] <= 0) continue;
    const colour::Lab& other = quilt.prints[i].features.lab;
    const double difference = lab.L - other.L;
    const double delta_e = colour::delta_e_2000(lab, other);
    whole += meets[i];
    ranked.value_step += meets[i] * std::abs(difference);
    ranked.lighter += meets[i] * difference;
    ranked.fit.step += meets[i] * step_score(rule, std::abs(difference));
    ranked.fit.apart += delta_e >= kLikeness ? meets[i] : 0;
    shadowed += -difference > kShadow ? meets[i] : 0;
    if (ranked.nearest == kNone || delta_e < ranked.nearest_delta_e) {
      ranked.nearest = static_cast<int>(i);
      ranked.nearest_delta_e = delta_e;
    }
  }
  if (whole <= 0) return;
  for (double* sum : {&ranked.value_step, &ranked.lighter, &ranked.fit.step, &ranked.fit.apart, &shadowed}) {
    *sum /= whole;
  }
  if (kind == Role::Kind::backing) ranked.fit.step = 1 - shadowed;
}

void judge_hue(RankedCandidate& ranked, const std::vector<double>& shares, const quilt::Quilt& quilt,
               const colour::Lab& lab, Role::Kind kind) {
  if (chroma(lab) < kGreyBelow) {
    ranked.fit.hue = kGreyHue;
    return;
  }
  const double whole = std::accumulate(shares.begin(), shares.end(), 0.0);
  for (std::size_t i = 0; i < shares.size(); ++i) {
    ranked.hue_share += whole > 0 ? shares[i] / whole * hue_share(quilt.prints[i].features, lab) : 0;
  }
  ranked.fit.hue = kind == Role::Kind::accent ? 1 - std::min(1.0, ranked.hue_share / kHueCommon)
                                              : std::min(1.0, ranked.hue_share / kHueEnough);
}

std::string step_in_words(const RankedCandidate& ranked, Role::Kind kind, const Rule& rule) {
  const std::string by = rounded(ranked.value_step, 0) + " along the seams on average";
  if (kind == Role::Kind::backing) {
    if (ranked.fit.step >= 1) return "light enough not to shadow through";
    return "may shadow through " + percent(1 - ranked.fit.step) + " of the top, which is far lighter";
  }
  if (ranked.value_step < rule.wanted) return "merges with what it meets: a step in value of only " + by;
  const char* side = ranked.lighter >= ranked.value_step / 2    ? ", lighter"
                     : ranked.lighter <= -ranked.value_step / 2 ? ", darker"
                                                                : ", lighter than some and darker than others";
  if (ranked.value_step > rule.loud) return "shouts: a step in value of " + by + side;
  return "a clear step in value: " + by + side;
}

std::string hue_in_words(const RankedCandidate& ranked, const colour::Lab& lab) {
  const std::string hue = hue_name(lab);
  if (hue == "grey") return "grey goes with any hue";
  if (ranked.hue_share <= 0) return hue + " is nowhere else in the quilt";
  if (ranked.hue_share < 0.01) return hue + " is in under 1 % of the top already";
  return hue + " is in " + percent(ranked.hue_share) + " of the top already";
}

std::string quiet_in_words(const print::Features& features) {
  if (features.busyness < 0.25) return "quiet";
  return features.busyness < 0.6 ? "lively in itself" : "busy";
}

RankedCandidate judged(const quilt::Quilt& quilt, const Surroundings& around, Role::Kind kind,
                       const Candidate& candidate) {
  const Rule rule = rule_of(kind);
  const print::Features& features = candidate.print.features;
  RankedCandidate ranked;
  judge_step(ranked, around.meets, quilt, features.lab, kind, rule);
  judge_hue(ranked, around.shares, quilt, features.lab, kind);
  ranked.fit.quiet = kind == Role::Kind::backing ? features.busyness : 1 - features.busyness;
  ranked.score = rule.step * ranked.fit.step + rule.hue * ranked.fit.hue + rule.quiet * ranked.fit.quiet +
                 rule.apart * ranked.fit.apart;
  ranked.why = {step_in_words(ranked, kind, rule), hue_in_words(ranked, features.lab), quiet_in_words(features)};
  if (kind != Role::Kind::backing && ranked.nearest != kNone && ranked.nearest_delta_e < kLikeness) {
    const bool itself = ranked.nearest == candidate.own;
    ranked.why.push_back(itself ? "it meets patches of its own print"
                                : "hardly told apart from " + name_of(quilt.prints[ranked.nearest]) +
                                      " (colour difference " + rounded(ranked.nearest_delta_e, 1) + ")");
  }
  return ranked;
}

}  // namespace

Result<RoleReport> rank_candidates(const quilt::Quilt& quilt, Role role, const std::vector<Candidate>& candidates) {
  RoleReport report;
  report.role = role;
  report.rule = rule_of(role.kind).words;
  if (candidates.empty()) return report;
  // Any candidate in its place shows the seams that the part has; whose print it is plays no role in that.
  const Result<quilt::Quilt> placed = tried(quilt, role, candidates.front());
  if (!placed) return placed.problems();
  Surroundings around = surroundings_of(*placed, role);
  around.meets.resize(quilt.prints.size());
  around.shares.resize(quilt.prints.size());
  report.meets = around.meets;
  all_alike_if_none(around.meets);
  all_alike_if_none(around.shares);
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    report.ranked.push_back(judged(quilt, around, role.kind, candidates[i]));
    report.ranked.back().candidate = static_cast<int>(i);
  }
  std::stable_sort(report.ranked.begin(), report.ranked.end(),
                   [](const RankedCandidate& a, const RankedCandidate& b) { return a.score > b.score; });
  return report;
}

}  // namespace farflung::choice
