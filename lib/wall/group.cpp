#include "wall/group.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>

#include <opencv2/imgproc.hpp>

#include "photo/mat.hpp"
#include "wall/judge.hpp"

namespace farflung::wall {
namespace {

/// What fills one slot of one cell.
struct Item {
  int section = 0, cell = 0, slot = 0;  ///< the cell: index into its section's grid
  Look look{};                          ///< mean over the slot's patches, by area
  double area = 0;                      ///< square inches
};

/// One photograph, and in which form each of its cells lies.
struct Laying {
  Grid grid;
  photo::Corners corners{};
  int cards = 0;
  Evidence evidence;
  std::vector<int> pattern;  ///< by cell
  std::vector<int> form;     ///< by cell; kNone: nothing lies there
  double unrest = 0;         ///< how much varies within patches, over all
};

double square(double x) { return x * x; }

/// A block lies in the form whose patches each show one thing. Forms that only rename the slots come out equal: the
/// first, which has the smallest turn, stands.
void find_forms(const quilt::Quilt& quilt, Laying& laying) {
  const Evidence& evidence = laying.evidence;
  for (int cell = 0; cell < evidence.cells(); ++cell) {
    double least = std::numeric_limits<double>::infinity();
    int best = kNone;
    for (const int f : evidence.forms_of[laying.pattern[cell]]) {
      const Form& form = evidence.forms[f];
      double unrest = 0;
      for (std::size_t p = 0; p < quilt.patterns[form.pattern].patches.size(); ++p) {
        const int patch = form.first_patch + static_cast<int>(p);
        const Look& look = evidence.look(cell, patch);
        unrest += square(evidence.side[patch]) * (look[3] + look[4] + look[5]);
      }
      if (unrest < least * (1 - 1e-6)) least = unrest, best = f;
    }
    constexpr double kBare = 0.06;
    const double area = laying.grid.width * laying.grid.height;
    const bool empty =
        quilt.patterns[laying.pattern[cell]].slots.size() > 1 && evidence.shows_one_thing(cell) && least < kBare * area;
    laying.form.push_back(empty ? kNone : best);
    laying.unrest += least;
  }
}

Result<Laying> laying_of(const Section& section, const quilt::Quilt& quilt, const setting::Plan& plan, int pattern) {
  Laying best;
  Result<std::vector<Framed>> framed = framings(section.photograph, quilt, plan, section.options);
  if (!framed) return framed.problems();
  for (Framed& one : *framed) {
    Laying laying;
    laying.grid = std::move(one.grid);
    laying.corners = one.corners;
    laying.cards = one.cards;
    laying.evidence = gathered(quilt, section.photograph, laying.grid, laying.corners);
    for (const int cell : laying.grid.cells) {
      const int own = plan.cells[cell].pattern;
      laying.pattern.push_back(own != kNone ? own : pattern);
    }
    find_forms(quilt, laying);
    if (best.form.empty() || laying.unrest < best.unrest) best = std::move(laying);
  }
  return best;
}

std::vector<Item> items_of(const std::vector<Laying>& layings, const quilt::Quilt& quilt) {
  std::vector<Item> items;
  for (std::size_t s = 0; s < layings.size(); ++s) {
    const Evidence& evidence = layings[s].evidence;
    for (int cell = 0; cell < evidence.cells(); ++cell) {
      if (layings[s].form[cell] == kNone) continue;
      const Form& form = evidence.forms[layings[s].form[cell]];
      const block::Pattern& pattern = quilt.patterns[form.pattern];
      std::vector<Item> slots(pattern.slots.size());
      for (std::size_t p = 0; p < pattern.patches.size(); ++p) {
        const int patch = form.first_patch + static_cast<int>(p);
        Item& item = slots[evidence.slot[patch]];
        const double area = square(evidence.side[patch]);
        for (int k = 0; k < kLooks; ++k) item.look[k] += area * evidence.look(cell, patch)[k];
        item.area += area;
      }
      for (std::size_t slot = 0; slot < slots.size(); ++slot) {
        Item item = slots[slot];
        if (item.area <= 0) continue;
        for (double& value : item.look) value /= item.area;
        item.section = static_cast<int>(s), item.cell = cell, item.slot = static_cast<int>(slot);
        items.push_back(item);
      }
    }
  }
  return items;
}

/// Takes a smooth field out of the items' colours: the one that best explains how they lie about `about`.
void even_out(const std::vector<Laying>& layings, const std::vector<Look>& about, std::vector<Item>& items) {
  for (std::size_t s = 0; s < layings.size(); ++s) {
    std::vector<std::size_t> own;
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (items[i].section == static_cast<int>(s)) own.push_back(i);
    }
    const int terms = own.size() > 80 ? 6 : 3;
    if (own.size() < 8) continue;
    for (int k = 0; k < kColours; ++k) {
      cv::Mat rows(static_cast<int>(own.size()), terms, CV_64F), left(static_cast<int>(own.size()), 1, CV_64F);
      for (std::size_t r = 0; r < own.size(); ++r) {
        const Item& item = items[own[r]];
        const double x = layings[s].evidence.x[item.cell], y = layings[s].evidence.y[item.cell];
        const double of[6] = {1, x, y, x * x, x * y, y * y};
        for (int t = 0; t < terms; ++t) rows.at<double>(static_cast<int>(r), t) = of[t];
        left.at<double>(static_cast<int>(r)) = item.look[k] - about[own[r]][k];
      }
      // Huber's weights, a few rounds: a print that gathers at one side is no light.
      cv::Mat weights = cv::Mat::zeros(terms, 1, CV_64F);
      cv::Mat weight = cv::Mat::ones(static_cast<int>(own.size()), 1, CV_64F);
      for (int round = 0; round < 4; ++round) {
        cv::Mat scaled = rows.clone(), right = left.mul(weight);
        for (int t = 0; t < terms; ++t) scaled.col(t) = scaled.col(t).mul(weight);
        cv::solve(rows.t() * scaled + 1e-3 * cv::Mat::eye(terms, terms, CV_64F), rows.t() * right, weights,
                  cv::DECOMP_SVD);
        const cv::Mat miss = cv::abs(left - rows * weights);
        for (int r = 0; r < miss.rows; ++r) {
          const double size = miss.at<double>(r);
          weight.at<double>(r) = size < 0.1 ? 1 : 0.1 / size;
        }
      }
      const cv::Mat field = rows * weights;
      for (std::size_t r = 0; r < own.size(); ++r) items[own[r]].look[k] -= field.at<double>(static_cast<int>(r));
    }
  }
}

/// How unlike two items are: 1 or so for two pieces of one print, by each of what is measured.
double unlike(const Look& a, const Look& b) {
  const double texture = 0.5 * (a[3] + b[3]);
  // Busy prints differ from piece to piece; a shade over a whole piece says little.
  const double crop = 0.06 + 0.12 * texture;
  double sum = square((a[0] - b[0]) / (0.05 + crop));
  for (int k = 1; k < kColours; ++k) sum += square((a[k] - b[k]) / (0.6 * crop));
  for (int k = kColours; k < kColours + kSpreads; ++k) sum += square((a[k] - b[k]) / (0.03 + 0.13 * (a[k] + b[k])));
  return sum / (kColours + kSpreads);
}

/// Numbers groups by their size, the largest first.
void renumber(std::vector<int>& group) {
  std::map<int, int> size;
  for (const int g : group) ++size[g];
  std::vector<int> order;
  order.reserve(size.size());
  for (const auto& [g, count] : size) order.push_back(g);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return size[a] > size[b]; });
  for (int& g : group) g = static_cast<int>(std::find(order.begin(), order.end(), g) - order.begin());
}

