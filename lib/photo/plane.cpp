#include "photo/plane.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include <opencv2/imgproc.hpp>

#include "base/median.hpp"
#include "photo/least_squares.hpp"

namespace farflung::photo {
namespace {

cv::Point2d projected(const cv::Matx33d& h, cv::Point2d p) {
  const cv::Vec3d q = h * cv::Vec3d(p.x, p.y, 1);
  const double w = std::abs(q[2]) < 1e-9 ? 1e-9 : q[2];
  return {q[0] / w, q[1] / w};
}

// Vanishing line, log of stretch, skew, logs of width and height. Lengths are in half diagonals of the picture.
constexpr int kNumbers = 6;
using Numbers = std::array<double, kNumbers>;
constexpr double kUsual = 0.004;  ///< over a corner's error: that a photograph of a table is no wild picture
constexpr double kKnown = 1;      ///< over a corner's error: how the table lies by a sheet's marks
constexpr double kSoft = 0.02;    ///< of a side: where a corner's error begins to count for less

/// What is thought of the table beforehand: the first four numbers, and how much they count.
struct Prior {
  std::array<double, 4> numbers{};
  double weight = kUsual;

  double off(const Numbers& n, std::size_t i) const { return weight * (n[i] - numbers[i]); }
};

/// Corners of a quad about the picture's middle.
using Sight = std::array<cv::Point2d, 4>;

cv::Point2d flattened(const Numbers& n, cv::Point2d p) {
  const double w = std::max(0.05, 1 + n[0] * p.x + n[1] * p.y);
  const cv::Point2d q(p.x / w, p.y / w);
  return {std::exp(n[2]) * q.x + n[3] * q.y, std::exp(-n[2]) * q.y};
}

struct Nearest {
  std::array<cv::Point2d, 4> off;  ///< of the corners from the rectangle's, clockwise
  cv::Point2d centre;
  double turn = 0, rms = 0;
};

/// The rectangle of a size that lies nearest to four corners (Procrustes: turned about their middle).
Nearest nearest(const std::array<cv::Point2d, 4>& corners, double width, double height) {
  const std::array<cv::Point2d, 4> flat = {cv::Point2d(-width / 2, -height / 2),
                                           {width / 2, -height / 2},
                                           {width / 2, height / 2},
                                           {-width / 2, height / 2}};
  Nearest result;
  for (const cv::Point2d& p : corners) result.centre += p * 0.25;
  double c = 0, s = 0;
  for (int i = 0; i < 4; ++i) {
    const cv::Point2d p = corners[i] - result.centre;
    c += p.dot(flat[i]), s += flat[i].x * p.y - flat[i].y * p.x;
  }
  result.turn = std::atan2(s, c);
  const double ct = std::cos(result.turn), st = std::sin(result.turn);
  for (int i = 0; i < 4; ++i) {
    const cv::Point2d at(ct * flat[i].x - st * flat[i].y, st * flat[i].x + ct * flat[i].y);
    result.off[i] = corners[i] - result.centre - at;
    result.rms += result.off[i].dot(result.off[i]) / 4;
  }
  result.rms = std::sqrt(result.rms) / std::sqrt(std::max(1e-12, width * height));
  return result;
}

Nearest nearest(const Numbers& n, const Sight& sight) {
  std::array<cv::Point2d, 4> corners;
  for (int i = 0; i < 4; ++i) corners[i] = flattened(n, sight[i]);
  return nearest(corners, std::exp(n[4]), std::exp(n[5]));
}

/// Geman and McClure's loss: what lies far off is hardly worse than what lies off. The squares sum to it, four times
/// over.
Eigen::VectorXd residuals(const Numbers& n, const std::vector<Sight>& sights, const Prior& prior) {
  Eigen::VectorXd r(static_cast<Eigen::Index>(8 * sights.size() + prior.numbers.size()));
  Eigen::Index k = 0;
  for (const Sight& sight : sights) {
    const Nearest near = nearest(n, sight);
    const double counts = 1 / (std::exp((n[4] + n[5]) / 2) * std::hypot(near.rms, kSoft));
    for (const cv::Point2d& off : near.off) r[k++] = counts * off.x, r[k++] = counts * off.y;
  }
  for (std::size_t i = 0; i < prior.numbers.size(); ++i) r[k++] = prior.off(n, i) / kSoft;
  return r;
}

double loss(const Numbers& n, const std::vector<Sight>& sights, const Prior& prior) {
  return residuals(n, sights, prior).squaredNorm() / 4;
}

Numbers settled(const Numbers& start, const std::vector<Sight>& sights, const Prior& prior) {
  const auto numbers = [](const Eigen::VectorXd& at) {
    Numbers n{};
    std::copy(at.begin(), at.end(), n.begin());
    return n;
  };
  return numbers(least_squares_from(Eigen::Map<const Eigen::Vector<double, kNumbers>>(start.data()),
                                    [&](const Eigen::VectorXd& at) { return residuals(numbers(at), sights, prior); }));
}

/// With the vanishing line and no stretch, the size that this outline then has.
Numbers sized_by(Numbers n, const Sight& sight) {
  std::array<cv::Point2d, 4> c;
  for (int i = 0; i < 4; ++i) c[i] = flattened(n, sight[i]);
  const cv::Size2d sides = mean_sides(c);
  n[4] = std::log(std::max(1e-6, sides.width)), n[5] = std::log(std::max(1e-6, sides.height));
  return n;
}

/// The vanishing line on which this outline's opposite sides are parallel.
Numbers levelled_by(const Sight& sight) {
  const auto line = [](cv::Point2d a, cv::Point2d b) { return cv::Vec3d(a.x, a.y, 1).cross(cv::Vec3d(b.x, b.y, 1)); };
  const cv::Vec3d across = line(sight[0], sight[1]).cross(line(sight[3], sight[2])),
                  down = line(sight[0], sight[3]).cross(line(sight[1], sight[2]));
  cv::Vec3d horizon = across.cross(down);
  if (std::abs(horizon[2]) < 1e-12) return {};
  horizon *= 1 / horizon[2];
  const double tilt = std::hypot(horizon[0], horizon[1]);
  if (tilt > 0.7) horizon *= 0.7 / tilt;
  return {horizon[0], horizon[1], 0, 0, 0, 0};
}

/// The first four numbers of a table that is seen through a homography, up to turn and size.
std::array<double, 4> numbers_of(cv::Matx33d table_from_sight) {
  table_from_sight *= 1 / table_from_sight(2, 2);
  const double x = table_from_sight(2, 0), y = table_from_sight(2, 1);
  const cv::Matx33d affine = table_from_sight * cv::Matx33d(1, 0, 0, 0, 1, 0, -x, -y, 1);
  // A turn times what is left: its first column lies along the first axis.
  const double across = std::hypot(affine(0, 0), affine(1, 0)), c = affine(0, 0) / across, s = affine(1, 0) / across;
  const double skew = c * affine(0, 1) + s * affine(1, 1), down = c * affine(1, 1) - s * affine(0, 1);
  const double size = std::sqrt(std::max(1e-12, across * down));
  return {x, y, std::log(across / size), skew / size};
}

/// Of a picture: its middle, and what sights measure in.
struct View {
  cv::Matx33d photo_from_sight;

