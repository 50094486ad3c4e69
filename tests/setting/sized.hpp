// Settings of a size, as the tests of this folder begin with.
#pragma once

#include "setting/setting.hpp"

namespace farflung::setting {

inline Length in(double inches) { return Length::inches(inches); }

inline Setting sized(Setting::Kind kind, int rows, int columns) {
  Setting setting;
  setting.kind = kind;
  setting.rows = rows;
  setting.columns = columns;
  return setting;
}

}  // namespace farflung::setting
