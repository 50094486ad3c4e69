// The shore: kelp, waves, boats, gannets, fish, shells, shingle.
#include <algorithm>
#include <cmath>

#include "simulator/design.hpp"
#include "simulator/shapes.hpp"

namespace farflung::simulator {
namespace {

cv::Point2d anywhere(Brush& brush) {
  return {brush.rng.uniform() * brush.tile.width, brush.rng.uniform() * brush.tile.height};
}

// One frond: a swaying stem with blades on both sides, each from a bladder.
void frond(Canvas& canvas, Brush& brush, cv::Point2d foot, double length, Ink blade, Ink stem) {
  const double m = brush.motif, sway = brush.rng.between(0.5, 1.0), phase = brush.rng.between(0, kTau);
  const double lean = -CV_PI / 2 + brush.rng.between(-0.35, 0.35);
  Shape path;
  for (int i = 0; i <= 30; ++i) {
    const double t = i / 30.0;
    path.push_back(foot + toward(lean) * (length * t) +
                   toward(lean + CV_PI / 2) * (0.16 * m * sway * std::sin(phase + 5.5 * t)));
  }
  for (std::size_t i = 3; i < path.size(); i += 3) {
    const double t = static_cast<double>(i) / 30.0;
    for (int side = -1; side <= 1; side += 2) {
      const double angle = lean + side * brush.rng.between(0.55, 0.85);
      const double reach = m * (0.46 - 0.24 * t) * brush.rng.between(0.85, 1.15);
      canvas.fill(leaf(path[i], angle, reach, 0.26 * reach, -0.34 * side), blade);
      canvas.stroke(rib(path[i], angle, 0.8 * reach, -0.3 * side), 0.015 * m, 0.012 * m, 0, mixed(blade, stem, 0.6));
      canvas.fill(ellipse(path[i] + toward(angle) * (0.05 * m), 0.045 * m, 0.03 * m, angle), stem);
    }
  }
  canvas.stroke(path, 0.05 * m, 0.035 * m, 0.015 * m, stem);
}

// Fronds behind fronds. inks: ground, far, middle, near, stem
cv::Mat kelp(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  for (std::size_t layer = 1; layer <= 3; ++layer) {
    const Shape feet = scattered(brush.tile, (layer == 1 ? 0.62 : 0.85) * brush.motif, brush.rng, 40);
    if (layer == 3) brush.holds(feet.size());
    for (const cv::Point2d foot : feet) {
      frond(canvas, brush, foot, brush.motif * brush.rng.between(0.9, 1.3), brush.ink(layer),
            layer == 3 ? brush.ink(4) : mixed(brush.ink(layer), brush.ink(0), 0.35));
    }
  }
  return canvas.linear();
}

// One line of a round wave, as much of it as the two waves before it leave in sight.
void arch(Canvas& canvas, cv::Point2d centre, double m, double radius, double width, Ink ink) {
  const cv::Point2d left = centre + cv::Point2d(-m / 2, m / 4), right = centre + cv::Point2d(m / 2, m / 4);
  Shape path;
  for (int i = 0; i <= 60; ++i) {
    const cv::Point2d p = centre + toward(CV_PI * (1 + i / 60.0)) * (radius * m);
    const double near = std::min(std::hypot(p.x - left.x, p.y - left.y), std::hypot(p.x - right.x, p.y - right.y));
    if (near >= 0.485 * m) path.push_back(p);
  }
  canvas.line(path, width * m, ink);
}

// Rows of overlapping round waves, three lines in each. inks: ground, line, crest
cv::Mat breakers(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const int across = static_cast<int>(std::round(brush.tile.width / m));
  const int down = 4 * static_cast<int>(std::round(brush.tile.height / m));
  brush.holds(static_cast<std::size_t>(across * down));
  for (int r = 0; r < down; ++r) {
    for (int c = 0; c < across; ++c) {
      const cv::Point2d centre((c + (r % 2 == 0 ? 0.5 : 1.0)) * m, (r + 2) * m / 4);
      arch(canvas, centre, m, 0.465, 0.055, brush.ink(2));
      arch(canvas, centre, m, 0.345, 0.045, brush.ink(1));
      arch(canvas, centre, m, 0.235, 0.040, brush.ink(1));
      arch(canvas, centre, m, 0.105, 0.090, mixed(brush.ink(1), brush.ink(0), 0.35));
    }
  }
  return canvas.linear();
}

// Lines of swell drawn by hand. inks: ground, line, second line
cv::Mat swell(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif, width = brush.tile.width;
  const int lines = static_cast<int>(std::round(brush.tile.height / (0.33 * m)));
  const double base = std::round(width / (1.3 * m));
  brush.scale = brush.tile.height / lines;
  for (int k = 0; k < lines; ++k) {
    const double y = (k + 0.5) * brush.tile.height / lines;
    const double a = brush.rng.between(0, kTau), b = brush.rng.between(0, kTau);
    const double thick = m * brush.rng.between(0.05, 0.11);
    Shape path;
    for (int i = 0; i <= 160; ++i) {
      const double t = i / 160.0;
      path.push_back({t * width, y + 0.075 * m * std::sin(kTau * base * t + 0.9 * k + 0.3 * std::sin(a)) +
                                     0.045 * m * std::sin(kTau * 2 * t + b)});
    }
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
      const double swelling = 0.6 + 0.4 * std::sin(kTau * 3 * static_cast<double>(i) / 160.0 + a);
      canvas.line({path[i], path[i + 1]}, thick * swelling, brush.ink(k % 4 == 1 ? 2 : 1));
    }
  }
  return canvas.linear();
}

void boat(Canvas& canvas, cv::Point2d p, double s, Ink hull, Ink sail, Ink second, bool left) {
  const double f = left ? -1 : 1;
  const auto at = [&](double x, double y) { return p + cv::Point2d(f * x * s, y * s); };
  canvas.fill({at(-0.34, 0.18), at(0.38, 0.18), at(0.27, 0.33), at(-0.24, 0.33)}, hull);
  canvas.line({at(0.02, 0.18), at(0.02, -0.42)}, 0.022 * s, hull);
  Shape main = bezier(at(0.05, -0.40), at(0.16, -0.2), at(0.30, 0.0), at(0.34, 0.13), 12);
  main.push_back(at(0.05, 0.13));
  canvas.fill(main, sail);
  Shape jib = bezier(at(-0.01, -0.34), at(-0.08, -0.2), at(-0.22, 0.02), at(-0.29, 0.13), 12);
  jib.push_back(at(-0.01, 0.13));
  canvas.fill(jib, second);
  canvas.fill({at(0.02, -0.47), at(0.02, -0.40), at(-0.10, -0.43)}, second);
  for (int k = 0; k < 2; ++k) {
    Shape ripple;
    for (int i = 0; i <= 16; ++i)
      ripple.push_back(at(-0.42 + 0.84 * i / 16.0, 0.40 + 0.07 * k + 0.018 * std::sin(kTau * i / 5.3 + k)));
    canvas.stroke(ripple, 0, 0.025 * s, 0, hull);
  }
}

// inks: ground, hull, sail, second sail
cv::Mat regatta(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const int across = static_cast<int>(std::round(brush.tile.width / m));
  const int down = static_cast<int>(std::round(brush.tile.height / m));
  brush.holds(static_cast<std::size_t>(across * down));
  for (int r = 0; r < down; ++r) {
    for (int c = 0; c < across; ++c) {
      const double y = (r + 0.5) * m + brush.rng.between(-0.07, 0.07) * m;
      const cv::Point2d place((c + (r % 2 == 0 ? 0.3 : 0.8)) * m + brush.rng.between(-0.07, 0.07) * m, y);
      const bool swap = (r + 2 * c) % 3 == 0;
      boat(canvas, place, m * brush.rng.between(0.74, 0.84), brush.ink(1), brush.ink(swap ? 3 : 2),
           brush.ink(swap ? 2 : 3), (r + c) % 2 == 0);
    }
  }
  return canvas.linear();
}

// A gannet seen from above: long black-tipped wings, a yellow head, a sharp bill.
void gannet(Canvas& canvas, cv::Point2d p, double s, double heading, Ink body, Ink tip, Ink head) {
  const cv::Point2d ahead = toward(heading), right = toward(heading + CV_PI / 2);
  const auto at = [&](double x, double y) { return p + ahead * (x * s) + right * (y * s); };
  for (int side = -1; side <= 1; side += 2) {
    const auto wing = [&](double x, double y) { return at(x, y * side); };
    Shape outline = bezier(wing(0.10, 0.03), wing(0.18, 0.20), wing(0.13, 0.34), wing(-0.06, 0.50));
    const Shape back = bezier(wing(-0.06, 0.50), wing(0.00, 0.34), wing(-0.03, 0.20), wing(-0.09, 0.04));
    outline.insert(outline.end(), back.begin(), back.end());
    canvas.fill(outline, body);
    Shape end = bezier(wing(0.085, 0.335), wing(0.06, 0.40), wing(0.01, 0.46), wing(-0.06, 0.50));
    const Shape inner = bezier(wing(-0.06, 0.50), wing(-0.025, 0.42), wing(-0.005, 0.37), wing(0.012, 0.315));
    end.insert(end.end(), inner.begin(), inner.end());
    canvas.fill(end, tip);
  }
  canvas.fill(leaf(at(-0.30, 0), heading, 0.56 * s, 0.13 * s), body);
  canvas.fill(ellipse(at(0.20, 0), 0.075 * s, 0.045 * s, heading), head);
  canvas.fill({at(0.25, 0.022), at(0.345, 0), at(0.25, -0.022)}, tip);
  canvas.stroke({at(-0.22, 0), at(0.05, 0)}, 0.0, 0.012 * s, 0, mixed(body, tip, 0.3));
}

// inks: ground, body, wing tip, head, cloud line
cv::Mat gannets(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  for (const cv::Point2d place : scattered(brush.tile, 0.62 * m, brush.rng, 20)) {
    Shape puff;
    for (int i = 0; i <= 20; ++i)
      puff.push_back(place + cv::Point2d((i / 20.0 - 0.5) * 0.6 * m, 0.03 * m * std::sin(kTau * i / 10.0)));
    canvas.stroke(puff, 0, 0.03 * m, 0, brush.ink(4));
  }
  const Shape places = scattered(brush.tile, 0.84 * m, brush.rng, 60);
  brush.holds(places.size());
  for (const cv::Point2d place : places) {
    const double angle = -CV_PI / 2 + brush.rng.between(-0.9, 0.9);
    gannet(canvas, place, m * brush.rng.between(0.80, 0.94), angle, brush.ink(1), brush.ink(2), brush.ink(3));
  }
  return canvas.linear();
}

void fish(Canvas& canvas, cv::Point2d p, double s, double angle, Ink body, Ink belly, Ink mark) {
  const cv::Point2d along = toward(angle), across = toward(angle + CV_PI / 2);
  const auto at = [&](double x, double y) { return p + along * (x * s) + across * (y * s); };
  canvas.fill({at(-0.30, 0), at(-0.50, -0.13), at(-0.44, 0), at(-0.50, 0.13)}, body);
  canvas.fill(leaf(at(-0.40, 0), angle, 0.86 * s, 0.27 * s), body);
  canvas.fill(leaf(at(-0.30, 0.03), angle, 0.66 * s, 0.12 * s, 0.03), belly);
  for (int k = 0; k < 5; ++k) canvas.line({at(-0.16 + 0.09 * k, -0.095), at(-0.18 + 0.09 * k, -0.02)}, 0.014 * s, mark);
  canvas.dot(at(0.34, -0.025), 0.024 * s, mark);
}

// A shoal, all one way. inks: ground, back, belly, mark
cv::Mat shoal(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const Shape places = scattered(brush.tile, 0.52 * m, brush.rng, 80);
  brush.holds(places.size());
  for (const cv::Point2d place : places) {
    const double angle = brush.rng.between(-0.22, 0.22);
    fish(canvas, place, m * brush.rng.between(0.66, 0.82), angle, brush.ink(1), brush.ink(2), brush.ink(3));
  }
  return canvas.linear();
}

// A cockle: ribs spread like a fan, a scalloped rim.
void cockle(Canvas& canvas, cv::Point2d p, double s, double angle, Ink body, Ink groove) {
  constexpr int kRibs = 9;
  const cv::Point2d hinge = p - toward(angle) * (0.34 * s);
  const auto rim = [&](double t) {
    const double spread = 1.12 * (2 * t - 1);
    return hinge +
           toward(angle + spread) * (s * (0.80 - 0.20 * spread * spread) * (1 + 0.025 * std::cos(kTau * kRibs * t)));
  };
  Shape outline = {hinge};
  for (int i = 0; i <= 90; ++i) outline.push_back(rim(i / 90.0));
  canvas.fill(outline, body);
  for (int k = 1; k < kRibs; ++k)
    canvas.stroke({hinge, rim((k - 0.5) / kRibs)}, 0.008 * s, 0.016 * s, 0.026 * s, groove);
  for (double ring : {0.52, 0.76}) {
    Shape line;
    for (int i = 2; i <= 28; ++i) line.push_back(hinge + (rim(i / 30.0) - hinge) * ring);
    canvas.line(line, 0.014 * s, mixed(groove, body, 0.4));
  }
  canvas.fill(ellipse(hinge, 0.07 * s, 0.14 * s, angle), mixed(body, groove, 0.5));
}

// inks: ground, shell, groove, second shell
cv::Mat cockles(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const Shape places = scattered(brush.tile, 0.90 * m, brush.rng, 80);
  brush.holds(places.size());
  for (int i = 0; i < 40 * static_cast<int>(brush.tile.width / m); ++i) {
    canvas.dot(anywhere(brush), 0.018 * m, mixed(brush.ink(0), brush.ink(2), 0.55));
  }
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double angle = brush.rng.between(0, kTau);
    cockle(canvas, places[i], m * brush.rng.between(0.76, 0.94), angle, brush.ink(i % 3 == 0 ? 3 : 1), brush.ink(2));
  }
  return canvas.linear();
}

