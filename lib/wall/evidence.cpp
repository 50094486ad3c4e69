#include "wall/evidence.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "base/median.hpp"

namespace farflung::wall {
namespace {

constexpr double kMargin = 1;  ///< inches of flat wall around the box
constexpr double kPixelsPerBlock = 72;

/// A patch in its turned block's own box, drawn as a mask of size x size pixels and made smaller all round: seams,
/// neighbours that show through a crooked join, and a block that hangs astray do not count.
cv::Mat mask_of(const Polygon& polygon, double width, double height, cv::Size size) {
  constexpr int kShift = 6;
  std::vector<cv::Point> corners;
  for (const Point& p : polygon) {
    corners.emplace_back(static_cast<int>(std::lround((p.x.inches() / width * size.width - 0.5) * (1 << kShift))),
                         static_cast<int>(std::lround((p.y.inches() / height * size.height - 0.5) * (1 << kShift))));
  }
  cv::Mat mask(size.height + 2, size.width + 2, CV_8U, cv::Scalar(0));
  for (cv::Point& corner : corners) corner += cv::Point(1 << kShift, 1 << kShift);
  cv::fillPoly(mask, std::vector<std::vector<cv::Point>>{corners}, cv::Scalar(255), cv::LINE_8, kShift);
  cv::Mat depth;
  cv::distanceTransform(mask, depth, cv::DIST_L2, cv::DIST_MASK_PRECISE);
  double deepest = 0;
  cv::minMaxLoc(depth, nullptr, &deepest);
  const double trim = std::min(0.08 * size.width, 0.5 * deepest);
  return cv::Mat(depth > trim)(cv::Rect(1, 1, size.width, size.height)).clone();
}

/// The block in a cell, upright as the pattern's turned box: flat pixels to a small picture.
cv::Mat cell_picture(const cv::Mat& flat, const Grid& grid, int index, double pixels_per_inch, double width,
                     double height, cv::Size size) {
  const cv::Point2d centre((grid.centres[index].x - grid.box.x + kMargin) * pixels_per_inch - 0.5,
                           (grid.centres[index].y - grid.box.y + kMargin) * pixels_per_inch - 0.5);
  const double angle = grid.on_point ? CV_PI / 4 : 0;
  const double c = std::cos(angle), s = std::sin(angle);
  const double sx = width * pixels_per_inch / size.width, sy = height * pixels_per_inch / size.height;
  const double ox = (size.width - 1) / 2.0, oy = (size.height - 1) / 2.0;
  const cv::Matx23d flat_from_cell(c * sx, -s * sy, centre.x - c * sx * ox + s * sy * oy,  //
                                   s * sx, c * sy, centre.y - s * sx * ox - c * sy * oy);
  cv::Mat cell;
  cv::warpAffine(flat, cell, flat_from_cell, size, cv::INTER_LINEAR | cv::WARP_INVERSE_MAP, cv::BORDER_REPLICATE);
  return cell;
}

/// Stretches about as long as a block of the band of wall round the box, which begins where blocks that hang astray
/// end; those that the photograph shows.
std::vector<Stretch> band_round(const cv::Mat& flat, const Grid& grid, const cv::Matx33d& photo_from_wall,
                                cv::Size photograph, double pixels_per_inch) {
  constexpr double kFrom = 0.4, kTo = 0.95;  // inches from the box
  const cv::Rect2d& box = grid.box;
  std::vector<Stretch> band;
  const auto add = [&](const cv::Rect2d& stretch) {
    const cv::Rect2d picture(0, 0, photograph.width, photograph.height);
    for (const cv::Point2d corner : {stretch.tl(), stretch.br()}) {
      if (!picture.contains(projected(photo_from_wall, corner))) return;
    }
    const cv::Rect2d at((stretch.x - box.x + kMargin) * pixels_per_inch,
                        (stretch.y - box.y + kMargin) * pixels_per_inch, stretch.width * pixels_per_inch,
                        stretch.height * pixels_per_inch);
    const cv::Mat light = flat(cv::Rect(at) & cv::Rect({}, flat.size()));
    if (light.empty()) return;
    const cv::Point2d middle = (stretch.tl() + stretch.br()) * 0.5 - box.tl();
    band.push_back({2 * middle.x / box.width - 1, 2 * middle.y / box.height - 1,
                    look_of(light, cv::Mat(light.size(), CV_8U, cv::Scalar(255)))});
  };
  const int across = std::max(1, static_cast<int>(std::lround(box.width / grid.width)));
  const int down = std::max(1, static_cast<int>(std::lround(box.height / grid.height)));
  for (const double from : {-kTo, box.height + kFrom}) {
    for (int k = 0; k < across; ++k)
      add({box.x + k * box.width / across, box.y + from, box.width / across, kTo - kFrom});
  }
  for (const double from : {-kTo, box.width + kFrom}) {
    for (int k = 0; k < down; ++k) add({box.x + from, box.y + k * box.height / down, kTo - kFrom, box.height / down});
  }
  return band;
}

}  // namespace

Evidence gathered(const quilt::Quilt& quilt, const photo::Picture& photograph, const Grid& grid,
                  const photo::Corners& corners) {
  Evidence evidence;
  evidence.pixels_per_inch = kPixelsPerBlock / std::max(grid.width, grid.height);
  const double scale = evidence.pixels_per_inch;
  const cv::Matx33d photo_of = photo_from_wall(grid, corners);
  cv::Mat flat = flat_wall(photograph, grid, photo_of, scale, kMargin);
  soften(flat);
  evidence.band = band_round(flat, grid, photo_of, {photograph.columns, photograph.rows}, scale);
  std::vector<cv::Mat> masks;
  for (std::size_t p = 0; p < quilt.patterns.size(); ++p) {
    const block::Pattern& pattern = quilt.patterns[p];
    evidence.forms_of.emplace_back();
    for (const Turn turn : pattern.turns) {
      evidence.forms_of.back().push_back(static_cast<int>(evidence.forms.size()));
      evidence.forms.push_back({static_cast<int>(p), turn, static_cast<int>(masks.size())});
      const auto [width, height] = turned_inches(pattern, turn);
      const cv::Size size(static_cast<int>(std::lround(width * scale)), static_cast<int>(std::lround(height * scale)));
      for (const block::Patch& patch : pattern.patches) {
        masks.push_back(mask_of(turned(patch.polygon, pattern.width, pattern.height, turn), width, height, size));
        evidence.slot.push_back(patch.slot);
        evidence.side.push_back(std::sqrt(std::max(0.05, cv::countNonZero(masks.back()) / (scale * scale))));
      }
    }
  }
  evidence.patches = static_cast<int>(masks.size());
  for (std::size_t k = 0; k < grid.cells.size(); ++k) {
    evidence.x.push_back(2 * (grid.centres[k].x - grid.box.x) / grid.box.width - 1);
    evidence.y.push_back(2 * (grid.centres[k].y - grid.box.y) / grid.box.height - 1);
    for (int patch = 0; patch < evidence.patches; ++patch) {
      const cv::Size size = masks[patch].size();
      // Masks of one size share one picture of the cell.
      static thread_local cv::Mat picture;
      if (patch == 0 || size != masks[patch - 1].size()) {
        picture = cell_picture(flat, grid, static_cast<int>(k), scale, size.width / scale, size.height / scale, size);
      }
      evidence.looks.push_back(look_of(picture, masks[patch]));
    }
  }
  return evidence;
}

bool Evidence::shows_one_thing(int cell) const {
  for (int k = 0; k < kColours; ++k) {
    double low = 1e9, high = -1e9;
    for (int patch = 0; patch < patches; ++patch) {
      low = std::min(low, look(cell, patch)[k]);
      high = std::max(high, look(cell, patch)[k]);
    }
    if (high - low > 0.12) return false;
  }
  return true;
}

Book::Book(const quilt::Quilt& quilt, const std::vector<photo::Picture>& swatches, const Evidence& evidence) {
  // Patches of nearly one size share their looks.
  std::vector<double> sizes;
  for (const double side : evidence.side) {
    std::size_t size = 0;
    while (size < sizes.size() && std::abs(std::log2(side / sizes[size])) > 0.3) ++size;
    if (size == sizes.size()) sizes.push_back(side);
    size_of_patch_.push_back(static_cast<int>(size));
  }
  for (const double side : sizes) {
    looks_.emplace_back();
    for (std::size_t p = 0; p < quilt.prints.size(); ++p) {
      const photo::Picture none;
      looks_.back().push_back(
          print_look(quilt.prints[p], p < swatches.size() ? swatches[p] : none, side, evidence.pixels_per_inch));
    }
  }
}

Look Book::mean(const std::vector<double>& share) const {
  Look sum{};
  double total = 0;
  for (int p = 0; p < prints(); ++p) {
    total += share[p];
    for (int k = 0; k < kLooks; ++k) sum[k] += share[p] * looks_.front()[p].mean[k];
  }
  for (double& value : sum) value /= std::max(total, 1e-12);
  return sum;
}

namespace {

/// Solves the normal equations of a ridge regression; `towards` is what a weight is held to.
std::vector<double> solved(cv::Mat normal, cv::Mat right, const std::vector<double>& ridge,
                           const std::vector<double>& towards) {
  const int n = static_cast<int>(ridge.size());
  for (int k = 0; k < n; ++k) {
    normal.at<double>(k, k) += ridge[k];
    right.at<double>(k) += ridge[k] * towards[k];
  }
  cv::Mat answer;
  cv::solve(normal, right, answer, cv::DECOMP_SVD);
  return {answer.ptr<double>(), answer.ptr<double>() + n};
}

/// Textures at which a print is as plain as noise.
constexpr double kPlain = 0.04;

}  // namespace

std::vector<double> Light::field(double x, double y) const {
  std::vector<double> terms = {1};
  if (degree_ >= 1) terms.insert(terms.end(), {x, y});
  if (degree_ >= 2) terms.insert(terms.end(), {x * x, x * y, y * y});
  if (degree_ >= 3) terms.insert(terms.end(), {x * x * x, x * x * y, x * y * y, y * y * y});
  return terms;
}

Light::Light(const Evidence& evidence, const Look& mean_of_prints) : left_(evidence.cells()) {
  std::array<std::vector<double>, kLooks> seen;
  for (int cell = 0; cell < evidence.cells(); ++cell) {
    for (int patch = 0; patch < evidence.patches; ++patch) {
      for (int k = 0; k < kLooks; ++k) seen[k].push_back(evidence.look(cell, patch)[k]);
    }
  }
  for (int k = 0; k < kLooks; ++k) {
    double sum = 0;
    for (const double value : seen[k]) sum += value;
    const double mean = seen[k].empty() ? 0 : sum / static_cast<double>(seen[k].size());
    if (k < kColours) {
      weights_[k] = {0, 0, 0, mean - mean_of_prints[k]};
      weights_[k][k] = 1;
      noise_[k] = 0.25 * 0.25;
    } else {
      const bool told = k < kColours + kSpreads && mean_of_prints[k] > kPlain;
      scale_[k] = told ? mean / mean_of_prints[k] : 1;
      noise_[k] = 0.12 * 0.12;
    }
  }
}

Look Light::expected(const Evidence& evidence, int cell, const PrintLook& print) const {
  Look look{};
  const std::vector<double> terms = field(evidence.x[cell], evidence.y[cell]);
  for (int k = 0; k < kColours; ++k) {
    for (int j = 0; j < kColours; ++j) look[k] += weights_[k][j] * print.mean[j];
    for (std::size_t t = 0; t < terms.size(); ++t) look[k] += weights_[k][kColours + t] * terms[t];
    look[k] += left_[cell][k];
  }
  for (int k = kColours; k < kLooks; ++k) look[k] = scale_[k] * print.mean[k];
  return look;
}

double Light::misfit(const Evidence& evidence, int cell, int patch, const PrintLook& print) const {
  const Look& seen = evidence.look(cell, patch);
  const Look shown = expected(evidence, cell, print);
  double sum = 0;
  const int looks = print.texture ? kLooks : kColours;
  for (int k = 0; k < looks; ++k) {
    const double difference = seen[k] - shown[k];
    const double variance = noise_[k] + print.variance[k];
    // Student's t of four degrees: a look that is far off is far off, not impossible.
    sum += 2.5 * std::log(1 + difference * difference / (4 * variance)) + 0.5 * std::log(variance / noise_[k]);
  }
  return sum < kCap ? sum : kCap + 0.1 * (sum - kCap);
}

double Light::uncertainty() const {
  double sum = 0;
  for (const double variance : noise_) sum += 0.5 * std::log(variance);
  return sum;
}

/// Fits one of the three colours to what the samples show of it; returns what is left of each.
std::vector<double> Light::fit_colour(int colour, const std::vector<std::vector<double>>& rows,
                                      const std::vector<double>& seen) {
  const int size = kColours + static_cast<int>(field(0, 0).size());
  std::vector<double> ridge(size, 1e-3), towards(size, 0.0);
  for (int j = 0; j < kColours; ++j) ridge[j] = 0.02 * static_cast<double>(rows.size());
  towards[colour] = 1;
  std::vector<double> weight(rows.size(), 1.0), residuals(rows.size());
  for (int round = 0; round < 5; ++round) {
    cv::Mat normal = cv::Mat::zeros(size, size, CV_64F), right = cv::Mat::zeros(size, 1, CV_64F);
    for (std::size_t s = 0; s < rows.size(); ++s) {
      for (int i = 0; i < size; ++i) {
        right.at<double>(i) += weight[s] * rows[s][i] * seen[s];
        for (int j = 0; j < size; ++j) normal.at<double>(i, j) += weight[s] * rows[s][i] * rows[s][j];
      }
    }
    weights_[colour] = solved(normal, right, ridge, towards);
    std::vector<double> sizes;
    for (std::size_t s = 0; s < rows.size(); ++s) {
      double predicted = 0;
      for (int i = 0; i < size; ++i) predicted += weights_[colour][i] * rows[s][i];
      residuals[s] = seen[s] - predicted;
      sizes.push_back(std::abs(residuals[s]));
    }
    // Geman and McClure's weights at twice the robust deviation: what does not fit does not count.
    const double deviation = std::max(0.02, 1.4826 * median(sizes));
    for (std::size_t s = 0; s < rows.size(); ++s) {
      const double r = residuals[s] / (2.5 * deviation);
      weight[s] = 1 / ((1 + r * r) * (1 + r * r));
    }
  }
  return residuals;
}

/// What is left of the light around each cell, by the patches of the cells about it, its own left out.
void Light::fit_left(const Evidence& evidence, const std::vector<Sample>& samples,
                     const std::array<std::vector<double>, kColours>& residuals) {
  const double reach = 2.2 / std::sqrt(static_cast<double>(std::max(evidence.cells(), 1)));
  for (int cell = 0; cell < evidence.cells(); ++cell) {
    std::array<double, kColours> sum{};
    double total = 0;
    for (std::size_t s = 0; s < samples.size(); ++s) {
      if (samples[s].cell == cell) continue;
      const double dx = evidence.x[samples[s].cell] - evidence.x[cell];
      const double dy = evidence.y[samples[s].cell] - evidence.y[cell];
      const double near = std::exp(-(dx * dx + dy * dy) / (2 * reach * reach));
      if (near < 0.02) continue;
      double outlying = 0;
      for (int k = 0; k < kColours; ++k) outlying += std::pow(residuals[k][s] / 0.15, 2);
      const double weight = near / std::pow(1 + outlying / 3, 2);
      for (int k = 0; k < kColours; ++k) sum[k] += weight * residuals[k][s];
      total += weight;
    }
    for (int k = 0; k < kColours; ++k) left_[cell][k] = sum[k] / (total + 3);
  }
}

/// How much of a print's texture the photograph shows.
void Light::fit_scale(const Evidence& evidence, const Book& book, const std::vector<Sample>& samples, int look) {
  std::vector<double> ratios;
  for (const Sample& sample : samples) {
    const PrintLook& print = book.of(sample.patch, sample.print);
    if (print.texture && std::abs(print.mean[look]) > kPlain) {
      ratios.push_back(evidence.look(sample.cell, sample.patch)[look] / print.mean[look]);
    }
  }
  scale_[look] = ratios.size() > 5 ? median(ratios) : 1;
}

void Light::fit_noise(const Evidence& evidence, const Book& book, const std::vector<Sample>& samples, int look) {
  std::vector<double> misses;
  for (const Sample& sample : samples) {
    const Look shown = expected(evidence, sample.cell, book.of(sample.patch, sample.print));
    misses.push_back(std::abs(evidence.look(sample.cell, sample.patch)[look] - shown[look]));
  }
  const double least = look == 0 || look >= kColours ? 0.03 : 0.02;
  noise_[look] = std::pow(std::max(least, 1.4826 * median(misses)), 2);
}

void Light::fit(const Evidence& evidence, const Book& book, const std::vector<Sample>& samples, int degree) {
  degree_ = degree;
  std::vector<std::vector<double>> rows;
  for (const Sample& sample : samples) {
    const Look& mean = book.of(sample.patch, sample.print).mean;
    std::vector<double> row(mean.begin(), mean.begin() + kColours);
    const std::vector<double> place = field(evidence.x[sample.cell], evidence.y[sample.cell]);
    row.insert(row.end(), place.begin(), place.end());
    rows.push_back(std::move(row));
  }
  std::array<std::vector<double>, kColours> residuals;
  for (int k = 0; k < kColours; ++k) {
    std::vector<double> seen;
    seen.reserve(samples.size());
    for (const Sample& sample : samples) seen.push_back(evidence.look(sample.cell, sample.patch)[k]);
    residuals[k] = fit_colour(k, rows, seen);
  }
  left_.assign(evidence.cells(), {});
  if (degree >= 2) fit_left(evidence, samples, residuals);
  for (int k = 0; k < kLooks; ++k) {
    if (k >= kColours) fit_scale(evidence, book, samples, k);
    fit_noise(evidence, book, samples, k);
  }
}

}  // namespace farflung::wall
