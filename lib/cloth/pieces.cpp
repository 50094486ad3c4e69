#include "cloth/pieces.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "base/counted.hpp"
#include "cloth/gathering.hpp"
#include "cloth/narrow.hpp"
#include "cloth/precut.hpp"
#include "cloth/trade.hpp"
#include "cloth/units.hpp"
#include "cloth/yardage.hpp"

namespace farflung::cloth {
namespace {

using setting::FramePatch;

class ListMaker {
 public:
  ListMaker(const quilt::Quilt& quilt, const CutOptions& options)
      : quilt_(quilt), options_(options), plan_(frame_plan(quilt, options)), gathering_(quilt.seam_allowance) {
    list_.ruler = ruler_for(quilt.units, options.sixteenths);
    list_.yardage = options.yardage;
  }

  CutList run() {
    if (const std::string narrow = narrow_said(quilt_); !narrow.empty()) {
      list_.remarks.push_back({"/seam_allowance", narrow});
    }
    for (std::size_t i = 0; i < quilt_.patterns.size(); ++i) remark_on(static_cast<int>(i));
    add_blocks();
    add_geese_in_fours();
    for (const FramePatch& patch : plan_.frame) {
      if (area(patch.polygon) > kSnap.inches()) add_frame(patch);
    }
    if (plan_.width > kSnap && plan_.height > kSnap) {
      add_binding();
      add_backing();
    }
    list_.lines = gathering_.lines();
    for (Run& run : list_.runs) finish(run);
    for (std::string& says : precuts_said(quilt_, list_)) list_.remarks.push_back({"/prints", std::move(says)});
    return std::move(list_);
  }

 private:
  Length seam() const { return quilt_.seam_allowance; }
  bool is_upright(int print) const { return print != kNone && quilt_.prints[print].upright; }

  void remark_on(int index) {
    const block::Pattern& pattern = quilt_.patterns[index];
    if (on_steps(pattern, step_of(list_.ruler))) return;
    std::string sizes;
    const BlockSizes fitting = sizes_on_ruler(pattern, step_of(list_.ruler), 1);
    for (const auto& side : {fitting.smaller, fitting.larger}) {
      for (Length size : side) sizes += (sizes.empty() ? "" : " or ") + said(size, list_.ruler);
    }
    const Length grows = growth_across(pattern);
    const std::string name = block::name_of(pattern);
    list_.remarks.push_back(
        {"/patterns/" + std::to_string(index),
         "Pattern " + name + " has sides that fall between the ruler's marks at " +
             said(pattern.width, pattern.height, list_.ruler) + " finished. " +
             (sizes.empty() ? std::string("No other size near it does better")
                            : "Blocks " + sizes + " wide finished come to the mark") +
             "; or cut at the next mark, as listed, and trim each unit to the size given after its seam" +
             (grows > Length() ? ": untrimmed, each block would grow by " + said(grows, list_.ruler) + " across."
                               : std::string("."))});
  }

  /// What the patches that lie across a block's middle are cut too wide by, together.
  Length growth_across(const block::Pattern& pattern) const {
    const Length middle = times(0.5, pattern.height) + Length::inches(0.01);
    Length sum;
    for (const block::Patch& patch : pattern.patches) {
      Length low = patch.polygon.front().y;
      Length high = low;
      for (Point p : patch.polygon) {
        low = std::min(low, p.y);
        high = std::max(high, p.y);
      }
      const CutShape shape = cut_shape(patch.polygon, seam(), list_.ruler);
      const bool rectangular = shape.shape == Shape::square || shape.shape == Shape::rectangle;
      if (rectangular && !shape.askew && low < middle && middle < high) sum = sum + shape.width.over();
    }
    return sum;
  }

  // Blocks.

  void add_blocks() {
    std::vector<int> cell_of(quilt_.blocks.size(), kNone);
    for (std::size_t cell = 0; cell < quilt_.layout.block.size(); ++cell) {
      if (quilt_.layout.block[cell] != kNone) cell_of[quilt_.layout.block[cell]] = static_cast<int>(cell);
    }
    for (const block::Pattern& pattern : quilt_.patterns) {
      geese_.push_back(geese_of(pattern));
      cornered_.push_back(cornered_patches(pattern));
    }
    for (std::size_t i = 0; i < quilt_.blocks.size(); ++i) {
      if (quilt_.blocks[i].sewn && !options_.sewn_too) {
        ++list_.sewn_blocks;
      } else {
        add_block(quilt_.blocks[i], cell_of[i]);
      }
    }
  }

