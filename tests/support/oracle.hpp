// The score by its definition, word by word: slow, naive, and without a line of the code that it judges.
#pragma once

#include <cstdint>
#include <unordered_map>
#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::support {

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
};

/// Judges arrangements of one quilt. Patches are laid on the top one by one and every two of different blocks (or of a
/// block and the frame) compared, edge by edge; how two patches meet is remembered, since they come again.
class Oracle {
 public:
  explicit Oracle(const quilt::Quilt& quilt);

  /// Prints as `quilt` holds them now, which may have been dealt anew; blocks, patterns and setting as they were.
  OracleTerms terms(const quilt::Quilt& quilt);

 private:
  struct Vertex {
    double x = 0, y = 0;
  };
  using Outline = std::vector<Vertex>;
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
  Met met(const Laid& a, const Laid& b);
  void count_contacts(const quilt::Quilt& quilt, OracleTerms& terms);
  void sum_gradation(const quilt::Quilt& quilt, OracleTerms& terms) const;
  void sum_windows(const quilt::Quilt& quilt, OracleTerms& terms) const;
  void sum_streaks(const quilt::Quilt& quilt, const std::vector<std::vector<double>>& casts, OracleTerms& terms) const;

  std::vector<block::Pattern> patterns_;
  setting::Plan plan_;
  std::unordered_map<std::uint64_t, Met> known_;
};

}  // namespace farflung::support