// Stones fitted close. inks: ground, stones ...
cv::Mat shingle(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const Shape places = scattered(brush.tile, 0.62 * m, brush.rng, 120);
  brush.holds(places.size());
  for (const cv::Point2d place : places) {
    double room = 1e9;
    for (const cv::Point2d other : places) {
      if (other != place) room = std::min(room, wrapped_distance(brush.tile, place, other));
    }
    const auto any_ink = [&] {
      return brush.ink(1 + brush.rng.below(static_cast<std::uint32_t>(brush.inks.size() - 1)));
    };
    const Ink vein = any_ink(), body = any_ink(), stone = mixed(body, vein, 0.3);
    const double radius = std::min(0.47 * room, 0.42 * m) * 1.04, angle = brush.rng.between(0, kTau);
    const Shape shape = pebble(place, radius, 0.12, brush.rng);
    canvas.fill(shape, stone);
    for (int k = 0; k < 2; ++k) {
      const double off = radius * (k == 0 ? 0.25 : -0.3);
      canvas.stroke(
          rib(place + toward(angle + CV_PI / 2) * off - toward(angle) * (0.6 * radius), angle, 1.2 * radius, 0.12), 0,
          0.05 * m * brush.rng.between(0.3, 1), 0, mixed(stone, brush.ink(0), 0.4));
    }
  }
  return canvas.linear();
}

}  // namespace

std::vector<Design> sea_designs() {
  const print::Direction up{print::Direction::Kind::one_way, 270};
  return {{"kelp", 5, 5, up, kelp},
          {"breakers", 6, 6, up, breakers},
          {"swell", 5, 5, {print::Direction::Kind::stripe, 0}, swell},
          {"regatta", 5, 6, up, regatta},
          {"gannets", 5, 5, up, gannets},
          {"shoal", 6, 6, {print::Direction::Kind::one_way, 0}, shoal},
          {"cockles", 6, 6, {}, cockles},
          {"shingle", 8, 8, {}, shingle}};
}

}  // namespace farflung::simulator
