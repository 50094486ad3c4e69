#include "support/worlds.hpp"

#include "support/patterns.hpp"

namespace farflung::support {

std::vector<World> worlds() {
  using Kind = setting::Setting::Kind;
  std::vector<World> all;
  const auto add = [&](const std::string& name, Wanted wanted) { all.push_back({name, wanted}); };

  Wanted plain;
  plain.rows = 4;
  plain.columns = 5;
  add("squares", plain);

  Wanted rails = plain;
  rails.patterns = {uneven_rails()};
  rails.background = 0;
  rails.spares = 3;
  add("uneven rails with spares", rails);

  Wanted sashed = plain;
  sashed.patterns = {half_square()};
  sashed.sashing = sashed.borders = true;
  add("half squares, sashed, with borders", sashed);

  Wanted holed = plain;
  holed.patterns = {four_patch(), nine_patch()};
  holed.holes = 3;
  holed.spares = 2;
  holed.borders = true;
  add("four and nine patches anywhere, with holes", holed);

  Wanted alternate = plain;
  alternate.patterns = {pinwheel(), plain_rails()};
  alternate.patterns[1].turns = {Turn(), Turn::quarters(1), Turn::quarters(2)};
  alternate.alternate = true;
  alternate.spares = 4;
  alternate.borders = true;
  add("pinwheels and rails in turn", alternate);

  Wanted brick = plain;
  brick.kind = Kind::brick;
  brick.patterns = {plain_rails()};
  brick.borders = true;
  add("rails as bricks", brick);

  Wanted diamond = plain;
  diamond.kind = Kind::on_point;
  diamond.rows = diamond.columns = 3;
  diamond.patterns = {uneven_rails()};
  diamond.background = 1;
  diamond.borders = true;
  add("uneven rails on point", diamond);

  Wanted sashed_diamond = diamond;
  sashed_diamond.patterns = {half_square(), square()};
  sashed_diamond.alternate = true;
  sashed_diamond.sashing = true;
  sashed_diamond.holes = 1;
  add("half squares and squares on point, sashed", sashed_diamond);
  return all;
}

}  // namespace farflung::support
