#include "swap/says.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include "choice/words.hpp"

namespace farflung::swap {
namespace {

using score::Reading;

std::string counted(int count, const std::string& name) {
  static const char* const kWords[] = {"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"};
  return (count < 10 ? kWords[count] : std::to_string(count)) + std::string(" ") + name + (count == 1 ? "" : "s");
}

/// "Kelps", "Compasses", "pieces of Stripe 2": more than one block of a print. Only a name of one plain word has a
/// plural that can be trusted.
std::string several(const std::string& name) {
  const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  if (!std::all_of(name.begin(), name.end(), is_letter)) return "pieces of " + name;
  const auto ends = [&](const char* end) { return name.ends_with(end); };
  return name + (ends("s") || ends("x") || ends("z") || ends("ch") || ends("sh") ? "es" : "s");
}

/// The cells that a step changes.
std::vector<int> cells_of(const Step& step) {
  if (step.whole.empty()) return step.turns_only() ? std::vector<int>{step.a} : std::vector<int>{step.a, step.b};
  std::vector<int> cells;
  for (const Place& place : step.whole) cells.push_back(place.cell);
  return cells;
}

/// Touches by print: after less before.
std::map<int, int> touches_more(const score::Measure& measure, const setting::Arrangement& before,
                                const setting::Arrangement& after) {
  std::map<int, int> more;
  for (const score::Touch& touch : measure.touches(before)) --more[touch.print];
  for (const score::Touch& touch : measure.touches(after)) ++more[touch.print];
  return more;
}

void say_touches(const score::Measure& measure, const setting::Arrangement& before, const setting::Arrangement& after,
                 std::vector<std::string>& says) {
  std::vector<std::string> parted, met;
  for (const auto& [print, more] : touches_more(measure, before, after)) {
    const std::string name = print::name_of(measure.quilt().prints[print]);
    if (more == -1) parted.push_back("two " + several(name));
    if (more < -1) parted.push_back(counted(-more, "pair") + " of " + name);
    if (more == 1) met.push_back("two " + several(name));
    if (more > 1) met.push_back(counted(more, "pair") + " of " + name);
  }
  if (!parted.empty()) says.push_back("parts " + choice::listed(parted));
  if (!met.empty()) says.push_back("lets " + choice::listed(met) + " touch");
}

/// The mean cast of the region around each place, a Gaussian window of two pitches.
std::vector<Reading> regions(const score::Measure& measure, const setting::Arrangement& layout) {
  const score::Places& places = measure.places();
  std::vector<Reading> means(places.count());
  constexpr double kScale = 2;
  for (int i = 0; i < places.count(); ++i) {
    double sum = 0;
    for (int j = 0; j < places.count(); ++j) {
      const double across = places.x[i] - places.x[j];
      const double down = places.y[i] - places.y[j];
      const double weight = std::exp(-(across * across + down * down) / (2 * kScale * kScale));
      sum += weight;
      const Reading& cast = measure.casts()[layout.block[places.cell[j]]];
      for (std::size_t k = 0; k < cast.size(); ++k) means[i][k] += weight * cast[k];
    }
    for (double& value : means[i]) value /= sum;
  }
  return means;
}

/// What a cast reads as: its strongest part.
std::string cast_word(const Reading& cast) {
  const double colour = std::hypot(cast[1], cast[2]);
  const double value = std::abs(cast[0]);
  const double loud = std::abs(cast[3]);
  if (value >= colour && value >= loud) return cast[0] < 0 ? "dark" : "light";
  if (colour >= loud) return choice::hue_name({50, 1e3 * cast[1], 1e3 * cast[2]});
  return cast[3] > 0 ? "busyness" : "plainness";
}

/// "top left corner", "left side", "middle": thirds of the top.
std::string region_word(const score::Measure& measure, int place) {
  const setting::Cell& cell = measure.plan().cells[measure.places().cell[place]];
  const double x = cell.centre.x.inches() / measure.plan().width.inches();
  const double y = cell.centre.y.inches() / measure.plan().height.inches();
  const std::string across = x < 1.0 / 3 ? "left" : (x > 2.0 / 3 ? "right" : "");
  const std::string down = y < 1.0 / 3 ? "top" : (y > 2.0 / 3 ? "bottom" : "");
  if (across.empty() && down.empty()) return "middle";
  if (!across.empty() && !down.empty()) return down + " " + across + " corner";
  return across.empty() ? down : across + " side";
}

/// One change for the better, and how much of F it is.
struct Mend {
  double gain = 0;
  std::string says;
};

double over(double weight, double mean) { return mean > 1e-12 ? weight / mean : 0; }

Mend mended_region(const score::Measure& measure, const score::Terms& was, const score::Terms& is,
                   const setting::Arrangement& before, const setting::Arrangement& after) {
  const double gain = over(measure.quilt().goals.evenness, measure.means().evenness) * (was.evenness - is.evenness);
  if (gain <= 0) return {};
  const std::vector<Reading> old_means = regions(measure, before);
  const std::vector<Reading> new_means = regions(measure, after);
  int best = 0;
  double most = -1;
  for (int i = 0; i < measure.places().count(); ++i) {
    const double less = score::dot(old_means[i], old_means[i]) - score::dot(new_means[i], new_means[i]);
    if (less > most) most = less, best = i;
  }
  const Reading change = score::minus(old_means[best], new_means[best]);
  // The part of the old cast that the step takes away most of.
  Reading taken{};
  for (std::size_t k = 0; k < taken.size(); ++k) {
    if (change[k] * old_means[best][k] > 0) taken[k] = change[k];
  }
  return {gain, "takes the " + cast_word(taken) + " out of the " + region_word(measure, best)};
}

Mend mended_line(const score::Measure& measure, const score::Terms& was, const score::Terms& is,
                 const setting::Arrangement& before, const setting::Arrangement& after) {
  const double gain = over(measure.quilt().goals.streak, measure.means().streak) * (was.streak - is.streak);
  if (gain <= 0) return {};
  const score::Places& places = measure.places();
  const auto sum = [&](const std::vector<int>& line, const setting::Arrangement& layout) {
    Reading total{};
    for (const int place : line) {
      const Reading& cast = measure.casts()[layout.block[places.cell[place]]];
      for (std::size_t k = 0; k < total.size(); ++k) total[k] += cast[k];
    }
    return total;
  };
  const score::Line* best = nullptr;
  Reading strongest{};
  double most = 0;
  for (const score::Line& line : places.lines) {
    const Reading old_sum = sum(line.places, before);
    const Reading new_sum = sum(line.places, after);
    const double less =
        (score::dot(old_sum, old_sum) - score::dot(new_sum, new_sum)) / static_cast<double>(line.places.size());
    if (less > most) most = less, best = &line, strongest = old_sum;
  }
  if (best == nullptr) return {};
  const setting::Cell& first = measure.plan().cells[places.cell[best->places.front()]];
  const setting::Cell& last = measure.plan().cells[places.cell[best->places.back()]];
  std::string line = "diagonal from " + setting::cell_name(first) + " to " + setting::cell_name(last);
  if (best->way == score::Line::Way::row) line = "row " + std::to_string(first.row + 1);
  if (best->way == score::Line::Way::column) {
    line = "column of " + setting::cell_name(first);
  }
  return {gain, "breaks the streak of " + cast_word(strongest) + " in the " + line};
}

/// The print's two nearest copies, in pitches; 0 where it is in fewer than two blocks.
double nearest(const score::Measure& measure, int print, const setting::Arrangement& layout) {
  const score::Places& places = measure.places();
  std::vector<int> copies;
  for (int i = 0; i < places.count(); ++i) {
    for (const score::Share& share : measure.shares()[layout.block[places.cell[i]]]) {
      if (share.print == print) copies.push_back(i);
    }
  }
  double least = 0;
  for (std::size_t i = 0; i < copies.size(); ++i) {
    for (std::size_t j = i + 1; j < copies.size(); ++j) {
      const double d = std::hypot(places.x[copies[i]] - places.x[copies[j]], places.y[copies[i]] - places.y[copies[j]]);
      if (least == 0 || d < least) least = d;
    }
  }
  return least;
}

Mend mended_spread(const score::Measure& measure, const score::Terms& was, const score::Terms& is, const Step& step,
                   const setting::Arrangement& before, const setting::Arrangement& after) {
  const quilt::Goals& goals = measure.quilt().goals;
  const double spread = goals.spread * (was.spread - is.spread);
  const double coverage = over(goals.coverage, measure.means().coverage) * (was.coverage - is.coverage);
  if (spread + coverage <= 0) return {};
  // Of the prints that move, the one whose nearest copies part most; else what they all gain together.
  int best = kNone;
  double most = 0.2;
  const std::vector<int> cells = cells_of(step);
  for (const int cell : cells) {
    for (const score::Share& share : measure.shares()[before.block[cell]]) {
      const double more = nearest(measure, share.print, after) - nearest(measure, share.print, before);
      if (more > most) most = more, best = share.print;
    }
  }
  if (best != kNone) {
    return {spread + coverage, "moves the nearest " + several(print::name_of(measure.quilt().prints[best])) + " apart"};
  }
  std::vector<std::string> names;
  for (const int cell : cells) {
    for (const score::Share& share : measure.shares()[before.block[cell]]) {
      const std::string name = print::name_of(measure.quilt().prints[share.print]);
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
  }
  if (names.empty() || names.size() > 3) return {spread + coverage, "spreads its prints more evenly"};
  return {spread + coverage, "spreads " + choice::listed(names) + " more evenly"};
}

Mend mended_corners(const score::Measure& measure, const score::Terms& was, const score::Terms& is) {
  const double gain = over(measure.quilt().goals.corner, measure.means().corners) * (was.corners - is.corners);
  const int fewer = was.corners - is.corners;
  if (fewer <= 0) return {};
  return {gain, "undoes " + (fewer == 1 ? std::string("a corner touch") : counted(fewer, "corner touche"))};
}

Mend mended_likeness(const score::Measure& measure, const score::Terms& was, const score::Terms& is) {
  const double gain = over(measure.quilt().goals.likeness, measure.means().likeness) * (was.likeness - is.likeness);
  return {gain, "parts prints that look alike"};
}

/// "a quarter to the right", from one turn to another; empty where they are the same.
std::string turn_words(Turn from, Turn to) {
  static const char* const kWords[] = {"", "a quarter to the right", "half round", "a quarter to the left"};
  return kWords[(to + from.back()).quarters()];
}

/// One of the things that a step moves: where it comes to hang, and how it is turned on the way.
struct Moved {
  std::string site, turn;
};

/// "R2 C5"; of sewn units "row 3", "the pair R1 C1 and R1 C2", "the sewn part from R1 C1 to R3 C3".
std::string site_name(const setting::Plan& plan, const std::vector<int>& cells) {
  const setting::Cell& first = plan.cells[cells.front()];
  const setting::Cell& last = plan.cells[cells.back()];
  const auto in_row = std::count_if(plan.cells.begin(), plan.cells.end(),
                                    [&](const setting::Cell& cell) { return cell.row == first.row; });
  if (cells.size() == 1) return setting::cell_name(first);
  const bool whole_row = !plan.on_point && first.row == last.row && static_cast<long>(cells.size()) == in_row;
  if (whole_row) return "row " + std::to_string(first.row + 1);
  if (cells.size() == 2) return "the pair " + setting::cell_name(first) + " and " + setting::cell_name(last);
  return "the sewn part from " + setting::cell_name(first) + " to " + setting::cell_name(last);
}

std::vector<Moved> moved_by(const Step& step, const setting::Plan& plan, const setting::Arrangement& before) {
  if (step.whole.empty()) {
    return {{site_name(plan, {step.a}), turn_words(before.turn[step.b], step.turn_a)},
            {site_name(plan, {step.b}), turn_words(before.turn[step.a], step.turn_b)}};
  }
  const std::size_t size = step.turns_only() ? step.whole.size() : step.whole.size() / 2;
  std::vector<Moved> moved;
  for (std::size_t first = 0; first < step.whole.size(); first += size) {
    std::vector<int> cells;
    for (std::size_t i = first; i < first + size; ++i) cells.push_back(step.whole[i].cell);
    const Place& place = step.whole[first];
    moved.push_back({site_name(plan, cells), turn_words(before.turn[place.from], place.turn)});
  }
  return moved;
}

std::string heading(const setting::Plan& plan, const Step& step, const setting::Arrangement& before) {
  std::vector<Moved> moved = moved_by(step, plan, before);
  if (step.turns_only()) return "turn " + moved.front().site + " " + moved.front().turn;
  if (step.a > step.b) std::swap(moved[0], moved[1]);
  std::string turns;
  for (const Moved& each : moved) {
    if (each.turn.empty()) continue;
    turns += (turns.empty() ? " (turn what comes to " : ", what comes to ") + each.site + " " + each.turn;
  }
  return moved[0].site + " with " + moved[1].site + turns + (turns.empty() ? "" : ")");
}

}  // namespace

std::string says_of(const score::Measure& measure, const Step& step, const setting::Arrangement& before,
                    const setting::Arrangement& after) {
  std::vector<std::string> says;
  say_touches(measure, before, after, says);
  const score::Terms was = measure.terms(before);
  const score::Terms is = measure.terms(after);
  std::vector<Mend> mends = {mended_corners(measure, was, is), mended_likeness(measure, was, is)};
  if (!step.turns_only()) {
    mends.push_back(mended_region(measure, was, is, before, after));
    mends.push_back(mended_line(measure, was, is, before, after));
    mends.push_back(mended_spread(measure, was, is, step, before, after));
  }
  std::stable_sort(mends.begin(), mends.end(), [](const Mend& a, const Mend& b) { return a.gain > b.gain; });
  constexpr std::size_t kMostSaid = 2;
  for (const Mend& mend : mends) {
    if (mend.gain > 1e-6 && says.size() < kMostSaid) says.push_back(mend.says);
  }
  if (says.empty()) says.push_back("clears the way for a later step");
  std::string text = heading(measure.plan(), step, before) + ": " + says.front();
  for (std::size_t k = 1; k < says.size(); ++k) text += ", " + says[k];
  return text;
}

}  // namespace farflung::swap
