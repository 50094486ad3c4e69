#include "project/json_from_quilt.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "block/slot_words.hpp"
#include "project/object_writer.hpp"

namespace farflung::project {
namespace {

using block::kNone;

const char* corners_text(setting::Border::Corners corners) {
  using Corners = setting::Border::Corners;
  return corners == Corners::cornerstone ? "cornerstone" : corners == Corners::mitred ? "mitred" : "butted";
}

const char* direction_text(print::Direction::Kind kind) {
  using Kind = print::Direction::Kind;
  return kind == Kind::stripe ? "stripe" : kind == Kind::one_way ? "one-way" : "none";
}

Json lab_json(colour::Lab lab) { return {number_json(lab.L), number_json(lab.a), number_json(lab.b)}; }

Json unit_json(block::Unit unit) {
  if (unit.kind == block::Unit::Kind::patch) return unit.index;
  return "#" + std::to_string(unit.index);
}

Json press_json(const block::Pressing& press) {
  using Kind = block::Pressing::Kind;
  if (press.kind == Kind::toward) return unit_json(press.toward);
  return press.kind == Kind::spun ? "spun" : "open";
}

class Writer {
 public:
  explicit Writer(const quilt::Quilt& quilt) : quilt_(quilt) {}

  Json write(const Json& original) const {
    ObjectWriter out = over(original);
    out.put("format", "farflung-quilt");
    out.put("version", 1);
    out.text("title", quilt_.title, "");
    out.put("units", quilt::unit_name(quilt_.units));
    out.put_length("seam_allowance", quilt_.seam_allowance);
    out.put("prints", with_ids(quilt_.prints, out.before("prints"), &Writer::print));
    out.put("patterns", with_ids(quilt_.patterns, out.before("patterns"), &Writer::pattern));
    out.put("setting", setting(out.before("setting")));
    out.put_if("binding", quilt_.binding.has_value(), binding(out.before("binding")));
    out.put_if("backing", quilt_.backing.has_value(), backing(out.before("backing")));
    out.put_if("test_block", quilt_.test_block.has_value(), test_block(out.before("test_block")));
    out.put("blocks", with_ids(quilt_.blocks, out.before("blocks"), &Writer::block));
    out.put("layout", layout(out.before("layout")));
    out.put("goals", goals(out.before("goals")));
    if (!(quilt_.gradation == quilt::Gradation()) || out.before("gradation").is_object()) {
      out.put("gradation", gradation(out.before("gradation")));
    }
    return std::move(out).finish();
  }

 private:
  ObjectWriter over(const Json& original) const { return {original, quilt_.units}; }

  template <typename Item>
  Json with_ids(const std::vector<Item>& items, const Json& original,
                Json (Writer::*write_one)(const Item&, const Json&) const) const {
    const OriginalsById originals(original);
    Json list = Json::array();
    for (const Item& item : items) list.push_back((this->*write_one)(item, originals[item.id]));
    return list;
  }

  /// A list whose entries have no ids: each over what stood at its index.
  template <typename Item>
  Json by_index(const std::vector<Item>& items, const Json& original,
                Json (Writer::*write_one)(const Item&, const Json&) const) const {
    Json list = Json::array();
    for (const Item& item : items) list.push_back((this->*write_one)(item, original_at(original, list.size())));
    return list;
  }

  /// A list that is left out while it is empty, unless it was written so before.
  void put_list(ObjectWriter& out, const std::string& key, Json list) const {
    if (list.empty() && !out.before(key).is_array()) return out.keep(key);
    out.put(key, std::move(list));
  }

  const std::string& print_id(int print) const { return quilt_.prints[print].id; }

  /// The print of something that may have none; null stays null.
  void put_print(ObjectWriter& out, const std::string& key, int print) const {
    out.put_if(key, print != kNone, print == kNone ? Json() : Json(print_id(print)));
  }

  Json print(const print::Print& print, const Json& original) const {
    ObjectWriter out = over(original);
    out.put("id", print.id);
    out.text("code", print.code, "");
    out.text("name", print.name, "");
    out.text("swatch", print.swatch, "");
    if (print.swatch_width) {
      out.put_length("swatch_width", *print.swatch_width);
    } else {
      out.put_if("swatch_width", false, nullptr);
    }
    out.flag("upright", print.upright, false);
    put_list(out, "cloth", by_index(print.cloth, out.before("cloth"), &Writer::cloth));
    out.put_if("photo", print.photo.has_value(), print.photo ? sighting(*print.photo, out.before("photo")) : Json());
    out.put("features", features(print.features, out.before("features")));
    return std::move(out).finish();
  }