  void add_block(const block::Block& block, int cell) {
    const block::Pattern& pattern = quilt_.patterns[block.pattern];
    std::vector<bool> done(pattern.patches.size(), false);
    if (options_.geese != GeeseMethod::plain) {
      for (const Goose& goose : geese_[block.pattern]) add_goose(block, goose, done);
    }
    if (options_.corners == CornerMethod::flip) {
      for (const CorneredPatch& cornered : cornered_[block.pattern]) add_cornered(block, cornered, cell, done);
    }
    for (std::size_t i = 0; i < pattern.patches.size(); ++i) {
      if (!done[i]) add_patch(block, static_cast<int>(i), cell);
    }
  }

  int print_of(const block::Block& block, int patch) const {
    return quilt::print_of_slot(quilt_, block, quilt_.patterns[block.pattern].patches[patch].slot);
  }

  const std::string& slot_name(const block::Block& block, int patch) const {
    const block::Pattern& pattern = quilt_.patterns[block.pattern];
    return pattern.slots[pattern.patches[patch].slot].name;
  }

  Part part_of(const block::Block& block, int patch) const {
    const block::Pattern& pattern = quilt_.patterns[block.pattern];
    Part part;
    part.print = print_of(block, patch);
    part.part = pattern.slots[pattern.patches[patch].slot].name;
    part.pattern = block.pattern;
    part.turnable = !is_upright(part.print);
    return part;
  }

  /// As the patch lies on the top, for a print that must stand upright there; else in the block's own axes.
  Polygon laid(const block::Block& block, const Polygon& polygon, int cell, bool upright) const {
    if (!upright) return polygon;
    if (cell == kNone) {
      const block::Pattern& pattern = quilt_.patterns[block.pattern];
      return turned(polygon, pattern.width, pattern.height, block.cut_turn);
    }
    return plan_.top_from_block(polygon, cell, quilt_.layout.turn[cell]);
  }

  void add_patch(const block::Block& block, int patch, int cell) {
    Part part = part_of(block, patch);
    const Polygon& polygon = quilt_.patterns[block.pattern].patches[patch].polygon;
    part.shape = cut_shape(laid(block, polygon, cell, !part.turnable), seam(), list_.ruler, !part.turnable);
    gathering_.add(std::move(part));
  }

  void add_goose(const block::Block& block, const Goose& goose, std::vector<bool>& done) {
    const int print = print_of(block, goose.goose);
    const int sky = print_of(block, goose.sky_a);
    const bool upright = is_upright(print) || is_upright(sky) || is_upright(print_of(block, goose.sky_b));
    if (upright)
      return remark_once("geese upright",
                         "A print that must stand upright is among the geese: those "
                         "triangles are cut one by one, each as it will stand.");
    const Length half = times(0.5, goose.long_side);
    if (options_.geese == GeeseMethod::flip) {
      Part body = part_of(block, goose.goose);
      body.shape = cut_shape(rectangle({}, {}, goose.long_side, half), seam(), list_.ruler);
      body.note = "for geese, corners sewn on and flipped";
      gathering_.add(std::move(body));
      for (int corner : {goose.sky_a, goose.sky_b}) add_flip_square(block, corner, half);
    } else {
      if (sky != print_of(block, goose.sky_b)) {
        return remark_once("geese sky",
                           "Geese with two different prints beside them cannot be made four at a time: "
                           "those triangles are cut one by one.");
      }
      ++fours_[{block.pattern, goose.long_side, print, sky}];
      slots_of_squares_[{block.pattern, goose.long_side, print}].insert(slot_name(block, goose.goose));
      slots_of_squares_[{block.pattern, half, sky}].insert(slot_name(block, goose.sky_a));
    }
    for (int patch : {goose.goose, goose.sky_a, goose.sky_b}) done[patch] = true;
  }

