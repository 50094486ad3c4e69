#include "job/drawn.hpp"

#include <cmath>
#include <filesystem>

#include "block/slot_words.hpp"
#include "colour/typed.hpp"
#include "draw/pieces.hpp"
#include "draw/top.hpp"
#include "job/drawn_json.hpp"
#include "swap/by_hand.hpp"

namespace farflung::job {
namespace {

double rounded(double value) { return std::round(value * 10'000) / 10'000; }

Report index_json(int index) { return index == quilt::kNone ? Report(nullptr) : Report(index); }

Report prints_json(const quilt::Quilt& quilt) {
  const std::vector<print::ValueClass> classes = print::value_classes(quilt.prints);
  Report list = Report::array();
  for (std::size_t i = 0; i < quilt.prints.size(); ++i) {
    const print::Print& print = quilt.prints[i];
    list.push_back({{"id", print.id},
                    {"code", print.code},
                    {"name", print.name},
                    {"colour", colour::hex(print.features.lab)},
                    {"lightness", rounded(print.features.lab.L)},
                    {"value", print::name_of(classes[i])},
                    {"swatch", std::filesystem::path(print.swatch).filename().string()},
                    {"swatch_width", print.swatch_width.value_or(draw::kAssumedSwatchWidth).inches()},
                    {"upright", print.upright}});
  }
  return list;
}

Report cells_json(const setting::Plan& plan) {
  Report list = Report::array();
  for (std::size_t cell = 0; cell < plan.cells.size(); ++cell) {
    const setting::Cell& place = plan.cells[cell];
    const draw::Vec centre = draw::inches(place.centre);
    list.push_back({{"row", place.row},
                    {"column", place.column},
                    {"name", cell_name(place)},
                    {"centre", {rounded(centre.x), rounded(centre.y)}},
                    {"outline", points_json(draw::outline_of_cell(plan, static_cast<int>(cell)))}});
  }
  return list;
}

const char* role_name(setting::FramePatch::Role role) {
  switch (role) {
    case setting::FramePatch::Role::sashing:
      return "sashing";
    case setting::FramePatch::Role::cornerstone:
      return "cornerstone";
    case setting::FramePatch::Role::filler:
      return "filler";
    case setting::FramePatch::Role::border:
      return "border";
    case setting::FramePatch::Role::border_corner:
      return "border corner";
  }
  return "";
}

Report frame_json(const quilt::Quilt& quilt, const setting::Plan& plan) {
  Report list = Report::array();
  for (std::size_t i = 0; i < plan.frame.size(); ++i) {
    const setting::FramePatch& patch = plan.frame[i];
    Report entry = {{"role", role_name(patch.role)},
                    {"part", patch.part},
                    {"print", index_json(patch.print)},
                    {"outline", points_json(draw::inches(patch.polygon))}};
    const draw::Paint paint = draw::paint_of_frame(quilt, plan, static_cast<int>(i));
    if (const auto* cloth = std::get_if<draw::Cloth>(&paint)) {
      entry["cloth"] = {
          {"degrees", rounded(cloth->degrees)}, {"across", rounded(cloth->across)}, {"down", rounded(cloth->down)}};
    }
    list.push_back(std::move(entry));
  }
  return list;
}

Report blocks_json(const quilt::Quilt& quilt) {
  const Report prints = prints_by_patch(quilt);
  Report list = Report::array();
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    const block::Block& block = quilt.blocks[b];
    Report crops = Report::array();
    for (const draw::Piece& piece : draw::pieces_of_block(quilt, static_cast<int>(b), Turn())) {
      const auto* cloth = std::get_if<draw::Cloth>(&piece.paint);
      crops.push_back(cloth == nullptr ? Report({0, 0}) : Report({rounded(cloth->across), rounded(cloth->down)}));
    }
    list.push_back({{"id", block.id},
                    {"pattern", block.pattern},
                    {"prints", prints[b]},
                    {"crops", crops},
                    {"sewn", block.sewn},
                    {"cut_turn", block.sewn ? Report(block.cut_turn.quarters()) : Report(nullptr)}});
  }
  return list;
}

}  // namespace

Report points_json(const draw::Outline& outline) {
  Report list = Report::array();
  for (const draw::Vec point : outline) list.push_back({rounded(point.x), rounded(point.y)});
  return list;
}

Report prints_by_patch(const quilt::Quilt& quilt) {
  Report list = Report::array();
  for (const block::Block& block : quilt.blocks) {
    Report prints = Report::array();
    for (const block::Patch& patch : quilt.patterns[static_cast<std::size_t>(block.pattern)].patches) {
      prints.push_back(index_json(quilt::print_of_slot(quilt, block, patch.slot)));
    }
    list.push_back(std::move(prints));
  }
  return list;
}

Report layout_json(const quilt::Quilt& quilt) {
  const setting::Arrangement& layout = quilt.layout;
  const std::vector<int> together = swap::sewn_together(quilt);
  Report sewn = Report::array();
  Report blocks = Report::array();
  Report turns = Report::array();
  Report kept = Report::array();
  for (std::size_t cell = 0; cell < layout.block.size(); ++cell) {
    blocks.push_back(index_json(layout.block[cell]));
    turns.push_back(layout.turn[cell].quarters());
    kept.push_back(swap::is_kept_by_hand(quilt, static_cast<int>(cell)));
    sewn.push_back(index_json(together[cell]));
  }
  return {{"block", blocks}, {"turn", turns}, {"kept", kept}, {"sewn", sewn}};
}

Report patterns_json(const std::vector<block::Pattern>& patterns) {
  Report list = Report::array();
  for (const block::Pattern& pattern : patterns) {
    Report turns = Report::array();
    for (const Turn turn : pattern.turns) turns.push_back(turn.quarters());
    Report patches = Report::array();
    for (const block::Patch& patch : pattern.patches) {
      patches.push_back({{"slot", pattern.slots[static_cast<std::size_t>(patch.slot)].name},
                         {"outline", points_json(draw::inches(patch.polygon))}});
    }
    Report slots = Report::array(), values = Report::array();
    for (const block::Slot& slot : pattern.slots) {
      slots.push_back(slot.name);
      values.push_back(block::word_of(slot.value));
    }
    list.push_back({{"id", pattern.id},
                    {"name", pattern.name},
                    {"width", pattern.width.inches()},
                    {"height", pattern.height.inches()},
                    {"turns", turns},
                    {"slots", slots},
                    {"values", values},
                    {"patches", patches}});
  }
  return list;
}

Outcome drawn(const std::string& folder) {
  Result<project::Document> document = project::read(folder);
  if (!document) return document.problems();
  const quilt::Quilt& quilt = document->quilt;
  const setting::Plan plan = quilt::plan_of(quilt);
  Report report = new_report();
  report["title"] = quilt.title;
  report["units"] = quilt::unit_name(quilt.units);
  report["width"] = plan.width.inches();
  report["height"] = plan.height.inches();
  report["finished_size"] = draw::finished_size(quilt, plan);
  report["pitch"] = plan.pitch;
  report["on_point"] = plan.on_point;
  report["block_width"] = plan.block_width.inches();
  report["block_height"] = plan.block_height.inches();
  report["prints"] = prints_json(quilt);
  report["cells"] = cells_json(plan);
  report["frame"] = frame_json(quilt, plan);
  report["patterns"] = patterns_json(quilt.patterns);
  report["blocks"] = blocks_json(quilt);
  report["layout"] = layout_json(quilt);
  report["spares"] = quilt::spares(quilt);
  return Answer{"", text_of(report), {}, true};
}

}  // namespace farflung::job