  Json cloth(const print::Cloth& cloth, const Json& original) const {
    ObjectWriter out = over(original);
    out.text("kind", cloth.kind, "");
    out.put_length("width", cloth.width);
    out.put_length("length", cloth.length);
    out.number("count", cloth.count, 1);
    out.text("lot", cloth.lot, "");
    out.put_if("price", cloth.price.has_value(), number_json(cloth.price.value_or(0)));
    return std::move(out).finish();
  }

  Json sighting(const print::Sighting& sighting, const Json& original) const {
    ObjectWriter out = over(original);
    out.put("file", sighting.file);
    Json corners = Json::array();
    for (const auto& [x, y] : sighting.corners) corners.push_back({number_json(x), number_json(y)});
    out.put("corners", std::move(corners));
    out.text("reference", sighting.reference, "none");
    return std::move(out).finish();
  }

  Json features(const print::Features& features, const Json& original) const {
    ObjectWriter out = over(original);
    out.put("lab", lab_json(features.lab));
    put_list(out, "by_hand", features.by_hand);
    put_list(out, "palette", by_index(features.palette, out.before("palette"), &Writer::palette_colour));
    out.number("value_range", features.value_range, 0);
    out.put_if("scale", features.scale.has_value(), number_json(features.scale.value_or(0)));
    out.put_if("scale_share", features.scale_share.has_value(), number_json(features.scale_share.value_or(0)));
    out.number("busyness", features.busyness, 0);
    const bool directed = features.direction.kind != print::Direction::Kind::none || features.direction.degrees != 0;
    if (directed || out.before("direction").is_object()) {
      out.put("direction", direction(features.direction, out.before("direction")));
    } else {
      out.keep("direction");
    }
    return std::move(out).finish();
  }

  Json palette_colour(const print::PaletteColour& colour, const Json& original) const {
    ObjectWriter out = over(original);
    out.put("lab", lab_json(colour.lab));
    out.put("share", number_json(colour.share));
    return std::move(out).finish();
  }

  Json direction(const print::Direction& direction, const Json& original) const {
    ObjectWriter out = over(original);
    out.put("kind", direction_text(direction.kind));
    out.number("degrees", direction.degrees, 0);
    return std::move(out).finish();
  }

  Json pattern(const block::Pattern& pattern, const Json& original) const {
    ObjectWriter out = over(original);
    out.put("id", pattern.id);
    out.text("name", pattern.name, "");
    out.put_length("width", pattern.width);
    out.put_length("height", pattern.height);
    Json turns = Json::array();
    for (const Turn turn : pattern.turns) turns.push_back(turn.quarters());
    if (turns != Json::array({0}) || out.before("turns").is_array()) out.put("turns", std::move(turns));
    out.put("slots", slots(pattern, out.before("slots")));
    Json patches = Json::array();
    for (const block::Patch& patch : pattern.patches) {
      patches.push_back(this->patch(patch, pattern, original_at(out.before("patches"), patches.size())));
    }
    out.put("patches", std::move(patches));
    put_list(out, "piecing", by_index(pattern.piecing, out.before("piecing"), &Writer::step));
    return std::move(out).finish();
  }

  /// Slots stand in the pattern's order: a quilt's prints are told by it.
  Json slots(const block::Pattern& pattern, const Json& original) const {
    Json slots = Json::object();
    for (const block::Slot& slot : pattern.slots) {
      ObjectWriter out = over(original_under(original, slot.name));
      put_print(out, "print", slot.print);
      out.flag("may_touch", slot.may_touch, false);
      out.text("value", block::word_of(slot.value), "any");
      slots[slot.name] = std::move(out).finish();
    }
    return slots;
  }

  Json patch(const block::Patch& patch, const block::Pattern& pattern, const Json& original) const {
    ObjectWriter out = over(original);
    out.put("slot", pattern.slots[patch.slot].name);
    const Json& before = out.before("polygon");
    Json polygon = Json::array();
    for (const Point& point : patch.polygon) {
      const Json& old = original_at(before, polygon.size());
      polygon.push_back({coordinate(point.x, original_at(old, 0)), coordinate(point.y, original_at(old, 1))});
    }
    out.put("polygon", std::move(polygon));
    return std::move(out).finish();
  }

