// The score of a quilt, exactly: everything in it that no rearranging changes is worked out once.
#pragma once

#include <map>
#include <vector>

#include "base/rng.hpp"
#include "quilt/quilt.hpp"
#include "score/end_tables.hpp"
#include "score/gradation.hpp"
#include "score/kernel.hpp"
#include "score/meetings.hpp"
#include "score/place_lattice.hpp"
#include "score/places.hpp"
#include "score/reading.hpp"
#include "score/terms.hpp"

namespace farflung::score {

/// A touch or a corner touch, where it is.
struct Touch {
  int cell_a = 0, patch_a = 0;
  int cell_b = kNone;  ///< kNone: the frame
  int patch_b = 0;     ///< a patch of the block in cell_b, or of Plan::frame
  int print = 0;
  Length seam;  ///< zero: a corner touch
};

/// The blocks that are shuffled among the same cells: all of them, or where patterns alternate those of one pattern.
struct Class {
  std::vector<int> blocks;  ///< spares included
  std::vector<int> places;
};

/// What the score of a quilt is made of, for every arrangement that leaves the same cells empty.
///
///   const Measure measure(quilt);
///   const Score now = measure.score(quilt.layout);
///   const double share = measure.beats(quilt.layout);
///
/// The quilt must have passed problems_of. Costs O(n^2) for n blocks; a score costs O(n^2) too, with small constants.
class Measure {
 public:
  explicit Measure(const quilt::Quilt& quilt);

  /// Measure(quilt), for the price of its means: of a quilt that differs only in the prints that its blocks hold and in
  /// how they lie in the same cells.
  Measure dealt_anew(const quilt::Quilt& quilt) const;

  const quilt::Quilt& quilt() const { return quilt_; }
  const setting::Plan& plan() const { return plan_; }
  const Places& places() const { return places_; }
  const Meetings& meetings() const { return meetings_; }
  const std::vector<Class>& classes() const { return classes_; }
  const ShuffleMeans& means() const { return means_; }

  const Kernel& inverse_square() const { return inverse_square_; }
  const Kernel& coverage_windows() const { return coverage_; }
  const Kernel& evenness_windows() const { return evenness_; }
  const Kernel& streaks() const { return streaks_; }
  const std::vector<double>& coverage_shares() const { return coverage_shares_; }

  const GradationGoal& gradation() const { return gradation_; }
  /// Whether the gradation is asked for at all; else its term is 0 and its goal not worked out.
  bool graded() const { return quilt_.goals.gradation > 0; }
  const PlaceLattice& lattice() const { return lattice_; }
  const EndTables& ends() const { return ends_; }  ///< empty unless asks_nesting
  bool asks_nesting() const { return quilt_.goals.nest > 0 || quilt_.goals.nest_rule; }
  const std::vector<SlotFacts>& facts() const { return facts_; }             ///< by pattern
  const std::vector<Reading>& readings() const { return readings_; }         ///< by print
  const std::vector<std::vector<int>>& prints() const { return prints_; }    ///< by block, by slot
  const std::vector<std::vector<Share>>& shares() const { return shares_; }  ///< by block: w(p, b)
  const std::vector<Reading>& casts() const { return casts_; }               ///< by block: g
  const std::vector<double>& mean_shares() const { return mean_shares_; }    ///< by print: w(p)
  const std::vector<double>& spread_means() const { return spread_means_; }  ///< by print: E[S_p], 0: left out
  int spread_prints() const;  ///< how many prints the spread is a mean over
  const Reading& mean_reading() const { return mean_reading_; }
  double delta_e(int p, int q) const;  ///< between two prints: of their mean colours, or print::distance by the goals
  /// L* of print p less that of print q.
  double delta_L(int p, int q) const { return quilt_.prints[p].features.lab.L - quilt_.prints[q].features.lab.L; }

  /// What the layout has, raw, and as the goals weigh it; F is the sum of weight x term over its mean in a shuffle. A
  /// block alone can only meet the frame.
  Terms terms(const setting::Arrangement& arrangement) const;
  Score score(const setting::Arrangement& arrangement) const;
  double F(const Terms& terms) const;

  /// By block, whether it is pressed the other way: as it says, or where it is not pressed yet so that as many ends
  /// nest as can be found. Only where asks_nesting.
  std::vector<bool> pressed_other(const setting::Arrangement& arrangement) const;

  /// Every touch (or corner touch), pairs of cells in order, then the frame's.
  std::vector<Touch> touches(const setting::Arrangement& arrangement) const;
  std::vector<Touch> corners(const setting::Arrangement& arrangement) const;

  /// One of all shuffles, each equally likely.
  setting::Arrangement shuffled(Rng& rng) const;

  /// The share of 10,000 shuffles that are worse than the arrangement, ties counting half; always the same shuffles.
  double beats(const setting::Arrangement& arrangement) const;

 private:
  void read_prints();
  void read_blocks();
  void find_classes();
  void find_means();
  void find_contact_means();
  void count_contacts(const setting::Arrangement& arrangement, Terms& terms) const;
  double gradation_term(const setting::Arrangement& arrangement) const;
  void find_gradation_mean();
  void find_end_mean();
  int unnested(const setting::Arrangement& arrangement) const;
  double spread(const setting::Arrangement& arrangement) const;
  double coverage(const setting::Arrangement& arrangement) const;
  double of_casts(const Kernel& kernel, const setting::Arrangement& arrangement) const;
  std::vector<Touch> meetings_of_one_print(const setting::Arrangement& arrangement, bool seams) const;

  quilt::Quilt quilt_;
  setting::Plan plan_;
  Places places_;
  Meetings meetings_;
  std::vector<Class> classes_;
  Kernel inverse_square_, coverage_, evenness_, streaks_;
  std::vector<double> coverage_shares_;
  std::vector<SlotFacts> facts_;
  std::vector<Reading> readings_;
  std::vector<double> delta_e_;
  std::vector<std::vector<int>> prints_;
  std::vector<std::vector<Share>> shares_;
  GradationGoal gradation_;
  PlaceLattice lattice_;
  EndTables ends_;
  std::vector<Reading> casts_;
  Reading mean_reading_{};
  std::vector<double> mean_shares_;
  std::vector<double> spread_means_;
  ShuffleMeans means_;
};

/// The score of a quilt as it lies.
Score score_of(const quilt::Quilt& quilt);

}  // namespace farflung::score
