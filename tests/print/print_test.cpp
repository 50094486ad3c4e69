#include "print/print.hpp"

#include <set>

#include <gtest/gtest.h>

namespace farflung::print {
namespace {

std::vector<Print> named(const std::vector<std::string>& names) {
  std::vector<Print> prints;
  for (const std::string& name : names) {
    prints.emplace_back();
    prints.back().name = name;
  }
  return prints;
}

std::vector<Print> with_lightness(const std::vector<double>& lightness) {
  std::vector<Print> prints(lightness.size());
  for (std::size_t i = 0; i < lightness.size(); ++i) prints[i].features.lab.L = lightness[i];
  return prints;
}

TEST(Names, APrintWithoutOneIsCalledByItsId) {
  std::vector<Print> prints = named({"Kelp", ""});
  prints[0].id = "P01";
  prints[1].id = "P02";
  EXPECT_EQ(name_of(prints[0]), "Kelp");
  EXPECT_EQ(name_of(prints[1]), "P02");
}

TEST(Codes, AreTakenFromTheNameWhereThatCanBe) {
  std::vector<Print> prints = named({"Kelp", "Kittiwake", "Foghorn"});
  give_codes(prints);
  EXPECT_EQ(prints[0].code, "K");
  EXPECT_EQ(prints[1].code, "KT");
  EXPECT_EQ(prints[2].code, "F");
}

TEST(Codes, ANumberBeforeTheNameIsNoneOfIt) {
  std::vector<Print> prints = named({"05 nightwatch", "10 nightjar", "2468"});
  give_codes(prints);
  EXPECT_EQ(prints[0].code, "N");
  EXPECT_EQ(prints[1].code, "NG");
  EXPECT_EQ(prints[2].code, "A") << "a name of digits alone has no letter of its own";
}

TEST(Codes, GivenOnesAreKept) {
  std::vector<Print> prints = named({"Kelp", "Kittiwake"});
  prints[1].code = "K";
  give_codes(prints);
  EXPECT_EQ(prints[0].code, "KE");
  EXPECT_EQ(prints[1].code, "K");
}

TEST(Codes, AreAllDifferentAndNeverMisreadInAnyScript) {
  std::vector<std::string> names(200, "海藻");
  names.emplace_back("Oilskin");
  names.emplace_back("Island");
  std::vector<Print> prints = named(names);
  give_codes(prints);
  std::set<std::string> seen;
  for (const Print& print : prints) {
    EXPECT_TRUE(seen.insert(print.code).second) << print.code;
    EXPECT_GE(print.code.size(), 1U);
    EXPECT_LE(print.code.size(), 2U);
    EXPECT_EQ(print.code.find_first_of("OI01"), std::string::npos) << print.code;
  }
}

TEST(ValueClasses, CutTheBundleWhereItsValuesPart) {
  const auto classes = value_classes(with_lightness({30, 88, 55, 25, 60, 91}));
  EXPECT_EQ(classes, (std::vector<ValueClass>{ValueClass::dark, ValueClass::light, ValueClass::medium, ValueClass::dark,
                                              ValueClass::medium, ValueClass::light}));
}

TEST(ValueClasses, ABundleOfOneValueIsAllMedium) {
  for (ValueClass value : value_classes(with_lightness({50, 52, 55, 58}))) EXPECT_EQ(value, ValueClass::medium);
}

TEST(ValueClasses, TwoPrintsApartAreADarkAndALight) {
  EXPECT_EQ(value_classes(with_lightness({70, 30})), (std::vector<ValueClass>{ValueClass::light, ValueClass::dark}));
}

}  // namespace
}  // namespace farflung::print