  void add_flip_square(const block::Block& block, int patch, Length leg) {
    Part part = part_of(block, patch);
    part.shape = cut_shape(rectangle({}, {}, leg, leg), seam(), list_.ruler);
    part.note = "sewn across the corner and flipped";
    gathering_.add(std::move(part));
    remark_once(
        "flip",
        "Corners sewn on and flipped: lay the square face down in the corner, sew across it from edge to edge on "
        "its diagonal, fold it over to see that it fills the corner, then cut both layers a seam allowance "
        "outside the seam and press.");
  }

  void add_cornered(const block::Block& block, const CorneredPatch& cornered, int cell, std::vector<bool>& done) {
    const block::Pattern& pattern = quilt_.patterns[block.pattern];
    for (int corner : cornered.corners) {
      if (is_upright(print_of(block, corner))) {
        return remark_once("corner upright", "A corner's print must stand upright: its triangles are cut to shape.");
      }
    }
    Part body = part_of(block, cornered.patch);
    if (!body.turnable && plan_.on_point && cell != kNone) return;
    const bool sideways = !body.turnable && cell != kNone && quilt_.layout.turn[cell].quarters() % 2 == 1;
    body.shape = cut_shape(
        rectangle({}, {}, sideways ? cornered.height : cornered.width, sideways ? cornered.width : cornered.height),
        seam(), list_.ruler);
    body.note = "whole, corners sewn on and flipped";
    gathering_.add(std::move(body));
    done[cornered.patch] = true;
    for (int corner : cornered.corners) {
      const CutShape triangle = cut_shape(pattern.patches[corner].polygon, seam(), list_.ruler);
      add_flip_square(block, corner, triangle.finished_width);
      done[corner] = true;
    }
  }

  /// Four geese of one pair of prints, whichever slots they fill, from one large square and four small ones; the last
  /// four may leave some over.
  void add_geese_in_fours() {
    for (const auto& [key, count] : fours_) {
      const auto& [pattern, long_side, print, sky] = key;
      const int fours = (count + 3) / 4;
      const Length half = times(0.5, long_side);
      gathering_.add(square_for_geese(print, pattern, long_side, quarter_square_cut(long_side, seam()),
                                      "finished width " + said(long_side, list_.ruler) + " + " +
                                          said(seam(), list_.ruler) + " x (2 + 2 root 2)"),
                     fours);
      gathering_.add(square_for_geese(sky, pattern, half, half_square_cut(half, seam()),
                                      "finished height " + said(half, list_.ruler) + " + " + said(seam(), list_.ruler) +
                                          " x (2 + root 2)"),
                     4 * fours);
    }
    if (!fours_.empty()) {
      remark_once("geese in fours",
                  "Geese, four at a time: lay two small squares face down on opposite corners of the large one, their "
                  "points overlapping in its middle; draw the diagonal through both, sew a seam allowance to either "
                  "side of it, cut on it, press toward the small ones. On each half lay one more small square face "
                  "down on the corner that is left, its diagonal running in between the two points; draw, sew, cut and "
                  "press again. Trim the four geese.");
    }
  }

  /// A square for the triangles of this finished width, or height.
  Part square_for_geese(int print, int pattern, Length finished, Length exact, const std::string& working) const {
    Part part;
    part.print = print;
    part.pattern = pattern;
    for (const std::string& slot : slots_of_squares_.at({pattern, finished, print}))
      part.part += (part.part.empty() ? "" : ", ") + slot;
    part.shape.shape = Shape::square;
    part.shape.width = part.shape.height = measured(exact, list_.ruler);
    part.shape.finished_width = part.shape.finished_height = exact - 2 * seam();
    part.shape.cut_line = rectangle({}, {}, exact, exact);
    part.shape.working = working + " = " + said(part.shape.width);
    part.note = "four geese at a time";
    return part;
  }

  void remark_once(const std::string& key, const std::string& says) {
    if (remarked_.insert(key).second) list_.remarks.push_back({"", says});
  }

  // The frame.

