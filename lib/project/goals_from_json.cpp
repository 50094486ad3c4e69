#include "project/quilt_parts.hpp"

namespace farflung::project {

quilt::Goals goals_from(const Place& place) {
  quilt::Goals goals;
  goals.spread = (place / "spread").number(goals.spread);
  goals.coverage = (place / "coverage").number(goals.coverage);
  goals.evenness = (place / "evenness").number(goals.evenness);
  goals.streak = (place / "streak").number(goals.streak);
  goals.likeness = (place / "likeness").number(goals.likeness);
  goals.likeness_by_print = (place / "likeness_by").text() == "print";
  goals.corner = (place / "corner").number(goals.corner);
  goals.gradation = (place / "gradation").number(goals.gradation);
  goals.contrast = (place / "contrast").number(goals.contrast);
  goals.lines = (place / "lines").number(goals.lines);
  goals.closest = (place / "closest").number(goals.closest);
  goals.nest = (place / "nest").number(goals.nest);
  goals.nest_rule = (place / "nest").text() == "rule";
  return goals;
}

quilt::Gradation gradation_from(Reading& reading, const Place& place) {
  quilt::Gradation gradation;
  gradation.way = quilt::way_named((place / "way").text()).value_or(gradation.way);
  gradation.dark_first = (place / "dark_first").flag(false);
  gradation.file = reading.file_within(place / "picture");
  if (gradation.way == quilt::Gradation::Way::picture && gradation.file.empty()) {
    reading.add(place / "picture", "a gradation after a picture has none",
                "name the picture's file, within the quilt's folder");
  }
  return gradation;
}

}  // namespace farflung::project