/// Average linkage: the two groups that are most alike are joined, again and again, until `wanted` are left (0: one) or
/// the two most alike are not alike. By item: its group.
std::vector<int> linked(const std::vector<Item>& items, int wanted) {
  constexpr double kAlike = 2.6;
  const int n = static_cast<int>(items.size());
  std::vector<double> apart(static_cast<std::size_t>(n) * n, 0.0);
  const auto at = [&](int a, int b) -> double& { return apart[static_cast<std::size_t>(a) * n + b]; };
  for (int a = 0; a < n; ++a) {
    for (int b = 0; b < n; ++b) at(a, b) = unlike(items[a].look, items[b].look);
  }
  std::vector<int> group(n), size(n, 1);
  std::iota(group.begin(), group.end(), 0);
  std::vector<int> alive = group;
  while (static_cast<int>(alive.size()) > std::max(1, wanted)) {
    double least = std::numeric_limits<double>::infinity();
    int first = 0, second = 0;
    for (std::size_t i = 0; i < alive.size(); ++i) {
      for (std::size_t j = i + 1; j < alive.size(); ++j) {
        if (at(alive[i], alive[j]) < least) least = at(alive[i], alive[j]), first = alive[i], second = alive[j];
      }
    }
    if (least > kAlike) break;
    const double share = static_cast<double>(size[first]) / (size[first] + size[second]);
    for (const int other : alive) {
      at(first, other) = at(other, first) = share * at(first, other) + (1 - share) * at(second, other);
    }
    size[first] += size[second];
    for (int& g : group) {
      if (g == second) g = first;
    }
    alive.erase(std::find(alive.begin(), alive.end(), second));
  }
  renumber(group);
  return group;
}

