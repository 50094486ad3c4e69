// The score by its definition, word by word: slow, naive, and without a line of the code that it judges.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <unordered_map>
#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::support {

constexpr double kNear = 0.002;  ///< inches: what lies nearer is in one place

/// Raw terms; lengths in pitches; spread divided by its means, which are given.
struct OracleTerms {
  int touches = 0;
  double touch_length = 0;
  int corners = 0;
  std::vector<double> spread_sums;  ///< S_p by print
  double coverage = 0, evenness = 0, streak = 0, likeness = 0;
  double alike_length = 0;  ///< likeness with 1 for every pair under dE00 10
  double contrast = 0;
  double gradation = 0;  ///< across only, and only where it is a goal
  int lines = 0;         ///< three copies of a print at equal steps in a line
  double closest = 0;    ///< pitches between the closest two copies; without two, between the two cells furthest apart
  int unnested = 0;      ///< seam ends that do not nest; every block must say how it is pressed
  int ends = 0;          ///< seam ends that meet, none of them pressed open
};

/// Judges arrangements of one quilt. Patches are laid on the top one by one and every two of different blocks (or of a
/// block and the frame) compared, edge by edge; how two patches meet is remembered, since they come again.
/// w(p, b) by print, and the area-weighted mean of (1.5 L*, a*, b*, 20 busyness), without L* under a gradation.
std::vector<double> oracle_weights(const quilt::Quilt& quilt, const block::Block& block);
std::vector<double> oracle_reading(const quilt::Quilt& quilt, const block::Block& block);

/// How alike two prints are, as the goals ask: dE00 of their mean colours, or the distance of the whole prints, whose
/// palettes have shares of eighths.
double oracle_apart(const quilt::Quilt& quilt, int p, int q);

/// Light to dark across: the rank that a place asks for and the rank that a print has.
class OracleGradation {
 public:
  OracleGradation(const quilt::Quilt& quilt, const setting::Plan& plan);
  double asked(double x) const;  ///< of a patch whose middle is there, inches
  double has(int print) const { return has_[print]; }

 private:
  std::vector<double> samples_, has_;
  double left_ = 1e300, right_ = -1e300;
};

class Oracle {
 public:
  explicit Oracle(const quilt::Quilt& quilt);

  /// Prints as `quilt` holds them now, which may have been dealt anew; blocks, patterns and setting as they were.
  OracleTerms terms(const quilt::Quilt& quilt);

  struct Vertex {
    double x = 0, y = 0;
  };
  using Outline = std::vector<Vertex>;

  /// A seam end at a block's edge: where it is and which way its allowance lies, on the top, pressed as drawn.
  struct End {
    Vertex at, lies;
    bool open = false;
  };
  /// Remembered, since they come again: valid as long as the oracle.
  const std::vector<End>& ends_of(int cell, int pattern, int turn);

  /// For each two ends that meet on the edge that two blocks share: whether they nest with both blocks pressed alike.
  std::vector<bool> nest_alike(const std::vector<End>& a, int cell_a, const std::vector<End>& b, int cell_b) const;

 private:
  friend class RunningOracle;
  struct Met {
    double seam = 0;  ///< inches
    bool point = false;
  };
  struct Laid {
    int cell = 0;  ///< -1: the frame
    int patch = 0, pattern = 0, turn = 0;
    int print = -1;
    bool may_touch = false;
  };

  std::vector<Laid> laid(const quilt::Quilt& quilt) const;
  Outline outline(const Laid& patch) const;
  static double middle(const Outline& corners);  ///< its centroid's x
  Met met(const Laid& a, const Laid& b);
  void count_contacts(const quilt::Quilt& quilt, OracleTerms& terms);
  void count_copies(const quilt::Quilt& quilt, OracleTerms& terms) const;
  void count_ends(const quilt::Quilt& quilt, OracleTerms& terms);
  std::vector<End> found_ends(int cell, int pattern, int turn) const;
  Outline outline_of_block(int cell, int pattern) const;
  void sum_gradation(const quilt::Quilt& quilt, OracleTerms& terms) const;
  void sum_windows(const quilt::Quilt& quilt, OracleTerms& terms) const;
  void sum_streaks(const quilt::Quilt& quilt, const std::vector<std::vector<double>>& casts, OracleTerms& terms) const;

  std::vector<block::Pattern> patterns_;
  setting::Plan plan_;
  std::vector<double> apart_;  ///< by print, print
  std::unordered_map<std::uint64_t, Met> known_;
  std::map<std::array<int, 3>, std::vector<End>> known_ends_;  ///< by cell, pattern, turn
};

}  // namespace farflung::support
