// Straight edges and writing: nets, harlequins, herringbone, compass stars, crosses, a log book's hand.
#include <cmath>

#include "simulator/design.hpp"
#include "simulator/shapes.hpp"

namespace farflung::simulator {
namespace {

// A fishing net: bowed diamonds knotted where they meet. inks: ground, cord, knot
cv::Mat net(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const int across = static_cast<int>(std::round(brush.tile.width / m));
  const int down = 2 * static_cast<int>(std::round(brush.tile.height / (1.25 * m)));
  const double step = brush.tile.height / down;
  brush.holds(static_cast<std::size_t>(across * down));
  for (int r = 0; r < down; ++r) {
    for (int c = 0; c < across; ++c) {
      const cv::Point2d knot((c + (r % 2 == 0 ? 0.25 : 0.75)) * m, (r + 0.5) * step);
      for (int side = -1; side <= 1; side += 2) {
        const cv::Point2d next = knot + cv::Point2d(side * m / 2, step);
        canvas.line(bezier(knot, knot + cv::Point2d(side * 0.08 * m, 0.45 * step),
                           next - cv::Point2d(side * 0.08 * m, 0.45 * step), next, 14),
                    0.055 * m, brush.ink(1));
      }
    }
  }
  for (int r = 0; r < down; ++r) {
    for (int c = 0; c < across; ++c) {
      const cv::Point2d knot((c + (r % 2 == 0 ? 0.25 : 0.75)) * m, (r + 0.5) * step);
      canvas.fill(ellipse(knot, 0.075 * m, 0.10 * m, 0), brush.ink(1));
      canvas.dot(knot, 0.042 * m, brush.ink(2));
    }
  }
  return canvas.linear();
}

// inks: ground, halves in turn
cv::Mat pennants(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif, high = 0.9 * m;
  const int across = static_cast<int>(std::round(brush.tile.width / m));
  const int down = static_cast<int>(std::round(brush.tile.height / high));
  brush.holds(static_cast<std::size_t>(across * down));
  for (int r = 0; r < down; ++r) {
    const double step = brush.tile.height / down, top = r * step;
    for (int c = 0; c < across; ++c) {
      const double x = (c + (r % 2 == 0 ? 0 : 0.5)) * m;
      const Ink ink = brush.ink(1 + brush.rng.below(static_cast<std::uint32_t>(brush.inks.size() - 1)));
      canvas.fill(
          {{x + 0.07 * m, top + 0.10 * step}, {x + 0.93 * m, top + 0.10 * step}, {x + 0.5 * m, top + 0.92 * step}},
          ink);
    }
  }
  return canvas.linear();
}

// inks: ground, tread
cv::Mat herringbone(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const int columns = 2 * static_cast<int>(std::round(brush.tile.width / m));
  const int treads = static_cast<int>(std::round(brush.tile.height / (0.25 * m)));
  brush.scale = 2 * brush.tile.width / columns;
  for (int c = 0; c < columns; ++c) {
    const double left = c * m / 2 + 0.015 * m, right = (c + 1) * m / 2 - 0.015 * m,
                 slope = 0.42 * m * (c % 2 == 0 ? 1 : -1);
    for (int k = 0; k < treads; ++k) {
      const double y = (k + 0.5) * brush.tile.height / treads, thick = 0.14 * m;
      canvas.fill({{left, y - slope / 2},
                   {right, y + slope / 2},
                   {right, y + slope / 2 + thick},
                   {left, y - slope / 2 + thick}},
                  brush.ink(1));
    }
  }
  return canvas.linear();
}

// An eight-pointed star, each point split into a light and a dark side, as on a chart.
void compass_star(Canvas& canvas, cv::Point2d p, double s, Ink light, Ink dark) {
  for (int pass = 0; pass < 2; ++pass) {
    for (int k = 0; k < 4; ++k) {
      const double angle = kTau * (k / 4.0 + (pass == 0 ? 0.125 : 0));
      const double reach = s * (pass == 0 ? 0.30 : 0.47), waist = s * (pass == 0 ? 0.10 : 0.11);
      const cv::Point2d tip = p + toward(angle) * reach;
      canvas.fill({p, p + toward(angle - CV_PI / 4) * waist, tip}, light);
      canvas.fill({p, p + toward(angle + CV_PI / 4) * waist, tip}, dark);
    }
  }
}

// inks: ground, light side, dark side, small star
cv::Mat compass(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const int across = static_cast<int>(std::round(brush.tile.width / m));
  const int down = 2 * static_cast<int>(std::round(brush.tile.height / m));
  brush.holds(static_cast<std::size_t>(across * down));
  for (int r = 0; r < down; ++r) {
    for (int c = 0; c < across; ++c) {
      const cv::Point2d place((c + (r % 2 == 0 ? 0.25 : 0.75)) * m, (r + 0.5) * m / 2);
      compass_star(canvas, place, 0.66 * m, brush.ink(1), brush.ink(2));
      canvas.dot(place + cv::Point2d(0.5 * m, 0), 0.035 * m, brush.ink(3));
      canvas.dot(place + cv::Point2d(0.42 * m, 0), 0.018 * m, brush.ink(3));
      canvas.dot(place + cv::Point2d(0.58 * m, 0), 0.018 * m, brush.ink(3));
    }
  }
  return canvas.linear();
}

// inks: ground, crosses ...
cv::Mat crosses(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const int across = static_cast<int>(std::round(brush.tile.width / m));
  const int down = static_cast<int>(std::round(brush.tile.height / m));
  brush.holds(static_cast<std::size_t>(across * down));
  for (int r = 0; r < down; ++r) {
    for (int c = 0; c < across; ++c) {
      const cv::Point2d p((c + 0.5) * m, (r + 0.5) * m);
      const Ink ink = brush.ink(1 + static_cast<std::size_t>(r + c) % (brush.inks.size() - 1));
      const double turn = (r + c) % 2 == 0 ? 0 : CV_PI / 4;
      for (int k = 0; k < 2; ++k) {
        const cv::Point2d arm = toward(turn + k * CV_PI / 2) * (0.22 * m);
        canvas.line({p - arm, p + arm}, 0.13 * m, ink);
      }
    }
  }
  return canvas.linear();
}

// One word in a running hand: a pen that goes round and round as it runs on, tall where a letter is tall.
void word(Canvas& canvas, cv::Point2d start, double high, int letters, Ink ink, Rng& rng) {
  Shape path;
  double x = start.x;
  for (int k = 0; k < letters; ++k) {
    const std::uint32_t kind = rng.below(8);
    const double up = kind < 2 ? 2.1 : kind == 2 ? -1.1 : rng.between(0.85, 1.05);
    const double round = kind < 2 ? 0.34 : kind == 2 ? -0.30 : kind < 5 ? 0.42 : 0.06;
    const int turns = kind == 7 ? 2 : 1;
    const double wide = 0.62 * high / turns;
    for (int i = 0; i < 14 * turns; ++i) {
      const double t = (i % 14) / 14.0, rise = up * high * (0.5 - 0.5 * std::cos(kTau * t));
      path.push_back({x + wide * t + round * wide * std::sin(kTau * t) + 0.30 * rise, start.y - rise});
      if (i % 14 == 13) x += wide;
    }
  }
  path.push_back({x + 0.3 * high, start.y - 0.25 * high});
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    const bool down = path[i + 1].y > path[i].y;  // a pen presses on the way down
    canvas.line({path[i], path[i + 1]}, high * (down ? 0.16 : 0.08), ink);
  }
}

// Lines of a log, entry after entry. inks: ground, ink, second ink
cv::Mat log_book(Brush& brush) {
  Canvas canvas(brush.tile, brush.ink(0));
  const double m = brush.motif;
  const int lines = static_cast<int>(std::round(brush.tile.height / (0.52 * m)));
  std::size_t words = 0;
  for (int r = 0; r < lines; ++r) {
    const double y = (r + 0.7) * brush.tile.height / lines, high = 0.125 * m;
    const double from = brush.rng.between(0, m);
    for (double x = 0; x < brush.tile.width - 0.55 * m;) {
      const int letters = 3 + static_cast<int>(brush.rng.below(6));
      const double room = brush.tile.width - x;
      const int fitting = std::min(letters, static_cast<int>((room - 0.3 * m) / (0.62 * high)));
      if (fitting < 2) break;
      word(canvas, {from + x, y}, high, fitting, brush.ink(brush.rng.below(11) == 0 ? 2 : 1), brush.rng);
      x += fitting * 0.62 * high + 0.24 * m;
      brush.holds(++words);
    }
  }
  return canvas.linear();
}

}  // namespace

std::vector<Design> geometric_designs() {
  return {{"net", 7, 7.5, {}, net},
          {"pennants", 8, 7.2, {print::Direction::Kind::one_way, 90}, pennants},
          {"herringbone", 6, 6, {print::Direction::Kind::stripe, 90}, herringbone},
          {"compass", 5, 5, {}, compass},
          {"crosses", 10, 10, {}, crosses},
          {"log book", 6, 6.24, {print::Direction::Kind::one_way, 270}, log_book}};
}

}  // namespace farflung::simulator
