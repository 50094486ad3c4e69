#include "colour/typed.hpp"

#include <array>
#include <charconv>
#include <cstdint>
#include <optional>

namespace farflung::colour {
namespace {

constexpr std::string_view kSpaces = " \t\r\n";

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(kSpaces);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(kSpaces) - first + 1);
}

std::optional<Srgb> pixel_from_hex(std::string_view text) {
  if (text.starts_with('#')) text.remove_prefix(1);
  if (text.size() != 3 && text.size() != 6) return {};
  std::uint32_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, 16);
  if (error != std::errc() || end != text.data() + text.size()) return {};
  const auto byte = [](std::uint32_t x) { return static_cast<std::uint8_t>(x); };
  if (text.size() == 6) return Srgb{byte(value >> 16), byte(value >> 8), byte(value)};
  return Srgb{byte((value >> 8 & 15) * 17), byte((value >> 4 & 15) * 17), byte((value & 15) * 17)};
}

std::optional<Lab> lab_from_numbers(std::string_view text) {
  if (text.starts_with("lab(") && text.ends_with(')')) text = text.substr(4, text.size() - 5);
  std::array<double, 3> numbers{};
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    text = trimmed(text);
    if (i > 0 && text.starts_with(',')) text = trimmed(text.substr(1));
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), numbers[i]);
    if (error != std::errc()) return {};
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    if (!text.empty() && text[0] != ',' && kSpaces.find(text[0]) == std::string_view::npos) return {};
  }
  if (!trimmed(text).empty()) return {};
  return Lab{numbers[0], numbers[1], numbers[2]};
}

}  // namespace

Result<Lab> colour_from_typed(std::string_view text) {
  const std::string_view plain = trimmed(text);
  if (const auto pixel = pixel_from_hex(plain)) return lab_from_srgb(*pixel);
  const auto lab = lab_from_numbers(plain);
  if (!lab) {
    return input_problem(std::string(text), "not a colour", "type it as \"#3a6ea5\" or as L*, a*, b*: \"52, -14, 8\"");
  }
  const auto within = [](double x, double low, double high) { return low <= x && x <= high; };
  if (!within(lab->L, 0, 100) || !within(lab->a, -160, 160) || !within(lab->b, -160, 160)) {
    return input_problem(std::string(text), "no colour of cloth has these numbers",
                         "L* is 0 (black) to 100 (white); a* and b* rarely pass 100 either way");
  }
  return *lab;
}

std::string hex(Srgb pixel) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string text = "#";
  for (const int value : {pixel.r, pixel.g, pixel.b}) {
    text += kDigits[value >> 4];
    text += kDigits[value & 15];
  }
  return text;
}

std::string hex(Lab lab) { return hex(srgb_from_lab(lab)); }

}  // namespace farflung::colour