  void add_frame(const FramePatch& patch) {
    switch (patch.role) {
      case FramePatch::Role::filler:
        return add_filler(patch);
      case FramePatch::Role::border:
        return add_border(patch);
      case FramePatch::Role::cornerstone:
        return add_strip(patch, "cornerstone", Length());
      case FramePatch::Role::border_corner:
        return add_strip(patch, "border " + std::to_string(patch.part + 1) + " corner", Length());
      case FramePatch::Role::sashing:
        return add_strip(patch, "sashing", Length());
    }
  }

  void add_filler(const FramePatch& patch) {
    Part part;
    part.print = patch.print;
    part.turnable = !is_upright(patch.print);
    if (plan_.on_point) {
      part.shape = setting_triangle(patch.polygon, seam(), list_.ruler, options_.setting_extra);
      part.part = part.shape.shape == Shape::half_square ? "setting corner" : "setting triangle";
    } else {
      part.shape = cut_shape(patch.polygon, seam(), list_.ruler, !part.turnable);
      part.part = "half block";
    }
    gathering_.add(std::move(part));
  }

  void add_border(const FramePatch& patch) {
    const bool mitred = quilt_.setting.borders[patch.part].corners == setting::Border::Corners::mitred;
    FramePatch strip = patch;
    if (mitred) {  // cut as a plain strip as long as its outer edge
      Point low = patch.polygon.front();
      Point high = low;
      for (Point p : patch.polygon) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y)};
        high = {std::max(high.x, p.x), std::max(high.y, p.y)};
      }
      strip.polygon = rectangle(low.x, low.y, high.x - low.x, high.y - low.y);
    }
    add_strip(strip, "border " + std::to_string(patch.part + 1),
              options_.border_extra + (mitred ? options_.yardage.mitre_extra : Length()), true);
  }

  void add_strip(const FramePatch& patch, const std::string& name, Length extra, bool border = false) {
    Part part;
    part.print = patch.print;
    part.part = name;
    part.turnable = !is_upright(patch.print);
    part.shape = cut_shape(patch.polygon, seam(), list_.ruler, !part.turnable);
    if (part.turnable) part.shape = laid_long(part.shape, seam());
    const bool tall = part.shape.height.exact > part.shape.width.exact;
    Measured& length = tall ? part.shape.height : part.shape.width;
    if (extra > Length()) {
      length = measured(length.exact + extra, list_.ruler);
      part.shape.working += ", " + said(extra, list_.ruler) + " longer to trim";
    }
    const bool lengthwise = border && options_.borders == BorderCut::lengthwise && part.turnable;
    const bool rectangular = part.shape.shape == Shape::square || part.shape.shape == Shape::rectangle;
    if (rectangular && !lengthwise && length.cut > options_.yardage.usable_width && (part.turnable || !tall)) {
      return add_to_run(part, length.cut, tall ? part.shape.width.cut : part.shape.height.cut);
    }
    if (lengthwise) {
      part.shape = laid_long(part.shape, seam());
      std::swap(part.shape.width, part.shape.height);
      std::swap(part.shape.finished_width, part.shape.finished_height);
      part.turnable = false;
      part.note = "along the selvage";
    }
    gathering_.add(std::move(part));
  }

  void add_to_run(const Part& part, Length length, Length width) {
    auto known = std::find_if(list_.runs.begin(), list_.runs.end(), [&](const Run& run) {
      return run.print == part.print && run.part == part.part && run.width == width;
    });
    if (known == list_.runs.end()) {
      Run run;
      run.print = part.print;
      run.part = part.part;
      run.width = width;
      run.turnable = part.turnable;
      run.join_loss = 2 * seam();
      known = list_.runs.insert(list_.runs.end(), run);
    }
    known->lengths.push_back(length);
    known->total = known->total + length;
  }

  void finish(Run& run) {
    std::sort(run.lengths.rbegin(), run.lengths.rend());
    if (!run.working.empty()) return;
    for (Length length : run.lengths) {
      run.working += (run.working.empty() ? "" : " + ") + said(length, list_.ruler);
    }
    const int strips = run.strips_of(options_.yardage.usable_width);
    run.working += " = " + said(run.total, list_.ruler) + ": " + counted(strips, "strip") + " of " +
                   said(run.width, list_.ruler) + " across " + said(options_.yardage.usable_width, list_.ruler) +
                   ", each join taking " + said(run.join_loss, list_.ruler);
  }

  void add_binding() {
    if (!quilt_.binding) return;
    const BindingPlan binding = binding_plan(plan_.width, plan_.height, quilt_.binding->width, quilt_.binding->bias,
                                             options_.yardage, list_.ruler);
    if (quilt_.binding->bias) {
      Part part;
      part.print = quilt_.binding->print;
      part.part = "binding";
      part.shape =
          cut_shape(rectangle({}, {}, binding.square - 2 * seam(), binding.square - 2 * seam()), seam(), list_.ruler);
      part.shape.working = binding.says;
      part.note = "squares for bias strips";
      gathering_.add(std::move(part), binding.squares);
      return;
    }
    Run run;
    run.print = quilt_.binding->print;
    run.part = "binding";
    run.width = binding.strip_width;
    run.lengths = {binding.total};
    run.total = binding.total;
    run.join_loss = binding.strip_width;
    run.working = binding.says;
    list_.runs.push_back(std::move(run));
  }

  void add_backing() {
    if (!quilt_.backing) return;
    YardageOptions yardage = options_.yardage;
    yardage.backing_upright = yardage.backing_upright || is_upright(quilt_.backing->print);
    const BackingPlan backing = backing_plan(plan_.width, plan_.height, quilt_.backing->over, yardage, list_.ruler);
    Part part;
    part.print = quilt_.backing->print;
    part.part = "backing";
    part.turnable = false;
    const Length width = backing.chosen.panel_width;
    const Length length = backing.chosen.panel_length;
    part.shape.shape = width == length ? Shape::square : Shape::rectangle;
    part.shape.width = measured(width, list_.ruler);
    part.shape.height = measured(length, list_.ruler);
    part.shape.finished_width = width - 2 * options_.yardage.backing_seam;
    part.shape.finished_height = length;
    part.shape.cut_line = rectangle({}, {}, width, length);
    part.shape.working = backing.chosen.says + "; " + backing.why;
    part.note = "length along the selvage";
    gathering_.add(std::move(part), backing.chosen.panels);
  }

  const quilt::Quilt& quilt_;
  CutOptions options_;
  setting::Plan plan_;
  CutList list_;
  Gathering gathering_;
  std::vector<std::vector<Goose>> geese_;
  std::vector<std::vector<CorneredPatch>> cornered_;
  std::map<std::tuple<int, Length, int, int>, int> fours_;  ///< geese by pattern, long side, their print, the sky's
  std::map<std::tuple<int, Length, int>, std::set<std::string>>
      slots_of_squares_;  ///< by pattern, finished size, print
  std::set<std::string> remarked_;
};

}  // namespace

