// Flowers: large blooms, small sprigs, thrift, trailing stems.
#include <cmath>

#include "simulator/design.hpp"
#include "simulator/shapes.hpp"

namespace farflung::simulator {
namespace {

void leaf_with_rib(Canvas& canvas, cv::Point2d base, double angle, double length, double width, double bend, Ink body,
                   Ink vein) {
  canvas.fill(leaf(base, angle, length, width, bend), body);
  canvas.stroke(rib(base, angle, length * 0.86, bend * 0.8), length * 0.035, length * 0.022, 0, vein);
}

// Two rings of petals about a seeded eye.
void bloom(Canvas& canvas, cv::Point2d centre, double radius, double angle, Ink outer, Ink inner, Ink vein, Ink eye,
           Rng& rng) {
  const int petals = 7 + static_cast<int>(rng.below(3));
  for (int ring = 0; ring < 2; ++ring) {
    const double reach = radius * (ring == 0 ? 1 : 0.66);
    const Ink body = ring == 0 ? outer : inner;
    for (int k = 0; k < petals; ++k) {
      const double turn = angle + kTau * (k + 0.5 * ring) / petals + rng.between(-0.06, 0.06);
      const double length = reach * rng.between(0.93, 1.05);
      canvas.fill(petal(centre, turn, length * 1.03, length * 0.78), mixed(body, vein, 0.55));
      canvas.fill(petal(centre, turn, length, length * 0.70), body);
      for (int v = -1; v <= 1; ++v) {
        canvas.stroke(rib(centre + toward(turn) * (radius * 0.12), turn + 0.13 * v, length * (v == 0 ? 0.62 : 0.5), 0),
                      radius * 0.030, radius * 0.018, 0, mixed(body, vein, 0.7));
      }
    }
  }
  canvas.dot(centre, radius * 0.22, mixed(eye, vein, 0.6));
  canvas.dot(centre, radius * 0.19, eye);
  for (int k = 0; k < 9; ++k) {
    const double out = radius * (k % 2 == 0 ? 0.26 : 0.14);
    canvas.dot(centre + toward(angle + kTau * k / 9) * out, radius * 0.035, k % 2 == 0 ? eye : mixed(eye, vein, 0.7));
  }
}

void small_flower(Canvas& canvas, cv::Point2d centre, double radius, double angle, Ink body, Ink eye, Ink shade) {
  for (int k = 0; k < 5; ++k) {
    const double turn = angle + kTau * k / 5;
    canvas.fill(petal(centre, turn, radius, radius * 0.86, 0.66), body);
    canvas.stroke(rib(centre, turn, radius * 0.55, 0), radius * 0.07, radius * 0.05, 0, shade);
  }
  canvas.dot(centre, radius * 0.24, eye);
}

// inks: ground, outer petals, inner petals, eye, leaf, small flower
cv::Mat meadow(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const Shape places = scattered(brush.tile, 0.98 * m, brush.rng);
  brush.holds(places.size());
  const Ink ground = brush.ink(0), green = brush.ink(4);
  for (int i = 0; i < 70; ++i) {  // a faint undergrowth gives the ground depth
    const cv::Point2d p = anywhere_on(brush.tile, brush.rng);
    const double bend = brush.rng.between(-0.3, 0.3);
    canvas.fill(leaf(p, brush.rng.between(0, kTau), 0.62 * m, 0.17 * m, bend), mixed(ground, green, 0.22));
  }
  for (const cv::Point2d place : places) {
    const double start = brush.rng.between(0, kTau);
    for (int k = 0; k < 5; ++k) {
      const double turn = start + kTau * k / 5 + brush.rng.between(-0.3, 0.3);
      const Ink shade = mixed(green, ground, brush.rng.between(0, 0.4));
      const double bend = brush.rng.between(-0.35, 0.35);
      leaf_with_rib(canvas, place + toward(turn) * (0.25 * m), turn, brush.rng.between(0.48, 0.66) * m, 0.2 * m, bend,
                    shade, mixed(green, ground, 0.6));
    }
  }
  for (int i = 0; i < 3 * static_cast<int>(places.size()); ++i) {
    const cv::Point2d p = anywhere_on(brush.tile, brush.rng);
    bool clear = true;
    for (const cv::Point2d place : places) clear = clear && wrapped_distance(brush.tile, p, place) > 0.56 * m;
    if (clear) small_flower(canvas, p, 0.13 * m, brush.rng.between(0, kTau), brush.ink(5), brush.ink(3), ground);
  }
  for (std::size_t i = 0; i < places.size(); ++i) {
    const bool light = i % 3 == 1;
    const double angle = brush.rng.between(0, kTau);
    bloom(canvas, places[i], m * brush.rng.between(0.40, 0.47), angle, brush.ink(light ? 2 : 1),
          brush.ink(light ? 5 : 2), mixed(ground, brush.ink(1), 0.4), brush.ink(3), brush.rng);
  }
  return canvas.linear();
}

// inks: ground, petals, eye, leaf, second petals
cv::Mat sprig(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const Shape places = scattered(brush.tile, 0.80 * m, brush.rng, 60);
  brush.holds(places.size());
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double angle = brush.rng.between(0, kTau);
    const cv::Point2d head = places[i] - toward(angle) * (0.16 * m);
    const Ink green = brush.ink(3);
    canvas.stroke(rib(head, angle, 0.52 * m, 0.25), 0.035 * m, 0.03 * m, 0.02 * m, green);
    for (int side = -1; side <= 1; side += 2) {
      canvas.fill(leaf(head + toward(angle) * (0.24 * m), angle + side * 0.75, 0.27 * m, 0.11 * m, -0.2 * side), green);
    }
    const Ink body = brush.ink(i % 3 == 2 ? 4 : 1);
    small_flower(canvas, head, 0.20 * m, angle, body, brush.ink(2), mixed(body, brush.ink(2), 0.5));
    canvas.fill(
        petal(head + toward(angle) * (0.36 * m) + toward(angle + 1.5) * (0.10 * m), angle + 0.9, 0.13 * m, 0.09 * m),
        body);
  }
  return canvas.linear();
}

// Round heads of many florets on bare stems, as thrift grows on sea cliffs. inks: ground, head, light floret, stem
cv::Mat thrift(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const Shape places = scattered(brush.tile, 0.62 * m, brush.rng, 60);
  brush.holds(places.size());
  for (const cv::Point2d place : places) {
    const double lean = CV_PI / 2 + brush.rng.between(-0.25, 0.25);
    canvas.stroke(rib(place, lean, 0.75 * m, brush.rng.between(-0.2, 0.2)), 0.03 * m, 0.03 * m, 0.02 * m, brush.ink(3));
    for (int k = 0; k < 3; ++k) {
      const double bend = brush.rng.between(-0.3, 0.3), angle = -CV_PI / 2 + brush.rng.between(-0.7, 0.7);
      canvas.fill(leaf(place + toward(lean) * (0.75 * m), angle, 0.30 * m, 0.05 * m, bend),
                  mixed(brush.ink(3), brush.ink(0), 0.35));
    }
  }
  for (const cv::Point2d place : places) {
    const double radius = m * brush.rng.between(0.17, 0.23);
    canvas.fill(rosette(place, radius * 1.06, 11, brush.rng.between(0, kTau), 0.14),
                mixed(brush.ink(1), brush.ink(3), 0.25));
    for (int k = 0; k < 22; ++k) {
      const double out = radius * std::sqrt((k + 0.5) / 22.0) * 0.86;
      const Ink floret = mixed(brush.ink(1), brush.ink(2), brush.rng.between(0, 1));
      canvas.fill(rosette(place + toward(k * 2.39996) * out, radius * 0.20, 5, brush.rng.between(0, kTau), 0.4),
                  floret);
    }
  }
  return canvas.linear();
}

// Stems that wander up the cloth, leaf and berry by turns. inks: ground, stem, leaf, berry, flower
cv::Mat trailing(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif, width = brush.tile.width, height = brush.tile.height;
  const int stems = static_cast<int>(std::round(width / m));
  for (int s = 0; s < stems; ++s) {
    const double x0 = width * (s + 0.5) / stems, phase = s % 2 == 0 ? 0 : CV_PI, bow = 0.24 * m;
    const int waves = std::max(1, static_cast<int>(std::round(height / (2.0 * m))));
    brush.holds(static_cast<std::size_t>(stems * waves));
    const auto at = [&](double y) { return cv::Point2d(x0 + bow * std::sin(kTau * waves * y / height + phase), y); };
    Shape path;
    for (int i = 0; i <= 120; ++i) path.push_back(at(height * i / 120.0));
    canvas.line(path, 0.035 * m, brush.ink(1));
    const int nodes = 8 * waves;
    for (int k = 0; k < nodes; ++k) {
      const double y = height * (k + 0.5) / nodes;
      const cv::Point2d node = at(y);
      const double side = k % 2 == 0 ? 0 : CV_PI;
      const double angle = side + (k % 2 == 0 ? -0.7 : 0.7);
      if (k % 4 == 3) {
        const cv::Point2d head = node + toward(angle) * (0.26 * m);
        canvas.line({node, head}, 0.025 * m, brush.ink(1));
        small_flower(canvas, head, 0.17 * m, angle, brush.ink(4), brush.ink(3), brush.ink(0));
      } else {
        leaf_with_rib(canvas, node, angle, 0.40 * m, 0.18 * m, k % 2 == 0 ? -0.2 : 0.2, brush.ink(2),
                      mixed(brush.ink(2), brush.ink(0), 0.5));
        const cv::Point2d berry = node + toward(angle + CV_PI) * (0.10 * m);
        canvas.line({node, berry}, 0.02 * m, brush.ink(1));
        canvas.dot(berry, 0.045 * m, brush.ink(3));
      }
    }
  }
  return canvas.linear();
}

}  // namespace

std::vector<Design> floral_designs() {
  return {{"meadow", 5, 5, {}, meadow},
          {"sprig", 8, 8, {}, sprig},
          {"thrift", 7, 7, {print::Direction::Kind::one_way, 270}, thrift},
          {"trailing", 4, 4, {print::Direction::Kind::one_way, 270}, trailing}};
}

}  // namespace farflung::simulator
