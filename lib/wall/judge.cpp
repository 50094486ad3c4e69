#include "wall/judge.hpp"

#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include "wall/align.hpp"
#include "wall/outer_edge.hpp"

namespace farflung::wall {

Misfits::Misfits(const Evidence& evidence, const Book& book, const Light& light)
    : patches_(evidence.patches), prints_(book.prints()) {
  table_.reserve(static_cast<std::size_t>(evidence.cells()) * patches_ * prints_);
  for (int cell = 0; cell < evidence.cells(); ++cell) {
    for (int patch = 0; patch < patches_; ++patch) {
      for (int print = 0; print < prints_; ++print) {
        table_.push_back(light.misfit(evidence, cell, patch, book.of(patch, print)));
      }
    }
  }
}

Settled settled(const Evidence& evidence, const Book& book, const Look& mean_of_prints,
                const std::vector<Light::Sample>& start,
                const std::function<Opinion(const Misfits&, bool last)>& opinion) {
  Light light(evidence, mean_of_prints);
  if (!start.empty()) light.fit(evidence, book, start, 2);
  Misfits misfits(evidence, book, light);
  Opinion now = opinion(misfits, false);
  constexpr int kDegrees[] = {0, 1, 1, 2, 2, 3, 3};
  for (const int degree : kDegrees) {
    if (degree < 2 && !start.empty()) continue;
    light.fit(evidence, book, now.samples, degree);
    misfits = Misfits(evidence, book, light);
    now = opinion(misfits, false);
  }
  const double misfit = now.misfit;
  const double patches = static_cast<double>(now.samples.size());
  now = opinion(misfits, true);
  const double worth = misfit + light.uncertainty() * patches;
  return {std::move(misfits), std::move(now), worth};
}

namespace {

/// What nobody knows before it is looked at, inches.
struct Spare {
  double gap = 0;  ///< between blocks
  double raw = 0;  ///< round a top: all of the seam allowance until it is bound, less where its edge was trimmed
};

std::vector<Spare> spares(const quilt::Quilt& quilt, const ReadOptions& options) {
  if (options.laid == Laid::blocks) return {{.gap = 0.1}, {.gap = 0.5}};
  if (options.corners) return {{}};
  const double allowance = quilt.seam_allowance.inches();
  return {{.raw = 0}, {.raw = allowance / 2}, {.raw = allowance}};
}

/// Where the patterns' lines are met best, of all that the blocks' outline may be. What was not so good is not tried
/// again with another gap: `edge` is then where the best began, or else where it ended.
Framed best_aligned(const photo::Picture& photograph, const quilt::Quilt& quilt, const Framed& framed, Edge& edge) {
  std::vector<photo::Corners> starts = {edge.corners};
  starts.insert(starts.end(), edge.or_else.begin(), edge.or_else.end());
  Aligned best{framed, -1};
  for (const photo::Corners& start : starts) {
    Framed other = framed;
    other.corners = start;
    Aligned there = aligned(photograph, quilt, std::move(other));
    if (there.meets <= best.meets) continue;
    best = std::move(there);
    edge.corners = start;
  }
  edge.or_else = {best.framed.corners};
  return each_by_itself(photograph, quilt, std::move(best.framed));
}

}  // namespace

Result<std::vector<Framed>> framings(const photo::Picture& photograph, const quilt::Quilt& quilt,
                                     const setting::Plan& plan, const ReadOptions& options) {
  const bool top = options.laid == Laid::top;
  std::optional<Edge> edge;
  std::vector<Framed> framed;
  for (const Spare& spare : spares(quilt, options)) {
    Framed here{grid_of(quilt, plan, options, spare.gap), {}, 0};
    if (here.grid.cells.empty()) {
      return input_problem("/setting", "no cell lies in these rows and columns", "name others");
    }
    if (options.corners) {
      here.corners = *options.corners;
    } else {
      if (!edge) {
        edge = edge_of(photograph);
        if (edge && top && edge->cards == 0) edge->corners = on_own_edges(photograph, edge->corners);
      }
      if (!edge) {
        return input_problem(options.name, "no blocks stand out from the wall",
                             "photograph them again on a plain ground, all of them in the picture, or give their four "
                             "outer corners");
      }
      here.corners = top ? box_corners(plan, here.grid, edge->corners, spare.raw) : edge->corners;
      here.cards = edge->cards;
      if (!top && edge->cards == 0) here = best_aligned(photograph, quilt, here, *edge);
    }
    framed.push_back(std::move(here));
  }
  return framed;
}

}  // namespace farflung::wall
