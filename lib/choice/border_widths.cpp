#include "choice/border_widths.hpp"

#include <algorithm>
#include <cmath>

#include "choice/words.hpp"

namespace farflung::choice {
namespace {

using Reaches = BorderWidths::Reaches;

double miss(const BorderWidths& way) { return std::hypot(way.wider.inches(), way.taller.inches()); }

/// Splits `whole` steps in the proportions given: each part at least one step, the last takes the rest.
std::vector<long> split(long whole, const std::vector<double>& proportions) {
  double sum = 0;
  for (double part : proportions) sum += part;
  std::vector<long> parts;
  parts.reserve(proportions.size());
  long left = whole;
  for (std::size_t i = 0; i < proportions.size(); ++i) {
    const long after = static_cast<long>(proportions.size() - 1 - i);
    const long wanted = std::lround(static_cast<double>(whole) * proportions[i] / sum);
    parts.push_back(after == 0 ? left : std::clamp(wanted, 1L, std::max(1L, left - after)));
    left -= parts.back();
  }
  return parts;
}

std::string in_words(const BorderWidths& way, const WantedSize& wanted, quilt::Units units) {
  std::vector<std::string> widths;
  widths.reserve(way.widths.size());
  for (Length width : way.widths) widths.push_back(length_words(width, units));
  std::string text = (widths.size() == 1 ? "a border of " : "borders of ") + listed(widths) +
                     (widths.size() == 1 ? " makes " : " from the inside out make ") + length_words(way.width, units) +
                     " x " + length_words(way.height, units);
  if (way.wider == Length() && way.taller == Length()) return text + ", exactly what is wanted";
  return text + " (wanted " + length_words(wanted.width, units) + " x " + length_words(wanted.height, units) + ")";
}

/// Ways that come to the same widths are one; the nearest comes first.
void add_way(BordersReport& report, BorderWidths way) {
  for (const BorderWidths& other : report.ways) {
    if (other.widths == way.widths) return;
  }
  report.ways.push_back(std::move(way));
  std::stable_sort(report.ways.begin(), report.ways.end(),
                   [](const BorderWidths& a, const BorderWidths& b) { return miss(a) < miss(b); });
}

void add_notes(BordersReport& report, const quilt::Quilt& quilt, double each_width, double each_height) {
  for (const setting::Border& border : quilt.setting.borders) {
    if (border.corners != setting::Border::Corners::mitred) continue;
    report.notes.emplace_back(
        "mitred corners: cut each strip at least as long as the finished side it makes, outer edge to outer edge, and "
        "two seam allowances more");
    break;
  }
  const double uneven = each_width - each_height;
  if (std::abs(uneven) < 1.0 / 16) return;
  report.notes.push_back("alike on all sides no border reaches both: strips of " +
                         length_words(Length::inches(std::abs(uneven)), quilt.units) + " finished, sewn to " +
                         (uneven > 0 ? "the sides" : "the top and the bottom") + " first, make up the difference");
}

}  // namespace

Result<BordersReport> borders_to_reach(const quilt::Quilt& quilt, const WantedSize& wanted, Length step) {
  if (quilt.patterns.empty()) return input_problem("/patterns", "the quilt has no pattern", "add one first");
  if (step <= Length()) return input_problem("--step", "widths go by steps above zero", "give a step such as 1/4 in");
  quilt::Quilt bare = quilt;
  bare.setting.borders.clear();
  const setting::Plan plan = quilt::plan_of(bare);
  BordersReport report;
  report.inner_width = plan.width;
  report.inner_height = plan.height;

  std::vector<double> proportions;
  proportions.reserve(quilt.setting.borders.size() + 1);
  for (const setting::Border& border : quilt.setting.borders) proportions.push_back(border.width.inches());
  if (proportions.empty()) proportions.push_back(1);
  const double each_width = (wanted.width - plan.width).inches() / 2;
  const double each_height = (wanted.height - plan.height).inches() / 2;
  const auto count = static_cast<long>(proportions.size());
  const auto add = [&](Reaches reaches, double each) {
    const long steps = std::lround(each / step.inches());
    if (steps < count || each > 1000) return;
    BorderWidths way;
    way.reaches = reaches;
    Length all;
    for (long part : split(steps, proportions)) {
      way.widths.push_back(part * step);
      all = all + way.widths.back();
    }
    way.width = plan.width + 2 * all;
    way.height = plan.height + 2 * all;
    way.wider = way.width - wanted.width;
    way.taller = way.height - wanted.height;
    way.says = in_words(way, wanted, quilt.units);
    add_way(report, std::move(way));
  };
  add(Reaches::width, each_width);
  add(Reaches::height, each_height);
  add(Reaches::nearest, (each_width + each_height) / 2);
  if (report.ways.empty()) {
    return input_problem("--size",
                         "the blocks alone make " + length_words(plan.width, quilt.units) + " x " +
                             length_words(plan.height, quilt.units) + ", which leaves no room for a border",
                         "take out a row or a column, or want a larger size");
  }
  add_notes(report, quilt, each_width, each_height);
  return report;
}

quilt::Quilt with_border_widths(const quilt::Quilt& quilt, const std::vector<Length>& widths) {
  quilt::Quilt changed = quilt;
  auto& borders = changed.setting.borders;
  while (borders.size() < widths.size()) borders.insert(borders.begin(), setting::Border{});
  for (std::size_t i = 0; i < widths.size(); ++i) borders[i].width = widths[i];
  return changed;
}

}  // namespace farflung::choice
