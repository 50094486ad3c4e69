#include "choice/quilting.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/typed_name.hpp"
#include "choice/words.hpp"

namespace farflung::choice {
namespace {

using Style = QuiltingOptions::Style;
using std::numbers::pi;

constexpr std::array kStyleNames = {"lines", "waves", "loops", "pebbles"};
constexpr int kChordsPerCircle = 48;
constexpr double kMostRowsTimesColumns = 200'000;
constexpr double kLeastSpacing = 0.125;  // inches

// Collects the path in inches and keeps it on the top.
class Pen {
 public:
  Pen(double width, double height) : width_(width), height_(height) {}

  void go(double x, double y) {
    const Point to{Length::inches(std::clamp(x, 0.0, width_)), Length::inches(std::clamp(y, 0.0, height_))};
    if (path_.empty() || !(path_.back() == to)) path_.push_back(to);
  }

  /// Along a circle, angles clockwise from "along x"; the end included.
  void arc(double x, double y, double radius, double from, double to) {
    const int chords = std::max(1, static_cast<int>(std::ceil(std::abs(to - from) / (2 * pi) * kChordsPerCircle)));
    for (int i = 0; i <= chords; ++i) {
      const double angle = from + (to - from) * i / chords;
      go(x + radius * std::cos(angle), y + radius * std::sin(angle));
    }
  }

  std::vector<Point> take_path() { return std::move(path_); }

