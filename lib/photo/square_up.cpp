#include "photo/square_up.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "base/median.hpp"
#include "photo/belied.hpp"
#include "photo/pieces.hpp"

namespace farflung::photo {
namespace {

constexpr double kOneSize = 0.008;   ///< of a side, that cloths vary by which are folded to one size
constexpr double kHeld = 0.01;       ///< of a side: where cloths vary by more, each has its own size
constexpr std::size_t kHeldBy = 5;   ///< a plane can be found on which fewer are of one size, whatever they are
constexpr double kClear = 0.6;       ///< support of an outline that is not given up for what is only supposed
constexpr double kVeryClear = 0.88;  ///< support of an outline that is good to a fraction of a pixel
constexpr int kEnough = 6;           ///< of those say what size all are
constexpr double kSoft = 0.008;      ///< of a side: what lies farther off hardly says where a rectangle is
constexpr double kOwn = 0.15;        ///< of what a side strays from the common size: its own, not the camera's
constexpr double kOffSize = 0.006;   ///< of a side: opposite ones so far from the common size apart are not both right
constexpr double kMostMoved = 0.03;  ///< of a side, by which a rectangle is moved along one of them
constexpr double kTruer = 0.15;      ///< pixels of what speaks against it: to be moved, it must have as much less
constexpr double kAskew = 0.03;      ///< of a side: what leans more was not cut so

/// A rectangle on the table.
struct Rectangle {
  cv::Point2d centre;
  double turn = 0, width = 0, height = 0;