  Sight sight_of(const Quad& quad) const {
    const cv::Matx33d sight_from_photo = photo_from_sight.inv();
    return {projected(sight_from_photo, quad[0]), projected(sight_from_photo, quad[1]),
            projected(sight_from_photo, quad[2]), projected(sight_from_photo, quad[3])};
  }
};

View view_of(cv::Size picture) {
  const double half_diagonal = std::hypot(picture.width, picture.height) / 2;
  return {{half_diagonal, 0, picture.width / 2.0, 0, half_diagonal, picture.height / 2.0, 0, 0, 1}};
}

/// Where to begin: level, and by the vanishing line of each of some outlines, sized by each of several; of all those
/// the few that explain the outlines best.
std::vector<Numbers> beginnings(const std::vector<Sight>& sights, const Prior& prior) {
  constexpr std::size_t kLines = 8, kSizes = 10, kKept = 6;
  std::vector<Sight> largest = sights;
  std::stable_sort(largest.begin(), largest.end(), [](const Sight& a, const Sight& b) { return area(a) > area(b); });
  std::vector<Numbers> lines = {Numbers{prior.numbers[0], prior.numbers[1], prior.numbers[2], prior.numbers[3], 0, 0}};
  for (std::size_t i = 0; i < std::min(kLines, largest.size()); ++i) lines.push_back(levelled_by(largest[i]));
  const std::size_t stride = std::max<std::size_t>(1, largest.size() / kSizes);
  std::vector<std::pair<double, Numbers>> begun;
  for (const Numbers& line : lines) {
    for (std::size_t i = 0; i < largest.size(); i += stride) {
      const Numbers n = sized_by(line, largest[i]);
      begun.emplace_back(loss(n, sights, prior), n);
    }
  }
  std::stable_sort(begun.begin(), begun.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<Numbers> best;
  for (std::size_t i = 0; i < std::min(kKept, begun.size()); ++i) best.push_back(begun[i].second);
  return best;
}

Numbers best_fit(const std::vector<Sight>& sights, const Prior& prior) {
  double lowest = std::numeric_limits<double>::infinity();
  Numbers best{};
  for (const Numbers& begun : beginnings(sights, prior)) {
    const Numbers n = settled(begun, sights, prior);
    if (const double off = loss(n, sights, prior); off < lowest) lowest = off, best = n;
  }
  return best;
}

Plane plane_from(const Numbers& n, const View& view) {
  Plane plane;
  plane.width = std::exp(n[4]), plane.height = std::exp(n[5]);
  const double stretch = std::exp(n[2]);
  plane.table_from_photo =
      cv::Matx33d(stretch, n[3], 0, 0, 1 / stretch, 0, n[0], n[1], 1) * view.photo_from_sight.inv();
  plane.photo_from_table = plane.table_from_photo.inv();
  return plane;
}

}  // namespace

cv::Point2d Plane::on_table(cv::Point2d photo) const { return projected(table_from_photo, photo); }
cv::Point2d Plane::in_photo(cv::Point2d table) const { return projected(photo_from_table, table); }

Quad Plane::on_table(const Quad& photo) const {
  return {on_table(photo[0]), on_table(photo[1]), on_table(photo[2]), on_table(photo[3])};
}

Quad Plane::in_photo(const Quad& table) const {
  return {in_photo(table[0]), in_photo(table[1]), in_photo(table[2]), in_photo(table[3])};
}

Place place_of(const Plane& plane, const Quad& quad) {
  const Nearest near = nearest(plane.on_table(quad), plane.width, plane.height);
  return {near.centre, near.turn, near.rms};
}

Quad outline_at(const Plane& plane, cv::Point2d centre, double turn) {
  const cv::Point2d across = cv::Point2d(std::cos(turn), std::sin(turn)) * (plane.width / 2),
                    down = cv::Point2d(-std::sin(turn), std::cos(turn)) * (plane.height / 2);
  return plane.in_photo(
      Quad{centre - across - down, centre + across - down, centre + across + down, centre - across + down});
}

std::optional<Plane> fitted_plane(const std::vector<Quad>& quads, cv::Size picture, int least,
                                  const std::optional<cv::Matx33d>& known) {
  const View view = view_of(picture);
  Prior prior;
  if (known) prior = {numbers_of(*known * view.photo_from_sight), kKnown};
  std::vector<Sight> sights;
  sights.reserve(quads.size());
  for (const Quad& quad : quads) sights.push_back(view.sight_of(quad));
  Plane plane = plane_from(best_fit(sights, prior), view);
  plane.known = known.has_value();
  std::vector<double> turns;
  for (const Quad& quad : quads) {
    const Place place = place_of(plane, quad);
    if (place.off < kCongruent) turns.push_back(place.turn);
  }
  plane.agreeing = static_cast<int>(turns.size());
  if (plane.agreeing < least) return {};
  plane.turn = median(turns);
  return plane;
}

}  // namespace farflung::photo
