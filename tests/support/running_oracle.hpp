// The score by its definition, under changes: what a few cells have a hand in is worked out anew, and nothing else.
#pragma once

#include <array>
#include <vector>

#include "support/oracle.hpp"

namespace farflung::support {

/// Follows one quilt from change to change. It knows no potentials and no closed forms: for a change it takes out
/// every pair that the changed cells are part of, and puts in those that they are part of now; sums over windows and
/// lines are squared anew. Prints and blocks may change places, as long as all blocks together stay what they are.
class RunningOracle {
 public:
  explicit RunningOracle(const quilt::Quilt& quilt);

  /// The terms of `quilt`, which differs from the quilt before in these cells alone.
  OracleTerms after(const quilt::Quilt& quilt, const std::vector<int>& changed);

 private:
  /// What lies in a cell.
  struct InCell {
    int pattern = -1, turn = 0;  ///< pattern -1: a hole
    bool other = false;          ///< pressed the other way
    std::vector<int> prints;     ///< by patch
    std::vector<char> may_touch;
    std::vector<double> w;  ///< by print
    std::array<double, 4> g{};
    std::uint64_t holds = 0;  ///< bit p: w(p) > 0
  };
  struct Contact {
    int patch_a = 0, patch_b = 0;
    double seam = 0;
  };
  /// What two blocks in two cells (or a block and the frame) have to do with each other, so turned.
  struct Join {
    bool known = false;
    std::vector<Contact> contacts;
    std::vector<bool> nest_alike;
  };
  struct Pair {
    int a = 0, b = 0;
    std::vector<Join> joins;  ///< by forms of a and b
  };

  InCell read(const quilt::Quilt& quilt, int cell) const;
  int form(const InCell& in) const { return in.pattern * 4 + in.turn; }
  const Join& join_of(Pair& pair);
  const Join& frame_join(int cell);
  void count(const Contact& contact, int print_a, int print_b, bool both_may_touch, int sign);
  void count_pairs(const std::vector<int>& changed, int sign);
  void add_windows(const std::vector<int>& changed, int sign);
  void sum_windows(OracleTerms& terms) const;
  void count_copies(OracleTerms& terms) const;
  double gradation(int cell) const;
  std::vector<Contact> contacts_between(int a, int b);

  Oracle oracle_;
  OracleGradation gradation_;
  std::vector<print::Print> prints_;
  std::vector<double> delta_e_;
  quilt::Goals goals_;
  std::vector<InCell> cells_;
  std::vector<int> places_;  ///< cells that hold a block
  std::vector<std::vector<int>> pairs_of_;
  std::vector<Pair> pairs_;
  std::vector<std::vector<Join>> frame_joins_;  ///< by cell, form
  std::vector<double> share_;                   ///< w(p)
  std::array<double, 4> mean_{};
  std::vector<double> weights_[3];                 ///< by scale; window, cell: normalised
  std::vector<double> inverse_square_, distance_;  ///< by cell, cell
  double farthest_ = 0;
  std::vector<std::vector<double>> regional_[3];    ///< by scale, window: w_s(p)
  std::vector<std::array<double, 4>> cast_[3];      ///< by scale, window: m_s
  std::vector<std::vector<int>> lines_, lines_of_;  ///< cells of lines; by cell, its lines
  std::vector<std::array<double, 4>> line_sum_;
  std::vector<std::array<int, 3>> triples_;  ///< cells in a line at equal steps
  OracleTerms now_;                          ///< the sums over pairs and cells
};

}  // namespace farflung::support