  cv::Point2d outward(int side) const {
    const double angle = turn + (side - 1) * CV_PI / 2;  // side 0 is the top one
    return {std::cos(angle), std::sin(angle)};
  }
  double half(int side) const { return (side % 2 == 0 ? height : width) / 2; }
};

/// How the sizes of the pieces vary.
struct Sizes {
  double width = 0, height = 0;
  double spread = 0;      ///< of a side, as a share of it
  bool held = false;      ///< by so many pieces that vary so little that one of them may be seen wrongly
  bool one_size = false;  ///< many pieces that hardly vary, as cloths are that were folded to one size
  bool alone = false;     ///< of one piece, by nothing but itself
};

Sizes sizes_of(const std::vector<Piece>& pieces, const Plane& plane, std::size_t many) {
  std::vector<double> widths, heights, off;
  const auto clear = [](const Piece& piece) { return !piece.supposed && piece.outline.support > kVeryClear; };
  const bool enough = std::count_if(pieces.begin(), pieces.end(), clear) >= kEnough;
  for (const Piece& piece : pieces) {
    if (enough ? !clear(piece) : piece.supposed) continue;
    const cv::Size2d sides = mean_sides(plane.on_table(piece.outline.quad));
    widths.push_back(sides.width), heights.push_back(sides.height);
  }
  Sizes sizes;
  sizes.width = median(widths), sizes.height = median(heights);
  for (const double w : widths) off.push_back(std::abs(w / sizes.width - 1));
  for (const double h : heights) off.push_back(std::abs(h / sizes.height - 1));
  sizes.spread = std::clamp(1.48 * median(off), 0.002, 0.03);
  const auto along_teeth =
      std::count_if(pieces.begin(), pieces.end(), [](const Piece& piece) { return piece.outline.at_tips; });
  const bool folded = 2 * along_teeth < static_cast<std::ptrdiff_t>(pieces.size());  // what is folded shows no cut edge
  sizes.held = widths.size() >= kHeldBy && sizes.spread < kHeld;
  sizes.one_size = folded && pieces.size() >= many && sizes.spread < kOneSize;
  return sizes;
}

/// How far outward of the rectangle's side both ends of a piece's side lie.
std::array<double, 2> strays(const Rectangle& rectangle, const Quad& corners, int side) {
  const cv::Point2d n = rectangle.outward(side);
  return {n.dot(corners[side] - rectangle.centre) - rectangle.half(side),
          n.dot(corners[(side + 1) % 4] - rectangle.centre) - rectangle.half(side)};
}

/// How firmly the size is held, over what one end of a side counts. Edges that are seen a little too far out or in on
/// all sides, as in a shade or beside a much darker table, change width and height alike.
struct Hold {
  double alike = 0;  ///< against both growing by the same
  double apart = 0;  ///< against one growing and the other shrinking
};

Hold hold_of(const Sizes& sizes) {
  if (sizes.alone) return {0.001, 0.001};
  if (sizes.one_size) return {0.07, 4};
  const double hold = std::pow(0.004 / std::max(0.002, sizes.spread), 2);
  return {hold, hold};
}

/// By iterated weights (Geman and McClure's) over the ends of the sides, the size held near the common one.
Rectangle laid_over(const Quad& corners, const Sizes& sizes, const Rectangle& start) {
  Rectangle rectangle = start;
  const double side_of = std::sqrt(sizes.width * sizes.height);
  const Hold hold = hold_of(sizes);
  for (int round = 0; round < 15; ++round) {
    const double soft = (round < 3 ? 0.02 : kSoft) * side_of;
    // Numbers: centre, turn, width, height.
    cv::Matx<double, 5, 5> normal = cv::Matx<double, 5, 5>::zeros();
    cv::Vec<double, 5> right;
    const auto add = [&](const cv::Vec<double, 5>& row, double off, double weight) {
      normal += weight * (row * row.t());
      right += weight * off * row;
    };
    for (int side = 0; side < 4; ++side) {
      const cv::Point2d n = rectangle.outward(side), way(-n.y, n.x);
      const std::array<double, 2> off = strays(rectangle, corners, side);
      const double worst = std::max(std::abs(off[0]), std::abs(off[1]));
      const double t = 1 + worst * worst / (soft * soft), weight = 1 / (t * t);
      for (int end = 0; end < 2; ++end) {
        const cv::Point2d arm = corners[(side + end) % 4] - rectangle.centre;
        cv::Vec<double, 5> row(n.x, n.y, -way.dot(arm), side % 2 != 0 ? 0.5 : 0.0, side % 2 == 0 ? 0.5 : 0.0);
        add(row, off[end], weight);
      }
    }
    const double wider = sizes.width - rectangle.width, higher = sizes.height - rectangle.height;
    add({0, 0, 0, std::sqrt(0.5), std::sqrt(0.5)}, std::sqrt(0.5) * (wider + higher), hold.alike);
    add({0, 0, 0, std::sqrt(0.5), -std::sqrt(0.5)}, std::sqrt(0.5) * (wider - higher), hold.apart);
    normal(2, 2) += 1e-9 * side_of * side_of;
    for (int i = 0; i < 2; ++i) normal(i, i) += 1e-9;
    const cv::Vec<double, 5> change = normal.inv(cv::DECOMP_SVD) * right;
    rectangle.centre += cv::Point2d(change[0], change[1]);
    rectangle.turn += change[2];
    rectangle.width += change[3], rectangle.height += change[4];
  }
  return rectangle;
}

/// Laid over once from each side's own direction, for a side that leans turns the middle of all four with it; the one
/// that fits the most sides well.
Rectangle best_laid_over(const Quad& corners, const Sizes& sizes, const Rectangle& start) {
  const double soft = kSoft * std::sqrt(sizes.width * sizes.height);
  const auto misfit = [&](const Rectangle& rectangle) {
    double sum = 0;
    for (int side = 0; side < 4; ++side) {
      const std::array<double, 2> off = strays(rectangle, corners, side);
      const double worst = std::max(std::abs(off[0]), std::abs(off[1])) / soft;
      sum += worst * worst / (1 + worst * worst);
    }
    return sum;
  };
  Rectangle best = laid_over(corners, sizes, start);
  double least = misfit(best);
  for (int side = 0; side < 4; ++side) {
    const cv::Point2d along = corners[(side + 1) % 4] - corners[side];
    Rectangle turned = start;
    turned.turn += std::remainder(std::atan2(along.y, along.x) - side * CV_PI / 2 - start.turn, 2 * CV_PI);
    const Rectangle next = laid_over(corners, sizes, turned);
    const double off = misfit(next);
    if (off < least) least = off, best = next;
  }
  if (sizes.one_size) {
    const double grown = (best.width - sizes.width + best.height - sizes.height) / 2;
    best.width -= grown, best.height -= grown;
  }
  return best;
}

Quad in_photo(const Plane& plane, const Rectangle& r) {
  const cv::Point2d right = r.outward(1) * (r.width / 2), up = r.outward(0) * (r.height / 2);
  return plane.in_photo(
      Quad{r.centre - right + up, r.centre + right + up, r.centre + right - up, r.centre - right - up});
}

/// Where its neighbours' rows and columns have a cloth, where there are any.
std::optional<cv::Point2d> by_neighbours(const std::vector<Place>& places, std::size_t self, const Plane& plane) {
  const cv::Point2d x(std::cos(plane.turn), std::sin(plane.turn)), y(-x.y, x.x);
  const auto steps = [&](std::size_t from, std::size_t to) {
    const cv::Point2d step = places[to].centre - places[from].centre;
    return cv::Point2d(step.dot(x), step.dot(y));
  };
  const auto is_next = [](double along, double aside, double length, double breadth) {
    return std::abs(along) > 0.95 * length && std::abs(along) < 1.35 * length && std::abs(aside) < 0.2 * breadth;
  };
  std::vector<double> across, down;
  for (std::size_t i = 0; i < places.size(); ++i) {
    for (std::size_t j = 0; j < places.size(); ++j) {
      const cv::Point2d step = steps(i, j);
      if (is_next(step.x, step.y, plane.width, plane.height)) across.push_back(std::abs(step.x));
      if (is_next(step.y, step.x, plane.height, plane.width)) down.push_back(std::abs(step.y));
    }
  }
  const double pitch_x = median(across), pitch_y = median(down);
  std::vector<double> xs, ys;
  for (std::size_t j = 0; j < places.size(); ++j) {
    const cv::Point2d step = steps(j, self);
    if (is_next(step.x, step.y, plane.width, plane.height)) xs.push_back(std::copysign(pitch_x, step.x) - step.x);
    if (is_next(step.y, step.x, plane.height, plane.width)) ys.push_back(std::copysign(pitch_y, step.y) - step.y);
  }
  if (xs.empty() && ys.empty()) return {};
  const auto mean = [](const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values) sum += value;
    return values.empty() ? 0 : sum / static_cast<double>(values.size());
  };
  return places[self].centre + mean(xs) * x + mean(ys) * y;
}

/// What of an outline lies off a rectangle.
struct Strays {
  Quad expected;  ///< the rectangle in the photograph
  std::array<bool, 4> strayed{}, leaning{};
  int count = 0;  ///< of sides that strayed
};

/// Where two opposite sides are not as far apart as all others of one size, either may be the one that is seen wrongly:
/// the rectangle moved along the one that is borne out by what lies between. `corners` are the quad's on the table.
Rectangle along_the_truer(Rectangle rectangle, const Quad& quad, const Quad& corners, const Plane& plane,
                          const Lit& lit) {
  for (int side = 0; side < 2; ++side) {
    const double across = 2 * rectangle.half(side);
    const auto off = [&](int of) {
      const std::array<double, 2> ends = strays(rectangle, corners, of);
      return (ends[0] + ends[1]) / 2;
    };
    const auto against = [&](double moved) {
      Rectangle other = rectangle;
      other.centre += moved * rectangle.outward(side);
      const Quad supposed = in_photo(plane, other);
      return belied(supposed, quad, side, lit) + belied(supposed, quad, side + 2, lit);
    };
    const double here = off(side), there = off(side + 2);
    if (std::abs(here + there) < kOffSize * across) continue;
    double least = against(0) - kTruer, best = 0;
    for (const double moved : {here, -there}) {
      if (std::abs(moved) > kMostMoved * across) continue;
      if (const double belying = against(moved); belying < least) least = belying, best = moved;
    }
    rectangle.centre += best * rectangle.outward(side);
  }
  return rectangle;
}

Strays strays_of(const Quad& quad, const Plane& plane, const Lit& lit, const Sizes& sizes, cv::Point2d start) {
  const Quad corners = plane.on_table(quad);
  Rectangle rectangle = best_laid_over(corners, sizes, {start, place_of(plane, quad).turn, sizes.width, sizes.height});
  if (sizes.one_size) rectangle = along_the_truer(rectangle, quad, corners, plane, lit);
  Strays result{in_photo(plane, rectangle)};
  for (int side = 0; side < 4; ++side) {
    const std::array<double, 2> off = strays(rectangle, corners, side);
    const double across = 2 * rectangle.half(side), along = 2 * rectangle.half(side + 1);
    // A side may lie off by what the sizes vary; it may not lean, least of all where cloths were folded alike.
    result.strayed[side] =
        std::max(std::abs(off[0]), std::abs(off[1])) > ((sizes.one_size ? 0.003 : 0.006) + 2 * sizes.spread) * across ||
        std::abs(off[0] - off[1]) > (sizes.one_size ? 0.008 : 0.012) * along;
    result.leaning[side] = std::abs(off[0] - off[1]) > kAskew * along;
    result.count += result.strayed[side];
  }
  return result;
}

std::array<cv::Point2d, 2> line_along(const Quad& quad, int side) { return {quad[side], quad[(side + 1) % 4]}; }

Piece told_supposed(Piece piece) {
  piece.supposed = true;
  piece.outline.support = std::min(piece.outline.support, 0.5);
  return piece;
}

/// Where all are folded to one size: sides that fit it say where the others lie, whose neighbour's edge or shadow is
/// clearer than their own; and what is left of each side's own error is mostly the camera's.
Piece of_the_size(const Piece& piece, const Plane& plane, const Lit& lit, const Sizes& sizes, cv::Point2d start) {
  Quad quad = piece.outline.quad;
  const Strays first = strays_of(quad, plane, lit, sizes, start);
  Strays last = first;
  const bool opposite = (first.strayed[0] && first.strayed[2]) || (first.strayed[1] && first.strayed[3]);
  const bool known = first.count <= 2 && !opposite;
  // What is clear and of another size on both its sides may well be cut so.
  const bool may_be_odd = !known && piece.outline.support > kVeryClear;
  int supposed = 0;
  if (first.count > 0) {
    const Sides seen = sharpened_sides(first.expected, lit, 0.008, piece.outline.beyond_edge());
    std::array<std::array<cv::Point2d, 2>, 4> lines;
    for (int side = 0; side < 4; ++side) {
      const bool clear = seen.support[side] >= 0.5;
      const bool stays = !first.strayed[side] || (may_be_odd && !first.leaning[side]);
      lines[side] = line_along(clear ? seen.quad : stays ? quad : first.expected, side);
      supposed += !stays && !clear;
    }
    if (const Quad mended = quad_between(lines); convex(mended)) quad = mended;
    last = strays_of(quad, plane, lit, sizes, start);
  }
  const double own = may_be_odd && last.count > 0 ? 1 : kOwn;
  Piece result = piece;
  for (int i = 0; i < 4; ++i) result.outline.quad[i] = last.expected[i] + own * (quad[i] - last.expected[i]);
  return supposed < 2 || known ? result : told_supposed(result);
}

Piece squared(const Piece& piece, const Plane& plane, const Lit& lit, const Sizes& sizes, cv::Point2d start) {
  // Where nothing but the cloths themselves says how the table lies, a side may seem to lean for their sizes' sake.
  if (!sizes.held && !plane.known && is_plain(piece)) return piece;
  Strays off = strays_of(piece.outline.quad, plane, lit, sizes, start);
  if (off.count == 0) return piece;
  const Sides seen = sharpened_sides(off.expected, lit, 0.008, piece.outline.beyond_edge());
  std::array<std::array<cv::Point2d, 2>, 4> lines;
  int supposed = 0;
  for (int side = 0; side < 4; ++side) {
    const bool clear = seen.support[side] >= 0.5;
    // What shows nothing where the rectangle has it, and is clear where it was found, may well be cut askew.
    const bool stays = !off.strayed[side] || (!clear && piece.outline.support > kClear && !off.leaning[side]);
    lines[side] = line_along(stays ? piece.outline.quad : seen.quad, side);
    supposed += !stays && !clear;
  }
  Piece result = piece;
  result.outline.quad = quad_between(lines);
  if (!convex(result.outline.quad)) return piece;
  return supposed < 2 ? result : told_supposed(result);
}

/// Whether a side leans, on a table seen through that homography, more than any is cut.
bool leans(const Quad& quad, const cv::Matx33d& table_from_photo) {
  Plane plane{table_from_photo, table_from_photo.inv()};
  const Quad corners = plane.on_table(quad);
  const cv::Size2d sides = mean_sides(corners);
  plane.width = sides.width, plane.height = sides.height;
  const Place place = place_of(plane, quad);
  Sizes own;
  own.width = plane.width, own.height = plane.height, own.alone = true;
  const Rectangle rectangle = best_laid_over(corners, own, {place.centre, place.turn, plane.width, plane.height});
  for (int side = 0; side < 4; ++side) {
    const auto [from, to] = strays(rectangle, corners, side);
    if (std::abs(from - to) > kAskew * 2 * rectangle.half(side + 1)) return true;
  }
  return false;
}

}  // namespace

Piece doubted_if_leaning(const Piece& piece, const cv::Matx33d& table_from_photo) {
  return leans(piece.outline.quad, table_from_photo) ? told_supposed(piece) : piece;
}

bool of_one_size(const std::vector<Piece>& pieces, const Plane& plane, std::size_t many) {
  return sizes_of(pieces, plane, many).one_size;
}

std::vector<Piece> squared_up(const std::vector<Piece>& pieces, const Plane& plane, const Lit& lit) {
  const Sizes sizes = sizes_of(pieces, plane, kMany);
  if (sizes.width <= 0 || sizes.height <= 0) return pieces;
  std::vector<Place> places;
  places.reserve(pieces.size());
  for (const Piece& piece : pieces) places.push_back(place_of(plane, piece.outline.quad));
  std::vector<Piece> result;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const cv::Point2d start = by_neighbours(places, i, plane).value_or(places[i].centre);
    if (places[i].off >= 2 * kCongruent) {
      result.push_back(pieces[i]);
    } else {
      result.push_back((sizes.one_size ? of_the_size : squared)(pieces[i], plane, lit, sizes, start));
    }
  }
  return result;
}

}  // namespace farflung::photo
