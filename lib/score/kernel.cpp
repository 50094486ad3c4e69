#include "score/kernel.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <utility>

#include "score/wide.hpp"

namespace farflung::score {
namespace {

FARFLUNG_WIDE void add_scaled(double* to, const double* from, double weight, int count) {
  for (int i = 0; i < count; ++i) to[i] += weight * from[i];
}

FARFLUNG_WIDE void subtract(double* to, const double* from, const double* less, int count) {
  for (int i = 0; i < count; ++i) to[i] = from[i] - less[i];
}

/// Normalised Gaussian weights on points of a line, by window: window(i, j) at i * n + j.
std::vector<double> line_windows(std::span<const double> at, double scale) {
  const std::size_t n = at.size();
  std::vector<double> windows(n * n);
  for (std::size_t i = 0; i < n; ++i) {
    double sum = 0;
    for (std::size_t j = 0; j < n; ++j) {
      const double d = at[i] - at[j];
      sum += windows[i * n + j] = std::exp(-d * d / (2 * scale * scale));
    }
    for (std::size_t j = 0; j < n; ++j) windows[i * n + j] /= sum;
  }
  return windows;
}

/// Normalised Gaussian weights between places, by window.
std::vector<double> plane_windows(const Places& places, double scale) {
  const int n = places.count();
  std::vector<double> windows(static_cast<std::size_t>(n) * n);
  for (int i = 0; i < n; ++i) {
    double* window = &windows[static_cast<std::size_t>(i) * n];
    double sum = 0;
    for (int j = 0; j < n; ++j) {
      const double dx = places.x[i] - places.x[j];
      const double dy = places.y[i] - places.y[j];
      sum += window[j] = std::exp(-(dx * dx + dy * dy) / (2 * scale * scale));
    }
    for (int j = 0; j < n; ++j) window[j] /= sum;
  }
  return windows;
}

/// to(i, j) += weight * sum_k windows(k, i) windows(k, j).
void add_gram(const std::vector<double>& windows, int n, double weight, std::vector<double>& to) {
  for (int k = 0; k < n; ++k) {
    const double* window = &windows[static_cast<std::size_t>(k) * n];
    for (int i = 0; i < n; ++i) {
      const double scaled = weight * window[i];
      if (scaled < 1e-300) continue;
      add_scaled(&to[static_cast<std::size_t>(i) * n], window, scaled, n);
    }
  }
}

FARFLUNG_WIDE void add_singles(float* to, const float* from, float weight, int count) {
  for (int i = 0; i < count; ++i) to[i] += weight * from[i];
}

FARFLUNG_WIDE void add_rounded(float* to, const double* from, double weight, int count) {
  for (int i = 0; i < count; ++i) to[i] += static_cast<float>(weight * from[i]);
}

/// What weighs so much less than the nearest adds nothing that a double beside it would keep; in single precision.
constexpr double kFar = 1e-20, kFaint = 1e-9;

/// How many steps apart two points of a line can lie before their weight, of an n x n table, is under `least` times the
/// greatest.
int reach_of(const std::vector<double>& weights, int n, double least) {
  const double bar = least * *std::max_element(weights.begin(), weights.end());
  int reach = 0;
  for (int i = 0; i < n; ++i) {
    for (int j = i + reach + 1; j < n; ++j) {
      if (weights[static_cast<std::size_t>(i) * n + j] >= bar) reach = j - i;
    }
  }
  return reach;
}

std::vector<double> columns_of(const Places& places) { return {places.x.begin(), places.x.begin() + places.columns}; }

std::vector<double> rows_of(const Places& places) {
  std::vector<double> at;
  at.reserve(static_cast<std::size_t>(places.rows));
  for (int r = 0; r < places.rows; ++r) at.push_back(places.y[static_cast<std::size_t>(r) * places.columns]);
  return at;
}

std::vector<double> column_sums(const std::vector<double>& windows, std::size_t n) {
  std::vector<double> sums(n, 0.0);
  for (std::size_t i = 0; i < n * n; ++i) sums[i % n] += windows[i];
  return sums;
}

}  // namespace

Kernel Kernel::table(int places, std::vector<double> weights) {
  Kernel kernel;
  kernel.places_ = places;
  kernel.table_ = std::move(weights);
  return kernel;
}

Kernel Kernel::of_distance(const Places& places, const std::function<double(double squared)>& of) {
  Kernel kernel;
  const int n = kernel.places_ = places.count();
  if (n <= kDense) {
    kernel.table_.resize(static_cast<std::size_t>(n) * n);
    for (int i = 0; i < n; ++i) {
      for (int j = 0; j < n; ++j) {
        const double dx = places.x[i] - places.x[j];
        const double dy = places.y[i] - places.y[j];
        kernel.table_[static_cast<std::size_t>(i) * n + j] = i == j ? 0.0 : of(dx * dx + dy * dy);
      }
    }
    return kernel;
  }
  kernel.form_ = Form::displacement;
  const LatticeSteps steps(places);
  kernel.rows_ = steps.high;
  kernel.columns_ = steps.wide;
  kernel.full_ = places.full_grid;
  if (!kernel.full_) {
    kernel.row_of_ = steps.row;
    kernel.column_of_ = steps.column;
  }
  for (int r = 0; r < steps.high; ++r) {
    for (int c = 1 - steps.wide; c < steps.wide; ++c) {
      const double dx = c * steps.across;
      const double dy = r * steps.down;
      kernel.table_.push_back(r == 0 && c == 0 ? 0.0 : of(dx * dx + dy * dy));
    }
  }
  kernel.singles_.assign(kernel.table_.begin(), kernel.table_.end());
  return kernel;
}

Kernel Kernel::inverse_square(const Places& places) {
  return of_distance(places, [](double squared) { return 1 / squared; });
}

Kernel Kernel::windows(const Places& places, std::span<const double> scales) {
  Kernel kernel;
  const int n = kernel.places_ = places.count();
  const double share = 1.0 / (static_cast<double>(scales.size()) * std::max(1, n));
  if (n > kDense && !places.full_grid) {
    kernel.form_ = Form::windows;
    kernel.windows_ = std::make_shared<const LatticeWindows>(places, scales, share);
    return kernel;
  }
  if (n <= kDense) {
    kernel.table_.assign(static_cast<std::size_t>(n) * n, 0.0);
    for (const double scale : scales) add_gram(plane_windows(places, scale), n, share, kernel.table_);
    return kernel;
  }
  kernel.form_ = Form::product;
  kernel.full_ = true;
  kernel.rows_ = places.rows;
  kernel.columns_ = places.columns;
  for (const double scale : scales) kernel.products_.push_back(product_of(places, scale, share));
  return kernel;
}

Kernel::Product Kernel::product_of(const Places& places, double scale, double share) {
  const int rows = places.rows;
  const int columns = places.columns;
  Product product;
  product.across.assign(static_cast<std::size_t>(columns) * columns, 0.0);
  product.down.assign(static_cast<std::size_t>(rows) * rows, 0.0);
  add_gram(line_windows(columns_of(places), scale), columns, share, product.across);
  add_gram(line_windows(rows_of(places), scale), rows, 1.0, product.down);
  product.reach_across = reach_of(product.across, columns, kFar);
  product.reach_down = reach_of(product.down, rows, kFar);
  product.seen_across = reach_of(product.across, columns, kFaint);
  product.seen_down = reach_of(product.down, rows, kFaint);
  return product;
}

Kernel Kernel::streaks(const Places& places) {
  Kernel kernel;
  kernel.form_ = Form::lines;
  kernel.places_ = places.count();
  kernel.full_ = places.full_grid;
  kernel.rows_ = places.rows;
  kernel.columns_ = places.columns;
  for (const Line& line : places.lines) kernel.lines_.push_back(line.places);
  kernel.lines_of_.assign(kernel.places_, {kNone, kNone, kNone, kNone});
  for (int line = 0; line < static_cast<int>(places.lines.size()); ++line) {
    const auto way = static_cast<std::size_t>(places.lines[line].way);
    for (const int i : places.lines[line].places) kernel.lines_of_[i][way] = line;
    kernel.line_weight_.push_back(
        1.0 / (static_cast<double>(places.lines[line].places.size()) * static_cast<double>(places.lines.size())));
  }
  return kernel;
}

double Kernel::lines_at(int i, int j) const {
  double weight = 0;
  for (std::size_t way = 0; way < 4; ++way) {
    const int line = lines_of_[i][way];
    if (line != kNone && line == lines_of_[j][way]) weight += line_weight_[line];
  }
  return weight;
}

double Kernel::bytes() const {
  double numbers = static_cast<double>(table_.size() + line_weight_.size() + row_of_.size());
  for (const Product& product : products_) {
    numbers += static_cast<double>(product.across.size() + product.down.size());
  }
  if (windows_) numbers += windows_->numbers();
  return numbers * sizeof(double) + static_cast<double>(singles_.size() * sizeof(float));
}

double Kernel::displacement_at(Spot i, Spot j) const {
  return table_[static_cast<std::size_t>(std::abs(i.row - j.row)) * (2 * columns_ - 1) +
                (columns_ - 1 + i.column - j.column)];
}

double Kernel::product_at(Spot i, Spot j) const {
  double weight = 0;
  for (const Product& product : products_) {
    if (std::abs(i.row - j.row) > product.reach_down || std::abs(i.column - j.column) > product.reach_across) continue;
    weight += product.across[static_cast<std::size_t>(i.column) * columns_ + j.column] *
              product.down[static_cast<std::size_t>(i.row) * rows_ + j.row];
  }
  return weight;
}

double Kernel::at(int i, int j) const {
  switch (form_) {
    case Form::dense:
      return table_[static_cast<std::size_t>(i) * places_ + j];
    case Form::displacement:
      return displacement_at(spot(i), spot(j));
    case Form::product:
      return product_at(spot(i), spot(j));
    case Form::windows:
      return windows_->at(i, j);
    case Form::lines:
      return lines_at(i, j);
  }
  return 0;
}

/// Of a full grid, along one of its rows.
void Kernel::add_stretch_of_row(int i, Spot first, double weight, std::span<float> to) const {
  const Spot here = spot(i);
  const int count = static_cast<int>(to.size());
  const int apart = std::abs(here.row - first.row);
  if (form_ == Form::displacement) {
    const std::size_t from = static_cast<std::size_t>(apart) * (2 * columns_ - 1);
    add_singles(to.data(), &singles_[from + (columns_ - 1 + first.column - here.column)], static_cast<float>(weight),
                count);
    return;
  }
  for (const Product& product : products_) {
    if (apart > product.seen_down) continue;
    const int begin = std::max(0, here.column - product.seen_across - first.column);
    const int end = std::min(count, here.column + product.seen_across + 1 - first.column);
    if (begin >= end) continue;
    const double* across = &product.across[static_cast<std::size_t>(here.column) * columns_ + first.column];
    add_rounded(to.data() + begin, across + begin,
                weight * product.down[static_cast<std::size_t>(here.row) * rows_ + first.row], end - begin);
  }
}

/// Of a full grid, along one of its rows: the row is the place's own, or its column and diagonals meet it once each.
void Kernel::add_stretch_of_lines(int i, Spot first, double weight, std::span<float> to) const {
  const Spot here = spot(i);
  const int count = static_cast<int>(to.size());
  const auto meets = [&](Line::Way way, int column) {
    const int line = lines_of_[i][static_cast<std::size_t>(way)];
    const int k = column - first.column;
    if (line != kNone && k >= 0 && k < count) to[k] += static_cast<float>(weight * line_weight_[line]);
  };
  const int below = first.row - here.row;
  meets(Line::Way::column, here.column);
  meets(Line::Way::falling, here.column + below);
  meets(Line::Way::rising, here.column - below);
  if (below != 0) return;
  for (int k = 0; k < count; ++k) meets(Line::Way::row, first.column + k);
}

void Kernel::add_stretch(int i, int first, double weight, std::span<float> to) const {
  const int count = static_cast<int>(to.size());
  if (form_ == Form::dense) {
    add_rounded(to.data(), &table_[static_cast<std::size_t>(i) * places_ + first], weight, count);
    return;
  }
  if (!full_) {
    for (int k = 0; k < count; ++k) to[k] += static_cast<float>(weight * at(i, first + k));
    return;
  }
  Spot at = spot(first);
  for (int k = 0; k < count; ++at.row, at.column = 0) {
    const int along = std::min(count - k, columns_ - at.column);
    if (form_ == Form::lines) {
      add_stretch_of_lines(i, at, weight, to.subspan(k, along));
    } else {
      add_stretch_of_row(i, at, weight, to.subspan(k, along));
    }
    k += along;
  }
}

void Kernel::add_column(int j, double weight, std::span<double> to) const {
  if (form_ == Form::dense) {
    add_scaled(to.data(), &table_[static_cast<std::size_t>(j) * places_], weight, places_);
    return;
  }
  if (form_ == Form::lines) {
    for (const int line : lines_of_[j]) {
      if (line == kNone) continue;
      const double each = weight * line_weight_[line];
      for (const int i : lines_[line]) to[i] += each;
    }
    return;
  }
  if (form_ == Form::windows) return windows_->add_column(j, weight, to);
  const auto [row, column] = spot(j);
  if (!full_) {
    for (int i = 0; i < places_; ++i) to[i] += weight * displacement_at(spot(i), {row, column});
    return;
  }
  for (int r = 0; r < rows_; ++r) {
    double* row_of_to = to.data() + static_cast<std::size_t>(r) * columns_;
    if (form_ == Form::displacement) {
      const std::size_t start = static_cast<std::size_t>(std::abs(r - row)) * (2 * columns_ - 1);
      add_scaled(row_of_to, &table_[start + (columns_ - 1 - column)], weight, columns_);
      continue;
    }
    for (const Product& product : products_) {
      if (std::abs(r - row) > product.reach_down) continue;
      const int begin = std::max(0, column - product.reach_across);
      const int end = std::min(columns_, column + product.reach_across + 1);
      add_scaled(row_of_to + begin, &product.across[static_cast<std::size_t>(column) * columns_ + begin],
                 weight * product.down[static_cast<std::size_t>(row) * rows_ + r], end - begin);
    }
  }
}

void Kernel::difference(int a, int b, std::span<double> to) const {
  if (form_ == Form::dense) {
    const double* rows = table_.data();
    subtract(to.data(), rows + static_cast<std::size_t>(a) * places_, rows + static_cast<std::size_t>(b) * places_,
             places_);
    return;
  }
  std::fill(to.begin(), to.end(), 0.0);
  add_column(a, 1, to);
  add_column(b, -1, to);
}

std::vector<double> window_shares(const Places& places, std::span<const double> scales) {
  const int n = places.count();
  std::vector<double> shares(n, 0.0);
  const double each = 1.0 / (static_cast<double>(scales.size()) * std::max(1, n));
  for (const double scale : scales) {
    if (places.full_grid) {
      const auto across = column_sums(line_windows(columns_of(places), scale), places.columns);
      const auto down = column_sums(line_windows(rows_of(places), scale), places.rows);
      for (int i = 0; i < n; ++i) shares[i] += each * across[i % places.columns] * down[i / places.columns];
    } else {
      const auto sums =
          n > Kernel::kDense ? lattice_window_sums(places, scale) : column_sums(plane_windows(places, scale), n);
      for (int i = 0; i < n; ++i) shares[i] += each * sums[i];
    }
  }
  return shares;
}

}  // namespace farflung::score
