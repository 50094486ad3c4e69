// Weights between places: what every term that sees blocks as points is a sum over.
#pragma once

#include <array>
#include <functional>
#include <memory>
#include <span>
#include <vector>

#include "score/lattice_windows.hpp"
#include "score/places.hpp"

namespace farflung::score {

/// A symmetric table of weights between places.
///
/// Above kDense places the table is not written out: what goes by distance is kept by displacement, the windows on full
/// straight grids as products of a weight across and a weight down and elsewhere by LatticeWindows, all exact, so that
/// 10,000 places of any setting take megabytes.
class Kernel {
 public:
  static constexpr int kDense = 600;

  /// A table given as it is, row by row, `places` x `places`, symmetric.
  static Kernel table(int places, std::vector<double> weights);

  /// of(d^2) between different places, d in pitches; 0 on the diagonal.
  static Kernel of_distance(const Places& places, const std::function<double(double squared)>& of);

  /// 1 / d^2 between different places.
  static Kernel inverse_square(const Places& places);

  /// sum over scales s of (1 / scales) (1 / n) sum_k G_s(k, i) G_s(k, j), G_s(k, i) = exp(-d(k, i)^2 / 2 s^2) over its
  /// sum over i: the weights with which a sum over windows of a squared window mean sees the pair (i, j).
  static Kernel windows(const Places& places, std::span<const double> scales);

  /// What a streak weighs: for each line that holds both places 1 / its length, over the number of lines.
  static Kernel streaks(const Places& places);

  int places() const { return places_; }
  double bytes() const;  ///< of its tables
  double at(int i, int j) const;

  /// to[k] += weight * at(i, first + k), in single precision; above kDense places windows that weigh less than a
  /// thousand millionth of the nearest are left out.
  void add_stretch(int i, int first, double weight, std::span<float> to) const;

  /// to[i] += weight * at(i, j), for every i.
  void add_column(int j, double weight, std::span<double> to) const;

  /// to[i] = at(i, a) - at(i, b), for every i.
  void difference(int a, int b, std::span<double> to) const;

 private:
  enum class Form { dense, displacement, product, windows, lines };

  struct Spot {
    int row = 0, column = 0;
  };

  /// A window's weights between places of a full grid: the product of one across and one down.
  struct Product {
    std::vector<double> across, down;      ///< columns x columns, scaled; rows x rows
    int reach_across = 0, reach_down = 0;  ///< columns, rows that a double beside the nearest would keep
    int seen_across = 0, seen_down = 0;    ///< the same for single precision
  };

  static Product product_of(const Places& places, double scale, double share);
  Spot spot(int place) const {
    return full_ ? Spot{place / columns_, place % columns_} : Spot{row_of_[place], column_of_[place]};
  }
  double displacement_at(Spot i, Spot j) const;
  double product_at(Spot i, Spot j) const;
  double lines_at(int i, int j) const;
  void add_stretch_of_row(int i, Spot first, double weight, std::span<float> to) const;
  void add_stretch_of_lines(int i, Spot first, double weight, std::span<float> to) const;

  Form form_ = Form::dense;
  int places_ = 0;
  int rows_ = 0, columns_ = 0;
  std::vector<double> table_;                 ///< dense: weights; displacement: by |rows| and signed columns
  std::vector<float> singles_;                ///< displacement: the same, rounded
  std::vector<Product> products_;             ///< product: by scale
  std::vector<std::vector<int>> lines_;       ///< lines: their places
  std::vector<std::array<int, 4>> lines_of_;  ///< lines: by place, its row, column and diagonals; kNone: too short
  std::vector<double> line_weight_;           ///< lines: 1 / length, over the number of lines
  bool full_ = false;                         ///< place = row * columns + column
  std::vector<int> row_of_, column_of_;       ///< displacement, not full: by place, on the lattice
  std::shared_ptr<const LatticeWindows> windows_;
};

/// How much each place counts in the sum of all windows: c_j = (1 / n) sum over scales of (1 / scales) sum_i G_s(i, j).
std::vector<double> window_shares(const Places& places, std::span<const double> scales);

}  // namespace farflung::score
