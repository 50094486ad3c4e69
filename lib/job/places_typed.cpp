#include "job/places_typed.hpp"

#include <cmath>
#include <cstdlib>
#include <sstream>
#include <vector>

namespace farflung::job {
namespace {

/// The numbers in "12, 3.5, 7"; none where it is anything else.
std::optional<std::vector<double>> numbers_in(const std::string& text) {
  std::vector<double> numbers;
  std::istringstream stream(text);
  for (std::string part; std::getline(stream, part, ',');) {
    char* end = nullptr;
    const double number = std::strtod(part.c_str(), &end);
    if (end == part.c_str() || std::string(end).find_first_not_of(' ') != std::string::npos || !std::isfinite(number)) {
      return std::nullopt;
    }
    numbers.push_back(number);
  }
  return numbers;
}

}  // namespace

std::optional<std::array<double, 2>> place_typed(const std::string& text) {
  const auto numbers = numbers_in(text);
  if (!numbers || numbers->size() != 2) return std::nullopt;
  return std::array<double, 2>{(*numbers)[0], (*numbers)[1]};
}

Result<photo::Corners> corners_typed(const std::string& text) {
  const auto numbers = numbers_in(text);
  photo::Corners corners{};
  if (!numbers || numbers->size() != 2 * corners.size()) {
    return input_problem("--corners " + text, "these are no four corners", "give x,y,x,y,x,y,x,y in pixels");
  }
  for (std::size_t i = 0; i < numbers->size(); ++i) corners[i / 2][i % 2] = (*numbers)[i];
  return corners;
}

}  // namespace farflung::job