std::vector<Look> means_of(const std::vector<Item>& items, const std::vector<int>& group) {
  const int groups = 1 + *std::max_element(group.begin(), group.end());
  std::vector<Look> means(groups, Look{});
  std::vector<int> count(groups, 0);
  for (std::size_t i = 0; i < items.size(); ++i) {
    ++count[group[i]];
    for (int k = 0; k < kLooks; ++k) means[group[i]][k] += items[i].look[k];
  }
  for (int g = 0; g < groups; ++g) {
    for (double& value : means[g]) value /= count[g];
  }
  return means;
}

/// Sorted into groups that are each about one print. `wanted` 0: as many as differ. Where there are more groups than
/// prints, the small ones are odd pieces, and each piece goes to what it is most like.
std::vector<int> grouped(const std::vector<Item>& items, int wanted) {
  std::vector<int> group = linked(items, wanted);
  for (int round = 0; round < 3; ++round) {
    std::vector<Look> means = means_of(items, group);
    if (wanted > 0) means.resize(std::min(means.size(), static_cast<std::size_t>(wanted)));
    for (std::size_t i = 0; i < items.size(); ++i) {
      const auto nearer = [&](const Look& a, const Look& b) {
        return unlike(items[i].look, a) < unlike(items[i].look, b);
      };
      group[i] = static_cast<int>(std::min_element(means.begin(), means.end(), nearer) - means.begin());
    }
    renumber(group);
  }
  return group;
}

