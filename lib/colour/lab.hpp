// The colour that every other module speaks: CIELAB, D65, 2 degrees.
#pragma once

namespace farflung::colour {

/// CIE 1976 L*a*b* under D65, 2 degree observer (CIE 15:2004). L 0..100; a, b about -128..127.
struct Lab {
  double L = 0, a = 0, b = 0;
  friend bool operator==(const Lab&, const Lab&) = default;
};

/// CIEDE2000 with unit weights; symmetric; 1 is about the least difference seen side by side.
/// Source: Sharma, Wu and Dalal 2005, doi:10.1002/col.20070.
double delta_e_2000(Lab first, Lab second);

}  // namespace farflung::colour
