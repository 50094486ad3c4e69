#include "choice/choose.hpp"

#include <algorithm>
#include <cmath>

#include "choice/choose_words.hpp"
#include "choice/subset.hpp"
#include "choice/words.hpp"

namespace farflung::choice {

const char* const kMeasureInWords =
    "Prints work well together when they are told apart easily (pairs nearer than 20 in colour cost, the nearer the "
    "more; "
    "black and white are 100 apart), when their values make an even run from the lightest to the darkest of the "
    "bundle, when their hues hold "
    "together (calm) or spread (lively), when small, middling and large motifs mix, and when not all are busy.";

namespace {

constexpr double kMostSetsProven = 155'117'520;  // C(30, 15)
constexpr double kMostSetsTried = 1e12;
constexpr std::int64_t kBranchesTried = 1'500'000;  // about a second

// Whatever is cheap enough: a whole proof, one that is cut short, or the bound alone.
Proof proof_of(const SubsetProblem& problem, double sets, BestSubsets& best) {
  if (sets <= kMostSetsProven) return prove_best(problem, 0, best);
  if (sets <= kMostSetsTried) return prove_best(problem, kBranchesTried, best);
  return {false, 0, bound_of(problem, best.held().front().cost)};
}

// The options made plain: which prints are settled, which are free.
struct Bundle {
  std::vector<int> kept;
  std::vector<int> open;

