#include "base/limits.hpp"
#include "project/quilt_parts.hpp"

namespace farflung::project {
namespace {

void check_cells(Reading& reading, const Place& place, const setting::Setting& setting) {
  const std::int64_t lists = setting.kind == setting::Setting::Kind::on_point ? 2LL * setting.rows : setting.rows;
  if (lists <= 0 || setting.columns <= 0) {
    if (place.given()) reading.give_up();
    if (reading.shape_is_right() && place.given())
      reading.add(place, "has no cells", "give it a row and a column at least");
  } else if (lists * setting.columns > limits::kCells) {
    reading.refuse(place,
                   std::to_string(setting.rows) + " rows of " + std::to_string(setting.columns) + " are more than " +
                       std::to_string(limits::kCells) + " cells",
                   "make it a smaller quilt");
  }
}

setting::Sashing sashing_from(Reading& reading, const Place& place) {
  return {reading.width(place / "width"), reading.print_named(place / "print"),
          reading.print_named(place / "cornerstone"), (place / "outer").flag(false)};
}

setting::Border border_from(Reading& reading, const Place& place) {
  using Corners = setting::Border::Corners;
  setting::Border border;
  border.width = reading.width(place / "width");
  border.print = reading.print_named(place / "print");
  border.corners = worded<Corners>(
      place / "corners",
      {{"butted", Corners::butted}, {"cornerstone", Corners::cornerstone}, {"mitred", Corners::mitred}});
  border.cornerstone = reading.print_named(place / "cornerstone");
  return border;
}

}  // namespace

setting::Setting setting_from(Reading& reading, const Place& place) {
  using Kind = setting::Setting::Kind;
  setting::Setting setting;
  setting.kind = worded<Kind>(place / "kind",
                              {{"straight", Kind::straight}, {"brick", Kind::brick}, {"on point", Kind::on_point}});
  setting.rows = (place / "rows").whole(0);
  setting.columns = (place / "columns").whole(0);
  check_cells(reading, place, setting);
  for (const Place& row : (place / "alternate").items()) {
    setting.alternate.emplace_back();
    for (const Place& item : row.items()) setting.alternate.back().push_back(reading.pattern_named(item));
  }
  if ((place / "sashing").given()) setting.sashing = sashing_from(reading, place / "sashing");
  setting.filler = reading.print_named(place / "filler");
  if ((place / "borders").size() > limits::kBorders) {
    reading.refuse(place / "borders", "more than " + std::to_string(limits::kBorders) + " borders", "use fewer");
    return setting;
  }
  for (const Place& item : (place / "borders").items()) setting.borders.push_back(border_from(reading, item));
  return setting;
}

quilt::Binding binding_from(Reading& reading, const Place& place) {
  quilt::Binding binding;
  binding.print = reading.print_named(place / "print");
  binding.width = reading.width(place / "width", binding.width);
  binding.bias = (place / "bias").flag(false);
  return binding;
}

quilt::Backing backing_from(Reading& reading, const Place& place) {
  quilt::Backing backing;
  backing.print = reading.print_named(place / "print");
  backing.over = reading.length(place / "over", backing.over);
  if (backing.over < Length())
    reading.add(place / "over", "must not be less than 0", "write how far the backing reaches out");
  return backing;
}

}  // namespace farflung::project
