#include "base/length_text.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <utility>

namespace farflung {
namespace {

constexpr double kLongest = 1e7;  // millimetres

/// Reads a length from its front; what is left of the text is what has not been read yet.
class LengthText {
 public:
  explicit LengthText(std::string_view text) : left_(text) {}

  std::optional<double> value() {
    skip_spaces();
    const bool negative = take("-") || take("\u2212");
    if (!negative) take("+");
    const std::optional<double> size = magnitude();
    skip_spaces();
    if (!size) return std::nullopt;
    return negative ? -*size : *size;
  }

  /// Millimetres in the unit that ends the text; none where something else does.
  std::optional<double> unit(double where_none) {
    static constexpr std::array<std::pair<std::string_view, double>, 17> kUnits = {{{"inches", 25.4},
                                                                                    {"inch", 25.4},
                                                                                    {"in.", 25.4},
                                                                                    {"in", 25.4},
                                                                                    {"\"", 25.4},
                                                                                    {"\u2033", 25.4},
                                                                                    {"\u201d", 25.4},
                                                                                    {"feet", 304.8},
                                                                                    {"foot", 304.8},
                                                                                    {"ft", 304.8},
                                                                                    {"yards", 914.4},
                                                                                    {"yard", 914.4},
                                                                                    {"yd", 914.4},
                                                                                    {"mm", 1.0},
                                                                                    {"cm", 10.0},
                                                                                    {"m", 1000.0},
                                                                                    {"", 0.0}}};
    for (const auto& [name, millimetres] : kUnits) {
      std::string_view before = left_;
      if (take(name)) {
        skip_spaces();
        if (left_.empty()) return millimetres > 0 ? millimetres : where_none;
      }
      left_ = before;
    }
    return std::nullopt;
  }

 private:
  void skip_spaces() {
    while (take(" ") || take("\t") || take("\u00a0") || take("\u202f")) {
    }
  }

  bool take(std::string_view what) {
    if (left_.substr(0, what.size()) != what) return false;
    left_.remove_prefix(what.size());
    return true;
  }

  /// The digits at the front; at most nine, lest they overflow.
  std::optional<double> digits(std::size_t* count = nullptr) {
    std::size_t n = 0;
    double value = 0;
    while (n < left_.size() && left_[n] >= '0' && left_[n] <= '9') value = value * 10 + (left_[n++] - '0');
    if (count != nullptr) *count = n;
    if (n == 0 || n > 9) return std::nullopt;
    left_.remove_prefix(n);
    return value;
  }

  std::optional<double> magnitude() {
    if (const std::optional<double> sign = fraction_sign()) return sign;
    const std::string_view start = left_;
    const std::optional<double> whole = digits();
    if (take("/")) return whole ? over(*whole) : std::nullopt;
    if (const bool comma = take(","); comma || take(".")) return decimal(start, comma);
    if (!whole) return std::nullopt;
    const std::string_view after_whole = left_;
    if (!take("-")) skip_spaces();
    if (const std::optional<double> sign = fraction_sign()) return *whole + *sign;
    if (const std::optional<double> above = digits()) {
      if (!take("/")) return std::nullopt;
      const std::optional<double> part = over(*above);
      return part ? std::optional(*whole + *part) : std::nullopt;
    }
    left_ = after_whole;
    return whole;
  }

  std::optional<double> over(double above) {
    const std::optional<double> below = digits();
    if (!below || *below == 0) return std::nullopt;
    return above / *below;
  }

  /// The digits from `start`, with a point or comma that has just been read, as one number, correctly rounded.
  std::optional<double> decimal(std::string_view start, bool comma) {
    std::size_t count = 0;
    const bool given = digits(&count).has_value();
    if (count > 9 || (count == 3 && comma && start.front() != '0' && start.front() != ',')) return std::nullopt;
    std::string number(start.substr(0, start.size() - left_.size()));
    if (!given && number.size() == 1) return std::nullopt;
    for (char& c : number) c = c == ',' ? '.' : c;
    double value = 0;
    if (number.front() == '.') number.insert(0, "0");
    const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), value);
    return error == std::errc() && end == number.data() + number.size() ? std::optional(value) : std::nullopt;
  }

  std::optional<double> fraction_sign() {
    static constexpr std::array<std::pair<std::string_view, double>, 9> kSigns = {{{"\u00bd", 1.0 / 2},
                                                                                   {"\u00bc", 1.0 / 4},
                                                                                   {"\u00be", 3.0 / 4},
                                                                                   {"\u2153", 1.0 / 3},
                                                                                   {"\u2154", 2.0 / 3},
                                                                                   {"\u215b", 1.0 / 8},
                                                                                   {"\u215c", 3.0 / 8},
                                                                                   {"\u215d", 5.0 / 8},
                                                                                   {"\u215e", 7.0 / 8}}};
    for (const auto& [sign, value] : kSigns) {
      if (take(sign)) return value;
    }
    return std::nullopt;
  }

  std::string_view left_;
};

double millimetres_in(LengthUnit unit) {
  switch (unit) {
    case LengthUnit::feet:
      return 304.8;
    case LengthUnit::yards:
      return 914.4;
    case LengthUnit::millimetres:
      return 1;
    case LengthUnit::centimetres:
      return 10;
    case LengthUnit::metres:
      return 1000;
    default:
      return 25.4;
  }
}

}  // namespace

std::optional<Length> length_from_text(std::string_view text, LengthUnit unit) {
  LengthText reading(text);
  const std::optional<double> value = reading.value();
  if (!value) return std::nullopt;
  const std::optional<double> millimetres = reading.unit(millimetres_in(unit));
  if (!millimetres || std::abs(*value * *millimetres) > kLongest) return std::nullopt;
  if (*millimetres == 25.4) return Length::inches(*value);
  return Length::millimetres(*value * *millimetres);
}

std::string ruler_text(Length length, int parts) {
  long long count = std::llround(std::abs(length.inches()) * parts);
  const bool negative = length < Length() && count > 0;
  const long long whole = count / parts;
  long long above = count % parts;
  long long below = parts;
  while (above > 0 && above % 2 == 0 && below % 2 == 0) {
    above /= 2;
    below /= 2;
  }
  std::string text = negative ? "-" : "";
  if (whole > 0 || above == 0) text += std::to_string(whole);
  if (above > 0) text += (whole > 0 ? " " : "") + std::to_string(above) + "/" + std::to_string(below);
  return text;
}

std::string metric_text(Length length) {
  const long long millimetres = std::llround(std::abs(length.millimetres()));
  const std::string sign = length < Length() && millimetres > 0 ? "-" : "";
  if (millimetres < 10) return sign + std::to_string(millimetres) + " mm";
  const std::string tenth = millimetres % 10 == 0 ? "" : "." + std::to_string(millimetres % 10);
  return sign + std::to_string(millimetres / 10) + tenth + " cm";
}

}  // namespace farflung