/// The square that lies deepest in the largest patch of an item, cut from the photograph.
PrintSeen cut_of(const Section& section, const Laying& laying, const quilt::Quilt& quilt, const Item& item) {
  const Form& form = laying.evidence.forms[laying.form[item.cell]];
  const block::Pattern& pattern = quilt.patterns[form.pattern];
  const cv::Size2d size = turned_inches(pattern, form.turn);
  constexpr double kFine = 20;      // of the mask, pixels to the inch
  const cv::Point2d outside(1, 1);  // a frame of nothing around the block: it ends there on every side
  double deepest = 0;
  cv::Point2d middle;
  for (const block::Patch& patch : pattern.patches) {
    if (patch.slot != item.slot) continue;
    std::vector<cv::Point> corners;
    for (const Point& p : turned(patch.polygon, pattern.width, pattern.height, form.turn)) {
      corners.emplace_back(cv::Point2d(p.x.inches() * kFine, p.y.inches() * kFine) + outside);
    }
    cv::Mat mask =
        cv::Mat::zeros(static_cast<int>(size.height * kFine) + 4, static_cast<int>(size.width * kFine) + 4, CV_8U);
    cv::fillPoly(mask, std::vector<std::vector<cv::Point>>{corners}, cv::Scalar(255));
    cv::Mat depth;
    cv::distanceTransform(mask, depth, cv::DIST_C, cv::DIST_MASK_3);
    double here = 0;
    cv::Point place;
    cv::minMaxLoc(depth, nullptr, &here, nullptr, &place);
    if (here > deepest) deepest = here, middle = (cv::Point2d(place) - outside) * (1 / kFine);
  }
  // Clear of the seams by an eighth of an inch, where there is room.
  const double half = std::max(0.6 * deepest / kFine, deepest / kFine - 0.15);
  const cv::Point2d centre = laying.grid.centres[item.cell];
  const double angle = laying.grid.on_point ? CV_PI / 4 : 0, c = std::cos(angle), s = std::sin(angle);
  const cv::Matx33d photo_from_wall = wall::photo_from_wall(laying.grid, laying.corners);
  const auto seen = [&](double x, double y) {
    const double dx = x - size.width / 2, dy = y - size.height / 2;
    const cv::Vec3d q = photo_from_wall * cv::Vec3d(centre.x + c * dx - s * dy, centre.y + s * dx + c * dy, 1);
    return cv::Point2f(static_cast<float>(q[0] / q[2]), static_cast<float>(q[1] / q[2]));
  };
  const cv::Point2f from[4] = {seen(middle.x - half, middle.y - half), seen(middle.x + half, middle.y - half),
                               seen(middle.x + half, middle.y + half), seen(middle.x - half, middle.y + half)};
  const double across = std::hypot(from[1].x - from[0].x, from[1].y - from[0].y);
  const int side = std::clamp(static_cast<int>(std::lround(across)), 16, 512);
  const auto edge = static_cast<float>(side);
  const cv::Point2f to[4] = {{0, 0}, {edge, 0}, {edge, edge}, {0, edge}};
  cv::Mat picture;
  cv::warpPerspective(photo::view(section.photograph), picture, cv::getPerspectiveTransform(from, to), {side, side},
                      cv::INTER_LINEAR, cv::BORDER_REPLICATE);
  return {photo::picture_from(picture), 2 * half, 0};
}

/// Each photograph laid out; what `found` says of them goes with it.
Result<std::vector<Laying>> lay_out(const std::vector<Section>& sections, const quilt::Quilt& quilt, int pattern,
                                    Grouped& found) {
  const setting::Plan plan = quilt::plan_of(quilt);
  std::vector<Laying> layings;
  for (const Section& section : sections) {
    Result<Laying> laying = laying_of(section, quilt, plan, pattern);
    if (!laying) return laying.problems();
    found.corners.push_back(laying->corners);
    found.cards.push_back(laying->cards);
    for (std::size_t c = 0; c < laying->form.size(); ++c) {
      if (laying->form[c] == kNone) found.empty.push_back(laying->grid.cells[c]);
    }
    layings.push_back(std::move(*laying));
  }
  return layings;
}

/// The items' groups: first as if prints lay evenly over the wall, then by what the groups themselves say of the light.
std::vector<int> groups_of(std::vector<Laying>& layings, std::vector<Item>& items, int prints) {
  even_out(layings, std::vector<Look>(items.size(), Look{}), items);
  std::vector<int> group;
  for (int round = 0; round < 3; ++round) {
    group = grouped(items, prints);
    const std::vector<Look> means = means_of(items, group);
    std::vector<Look> about;
    about.reserve(group.size());
    for (const int g : group) about.push_back(means[g]);
    if (round < 2) even_out(layings, about, items);
  }
  return group;
}

