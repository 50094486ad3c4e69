#include "print/retaken.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>

namespace farflung::print {
namespace {

constexpr double kWell = 0.6;       ///< likeness of those that say what the zoom is
constexpr double kEnough = 0.45;    ///< likeness of those that then fit in
constexpr double kOctaves = 0.08;   ///< from the common zoom, at most
constexpr std::size_t kFewest = 4;  ///< pairs that agree
constexpr double kShare = 0.5;      ///< of the prints of the photograph that has fewer

using Files = std::pair<std::string, std::string>;  ///< two photographs, in the order of their names

/// A pair as its two photographs see it.
struct Between {
  std::size_t laid = 0;
  double octaves = 0;  ///< from the first photograph to the second
};

std::map<Files, std::vector<Between>> by_photographs(const std::vector<Print>& prints, const std::vector<Laid>& laid) {
  std::map<Files, std::vector<Between>> between;
  for (std::size_t k = 0; k < laid.size(); ++k) {
    const std::string &a = prints[laid[k].first].photo->file, &b = prints[laid[k].second].photo->file;
    const double octaves = laid[k].overlay.octaves;
    if (a < b) between[{a, b}].push_back({k, octaves});
    if (b < a) between[{b, a}].push_back({k, -octaves});
  }
  return between;
}

/// How many pairs lie well over each other at about this zoom, no print counted twice.
std::size_t agreeing(const std::vector<Laid>& laid, const std::vector<Between>& pairs, double octaves) {
  std::set<std::size_t> first, second;
  for (const Between& pair : pairs) {
    const Laid& one = laid[pair.laid];
    if (one.overlay.likeness < kWell || std::abs(pair.octaves - octaves) > kOctaves) continue;
    first.insert(one.first), second.insert(one.second);
  }
  return std::min(first.size(), second.size());
}

std::optional<double> common_zoom(const std::vector<Laid>& laid, const std::vector<Between>& pairs, double prints) {
  std::size_t most = 0;
  double zoom = 0;
  for (const Between& pair : pairs) {
    const std::size_t agree = agreeing(laid, pairs, pair.octaves);
    if (agree > most) most = agree, zoom = pair.octaves;
  }
  if (most < kFewest || static_cast<double>(most) < kShare * prints) return {};
  return zoom;
}

}  // namespace

std::vector<bool> retaken(const std::vector<Print>& prints, const std::vector<Laid>& laid) {
  std::map<std::string, int> shown;
  for (const Print& print : prints) {
    if (print.photo) ++shown[print.photo->file];
  }
  std::vector<bool> fits(laid.size());
  for (const auto& [files, pairs] : by_photographs(prints, laid)) {
    const auto zoom = common_zoom(laid, pairs, std::min(shown[files.first], shown[files.second]));
    if (!zoom) continue;
    for (const Between& pair : pairs) {
      fits[pair.laid] = laid[pair.laid].overlay.likeness > kEnough && std::abs(pair.octaves - *zoom) <= kOctaves;
    }
  }
  return fits;
}

}  // namespace farflung::print
