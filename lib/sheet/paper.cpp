#include "sheet/paper.hpp"

#include <algorithm>
#include <cctype>

namespace farflung::sheet {

Paper letter() { return {"letter", 8.5 * kPointsPerInch, 11 * kPointsPerInch}; }
Paper a4() { return {"a4", 210 * kPointsPerMillimetre, 297 * kPointsPerMillimetre}; }

Result<Paper> paper_named(const std::string& name) {
  std::string plain = name;
  std::transform(plain.begin(), plain.end(), plain.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  for (Paper paper : {letter(), a4()}) {
    if (plain == paper.name) return paper;
  }
  return input_problem("paper", "\"" + name + "\" is no paper that the sheets are made for", "give letter or a4");
}

Result<Paper> paper_named(const std::string& name, quilt::Units units) {
  if (!name.empty()) return paper_named(name);
  return units == quilt::Units::inches ? letter() : a4();
}

draw::Box room_of(const Paper& paper) {
  return {kMargin, kMargin + kHeader, paper.width - 2 * kMargin, paper.height - 2 * kMargin - kHeader - kFooter};
}

}  // namespace farflung::sheet
