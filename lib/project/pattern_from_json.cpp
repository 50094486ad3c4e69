#include "base/limits.hpp"
#include "project/quilt_parts.hpp"

namespace farflung::project {
namespace {

std::optional<block::Unit> unit_from(const Place& place) {
  if (place.value().is_number_integer()) return block::Unit{block::Unit::Kind::patch, place.whole(0)};
  const std::string text = place.text();
  const std::optional<std::size_t> step = text.empty() || text[0] != '#' ? std::nullopt : index_token(text.substr(1));
  if (!step) return std::nullopt;
  return block::Unit{block::Unit::Kind::step, static_cast<int>(*step)};
}

block::Patch patch_from(Reading& reading, const Place& place, const block::Pattern& pattern) {
  block::Patch patch;
  const Place slot = place / "slot";
  patch.slot = pattern.slot_named(slot.text());
  if (patch.slot == kNone) {
    if (slot.value().is_string()) {
      reading.add(slot, "the pattern has no slot " + slot.text(), "name one of its slots, or add this one");
    }
    patch.slot = 0;
  }
  for (const Place& corner : (place / "polygon").items()) {
    const std::vector<Place> xy = corner.items();
    if (xy.size() == 2) patch.polygon.push_back({reading.length(xy[0]), reading.length(xy[1])});
  }
  return patch;
}

block::Pressing pressing_from(Reading& reading, const Place& place) {
  using Kind = block::Pressing::Kind;
  if (place.text() == "spun") return {Kind::spun, {}};
  if (const auto side = unit_from(place)) return {Kind::toward, *side};
  if (place.value().is_string() && place.text() != "open") {
    reading.add(place, "\"" + place.text() + "\" is no way to press",
                "write a patch's index, \"#0\" for what step 0 made, \"open\" or \"spun\"");
  }
  return {Kind::open, {}};
}

block::PiecingStep step_from(Reading& reading, const Place& place) {
  block::PiecingStep step;
  for (const Place& item : (place / "join").items()) {
    if (const auto side = unit_from(item)) {
      step.join.push_back(*side);
    } else if (item.value().is_string()) {
      reading.add(item, "\"" + item.text() + "\" is neither a patch nor a step",
                  "write a patch's index, or \"#0\" for what step 0 made");
    }
  }
  step.press = pressing_from(reading, place / "press");
  return step;
}

}  // namespace

bool within_limits(Reading& reading, const Place& pattern) {
  const auto check = [&](const Place& list, std::size_t most) {
    if (list.size() <= most) return true;
    reading.refuse(list, "has " + std::to_string(list.size()) + " entries, the most is " + std::to_string(most),
                   "use a simpler pattern");
    return false;
  };
  if (!check(pattern / "patches", limits::kPatches) || !check(pattern / "slots", limits::kSlots)) return false;
  if (!check(pattern / "piecing", 2 * limits::kPatches)) return false;
  for (const Place& patch : (pattern / "patches").items()) {
    if (!check(patch / "polygon", limits::kCorners)) return false;
  }
  for (const Place& step : (pattern / "piecing").items()) {
    if (!check(step / "join", limits::kPatches)) return false;
  }
  return true;
}

void check_patterns(Reading& reading, const Place& patterns) {
  std::size_t all = 0;
  for (const Place& pattern : patterns.items()) {
    if (!within_limits(reading, pattern)) return;
    all += (pattern / "patches").size();
  }
  if (all > limits::kAllPatches) {
    reading.refuse(patterns,
                   "have " + std::to_string(all) + " patches, the most is " + std::to_string(limits::kAllPatches),
                   "use fewer or simpler patterns");
  }
}

block::Pattern pattern_from(Reading& reading, const Place& place) {
  block::Pattern pattern;
  pattern.id = (place / "id").text();
  pattern.name = (place / "name").text();
  pattern.width = reading.width(place / "width");
  pattern.height = reading.width(place / "height");
  if ((place / "turns").value().is_array()) pattern.turns.clear();
  for (const Place& turn : (place / "turns").items()) pattern.turns.push_back(Turn::quarters(turn.whole(0)));
  for (const auto& [name, slot] : (place / "slots").entries()) {
    using Value = block::Slot::Value;
    const auto value =
        worded<Value>(slot / "value", {{"any", Value::any}, {"light", Value::light}, {"dark", Value::dark}});
    pattern.slots.push_back({name, reading.print_named(slot / "print"), (slot / "may_touch").flag(false), value});
  }
  for (const Place& item : (place / "patches").items()) pattern.patches.push_back(patch_from(reading, item, pattern));
  for (const Place& item : (place / "piecing").items()) pattern.piecing.push_back(step_from(reading, item));
  return pattern;
}

}  // namespace farflung::project
