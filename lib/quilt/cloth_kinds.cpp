#include "quilt/cloth_kinds.hpp"

#include "base/typed_name.hpp"

namespace farflung::quilt {
namespace {

Length in(double inches) { return Length::inches(inches); }

}  // namespace

const std::vector<ClothKind>& cloth_kinds(Units units) {
  struct Size {
    Length width, length, usable_width, usable_length;
  };
  /// By the yard, or by the metre; what is cut before it is sold is of one size everywhere, but for a bolt's width.
  const auto sold = [](Size quarter, Size eighth, Size long_eighth, Length bolt, Length usable_bolt) {
    const auto kind = [](const char* name, const char* many, const Size& size) {
      return ClothKind{name, many, size.width, size.length, size.usable_width, size.usable_length};
    };
    return std::vector<ClothKind>{kind("fat quarter", "fat quarters", quarter),
                                  kind("fat eighth", "fat eighths", eighth),
                                  kind("long fat eighth", "long fat eighths", long_eighth),
                                  kind("charm square", "charm squares", {in(5), in(5), in(5), in(5)}),
                                  kind("10 in square", "10 in squares", {in(10), in(10), in(10), in(10)}),
                                  kind("2 1/2 in strip", "2 1/2 in strips", {bolt, in(2.5), usable_bolt, in(2.5)}),
                                  kind("yardage", "off the bolt", {bolt, Length(), usable_bolt, Length()})};
  };
  const auto mm = [](double millimetres) { return Length::millimetres(millimetres); };
  static const std::vector<ClothKind> by_the_yard =
      sold({in(22), in(18), in(20), in(17.5)}, {in(22), in(9), in(20), in(8.5)}, {in(11), in(18), in(10), in(17.5)},
           in(42), in(40));
  static const std::vector<ClothKind> by_the_metre =
      sold({mm(550), mm(500), mm(500), mm(485)}, {mm(550), mm(250), mm(500), mm(235)},
           {mm(275), mm(500), mm(250), mm(485)}, mm(1100), mm(1000));
  return units == Units::inches ? by_the_yard : by_the_metre;
}

const ClothKind* kind_named(const std::string& name, Units units) {
  const std::string plain = plain_name(name);
  for (const ClothKind& kind : cloth_kinds(units)) {
    if (plain == plain_name(kind.name) || plain == plain_name(kind.many)) return &kind;
  }
  return nullptr;
}

}  // namespace farflung::quilt