 private:
  double width_, height_;
  std::vector<Point> path_;
};

int fitted(double whole, double part) { return std::max(1, static_cast<int>(std::lround(whole / part))); }

// Rows run right, left, right ...: `row` gives the y of a row's middle line, `right` whether it runs to the right.
template <typename Row>
double rows_of(double height, double spacing, Row row) {
  const int rows = fitted(height, spacing);
  const double pitch = height / rows;
  for (int i = 0; i < rows; ++i) row((i + 0.5) * pitch, i % 2 == 0, pitch);
  return pitch;
}

double draw_lines(Pen& pen, double width, double height, double spacing) {
  return rows_of(height, spacing, [&](double y, bool right, double) {
    pen.go(right ? 0 : width, y);
    pen.go(right ? width : 0, y);
  });
}

double draw_waves(Pen& pen, double width, double height, double spacing) {
  constexpr double kHeight = 0.35;  // of the pitch, above and below the middle line
  constexpr double kWave = 3;       // spacings
  constexpr int kStepsPerWave = 36;
  const int waves = fitted(width, kWave * spacing);
  const int steps = waves * kStepsPerWave;
  return rows_of(height, spacing, [&](double y, bool right, double pitch) {
    for (int i = 0; i <= steps; ++i) {
      const double along = static_cast<double>(right ? i : steps - i) / steps;
      pen.go(along * width, y + kHeight * pitch * std::sin(2 * pi * waves * along));
    }
  });
}

// A prolate trochoid, the path of a point on a rolling wheel beyond its rim: it loops where the radius times 2 pi is
// more than the way from loop to loop. Rows start and end on the crest between two loops and turn in half ellipses.
double draw_loops(Pen& pen, double width, double height, double spacing) {
  constexpr double kRadius = 0.38;  // of the pitch
  constexpr double kStep = 1.4;     // from loop to loop, of the pitch
  constexpr double kTurn = 0.45;    // how far a turn reaches beyond its rows, of the pitch
  constexpr int kStepsPerLoop = 48;
  return rows_of(height, spacing, [&](double middle, bool right, double pitch) {
    const double radius = kRadius * pitch, turn = std::min(kTurn * pitch, width / 8);
    const int loops = std::max(2, fitted(width - 2 * turn, kStep * pitch));
    const double step = (width - 2 * turn) / loops;
    const auto go = [&](double along, double y) { pen.go(right ? along : width - along, y); };
    const bool first = middle < pitch;
    for (int i = 0; !first && i <= kStepsPerLoop / 2; ++i) {
      const double angle = pi * i / (kStepsPerLoop / 2.0);
      go(turn - turn * std::sin(angle), middle - radius - pitch * (1 + std::cos(angle)) / 2);
    }
    // Each second row is half a step on: it has one loop less, and half a step straight at either end.
    const double straight = right ? 0 : step / 2;
    go(turn, middle - radius);
    for (int i = 0; i <= (right ? loops : loops - 1) * kStepsPerLoop; ++i) {
      const double t = 2 * pi * i / kStepsPerLoop;
      go(turn + straight + step * t / (2 * pi) + radius * std::sin(t), middle - radius * std::cos(t));
    }
    go(width - turn, middle - radius);
  });
}

// One row of circles that touch, from the leftmost point of the first and back to it.
void draw_pebbles_row(Pen& pen, double first_x, double y, double radius, int circles) {
  const auto x = [&](int i) { return first_x + 2 * radius * i; };
  for (int i = 0; i < circles; ++i) pen.arc(x(i), y, radius, pi, i % 2 == 0 ? 2 * pi : 0);
  for (int i = circles - 1; i >= 0; --i) pen.arc(x(i), y, radius, 0, i % 2 == 0 ? pi : -pi);
}

double draw_pebbles(Pen& pen, double width, double height, double spacing) {
  const int across = fitted(width, spacing);
  const double radius = width / across / 2;
  const double drop = std::sqrt(3.0) * radius;  // rows lie in the hollows of the rows above
  const int rows = std::max(1, static_cast<int>(std::floor((height - 2 * radius) / drop + 1e-9)) + 1);
  double y = radius + (height - 2 * radius - (rows - 1) * drop) / 2;
  for (int row = 0; row < rows; ++row, y += drop) {
    const bool full = row % 2 == 0;
    const double x = full ? radius : 2 * radius;
    draw_pebbles_row(pen, x, y, radius, full ? across : across - 1);
    if (row + 1 == rows) break;
    // Down this circle to where it touches the first of the next row, and along that to its leftmost point.
    pen.arc(x, y, radius, pi, full ? pi / 3 : 2 * pi / 3);
    pen.arc(full ? 2 * radius : radius, y + drop, radius, full ? 4 * pi / 3 : 5 * pi / 3, pi);
  }
  return 2 * radius;
}

double draw(Pen& pen, Style style, double width, double height, double spacing) {
  switch (style) {
    case Style::lines:
      return draw_lines(pen, width, height, spacing);
    case Style::waves:
      return draw_waves(pen, width, height, spacing);
    case Style::loops:
      return draw_loops(pen, width, height, spacing);
    case Style::pebbles:
      break;
  }
  return draw_pebbles(pen, width, height, spacing);
}

Problems problems_of(double width, double height, const QuiltingOptions& options) {
  Problems problems;
  const double spacing = options.spacing.inches();
  const double most = std::min(width, height) / 2;
  if (!(width > 0 && height > 0)) {
    problems.push_back(input_problem("quilt", "the top has no size", "lay blocks first"));
  } else if (!(spacing >= kLeastSpacing && spacing <= most)) {
    problems.push_back(input_problem("--spacing", "quilting lines " + rounded(spacing, 2) + " in apart do not suit it",
                                     "give from 1/8 in to half the top's shorter side, " + rounded(most, 1) + " in"));
  } else if (width / spacing * (height / spacing) > kMostRowsTimesColumns) {
    problems.push_back(input_problem("--spacing", "that is too close for a top of this size", "space the lines wider"));
  }
  if (!(options.factor >= 1 && options.factor <= 5)) {
    problems.push_back(input_problem("--factor", "thread is from 1 to 5 times the path", "1.4 is usual"));
  }
  return problems;
}

std::string yards(double inches) { return rounded(inches / 36, 0) + " yd (" + rounded(inches * 0.0254, 0) + " m)"; }

}  // namespace

std::optional<Style> quilting_style_named(const std::string& word) {
  const auto found = std::find(kStyleNames.begin(), kStyleNames.end(), plain_name(word));
  if (found == kStyleNames.end()) return std::nullopt;
  return static_cast<Style>(found - kStyleNames.begin());
}

const char* quilting_style_name(Style style) { return kStyleNames[static_cast<std::size_t>(style)]; }

Result<Quilting> quilted(Length width, Length height, const QuiltingOptions& options) {
  Problems problems = problems_of(width.inches(), height.inches(), options);
  if (!problems.empty()) return problems;
  Pen pen(width.inches(), height.inches());
  Quilting quilting;
  quilting.spacing =
      Length::inches(draw(pen, options.style, width.inches(), height.inches(), options.spacing.inches()));
  quilting.path = pen.take_path();
  for (std::size_t i = 1; i < quilting.path.size(); ++i) {
    const Point by = quilting.path[i] - quilting.path[i - 1];
    quilting.path_inches += std::hypot(by.x.inches(), by.y.inches());
  }
  quilting.top_inches = quilting.bobbin_inches = quilting.path_inches * options.factor;
  quilting.says = "about " + yards(quilting.top_inches) +
                  " of thread on the top and as much on the bobbin: " + yards(quilting.path_inches) + " of " +
                  quilting_style_name(options.style) + ", times " + rounded(options.factor, 2) +
                  " for what stitches take up";
  return quilting;
}

}  // namespace farflung::choice
