#include "project/quilt_parts.hpp"
#include "quilt/cloth_kinds.hpp"

namespace farflung::project {
namespace {

/// Every kind whose size is known, none of yardage's length: "fat quarter, fat eighth ...".
std::string kinds_of_one_size(quilt::Units units) {
  std::string names;
  for (const quilt::ClothKind& kind : quilt::cloth_kinds(units)) {
    if (kind.usable_length > Length()) names += (names.empty() ? "" : ", ") + std::string(kind.name);
  }
  return names;
}

/// One side of a cut of cloth, as its kind is sold where the file says nothing.
Length side_from(Reading& reading, const Place& place, Length as_sold) {
  if (!place.given() && as_sold <= Length() && reading.shape_is_right()) {
    reading.add(place, "is missing, must be a length",
                "write how much of it can be used; known by their kind are " + kinds_of_one_size(reading.units()));
  }
  return reading.width(place, as_sold);
}

print::Cloth cloth_from(Reading& reading, const Place& place) {
  print::Cloth cloth;
  cloth.kind = (place / "kind").text();
  const quilt::ClothKind* kind = quilt::kind_named(cloth.kind, reading.units());
  if (kind != nullptr) cloth.kind = kind->name;
  cloth.width = side_from(reading, place / "width", kind != nullptr ? kind->usable_width : Length());
  cloth.length = side_from(reading, place / "length", kind != nullptr ? kind->usable_length : Length());
  cloth.count = (place / "count").whole(1);
  cloth.lot = (place / "lot").text();
  if ((place / "price").given()) cloth.price = (place / "price").number(0);
  return cloth;
}

print::Sighting sighting_from(Reading& reading, const Place& place) {
  print::Sighting sighting;
  sighting.file = reading.file_within(place / "file");
  sighting.reference = (place / "reference").text("none");
  const std::vector<Place> corners = (place / "corners").items();
  for (std::size_t i = 0; i < corners.size() && i < sighting.corners.size(); ++i) {
    const std::vector<Place> xy = corners[i].items();
    if (xy.size() == 2) sighting.corners[i] = {xy[0].number(0), xy[1].number(0)};
  }
  return sighting;
}

print::Features features_from(const Place& place) {
  using Kind = print::Direction::Kind;
  print::Features features;
  features.lab = lab_from(place / "lab");
  for (const Place& told : (place / "by_hand").items()) features.by_hand.push_back(told.text());
  for (const Place& colour : (place / "palette").items()) {
    features.palette.push_back({lab_from(colour / "lab"), (colour / "share").number(0)});
  }
  features.value_range = (place / "value_range").number(0);
  if ((place / "scale").given()) features.scale = (place / "scale").number(0);
  if ((place / "scale_share").given()) features.scale_share = (place / "scale_share").number(0);
  features.busyness = (place / "busyness").number(0);
  const Place direction = place / "direction";
  features.direction.kind =
      worded<Kind>(direction / "kind", {{"none", Kind::none}, {"stripe", Kind::stripe}, {"one-way", Kind::one_way}});
  features.direction.degrees = (direction / "degrees").number(0);
  return features;
}

}  // namespace

print::Print print_from(Reading& reading, const Place& place) {
  print::Print print;
  print.id = (place / "id").text();
  print.code = (place / "code").text();
  print.name = (place / "name").text();
  print.swatch = reading.file_within(place / "swatch");
  if ((place / "swatch_width").given()) print.swatch_width = reading.width(place / "swatch_width");
  print.upright = (place / "upright").flag(false);
  for (const Place& cut : (place / "cloth").items()) print.cloth.push_back(cloth_from(reading, cut));
  if ((place / "photo").given()) print.photo = sighting_from(reading, place / "photo");
  print.features = features_from(place / "features");
  return print;
}

}  // namespace farflung::project