  Json coordinate(Length value, const Json& original) const {
    return length_from_json(original, quilt_.units) == value ? original : length_json(value, quilt_.units);
  }

  Json step(const block::PiecingStep& step, const Json& original) const {
    ObjectWriter out = over(original);
    Json join = Json::array();
    for (const block::Unit& unit : step.join) join.push_back(unit_json(unit));
    out.put("join", std::move(join));
    out.put("press", press_json(step.press));
    return std::move(out).finish();
  }

  Json setting(const Json& original) const {
    const setting::Setting& setting = quilt_.setting;
    ObjectWriter out = over(original);
    out.put("kind", setting::name_of(setting.kind));
    out.put("rows", setting.rows);
    out.put("columns", setting.columns);
    Json alternate = Json::array();
    for (const std::vector<int>& row : setting.alternate) {
      alternate.push_back(Json::array());
      for (const int pattern : row) alternate.back().push_back(quilt_.patterns[pattern].id);
    }
    put_list(out, "alternate", std::move(alternate));
    out.put_if("sashing", setting.sashing.has_value(), setting.sashing ? sashing(out.before("sashing")) : Json());
    put_print(out, "filler", setting.filler);
    put_list(out, "borders", by_index(setting.borders, out.before("borders"), &Writer::border));
    return std::move(out).finish();
  }

  Json sashing(const Json& original) const {
    const setting::Sashing& sashing = *quilt_.setting.sashing;
    ObjectWriter out = over(original);
    out.put_length("width", sashing.width);
    put_print(out, "print", sashing.print);
    put_print(out, "cornerstone", sashing.cornerstone);
    out.flag("outer", sashing.outer, false);
    return std::move(out).finish();
  }

  Json border(const setting::Border& border, const Json& original) const {
    ObjectWriter out = over(original);
    out.put_length("width", border.width);
    put_print(out, "print", border.print);
    out.text("corners", corners_text(border.corners), "butted");
    put_print(out, "cornerstone", border.cornerstone);
    return std::move(out).finish();
  }

  Json binding(const Json& original) const {
    if (!quilt_.binding) return nullptr;
    ObjectWriter out = over(original);
    put_print(out, "print", quilt_.binding->print);
    out.length("width", quilt_.binding->width, quilt::Binding().width);
    out.flag("bias", quilt_.binding->bias, false);
    return std::move(out).finish();
  }

  Json backing(const Json& original) const {
    if (!quilt_.backing) return nullptr;
    ObjectWriter out = over(original);
    put_print(out, "print", quilt_.backing->print);
    out.length("over", quilt_.backing->over, quilt::Backing().over);
    return std::move(out).finish();
  }

  Json block(const block::Block& block, const Json& original) const {
    ObjectWriter out = over(original);
    const block::Pattern& pattern = quilt_.patterns[block.pattern];
    out.put("id", block.id);
    out.put("pattern", pattern.id);
    out.put("prints", slot_prints(block, pattern, out.before("prints")));
    const bool drawn = block.press == block::Block::Press::drawn;
    out.put_if("press", block.press.has_value(), drawn ? "drawn" : "other");
    out.flag("sewn", block.sewn, false);
    out.number("cut_turn", block.cut_turn.quarters(), 0);
    return std::move(out).finish();
  }

  /// Every key here is a slot: those of a pattern that the block no longer has do not stay.
  Json slot_prints(const block::Block& block, const block::Pattern& pattern, const Json& original) const {
    Json prints = Json::object();
    for (std::size_t slot = 0; slot < block.prints.size(); ++slot) {
      const std::string& name = pattern.slots[slot].name;
      if (block.prints[slot] != kNone) {
        prints[name] = print_id(block.prints[slot]);
      } else if (original.is_object() && original.contains(name)) {
        prints[name] = nullptr;
      }
    }
    return prints;
  }

  Json test_block(const Json& original) const {
    if (!quilt_.test_block) return nullptr;
    ObjectWriter out = over(original);
    out.put("pattern", quilt_.patterns[quilt_.test_block->pattern].id);
    out.put_length("width", quilt_.test_block->width);
    out.put_length("height", quilt_.test_block->height);
    return std::move(out).finish();
  }

