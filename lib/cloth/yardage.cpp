#include "cloth/yardage.hpp"

#include <algorithm>
#include <cmath>

#include "base/counted.hpp"
#include "cloth/extent.hpp"
#include "cloth/trade.hpp"

namespace farflung::cloth {
namespace {

/// How many `parts` make at least `whole`, whatever the last nanometre says.
int parts_for(Length whole, Length part) {
  return std::max(1, static_cast<int>(std::ceil((whole - kHair).inches() / part.inches())));
}

/// How many strips (or panels) of `strip` give `total` when each join takes `loss`.
int strips_for(Length total, Length strip, Length loss) {
  if (total <= strip) return 1;
  return parts_for(total - loss, strip - loss);
}

BackingWay backing_way(bool across, Length width, Length height, const YardageOptions& options, Ruler ruler) {
  // Panels lie side by side over `spread`, each as long as `along`.
  const Length spread = across ? height : width;
  const Length along = across ? width : height;
  const Length loss = 2 * options.backing_seam;
  BackingWay way;
  way.across = across;
  way.panels = strips_for(spread, options.usable_width, loss);
  const Length cloth_across = spread + (way.panels - 1) * loss;
  way.panel_width = up_to_mark(times(1.0 / way.panels, cloth_across), ruler);
  way.panel_length = up_to_mark(along, ruler);
  way.cloth = way.panels * way.panel_length;
  way.says = counted(way.panels, "panel") + " of " + said(way.panel_width, way.panel_length, ruler) + ", " +
             (way.panels == 1 ? std::string("no seam") : std::string("seams ") + (across ? "across" : "up and down")) +
             ": " + said(way.cloth, ruler) + " of cloth";
  return way;
}

std::string backing_reason(const BackingPlan& plan, const YardageOptions& options) {
  using Way = YardageOptions::BackingSeam;
  if (options.backing_upright) {
    return "the print stands upright only where the selvage runs from top to bottom: seams up and down";
  }
  if (options.backing_seams == Way::across) return "seams across lie parallel to the rollers, as asked";
  if (options.backing_seams == Way::along) return "seams up and down, as asked";
  const BackingWay& other = plan.chosen.across ? plan.up_and_down : plan.across;
  if (other.cloth == plan.chosen.cloth) return "both ways take the same; seams across lie parallel to the rollers";
  return std::string("it takes less than seams ") + (other.across ? "across" : "up and down");
}

BindingPlan bias_binding(BindingPlan plan, const YardageOptions& options, Ruler ruler) {
  // A square of side S sewn into a tube and cut round and round gives S x S / width of strip; an inch of side is lost
  // in its two seams and in the ends that do not meet.
  const bool metric = ruler == Ruler::millimetres;
  const double step = metric ? Length::millimetres(10).inches() : 1;
  const Length most = options.usable_width;
  const double area = plan.total.inches() * plan.strip_width.inches();
  for (plan.squares = 1;; ++plan.squares) {
    const double side = step * std::ceil(std::sqrt(area / plan.squares) / step - 1e-9);
    plan.square = up_to_mark(in(side) + (metric ? Length::millimetres(25) : in(1)), ruler);
    if (plan.square <= most) break;
  }
  const int across = std::max(1, static_cast<int>((most + kHair).inches() / plan.square.inches()));
  plan.cloth = parts_for(in(plan.squares), in(across)) * plan.square;
  plan.says +=
      "On the bias: the root of " + said(plan.total, ruler) + " x " + said(plan.strip_width, ruler) +
      (plan.squares > 1 ? " / " + std::to_string(plan.squares) : "") +
      (metric ? ", up to the centimetre, and 25 mm for seams: " : ", up to the inch, and an inch for seams: ") +
      counted(plan.squares, "square") + " of " + said(plan.square, ruler) + ".";
  return plan;
}

}  // namespace

Length purchase_step(bool metric) { return metric ? Length::millimetres(100) : in(4.5); }

int steps_of_purchase(Length exact, bool metric) { return parts_for(exact, purchase_step(metric)); }

Purchase purchase(const std::string& what, int print, Length exact, const YardageOptions& options, bool metric,
                  const std::string& working) {
  const Ruler ruler = metric ? Ruler::millimetres : Ruler::eighths;
  Purchase result;
  result.what = what;
  result.print = print;
  result.exact = exact + options.squaring;
  result.says = working + " Straightening the cut end: " + said(options.squaring, ruler) + ".";
  if (options.prewashed) {
    result.exact = times(1 + options.shrinkage, result.exact);
    result.says += " Washed first: " + number(100 * options.shrinkage, 1) + " % more.";
  }
  const int units = steps_of_purchase(result.exact, metric);
  result.buy = units * purchase_step(metric);
  result.amount = metric ? units / 10.0 : units / 8.0;
  result.unit = metric ? "m" : "yd";
  result.says += " In all " + said(result.exact, ruler) + ", bought as " +
                 (metric ? number(result.amount, 1) + " m" : fraction_text(result.amount) + " yd") + " of cloth " +
                 said(options.usable_width, ruler) + " wide, usable.";
  return result;
}

BindingPlan binding_plan(Length width, Length height, Length strip_width, bool bias, const YardageOptions& options,
                         Ruler ruler) {
  BindingPlan plan;
  plan.perimeter = 2 * width + 2 * height;
  plan.total = plan.perimeter + options.binding_extra;
  plan.strip_width = up_to_mark(strip_width, ruler);
  plan.says = "Around the top 2 x (" + said(width, ruler) + " + " + said(height, ruler) +
              ") = " + said(plan.perimeter, ruler) + ", and " + said(options.binding_extra, ruler) +
              " for corners and the ending: " + said(plan.total, ruler) + ". ";
  if (bias) return bias_binding(std::move(plan), options, ruler);
  plan.strips = strips_for(plan.total, options.usable_width, plan.strip_width);
  plan.cloth = plan.strips * plan.strip_width;
  const Length joined = plan.strips * options.usable_width - (plan.strips - 1) * plan.strip_width;
  plan.says += counted(plan.strips, "strip") + " of " + said(plan.strip_width, ruler) + " across " +
               said(options.usable_width, ruler) + ", joined on the diagonal (each join takes " +
               said(plan.strip_width, ruler) + "): " + said(joined, ruler) + ". Cloth: " + std::to_string(plan.strips) +
               " x " + said(plan.strip_width, ruler) + " = " + said(plan.cloth, ruler) + ".";
  return plan;
}

YardageOptions usual_yardage(quilt::Units units) {
  YardageOptions options;
  options.backing_over = quilt::usual_widths(units).backing_over;
  if (units == quilt::Units::inches) return options;
  options.usable_width = Length::millimetres(1000);
  options.squaring = Length::millimetres(15);
  options.binding_extra = Length::millimetres(250);
  options.backing_seam = Length::millimetres(15);
  options.batting_less = Length::millimetres(25);
  options.mitre_extra = Length::millimetres(50);
  options.sleeve_cut = Length::millimetres(230);
  return options;
}

Length batting_beyond(Length backing_over, const YardageOptions& options) {
  if (options.batting_over) return *options.batting_over;
  const bool reaches = backing_over > 2 * options.batting_less;
  return reaches ? backing_over - options.batting_less : times(0.5, backing_over);
}

BackingPlan backing_plan(Length top_width, Length top_height, Length over, const YardageOptions& options, Ruler ruler) {
  using Way = YardageOptions::BackingSeam;
  BackingPlan plan;
  plan.width = up_to_mark(top_width + 2 * over, ruler);
  plan.height = up_to_mark(top_height + 2 * over, ruler);
  plan.up_and_down = backing_way(false, plan.width, plan.height, options, ruler);
  plan.across = backing_way(true, plan.width, plan.height, options, ruler);
  bool across = plan.across.cloth <= plan.up_and_down.cloth;
  if (options.backing_seams != Way::least) across = options.backing_seams == Way::across;
  if (options.backing_upright) across = false;
  plan.chosen = across ? plan.across : plan.up_and_down;
  plan.why = backing_reason(plan, options);
  return plan;
}

const std::vector<BattingSize>& batting_sizes() {
  // As batting is commonly packed in North America; makers differ by an inch or two.
  static const std::vector<BattingSize> sizes = {
      {"crib", in(45), in(60)}, {"throw", in(60), in(60)},  {"twin", in(72), in(90)},
      {"full", in(81), in(96)}, {"queen", in(90), in(108)}, {"king", in(120), in(120)},
  };
  return sizes;
}

BattingPlan batting_plan(Length top_width, Length top_height, Length backing_over, const YardageOptions& options,
                         Ruler ruler) {
  const Length over = batting_beyond(backing_over, options);
  BattingPlan plan;
  plan.width = up_to_mark(top_width + 2 * over, ruler);
  plan.height = up_to_mark(top_height + 2 * over, ruler);
  const Length longer = std::max(plan.width, plan.height);
  const Length shorter = std::min(plan.width, plan.height);
  for (const BattingSize& size : batting_sizes()) {
    if (size.width >= shorter - kHair && size.length >= longer - kHair) {
      plan.packaged = size;
      break;
    }
  }
  const int widths = strips_for(shorter, options.batting_width, Length());
  plan.by_length = longer <= options.batting_width ? shorter : widths * longer;
  plan.says = "Batting lies between top and backing in size: " + said(over, ruler) + " over on each side, " +
              said(plan.width, plan.height, ruler) + ". ";
  plan.says +=
      (plan.packaged ? "The smallest packed size that holds it: " + std::string(plan.packaged->name) + ", " +
                           said(plan.packaged->width, plan.packaged->length, Ruler::eighths) +
                           (ruler == Ruler::millimetres ? " (" +
                                                              said(nearest_mark(plan.packaged->width, ruler),
                                                                   nearest_mark(plan.packaged->length, ruler), ruler) +
                                                              ")"
                                                        : "") +
                           "."
                     : "No packed size holds it.") +
      " By length, " + said(options.batting_width, ruler) + " wide: " + said(plan.by_length, ruler) +
      (widths > 1 && longer > options.batting_width ? ", joined edge to edge." : ".");
  return plan;
}

}  // namespace farflung::cloth