/// The item that shows each group best: a large piece that looks like the group's mean.
std::vector<std::size_t> best_of(const std::vector<Item>& items, const std::vector<int>& group,
                                 const std::vector<Look>& means) {
  std::vector<double> worth(means.size(), -1e18);
  std::vector<std::size_t> best(means.size(), 0);
  for (std::size_t i = 0; i < items.size(); ++i) {
    const int g = group[i];
    const double here = std::log(items[i].area) - unlike(items[i].look, means[g]);
    if (here > worth[g]) worth[g] = here, best[g] = i;
  }
  return best;
}

/// How likely it is that an item is of its group and of no other.
double confidence_of(const Item& item, int group, const std::vector<Look>& means, int count) {
  const double own = unlike(item.look, means[group]);
  double other = std::numeric_limits<double>::infinity();
  for (std::size_t g = 0; g < means.size(); ++g) {
    if (static_cast<int>(g) != group) other = std::min(other, unlike(item.look, means[g]));
  }
  // A print seen once only may as well be another one's odd piece.
  const double margin = count == 1 ? 0 : std::max(0.0, other - own);
  return 1 / (1 + std::exp(-1.5 * margin));
}

std::vector<BlockLearnt> blocks_of(const std::vector<Item>& items, const std::vector<int>& group,
                                   const std::vector<Look>& means, const std::vector<int>& count,
                                   const std::vector<Laying>& layings, const quilt::Quilt& quilt) {
  std::vector<BlockLearnt> blocks;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const Item& item = items[i];
    const Laying& laying = layings[item.section];
    const bool fresh = i == 0 || items[i - 1].section != item.section || items[i - 1].cell != item.cell;
    if (fresh) {
      const Form& form = laying.evidence.forms[laying.form[item.cell]];
      const std::vector<int> none(quilt.patterns[form.pattern].slots.size(), kNone);
      blocks.push_back({laying.grid.cells[item.cell], none, form.turn, 1, false});
    }
    BlockLearnt& block = blocks.back();
    block.prints[item.slot] = group[i];
    block.confidence = std::min(block.confidence, confidence_of(item, group[i], means, count[group[i]]));
  }
  return blocks;
}

}  // namespace

Result<Grouped> group_wall(const std::vector<Section>& sections, const quilt::Quilt& quilt, int pattern, int prints) {
  Grouped found;
  Result<std::vector<Laying>> layings = lay_out(sections, quilt, pattern, found);
  if (!layings) return layings.problems();
  std::vector<Item> items = items_of(*layings, quilt);
  if (items.empty()) {
    return input_problem("the photograph", "no block is to be seen",
                         "photograph it nearer and square before it, or give the four outer corners of the blocks");
  }
  const std::vector<int> group = groups_of(*layings, items, prints);
  const std::vector<Look> means = means_of(items, group);
  std::vector<int> count(means.size(), 0);
  for (const int g : group) ++count[g];
  for (const std::size_t best : best_of(items, group, means)) {
    const Item& item = items[best];
    found.prints.push_back(cut_of(sections[item.section], (*layings)[item.section], quilt, item));
    found.prints.back().patches = count[found.prints.size() - 1];
  }

  found.blocks = blocks_of(items, group, means, count, *layings, quilt);
  for (BlockLearnt& block : found.blocks) block.sure = block.confidence >= sections.front().options.sure;
  std::sort(found.blocks.begin(), found.blocks.end(), [](const auto& a, const auto& b) { return a.cell < b.cell; });
  for (std::size_t i = 1; i < found.blocks.size(); ++i) {
    if (found.blocks[i].cell == found.blocks[i - 1].cell) {
      return input_problem("--rows", "two photographs show the same cell", "say which rows and columns each shows");
    }
  }
  return found;
}

}  // namespace farflung::wall