  std::vector<int> all() const {
    std::vector<int> both = kept;
    both.insert(both.end(), open.begin(), open.end());
    std::sort(both.begin(), both.end());
    return both;
  }
};

void check_taste(const Taste& taste, Problems& problems) {
  if (!(taste.lively >= 0 && taste.lively <= 1)) {
    problems.push_back(
        input_problem("--lively", "the slider runs from 0, calm, to 1, lively", "give a number between"));
  }
  for (double weight : {taste.apart, taste.values, taste.hues, taste.scales, taste.quiet}) {
    if (!(weight >= 0 && weight <= 1e6)) {
      problems.push_back(
          input_problem("taste", "a weight is below 0 or beyond 1,000,000", "give 0 to leave a term out"));
    }
  }
}

Result<Bundle> bundle_of(const std::vector<print::Print>& prints, const ChooseOptions& options) {
  Problems problems;
  check_taste(options.taste, problems);
  enum class Fate { open, kept, dropped };
  std::vector<Fate> fate(prints.size(), Fate::open);
  const auto settle = [&](const std::vector<int>& which, Fate as, const char* at) {
    for (int i : which) {
      if (i < 0 || i >= static_cast<int>(prints.size())) {
        problems.push_back(input_problem(at, "no such print"));
      } else if (fate[i] != Fate::open && fate[i] != as) {
        problems.push_back(input_problem(at, name_of(prints[i]) + " is both to be kept and to be dropped"));
      } else {
        fate[i] = as;
      }
    }
  };
  settle(options.keep, Fate::kept, "--keep");
  settle(options.drop, Fate::dropped, "--drop");

  Bundle bundle;
  for (std::size_t i = 0; i < fate.size(); ++i) {
    if (fate[i] == Fate::kept) bundle.kept.push_back(static_cast<int>(i));
    if (fate[i] == Fate::open) bundle.open.push_back(static_cast<int>(i));
  }
  const int most = static_cast<int>(bundle.kept.size() + bundle.open.size());
  if (options.take < 1 || options.take > most) {
    problems.push_back(input_problem(
        "--take", std::to_string(options.take) + " of " + std::to_string(most) + " prints cannot be taken",
        most > 0 ? "take from 1 to " + std::to_string(most) : "add prints first"));
  } else if (static_cast<int>(bundle.kept.size()) > options.take) {
    problems.push_back(input_problem("--keep",
                                     std::to_string(bundle.kept.size()) + " prints are to be kept but only " +
                                         std::to_string(options.take) + " taken",
                                     "keep fewer or take more"));
  }
  if (!(options.effort > 0 && options.effort <= 1e6)) {
    problems.push_back(input_problem("--effort", "effort must be above 0 and at most 1,000,000"));
  }
  if (options.others < 0 || options.others > 1000) {
    problems.push_back(input_problem("--others", "from 0 to 1000 other sets can be told"));
  }
  if (!problems.empty()) return problems;
  return bundle;
}

SubsetProblem subset_problem(const Measure& measure, const Bundle& bundle, int take) {
  SubsetProblem problem;
  problem.count = static_cast<int>(bundle.open.size());
  problem.take = take - static_cast<int>(bundle.kept.size());
  problem.pair.reserve(bundle.open.size() * bundle.open.size());
  for (int i : bundle.open) {
    double single = measure.single(i);
    for (int kept : bundle.kept) single += measure.pair(i, kept);
    problem.single.push_back(single);
    for (int j : bundle.open) problem.pair.push_back(i == j ? 0 : measure.pair(i, j));
  }
  return problem;
}

// What the kept prints cost by themselves, the measure's constant included.
double settled_cost(const Measure& measure, const Bundle& bundle) {
  double cost = measure.constant();
  for (std::size_t a = 0; a < bundle.kept.size(); ++a) {
    cost += measure.single(bundle.kept[a]);
    for (std::size_t b = 0; b < a; ++b) cost += measure.pair(bundle.kept[a], bundle.kept[b]);
  }
  return cost;
}

ChosenSet chosen(const std::vector<print::Print>& prints, const Measure& measure, std::vector<int> take) {
  std::stable_sort(take.begin(), take.end(),
                   [&](int a, int b) { return prints[a].features.lab.L > prints[b].features.lab.L; });
  ChosenSet set;
  set.terms = measure.terms(take);
  set.take = std::move(take);
  return set;
}

void explain_best(const std::vector<print::Print>& prints, const Measure& measure, ChosenSet& best) {
  if (best.take.size() > 1) {
    best.why.push_back(apart_in_words(prints, measure, best.take));
    best.why.push_back(values_in_words(prints, best.take));
  }
  best.why.push_back(hues_in_words(prints, best.take));
  best.why.push_back(scales_in_words(prints, best.take));
}

void explain_other(const std::vector<print::Print>& prints, const ChosenSet& best, const Taste& taste,
                   ChosenSet& other) {
  const auto without = [](const std::vector<int>& from, const std::vector<int>& what) {
    std::vector<int> rest;
    for (int i : from) {
      if (std::find(what.begin(), what.end(), i) == what.end()) rest.push_back(i);
    }
    return rest;
  };
  other.leaves = without(best.take, other.take);
  other.enters = without(other.take, best.take);
  other.why.push_back(names_of(prints, other.enters) + " instead of " + names_of(prints, other.leaves) + ": " +
                      difference_in_words(other.terms, best.terms, taste));
}

std::vector<Substitute> substitutes_of(const std::vector<print::Print>& prints, const Measure& measure,
                                       const Bundle& bundle, const ChosenSet& best) {
  std::vector<int> left;
  for (int i : bundle.open) {
    if (std::find(best.take.begin(), best.take.end(), i) == best.take.end()) left.push_back(i);
  }
  std::vector<Substitute> substitutes;
  if (left.empty()) return substitutes;
  for (int dropped : best.take) {
    if (std::find(bundle.kept.begin(), bundle.kept.end(), dropped) != bundle.kept.end()) continue;
    const auto price = [&](int i) {
      double sum = measure.single(i);
      for (int other : best.take) {
        if (other != dropped && other != i) sum += measure.pair(i, other);
      }
      return sum;
    };
    Substitute substitute{dropped, left.front(), price(left.front()), {}};
    for (int i : left) {
      if (price(i) < substitute.rise - kCostTolerance) substitute.instead = i, substitute.rise = price(i);
    }
    substitute.rise -= price(dropped);
    substitute.says =
        "if you drop " + name_of(prints[dropped]) + ", take " + name_of(prints[substitute.instead]) + " instead";
    substitutes.push_back(substitute);
  }
  return substitutes;
}

}  // namespace

Result<ChooseReport> choose(const std::vector<print::Print>& prints, const ChooseOptions& options) {
  const Result<Bundle> bundle = bundle_of(prints, options);
  if (!bundle) return bundle.problems();
  const Measure measure(prints, bundle->all(), options.take, options.taste);
  const SubsetProblem problem = subset_problem(measure, *bundle, options.take);

  BestSubsets subsets(options.others + 1);
  anneal_subsets(problem, options.seed, options.effort, subsets);
  ChooseReport report;
  report.sets = problem.subsets();
  const Proof proof = proof_of(problem, report.sets, subsets);
  report.optimal = proof.complete;
  report.branches = proof.branches;
  report.bound = proof.bound + settled_cost(measure, *bundle);

  for (const PricedSubset& subset : subsets.held()) {
    std::vector<int> take = bundle->kept;
    for (int item : subset.items) take.push_back(bundle->open[item]);
    report.others.push_back(chosen(prints, measure, take));
  }
  report.best = report.others.front();
  report.others.erase(report.others.begin());
  explain_best(prints, measure, report.best);
  for (ChosenSet& other : report.others) explain_other(prints, report.best, options.taste, other);
  report.substitutes = substitutes_of(prints, measure, *bundle, report.best);
  report.proof = proof_in_words(report);
  return report;
}

}  // namespace farflung::choice