int Run::strips_of(Length strip) const {
  if (total <= strip) return 1;
  return static_cast<int>(std::ceil((total - join_loss - kHair).inches() / (strip - join_loss).inches()));
}

std::vector<Strips> Run::cut_from(Length strip, Ruler ruler) const {
  const int strips = strips_of(strip);
  const Length needed = total - (strips - 1) * (strip - join_loss);
  const Length last = up_to_mark(needed, ruler);
  if (strips == 1) return {{last, 1}};
  if (last >= strip - step_of(ruler)) return {{strip, strips}};  // so two that share alike come out of their own length
  if (last >= join_loss + Length::inches(8)) return {{strip, strips - 1}, {last, 1}};
  std::vector<Strips> cut;
  if (strips > 2) cut.push_back({strip, strips - 2});
  cut.push_back({up_to_mark(times(0.5, strip + needed), ruler), 2});
  return cut;
}

setting::Plan frame_plan(const quilt::Quilt& quilt, const CutOptions& options) {
  const Length seams = 2 * quilt.seam_allowance;
  if (options.test_block) {
    return setting::plan_of(quilt.setting, options.test_block->width - seams, options.test_block->height - seams);
  }
  if (quilt.test_block) {
    return setting::plan_of(quilt.setting, quilt.test_block->width - seams, quilt.test_block->height - seams);
  }
  return quilt::plan_of(quilt);
}

CutList cut_list(const quilt::Quilt& quilt, const CutOptions& options) { return ListMaker(quilt, options).run(); }

}  // namespace farflung::cloth