  /// [row, column] by cell.
  std::vector<std::array<int, 2>> places() const {
    std::vector<std::array<int, 2>> places;
    const std::vector<int> rows = setting::cells_in_rows(quilt_.setting);
    for (int row = 0; row < static_cast<int>(rows.size()); ++row) {
      for (int column = 0; column < rows[row]; ++column) places.push_back({row, column});
    }
    return places;
  }

  Json sewn_units(const Json& original) const {
    static const Json nothing;
    const auto place_of = places();
    Json list = Json::array();
    for (std::size_t i = 0; i < quilt_.sewn_units.size(); ++i) {
      const bool known = original.is_array() && i < original.size();
      ObjectWriter out = over(known ? original[i] : nothing);
      out.put("stage", quilt::stage_name(quilt_.sewn_units[i].stage));
      Json cells = Json::array();
      for (const int cell : quilt_.sewn_units[i].cells) cells.push_back(place_of[cell]);
      out.put("cells", std::move(cells));
      list.push_back(std::move(out).finish());
    }
    return list;
  }

  /// A cell is kept by its sewn unit anyway: it is told of only where it is kept by hand as well.
  bool told_kept(int cell) const {
    if (!quilt_.layout.kept[cell]) return false;
    bool sewn = false;
    for (const quilt::SewnUnit& unit : quilt_.sewn_units) {
      const auto names = [cell](const std::vector<int>& cells) {
        return std::find(cells.begin(), cells.end(), cell) != cells.end();
      };
      if (names(unit.kept_by_hand)) return true;
      sewn = sewn || names(unit.cells);
    }
    return !sewn;
  }

  Json layout(const Json& original) const {
    ObjectWriter out = over(original);
    Json cells = Json::array(), turns = Json::array(), kept = Json::array();
    bool turned = false;
    std::size_t cell = 0;
    for (const int length : setting::cells_in_rows(quilt_.setting)) {
      cells.push_back(Json::array());
      turns.push_back(Json::array());
      for (int column = 0; column < length; ++column, ++cell) {
        const int block = quilt_.layout.block[cell];
        cells.back().push_back(block == kNone ? Json() : Json(quilt_.blocks[block].id));
        turns.back().push_back(quilt_.layout.turn[cell].quarters());
        turned = turned || quilt_.layout.turn[cell] != Turn();
        if (told_kept(static_cast<int>(cell))) kept.push_back({static_cast<int>(cells.size()) - 1, column});
      }
    }
    out.put("cells", std::move(cells));
    if (turned || out.before("turns").is_array()) out.put("turns", std::move(turns));
    put_list(out, "kept", std::move(kept));
    put_list(out, "sewn", sewn_units(out.before("sewn")));
    return std::move(out).finish();
  }

  Json goals(const Json& original) const {
    const quilt::Goals& goals = quilt_.goals;
    ObjectWriter out = over(original);
    out.put("spread", number_json(goals.spread));
    out.put("coverage", number_json(goals.coverage));
    out.put("evenness", number_json(goals.evenness));
    out.put("streak", number_json(goals.streak));
    out.put("likeness", number_json(goals.likeness));
    out.text("likeness_by", goals.likeness_by_print ? "print" : "colour", "colour");
    out.put("corner", number_json(goals.corner));
    out.number("gradation", goals.gradation, 0);
    out.number("contrast", goals.contrast, 0);
    out.number("lines", goals.lines, 0);
    out.number("closest", goals.closest, 0);
    if (goals.nest_rule) {
      out.put("nest", "rule");
    } else if (out.before("nest").is_string()) {
      out.put("nest", number_json(goals.nest));
    } else {
      out.number("nest", goals.nest, 0);
    }
    return std::move(out).finish();
  }

  Json gradation(const Json& original) const {
    ObjectWriter out = over(original);
    out.put("way", quilt::way_name(quilt_.gradation.way));
    out.flag("dark_first", quilt_.gradation.dark_first, false);
    out.text("picture", quilt_.gradation.file, "");
    return std::move(out).finish();
  }

  const quilt::Quilt& quilt_;
};

}  // namespace

Json json_from_quilt(const quilt::Quilt& quilt, const Json& original) { return Writer(quilt).write(original); }

}  // namespace farflung::project
